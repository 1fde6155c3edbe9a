"""Level curves: closed, on their level, round what lies above it; runs made simpler as a foreign library makes them."""

from itertools import product
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from shapely import LineString, Point, Polygon

from framecalc.look.levels import framed, level_loops, simplified

ACROSS_MM, UP_MM = (0, 1, 3, 3.5), (-2, 0, 0.5, 4)
"""An uneven grid: each place has a value of its own."""

grids = some.lists(some.lists(some.integers(0, 4), min_size=4, max_size=4), min_size=4, max_size=4)


@settings(max_examples=40)
@given(columns=grids, level=some.sampled_from([0.5, 1.25, 3.5]))
def test_exactly_what_is_above_a_level_lies_within_an_odd_number_of_its_loops(
    columns: list[list[float]], level: float
) -> None:
    grid, xs_mm, ys_mm = framed(columns, xs_mm=ACROSS_MM, ys_mm=UP_MM)
    loops = level_loops(grid, xs_mm=xs_mm, ys_mm=ys_mm, levels=[level])
    rounds = [Polygon(loop) for loop in loops]
    for (i, x), (j, y) in product(enumerate(ACROSS_MM), enumerate(UP_MM)):
        within = sum(one.contains(Point(x, y)) for one in rounds)
        assert within % 2 == (columns[i][j] > level)


@settings(max_examples=40)
@given(columns=grids)
def test_levels_together_are_the_levels_one_by_one(columns: list[list[float]]) -> None:
    grid, xs_mm, ys_mm = framed(columns, xs_mm=ACROSS_MM, ys_mm=UP_MM)
    together, alone = (
        [loop for some_levels in chosen for loop in level_loops(grid, xs_mm=xs_mm, ys_mm=ys_mm, levels=some_levels)]
        for chosen in ([[0.5, 1.5, 2.25]], [[0.5], [1.5], [2.25]])
    )
    assert sorted(map(sorted, together)) == sorted(map(sorted, alone))


def test_the_curve_of_a_slope_is_straight() -> None:
    columns = [[2 * x + 3 * y for y in UP_MM] for x in ACROSS_MM]
    grid, xs_mm, ys_mm = framed(columns, xs_mm=ACROSS_MM, ys_mm=UP_MM)
    (loop,) = level_loops(grid, xs_mm=xs_mm, ys_mm=ys_mm, levels=[4.2])
    on_the_grid = [(x, y) for x, y in loop if 0 <= x <= 3.5 and -2 <= y <= 4]
    assert len(on_the_grid) > 3
    assert [2 * x + 3 * y for x, y in on_the_grid] == pytest.approx([4.2] * len(on_the_grid))


def test_at_a_saddle_what_is_above_hangs_together() -> None:
    grid, xs_mm, ys_mm = framed([[2, 0], [0, 2]], xs_mm=[0, 1], ys_mm=[0, 1])
    (loop,) = level_loops(grid, xs_mm=xs_mm, ys_mm=ys_mm, levels=[1])
    assert Polygon(loop).contains(Point(0.5, 0.5))


@pytest.mark.parametrize("seed", range(12))
def test_a_run_is_made_simpler_as_a_foreign_library_does(seed: int) -> None:
    chance = Random(seed)
    points = [(float(x), chance.uniform(0, 0.3)) for x in range(40)]
    foreign = LineString(points).simplify(0.08, preserve_topology=False)
    assert simplified(points, tolerance_mm=0.08) == tuple(foreign.coords)


def test_a_closed_run_keeps_its_corners_and_what_lies_far_from_where_it_ends() -> None:
    square = [(0, 0), (5, 0.01), (10, 0), (10, 10), (0, 10), (0, 0)]
    assert simplified(square, tolerance_mm=0.1) == ((0, 0), (10, 0), (10, 10), (0, 10), (0, 0))
    there_and_back = [(1, 0), (1, 1.05), (1, 0)]
    assert simplified(there_and_back, tolerance_mm=1) == tuple(there_and_back)
    assert simplified(there_and_back, tolerance_mm=1.06) == ((1, 0), (1, 0))
