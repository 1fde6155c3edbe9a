"""The store against a model of it: edits, ticks, undo, redo, restore, copies, names and crashes in any order.

Two tabs work on one project. The model is a list of contents; whatever the store has acknowledged must be there, in
that order, after every step and after every crash. `RABBETRY_LONG=1` runs it for some minutes.
"""

import os
from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as some
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule
from long import LONG
from stored import anything

from webapp.data import disk
from webapp.data.errors import NotWritten
from webapp.data.revisions import Conflict, Revision
from webapp.data.store import Store
from webapp.data.thinning import Used

TABS = some.sampled_from(["t1", "t2"])
FIELDS = some.sampled_from(["across", "up", "wood"])
LINES = some.sampled_from([f"line-{number}" for number in range(4)])


class StoreMachine(RuleBasedStateMachine):
    """What happens to one project, and what of it must be kept."""

    def __init__(self) -> None:
        super().__init__()
        self.place = TemporaryDirectory()
        self.now = datetime(2026, 1, 1, tzinfo=UTC)
        self.store = self.opened()

    def opened(self) -> Store:
        return Store(Path(self.place.name) / "data", check=anything, check_shop=anything, clock=self.clock)

    def clock(self) -> datetime:
        self.now += timedelta(seconds=1)
        return self.now

    @initialize()
    def start(self) -> None:
        """Every run has one project; `kept` is what each revision holds, `undoable` what undo walks back through."""
        first = {"schema": 1, "name": "Hall", "ticks": []}
        self.project_id = self.store.create(first, tab="t1")
        self.kept: dict[int, dict[str, Any]] = {1: first}
        self.undoable: list[int] = [1]
        self.redoable: list[int] = []
        self.seen = {"t1": 1, "t2": 1}
        self.savers = {1: "t1"}
        self.named: set[int] = set()

    def acknowledged(self, revision: Revision, tab: str) -> None:
        """A step was answered: from now on it must be there."""
        self.kept[revision.number] = revision.document
        self.savers[revision.number] = tab
        self.seen[tab] = revision.number

    @property
    def newest(self) -> int:
        return max(self.kept)

    def is_behind(self, tab: str) -> bool:
        """Whether somebody else has saved since a tab looked last."""
        return any(self.savers.get(number) != tab for number in range(self.seen[tab] + 1, self.newest + 1))

    def change(self, tab: str, **changed: Any) -> None:
        expected = self.kept[self.newest] | changed
        revision = self.store.change(self.project_id, lambda head: head.document | changed, tab=tab)
        assert revision.document == expected
        if revision.number not in self.kept:
            self.undoable.append(revision.number)
            self.redoable.clear()
            self.acknowledged(revision, tab)

    @rule(tab=TABS, field=FIELDS, value=some.integers(1, 4))
    def edit(self, tab: str, field: str, value: int) -> None:
        self.change(tab, **{field: value})

    @rule(tab=TABS, line=LINES, is_done=some.booleans())
    def tick(self, tab: str, line: str, is_done: bool) -> None:
        """A tick says what is wanted; it never meets a conflict, however old the page is."""
        others = [one for one in self.kept[self.newest]["ticks"] if one != line]
        self.change(tab, ticks=sorted([*others, *([line] if is_done else [])]))

    @rule(tab=TABS)
    def look(self, tab: str) -> None:
        head = self.store.head(self.project_id)
        assert (head.number, head.document) == (self.newest, self.kept[self.newest])
        self.seen[tab] = head.number

    @rule(tab=TABS, which=some.sampled_from(["undo", "redo"]))
    def step(self, tab: str, which: str) -> None:
        take = self.store.undo if which == "undo" else self.store.redo
        can = len(self.undoable) > 1 if which == "undo" else bool(self.redoable)
        try:
            revision = take(self.project_id, base=self.seen[tab], tab=tab)
        except Conflict:
            assert self.is_behind(tab)
            return
        except Exception:
            assert not can
            return
        assert can and not self.is_behind(tab)
        if which == "undo":
            self.redoable.append(self.undoable.pop())
        else:
            self.undoable.append(self.redoable.pop())
        assert revision.document == self.kept[self.undoable[-1]]
        self.acknowledged(revision, tab)

    @rule(tab=TABS, pick=some.integers(0, 10**6))
    def restore(self, tab: str, pick: int) -> None:
        number = sorted(self.kept)[pick % len(self.kept)]
        is_same = self.kept[number] == self.kept[self.newest]
        try:
            revision = self.store.restore(self.project_id, number, base=self.seen[tab], tab=tab)
        except Conflict:
            assert self.is_behind(tab) and not is_same
            return
        assert revision.document == self.kept[number]
        if not is_same:
            self.undoable.append(revision.number)
            self.redoable.clear()
            self.acknowledged(revision, tab)

    @rule(pick=some.integers(0, 10**6))
    def copy(self, pick: int) -> None:
        number = sorted(self.kept)[pick % len(self.kept)]
        copy_id = self.store.copy(self.project_id, name="What if", number=number)
        head = self.store.head(copy_id)
        assert head.document == self.kept[number] | {"name": "What if"}
        assert head.saved.origin == f"revision {number} of “Hall”"

    @rule(pick=some.integers(0, 10**6))
    def name(self, pick: int) -> None:
        number = sorted(self.kept)[pick % len(self.kept)]
        self.store.name_revision(self.project_id, number, "As quoted")
        self.named.add(number)

    @rule(gone=some.booleans())
    def delete_and_bring_back(self, gone: bool) -> None:
        self.store.delete(self.project_id)
        assert not self.store.has(self.project_id)
        if gone:
            self.crash()
        self.store.undelete(self.project_id)

    @rule(call=some.sampled_from(["fsync", "replace"]))
    def full_disk(self, call: str) -> None:
        """The disk refuses: nothing is acknowledged, and nothing is there."""

        def refuse(*_: Any) -> None:
            raise OSError(28, "No space left on device")

        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(os, call, refuse)
            with pytest.raises(NotWritten):
                self.store.change(self.project_id, lambda head: head.document | {"lost": len(self.kept)}, tab="t1")

    @rule()
    def crash(self) -> None:
        """The program is gone in the middle of a write, and started again."""
        self.store.close()
        (self.store.place / "projects" / f"{disk.TEMPORARY}x").write_text("half")
        self.store = self.opened()
        assert not list(self.store.place.rglob(f"{disk.TEMPORARY}*"))

    @precondition(lambda self: len(self.kept) > 4)
    @rule(days=some.integers(0, 60))
    def thin(self, days: int) -> None:
        """Time goes by, and the history is thinned: the model forgets what the store says it removes."""
        self.now += timedelta(days=days)
        gone = set(self.store.superfluous(self.project_id, Used()))
        assert not gone & {1, self.newest, *self.named, *self.redoable}
        assert self.store.thin(self.project_id, Used()) == len(gone)
        self.kept = {number: document for number, document in self.kept.items() if number not in gone}
        self.undoable = [number for number in self.undoable if number not in gone]

    @invariant()
    def everything_acknowledged_is_there(self) -> None:
        found = {one.number: one.document for one in self.store.revisions(self.project_id)}
        assert found == self.kept
        assert set(self.store.names(self.project_id)) == self.named

    def teardown(self) -> None:
        self.store.close()
        self.place.cleanup()


TestStoreMachine = StoreMachine.TestCase
TestStoreMachine.settings = settings(
    max_examples=2000 if LONG else 15,
    stateful_step_count=60 if LONG else 25,
    deadline=None,
    suppress_health_check=list(HealthCheck),
)
