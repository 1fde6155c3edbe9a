"""Frames with n equal sides: the chain across the flats, the member, the corners, sides that slope."""

import tomllib
from itertools import pairwise
from math import dist, hypot
from pathlib import Path
from typing import Any

import pytest
from shapely import Point as Spot
from shapely import Polygon

from framecalc.corners.polygons import (
    PolygonMeasurement,
    flats_of_height_mm,
    flats_of_side_mm,
    member_of_polygon,
    package_flats_mm,
    polygon_around,
    polygon_corners,
    side_of_flats_mm,
    sloped_side,
)
from framecalc.errors import FrameCalcError
from framecalc.sizes.members import members_of_rectangle

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/polygons.toml").read_text("utf-8"))["check"]
SIDES = [3, 4, 5, 6, 7, 8, 12, 24]
GOOD = {"package_flats_mm": 300.0, "clearance_mm": 3.0, "rabbet_width_mm": 6.0, "face_width_mm": 30.0}


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check["name"])
def test_worked_side(check: dict[str, Any]) -> None:
    found = side_of_flats_mm(check["flats_mm"], sides=check["sides"])
    assert found == pytest.approx(check["expect_mm"], abs=check["tolerance_mm"])


@pytest.mark.parametrize("sides", SIDES)
def test_the_rings_of_a_frame_are_those_that_shapely_draws(sides: int) -> None:
    sizes = polygon_around(sides=sides, **GOOD)
    member = member_of_polygon(sizes)
    outside = Polygon(polygon_corners(sizes.outside_flats_mm, sides=sides))
    sight = Polygon(polygon_corners(sizes.sight_flats_mm, sides=sides))
    assert outside.length == pytest.approx(member.count * member.long_mm)
    assert sight.length == pytest.approx(member.count * member.short_mm)
    assert outside.exterior.distance(sight) == pytest.approx(member.width_mm)
    assert sight.equals_exact(outside.buffer(-member.width_mm, join_style="mitre").normalize(), 1e-6) or (
        sight.symmetric_difference(outside.buffer(-member.width_mm, join_style="mitre")).area < 1e-6
    )


@pytest.mark.parametrize("sides", SIDES)
def test_a_disc_of_the_rabbet_size_touches_every_rabbet_wall(sides: int) -> None:
    sizes = polygon_around(sides=sides, **GOOD)
    rabbet = Polygon(polygon_corners(sizes.rabbet_flats_mm, sides=sides))
    assert rabbet.exterior.distance(Spot(0, 0)) == pytest.approx(sizes.rabbet_flats_mm / 2)


@pytest.mark.parametrize("sides", SIDES)
def test_the_outside_from_corner_to_corner_is_twice_the_way_to_a_corner(sides: int) -> None:
    sizes = polygon_around(sides=sides, **GOOD)
    corners = polygon_corners(sizes.outside_flats_mm, sides=sides)
    assert 2 * hypot(*corners[0]) == pytest.approx(sizes.outside_corners_mm)


@pytest.mark.parametrize("sides", SIDES)
def test_the_bottom_side_is_level_and_every_side_is_as_long(sides: int) -> None:
    corners = polygon_corners(200, sides=sides)
    assert min(y for _, y in corners) == pytest.approx(-100)
    assert corners[0][1] == pytest.approx(corners[-1][1]) and corners[0][0] < corners[-1][0]
    lengths = [dist(start, end) for start, end in pairwise((*corners, corners[0]))]
    assert lengths == pytest.approx(sides * [side_of_flats_mm(200, sides=sides)])


@pytest.mark.parametrize("sides", SIDES)
def test_a_polygon_measured_three_ways_is_one_polygon(sides: int) -> None:
    corners = polygon_corners(200, sides=sides)
    height_mm = max(y for _, y in corners) - min(y for _, y in corners)
    assert flats_of_height_mm(height_mm, sides=sides) == pytest.approx(200)
    assert flats_of_side_mm(dist(*corners[:2]), sides=sides) == pytest.approx(200)


def test_four_equal_sides_are_a_rectangle() -> None:
    sizes = polygon_around(sides=4, **GOOD)
    across, up = members_of_rectangle(
        outside_across_mm=sizes.outside_flats_mm, outside_up_mm=351, face_width_mm=30, rabbet_width_mm=6
    )
    member = member_of_polygon(sizes)
    assert (member.long_mm, member.short_mm, member.rabbet_wall_mm) == pytest.approx(
        (across.long_mm, across.short_mm, across.rabbet_wall_mm)
    )
    assert member.mitre_deg == up.mitre_deg


@pytest.mark.parametrize("sides", SIDES)
@pytest.mark.parametrize("slope", [0, 26, 45, 60, 90])
def test_a_side_laid_flat_has_the_gauge_angle_at_its_ends(sides: int, slope: float) -> None:
    """Both edges are measured on the frame as it stands; the end between them must be the gauge's own slant."""
    side = sloped_side(sides=sides, wide_flats_mm=500, face_width_mm=50, slope_deg=slope)
    wide = polygon_corners(500, sides=sides)[0]
    narrow = polygon_corners(side.narrow_flats_mm, sides=sides)[0]
    slant_mm = hypot(wide[0] - narrow[0], wide[1] - narrow[1], side.rise_mm)
    assert hypot(side.width_mm, (side.long_mm - side.short_mm) / 2) == pytest.approx(slant_mm)


@pytest.mark.parametrize(
    ("field", "value", "says"),
    [
        ("package_flats_mm", 0.0, "more than 0 mm"),
        ("face_width_mm", float("inf"), "face width cannot be inf"),
        ("rabbet_width_mm", 30.0, "leaves nothing of a member"),
    ],
)
def test_polygons_that_cannot_be_are_refused(field: str, value: float, says: str) -> None:
    with pytest.raises(FrameCalcError, match=says) as refusal:
        polygon_around(sides=6, **(GOOD | {field: value}))
    assert refusal.value.field == field


def test_a_small_disc_in_a_wide_rabbet_leaves_nothing_in_view() -> None:
    with pytest.raises(FrameCalcError, match="nothing stays open"):
        polygon_around(sides=6, **(GOOD | {"package_flats_mm": 9.0}))


def test_sloping_sides_that_meet_in_a_point_are_refused() -> None:
    with pytest.raises(FrameCalcError, match="nothing stays open"):
        sloped_side(sides=4, wide_flats_mm=100, face_width_mm=60, slope_deg=20)


@pytest.mark.parametrize("sides", SIDES)
def test_one_package_is_found_from_whatever_was_measured_of_it(sides: int) -> None:
    """Measured on the corners themselves: a side, and from the level side at the bottom to the highest corner."""
    corners = polygon_corners(300.0, sides=sides)
    heights = [y for _, y in corners]
    measures = {
        PolygonMeasurement.PACKAGE_FLATS: 300.0,
        PolygonMeasurement.PACKAGE_SIDE: dist(corners[0], corners[1]),
        PolygonMeasurement.PACKAGE_HEIGHT: max(heights) - min(heights),
        PolygonMeasurement.RABBET_FLATS: 304.0,
    }
    for given, measured_mm in measures.items():
        found = package_flats_mm(measured_mm, given=given, sides=sides, clearance_mm=4.0)
        assert found == pytest.approx(300.0)


def test_a_rabbet_size_within_its_clearance_is_refused() -> None:
    with pytest.raises(FrameCalcError, match="holds nothing"):
        package_flats_mm(3.0, given=PolygonMeasurement.RABBET_FLATS, sides=8, clearance_mm=3.0)
