"""The page of backups: a folder chosen, everything out and in again, for the shop's own computer alone."""

import io
import json
import re
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any
from zipfile import ZipFile

import httpx
import pytest
from pages import Browser, read


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


def sent(browser: Browser, content: bytes) -> httpx.Response:
    file = {"zip": ("rabbetry.zip", content, "application/zip")}
    return browser.client.post("/backup/everything", files=file, headers={"Origin": browser.origin})


def test_a_folder_is_chosen_and_the_first_backup_made_at_once(browser: Browser, tmp_path: Path) -> None:
    browser.new()
    assert "No backup yet" in browser.get("/").by_id("main").text
    (tmp_path / "stick").mkdir()
    assert browser.post("/backup/folder", {"folder": str(tmp_path / "stick")}).status_code == 303
    assert len(list((tmp_path / "stick").glob("rabbetry-*.zip"))) == 1
    for address in ("/", "/backup"):
        assert re.search(r"Last good backup: [^.]+, today\.", browser.get(address).by_id("main").text)
    assert browser.post("/backup/now").status_code == 303
    assert browser.post("/backup/folder", {"folder": ""}).status_code == 303
    assert "No backup is made" in browser.get("/backup").by_id("main").text


def test_the_list_of_projects_says_how_old_the_last_good_backup_is(browser: Browser, data_dir: Path) -> None:
    ago = datetime.now(UTC) - timedelta(days=12)
    file = {"schema": 1, "folder": str(data_dir.parent / "gone"), "last": ago.isoformat(), "problem": ""}
    (data_dir / "backup.json").write_text(json.dumps(file), "utf-8")
    for address in ("/", "/backup"):
        assert ", 12 days ago." in browser.get(address).by_id("main").text


def test_a_folder_that_is_not_there_stays_typed_with_its_sentence(browser: Browser) -> None:
    answer = browser.post("/backup/folder", {"folder": "/nowhere/<b>"})
    assert answer.status_code == 422
    page = read(answer.text)
    assert page.by_id("folder").attributes["value"] == "/nowhere/<b>"
    assert "is not there" in page.by_id("folder-refused").text


def test_everything_goes_out_and_comes_back(browser: Browser) -> None:
    project_id = browser.new(name="Harbour")
    answer = browser.client.get("/backup/everything.zip")
    assert answer.headers["content-type"] == "application/zip"
    assert f"projects/{project_id}/r000001.json" in ZipFile(io.BytesIO(answer.content)).namelist()
    again = sent(browser, answer.content)
    assert again.status_code == 200
    assert "0 imported, 1 here already" in read(again.text).by_id("main").text


@pytest.mark.parametrize("content", [b"", b"PK", b"{}"])
def test_what_is_no_zip_is_refused_in_a_sentence(browser: Browser, content: bytes) -> None:
    answer = sent(browser, content)
    assert answer.status_code == 422
    assert read(answer.text).by_id("zip-refused").text


def test_nothing_chosen_is_said(browser: Browser) -> None:
    assert "Choose a zip first" in browser.post("/backup/everything").text


def test_from_the_network_nobody_sets_a_folder_or_takes_everything(
    lan_app: Any, far: httpx.Client, tmp_path: Path
) -> None:
    code = lan_app.state.devices.code()
    assert far.post("/pair", data={"code": code, "device": "tablet"}).status_code == 303
    page = read(far.get("/backup").text).by_id("main")
    assert "at the shop's own computer" in page.text and not page.all("form")
    assert far.get("/backup/everything.zip").status_code == 403
    assert far.post("/backup/folder", data={"folder": str(tmp_path)}).status_code == 403
    assert far.post("/backup/everything", files={"zip": b"PK"}).status_code == 403


def test_a_project_that_differs_here_comes_in_beside_it_under_its_name(browser: Browser, tmp_path: Path) -> None:
    """The zip of another computer, where the same project and the shop went on in another way."""
    project_id = browser.new(name="Harbour")
    browser.post("/shop", {"client_note": "Ours"})
    there = browser.client.get("/backup/everything.zip").content
    project = tmp_path / "data" / "projects" / project_id
    (first,) = project.glob("r000001.json")
    first.write_text(first.read_text("utf-8").replace("Harbour", "Harbor"), "utf-8")
    page = read(sent(browser, there).text).by_id("main")
    assert "Both are kept" in page.text and "Harbour" in page.text and project_id not in page.text
    assert {"Harbour", "Harbor"} <= set(browser.get("/").by_id("main").text.split())


def test_what_cannot_be_packed_is_said_on_a_page_that_leads_to_the_rest(
    browser: Browser, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Faults: a zip of nothing was saved, as the answer had begun before; later, one bad file kept all from going."""
    (bad, good), read_bytes = (browser.new(), browser.new()), Path.read_bytes

    def refuse(path: Path) -> bytes:
        if path.parent.name == bad:
            raise OSError(5, "Input/output error")
        return read_bytes(path)

    monkeypatch.setattr(Path, "read_bytes", refuse)
    answer = browser.client.get("/backup/everything.zip")
    lost = read(answer.text).by_id("lost")
    assert answer.status_code == 424 and f"projects/{bad}/r000001.json" in lost.text
    rest = browser.client.get(lost.all("a")[0].attributes["href"])
    assert ZipFile(io.BytesIO(rest.content)).namelist() == [f"projects/{good}/r000001.json"]


def test_a_full_disk_makes_no_zip_and_says_so(browser: Browser, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: Any, **__: Any) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("webapp.pages.backup.view.pack", full)
    answer = browser.client.get("/backup/everything.zip")
    assert answer.status_code == 507 and "No space left" in answer.text


def test_a_path_that_is_too_long_is_refused_in_words(browser: Browser) -> None:
    """Fault: the page broke down."""
    answer = browser.post("/backup/folder", {"folder": f"/{'x' * 300}"})
    assert answer.status_code == 422 and "cannot be used" in read(answer.text).by_id("folder-refused").text


def test_a_damaged_setting_takes_no_page_down(browser: Browser, data_dir: Path) -> None:
    """Fault: a backup without a date took the list of projects down."""
    (data_dir / "backup.json").write_text('{"schema": 1, "folder": "/tmp", "last": "x"}', "utf-8")
    for address in ("/", "/backup"):
        assert "choose the folder anew" in browser.get(address).by_id("main").text
