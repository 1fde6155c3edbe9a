"""The list of projects: new, copy, rename, delete and bring back, import, export, demos, frames."""

import errno
import json
import os
import threading
import time
from collections.abc import Callable
from pathlib import Path

import httpx
import pytest
from pages import Browser, read, sent_by
from PIL import Image

import framecalc
import webapp.data.photos
from framecalc.project import parse_project, read_project
from webapp.data.errors import NotWritten
from webapp.pages.projects.demos import demos


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


def test_an_empty_folder_offers_the_demo_projects(browser: Browser) -> None:
    page = browser.get("/")
    offered = [form.attributes["action"] for form in page.all("form") if "/demos/" in form.attributes["action"]]
    assert offered == [f"/projects/demos/{name}" for name in demos()]
    assert len(offered) == 3


def test_every_demo_can_be_taken_opened_and_drawn(browser: Browser) -> None:
    for name in demos():
        answer = browser.post(f"/projects/demos/{name}")
        assert answer.status_code == 303
        page = browser.get(browser.setting_out(answer.headers["location"].rsplit("/", 1)[1]))
        assert page.by_id("drawing-front").all("svg")
        assert not page.by_id("kept").text


def test_a_demo_comes_with_a_picture_prices_plans_and_a_link(browser: Browser) -> None:
    for name in demos():
        at = browser.post(f"/projects/demos/{name}").headers["location"]
        document = browser.document(at.rsplit("/", 1)[1])
        for frame in document["frames"]:
            look = frame["look"]
            assert browser.client.get(f"{at}/photos/{look['photo']['id']}.jpg").headers["content-type"] == "image/jpeg"
            page = browser.get(f"{at}/frames/{frame['id']}/look")
            assert page.by_id("marks").all("circle")
        assert "no price" not in browser.get(f"{at}/quote").text
        links = browser.get(f"{at}/client").by_id("links").text
        assert document["client"] in links and "Open until" in links and "with the price, with the picture" in links
        wait_for(lambda at=at: "No " not in browser.get(at).by_id("step-stock").text)


@pytest.mark.parametrize("room_for", range(5))
def test_a_demo_for_which_the_disk_is_too_full_leaves_nothing(
    browser: Browser, data_dir: Path, monkeypatch: pytest.MonkeyPatch, room_for: int
) -> None:
    """Fault: a project was left behind without its picture. Files: revision, original, photo, and two of the link."""
    room, replace = [room_for], os.replace

    def full_disk(source: Path, target: Path) -> None:
        if not threading.current_thread().name.startswith("job"):
            room[0] -= 1
        if room[0] < 0:
            raise OSError(errno.ENOSPC, "No space left on device")
        replace(source, target)

    monkeypatch.setattr(os, "replace", full_disk)
    assert browser.post("/projects/demos/maple-canvas.demo").status_code == 507
    assert not list((data_dir / "projects").iterdir()) and not list((data_dir / "trash").iterdir())
    monkeypatch.setattr(os, "replace", replace)
    assert browser.post("/projects/demos/maple-canvas.demo").status_code == 303


def test_a_demo_is_kept_as_the_program_writes_it(browser: Browser) -> None:
    """Fault: the first save of a demo made a second revision, though nothing was changed."""
    for name in demos():
        at = browser.post(f"/projects/demos/{name}").headers["location"]
        for page in (browser.setting_out(at.rsplit("/", 1)[1]), f"{at}/costs"):
            assert browser.type(page, {}).status_code == 303
        assert browser.client.get(f"{at}/newest").text == "1"


def test_a_copy_for_which_the_disk_is_too_full_leaves_nothing(
    browser: Browser, data_dir: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    at = browser.post("/projects/demos/maple-canvas.demo").headers["location"]
    before = list((data_dir / "projects").iterdir())
    with monkeypatch.context() as patch:
        patch.setattr(webapp.data.photos, "write_safely", refuse)
        assert [browser.post(f"{at}/{way}").status_code for way in ("copy", "revisions/1/what-if")] == [507, 507]
    assert list((data_dir / "projects").iterdir()) == before


def refuse(*_: object) -> None:
    raise NotWritten("nothing was saved: no space left on device")


def wait_for(what: Callable[[], bool]) -> None:
    """Wait until the searches beside the pages have ended."""
    for _ in range(400):
        if what():
            return
        time.sleep(0.05)
    raise AssertionError("not within 20 s")


def test_the_pictures_of_the_demos_are_small_and_hold_nothing_but_the_picture() -> None:
    for path in (Path(framecalc.__file__).parent / "demos" / "pictures").glob("*.jpg"):
        content = path.read_bytes()
        assert len(content) < 120_000
        with Image.open(path) as picture:
            assert picture.info.keys() <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}


def test_three_numbers_start_a_project(browser: Browser) -> None:
    project_id = browser.new(across="8 1/2", up="11", face_width="1 1/2", unit="in")
    document = browser.document(project_id)
    assert document["frames"][0]["artwork"]["across"] == "8 1/2 in"
    assert document["name"] == "8 1/2 × 11 in"
    assert len(document["assumed"]) > 5


@pytest.mark.parametrize(
    "kind", ["paper", "photograph", "friable", "canvas", "panel", "solid panel", "textile", "object"]
)
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_a_project_of_every_kind_starts_without_a_stop(browser: Browser, kind: str, unit: str) -> None:
    sizes = (
        {"across": "300", "up": "400", "face_width": "40"}
        if unit == "mm"
        else {"across": "12", "up": "16", "face_width": "1 3/4"}
    )
    page = browser.get(f"/projects/{browser.new(kind=kind, unit=unit, **sizes)}")
    assert page.by_id("verdict").text.startswith("Confirm first"), page.by_id("verdict").text


def test_a_number_that_cannot_be_read_stays_with_its_sentence(browser: Browser) -> None:
    sent = {"name": "Café", "unit": "mm", "kind": "paper", "across": "about 30", "up": "400", "face_width": ""}
    answer = browser.post("/projects", sent)
    assert answer.status_code == 422
    page = read(answer.text)
    assert sent_by(page, "new") == sent | {"tab": ""}
    assert "Enter a length" in page.by_id("new-across-slot").text
    assert "Enter a length, such as 333.4 or 13 1/8 in" in page.by_id("new-face_width-slot").text


def test_a_size_out_of_range_is_refused_before_a_project_is_made(browser: Browser) -> None:
    sent = {"name": "", "unit": "mm", "kind": "paper", "across": "9000", "up": "400", "face_width": "30"}
    answer = browser.post("/projects", sent)
    assert answer.status_code == 422
    assert "5000 mm" in read(answer.text).by_id("new-across-slot").text
    assert not browser.get("/").all("article")


def test_a_copy_is_a_project_of_its_own(browser: Browser) -> None:
    project_id = browser.new(name="Oak")
    answer = browser.post(f"/projects/{project_id}/copy")
    copy_id = answer.headers["location"].rsplit("/", 1)[1]
    assert copy_id != project_id
    assert browser.document(copy_id)["name"] == "Oak, copy"


def test_a_project_is_renamed(browser: Browser) -> None:
    project_id = browser.new(name="Oak")
    browser.post(f"/projects/{project_id}/rename", {"name": "White oak", "base": "1"})
    assert browser.document(project_id)["name"] == "White oak"


@pytest.mark.parametrize("name", ["", "   ", "x" * 10_000])
def test_a_name_that_cannot_be_is_refused_in_place(browser: Browser, name: str) -> None:
    project_id = browser.new(name="Oak")
    answer = browser.post(f"/projects/{project_id}/rename", {"name": name, "base": "1"})
    assert answer.status_code == 422
    box = read(answer.text).by_id(f"rename-{project_id}")
    assert box.attributes["value"] == name
    assert browser.document(project_id)["name"] == "Oak"


def test_what_is_written_into_a_name_is_shown_as_text(browser: Browser) -> None:
    project_id = browser.new(name="<script>alert(1)</script> & “oak”")
    page = browser.client.get("/").text
    assert "<script>alert" not in page
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in page
    assert "<script>alert" not in browser.client.get(f"/projects/{project_id}", follow_redirects=True).text


def test_a_deleted_project_is_brought_back(browser: Browser) -> None:
    project_id = browser.new(name="Oak")
    answer = browser.post(f"/projects/{project_id}/delete")
    page = browser.get(answer.headers["location"])
    assert "“Oak” was deleted" in page.text
    assert not page.all("article")
    browser.post(f"/trash/{project_id}/restore")
    assert "Oak" in browser.get("/").by_id(f"project-{project_id}").text


def test_what_is_exported_can_be_imported(browser: Browser) -> None:
    project_id = browser.new(name="Oak")
    answer = browser.client.get(f"/projects/{project_id}/project.json")
    exported = answer.content
    assert answer.headers["content-disposition"] == 'attachment; filename="oak.json"'
    assert "saved" not in json.loads(exported)
    answer = browser.post("/projects/import", files={"file": ("oak.json", exported, "application/json")})
    assert answer.status_code == 303
    imported = browser.document(answer.headers["location"].rsplit("/", 1)[1])
    assert read_project(imported) == parse_project(exported)


def test_a_pasted_project_is_imported(browser: Browser) -> None:
    project_id = browser.new(name="Oak")
    text = browser.client.get(f"/projects/{project_id}/project.json").text
    assert browser.post("/projects/import", {"pasted": text}).status_code == 303


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "not readable as JSON"),
        ("oak", "not readable as JSON"),
        ("[]", "This is not a Rabbetry project file (line 1)"),
        ('{"schema": 99}', "Enter a schema of 1 to 2, not 99 (line 1)"),
        ('{"schema": 1, "colour": "blue"}', "colour"),
        ("[" * 100_000, "not readable as JSON"),
        ('{"schema": 1, "name": ' + "9" * 5000 + "}", ""),
    ],
)
def test_a_file_that_is_no_project_is_refused_by_name(browser: Browser, text: str, says: str) -> None:
    answer = browser.post("/projects/import", {"pasted": text})
    assert answer.status_code == 422
    assert says in read(answer.text).by_id("refused").text
    assert not browser.get("/").all("article")


def test_a_frame_is_added_copied_and_deleted(browser: Browser) -> None:
    project_id = browser.new(name="Oak")
    address = browser.setting_out(project_id)
    browser.type(address, {"count": "3"})
    answer = browser.post(f"/projects/{project_id}/frames", sent_by(browser.get(address)))
    assert answer.status_code == 303
    second = answer.headers["location"]
    frame_id = second.split("/")[4]
    browser.post(f"/projects/{project_id}/frames/{frame_id}/copy", sent_by(browser.get(second)))
    assert [frame["name"] for frame in browser.document(project_id)["frames"]] == ["Oak", "Frame 2", "Frame 2, copy"]
    browser.post(f"/projects/{project_id}/frames/{frame_id}/delete", sent_by(browser.get(second)))
    document = browser.document(project_id)
    assert [(frame["name"], frame["count"]) for frame in document["frames"]] == [("Oak", 3), ("Frame 2, copy", 1)]
    assert not [path for path in document["assumed"] if path.startswith(f"frames.{frame_id}.")]


def test_adding_a_frame_keeps_what_is_typed_in_this_one(browser: Browser) -> None:
    project_id = browser.new()
    address = browser.setting_out(project_id)
    sent = sent_by(browser.get(address))
    path = next(name for name in sent if name.endswith("section.face_width"))
    browser.post(f"/projects/{project_id}/frames", sent | {path: "41"})
    assert browser.document(project_id)["frames"][0]["section"]["face_width"] == "41 mm"


def test_the_last_frame_of_a_project_stays(browser: Browser) -> None:
    project_id = browser.new()
    address = browser.setting_out(project_id)
    answer = browser.post(
        f"/projects/{project_id}/frames/{address.split('/')[4]}/delete", sent_by(browser.get(address))
    )
    assert answer.status_code in (404, 409)
    assert "at least one frame" in answer.text
    assert len(browser.document(project_id)["frames"]) == 1


@pytest.mark.parametrize(
    ("sizes", "asked"),
    [(("8", "10", "1 1/4"), {"across", "up", "face_width"}), (("11", "14", "25"), {"across", "up"}),
     (("300", "400", "1¼"), {"face_width"})],
)  # fmt: skip
def test_a_unit_that_was_forgotten_is_asked_for(browser: Browser, sizes: tuple[str, ...], asked: set[str]) -> None:
    """Fault: 8 × 10 with a face of 1 1/4 under mm was taken as a stamp, or refused for its rabbet."""
    typed = dict(zip(("across", "up", "face_width"), sizes, strict=True)) | {"unit": "mm", "kind": "paper", "name": ""}
    page = read(browser.post("/projects", typed).text)
    told = {name for name in ("across", "up", "face_width") if "Press Inches" in page.by_id(f"new-{name}-slot").text}
    assert told == asked
    assert [(one.attributes["name"], one.attributes["value"]) for one in page.by_id("new").all("button")[1:]] == [
        ("unit", "in")
    ]


def test_what_was_forgotten_is_made_good_by_one_button_or_by_writing_it_out(browser: Browser) -> None:
    typed = {"across": "8", "up": "10", "face_width": "1 1/4", "kind": "paper", "name": ""}
    made = browser.post("/projects", typed | {"unit": "in"})
    assert browser.document(made.headers["location"].rsplit("/", 1)[1])["frames"][0]["artwork"]["across"] == "8 in"
    stamp = browser.post("/projects", typed | {"unit": "mm", "across": "30 mm", "up": "40 mm", "face_width": "20"})
    assert browser.document(stamp.headers["location"].rsplit("/", 1)[1])["frames"][0]["artwork"]["up"] == "40 mm"
