"""A board that is too thin stops the plan, and each way out of it does what its button says."""

import httpx
import pytest
from pages import Browser, Element


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


def tray(browser: Browser) -> str:
    """A tray with a wall of 15 × 40 mm and a ledge of 20 × 6 mm in one blank: 35 × 40 mm."""
    project = browser.new(kind="canvas")
    sizes = {"section.kind": "tray", "section.face_width": "15", "section.thickness": "40"}
    browser.type(browser.setting_out(project), sizes)
    browser.type(browser.setting_out(project), {"section.ledge_width": "20", "section.ledge_thickness": "6"})
    return f"/projects/{project}/timber"


def thin(browser: Browser, address: str, **more: str) -> str:
    """A board of 26 mm, which flattens to 24.5 mm."""
    browser.type(address, {}, do="add-stock:board")
    browser.type(address, {f"stock.{stock(browser, address)['id']}.thickness": "26"} | more)
    return address


def stock(browser: Browser, address: str) -> dict[str, str]:
    found: dict[str, str] = browser.document(address.split("/")[2])["timber"]["stock"][0]
    return found


def ways(page: Element) -> dict[str, str]:
    """The buttons of the ways out, by what they say."""
    boxes = page.by_id("plans").all("div", **{"class": "ways"})
    return {one.text.strip(): one.attributes["value"] for box in boxes for one in box.all("button")}


def plans(browser: Browser, address: str) -> str:
    return browser.get(address).by_id("plans").text


def test_a_board_too_thin_stops_and_no_plan_is_made_for_sticks_that_nobody_has(browser: Browser) -> None:
    address = thin(browser, tray(browser))
    text = plans(browser, address)
    assert "Stop" in text and "40.3 mm is needed" in text and "It is left out of the plan" in text
    browser.type(address, {}, do="work")
    text = plans(browser, address)
    assert "No plan: of the stock typed for these, nothing can be used" in text
    assert "Proved" not in text and "Worked out" not in text and "Estimate" not in text


def test_the_ledge_becomes_a_strip_of_its_own(browser: Browser) -> None:
    """The wall of 15 × 40 mm is then ripped on edge: 24.5 mm of thickness is enough for its 15 mm."""
    address = thin(browser, tray(browser))
    browser.type(address, {}, do=ways(browser.get(address))["Ledge as a strip of its own"])
    assert browser.document(address.split("/")[2])["frames"][0]["section"]["ledge"] == "strip"
    text = plans(browser, address)
    assert "is ripped on edge" in text and "Ledge strips" in text and "left out" not in text


def test_two_boards_are_glued_up(browser: Browser) -> None:
    address = thin(browser, tray(browser), count="5", price="39.50")
    browser.type(address, {}, do=ways(browser.get(address))["Glue up 2 of them, face to face: 49 mm"])
    entry = stock(browser, address)
    assert (entry["name"], entry["thickness"]) == ("Board, 2 glued up", "49 mm")
    assert (entry["count"], entry["price"], entry["priced_by"]) == (2, "79", "piece")
    assert "No plan" not in plans(browser, address) and not ways(browser.get(address))


def test_one_board_alone_is_not_glued_up(browser: Browser) -> None:
    address = thin(browser, tray(browser), count="1")
    assert not [says for says in ways(browser.get(address)) if "Glue up" in says]


def test_another_board_is_thick_enough(browser: Browser) -> None:
    address = thin(browser, tray(browser), bow="3")
    (says,) = [one for one in ways(browser.get(address)) if one.startswith("Another board")]
    assert says == "Another board, 45 mm thick"
    browser.type(address, {}, do=ways(browser.get(address))[says])
    text = plans(browser, address)
    assert stock(browser, address)["thickness"] == "45 mm" and "left out" not in text and "No plan" not in text


@pytest.mark.parametrize(
    "do", ["own-ledge:nobody", "glue-up:x:2", "glue-up::", "thicker:x:1 mm", "thicker:", "own-ledge:"]
)
def test_a_button_that_fits_nothing_changes_nothing(browser: Browser, do: str) -> None:
    address = thin(browser, tray(browser))
    before = browser.document(address.split("/")[2])["timber"]["stock"]
    assert browser.type(address, {}, do=do).status_code < 500
    assert browser.document(address.split("/")[2])["timber"]["stock"] == before
