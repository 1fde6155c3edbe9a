"""The drawing of what a stick or board can make: true to its frontier, legible, inside its panel."""

import json
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
from svg_reading import Drawn

import framecalc
from framecalc.drawing.timber.frames_from_a_stick import ACROSS_MM, UP_MM, draw_frames_from_a_stick
from framecalc.plan import Plan
from framecalc.project import read_project

DEMOS = {path.name.split(".")[0]: path for path in (Path(framecalc.__file__).parent / "demos").glob("*demo.json")}
SIZES: list[dict[str, Any]] = [
    {},
    {"length": "800 mm"},
    {"length": "20000 mm", "count": 20, "width": "300 mm"},
    {"length": "26 in", "count": 4},
    {"length": "3000 mm", "defect_from": "100 cm", "defect_to": "1100 mm", "count": 2},
]


def drawn(demo: str, typed: dict[str, Any], *, frames: int = 1, grows_mm: float = 0) -> tuple[Plan, str]:
    document: dict[str, Any] = json.loads(DEMOS[demo].read_text("utf-8"))
    first = document["frames"][0]
    document["frames"] = [
        first | {"id": f"f{number}", "name": f"Frame {number}"} | _artwork(first, number * grows_mm)
        for number in range(frames)
    ]
    document["reach"] = typed
    plan = Plan(read_project(document))
    return plan, draw_frames_from_a_stick(plan.frames_from_a_stick)


def _artwork(frame: dict[str, Any], more_mm: float) -> dict[str, Any]:
    if not more_mm:
        return {}
    sizes = {side: f"{200 + more_mm:g} mm" for side in ("across", "up")}
    return {"artwork": frame["artwork"] | sizes}


@pytest.mark.parametrize("typed", SIZES, ids=str)
@pytest.mark.parametrize("grows_mm", [13, 31, 47, 97])
@pytest.mark.parametrize("demo", ["cafe-prints", "maple-canvas"])
def test_no_strong_line_runs_through_a_number(demo: str, typed: dict[str, Any], grows_mm: float) -> None:
    page = Drawn(drawn(demo, typed, frames=6, grows_mm=grows_mm)[1])
    strong = [line for role in ("outline", "hidden", "given") for line in page.segments(role)]
    assert len(strong) >= 3
    for text in page.texts:
        assert not any(text.is_crossed_by(*line) for line in strong), text.text


def test_numbers_stand_beside_their_dots() -> None:
    """Six dots that stand a little apart keep their numbers, one in a crowd keeps at least some."""
    for grows_mm, least in ((97, 6), (31, 3)):
        page = Drawn(drawn("cafe-prints", {"length": "1300 mm", "count": 2}, frames=6, grows_mm=grows_mm)[1])
        assert sum(text.text in "123456" for text in page.texts) >= least


@pytest.mark.parametrize("typed", SIZES, ids=str)
@pytest.mark.parametrize("demo", ["cafe-prints", "maple-canvas"])
def test_words_are_inside_the_panel_and_clear_of_each_other(demo: str, typed: dict[str, Any]) -> None:
    page = Drawn(drawn(demo, typed, frames=6)[1])
    for text in page.texts:
        assert text.left >= 0 and text.top >= 0 and text.right <= ACROSS_MM and text.bottom <= UP_MM, text.text
    for one, other in combinations(page.texts, 2):
        assert not one.overlaps(other), (one.text, other.text)


def test_the_dimensions_are_those_of_the_largest_frame_of_the_shape() -> None:
    plan, svg = drawn("cafe-prints", {"length": "1900 mm"})
    texts = {text.figure: text.text for text in Drawn(svg).texts if text.figure}
    largest = plan.frames_from_a_stick.largest[0]
    assert texts == {"largest_across": largest.across.text, "largest_up": largest.up.text}


def test_a_frame_that_can_be_made_lies_on_the_shaded_side() -> None:
    for length, can in (("1900 mm", True), ("1200 mm", False)):
        plan, svg = drawn("cafe-prints", {"length": length})
        assert plan.frames_from_a_stick.spots[0].fits is can
        assert ("it can make Frame 0" in svg) is can
        assert ('class="tag"' in svg) is not can


def test_another_board_is_another_drawing() -> None:
    assert drawn("cafe-prints", {"length": "1900 mm"})[1] != drawn("cafe-prints", {"length": "1901 mm"})[1]
