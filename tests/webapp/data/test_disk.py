"""Safe writing: the order of the calls, and what a refusing disk leaves behind."""

import errno
import os
import stat
from pathlib import Path
from typing import Any

import pytest

from webapp.data import disk
from webapp.data.disk import building, make_folder, move, read_json, sweep, write_safely
from webapp.data.errors import NotWritten, UnreadableFile

pytestmark = pytest.mark.usefixtures("slow_disk")


@pytest.fixture
def calls(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Record the calls that decide what a power cut leaves: a kill cannot show a missing fsync."""
    log: list[str] = []
    fsync, replace, rename = os.fsync, os.replace, os.rename

    def logged_fsync(descriptor: int) -> None:
        log.append("fsync folder" if stat.S_ISDIR(os.fstat(descriptor).st_mode) else "fsync file")
        fsync(descriptor)

    def logged_replace(source: Path, target: Path) -> None:
        log.append("replace in the same folder" if source.parent == target.parent else "replace elsewhere")
        replace(source, target)

    def logged_rename(source: Path, target: Path) -> None:
        log.append("rename")
        rename(source, target)

    monkeypatch.setattr(os, "fsync", logged_fsync)
    monkeypatch.setattr(os, "replace", logged_replace)
    monkeypatch.setattr(os, "rename", logged_rename)
    return log


def refuse(*_: Any) -> None:
    raise OSError(errno.ENOSPC, "No space left on device")


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_a_file_is_forced_to_the_disk_before_and_its_folder_after_it_takes_its_name(
    tmp_path: Path, calls: list[str]
) -> None:
    write_safely(tmp_path / "shop.json", "{}\n")
    assert calls == ["fsync file", "replace in the same folder", "fsync folder"]


def test_a_move_is_forced_to_the_disk_at_both_ends(tmp_path: Path, calls: list[str]) -> None:
    for name in ("here", "there", "here/bench"):
        (tmp_path / name).mkdir()
    move(tmp_path / "here/bench", tmp_path / "there/bench")
    assert calls == ["rename", "fsync folder", "fsync folder"]
    assert names(tmp_path / "there") == ["bench"]


def test_what_is_written_has_the_usual_mode_and_not_the_private_one_of_a_temporary_file(tmp_path: Path) -> None:
    (tmp_path / "plain.json").write_text("{}\n")
    write_safely(tmp_path / "shop.json", "{}\n")
    assert (tmp_path / "shop.json").stat().st_mode == (tmp_path / "plain.json").stat().st_mode


@pytest.mark.parametrize("call", ["fsync", "replace"])
def test_a_full_disk_keeps_the_old_file_and_leaves_no_other(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: str
) -> None:
    write_safely(tmp_path / "shop.json", "old\n")
    monkeypatch.setattr(os, call, refuse)
    with pytest.raises(NotWritten, match=r"nothing was saved: .*shop\.json.*No space left on device"):
        write_safely(tmp_path / "shop.json", "new\n")
    assert (tmp_path / "shop.json").read_text() == "old\n"
    assert names(tmp_path) == ["shop.json"]


def test_a_folder_that_is_not_confirmed_does_not_pass_for_nothing_saved(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("webapp.data.disk.sync_folder", refuse)
    with pytest.raises(NotWritten, match=r"shop\.json was written, but the disk does not confirm it"):
        write_safely(tmp_path / "shop.json", "new\n")
    assert (tmp_path / "shop.json").read_text() == "new\n"


def test_a_text_that_is_no_unicode_never_reaches_the_disk(tmp_path: Path) -> None:
    with pytest.raises(UnicodeEncodeError):
        write_safely(tmp_path / "shop.json", "\ud800")
    assert names(tmp_path) == []


@pytest.mark.parametrize("call", ["rename", "mkdir"])
def test_a_folder_that_cannot_be_finished_vanishes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: str) -> None:
    monkeypatch.setattr(os, call, refuse)
    with pytest.raises(NotWritten), building(tmp_path / "home") as nursery:
        (nursery / "first.json").write_text("{}\n")
    assert names(tmp_path) == []


def test_a_folder_takes_its_name_only_when_it_is_whole(tmp_path: Path) -> None:
    with building(tmp_path / "home") as nursery:
        (nursery / "first.json").write_text("{}\n")
        assert not (tmp_path / "home").exists()
    assert names(tmp_path / "home") == ["first.json"]
    assert names(tmp_path) == ["home"]


def test_the_sweep_removes_what_a_crash_left_and_nothing_else(tmp_path: Path) -> None:
    (tmp_path / ".tmp-nursery").mkdir()
    (tmp_path / ".tmp-nursery/.tmp-file").write_text("half")
    (tmp_path / "home").mkdir()
    (tmp_path / "home/.tmp-file").write_text("half")
    (tmp_path / "home/r000001.json").write_text("{}\n")
    sweep(tmp_path)
    assert names(tmp_path) == ["home"]
    assert names(tmp_path / "home") == ["r000001.json"]


@pytest.mark.parametrize("content", [b"", b'{"name": "caf', b"[]", b"\xff\xfe\xfd", b"[" * 100_000])
def test_a_damaged_file_is_named(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "shop.json").write_bytes(content)
    with pytest.raises(UnreadableFile, match=r"shop\.json is damaged"):
        read_json(tmp_path / "shop.json")


@pytest.mark.parametrize("content", [b'{"\\ud800": 1}', b'{"a": "\\uDFFF"}', b'{"a": "\xed\xa0\x80"}'])
def test_a_file_with_half_a_letter_is_named(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "shop.json").write_bytes(content)
    with pytest.raises(UnreadableFile, match="half a letter"):
        read_json(tmp_path / "shop.json")


def test_whole_letters_are_read_however_they_are_written(tmp_path: Path) -> None:
    (tmp_path / "shop.json").write_bytes(b'{"a": "\\ud83d\\ude00"}')
    assert read_json(tmp_path / "shop.json") == {"a": "\U0001f600"}


def test_every_new_folder_is_forced_to_the_disk_by_the_one_above_it(tmp_path: Path, calls: list[str]) -> None:
    make_folder(tmp_path / "photos/originals")
    assert calls == ["fsync folder", "fsync folder"]
    make_folder(tmp_path / "photos/originals")
    assert calls == ["fsync folder", "fsync folder"]


def test_a_folder_that_cannot_be_made_is_refused_in_words(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "mkdir", refuse)
    with pytest.raises(NotWritten, match=r"nothing was saved: .*photos.*No space left"):
        make_folder(tmp_path / "photos/originals")


def test_what_cannot_be_swept_away_keeps_nobody_from_the_rest(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("a", "b"):
        (tmp_path / name).mkdir()
        (tmp_path / name / ".tmp-file").write_text("half")
    removed = disk.remove

    def stubborn(path: Path) -> None:
        if path.parent.name == "a":
            raise PermissionError
        removed(path)

    monkeypatch.setattr(disk, "remove", stubborn)
    sweep(tmp_path)
    assert (names(tmp_path / "a"), names(tmp_path / "b")) == ([".tmp-file"], [])
