"""What a layout says of itself: one and several, proved or not, by how much; and the records it is made of."""

from decimal import Decimal

import pytest
from sheet_jobs import MOUNT_BOARD

from framecalc.records import replace
from framecalc.sheets.answer import CutSheet, LayoutProof, LeftOver, PlacedPart, Purchase, SheetCapacity, SheetLayout
from framecalc.sheets.problem import Goal, StockSheet

OWN = StockSheet(name="off-cut", across_mm=400, up_mm=300, count=9)


def sheets(number: int, stock: StockSheet = MOUNT_BOARD, *, is_missing: bool = False) -> tuple[CutSheet, ...]:
    return (CutSheet(stock=stock, is_missing=is_missing, parts=(), cuts=(), left_overs=()),) * number


def layout(bought: int, *, least: int | None = None, cut: int = 0, proved: bool = True) -> SheetLayout:
    """A layout that buys some sheets and cuts others that are on hand."""
    return SheetLayout(
        fingerprint="",
        goal=Goal.FEWEST,
        sheets=sheets(bought) + sheets(cut, OWN),
        purchases=(Purchase(stock=MOUNT_BOARD, count=bought, cost=Decimal(0)),) if bought else (),
        cost=Decimal(0),
        least_bought=bought if least is None else least,
        least_cost=Decimal(0),
        least_cut=bought + cut,
        is_proved=proved,
        tried_every_way=False,
        proof=LayoutProof(parts=(), sheets=(), wanted_ratio=1.0),
    )


@pytest.mark.parametrize(
    ("found", "says"),
    [
        (layout(1), "1 sheet to buy; proved: no layout needs fewer."),
        (layout(2), "2 sheets to buy; proved: no layout needs fewer."),
        (replace(layout(2), tried_every_way=True), "2 sheets to buy; every way was tried: no layout needs fewer."),
        (layout(5, least=4), "5 sheets to buy; 4 might do, if there is such a layout."),
        (layout(5, least=3), "5 sheets to buy; 3 might do, if there is such a layout."),
        (
            replace(layout(2, cut=3, proved=False), least_cut=3),
            "2 sheets to buy; proved: no layout needs fewer, though 2 sheets fewer might be cut.",
        ),
        (layout(0, cut=1), "Nothing to buy, 1 sheet to cut; proved: no layout needs fewer."),
        (
            replace(layout(0, cut=3, proved=False), least_cut=2),
            "Nothing to buy, 3 sheets to cut; 2 might do at best.",
        ),
        (
            replace(layout(0), sheets=sheets(1, OWN, is_missing=True) + sheets(4, OWN)),
            "1 sheet more than are at hand; proved: no layout needs fewer.",
        ),
        (
            replace(layout(0, proved=False), sheets=sheets(2, OWN, is_missing=True)),
            "2 sheets more than are at hand; fewer may be enough: not known.",
        ),
    ],
)
def test_the_verdict_by_number(found: SheetLayout, says: str) -> None:
    assert found.verdict == says


@pytest.mark.parametrize(
    ("least_cost", "says"),
    [
        ("12.50", "12.50 in all; proved: no layout costs less."),
        ("11", "12.50 in all; a layout could cost 1.50 less at most, if there is one."),
    ],
)
def test_the_verdict_by_cost(least_cost: str, says: str) -> None:
    costly = replace(layout(2), goal=Goal.CHEAPEST, cost=Decimal("12.50"), least_cost=Decimal(least_cost))
    assert costly.verdict == says


def test_sheets_bought_are_those_of_all_lines() -> None:
    lines = tuple(Purchase(stock=MOUNT_BOARD, count=count, cost=Decimal(0)) for count in (2, 3))
    assert (replace(layout(5), purchases=lines).bought, layout(0).bought) == (5, 0)


@pytest.mark.parametrize(("of", "label"), [(1, "hall"), (2, "hall 1/2"), (12, "hall 1/12")])
def test_a_part_is_numbered_where_there_are_several(of: int, label: str) -> None:
    part = PlacedPart(name="hall", number=1, of=of, x_mm=0, y_mm=0, across_mm=9, up_mm=9, is_turned=False)
    assert part.label == label


def test_the_largest_left_over_is_that_of_the_largest_area() -> None:
    long, wide = (LeftOver(x_mm=0, y_mm=0, across_mm=a, up_mm=u) for a, u in ((900, 10), (100, 120)))
    both = tuple(replace(one, left_overs=(left,)) for one, left in zip(sheets(2), (wide, long), strict=True))
    assert replace(layout(2), sheets=both).largest_left_over == wide and layout(2).largest_left_over is None


@pytest.mark.parametrize(
    ("bought", "at_hand", "expect"), [(2, 0, 0.5), (3, 0, 0.25), (2, 2, 0.4), (1, 0, 0.0), (0, 0, 0.0)]
)
def test_one_sheet_fewer_would_hold_all_parts_with_what_is_at_hand(bought: int, at_hand: int, expect: float) -> None:
    """One part of half a sheet; an off-cut is an eighth of a sheet."""
    sold = StockSheet(name="sheet", across_mm=80, up_mm=100)
    kinds = [sold, *([StockSheet(name="off-cut", across_mm=10, up_mm=100, count=at_hand)] if at_hand else [])]
    part = PlacedPart(name="part", number=1, of=1, x_mm=0, y_mm=0, across_mm=40, up_mm=100, is_turned=False)
    found = replace(
        layout(bought),
        sheets=(replace(sheets(1, sold)[0], parts=(part,)),),
        proof=LayoutProof(
            parts=(), sheets=tuple(SheetCapacity(stock=kind, most_ratio=1.0) for kind in kinds), wanted_ratio=1.0
        ),
    )
    assert found.fill_with_one_fewer_ratio == pytest.approx(expect)
