"""A data folder as one zip: elsewhere it plans the same, to the digit; beside what is there it harms nothing."""

import hashlib
import io
import json
import os
from collections.abc import Iterator
from itertools import count
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from zipfile import ZipFile

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from framecalc.plan import Plan
from framecalc.project import project_text, read_project
from webapp.data.shop import profile_document
from webapp.data.store import Store
from webapp.data.whole import UnusableZip, pack, take_in
from webapp.pages.projects.demos import demo

DEMOS = ("cafe-prints.demo", "maple-canvas.demo")


def ids() -> Iterator[str]:
    return (f"new{number:05d}" for number in count())


def filled(folder: Path) -> list[str]:
    """A data folder with two projects of several revisions, one in the trash, a photo, a shop and a client's link."""
    store = Store(folder)
    made = [store.create(demo(name)) for name in DEMOS]
    store.change(made[0], lambda head: head.document | {"name": "Café, again"}, tab="t")
    gone = store.create(demo(DEMOS[0]))
    store.delete(gone)
    store.shop.change(profile_document)
    photos = folder / "projects" / made[1] / "photos"
    photos.mkdir()
    (photos / f"{'a' * 32}.jpg").write_bytes(b"\xff\xd8 picture")
    (folder / "shares").mkdir()
    (folder / "shares" / f"{'b' * 64}.json").write_text(json.dumps({"project_id": made[0]}), "utf-8")
    (folder / "devices.json").write_text("{}", "utf-8")
    (folder / "answers").mkdir()
    (folder / "answers" / "x.json").write_text("{}", "utf-8")
    store.close()
    return made


def packed(folder: Path) -> io.BytesIO:
    file = io.BytesIO()
    pack(folder, file)
    file.seek(0)
    return file


def plans(folder: Path) -> dict[str, str]:
    """The digest of the plan of every project."""
    store = Store(folder)
    found = {
        one.project_id: hashlib.sha256(
            project_text(Plan(read_project(store.head(one.project_id).document)).record()).encode()
        ).hexdigest()
        for one in store.list()
    }
    store.close()
    return found


def files(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_on_an_empty_machine_everything_comes_back_and_plans_the_same(tmp_path: Path) -> None:
    here, there = tmp_path / "here", tmp_path / "there"
    made = filled(here)
    taken = take_in(there, packed(here), new_ids=ids())
    assert set(made) < set(taken.new) and not taken.known and not taken.beside and not taken.kept
    assert plans(there) == plans(here)
    of_machine = {"devices.json", "answers/x.json", ".lock"}
    assert {name: text for name, text in files(here).items() if name not in of_machine} == {
        name: text for name, text in files(there).items() if name not in of_machine
    }


def test_what_belongs_to_one_machine_stays_there(tmp_path: Path) -> None:
    filled(tmp_path)
    names = ZipFile(packed(tmp_path)).namelist()
    assert not [name for name in names if name.startswith((".", "devices", "answers"))]


@pytest.mark.parametrize("name", ["projects", "trash", "shares", "shop.json"])
def test_what_lies_on_another_disk_behind_a_link_is_packed_too(tmp_path: Path, name: str) -> None:
    """Fault: a folder that was moved to another disk was left out of each backup without a word."""
    here, there = tmp_path / "here", tmp_path / "other-disk"
    filled(here)
    names = ZipFile(packed(here)).namelist()
    (here / name).rename(there)
    (here / name).symlink_to(there)
    assert ZipFile(packed(here)).namelist() == names


@pytest.mark.parametrize("name", ["projects", "projects/k3fw07qz", "shop.json", "rack.json", "cuts"])
def test_what_leads_nowhere_is_named(tmp_path: Path, name: str) -> None:
    """Fault: nobody was told that it is in no backup."""
    filled(tmp_path)
    if (tmp_path / name).exists():
        (tmp_path / name).rename(tmp_path / "aside")
    (tmp_path / name).symlink_to(tmp_path / name)
    assert pack(tmp_path, io.BytesIO()) == (name,)


def test_a_folder_where_a_file_should_be_is_named(tmp_path: Path) -> None:
    filled(tmp_path)
    (tmp_path / "rack.json").mkdir()
    assert pack(tmp_path, io.BytesIO()) == ("rack.json",)


def test_links_in_a_circle_are_gone_through_once(tmp_path: Path) -> None:
    made = filled(tmp_path)
    (tmp_path / "projects" / made[0] / "photos").symlink_to(tmp_path)
    (tmp_path / "shares" / "again").symlink_to(tmp_path)
    assert pack(tmp_path, io.BytesIO()) == ()


def test_taken_in_twice_nothing_is_there_twice(tmp_path: Path) -> None:
    here, there = tmp_path / "here", tmp_path / "there"
    filled(here)
    take_in(there, packed(here), new_ids=ids())
    before = files(there)
    taken = take_in(there, packed(here), new_ids=ids())
    assert len(taken.known) == 3 and not taken.new and not taken.beside and not taken.kept
    assert files(there) == before


def test_a_project_that_has_grown_here_is_known(tmp_path: Path) -> None:
    made = filled(tmp_path)
    old = packed(tmp_path)
    store = Store(tmp_path)
    store.change(made[1], lambda head: head.document | {"name": "more"}, tab="t")
    store.close()
    assert made[1] in take_in(tmp_path, old, new_ids=ids()).known


def test_a_link_that_was_answered_elsewhere_is_told_and_left_as_it_is_here(tmp_path: Path) -> None:
    """Fault: a client's yes in the zip was passed over without a word."""
    filled(tmp_path)
    share = tmp_path / "shares" / f"{'b' * 64}.json"
    unanswered = share.read_bytes()
    share.write_bytes(unanswered.replace(b"}", b', "approval": {"name": "Ada"}}'))
    answered = packed(tmp_path)
    share.write_bytes(unanswered)
    assert take_in(tmp_path, answered, new_ids=ids()).kept == (f"shares/{share.name}",)
    assert share.read_bytes() == unanswered


def test_a_project_changed_in_both_places_stands_beside_and_nothing_is_overwritten(tmp_path: Path) -> None:
    here, there = tmp_path / "here", tmp_path / "there"
    made = filled(here)
    take_in(there, packed(here), new_ids=ids())
    for folder, name in ((here, "mine"), (there, "theirs")):
        store = Store(folder)
        store.change(made[0], lambda head, name=name: head.document | {"name": name}, tab="t")
        store.close()
    (here / "shop.json").write_text(json.dumps(profile_document({}) | {"unit": "mm"}), "utf-8")
    (there / "shares" / f"{'b' * 64}.json").unlink()
    before = files(there)
    taken = take_in(there, packed(here), new_ids=ids())
    assert dict(taken.beside) == {made[0]: "new00000"}
    assert not [name for name, text in before.items() if files(there)[name] != text]
    store = Store(there)
    assert store.head("new00000").document["name"] == "mine"
    store.close()
    assert not (there / "shares" / f"{'b' * 64}.json").exists(), "a link of the other one's is not hung on this one"


@pytest.mark.parametrize(
    "name",
    [
        "../evil.json",
        "/etc/passwd",
        "projects/../../x/r000001.json",
        "projects/ABCDEFGH/r000001.json",
        "a.exe",
        "devices.json",
    ],
)
def test_a_zip_with_anything_else_in_it_is_refused_whole(tmp_path: Path, name: str) -> None:
    filled(tmp_path / "here")
    file = packed(tmp_path / "here")
    with ZipFile(file, "a") as whole:
        whole.writestr(name, "{}")
    file.seek(0)
    with pytest.raises(UnusableZip, match="is not from Rabbetry"):
        take_in(tmp_path / "there", file, new_ids=ids())
    assert not (tmp_path / "there").exists()


@given(st.binary(max_size=300))
def test_what_is_no_zip_is_refused_in_a_sentence(tmp_path_factory: pytest.TempPathFactory, content: bytes) -> None:
    with pytest.raises(UnusableZip):
        take_in(tmp_path_factory.getbasetemp() / "none", io.BytesIO(content), new_ids=ids())


@pytest.fixture(scope="module")
def sound(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder that nobody changes."""
    folder = tmp_path_factory.mktemp("sound")
    filled(folder)
    return folder


@settings(max_examples=150)
@given(at=st.floats(0, 1, exclude_max=True), by=st.integers(1, 255))
def test_a_damaged_zip_never_writes_a_file_that_was_not_in_it(sound: Path, at: float, by: int) -> None:
    content = bytearray(packed(sound).getvalue())
    content[int(at * len(content))] ^= by
    with TemporaryDirectory() as name:
        there = Path(name)
        try:
            take_in(there, io.BytesIO(content), new_ids=ids())
        except UnusableZip:
            assert not files(there)
        else:
            assert not [name for name, text in files(there).items() if files(sound).get(name) != text]


@pytest.mark.parametrize("when_s", [0, 5e9])
def test_a_file_of_any_date_is_packed(tmp_path: Path, when_s: float) -> None:
    """Fault: a computer that had lost its clock wrote files of 1970, and no zip could be made."""
    filled(tmp_path / "here")
    for path in (tmp_path / "here").rglob("r*.json"):
        os.utime(path, (when_s, when_s))
    take_in(tmp_path / "there", packed(tmp_path / "here"), new_ids=ids())
    assert plans(tmp_path / "there") == plans(tmp_path / "here")


def test_a_project_deleted_meanwhile_is_packed_in_the_trash(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Fault: the zip could not be made."""
    (project_id, *_), read_bytes = filled(tmp_path), Path.read_bytes

    def deletes(path: Path) -> bytes:
        folder = tmp_path / "projects" / project_id
        if folder.exists() and path.parent == folder:
            folder.rename(tmp_path / "trash" / project_id)
        return read_bytes(path)

    monkeypatch.setattr(Path, "read_bytes", deletes)
    names = ZipFile(packed(tmp_path)).namelist()
    assert f"trash/{project_id}/r000001.json" in names
    assert not any(name.startswith(f"projects/{project_id}") for name in names)


def test_a_folder_that_cannot_be_looked_into_is_said_to_be_missing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Fault: it was left out, and nobody heard of it."""
    (project_id, *_), scandir = filled(tmp_path), os.scandir

    def refuse(place: Any) -> Any:
        if str(place).endswith(project_id):
            raise PermissionError(13, "Permission denied", str(place))
        return scandir(place)

    monkeypatch.setattr(os, "scandir", refuse)
    assert pack(tmp_path, io.BytesIO()) == (f"projects/{project_id}",)
