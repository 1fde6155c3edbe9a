"""The small fronts of a job: each in its own shape, all at one scale, all standing on one line."""

from collections.abc import Callable

import pytest
from drawn_plans import plan_of
from svg_reading import Drawn

from framecalc.drawing.job.fronts import LINE_MM, UP_MM, WIDEST_RATIO, common_scale, draw_small_front, read_small_front
from framecalc.plan import FramePlan

ROOM_MM = UP_MM - 2 * LINE_MM


def polygon(sides: int) -> FramePlan:
    return plan_of("maple-canvas", "map1", {"shape.sides": sides, "shape.size": "300 mm"})


def lone(plan: FramePlan) -> Drawn:
    front = read_small_front(plan)
    return Drawn(draw_small_front(front, scale=common_scale([front])))


@pytest.mark.parametrize("sides", [3, 5, 6, 8])
def test_a_polygon_stands_in_its_own_shape(sides: int) -> None:
    drawn = lone(polygon(sides))
    (outside,) = drawn.runs("outline")
    assert len(set(outside)) == sides
    *mitred, sight = drawn.runs("edge")
    assert {start for start, _ in mitred} == set(outside)
    assert {end for _, end in mitred} == set(sight)


@pytest.mark.parametrize("told", [lambda: polygon(3), lambda: polygon(6), lambda: plan_of("ash-relief", "box1")])
def test_a_front_fills_its_sheet_from_the_foot(told: Callable[[], FramePlan]) -> None:
    plan = told()
    (outside,) = lone(plan).runs("outline")
    extent, ups = read_small_front(plan).extent, [up for _, up in outside]
    assert max(ups) == pytest.approx(UP_MM - LINE_MM, abs=0.003)
    highest_mm = min(ROOM_MM, ROOM_MM * WIDEST_RATIO * extent.up_mm / extent.across_mm)
    assert max(ups) - min(ups) == pytest.approx(highest_mm, abs=0.003)


@pytest.mark.parametrize("row_mm", [20.0, 60.0, 90.0])
def test_a_row_is_no_wider_than_its_room(row_mm: float) -> None:
    fronts = [read_small_front(plan) for plan in (polygon(3), polygon(8), plan_of("ash-relief", "box1"))]
    scale = common_scale(fronts, row_mm=row_mm)
    across_mm = [front.extent.across_mm * scale for front in fronts]
    assert sum(across_mm) == pytest.approx(min(row_mm, sum(across_mm) / scale * common_scale(fronts)))
