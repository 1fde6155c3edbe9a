"""The store: nothing acknowledged is lost, nobody is overwritten, every step can be taken back."""

import json
import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Thread
from typing import Any

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule, run_state_machine_as_test

from framecalc.errors import FrameCalcError, UnreadableProject
from webapp.errors import (
    FolderInUse,
    NoSuchProject,
    NoSuchRevision,
    NothingToUndo,
    NotWritten,
    UnreadableFile,
    UnusableFolder,
)
from webapp.revisions import Conflict
from webapp.store import Store

CAFE = {"schema": 1, "name": "Café wall", "unit": "mm", "prints": 5}
ROOT = Path(__file__).parents[2]


def anything(_: dict[str, Any]) -> None:
    """Let every document pass: the store itself does not know what a project is."""


def minutes() -> Callable[[], datetime]:
    """Make a clock that goes on by one minute each time it is looked at."""
    numbers = count()
    return lambda: datetime(2026, 3, 1, 9, tzinfo=UTC) + timedelta(minutes=next(numbers))


def open_store(folder: Path) -> Store:
    return Store(folder, check=anything, clock=minutes())


@pytest.fixture
def store(data_dir: Path) -> Iterator[Store]:
    store = open_store(data_dir)
    yield store
    store.close()


@pytest.fixture
def cafe(store: Store) -> str:
    return store.create(CAFE)


def prints(number: int) -> dict[str, Any]:
    return CAFE | {"prints": number}


def home(data_dir: Path, project_id: str) -> Path:
    return data_dir / "projects" / project_id


# --- the file


def test_a_revision_is_a_file_that_a_person_can_read(store: Store, data_dir: Path) -> None:
    cafe = store.create({"schema": 1, "name": "Café wall"}, tab="t1")
    text = (home(data_dir, cafe) / "r000001.json").read_text("utf-8")
    assert text == (
        '{\n  "schema": 1,\n  "name": "Café wall",\n  "saved": {\n    "revision": 1,\n'
        '    "when": "2026-03-01T09:00:00.000Z",\n    "tab": "t1",\n    "step": "new",\n    "equals": 1,\n'
        '    "redo": []\n  }\n}\n'
    )


def test_how_it_was_saved_is_no_part_of_the_project(store: Store, cafe: str) -> None:
    imported = store.create(store.head(cafe).document | {"saved": {"revision": 99}}, step="import")
    head = store.head(imported)
    assert head.document == CAFE
    assert (head.number, head.saved.step) == (1, "import")


def test_older_revisions_stay_as_they_were(store: Store, cafe: str) -> None:
    store.save(cafe, prints(6), base=1, tab="t1")
    store.save(cafe, prints(7), base=2, tab="t1")
    assert [revision.document["prints"] for revision in store.revisions(cafe)] == [7, 6, 5]
    assert store.revision(cafe, 2).document == prints(6)


def test_the_newest_numbers_are_those_of_projects_that_are_there(store: Store, cafe: str) -> None:
    other = store.create(CAFE | {"name": "Bar"})
    store.save(other, CAFE | {"name": "Inn"}, base=1, tab="")
    assert store.newest() == {cafe: 1, other: 2}
    store.delete(other)
    assert store.newest() == {cafe: 1}


def test_saving_what_is_there_already_writes_nothing(store: Store, cafe: str) -> None:
    assert store.save(cafe, dict(CAFE), base=1, tab="t1").number == 1
    assert len(store.revisions(cafe)) == 1


def test_one_and_true_are_different_in_a_file(store: Store) -> None:
    project_id = store.create({"name": "x", "turned": 1})
    assert store.save(project_id, {"name": "x", "turned": True}, base=1, tab="t1").number == 2


def test_what_is_no_project_is_refused_before_the_disk_is_touched(data_dir: Path) -> None:
    store = Store(data_dir)
    with pytest.raises(FrameCalcError):
        store.create({"name": "no schema"})
    store.close()
    assert list((data_dir / "projects").iterdir()) == []


def test_a_change_that_is_no_project_is_refused_and_the_file_untouched(store: Store, cafe: str) -> None:
    def refuse(_: dict[str, Any]) -> None:
        raise UnreadableProject("“prints” is not known here", field="prints")

    store._check = refuse
    with pytest.raises(UnreadableProject, match="not known here"):
        store.save(cafe, prints(6), base=1, tab="t1")
    assert store.head(cafe).document == CAFE


# --- several tabs


def test_a_change_from_an_old_page_is_refused_with_both_sides_of_the_matter(store: Store, cafe: str) -> None:
    store.save(cafe, prints(6), base=1, tab="bench")
    with pytest.raises(Conflict, match="revision 2 is the newest") as refusal:
        store.save(cafe, prints(7), base=1, tab="desk")
    assert refusal.value.current.document == prints(6)
    assert refusal.value.base is not None
    assert refusal.value.base.document == CAFE
    assert store.head(cafe).number == 2


def test_a_tab_does_not_conflict_with_itself(store: Store, cafe: str) -> None:
    store.save(cafe, prints(6), base=1, tab="bench")
    assert store.save(cafe, prints(7), base=1, tab="bench").number == 3


def test_one_foreign_change_among_its_own_is_a_conflict(store: Store, cafe: str) -> None:
    store.save(cafe, prints(6), base=1, tab="bench")
    store.save(cafe, prints(7), base=2, tab="desk")
    with pytest.raises(Conflict):
        store.save(cafe, prints(8), base=1, tab="bench")


def test_pages_without_a_tab_id_are_strangers_to_each_other(store: Store, cafe: str) -> None:
    store.save(cafe, prints(6), base=1, tab="")
    with pytest.raises(Conflict):
        store.save(cafe, prints(7), base=1, tab="")


@pytest.mark.parametrize("base", [0, -1, 2, 99])
def test_a_base_that_never_was_is_a_conflict(store: Store, cafe: str, base: int) -> None:
    with pytest.raises(Conflict) as refusal:
        store.save(cafe, prints(6), base=base, tab="bench")
    assert refusal.value.base is None


@pytest.mark.parametrize("step", ["undo", "redo"])
def test_undo_and_redo_from_an_old_page_are_refused_too(store: Store, cafe: str, step: str) -> None:
    store.save(cafe, prints(6), base=1, tab="bench")
    with pytest.raises(Conflict):
        getattr(store, step)(cafe, base=1, tab="desk")


def test_four_threads_lose_no_update(store: Store, cafe: str) -> None:
    def count_one_more(tab: str) -> None:
        while True:
            head = store.head(cafe)
            changed = head.document | {tab: head.document.get(tab, 0) + 1}
            try:
                store.save(cafe, changed, base=head.number, tab=tab)
                return
            except Conflict:
                continue

    def work(tab: str) -> None:
        for _ in range(20):
            count_one_more(tab)

    threads = [Thread(target=work, args=(tab,)) for tab in "abcd"]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert store.head(cafe).document == CAFE | {"a": 20, "b": 20, "c": 20, "d": 20}
    assert store.head(cafe).number == 1 + 4 * 20


def test_two_tabs_that_make_the_same_change_do_not_conflict(store: Store, cafe: str) -> None:
    store.save(cafe, prints(6), base=1, tab="bench")
    assert store.save(cafe, prints(6), base=1, tab="desk").number == 2


# --- undo and redo


def test_undo_and_redo_walk_the_changes_and_survive_a_restart(data_dir: Path) -> None:
    store = open_store(data_dir)
    cafe = store.create(CAFE)
    for number in (6, 7):
        store.save(cafe, prints(number), base=number - 5, tab="t1")
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
    store.save(cafe, prints(6), base=1, tab="t1")
    store.save(cafe, prints(7), base=2, tab="t1")
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
        self.store.save(self.cafe, prints(number), **self.here())
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


# --- damage, full disks, crashes


@pytest.mark.parametrize("content", ["", '{"schema": 1, "na', "[]", "{}", '{"saved": {"revision": "x"}}'])
def test_a_damaged_newest_revision_does_not_hide_the_older_ones(
    store: Store, cafe: str, data_dir: Path, content: str
) -> None:
    store.save(cafe, prints(6), base=1, tab="t1")
    store.save(cafe, prints(7), base=2, tab="t1")
    damaged = home(data_dir, cafe) / "r000003.json"
    damaged.write_text(content)
    head = store.head(cafe)
    assert (head.number, head.document, head.damaged) == (2, prints(6), (3,))
    assert "revision 3 is damaged" in store.list()[0].problem
    assert store.save(cafe, prints(8), base=2, tab="t1").number == 4
    assert store.undo(cafe, base=4, tab="t1").document == prints(6)
    assert damaged.read_text() == content


def test_a_project_without_one_readable_revision_is_still_listed(store: Store, cafe: str, data_dir: Path) -> None:
    (home(data_dir, cafe) / "r000001.json").write_text("")
    assert "not one of its revisions can be read" in store.list()[0].problem
    with pytest.raises(UnreadableFile):
        store.head(cafe)


@pytest.mark.parametrize("call", ["fsync", "replace"])
def test_a_full_disk_refuses_the_change_and_keeps_the_project(
    store: Store, cafe: str, data_dir: Path, monkeypatch: pytest.MonkeyPatch, call: str
) -> None:
    def refuse(*_: Any) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(os, call, refuse)
        with pytest.raises(NotWritten, match="No space left"):
            store.save(cafe, prints(6), base=1, tab="t1")
        with pytest.raises(NotWritten, match="No space left"):
            store.create(CAFE)
    assert [path.name for path in data_dir.rglob("*.json")] == ["r000001.json"]
    assert list(data_dir.rglob(".tmp-*")) == []
    assert store.save(cafe, prints(6), base=1, tab="t1").number == 2


@pytest.mark.skipif(os.name == "nt", reason="the harness forks")
def test_a_killed_process_loses_nothing_that_it_acknowledged(tmp_path: Path) -> None:
    found = after_kills(tmp_path, kills=100, mode="good")
    assert found["versions"] > 50, "hardly anything was saved between the kills"
    assert (found["damaged"], found["lost"], found["torn"]) == (0, 0, 0)


@pytest.mark.skipif(os.name == "nt", reason="the harness forks")
@pytest.mark.parametrize(("mode", "fault"), [("in-place", "damaged"), ("acknowledge-first", "lost")])
def test_the_harness_finds_a_planted_fault(tmp_path: Path, mode: str, fault: str) -> None:
    assert after_kills(tmp_path, kills=30, mode=mode)[fault] > 0


def after_kills(folder: Path, *, kills: int, mode: str) -> dict[str, int]:
    command = [sys.executable, "-m", "tests.webapp.crash_harness", str(folder / "data"), str(kills), mode]
    answer = subprocess.run(command, capture_output=True, text=True, check=True, cwd=ROOT)
    return json.loads(answer.stdout)


# --- the data folder


def test_a_second_copy_on_the_same_folder_is_refused(store: Store, data_dir: Path) -> None:
    with pytest.raises(FolderInUse, match=r"in use by another running copy: .* choose another folder"):
        open_store(data_dir)


def test_a_folder_that_was_let_go_can_be_taken(data_dir: Path) -> None:
    open_store(data_dir).close()
    open_store(data_dir).close()


def test_a_file_in_place_of_the_folder_is_named(tmp_path: Path) -> None:
    (tmp_path / "data").write_text("a letter")
    with pytest.raises(UnusableFolder, match=r"data cannot hold the projects .*: a folder that you may write into"):
        open_store(tmp_path / "data")


def test_leftovers_of_a_crash_are_swept_at_the_start_and_never_listed(data_dir: Path) -> None:
    store = open_store(data_dir)
    cafe = store.create(CAFE)
    store.close()
    (home(data_dir, cafe) / ".tmp-1").write_text("half")
    (data_dir / "projects/.tmp-2").mkdir()
    store = open_store(data_dir)
    assert [summary.project_id for summary in store.list()] == [cafe]
    assert list(data_dir.rglob(".tmp-*")) == []
    store.close()


def test_a_file_of_somebody_else_is_no_project(store: Store, cafe: str, data_dir: Path) -> None:
    (data_dir / "projects/notes.txt").write_text("buy glue")
    (data_dir / "projects/somebody").mkdir()
    (home(data_dir, cafe) / "photo.png").write_bytes(b"")
    assert [summary.project_id for summary in store.list()] == [cafe]


HOSTILE = [
    "",
    ".",
    "..",
    "../trash",
    "..%2f..",
    "a/b",
    "/etc",
    "C:\\",
    "x" * 300,
    "abcdefg\n",
    "abcdefgh\n",
    "\0",
    "ABCDEFGH",
    "é" * 8,
]


@pytest.mark.parametrize("project_id", HOSTILE)
def test_an_id_that_is_not_ours_never_becomes_a_path(store: Store, project_id: str) -> None:
    change = {"base": 1, "tab": "t1"}
    attempts: list[Callable[[], object]] = [
        lambda: store.head(project_id),
        lambda: store.revision(project_id, 1),
        lambda: store.revisions(project_id),
        lambda: store.save(project_id, CAFE, **change),
        lambda: store.rename(project_id, "x", **change),
        lambda: store.restore(project_id, 1, **change),
        lambda: store.undo(project_id, **change),
        lambda: store.redo(project_id, **change),
        lambda: store.copy(project_id, name="x"),
        lambda: store.delete(project_id),
        lambda: store.undelete(project_id),
    ]
    for attempt in attempts:
        with pytest.raises(NoSuchProject):
            attempt()


@pytest.mark.skipif(os.name == "nt", reason="links need a privilege there")
def test_a_link_out_of_the_data_folder_is_not_followed(store: Store, data_dir: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "elsewhere/r000001.json").write_text("{}")
    (data_dir / "projects/abcdefgh").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(NoSuchProject):
        store.head("abcdefgh")
    assert store.list() == ()


def test_a_revision_that_never_was_is_said(store: Store, cafe: str) -> None:
    with pytest.raises(NoSuchRevision, match="no revision 7"):
        store.revision(cafe, 7)


# --- the list, the trash, the shop


def test_the_project_changed_last_comes_first(store: Store) -> None:
    first, second = store.create(CAFE | {"name": "first"}), store.create(CAFE | {"name": "second"})
    assert [summary.name for summary in store.list()] == ["second", "first"]
    store.rename(first, "first again", base=1, tab="t1")
    assert [summary.project_id for summary in store.list()] == [first, second]
    assert store.list()[0].name == "first again"


def test_a_copy_starts_anew_with_what_is_there_now(store: Store, cafe: str) -> None:
    store.save(cafe, prints(6), base=1, tab="t1")
    copy = store.head(store.copy(cafe, name="Bar wall"))
    assert copy.document == prints(6) | {"name": "Bar wall"}
    assert (copy.number, copy.saved.step, copy.can_undo) == (1, "copy", False)


def test_a_deleted_project_comes_back_with_all_its_revisions(store: Store, cafe: str) -> None:
    store.save(cafe, prints(6), base=1, tab="t1")
    store.delete(cafe)
    assert store.list() == ()
    assert [summary.project_id for summary in store.trashed()] == [cafe]
    with pytest.raises(NoSuchProject):
        store.save(cafe, prints(7), base=2, tab="t1")
    store.undelete(cafe)
    assert store.trashed() == ()
    assert len(store.revisions(cafe)) == 2


def test_the_shop_profile_is_empty_until_it_is_saved(store: Store) -> None:
    assert store.read_shop() == {}
    store.write_shop({"unit": "in", "kerf": "1/8 in"})
    assert store.read_shop() == {"unit": "in", "kerf": "1/8 in"}


def test_a_damaged_shop_profile_is_named_and_not_taken_for_an_empty_one(store: Store, data_dir: Path) -> None:
    (data_dir / "shop.json").write_text("{")
    with pytest.raises(UnreadableFile, match=r"shop\.json is damaged"):
        store.read_shop()
