"""Eight corners under a finger: taps put them one after the other, a drawn mark follows slowly, keys move it."""

from collections.abc import Callable
from typing import Any

import pytest
from camera import ACROSS_PX, photo_of, plain_scene
from looked_at import faults
from tablet import PHONE, field, imported, press, settled

WIDE_PX = 1600


def test_eight_taps_put_the_corners_and_a_slow_drag_moves_one(open_page: Callable[..., Any]) -> None:
    page, scene = open_page(PHONE), plain_scene()
    page.goto(imported(page, "cafe-prints.demo").replace("setting-out", "sizes-from-a-photograph"))
    sent = {"name": "p.jpg", "mimeType": "image/jpeg", "buffer": photo_of(scene, across_px=WIDE_PX)}
    page.locator("#file").set_input_files(sent)
    press(page, page.get_by_role("button", name="Add the photo"))
    board = page.locator("#marks")
    for x, y in scene.pixels / ACROSS_PX:
        board.scroll_into_view_if_needed()
        box = board.bounding_box()
        page.touchscreen.tap(box["x"] + x * box["width"], box["y"] + y * box["width"])
    settled(page)
    reach_px = WIDE_PX / box["width"]
    for number, name in ((0, "sheet.upper_left"), (5, "artwork.upper_right")):  # the two that are close together
        across = float(field(page, f"{name}.across").input_value())
        assert across == pytest.approx(scene.pixels[number, 0] * WIDE_PX / ACROSS_PX, abs=reach_px + 1)
    press(page, page.get_by_role("button", name="Find the corners on their edges"))
    assert "All 8 marks" in page.locator("#by-photo").inner_text()
    assert faults(page) == {}
    before = float(field(page, "artwork.lower_left.across").input_value())
    board.scroll_into_view_if_needed()
    reach_px = WIDE_PX / board.bounding_box()["width"]  # the page is left as wide as it was looked at last
    box = page.locator("[data-mark='artwork.lower_left']").bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 20, y, steps=4)
    page.mouse.move(x + 40, y, steps=4)
    page.mouse.up()
    settled(page)
    assert float(field(page, "artwork.lower_left.across").input_value()) - before == pytest.approx(
        10 * reach_px, rel=0.05
    )
    page.keyboard.press("ArrowLeft")
    settled(page)
    assert "7 of 8 marks" in page.locator("#by-photo").inner_text()
