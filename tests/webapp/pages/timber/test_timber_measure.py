"""Worked sums of wood, read off the timber page: board feet, cubic metres, strips, the stick that a frame takes.

The sums are those of any woodworker's arithmetic, done by hand here beside each case.
"""

import time

import httpx
import pytest
from grouped import with_every_list
from pages import Browser, Element


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.fixture
def address(browser: Browser) -> str:
    """A panel of 8 × 10 in, 1/8 in loose, in members of 1 1/2 in with a rabbet of 1/4 in: outside 10 5/8 × 12 5/8."""
    project = browser.new(unit="in", kind="panel", across="8", up="10", face_width="1 1/2")
    setting_out = browser.setting_out(project)
    wanted = {"clearance_across": "1/8", "clearance_up": "1/8", "rabbet_width": "1/4"}
    assert browser.type(setting_out, wanted).status_code == 303
    saw = {"shop.kerf": "1/8", "shop.end_trim": "0", "timber.edge": "0", "timber.width_allowance": "1/8"}
    address = f"/projects/{project}/timber"
    assert browser.type(address, saw).status_code == 303
    return address


def with_stock(browser: Browser, address: str, kind: str, **typed: str) -> None:
    browser.type(address, {}, do=f"add-stock:{kind}")
    assert browser.type(address, typed).status_code == 303


def row(page: Element, caption: str) -> list[str]:
    (table,) = [table for table in page.all("table") if caption in table.text]
    return [cell.text for cell in table.all("tbody")[0].all("tr")[0].all("td")]


def planned(browser: Browser, address: str) -> Element:
    browser.type(address, {}, do="work")
    for _ in range(200):
        page = browser.get(address)
        if "Worked out." in page.by_id("plans").text:
            return with_every_list(browser, address)
        time.sleep(0.05)
    raise AssertionError(page.by_id("plans").text)


@pytest.mark.parametrize(
    ("thickness", "width", "length", "board_feet", "tallied", "m3"),
    [
        ("4/4", "6", "8 ft", "4.000", "4", "0.00944"),  # 1 × 6 × 8 / 12
        ("8/4", "5 1/2", "7 ft", "6.417", "6", "0.01514"),  # 2 × 5.5 × 7 / 12; face 3.2 ft², 3
        ("4/4", "6 1/2", "8 ft", "4.333", "4", "0.01023"),  # face 6.5 × 8 / 12 = 4.33 ft²
        ("25 mm", "150 mm", "2400 mm", "3.814", "4", "0.00900"),  # 0.025 × 0.15 × 2.4 m³
    ],
)
def test_wood_in_a_board(
    browser: Browser,
    address: str,
    thickness: str,
    width: str,
    length: str,
    board_feet: str,
    tallied: str,
    m3: str,
) -> None:
    with_stock(browser, address, "board", thickness=thickness, width=width, length=length)
    assert row(browser.get(address), "Wood in one board")[1:4] == [board_feet, tallied, m3]


def test_a_price_for_each_board_foot(browser: Browser, address: str) -> None:
    with_stock(
        browser, address, "board", thickness="4/4", width="6", length="8 ft", price="9.80", priced_by="board foot"
    )
    assert row(browser.get(address), "Wood in one board")[4] == "$39.20"


@pytest.mark.parametrize(("length", "sticks"), [("47 1/16", "1 stick."), ("47", "2 sticks.")])
def test_a_frame_takes_its_outside_and_three_slanted_saw_cuts(
    browser: Browser, address: str, length: str, sticks: str
) -> None:
    """2 (10.625 + 12.625) = 46.5 in, and 3 × 0.125 × √2 = 0.530 in between the four sides: 47.030 in."""
    with_stock(browser, address, "stick", length=length)
    text = planned(browser, address).by_id("plans").text
    assert "together 46 1/2 in" in text and sticks in text


def test_strips_of_a_board(browser: Browser, address: str) -> None:
    """⌊(5.5 + 0.125) / (1.625 + 0.125)⌋ = 3 strips, and 5.5 − 3 × 1.75 = 1/4 in are left beyond the third cut."""
    with_stock(browser, address, "board", thickness="4/4", width="5 1/2", length="18", count="2")
    assert row(planned(browser, address), "Off the first edge")[1:] == ["0 in", "1 5/8 in", "3", "1/4 in"]


def test_what_is_at_hand_and_what_is_paid_are_told_apart(browser: Browser, address: str) -> None:
    with_stock(browser, address, "stick", length="60", price="7", in_hand="yes", count="1")
    page = planned(browser, address)
    assert "Worth of what is at hand$7" in page.by_id("plans").text.replace(" 7", "7")
    assert row(page, "WhatLengthCount")[-2:] == ["at hand", "$7"]


def test_a_hexagon_is_cut_on_the_page_of_its_project(browser: Browser, address: str) -> None:
    """Across the flats 12 + 1/8 + 2 × 1 1/4 = 14 5/8 in; × tan 30° = 8.4437 in. To a thirty-second, so that the flats
    stay within a sixteenth: 8 15/32 in, and less 2 · 1 1/2 · tan 30° at the short points 6.7367 in."""
    page = browser.setting_out(address.split("/")[2])
    assert browser.type(page, {"shape.sides": "6", "shape.size": "12"}).status_code == 303
    page = planned(browser, address)
    assert "6 sides" in page.by_id("plans").text and "Both ends at 30° from a square cut" in page.text
    long_mm = row(page, "Short point")[1:3]
    assert long_mm == ["6 3/4 in", "6"] and "8 15/32 in" in page.by_id("list-1-stops").text
