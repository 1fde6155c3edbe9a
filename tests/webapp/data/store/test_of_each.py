"""What is found in each project is read once, and anew when its file changes; the kept list says nothing of its own."""

import json
from pathlib import Path

import pytest
from stored import CAFE, home, open_store, prints, saved

from webapp.data.list_kept import MANY_NEWS, KeptList
from webapp.data.of_each import LOOK_AGAIN_S, FoundInEach
from webapp.data.revisions import Revision
from webapp.data.store import Store


def test_each_file_is_looked_into_once(store: Store, cafe: str) -> None:
    asked: list[tuple[str, int]] = []

    def number(project_id: str, revision: Revision) -> int:
        asked.append((project_id, revision.number))
        return revision.number

    other = store.create(CAFE)
    assert store.of_each(number) == store.of_each(number) == {cafe: 1, other: 1}
    saved(store, other, prints(6))
    assert store.of_each(number) == {cafe: 1, other: 2}
    store.delete(other)
    assert store.of_each(number) == {cafe: 1}
    assert sorted(asked) == sorted([(cafe, 1), (other, 1), (other, 2)])


def test_what_is_written_here_is_seen_at_once_and_what_another_program_writes_a_little_later(
    store: Store, cafe: str, data_dir: Path
) -> None:
    now = [0.0]
    in_each = FoundInEach(data_dir / "projects", clock=lambda: now[0])
    assert in_each(_number) == {cafe: 1} and in_each(_number) is in_each(_number)
    saved(store, cafe, prints(6))
    assert in_each(_number) == {cafe: 2}
    (home(data_dir, cafe) / "r000002.json").unlink()
    now[0] += LOOK_AGAIN_S
    assert in_each(_number) == {cafe: 1}
    other = store.create(CAFE)
    assert in_each(_number) == {cafe: 1, other: 1}
    store.delete(other)
    assert in_each(_number) == {cafe: 1}


def test_a_damaged_project_is_passed_over_and_an_older_revision_stands_in(
    store: Store, cafe: str, data_dir: Path
) -> None:
    other = store.create(CAFE)
    saved(store, other, prints(6))
    (home(data_dir, cafe) / "r000001.json").write_text("{")
    (home(data_dir, other) / "r000002.json").write_text("{")
    assert store.of_each(_number) == {other: 1}
    (home(data_dir, other) / "r000002.json").unlink()
    saved(store, other, prints(7))
    assert store.of_each(_number) == {other: 2}


@pytest.fixture
def shelf(data_dir: Path) -> tuple[Path, Path]:
    """A data folder of enough projects to be worth a file, and the file."""
    store = open_store(data_dir)
    for number in range(MANY_NEWS):
        store.create(CAFE | {"name": f"Wall {number}", "client": "Ann"})
    store.list()
    store.close()
    return data_dir, data_dir / "list.json"


def test_the_list_after_a_start_reads_the_kept_file_alone(
    shelf: tuple[Path, Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    data_dir, kept = shelf
    lines = KeptList(data_dir / "projects", kept).all()
    monkeypatch.setattr("webapp.data.list_kept.read_summary", _never)
    assert KeptList(data_dir / "projects", kept).all() == lines
    assert {line.client for line in lines} == {"Ann"}


@pytest.mark.parametrize("spoil", ["gone", "{", "[]", "[1, {}]", "[0, {}]", '[1, {"x": 1}]', "half"])
def test_a_kept_file_that_cannot_be_used_is_made_anew(shelf: tuple[Path, Path], spoil: str) -> None:
    data_dir, kept = shelf
    whole = kept.read_text("utf-8")
    lines = KeptList(data_dir / "projects", kept).all()
    kept.unlink()
    if spoil != "gone":
        kept.write_text(whole[: len(whole) // 2] if spoil == "half" else spoil, "utf-8")
    assert KeptList(data_dir / "projects", kept).all() == lines
    assert kept.read_text("utf-8") == whole


def test_a_line_whose_file_was_changed_is_read_from_the_file(shelf: tuple[Path, Path]) -> None:
    data_dir, kept = shelf
    first = next(iter(KeptList(data_dir / "projects", kept).all()))
    path = home(data_dir, first.project_id) / "r000001.json"
    path.write_text(json.dumps(json.loads(path.read_text("utf-8")) | {"client": "Bea"}), "utf-8")
    line = next(one for one in KeptList(data_dir / "projects", kept).all() if one.project_id == first.project_id)
    assert (line.client, line.name) == ("Bea", first.name)
    path.write_text("{", "utf-8")
    assert len(KeptList(data_dir / "projects", kept).all()) == MANY_NEWS
    line = next(one for one in KeptList(data_dir / "projects", kept).all() if one.project_id == first.project_id)
    assert "not one of its revisions can be read" in line.problem


def _number(_: str, revision: Revision) -> int:
    return revision.number


def _never(*_: object) -> None:
    raise AssertionError("a project was read")
