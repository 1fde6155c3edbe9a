"""The store: every step can be taken back, and what was taken back can be done again."""

import os
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule, run_state_machine_as_test
from stored import CAFE, open_store, prints, saved

from webapp.data.errors import NothingToUndo
from webapp.data.store import Store


def test_undo_and_redo_walk_the_changes_and_survive_a_restart(data_dir: Path) -> None:
    store = open_store(data_dir)
    cafe = store.create(CAFE)
    for number in (6, 7):
        saved(store, cafe, prints(number))
    store.undo(cafe, base=3, tab="t1")
    store.close()
    store = open_store(data_dir)
    assert store.undo(cafe, base=4, tab="t1").document == CAFE
    assert store.redo(cafe, base=5, tab="t1").document == prints(6)
    assert store.redo(cafe, base=6, tab="t1").document == prints(7)
    assert [revision.saved.step for revision in store.revisions(cafe)] == [
        "redo",
        "redo",
        "undo",
        "undo",
        "save",
        "save",
        "new",
    ]
    store.close()


def test_a_restored_revision_can_be_undone(store: Store, cafe: str) -> None:
    saved(store, cafe, prints(6))
    saved(store, cafe, prints(7))
    assert store.restore(cafe, 1, base=3, tab="t1").document == CAFE
    assert store.undo(cafe, base=4, tab="t1").document == prints(7)


def test_nothing_to_undo_and_nothing_to_redo_are_said(store: Store, cafe: str) -> None:
    with pytest.raises(NothingToUndo, match="nothing to undo"):
        store.undo(cafe, base=1, tab="t1")
    with pytest.raises(NothingToUndo, match="nothing to redo"):
        store.redo(cafe, base=1, tab="t1")


class UndoAgainstTwoStacks(RuleBasedStateMachine):
    """Random changes on the disk beside the plainest model there is: what was, what is, what was taken back."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = TemporaryDirectory()
        self.store = open_store(Path(self.folder.name))
        self.cafe = self.store.create(prints(0))
        self.past: list[int] = []
        self.present = 0
        self.future: list[int] = []
        self.log = [0]

    @rule(number=st.integers(0, 4))
    def save(self, number: int) -> None:
        saved(self.store, self.cafe, prints(number))
        self.expect_new(number)

    @rule(back=st.integers(0, 30))
    def restore(self, back: int) -> None:
        number = max(1, len(self.log) - back)
        self.store.restore(self.cafe, number, **self.here())
        self.expect_new(self.log[number - 1])

    @precondition(lambda self: self.past)
    @rule()
    def undo(self) -> None:
        self.store.undo(self.cafe, **self.here())
        self.future.append(self.present)
        self.present = self.past.pop()
        self.log.append(self.present)

    @precondition(lambda self: self.future)
    @rule()
    def redo(self) -> None:
        self.store.redo(self.cafe, **self.here())
        self.past.append(self.present)
        self.present = self.future.pop()
        self.log.append(self.present)

    @rule()
    def restart(self) -> None:
        self.store.close()
        self.store = open_store(Path(self.folder.name))

    @invariant()
    def the_head_is_the_present(self) -> None:
        head = self.store.head(self.cafe)
        assert head.document == prints(self.present)
        assert head.number == len(self.log)
        assert (head.can_undo, head.can_redo) == (bool(self.past), bool(self.future))

    def expect_new(self, number: int) -> None:
        if number != self.present:
            self.past.append(self.present)
            self.present, self.future = number, []
            self.log.append(number)

    def here(self) -> dict[str, Any]:
        return {"base": self.store.head(self.cafe).number, "tab": "t1"}

    def teardown(self) -> None:
        self.store.close()
        self.folder.cleanup()


def test_undo_and_redo_agree_with_two_stacks(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "fsync", lambda descriptor: None)
    run_state_machine_as_test(
        UndoAgainstTwoStacks, settings=settings(max_examples=40, stateful_step_count=30, deadline=None)
    )
