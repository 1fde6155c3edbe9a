"""The wall page without scripts: hangers, nails, the group, strips; every button; nothing lost, nothing broken."""

import re

import httpx
import pytest
from grouped import GroupedBrowser, says, whole
from pages import PARTS, read, sent_by

GROUPS = ("hangers", "nails", "group", "strip")


@pytest.fixture
def browser(client: httpx.Client) -> GroupedBrowser:
    return GroupedBrowser(client)


@pytest.fixture
def address(browser: GroupedBrowser) -> str:
    return browser.setting_out(browser.new()).replace("setting-out", "wall")


def test_every_group_speaks_for_a_usual_print(browser: GroupedBrowser, address: str) -> None:
    page = whole(browser, address)
    assert "Drop" in says(page, "hangers") and "on its packet" in says(page, "hangers")
    assert "Hooks over the floor" in says(page, "nails") and "nail" in says(page, "strip")


@pytest.mark.parametrize("group", GROUPS)
def test_fragments_are_the_same_in_the_page_and_by_themselves(
    browser: GroupedBrowser, address: str, group: str
) -> None:
    page = browser.get(f"{address}/{group}")
    parts = read(browser.post(f"{address}/{group}/preview", sent_by(page), headers=PARTS).text)
    for name in (f"says-{group}", f"more-{group}", "states", "verdict"):
        assert parts.by_id(name).markup() == page.by_id(name).markup()


def press(browser: GroupedBrowser, address: str, do: str, **more: str) -> str:
    answer = browser.post(address, sent_by(browser.get(address)) | more | {"do": do})
    assert answer.status_code < 500
    return browser.get(address).text


def test_a_door_goes_onto_the_wall_and_off_again(browser: GroupedBrowser, address: str) -> None:
    text = press(browser, f"{address}/nails", "add-thing:door")
    assert "Take door out" in text
    page = browser.get(f"{address}/nails")
    thing = next(button.attributes["value"] for button in page.all("button") if "Take door out" in button.text)
    assert "Take door out" not in press(browser, f"{address}/nails", thing)


def test_a_frame_over_a_seat_is_in_the_light(browser: GroupedBrowser, address: str) -> None:
    press(browser, f"{address}/nails", "add-thing:seat")
    page = browser.get(f"{address}/group")
    assert "Over the seat" in says(page, "group")
    assert "before hanging: 1 warning" in page.by_id("verdict").text


def test_frames_are_placed_by_hand_from_where_they_are(browser: GroupedBrowser, address: str) -> None:
    text = press(browser, f"{address}/group", "place-by-hand")
    assert "Middle, from the floor" in text
    assert "Balanced order" in press(browser, f"{address}/group", "balance")


def test_a_tap_places_a_frame_on_the_line_and_over_no_other(browser: GroupedBrowser, address: str) -> None:
    group, setting_out = f"{address}/group", address.replace("wall", "setting-out")
    browser.type(setting_out, {"count": "2"})
    press(browser, f"{address}/nails", "save", **{"wall.across": "3000", "wall.up": "2500"})
    pieces = [one.attributes["value"] for one in browser.get(group).all("input", name="beside-piece")]
    assert len(pieces) == 2
    for key in pieces:
        press(browser, group, "save", **{"beside-piece": key, "spot.x": "100", "spot.y": "107"})
    places = {name: text for name, text in sent_by(browser.get(group)).items() if name.startswith("wall.places.")}
    assert {text for name, text in places.items() if name.endswith(".up")} == {"1500"}
    assert len({text for name, text in places.items() if name.endswith(".across")}) == 2
    assert "lies over" not in says(whole(browser, address), "group")
    assert browser.client.get(f"{address}/picture.svg").headers["content-type"].startswith("image/svg+xml")


def test_a_chosen_hanger_that_is_too_weak_is_said_before_hanging(browser: GroupedBrowser, address: str) -> None:
    path = next(name for name in sent_by(browser.get(f"{address}/hangers")) if name.endswith("hanging.by"))
    more = {path: "rings", path.replace(".by", ".rating"): "100 g"}
    text = press(browser, f"{address}/hangers", "save", **more)
    assert "take stronger hangers" in text and "before hanging" in text.lower()


def test_wall_nails_and_row_come_as_files(browser: GroupedBrowser, address: str) -> None:
    for name, kind in (
        ("drawing.svg", "image/svg+xml"),
        ("nails.csv", "text/csv"),
        ("row-strip.pdf", "application/pdf"),
    ):
        answer = browser.client.get(f"{address}/{name}")
        assert answer.status_code == 200 and answer.headers["content-type"].startswith(kind)
        assert browser.client.get(f"{re.sub('frames/[^/]+', 'frames/gone12', address)}/{name}").status_code == 404
    assert "From the floor" in browser.client.get(f"{address}/nails.csv").text


def test_a_group_is_hung_over_the_seat_with_a_gap_in_proportion(browser: GroupedBrowser, address: str) -> None:
    press(browser, f"{address}/nails", "add-thing:seat")
    page = browser.get(f"{address}/group")
    over = next(button.attributes["value"] for button in page.all("button") if button.text.strip() == "Over the seat")
    press(browser, f"{address}/group", over or "")
    press(browser, f"{address}/group", "gap")
    sent = sent_by(browser.get(f"{address}/group"))
    assert (sent["wall.middle"], sent["wall.on_line"]) == ("1000", "bottom")
    assert float(sent["wall.gap"]) != 75
    assert "1050" in sent_by(browser.get(f"{address}/nails"))["wall.line"]
    assert browser.post(f"{address}/group", sent_by(browser.get(f"{address}/group")) | {"do": "over:gone"}).is_error
