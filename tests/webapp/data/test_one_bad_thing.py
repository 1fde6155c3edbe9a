"""One damaged thing harms one thing: it is shown in its place with what is wrong, and there is a way on."""

import json
import os
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import httpx
import pytest
from pages import Browser, read, sent_by

from webapp.data.store import Store

NEWEST = "r000002.json"


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.fixture
def bad(browser: Browser) -> str:
    """A project of two revisions, of which the newer one is about to be damaged."""
    project_id = browser.new(name="Bad")
    browser.post(f"/projects/{project_id}/rename", {"name": "Worse", "base": "1"})
    return project_id


def with_saved(path: Path, **more: object) -> None:
    document = json.loads(path.read_text("utf-8"))
    path.write_text(json.dumps(document | {"saved": document["saved"] | more}))


def undated(folder: Path) -> None:
    with_saved(folder / NEWEST, when="yesterday")


def before_all_time(folder: Path) -> None:
    with_saved(folder / NEWEST, when="0001-01-01T00:00:00+14:00")


def half_a_letter(folder: Path) -> None:
    path = folder / NEWEST
    path.write_text(path.read_text("utf-8").replace('"Worse"', '"W\\ud800"'))


def half_a_name(folder: Path) -> None:
    path = folder / NEWEST
    path.write_text(path.read_text("utf-8").replace('"name"', '"\\udfff"', 1))


def in_a_circle(folder: Path) -> None:
    shutil.rmtree(folder)
    folder.symlink_to(folder)


def of_a_newer_version(folder: Path) -> None:
    path = folder / NEWEST
    path.write_text(path.read_text("utf-8").replace('"schema": 2', '"schema": 7', 1))


def gone_to_pieces(folder: Path) -> None:
    (folder / NEWEST).write_bytes(b'{"name": "Wor')


def to_nowhere(folder: Path) -> None:
    """Fault: the list of projects was not shown at all."""
    (folder / NEWEST).unlink()
    (folder / NEWEST).symlink_to(folder / "gone.json")


HARM = [
    undated, before_all_time, half_a_letter, half_a_name, in_a_circle, of_a_newer_version, gone_to_pieces, to_nowhere
]  # fmt: skip


@pytest.mark.parametrize("harm", HARM)
def test_a_damaged_project_is_named_in_the_list_and_everything_else_works(
    browser: Browser, bad: str, data_dir: Path, harm: Callable[[Path], None]
) -> None:
    good = browser.new(name="Good")
    harm(data_dir / "projects" / bad)
    for address in ("/rack", "/shop", f"/projects/{good}", f"/projects/{good}/timber"):
        browser.get(address)
    entry = browser.get("/").by_id(f"project-{bad}")
    assert [element for element in entry.all("p") if "found" in element.attributes.get("class", "")]
    assert browser.client.get(f"/projects/{bad}", follow_redirects=True).status_code < 500
    assert browser.client.get(f"/projects/{bad}/revisions").status_code < 500


def test_a_folder_that_may_not_be_looked_into_is_named_and_everything_else_works(
    browser: Browser, bad: str, data_dir: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    good, listed = browser.new(name="Good"), os.listdir

    def guarded(path: Any = ".") -> list[str]:
        if Path(path).name == bad:
            raise PermissionError(13, "Permission denied")
        return listed(path)

    monkeypatch.setattr(os, "listdir", guarded)
    for address in ("/rack", f"/projects/{good}/timber"):
        browser.get(address)
    assert "Permission denied" in browser.get("/").by_id(f"project-{bad}").text
    assert browser.client.get(f"/projects/{bad}").status_code == 424


@pytest.mark.parametrize("harm", [undated, half_a_letter, of_a_newer_version, gone_to_pieces])
def test_a_project_with_a_damaged_revision_goes_on_from_the_one_before(
    browser: Browser, bad: str, data_dir: Path, harm: Callable[[Path], None]
) -> None:
    folder = data_dir / "projects" / bad
    harm(folder)
    kept = (folder / NEWEST).read_bytes()
    page = browser.get(f"/projects/{bad}/revisions")
    assert page.all("p", **{"class": "found stop"}) or page.all("p", **{"class": "notice bad"})
    base = page.all("input", name="base")[0].attributes["value"] if page.all("input", name="base") else "1"
    assert browser.post(f"/projects/{bad}/revisions/1/restore", {"base": base}).status_code == 303
    assert browser.document(bad)["name"] == "Bad"
    address = browser.setting_out(bad)
    assert browser.type(address, {"artwork.across": "310"}).status_code == 303
    assert browser.document(bad)["frames"][0]["artwork"]["across"] == "310 mm"
    assert (folder / NEWEST).read_bytes() == kept


@pytest.mark.parametrize("page", ["", "/timber", "/costs", "/project.json", "/frames/x1/setting-out"])
def test_every_page_of_a_project_that_is_none_says_what_is_wrong_and_leads_on(
    browser: Browser, bad: str, data_dir: Path, page: str
) -> None:
    of_a_newer_version(data_dir / "projects" / bad)
    answer = browser.client.get(f"/projects/{bad}{page}", follow_redirects=True)
    shown = read(answer.text)
    assert answer.status_code == 422
    assert "Revision 2, the newest, cannot be used here" in shown.text and "not 7" in shown.text
    (form,) = shown.by_id("main").all("form")
    assert browser.post(form.attributes["action"], sent_by(shown, form)).status_code == 303
    assert browser.document(bad)["name"] == "Bad"


def test_where_no_revision_is_a_project_the_page_sends_to_the_backup(
    browser: Browser, bad: str, data_dir: Path
) -> None:
    for name in ("r000001.json", NEWEST):
        path = data_dir / "projects" / bad / name
        path.write_text(path.read_text("utf-8").replace('"schema": 2', '"schema": 7', 1))
    shown = read(browser.client.get(f"/projects/{bad}").text)
    assert "Import the project from a backup" in shown.text and not shown.by_id("main").all("form")


def test_a_revision_that_is_no_project_cannot_be_brought_back(browser: Browser, bad: str, data_dir: Path) -> None:
    of_a_newer_version(data_dir / "projects" / bad)
    browser.post(f"/projects/{bad}/revisions/1/restore", {"base": "2"})
    page = browser.get(f"/projects/{bad}/revisions")
    assert f"/projects/{bad}/revisions/2/restore" not in [form.attributes["action"] for form in page.all("form")]
    assert "Enter a schema of 1 to 2, not 7" in page.text


def test_a_damaged_shop_file_stops_nothing_and_is_set_aside(browser: Browser, data_dir: Path) -> None:
    project_id = browser.new(name="Good")
    for name in ("First", "Second"):
        browser.post("/shop", {"called": name, "do": "save"})
    (data_dir / "shop.json").write_bytes(b'{"schema": 1, "un')
    for page in ("", "/costs", "/client", "/timber"):
        browser.get(f"/projects/{project_id}{page}")
    for page in ("/", f"/projects/{project_id}/costs", f"/projects/{project_id}/quote"):
        (damage,) = browser.get(page).by_id("shop-damage").all("a", href="/shop")
        assert damage.text
    told = browser.client.get("/shop")
    assert told.status_code == 424 and "shop.json is damaged" in read(told.text).text
    assert browser.post("/shop", {"called": "Third", "do": "save"}).status_code == 424
    assert (data_dir / "shop.json").read_bytes() == b'{"schema": 1, "un'
    assert browser.post("/shop/mend").status_code == 303
    assert browser.get("/shop").by_id("in-called").attributes["value"] == "First"
    assert (data_dir / "shop-damaged-1.json").read_bytes() == b'{"schema": 1, "un'


def test_what_a_crash_left_in_a_folder_that_leads_in_a_circle_keeps_nobody_from_starting(tmp_path: Path) -> None:
    (tmp_path / "data/projects").mkdir(parents=True)
    (tmp_path / "data/projects/aaaaaaaa").symlink_to(tmp_path / "data/projects/aaaaaaaa")
    store = Store(tmp_path / "data")
    assert "cannot be read" in store.list()[0].problem
    store.close()
