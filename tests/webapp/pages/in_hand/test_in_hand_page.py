"""The page of a stick or board in hand, without scripts and in parts."""

from pathlib import Path

import httpx
import pytest
from pages import PARTS, Browser, read, sent_by


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.fixture
def address(browser: Browser) -> str:
    return f"/projects/{browser.new()}/timber/reach"


def test_the_page_opens_with_a_usual_stick(browser: Browser, address: str) -> None:
    page = browser.get(address)
    text = page.by_id("reach").text
    assert "one of 2400 mm is taken" in text and "Can be made, also with the grain running round" in text
    assert page.by_id("reach").all("svg", role="img")


def test_what_is_typed_is_kept_and_worked_out(browser: Browser, address: str) -> None:
    assert browser.type(address, {"reach.length": "500"}).status_code == 303
    page = browser.get(address)
    assert page.by_id("in-reach-length").attributes["value"] == "500"
    assert "Cannot be made of it" in page.by_id("reach").text and "is taken" not in page.by_id("reach").text


def test_a_board_tells_the_widest_member(browser: Browser, address: str) -> None:
    assert "The widest member" not in browser.get(address).by_id("reach").text
    browser.type(address, {"reach.width": "150"})
    assert "still yield the frame" in browser.get(address).by_id("reach").text


def test_a_refusal_is_in_the_unit_of_the_project(browser: Browser) -> None:
    project = browser.new(unit="in", across="12", up="16", face_width="1 1/2")
    address = f"/projects/{project}/timber/reach"
    browser.type(address, {"reach.length": "24", "reach.width": "1 1/2"})
    assert "1 1/2 in less 3/16 in on each edge" in browser.get(address).by_id("reach").text
    browser.type(address, {"reach.length": "24", "reach.width": "2"})
    assert "these frames, rabbet 1/4 in" in browser.get(address).by_id("reach").text


def test_the_preview_writes_nothing_and_is_the_page_s_own_markup(browser: Browser, address: str) -> None:
    sent = sent_by(browser.get(address)) | {"reach.length": "1500"}
    parts = read(browser.post(f"{address}/preview", sent, headers=PARTS).text)
    assert browser.get(address).by_id("in-reach-length").attributes["value"] == ""
    browser.post(address, sent | {"do": "save"})
    assert parts.by_id("reach").markup() == browser.get(address).by_id("reach").markup()


@pytest.mark.parametrize(
    ("path", "text", "sentence"),
    [
        ("reach.length", "long", "Enter a length"),
        ("reach.length", "5 mm", "100 mm to"),
        ("reach.count", "0", "Enter "),
        ("reach.width", "1,234", "two ways"),
        ("reach.frame", "nobody", "Choose one of the list"),
    ],
)
def test_nonsense_keeps_its_text_and_gets_a_sentence(
    browser: Browser, address: str, path: str, text: str, sentence: str
) -> None:
    answer = browser.post(address, sent_by(browser.get(address)) | {path: text, "do": "save"})
    assert answer.status_code == 422 and sentence in read(answer.text).by_id("main").text


@pytest.mark.parametrize("typed", [{"reach.length": "150"}, {"reach.width": "20"}, {"reach.length": "20000"}])
def test_what_yields_nothing_or_very_much_is_said(browser: Browser, address: str, typed: dict[str, str]) -> None:
    assert browser.type(address, typed).status_code == 303
    assert browser.get(address).by_id("reach").text


def test_a_frame_that_cannot_be_worked_out_says_so(browser: Browser, address: str) -> None:
    browser.type(browser.setting_out(address.split("/")[2]), {"section.rabbet_width": "25"})
    assert not browser.get(address).by_id("reach").all("svg") and browser.get(address).by_id("reach").text


def test_two_tabs_lose_nothing(browser: Browser, address: str) -> None:
    here = sent_by(browser.get(address))
    browser.type(address, {"reach.length": "1500"})
    assert browser.post(address, here | {"reach.width": "150", "do": "save"}).status_code == 303
    saved = sent_by(browser.get(address))
    assert (saved["reach.length"], saved["reach.width"]) == ("1500", "150")


def put(browser: Browser, **typed: str) -> None:
    usual = {"species": "ash", "length": "1500", "width": "25", "thickness": "20", "do": "save"}
    assert browser.post("/rack", sent_by(browser.get("/rack")) | usual | typed).status_code == 303


def test_what_stands_on_the_rack_can_be_taken_in_hand(browser: Browser, address: str) -> None:
    """A stick of the member's section; a board where a strip comes of it, of 25 + 3 mm beside edges of 5 mm."""
    browser.type(browser.setting_out(address.split("/")[2]), {"species": "Ash", "section.thickness": "20"})
    put(browser)
    put(browser, length="900", is_off_cut="yes")
    put(browser, is_board="yes", width="150", thickness="26", length="2000")
    for other in ({"width": "30"}, {"species": "oak"}):
        put(browser, **other)
    for small in ({"width": "37.9", "thickness": "26"}, {"width": "150", "thickness": "23.2"}):
        put(browser, is_board="yes", **small)
    page = browser.get(address).by_id("in-rack")
    assert [one.text for one in page.all("p", **{"class": "tag"})] == ["ash 1", "ash 2", "ash 3"]
    stick, _, board = (one.attributes["value"] for one in page.all("button"))
    browser.type(address, {"reach.count": "3", "reach.defect_from": "10", "reach.defect_to": "30"}, do=board)
    sent = sent_by(browser.get(address))
    sizes = ("length", "width", "count", "defect_from", "defect_to")
    assert [sent[f"reach.{name}"] for name in sizes] == ["2000", "150", "1", "", ""]
    assert browser.type(address, {"reach.length": "nonsense"}, do=stick).status_code == 303
    sent = sent_by(browser.get(address))
    assert (sent["reach.length"], sent["reach.width"]) == ("1500", "")
    assert browser.type(address, {}, do="in-hand:nobody").status_code == 303


def test_a_damaged_rack_leaves_the_page_open(browser: Browser, address: str, data_dir: Path) -> None:
    put(browser)
    (data_dir / "rack.json").write_text("{", "utf-8")
    assert browser.get(address).by_id("reach").all("svg") and not browser.get(address).by_id("in-rack").all("li")


def test_several_boards_yield_a_wider_member_than_one(browser: Browser, address: str) -> None:
    """A board 640 mm long gives one side a strip: four strips of one board, or two of each of two."""
    browser.type(address, {"reach.length": "640", "reach.width": "150"})
    one = browser.get(address).by_id("reach").text
    browser.type(address, {"reach.count": "2"})
    two = browser.get(address).by_id("reach").text
    assert "from 4 strips; the width is the limit" in one and "from 2 strips of each board" in two


def test_grain_that_costs_nothing_is_told_once(browser: Browser, address: str) -> None:
    assert "either way" in browser.get(address).by_id("reach").text
    browser.type(address, {"reach.count": "2"})
    text = browser.get(address).by_id("reach").text
    assert "sides from anywhere" in text and "grain running round" in text and "either way" not in text
