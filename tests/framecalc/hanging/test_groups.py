"""Groups of frames: equal gaps or centres to 0.01 mm, nothing over anything, on their line, balanced."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.errors import FrameCalcError
from framecalc.hanging.groups import (
    Arrangement,
    Grouping,
    Hung,
    OnWall,
    Spacing,
    WallLine,
    arrange,
    balanced_order,
    overlapping,
)
from framecalc.records import replace

SIZES = st.lists(st.tuples(st.floats(80, 900), st.floats(80, 900)), min_size=1, max_size=9)


def frames(sizes: list[tuple[float, float]]) -> list[Hung]:
    return [Hung(key=str(number), across_mm=across, up_mm=up) for number, (across, up) in enumerate(sizes)]


@given(SIZES, st.sampled_from(Arrangement), st.sampled_from(Spacing), st.floats(0, 200), st.floats(-0.8, 0.8))
def test_nothing_lies_over_anything_and_the_middle_is_the_middle(
    sizes: list[tuple[float, float]], arrangement: Arrangement, spacing: Spacing, gap_mm: float, rise: float
) -> None:
    grouping = Grouping(arrangement=arrangement, spacing=spacing, gap_mm=gap_mm, columns=3, rise_ratio=rise)
    placed = arrange(frames(sizes), grouping, middle_mm=5000, line_mm=1500)
    assert overlapping(placed) == () and len(placed) == len(sizes)
    left_mm, right_mm = min(one.left_mm for one in placed), max(one.right_mm for one in placed)
    assert (left_mm + right_mm) / 2 == pytest.approx(5000)


@given(SIZES, st.floats(0, 200), st.sampled_from(WallLine))
def test_a_row_has_equal_gaps_and_lies_on_its_line(
    sizes: list[tuple[float, float]], gap_mm: float, line: WallLine
) -> None:
    placed = arrange(frames(sizes), Grouping(gap_mm=gap_mm, line=line), middle_mm=0, line_mm=1500)
    gaps_mm = [other.left_mm - one.right_mm for one, other in pairwise(placed)]
    assert gaps_mm == pytest.approx([gap_mm] * len(gaps_mm), abs=0.01)
    edges = {WallLine.CENTRE: "y_mm", WallLine.TOP: "high_mm", WallLine.BOTTOM: "low_mm"}
    assert [getattr(one, edges[line]) for one in placed] == pytest.approx([1500] * len(placed), abs=0.01)


@given(SIZES, st.floats(0, 200))
def test_equal_centres_leave_the_gap_at_the_tightest_pair(sizes: list[tuple[float, float]], gap_mm: float) -> None:
    grouping = Grouping(spacing=Spacing.CENTRES, gap_mm=gap_mm)
    placed = arrange(frames(sizes), grouping, middle_mm=0, line_mm=1500)
    steps_mm = [other.x_mm - one.x_mm for one, other in pairwise(placed)]
    gaps_mm = [other.left_mm - one.right_mm for one, other in pairwise(placed)]
    if steps_mm:
        assert steps_mm == pytest.approx([steps_mm[0]] * len(steps_mm), abs=0.01)
        assert min(gaps_mm) == pytest.approx(gap_mm, abs=0.01)


def test_a_wall_of_our_own_from_sizes_to_places() -> None:
    """Three prints 433 by 365 on a wall of 3 m, by hand: 433 · 3 + 75 · 2 = 1449, so the first begins at 775.5."""
    placed = arrange(frames([(433, 365)] * 3), Grouping(), middle_mm=1500, line_mm=1500)
    assert [one.left_mm for one in placed] == pytest.approx([775.5, 1283.5, 1791.5])


def test_a_stair_rises_with_its_steps() -> None:
    grouping = Grouping(arrangement=Arrangement.STAIR, rise_ratio=180 / 250)
    placed = arrange(frames([(300, 400)] * 3), grouping, middle_mm=1000, line_mm=1600)
    assert [one.y_mm for one in placed] == pytest.approx([1600, 1600 + 375 * 0.72, 1600 + 750 * 0.72])


@given(st.lists(st.tuples(st.floats(80, 600), st.floats(80, 600)), min_size=1, max_size=5))
def test_no_order_is_better_balanced(sizes: list[tuple[float, float]]) -> None:
    listed = {one.key: one for one in frames(sizes)}

    def off(order: tuple[str, ...]) -> float:
        at, total, half = 0.0, 0.0, sum(one.across_mm for one in listed.values()) / 2
        for key in order:
            one = listed[key]
            total += one.across_mm * one.up_mm * (at + one.across_mm / 2 - half)
            at += one.across_mm
        return abs(total)

    order = balanced_order(list(listed.values()))
    assert sorted(order) == sorted(listed) and off(order) <= off(tuple(listed)) + 0.01


def test_of_many_the_largest_is_in_the_middle() -> None:
    many = frames([(100 + 10 * number, 100) for number in range(9)])
    assert balanced_order(many)[4] == "8"
    thin, square = (600, 50), (300, 300)
    assert balanced_order(frames([thin, *[(200, 200)] * 7, square]))[4] == "8", "the largest by its area"


def test_nothing_cannot_be_hung() -> None:
    with pytest.raises(FrameCalcError):
        arrange([], Grouping(), middle_mm=0, line_mm=1500)


def test_touching_frames_do_not_overlap() -> None:
    one = OnWall(key="a", across_mm=100, up_mm=100, x_mm=0, y_mm=0)
    assert overlapping([one, OnWall(key="b", across_mm=100, up_mm=100, x_mm=100, y_mm=0)]) == ()


@pytest.mark.parametrize("line", WallLine)
@pytest.mark.parametrize("arrangement", [Arrangement.COLUMN, Arrangement.GRID])
def test_of_a_column_and_a_grid_the_whole_lies_on_the_line(arrangement: Arrangement, line: WallLine) -> None:
    grouping = Grouping(arrangement=arrangement, line=line, columns=2)
    placed = arrange(frames([(300, 400), (500, 200), (250, 300)]), grouping, middle_mm=1000, line_mm=1500)
    low_mm, high_mm = min(one.low_mm for one in placed), max(one.high_mm for one in placed)
    on_line = {WallLine.CENTRE: (low_mm + high_mm) / 2, WallLine.TOP: high_mm, WallLine.BOTTOM: low_mm}[line]
    assert on_line == pytest.approx(1500)


def test_a_grid_has_columns_as_wide_as_their_widest_and_rows_as_high_as_their_highest() -> None:
    """By hand: columns of 300 and 500, rows of 400 and 350, 75 between them; each in the middle of its place."""
    grouping = Grouping(arrangement=Arrangement.GRID, columns=2, line=WallLine.TOP)
    placed = arrange(frames([(300, 400), (500, 200), (250, 350)]), grouping, middle_mm=437.5, line_mm=2000)
    assert [(one.x_mm, one.y_mm) for one in placed] == [(150, 1800), (625, 1800), (150, 1350)]
    alone = arrange(frames([(300, 400)] * 2), replace(grouping, columns=9), middle_mm=337.5, line_mm=2000)
    assert [one.x_mm for one in alone] == [150, 525]


def test_of_orders_as_well_balanced_the_larger_frames_hang_further_in() -> None:
    five = frames([(300, 300), (100, 100), (300, 300), (100, 100), (200, 200)])
    order = balanced_order(five)
    assert order[2] == "4" and {order[0], order[4]} == {"1", "3"}


def test_frames_of_a_column_hang_one_under_the_other() -> None:
    placed = arrange(frames([(300, 400), (500, 200)]), Grouping(arrangement=Arrangement.COLUMN), middle_mm=0, line_mm=0)
    assert placed[0].low_mm - placed[1].high_mm == 75 and placed[0].x_mm == placed[1].x_mm == 0
