"""`rabbetry check`: each fault with its file, line, field and what would be right, and a status for scripts."""

import json
import os
from pathlib import Path
from typing import Any

import pytest

from webapp.__main__ import main
from webapp.data.checking import check_files
from webapp.data.revisions import file_name
from webapp.data.shop import profile_document
from webapp.data.store import Store
from webapp.pages.projects.demos import demo


def written(path: Path, document: Any) -> Path:
    path.write_text(document if isinstance(document, str) else json.dumps(document, indent=2), "utf-8")
    return path


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """A data folder with two projects and a shop."""
    folder = tmp_path / "data"
    store = Store(folder)
    for name in ("cafe-prints.demo", "maple-canvas.demo"):
        store.create(demo(name))
    store.shop.change(profile_document)
    store.close()
    return folder


def first_file(data: Path) -> Path:
    return sorted(data.glob(f"projects/*/{file_name(1)}"))[0]


def test_good_files_are_counted_and_end_well(data: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(data)]) == 0
    assert capsys.readouterr().out == "3 files checked: nothing is wrong\n"
    assert main(["check", str(first_file(data))]) == 0
    assert capsys.readouterr().out == "1 file checked: nothing is wrong\n"


def test_a_fault_names_file_field_and_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    document = demo("cafe-prints.demo")
    frame = document["frames"][0]["id"]
    document["frames"][0]["section"]["face_width"] = "wide"
    file = written(tmp_path / "a.json", document)
    line = next(at for at, text in enumerate(file.read_text("utf-8").splitlines(), start=1) if '"wide"' in text)
    assert main(["check", str(tmp_path)]) == 1
    (said,) = capsys.readouterr().out.splitlines()
    assert said.startswith(f"{file}: frames.{frame}.section.face_width: ")
    assert said.endswith(f"(line {line})")


def test_every_fault_of_every_file_is_listed(tmp_path: Path) -> None:
    document = demo("cafe-prints.demo")
    document["frames"][0]["section"]["face_width"] = "wide"
    document["frames"][0]["artwork"]["across"] = "-1 mm"
    written(tmp_path / "a.json", document)
    written(tmp_path / "b.json", "{")
    written(tmp_path / "c.json", demo("maple-canvas.demo"))
    faults = check_files(tmp_path).faults
    assert [fault.file.name for fault in faults] == ["a.json", "a.json", "b.json"]


def test_a_frame_that_cannot_be_computed_is_a_fault_of_its_field(tmp_path: Path) -> None:
    document = demo("cafe-prints.demo")
    frame = document["frames"][0]
    frame["section"]["rabbet_depth"] = "4000 mm"
    (fault, *_) = check_files(written(tmp_path / "a.json", document)).faults
    assert fault.field == f"frames.{frame['id']}.section.rabbet_depth"


@pytest.mark.parametrize(
    ("name", "text", "field"),
    [
        ("shop.json", json.dumps(profile_document({}) | {"inch_step": "1/7"}), "inch_step"),
        ("shop.json", "{", ""),
        ("rack.json", '{"schema": 1, "sticks": [{"id": "s1"}]}', "sticks.s1.tag"),
        ("rack.json", "[]", ""),
    ],
)
def test_the_files_of_the_shop_are_checked_too(data: Path, name: str, text: str, field: str) -> None:
    written(data / name, text)
    fault = check_files(data).faults[0]
    assert (fault.file.name, fault.field) == (name, field)


@pytest.mark.parametrize(
    "name",
    [
        *("shop-before.json", "rack-before.json", "backup.json", "devices.json", "cuts/abc123.json"),
        *("projects/*/n000001.json", "trash/*/r000001.json", f"projects/*/photos/{'a' * 32}.jpg"),
        *(f"shares/{'a' * 64}{ending}" for ending in (".json", ".copy.json", ".k3fw07qz.r000001.inputs.json")),
    ],
)
def test_every_other_file_of_a_data_folder_is_checked_too(
    data: Path, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Fault: only projects, shop and rack were; a lost yes of a client was not found."""
    here = first_file(data).parent.name
    file = data / name.replace("*", here)
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(b"\0" * 60)
    assert main(["check", str(data)]) == 1
    (said,) = capsys.readouterr().out.splitlines()
    assert said.startswith(f"{file}: ") and ("damaged" in said or "may hold a client's yes" in said)


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("devices.json", '{"first": "", "devices": [{"id": "d1", "name": 7}]}'),
        (f"shares/{'a' * 64}.k3fw07qz.r000001.inputs.json", '{"schema": 2, "name": [1]}'),
    ],
)
def test_what_is_json_and_nothing_more_is_a_fault(data: Path, name: str, text: str) -> None:
    """Fault: paired devices, and the project as a client saw it, were taken for whole if they were any JSON."""
    (data / "shares").mkdir()
    (data / name).write_text(text, "utf-8")
    assert main(["check", str(data)]) == 1


def test_what_is_wrong_with_the_rack_is_told_with_its_line_and_its_kind(data: Path) -> None:
    text = '{"schema": 1,\n "sticks": [{"id": "s1",\n  "is_board": 1,\n  "length": 300}]}'
    written(data / "rack.json", text)
    said = {fault.field: fault.sentence for fault in check_files(data).faults}
    assert said["sticks.s1.is_board"] == "Enter true or false (line 3)"
    assert said["sticks.s1.length"].startswith("Enter a length") and said["sticks.s1.length"].endswith("(line 4)")
    assert said["sticks.s1.tag"].endswith("(line 2)")


def test_a_revision_that_does_not_say_how_it_was_saved_is_a_fault(data: Path) -> None:
    file = first_file(data)
    document = json.loads(file.read_text("utf-8"))
    del document["saved"]
    written(file, document)
    (fault,) = check_files(data).faults
    assert fault.file == file and "does not say how it was saved" in fault.sentence


def test_what_a_crash_left_half_written_is_named(data: Path) -> None:
    half = first_file(data).with_name(".tmp-0123")
    half.write_text("{", "utf-8")
    (fault,) = check_files(data).faults
    assert fault.file == half


@pytest.mark.parametrize("name", ["shop.json", "rack.json", "backup.json", "devices.json", "projects/k3fw07qz", "cuts"])
def test_what_is_a_link_to_itself_is_named(data: Path, name: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Fault: a shop file, or a whole project, that leads nowhere was passed over, and all was said to be well."""
    link = data / name
    link.unlink(missing_ok=True)
    link.symlink_to(link)
    assert main(["check", str(data)]) == 1
    (said,) = capsys.readouterr().out.splitlines()
    assert said.startswith(f"{link}: leads nowhere")


def test_a_folder_of_projects_that_leads_nowhere_is_still_a_data_folder(data: Path) -> None:
    (data / "projects").rename(data / "elsewhere")
    (data / "projects").symlink_to(data / "gone")
    assert [fault.file for fault in check_files(data).faults] == [data / "projects"]


@pytest.mark.skipif(os.name == "nt", reason="folders are not shut like this there")
def test_a_project_that_nobody_may_look_into_is_named(data: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = first_file(data).parent
    folder.chmod(0)
    try:
        if os.access(folder, os.R_OK):  # an administrator may look into everything: the system answers as to others
            monkeypatch.setattr("webapp.data.checking.os.access", lambda path, mode: path != folder)
        (fault,) = check_files(data).faults
    finally:
        folder.chmod(0o700)
    assert fault.file == folder and "cannot be looked into" in fault.sentence


def test_a_place_that_is_not_there_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(tmp_path / "none.json")]) == 2
    assert capsys.readouterr().err.startswith("rabbetry: ")


def test_nothing_is_written_and_a_folder_in_use_is_checked(data: Path) -> None:
    store = Store(data)
    before = {path: path.stat().st_mtime_ns for path in data.rglob("*")}
    assert not check_files(data).faults
    assert {path: path.stat().st_mtime_ns for path in data.rglob("*")} == before
    store.close()
