"""Plane geometry: against Shapely, on shapes made at random."""

import random

import pytest
from shapely import MultiPoint, Polygon, box

from framecalc.geometry.plane import Point, Rectangle, convex_overlap, distance_mm, shape_area_mm2, surround

L_SHAPE: list[Point] = [(0, 0), (24, 0), (24, 10), (30, 10), (30, 20), (0, 20)]


def _hull(chance: random.Random, *, spread: float) -> list[Point]:
    middle = chance.uniform(-spread, spread), chance.uniform(-spread, spread)
    points = [(middle[0] + chance.uniform(-10, 10), middle[1] + chance.uniform(-10, 10)) for _ in range(7)]
    return list(MultiPoint(points).convex_hull.exterior.coords)[:-1]


@pytest.mark.parametrize("seed", range(150))
def test_distance_overlap_and_area_are_those_of_shapely(seed: int) -> None:
    chance = random.Random(seed)
    one, other = _hull(chance, spread=14), _hull(chance, spread=14)
    assert shape_area_mm2(one) == pytest.approx(Polygon(one).area)
    assert convex_overlap(one, other) == (Polygon(one).intersection(Polygon(other)).area > 1e-9)
    assert distance_mm(one, other) == pytest.approx(Polygon(one).distance(Polygon(other)), abs=1e-9)


@pytest.mark.parametrize("seed", range(150))
def test_what_stands_around_a_rectangle_is_what_shapely_measures(seed: int) -> None:
    chance = random.Random(seed)
    left, low = chance.uniform(1, 20), chance.uniform(0.5, 16)
    rectangle = Rectangle(left_mm=left, right_mm=left + chance.uniform(1, 9), low_mm=low, high_mm=low + 3)
    solid, hole = Polygon(L_SHAPE), box(rectangle.left_mm, rectangle.low_mm, rectangle.right_mm, rectangle.high_mm)
    found = surround(L_SHAPE, rectangle)
    inside = solid.covers(hole)
    assert inside == (min(found.left_mm, found.right_mm, found.low_mm, found.high_mm) >= 0)
    assert found.nearest_mm == pytest.approx(solid.exterior.distance(hole) if inside else 0, abs=1e-9)
    if inside:
        _check_room_to_every_side(solid, rectangle, found.left_mm, found.right_mm, found.low_mm, found.high_mm)


def _check_room_to_every_side(
    solid: Polygon, hole: Rectangle, left_mm: float, right_mm: float, low_mm: float, high_mm: float
) -> None:
    """Grown by its room to a side the rectangle just fits; grown a little more it does not."""
    for grow in range(4):
        for more, fits in ((-1e-6, True), (1e-3, False)):
            edges = [hole.left_mm, hole.low_mm, hole.right_mm, hole.high_mm]
            edges[grow] += (-left_mm - more, -low_mm - more, right_mm + more, high_mm + more)[grow]
            assert solid.buffer(1e-9).covers(box(*edges)) is fits


def test_beside_a_slanted_edge_the_narrowest_place_counts() -> None:
    """A trapezoid whose sides lean inward by 1 in 2: at 10 mm up they are 5 mm in."""
    trapezoid: list[Point] = [(0, 0), (40, 0), (30, 20), (10, 20)]
    found = surround(trapezoid, Rectangle(left_mm=15, right_mm=25, low_mm=4, high_mm=10))
    assert (found.left_mm, found.right_mm) == pytest.approx((10, 10))


def test_a_rectangle_that_breaks_out_says_by_how_much() -> None:
    found = surround(L_SHAPE, Rectangle(left_mm=10, right_mm=25.5, low_mm=4, high_mm=8))
    assert (found.right_mm, found.nearest_mm) == (-1.5, 0)
    assert surround(L_SHAPE, Rectangle(left_mm=-2, right_mm=9, low_mm=4, high_mm=8)).left_mm == -2


def test_a_rectangle_above_the_rabbet_floor_has_the_lip_beside_it() -> None:
    found = surround(L_SHAPE, Rectangle(left_mm=10, right_mm=22, low_mm=11, high_mm=15))
    assert (found.right_mm, found.low_mm) == (8, 11)
    assert found.nearest_mm == pytest.approx((2**2 + 1**2) ** 0.5)


def test_a_rectangle_over_the_rabbet_stands_on_its_floor() -> None:
    found = surround(L_SHAPE, Rectangle(left_mm=10, right_mm=26, low_mm=11, high_mm=15))
    assert found.low_mm == 1


def test_shapes_that_only_touch_do_not_overlap() -> None:
    assert not convex_overlap([(0, 0), (1, 0), (1, 1), (0, 1)], [(1, 0), (2, 0), (2, 1), (1, 1)])
    assert distance_mm([(0, 0), (1, 0), (1, 1), (0, 1)], [(1, 0), (2, 0), (2, 1), (1, 1)]) == 0
