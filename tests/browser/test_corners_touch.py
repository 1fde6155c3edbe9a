"""The corners page under a finger: worked out while it is typed, fields of the joint chosen, nothing hard to read."""

from collections.abc import Callable
from typing import Any

import pytest
from looked_at import faults
from tablet import LANDSCAPE, PHONE, PORTRAIT, field, imported, press, settled

from webapp.live.addresses import CORNERS
from webapp.live.grouped import GROUPED, group_of

SIZES = pytest.mark.parametrize("size", [LANDSCAPE, PORTRAIT, PHONE], ids=["landscape", "portrait", "phone"])
BUSY = {
    "sides.top.start": "46.4",
    "sides.left.long": "367",
    "clamps.across_top": "433",
    "clamps.across_bottom": "433",
    "clamps.up_left": "365",
    "clamps.up_right": "365",
    "clamps.rising": "569",
    "clamps.falling": "564",
    "clamps.rock": "3",
    "clamps.strap_force": "300",
    "joint.spline_depth": "17",
    "seasons.moisture": "13",
    "seasons.room_temperature": "20",
    "seasons.room_humidity": "35",
    "seasons.outdoor_temperature": "-5",
    "seasons.outdoor_humidity": "80",
}


def corners(page: Any, demo: str = "cafe-prints.demo", *, group: str) -> Any:
    page.goto(imported(page, demo).replace("setting-out", f"corners/{group}"))
    return page


def says(page: Any, group: str) -> str:
    return " ".join(page.locator(f"#says-{group}").inner_text().split())


def open_all(page: Any) -> None:
    page.evaluate("() => document.querySelectorAll('details.more').forEach((details) => { details.open = true; })")


@SIZES
def test_a_gap_is_worked_out_while_it_is_typed_and_saved_when_it_is_left(
    open_page: Callable[..., Any], size: tuple[int, int]
) -> None:
    page = corners(open_page(size), group="tolerance")
    before = says(page, "tolerance")
    field(page, "corner.gap").fill("0.4")
    settled(page)
    assert says(page, "tolerance") != before
    assert "Revision 1" in page.locator(".revision").inner_text()
    field(page, "corner.gap").blur()
    page.locator(".revision", has_text="Revision 2").wait_for(state="attached")


def test_the_fields_are_those_of_the_joint_chosen(open_page: Callable[..., Any]) -> None:
    page = corners(open_page(LANDSCAPE), group="joint")
    kind = field(page, "joint.kind")
    for joint, seen, hidden in (
        ("none", (), ("joint.size", "joint.spline_depth", "joint.wall")),
        ("spline", ("joint.spline_depth", "joint.wall"), ("joint.size", "joint.width")),
        ("biscuit", ("joint.size", "joint.from_tip"), ("joint.width", "tenon_thickness", "joint.spline_depth")),
        ("loose tenon", ("tenon_thickness", "tenon_length", "joint.width"), ("joint.size", "joint.spline_depth")),
    ):
        kind.select_option(joint)
        assert all(field(page, ending).is_visible() for ending in seen), joint
        assert not any(field(page, ending).is_visible() for ending in hidden), joint


def test_a_group_that_refuses_leaves_the_others_alone(open_page: Callable[..., Any]) -> None:
    page = corners(open_page(LANDSCAPE), group="parts")
    others = page.locator("#states a:not([aria-current])")
    before = others.all_inner_texts()
    field(page, "sides.top.long").fill("100")
    settled(page)
    assert "make no frame" in says(page, "parts")
    assert others.all_inner_texts() == before
    assert "Sides as cut Cannot be made Stop" in " ".join(page.locator("#states").inner_text().split())


def test_a_bad_text_keeps_its_place_and_its_focus(open_page: Callable[..., Any]) -> None:
    page = corners(open_page(LANDSCAPE), group="parts")
    angle = field(page, "sides.top.start")
    angle.fill("fifty")
    settled(page)
    assert "Enter a number" in page.locator("[id$='sides-top-start'] .error").inner_text()
    assert angle.evaluate("field => field === document.activeElement") and angle.input_value() == "fifty"


def test_without_scripts_a_test_cut_is_added_read_and_the_fence_turned(open_page: Callable[..., Any]) -> None:
    page = corners(open_page(LANDSCAPE, scripts=False), "maple-canvas.demo", group="tests")
    press(page, page.get_by_role("button", name="Add a test cut"))
    field(page, "outside_gap").fill("0.3 mm")
    field(page, "inside_gap").fill("0 mm")
    press(page, page.get_by_role("button", name="Save and work it out"))
    assert "further from a square cut" in says(page, "tests")
    press(page, page.get_by_role("button", name="The fence has been turned"))
    assert "Cuts before the fence was turned" in page.locator("#more-tests").inner_text()


def test_a_page_full_of_trouble_is_still_easy_to_read(open_page: Callable[..., Any]) -> None:
    page = open_page()
    at, found = imported(page, "cafe-prints.demo").replace("setting-out", "corners"), 0
    for group in GROUPED[CORNERS]:
        page.goto(f"{at}/{group}")
        open_all(page)
        here = [ending for ending in BUSY if group_of(f"corner.{ending}", page=CORNERS) == group]
        for ending in here:
            field(page, ending).fill(BUSY[ending])
        if here:
            field(page, here[-1]).blur()
        settled(page)
        open_all(page)
        found += page.locator(".corners .finding").count()
        assert faults(page) == {}, group
    assert found >= 4
