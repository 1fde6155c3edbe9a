"""Splines: depth limits behind and within the lip, what shows, the blank, even heights; triangles drawn in Shapely."""

from math import sqrt

import pytest
from shapely import Polygon

from framecalc.corners.joints.corner_stock import CornerStock, corner_stock
from framecalc.corners.joints.splines import (
    even_depth_mm,
    place_spline,
    spline_findings,
    spline_prism,
    spread_heights_mm,
)
from framecalc.errors import FrameCalcError
from framecalc.findings import Severity


def _stock(*, sides: int = 4, thickness_mm: float = 20) -> CornerStock:
    return corner_stock(face_width_mm=40, thickness_mm=thickness_mm, rabbet_width_mm=6, rabbet_depth_mm=12, sides=sides)


SETTING = {"kerf_mm": 3.2, "cradle_mm": 20.0}


def test_behind_the_lip_the_land_is_the_limit_and_within_it_the_width() -> None:
    behind = place_spline(_stock(), depth_mm=20, height_mm=6, wall_mm=3, **SETTING)
    within = place_spline(_stock(), depth_mm=20, height_mm=15, wall_mm=3, **SETTING)
    assert behind.deepest_mm == pytest.approx((40 - 6) * sqrt(2) - 3)
    assert within.deepest_mm == pytest.approx(40 * sqrt(2) - 3)


def test_a_spline_at_both_heights_heeds_the_nearer_limit() -> None:
    across = place_spline(_stock(), depth_mm=20, height_mm=12, wall_mm=3, **SETTING)
    assert across.deepest_mm == pytest.approx((40 - 6) * sqrt(2) - 3)


@pytest.mark.parametrize("sides", [3, 4, 6])
@pytest.mark.parametrize("depth_mm", [8.0, 21.0])
def test_what_shows_the_blank_and_the_glue_are_those_of_the_triangle_cut(sides: int, depth_mm: float) -> None:
    """Cut the corner across, square to the mitre, and measure the piece that comes off."""
    stock = _stock(sides=sides)
    spline = place_spline(stock, depth_mm=depth_mm, height_mm=6, overhang_mm=2, **SETTING)
    tip, one, other = spline_prism(stock, spline).plan
    drawn = Polygon([tip, one, other])
    assert spline.visible_mm == pytest.approx(Polygon([tip, one, tip]).length / 2)
    assert one[1] == pytest.approx(0)
    assert spline.blank.length_mm - 4 == pytest.approx(Polygon([one, other, one]).length / 2)
    assert spline.blank.width_mm - 4 == depth_mm
    assert spline.glue_area_mm2 == pytest.approx(2 * drawn.area)


def test_the_blade_stands_over_the_cradle_by_the_depth() -> None:
    assert place_spline(_stock(), depth_mm=22, height_mm=6, kerf_mm=3.2, cradle_mm=19).blade_mm == 41


@pytest.mark.parametrize("count", [1, 2, 3])
def test_heights_leave_as_much_wood_between_splines_as_outside_of_them(count: int) -> None:
    heights = spread_heights_mm(_stock(), count=count, kerf_mm=3.2)
    edges = [0.0, *(edge for height in heights for edge in (height - 1.6, height + 1.6)), 20.0]
    woods = [edges[i + 1] - edges[i] for i in range(0, len(edges), 2)]
    assert woods == pytest.approx((count + 1) * [woods[0]])


def test_one_setting_of_the_blade_does_for_the_shallowest() -> None:
    stock = _stock()
    depth_mm = even_depth_mm(stock, spread_heights_mm(stock, count=2, kerf_mm=3.2), kerf_mm=3.2, wall_mm=3)
    assert depth_mm == pytest.approx(34 * sqrt(2) - 3)


def test_a_spline_that_comes_through_is_a_stop_and_says_what_would_do() -> None:
    found = spline_findings(_stock(), place_spline(_stock(), depth_mm=50, height_mm=6, **SETTING))
    assert [(finding.code, finding.severity) for finding in found] == [("joints.spline-through", Severity.STOP)]
    assert found[0].lengths["deepest"] == pytest.approx(34 * sqrt(2) - 3)


def test_a_spline_just_above_the_rabbet_floor_is_thin_there() -> None:
    found = spline_findings(_stock(), place_spline(_stock(), depth_mm=52, height_mm=14.6, **SETTING))
    assert [finding.code for finding in found] == ["joints.spline-thin"]
    assert found[0].lengths["wall"] == pytest.approx(1)


def test_a_shallow_spline_is_not_called_thin_for_being_near_the_tip() -> None:
    assert spline_findings(_stock(), place_spline(_stock(), depth_mm=2, height_mm=6, **SETTING)) == ()


def test_a_spline_thicker_than_a_quarter_is_noted() -> None:
    found = spline_findings(_stock(), place_spline(_stock(), depth_mm=20, height_mm=8, kerf_mm=6.35, cradle_mm=20))
    assert [finding.code for finding in found] == ["joints.spline-thick"]


@pytest.mark.parametrize(
    ("changed", "field", "says"),
    [
        ({"depth_mm": 60.0}, "depth_mm", "Enter a depth under 56"),
        ({"kerf_mm": 20.0}, "kerf_mm", "Enter a spline under 20 mm, the member's thickness, not 20 mm"),
        ({"height_mm": 1.0}, "height_mm", "Enter 1.6 mm to 18.4 mm"),
        ({"cradle_mm": -1.0}, "cradle_mm", "0 mm or more"),
    ],
)
def test_splines_larger_than_their_corner_are_refused(changed: dict[str, float], field: str, says: str) -> None:
    with pytest.raises(FrameCalcError, match=says) as refusal:
        place_spline(_stock(), **({"depth_mm": 20.0, "height_mm": 6.0} | SETTING | changed))
    assert refusal.value.field == field


def test_more_splines_than_there_is_wood_are_refused() -> None:
    with pytest.raises(FrameCalcError, match="Enter fewer than"):
        spread_heights_mm(_stock(thickness_mm=12.5), count=4, kerf_mm=3.2)


@pytest.mark.parametrize("height_mm", [4.0, 10.39, 10.41, 16.0])
def test_a_spline_lies_half_its_thickness_to_either_side_of_its_height(height_mm: float) -> None:
    """What is left under and over it and the spline itself make up the member; over the floor of the rabbet it may go
    as deep as the land, wherever its upper side reaches into the lip and its lower side does not."""
    spline = place_spline(_stock(), depth_mm=8, height_mm=height_mm, wall_mm=3, **SETTING)
    assert (spline.back_mm, spline.face_mm) == pytest.approx((height_mm - 1.6, 20 - height_mm - 1.6))
    assert spline.deepest_mm == pytest.approx((40 if height_mm > 12 + 1.6 else 34) * sqrt(2) - 3)


@pytest.mark.parametrize(("left_mm", "code"), [(0.5, "joints.spline-thin"), (-0.5, "joints.spline-through")])
def test_half_a_millimetre_is_a_wall_though_a_thin_one(left_mm: float, code: str) -> None:
    spline = place_spline(_stock(), depth_mm=34 * sqrt(2) - left_mm, height_mm=6, **SETTING)
    assert code in [finding.code for finding in spline_findings(_stock(), spline)]


def test_splines_are_too_many_only_when_no_wood_is_left_between_them() -> None:
    low_mm, high_mm = spread_heights_mm(_stock(), count=2, kerf_mm=9.9)
    assert high_mm - low_mm - 9.9 == pytest.approx(low_mm - 9.9 / 2) == pytest.approx(0.2 / 3)
    with pytest.raises(FrameCalcError, match="fewer than 2"):
        spread_heights_mm(_stock(), count=2, kerf_mm=10)


def test_a_wall_may_leave_half_a_millimetre_of_depth() -> None:
    room_mm = 34 * sqrt(2)
    assert even_depth_mm(_stock(), [6.0], kerf_mm=3.2, wall_mm=room_mm - 0.5) == pytest.approx(0.5)
    with pytest.raises(FrameCalcError, match="leaves no depth"):
        even_depth_mm(_stock(), [6.0], kerf_mm=3.2, wall_mm=room_mm + 0.1)
