"""Regular polygons: what was measured of one, its sides and its corners."""

import tomllib
from itertools import pairwise
from math import dist
from pathlib import Path
from typing import Any

import pytest

from framecalc.errors import FrameCalcError
from framecalc.sizes.polygons import (
    PolygonMeasurement,
    flats_of_height_mm,
    flats_of_side_mm,
    package_flats_mm,
    polygon_corners,
    side_of_flats_mm,
)

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/polygons.toml").read_text("utf-8"))["check"]
SIDES = [3, 4, 5, 6, 7, 8, 12, 24]


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check["name"])
def test_worked_side(check: dict[str, Any]) -> None:
    found = side_of_flats_mm(check["flats_mm"], sides=check["sides"])
    assert found == pytest.approx(check["expect_mm"], abs=check["tolerance_mm"])


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
