"""The four corners of a photo, by taps, by keys and by numbers."""

from collections.abc import Callable
from typing import Any

import pytest
from clients import CORNERS, NAMES, with_photo
from tablet import LANDSCAPE, PHONE, field, press, settled


def place(page: Any, name: str) -> tuple[int, int]:
    return tuple(int(field(page, f"photo.{name}.{axis}").input_value()) for axis in ("across", "down"))  # type: ignore[return-value]


def on_screen(page: Any, corner: tuple[float, float]) -> tuple[float, float]:
    box = page.locator("#marks").bounding_box()
    scale = box["width"] / 1600
    return box["x"] + corner[0] * scale, box["y"] + corner[1] * scale


def test_the_corners_are_put_by_taps_and_the_picture_is_straight(open_page: Callable[..., Any]) -> None:
    page = open_page(LANDSCAPE)
    with_photo(page)
    page.locator("#marks").scroll_into_view_if_needed()
    for name, corner in zip(NAMES, CORNERS, strict=True):
        page.locator(f"label:has([name=corner_now][value={name}])").tap()
        page.touchscreen.tap(*on_screen(page, corner))
        settled(page)
    reach = 1600 / page.locator("#marks").bounding_box()["width"]
    for name, corner in zip(NAMES, CORNERS, strict=True):
        assert place(page, name) == pytest.approx(corner, abs=reach + 1)
    assert page.request.get(page.locator("#drawings image").first.get_attribute("xlink:href")).status == 200
    page.reload()
    assert place(page, "upper_left") == pytest.approx(CORNERS[0], abs=reach + 1)


def test_marks_are_wide_enough_for_a_gloved_finger_and_open_over_the_corner(open_page: Callable[..., Any]) -> None:
    page = open_page(PHONE)
    with_photo(page)
    for across, up in (PHONE, LANDSCAPE):
        page.set_viewport_size({"width": across, "height": up})
        page.wait_for_timeout(200)
        for name in NAMES:
            mark = page.locator(f"[data-mark={name}]")
            box = mark.bounding_box()
            assert min(box["width"], box["height"]) >= 48 and max(box["width"], box["height"]) <= 60
            assert mark.evaluate("mark => getComputedStyle(mark).fill") == "none"


def test_a_mark_is_drawn_and_keeps_its_distance_from_the_finger(open_page: Callable[..., Any]) -> None:
    page = open_page(LANDSCAPE)
    with_photo(page)
    page.locator("#marks").scroll_into_view_if_needed()
    start = place(page, "lower_right")
    x, y = on_screen(page, start)
    page.mouse.move(x + 10, y + 6)
    page.mouse.down()
    page.mouse.move(x - 20, y - 14, steps=5)
    page.mouse.move(x - 40, y - 24, steps=5)
    page.mouse.up()
    settled(page)
    scale = 1600 / page.locator("#marks").bounding_box()["width"]
    assert place(page, "lower_right") == pytest.approx((start[0] - 50 * scale, start[1] - 30 * scale), abs=2)


def test_a_mark_is_moved_by_keys_and_saved(open_page: Callable[..., Any]) -> None:
    page = open_page(LANDSCAPE)
    with_photo(page)
    across, down = place(page, "upper_right")
    page.locator("[data-mark=upper_right]").focus()
    for key in ("ArrowLeft", "ArrowLeft", "ArrowDown", "Shift+ArrowLeft"):
        page.keyboard.press(key)
    page.wait_for_timeout(700)
    settled(page)
    assert place(page, "upper_right") == (across - 22, down + 1)
    page.reload()
    assert place(page, "upper_right") == (across - 22, down + 1)


def test_without_scripts_corners_are_put_by_numbers_and_by_taps(open_page: Callable[..., Any]) -> None:
    page = open_page(LANDSCAPE, scripts=False)
    with_photo(page)
    page.get_by_text("The marks in numbers").tap()
    field(page, "photo.upper_left.across").fill("300")
    press(page, page.get_by_role("button", name="Save and redraw"))
    assert place(page, "upper_left") == (300, 120)
    page.get_by_text("Without scripts: tap a corner").tap()
    page.locator("label:has([name=corner][value=lower_left])").tap()
    page.locator(".tapped").scroll_into_view_if_needed()
    box = page.locator(".tapped").bounding_box()
    assert box["width"] == 320
    with page.expect_navigation():
        page.touchscreen.tap(box["x"] + 52, box["y"] + 208)
    assert place(page, "lower_left") == pytest.approx((260, 1040), abs=5)
