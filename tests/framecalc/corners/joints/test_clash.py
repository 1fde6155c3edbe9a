"""Clashes between the joints of one corner: prisms against Shapely, at every height."""

import random
from itertools import pairwise
from math import cos, hypot, pi, sin, sqrt

import pytest
from shapely import MultiPoint, Point, Polygon

from framecalc.corners.joints.clash import (
    Prism,
    clash_findings,
    find_clashes,
    prism_distance_mm,
    slot_prism,
    stand_within,
)
from framecalc.corners.joints.corner_stock import CornerStock, corner_stock
from framecalc.corners.joints.slot_kinds import disc_slot, mortise
from framecalc.corners.joints.slots import place_slot
from framecalc.corners.joints.splines import place_spline, spline_prism
from framecalc.findings import Severity


def _stock(*, sides: int = 4) -> CornerStock:
    return corner_stock(face_width_mm=45, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12, sides=sides)


def _random_prism(chance: random.Random, name: str) -> Prism:
    points = [(chance.uniform(0, 25), chance.uniform(0, 25)) for _ in range(5)]
    low_mm = chance.uniform(0, 12)
    hull = tuple(MultiPoint(points).convex_hull.exterior.coords)[:-1]
    return Prism(name=name, plan=hull, low_mm=low_mm, high_mm=low_mm + chance.uniform(1, 5))


@pytest.mark.parametrize("seed", range(80))
def test_prisms_are_apart_by_plan_and_height_together(seed: int) -> None:
    chance = random.Random(seed)
    one, other = _random_prism(chance, "one"), _random_prism(chance, "other")
    plan_mm = Polygon(one.plan).distance(Polygon(other.plan))
    levels = [(a, b) for a in (one.low_mm, one.high_mm) for b in (other.low_mm, other.high_mm)]
    overlap = max(one.low_mm, other.low_mm) <= min(one.high_mm, other.high_mm)
    height_mm = 0.0 if overlap else min(abs(a - b) for a, b in levels)
    assert prism_distance_mm(one, other) == pytest.approx(hypot(plan_mm, height_mm), abs=1e-9)
    assert prism_distance_mm(one, other) == prism_distance_mm(other, one)
    for reach_mm in (0.0, 1.0, 4.0, 12.0):
        assert stand_within(one, other, reach_mm=reach_mm) is (prism_distance_mm(one, other) <= reach_mm)


@pytest.mark.parametrize("sides", [3, 4, 8])
def test_a_slot_lies_half_in_each_member(sides: int) -> None:
    stock = _stock(sides=sides)
    place = place_slot(stock, mortise(width_mm=16, depth_mm=9, thickness_mm=5), height_mm=8, wall_mm=1)
    drawn = Polygon(slot_prism(stock, place).plan)
    middle = Point(place.marks.centre_mm * sin(pi / sides), place.marks.centre_mm * cos(pi / sides))
    assert drawn.area == pytest.approx(16 * 18)
    assert drawn.centroid.distance(middle) == pytest.approx(0, abs=1e-9)
    assert drawn.bounds[1] == pytest.approx(place.walls.outer_mm)


def test_a_disc_slot_is_the_lens_of_two_discs() -> None:
    stock = _stock()
    place = place_slot(
        stock, disc_slot("biscuit", depth_mm=8, thickness_mm=4, disc_mm=100), height_mm=8, wall_mm=1, from_tip_mm=30
    )
    prism = slot_prism(stock, place)
    middle = 30 / sqrt(2)
    away = (50 - 8) / sqrt(2)
    lens = (
        Point(middle - away, middle + away)
        .buffer(50, 400)
        .intersection(Point(middle + away, middle - away).buffer(50, 400))
    )
    assert Polygon(prism.plan).symmetric_difference(lens).area < 0.01 * lens.area
    turns = [_turn(a, b, c) for (a, b), (_, c) in pairwise(pairwise((*prism.plan, *prism.plan[:2])))]
    assert max(turns) < 1e-6 or min(turns) > -1e-6


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


def test_a_spline_that_is_cut_into_a_tenon_is_found() -> None:
    stock = _stock()
    slot = slot_prism(
        stock, place_slot(stock, mortise(width_mm=16, depth_mm=9, thickness_mm=5), height_mm=8, wall_mm=3)
    )
    deep = spline_prism(stock, place_spline(stock, depth_mm=30, kerf_mm=3.2, height_mm=8, cradle_mm=20))
    over = spline_prism(stock, place_spline(stock, depth_mm=30, kerf_mm=3.2, height_mm=17, cradle_mm=20))
    near = spline_prism(stock, place_spline(stock, depth_mm=30, kerf_mm=3.2, height_mm=13, cradle_mm=20))
    assert [clash.apart_mm for clash in find_clashes([slot, deep], wanted_mm=3)] == [0]
    assert find_clashes([slot, over], wanted_mm=3) == ()
    assert [clash.apart_mm for clash in find_clashes([slot, near], wanted_mm=3)] == pytest.approx([0.9])


def test_meeting_is_a_stop_and_nearness_a_warning() -> None:
    box = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
    prisms = [Prism(name=name, plan=box, low_mm=low, high_mm=low + 1) for name, low in (("a", 0), ("b", 0.5), ("c", 3))]
    clashes = find_clashes(prisms, wanted_mm=3)
    found = clash_findings(clashes, wanted_mm=3)
    assert [clash.apart_mm for clash in clashes] == [0, 1.5, 2]
    assert [finding.severity for finding in found] == [Severity.STOP, Severity.WARN, Severity.WARN]
    assert found[0].sentence == "The a runs into the b."
