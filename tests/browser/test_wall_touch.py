"""The wall and the piece under a finger: a tap places a frame on the line and over no other, or sets a mark."""

from collections.abc import Callable
from typing import Any

from tablet import field, imported, settled, take_furnished_demo


def test_taps_place_frames_on_the_line_without_overlap(open_page: Callable[..., Any]) -> None:
    page = open_page()
    found = imported(page, "cafe-prints.demo").replace("setting-out", "wall")
    page.goto(f"{found}/nails")
    field(page, "wall.across").fill("4000")
    field(page, "wall.across").blur()
    settled(page)
    page.goto(f"{found}/group")
    page.get_by_text("Place by a tap").tap()
    picture = page.locator("input[name=spot]")
    for number, x in (("1", 60), ("2", 62)):
        page.locator(".corners-of label", has_text=number).first.tap()
        picture.tap(position={"x": x, "y": round(picture.bounding_box()["height"] * 0.26)})
        page.wait_for_load_state("load")
    assert field(page, "wall.arrangement").input_value() == "free"
    assert "lies over" not in page.locator("#says-group").inner_text()
    ups = page.locator("[name^='wall.places.'][name$='.up']").evaluate_all("all => all.map(one => one.value)")
    assert "1500" in ups


def test_a_tap_on_the_photo_marks_the_piece(open_page: Callable[..., Any]) -> None:
    page = open_page()
    page.goto(take_furnished_demo(page, "cafe-prints.demo").replace("setting-out", "hand-over/intake"))
    page.locator("input[name=tap]").tap(position={"x": 160, "y": 50})
    page.wait_for_load_state("load")
    across = page.locator("[name*='.marks.'][name$='.across']").first.input_value()
    assert 139 <= float(across) <= 141
    assert page.locator(".tap-on circle").count() == 1
