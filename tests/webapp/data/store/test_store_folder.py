"""The data folder of a store: whose it is, what is swept, what never becomes a path."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from stored import CAFE, home, open_store, saved

from webapp.data.errors import FolderInUse, NoSuchProject, NoSuchRevision, UnusableFolder
from webapp.data.store import Store


def test_a_second_copy_on_the_same_folder_is_refused(store: Store, data_dir: Path) -> None:
    with pytest.raises(FolderInUse, match=r"in use by another running copy: .* choose another folder"):
        open_store(data_dir)


def test_a_folder_that_was_let_go_can_be_taken(data_dir: Path) -> None:
    open_store(data_dir).close()
    open_store(data_dir).close()


def test_a_file_in_place_of_the_folder_is_named(tmp_path: Path) -> None:
    (tmp_path / "data").write_text("a letter")
    with pytest.raises(
        UnusableFolder, match=r"data cannot hold the projects .*: choose a folder that you may write into"
    ):
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
        lambda: saved(store, project_id, CAFE),
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
    with pytest.raises(NoSuchRevision, match="No revision 7 here"):
        store.revision(cafe, 7)
