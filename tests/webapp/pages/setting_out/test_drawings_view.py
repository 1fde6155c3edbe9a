"""The drawings on a page of their own, and as files that carry their true size."""

import re
from xml.etree import ElementTree

import httpx
import pytest
from pages import Browser

from framecalc.drawing.sheet import PAPERS


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.fixture
def drawings(browser: Browser) -> str:
    return browser.setting_out(browser.new()).replace("setting-out", "drawings")


@pytest.mark.parametrize("name", ["front", "section", "members", "corner"])
def test_each_drawing_has_a_page_with_a_way_back(browser: Browser, drawings: str, name: str) -> None:
    page = browser.get(f"{drawings}/{name}")
    assert page.all("figure")[0].all("svg")
    assert any(link.attributes["href"].endswith("/setting-out") for link in page.all("a", **{}))


@pytest.mark.parametrize("paper", sorted(PAPERS))
@pytest.mark.parametrize("name", ["front", "section", "members", "corner", "mitre"])
def test_a_download_has_its_size_in_millimetres_and_runs_nothing(
    client: httpx.Client, drawings: str, name: str, paper: str
) -> None:
    answer = client.get(f"{drawings}/{name}.svg", params={"paper": paper})
    assert answer.status_code == 200
    assert answer.headers["content-type"] == "image/svg+xml"
    assert "sandbox" in answer.headers["content-security-policy"]
    assert answer.headers["content-disposition"].startswith("attachment")
    root = ElementTree.fromstring(answer.text)
    assert re.fullmatch(r"[\d.]+mm", root.attrib["width"])
    width, height = root.attrib["viewBox"].split()[2:]
    assert (root.attrib["width"], root.attrib["height"]) == (f"{width}mm", f"{height}mm")


@pytest.mark.parametrize(
    "tail", ["nothing", "nothing.svg", "front.svg?paper=napkin", "..%2ffront.svg", "front.svg.svg"]
)
def test_what_is_no_drawing_is_not_there(client: httpx.Client, drawings: str, tail: str) -> None:
    assert client.get(f"{drawings}/{tail}").status_code == 404


def test_a_frame_that_cannot_be_computed_has_no_drawing_and_says_why(browser: Browser, drawings: str) -> None:
    browser.type(drawings.replace("drawings", "setting-out"), {"section.rabbet_depth": "60"})
    answer = browser.client.get(f"{drawings}/front")
    assert answer.status_code == 422
    assert "mm" in answer.text


def test_what_is_written_into_a_name_is_text_in_the_file(browser: Browser) -> None:
    project_id = browser.new(name="</title><script>alert(1)</script>")
    drawings = browser.setting_out(project_id).replace("setting-out", "drawings")
    text = browser.client.get(f"{drawings}/front.svg").text
    assert "<script" not in text
    ElementTree.fromstring(text)


def test_a_downloaded_drawing_says_which_revision_it_shows(browser: Browser) -> None:
    address = browser.setting_out(browser.new())
    browser.type(address, {"section.face_width": "30"})
    drawing = browser.client.get(address.replace("setting-out", "drawings/front.svg"), params={"paper": "a4"}).text
    assert "revision 2" in drawing and "not saved" not in drawing
