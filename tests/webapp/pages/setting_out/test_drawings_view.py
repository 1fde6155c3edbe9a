"""The drawings on a page of their own, and as files that carry their true size."""

import re
from xml.etree import ElementTree

import httpx
import pytest
from pages import Browser, sent_by

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


def file_of(answer: httpx.Response) -> str:
    assert answer.status_code == 200
    return answer.headers["content-disposition"].removeprefix('attachment; filename="').removesuffix('"')


@pytest.mark.parametrize(("unit", "paper", "says"), [("mm", "a4", "A4"), ("in", "letter", "Letter")])
def test_the_usual_paper_goes_with_the_unit_of_the_job(browser: Browser, unit: str, paper: str, says: str) -> None:
    """Fault: a job in inches came on A4 unless it was told otherwise."""
    sizes = {"across": "12 in", "up": "16 in", "face_width": "1 in"}
    page = browser.setting_out(browser.new(name="Café, wall 2", unit=unit, **sizes))
    frame = page.replace("setting-out", "")
    assert file_of(browser.client.get(f"{frame}drawings/front.svg")) == f"cafe-wall-2-front-{paper}.svg"
    chosen = [one for one in browser.get(f"{frame}drawings/front").all("option") if "selected" in one.attributes]
    assert [one.text for one in chosen] == [says]
    browser.type(f"{frame}package/mat", {}, do="add-mat")
    papers = browser.get(f"{frame}package/template").by_id("main").all("option")
    assert says in [one.text for one in papers if "selected" in one.attributes]
    links = [link for link in browser.get(f"{frame}package/mat").all("a") if link.text.startswith("Drawing, ")]
    assert links and all(link.text == f"Drawing, {says}" for link in links)


def test_frames_of_one_name_have_files_of_their_own(browser: Browser) -> None:
    project_id = browser.new(name="絵")
    page = browser.setting_out(project_id)
    browser.post(page.replace("setting-out", "copy"), sent_by(browser.get(page)))
    frames = [frame["id"] for frame in browser.document(project_id)["frames"]]
    other = page.replace(frames[0], frames[1])
    browser.type(other, {f"frames.{frames[1]}.name": "絵"})
    names = {file_of(browser.client.get(at.replace("setting-out", "drawings/front.svg"))) for at in (page, other)}
    assert names == {f"{frame_id}-front-a4.svg" for frame_id in frames}
