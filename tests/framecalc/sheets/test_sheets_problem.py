from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest
from sheet_jobs import MOUNT_BOARD, asked

from framecalc.errors import FrameCalcError, ImpossibleLayout, OutOfRange
from framecalc.sheets.problem import SheetPart, StockSheet, sheet_problem, size_to_cut


@pytest.mark.parametrize(
    ("ways", "error", "field", "says"),
    [
        ({"sizes": []}, ImpossibleLayout, "parts", "Nothing to cut yet: add a part"),
        (
            {"sizes": [(100, 100, 1)], "stock": []},
            ImpossibleLayout,
            "stock",
            "Nothing to cut from: add a sheet, on hand or to buy",
        ),
        ({"sizes": [(100, 100, 10_000)]}, ImpossibleLayout, "parts", "Lay out at most 500 parts at a time, not 10000"),
        (
            {"sizes": [(900, 1200, 1)]},
            ImpossibleLayout,
            "stock",
            "No sheet holds “part 1”, 900 × 1200 mm, even turned. The largest, “815 × 1120”,",
        ),
        ({"sizes": [(1000, 300, 1)], "turn": False}, ImpossibleLayout, "stock", "it may not turn"),
        ({"sizes": [(815, 1120, 1)], "trim_mm": 5}, ImpossibleLayout, "stock", "leaves 805 × 1110 mm"),
        (
            {"sizes": [(100, 100, 1)], "trim_mm": 410},
            ImpossibleLayout,
            "trim_mm",
            "“815 × 1120”: a trim of 410 mm leaves nothing. Enter a narrower one",
        ),
        ({"sizes": [(10, 300, 1)], "least_strip_mm": 12}, ImpossibleLayout, "least_strip_mm", "is 10 mm wide"),
        ({"sizes": [(100, 300, 1)], "least_strip_mm": 12, "trim_mm": 5}, ImpossibleLayout, "trim_mm", "5 mm"),
        (
            {"sizes": [(810, 1115, 1)], "least_strip_mm": 12},
            ImpossibleLayout,
            "least_strip_mm",
            "“part 1” leaves too narrow a strip to break: add one 12 mm larger",
        ),
        ({"sizes": [(0, 300, 1)]}, OutOfRange, "across_mm", "“part 1” is 0 mm across: enter more than 0 mm"),
        (
            {"sizes": [(float("nan"), 300, 1)]},
            OutOfRange,
            "across_mm",
            "“part 1” is nan mm across: enter more than 0 mm",
        ),
        ({"sizes": [(100, 300, -2)]}, OutOfRange, "count", "Enter 0 or more of “part 1”, not -2"),
        (
            {"sizes": [(100, 300, 1)], "kerf_mm": -1},
            OutOfRange,
            "kerf_mm",
            "Enter 0 mm or more for the kerf, not -1 mm",
        ),
        ({"sizes": [(100, 300, 1)], "stock": [replace(MOUNT_BOARD, cost=Decimal(-3))]}, OutOfRange, "cost", "-3"),
        (
            {"sizes": [(100, 300, 1)], "stock": [replace(MOUNT_BOARD, cost=Decimal("1.005"))]},
            OutOfRange,
            "cost",
            "1.005",
        ),
    ],
)
def test_what_no_layout_can_do_is_refused(
    ways: dict[str, Any], error: type[FrameCalcError], field: str, says: str
) -> None:
    sizes = ways.pop("sizes")
    with pytest.raises(error) as refusal:
        asked(*sizes, **ways)
    assert refusal.value.field == field
    assert says in refusal.value.sentence


def test_one_problem_written_two_ways_has_one_fingerprint() -> None:
    one = asked((348, 471, 2), stock=[replace(MOUNT_BOARD, cost=Decimal("2.50"))])
    other = asked((348.0, 471.0, 2), stock=[replace(MOUNT_BOARD, cost=Decimal("2.5"))])
    assert one.fingerprint == other.fingerprint
    assert one.fingerprint != asked((348, 472, 2), stock=[replace(MOUNT_BOARD, cost=Decimal("2.5"))]).fingerprint


def test_parts_and_stock_that_are_not_there_are_left_out() -> None:
    parts = [
        SheetPart(name="glass", across_mm=200, up_mm=250),
        SheetPart(name="none", across_mm=200, up_mm=250, count=0),
    ]
    stock = [MOUNT_BOARD, StockSheet(name="gone", across_mm=500, up_mm=500, count=0)]
    problem = sheet_problem(parts=parts, stock=stock, kerf_mm=0)
    assert ([part.name for part in problem.parts], problem.stock) == (["glass"], (MOUNT_BOARD,))


def test_an_off_cut_that_the_trim_eats_is_left_out() -> None:
    narrow = StockSheet(name="strip", across_mm=40, up_mm=900, count=1)
    assert asked((200, 250, 1), stock=[MOUNT_BOARD, narrow], trim_mm=20).stock == (MOUNT_BOARD,)


@pytest.mark.parametrize("step_mm", [0.5, 1.0, 25.4 / 16, 25.4 / 32])
@pytest.mark.parametrize("rabbet_mm", [206.4, 300.0, 25.4 * 8.125])
def test_a_size_to_cut_never_takes_up_the_clearance(rabbet_mm: float, step_mm: float) -> None:
    cut = size_to_cut(
        rabbet_across_mm=rabbet_mm,
        rabbet_up_mm=rabbet_mm,
        clearance_across_mm=3.175,
        clearance_up_mm=2,
        step_mm=step_mm,
    )
    assert rabbet_mm - 3.175 - step_mm < cut.across_mm <= rabbet_mm - 3.175 + 1e-6
    assert rabbet_mm - 2 - step_mm < cut.up_mm <= rabbet_mm - 2 + 1e-6


def test_a_clearance_that_leaves_nothing_is_refused() -> None:
    with pytest.raises(OutOfRange, match="Enter more than 0 mm for the across, not 0 mm"):
        size_to_cut(rabbet_across_mm=3, rabbet_up_mm=10, clearance_across_mm=3, clearance_up_mm=3, step_mm=1)


def test_a_sheet_of_which_no_cost_is_told_costs_nothing() -> None:
    given = StockSheet(name="off-cut", across_mm=300, up_mm=400, count=1)
    assert (given.cost, given.is_bought, replace(given, count=None).is_bought) == (0, False, True)
