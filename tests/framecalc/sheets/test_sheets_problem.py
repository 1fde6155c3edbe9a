from decimal import Decimal
from typing import Any

import pytest
from sheet_jobs import MOUNT_BOARD, asked

from framecalc.errors import FrameCalcError, ImpossibleLayout, OutOfRange
from framecalc.records import replace
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


@pytest.mark.parametrize(
    ("beside_mm", "is_cut"), [(-0.5, False), (0, True), (3, True), (3.5, False), (14.5, False), (15, True), (40, True)]
)
@pytest.mark.parametrize("is_up", [False, True])
def test_a_part_leaves_nothing_or_less_than_the_kerf_or_a_strip_that_breaks(
    beside_mm: float, is_up: bool, is_cut: bool
) -> None:
    """A kerf of 3 and a least strip of 12: what is in between neither goes with the kerf nor breaks off."""
    size = (500, 700 - beside_mm) if is_up else (500 - beside_mm, 700)
    stock = [StockSheet(name="sheet", across_mm=500, up_mm=700)]
    if is_cut:
        assert asked((*size, 1), stock=stock, turn=False, kerf_mm=3, least_strip_mm=12).parts
    else:
        with pytest.raises(ImpossibleLayout):
            asked((*size, 1), stock=stock, turn=False, kerf_mm=3, least_strip_mm=12)


@pytest.mark.parametrize(("number", "is_taken"), [(500, True), (501, False)])
def test_five_hundred_parts_are_laid_out_and_no_more(number: int, is_taken: bool) -> None:
    parts = [(100, 100, 300), (50, 50, number - 300)]
    if is_taken:
        assert sum(part.count for part in asked(*parts).parts) == number
    else:
        with pytest.raises(ImpossibleLayout, match=f"not {number}"):
            asked(*parts)


@pytest.mark.parametrize(("trim_mm", "is_taken"), [(0, True), (0.5, False), (11.5, False), (12, True), (15, True)])
def test_a_trim_is_none_or_wide_enough_to_break(trim_mm: float, is_taken: bool) -> None:
    if is_taken:
        assert asked((100, 300, 1), least_strip_mm=12, trim_mm=trim_mm).trim_mm == trim_mm
    else:
        with pytest.raises(ImpossibleLayout) as refusal:
            asked((100, 300, 1), least_strip_mm=12, trim_mm=trim_mm)
        assert refusal.value.lengths == {"trim": trim_mm, "least": 12}


@pytest.mark.parametrize(("narrow_mm", "is_taken"), [(11.5, False), (12, True)])
@pytest.mark.parametrize("turned", [False, True])
def test_a_part_is_no_narrower_than_what_breaks(narrow_mm: float, turned: bool, is_taken: bool) -> None:
    size = (300, narrow_mm, 1) if turned else (narrow_mm, 300, 1)
    if is_taken:
        assert asked(size, least_strip_mm=12).parts
    else:
        with pytest.raises(ImpossibleLayout) as refusal:
            asked(size, least_strip_mm=12)
        assert refusal.value.lengths == {"narrow": narrow_mm, "least": 12}


def test_the_largest_sheet_is_that_of_the_largest_area() -> None:
    stock = [StockSheet(name=name, across_mm=a, up_mm=u) for name, a, u in (("long", 900, 80), ("wide", 300, 400))]
    for listed in (stock, stock[::-1]):
        with pytest.raises(ImpossibleLayout, match="The largest, “wide”, leaves 290 × 390 mm") as refusal:
            asked((700, 300, 1), stock=listed, trim_mm=5)
        assert refusal.value.lengths == {"across": 700, "up": 300, "usable_across": 290, "usable_up": 390}


@pytest.mark.parametrize(("wide_mm", "is_left"), [(40, False), (40.5, True)])
def test_half_a_millimetre_inside_the_trim_is_left(wide_mm: float, is_left: bool) -> None:
    narrow = StockSheet(name="strip", across_mm=wide_mm, up_mm=900, count=1)
    assert (narrow in asked((200, 250, 1), stock=[MOUNT_BOARD, narrow], trim_mm=20).stock) is is_left


@pytest.mark.parametrize("cost", ["0", "0.01", "12.34"])
def test_a_cost_in_whole_coins_is_taken(cost: str) -> None:
    assert asked((100, 100, 1), stock=[replace(MOUNT_BOARD, cost=Decimal(cost))]).stock[0].cost == Decimal(cost)
