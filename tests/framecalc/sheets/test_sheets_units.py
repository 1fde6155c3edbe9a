"""A layout in whole numbers: nothing a shop types is rounded, and what fits by numbers fits the sheet."""

from decimal import Decimal
from fractions import Fraction

import pytest
from sheet_jobs import MOUNT_BOARD, asked

from framecalc.records import replace
from framecalc.sheets.problem import Goal, StockSheet
from framecalc.sheets.whole_numbers import UNITS_PER_MM, JobSheet, job_of


@pytest.mark.parametrize("step_mm", [Fraction(254, 10) / 128, Fraction(254, 10) / 32, Fraction(1, 100), Fraction(1, 2)])
def test_every_step_of_a_tape_is_a_whole_number_of_units(step_mm: Fraction) -> None:
    assert (UNITS_PER_MM * step_mm).denominator == 1


@pytest.mark.parametrize(
    ("rest_mm", "can_be"), [(-0.5, False), (0, True), (3, True), (3.5, False), (14.5, False), (15, True)]
)
def test_what_is_left_beside_a_cut_is_the_kerf_or_breaks(rest_mm: float, can_be: bool) -> None:
    job = job_of(asked((200, 300, 1), kerf_mm=3, least_strip_mm=12))
    assert job.can_be_left(round(rest_mm * UNITS_PER_MM)) is can_be
    assert (job.kerf, job.gap) == (3 * UNITS_PER_MM, 15 * UNITS_PER_MM)
    assert job_of(asked((200, 300, 1), kerf_mm=3)).gap == 0


def test_parts_and_sheets_are_one_kerf_larger_and_sheets_two_trims_smaller() -> None:
    job = job_of(asked((200, 300, 2), kerf_mm=3, trim_mm=10, turn=False))
    (piece,), (sheet,) = job.pieces, job.sheets
    assert (piece.across, piece.up, piece.count) == (203 * UNITS_PER_MM, 303 * UNITS_PER_MM, 2)
    assert (sheet.across, sheet.up) == ((815 - 20 + 3) * UNITS_PER_MM, (1120 - 20 + 3) * UNITS_PER_MM)
    assert sheet.size == sheet.across * sheet.up and job.longest == (sheet.across, sheet.up) == job.sizes[0]


@pytest.mark.parametrize(
    ("size", "turn", "number"), [((200, 300), True, 2), ((200, 300), False, 1), ((300, 300), True, 1)]
)
def test_a_part_lies_as_many_ways_as_it_looks_different(size: tuple[float, float], turn: bool, number: int) -> None:
    (piece,) = job_of(asked((*size, 1), turn=turn)).pieces
    assert len(piece.ways) == number and piece.ways[0] == (piece.across, piece.up, False)
    assert all((across, up) == (piece.up, piece.across) for across, up, turned in piece.ways if turned)


def test_parts_of_one_size_are_one_piece() -> None:
    job = job_of(asked((200, 300, 2), (250, 300, 1), (200, 300, 4)))
    assert sorted(job.counts) == [1, 6] and len(job.piece_sizes) == 2


def test_the_longest_of_several_sheets_is_longest_in_either_direction() -> None:
    wide, high = (StockSheet(name=name, across_mm=a, up_mm=u) for name, a, u in (("a", 900, 300), ("b", 400, 700)))
    assert job_of(asked((100, 100, 1), stock=[wide, high])).longest == (900 * UNITS_PER_MM, 700 * UNITS_PER_MM)


@pytest.mark.parametrize("goal", Goal)
def test_a_dearer_sheet_is_dearer_only_where_money_counts(goal: Goal) -> None:
    dear = StockSheet(name="dear", across_mm=815, up_mm=1120, cost=Decimal(25))
    sheets: tuple[JobSheet, ...] = job_of(asked((100, 100, 1), stock=[MOUNT_BOARD, dear], goal=goal)).sheets
    prices = [sheet.price for sheet in sheets]
    assert (prices[0] == prices[1]) is (goal is Goal.FEWEST) and min(prices) > 0


@pytest.mark.parametrize("goal", Goal)
def test_a_price_is_what_is_bought_in_units_and_one_more_for_the_sheet(goal: Goal) -> None:
    stock = [replace(MOUNT_BOARD, cost=Decimal("12.50")), replace(MOUNT_BOARD, name="dear", cost=Decimal(20))]
    job = job_of(asked((100, 100, 3), stock=stock, goal=goal))
    bought = [5, 8] if goal is Goal.CHEAPEST else [1, 1]
    assert [divmod(sheet.price, job.unit) for sheet in job.sheets] == [(number, 1) for number in bought]
    assert job.unit > 3 and job.coin * bought[0] == (1250 if goal is Goal.CHEAPEST else 1)
