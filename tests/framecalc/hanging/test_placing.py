"""A frame that is tapped onto the wall: snaps to lines, keeps gaps, lies over nothing, wherever the finger was."""

from contextlib import suppress
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.errors import ImpossibleSize
from framecalc.hanging.groups import OnWall, meet
from framecalc.hanging.placing import Lines, put

LINES = Lines(line_mm=1500, gap_mm=75, wall_mm=4000, reach_mm=40)


def frame(x_mm: float, y_mm: float, key: str = "tapped") -> OnWall:
    return OnWall(key=key, across_mm=400, up_mm=300, x_mm=x_mm, y_mm=y_mm)


@pytest.mark.parametrize(("tapped", "snapped"), [(1525, 1500), (1541, 1541), (1461, 1500)])
def test_the_middle_snaps_to_the_line_within_reach(tapped: float, snapped: float) -> None:
    assert put(frame(700, tapped), others=(), lines=LINES).y_mm == snapped


@pytest.mark.parametrize(("tapped", "left_mm"), [(10, 0), (150, 0), (3990, 3600)])
def test_a_tap_near_the_end_of_the_wall_hangs_it_in_the_corner(tapped: float, left_mm: float) -> None:
    assert put(frame(tapped, 1500), others=(), lines=LINES).left_mm == left_mm


def test_it_hangs_a_gap_beside_its_neighbour() -> None:
    there = frame(2000, 1500, "there")
    at = put(frame(2460, 1510), others=[there], lines=LINES)
    assert (at.left_mm - there.right_mm, at.y_mm) == (75, 1500)
    at = put(frame(1540, 1510), others=[there], lines=LINES)
    assert (there.left_mm - at.right_mm, at.y_mm) == (75, 1500)
    for y_mm, gap_mm in ((1860, 75), (1140, 75)):
        at = put(frame(2010, y_mm), others=[there], lines=LINES)
        assert (max(at.low_mm - there.high_mm, there.low_mm - at.high_mm), at.x_mm) == (gap_mm, 2000)


def test_a_tap_on_a_frame_puts_it_beside_that() -> None:
    there = frame(2000, 1500, "there")
    at = put(frame(2100, 1500), others=[there], lines=LINES)
    assert not meet(at, there) and at.left_mm == there.right_mm + 75


def test_where_there_is_no_room_it_says_so() -> None:
    narrow = Lines(line_mm=1500, gap_mm=75, wall_mm=450, reach_mm=40, ceiling_mm=2500)
    tall = OnWall(key="there", across_mm=440, up_mm=2300, x_mm=225, y_mm=1200)
    with pytest.raises(ImpossibleSize, match="no room"):
        put(frame(225, 1500), others=[tall], lines=narrow)


@given(st.lists(st.tuples(st.floats(0, 4000), st.floats(0, 2500)), min_size=1, max_size=7))
def test_frames_tapped_one_after_the_other_never_overlap_and_stay_on_the_wall(taps: list[tuple[float, float]]) -> None:
    placed: list[OnWall] = []
    for number, (x, y) in enumerate(taps):
        with suppress(ImpossibleSize):
            placed.append(put(frame(x, y, str(number)), others=placed, lines=LINES))
    assert placed and not any(meet(one, other) for one, other in combinations(placed, 2))
    assert all(at.left_mm >= -1e-6 and at.right_mm <= 4000 + 1e-6 and at.low_mm >= -1e-6 for at in placed)


@pytest.mark.parametrize(("up_mm", "side"), [(380, 1), (-380, -1)])
def test_it_hangs_a_gap_over_or_under_its_neighbour(up_mm: float, side: int) -> None:
    there = frame(2000, 1500, "there")
    at = put(frame(2010, 1500 + up_mm), others=[there], lines=LINES)
    assert (at.x_mm, at.y_mm) == (2000, 1500 + side * (300 + 75))


@pytest.mark.parametrize("side", [-1, 1])
def test_it_snaps_to_the_edges_of_its_neighbour(side: int) -> None:
    """A smaller frame, one edge of which comes near the same edge of the one beside or above it."""
    there = OnWall(key="there", across_mm=600, up_mm=500, x_mm=2000, y_mm=1700)
    above = put(frame(2000 + side * 120, 2300), others=[there], lines=LINES)
    assert (above.left_mm if side < 0 else above.right_mm) == (there.left_mm if side < 0 else there.right_mm)
    beside = put(frame(3000, 1700 + side * 120), others=[there], lines=LINES)
    assert (beside.low_mm if side < 0 else beside.high_mm) == (there.low_mm if side < 0 else there.high_mm)


@pytest.mark.parametrize(("wall_mm", "x_mm"), [(390, 195), (400, 200)])
def test_a_frame_as_wide_as_its_wall_hangs_in_its_middle(wall_mm: float, x_mm: float) -> None:
    lines = Lines(line_mm=1500, gap_mm=75, wall_mm=wall_mm, reach_mm=0)
    if wall_mm < 400:
        with pytest.raises(ImpossibleSize):
            put(frame(0, 1500), others=(), lines=lines)
    else:
        assert put(frame(0, 1500), others=(), lines=lines).x_mm == x_mm


def test_it_snaps_to_the_middle_of_the_wall_and_stands_on_the_floor() -> None:
    assert put(frame(2030, 900), others=(), lines=LINES).x_mm == 2000
    assert put(frame(1000, 20), others=(), lines=LINES).low_mm == 0


@pytest.mark.parametrize(("ceiling_mm", "is_free"), [(1650, True), (1649, False)])
def test_nothing_hangs_through_the_ceiling(ceiling_mm: float, is_free: bool) -> None:
    lines = Lines(line_mm=1500, gap_mm=75, wall_mm=4000, reach_mm=40, ceiling_mm=ceiling_mm)
    if is_free:
        assert put(frame(1000, 1500), others=(), lines=lines).high_mm == 1650
    else:
        with pytest.raises(ImpossibleSize):
            put(frame(1000, 1500), others=(), lines=lines)
