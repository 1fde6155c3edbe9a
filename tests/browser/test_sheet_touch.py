"""A drawing enlarged is its sheet of paper: it fits the window, and grows by pinch, by scroll and by its buttons."""

from collections.abc import Callable
from typing import Any

import pytest
from tablet import LANDSCAPE, PHONE, PORTRAIT, imported


def at_drawing(page: Any, name: str) -> Any:
    page.goto(imported(page, "cafe-prints.demo").replace("setting-out", f"drawings/{name}"))
    return page.locator("#paper-view svg >> visible=true")


def width(sheet: Any) -> float:
    found: float = sheet.bounding_box()["width"]
    return found


@pytest.mark.parametrize("size", [LANDSCAPE, PORTRAIT, PHONE])
def test_the_whole_sheet_fits_the_window(open_page: Callable[..., Any], size: tuple[int, int]) -> None:
    """Fault: the small drawing was blown up, and narrower than 900 px there was none."""
    page = open_page(size)
    sheet, view = at_drawing(page, "section"), page.locator("#paper-view")
    assert sheet.get_by_text("scale 5:1").count() == 1
    frame, room = sheet.bounding_box(), view.bounding_box()
    assert frame["width"] <= room["width"] and frame["height"] <= room["height"] <= size[1]
    assert page.evaluate("document.documentElement.scrollWidth") <= size[0]


def test_it_grows_under_two_fingers_by_scroll_and_by_its_buttons(open_page: Callable[..., Any]) -> None:
    page = open_page(PHONE)
    sheet = at_drawing(page, "section")
    fitted = width(sheet)
    page.get_by_role("button", name="Larger").tap()
    assert width(sheet) == pytest.approx(1.5 * fitted, rel=0.02)
    page.get_by_role("button", name="Smaller").tap()
    assert width(sheet) == pytest.approx(fitted, rel=0.02)
    box = page.locator("#paper-view").bounding_box()
    centre = {"x": box["x"] + box["width"] / 2, "y": box["y"] + box["height"] / 2}
    page.mouse.move(centre["x"], centre["y"])
    page.mouse.wheel(0, -200)
    page.wait_for_function(f"document.querySelector('.upright svg').getBoundingClientRect().width > {1.4 * fitted}")
    scrolled = width(sheet)
    pinch = page.context.new_cdp_session(page)
    pinch.send("Input.synthesizePinchGesture", centre | {"scaleFactor": 2, "relativeSpeed": 800})
    assert width(sheet) > 1.1 * scrolled
    assert page.evaluate("window.visualViewport.scale") == 1
    assert page.locator("#paper-view").evaluate("view => view.scrollLeft > 0 && view.scrollTop > 0")
