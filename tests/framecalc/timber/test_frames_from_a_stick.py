"""What a stick or board in hand can make: every point of the frontier against plain trial."""

from collections.abc import Sequence
from itertools import pairwise, product

import pytest

from framecalc.errors import ImpossibleTimber, OutOfRange
from framecalc.timber.frames_from_a_stick import ANY, ROUND, clear_lengths, frontier, largest_of_shape, most_up_mm
from framecalc.timber.sticks.problem import Stock, Stretch

RACKS = [
    [1000.0],
    [2400.0, 2400.0],
    [1500.0, 700.0],
    [1200.0, 900.0, 600.0],
    [800.0, 800.0, 800.0, 800.0, 800.0],
    [1300.0, 650.0, 640.0, 300.0],
]


def _can_make(across_mm: float, up_mm: float, clear_mm: Sequence[float], cut_mm: float, *, one_stretch: bool) -> bool:
    """Try every way to put the four sides on the stretches."""
    sides = (across_mm, across_mm, up_mm, up_mm)
    for places in product(range(len(clear_mm)), repeat=4):
        if one_stretch and len(set(places)) > 1:
            continue
        used = [
            sum(side + cut_mm for side, place in zip(sides, places, strict=True) if place == stretch)
            for stretch in range(len(clear_mm))
        ]
        if all(not length or length - cut_mm <= clear + 1e-7 for length, clear in zip(used, clear_mm, strict=True)):
            return True
    return False


@pytest.mark.parametrize("cut_mm", [0.0, 4.5])
@pytest.mark.parametrize("shares", [ANY, ROUND], ids=["any", "round"])
@pytest.mark.parametrize("clear_mm", RACKS, ids=str)
def test_the_largest_size_up_can_be_made_and_a_larger_one_cannot(
    clear_mm: list[float], shares: tuple[tuple[tuple[int, int], ...], ...], cut_mm: float
) -> None:
    one_stretch = shares is ROUND
    for across_mm in range(60, 2400, 37):
        up_mm = most_up_mm(across_mm, clear_mm=clear_mm, cut_mm=cut_mm, shares=shares)
        if up_mm > 0:
            assert _can_make(across_mm, up_mm, clear_mm, cut_mm, one_stretch=one_stretch)
        assert not _can_make(across_mm, up_mm + 0.01, clear_mm, cut_mm, one_stretch=one_stretch)


@pytest.mark.parametrize("cut_mm", [0.0, 4.5])
@pytest.mark.parametrize("clear_mm", RACKS, ids=str)
def test_the_frontier_is_the_largest_size_up_at_every_size_across(clear_mm: list[float], cut_mm: float) -> None:
    points = frontier(clear_mm=clear_mm, cut_mm=cut_mm, least_mm=80)
    for (left_mm, left_up), (right_mm, right_up) in pairwise(points):
        assert left_mm <= right_mm + 1e-6 and left_up >= right_up - 1e-6
        for share in (0.25, 0.5, 0.75):
            if right_mm - left_mm > 1e-6:
                across_mm = left_mm + share * (right_mm - left_mm)
                expected = most_up_mm(across_mm, clear_mm=clear_mm, cut_mm=cut_mm)
                assert left_up + share * (right_up - left_up) == pytest.approx(expected, abs=1e-6)
    last_across, last_up = points[-1]
    assert last_up >= 80 - 1e-6
    assert most_up_mm(last_across + 0.01, clear_mm=clear_mm, cut_mm=cut_mm) < 80


@pytest.mark.parametrize("clear_mm", RACKS, ids=str)
def test_a_frame_and_its_turned_twin_are_made_of_the_same_sticks(clear_mm: list[float]) -> None:
    for across_mm, up_mm in frontier(clear_mm=clear_mm, cut_mm=4.5, least_mm=80):
        assert most_up_mm(up_mm - 1e-6, clear_mm=clear_mm, cut_mm=4.5) >= across_mm - 1e-5


@pytest.mark.parametrize("clear_mm", RACKS, ids=str)
def test_grain_round_the_frame_never_allows_more(clear_mm: list[float]) -> None:
    for across_mm in range(80, 1200, 50):
        free, order = (most_up_mm(across_mm, clear_mm=clear_mm, cut_mm=3, shares=shares) for shares in (ANY, ROUND))
        assert order <= free


def test_one_stick_has_a_straight_frontier() -> None:
    points = frontier(clear_mm=[1638 + 3 * 4.5], cut_mm=4.5, least_mm=100, shares=ROUND)
    assert points == ((100, 719), (719, 100))


def test_a_board_gives_its_stretches_strip_by_strip() -> None:
    board = Stock(name="board", length_mm=2000, strips=2, trim_mm=50, defects=(Stretch(start_mm=800, end_mm=850),))
    assert clear_lengths(board, cut_mm=4, count=2) == (1100.0,) * 4 + (750.0,) * 4


def test_a_stick_too_short_for_any_frame_is_refused() -> None:
    with pytest.raises(ImpossibleTimber, match="No frame fits 300 mm: enter a longer stick, or narrower members"):
        frontier(clear_mm=[300], cut_mm=3, least_mm=100)
    with pytest.raises(OutOfRange):
        most_up_mm(0, clear_mm=[300], cut_mm=3)
    with pytest.raises(OutOfRange):
        most_up_mm(100, clear_mm=[300, 0], cut_mm=3)


@pytest.mark.parametrize("shape_ratio", [0.2, 0.5, 0.8, 1.0, 1.25, 3.0])
@pytest.mark.parametrize("clear_mm", RACKS, ids=str)
def test_the_largest_frame_of_a_shape_can_be_made_and_a_larger_one_cannot(
    clear_mm: list[float], shape_ratio: float
) -> None:
    points = frontier(clear_mm=clear_mm, cut_mm=4.5, least_mm=80)
    across_mm, up_mm = largest_of_shape(points, shape_ratio=shape_ratio)
    assert up_mm == pytest.approx(shape_ratio * across_mm)
    assert most_up_mm(across_mm - 1e-6, clear_mm=clear_mm, cut_mm=4.5) >= up_mm - 1e-5
    if up_mm > 80 + 1e-6:
        assert most_up_mm(across_mm + 0.01, clear_mm=clear_mm, cut_mm=4.5) < shape_ratio * (across_mm + 0.01)


def test_a_shape_that_needs_more_than_the_frontier_has_is_refused() -> None:
    points = frontier(clear_mm=[1000], cut_mm=0, least_mm=100)
    with pytest.raises(ImpossibleTimber, match="Too short for a frame of this shape: enter a longer stick"):
        largest_of_shape(points, shape_ratio=4.5)
    with pytest.raises(ImpossibleTimber):
        largest_of_shape((), shape_ratio=1)
    with pytest.raises(OutOfRange):
        largest_of_shape(points, shape_ratio=0)


@pytest.mark.parametrize("cut_mm", [0.0, 4.5])
@pytest.mark.parametrize("clear_mm", RACKS, ids=str)
def test_the_frontier_turns_at_each_of_its_points_and_repeats_none(clear_mm: list[float], cut_mm: float) -> None:
    points = frontier(clear_mm=clear_mm, cut_mm=cut_mm, least_mm=80)
    for (left, high), (middle, mean), (right, low) in zip(points, points[1:], points[2:], strict=False):
        assert abs((middle - left) * (low - high) - (right - left) * (mean - high)) > 1e-3
    assert all(right - left + high - low > 1e-3 for (left, high), (right, low) in pairwise(points))


@pytest.mark.parametrize("clear_mm", RACKS, ids=str)
def test_shapes_close_to_that_of_a_corner_are_as_large_as_can_be(clear_mm: list[float]) -> None:
    points = frontier(clear_mm=clear_mm, cut_mm=4.5, least_mm=80)
    for across_mm, up_mm in points[1:-1]:
        for shape_ratio in ((up_mm - 0.5) / across_mm, (up_mm + 0.5) / across_mm, up_mm / across_mm):
            wide_mm, high_mm = largest_of_shape(points, shape_ratio=shape_ratio)
            assert high_mm == pytest.approx(shape_ratio * wide_mm)
            assert most_up_mm(wide_mm - 1e-6, clear_mm=clear_mm, cut_mm=4.5) >= high_mm - 1e-4
            assert most_up_mm(wide_mm + 0.01, clear_mm=clear_mm, cut_mm=4.5) < shape_ratio * (wide_mm + 0.01)


def test_of_no_stick_no_frame_is_made_and_the_longest_of_several_is_told() -> None:
    assert most_up_mm(300, clear_mm=[], cut_mm=0) == 0
    with pytest.raises(ImpossibleTimber) as refused:
        frontier(clear_mm=[120, 150, 110], cut_mm=3, least_mm=100)
    assert refused.value.lengths == {"least": 100, "longest": 150}
