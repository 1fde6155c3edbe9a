"""How good a layout is, in words: proved, or what might do, what that asks for, and whether the search ended early."""

from decimal import Decimal
from time import monotonic
from typing import Any

import pytest

from framecalc.money import Currency
from framecalc.records import replace
from framecalc.search.watch import start_watch
from framecalc.sheets.answer import SheetLayout
from framecalc.sheets.plan import lay_out_sheets
from framecalc.sheets.problem import Goal, SheetPart, StockSheet, sheet_problem
from webapp.pages.sheets.says import proof_words, quality_words

PARTS = [SheetPart(name="glass", across_mm=300, up_mm=400, count=9)]
SHEET, OFF_CUT = (
    StockSheet(name="glass", across_mm=815, up_mm=1120),
    StockSheet(name="off-cut", across_mm=400, up_mm=310, count=1),
)


def layout(*stock: StockSheet, **found: Any) -> SheetLayout:
    """A layout of nine panes, as if something else had been found or proved of it."""
    problem = sheet_problem(parts=PARTS, stock=stock, kerf_mm=0, least_strip_mm=0)
    return replace(lay_out_sheets(problem, watch=start_watch(20, clock=monotonic)), **found)


@pytest.mark.parametrize(
    ("found", "says"),
    [
        ({}, "Best possible."),
        ({"is_proved": False, "least_bought": 1}, "Not proved: 1 sheet might do."),
        ({"is_proved": False, "least_cut": 1}, "Not proved: cutting 1 sheet might do."),
        (
            {"is_proved": False, "goal": Goal.CHEAPEST, "cost": Decimal(20), "least_cost": Decimal(10)},
            "Not proved: $10 might do.",
        ),
    ],
)
def test_the_quality_of_a_layout_is_said_in_a_line(found: dict[str, Any], says: str) -> None:
    assert quality_words(layout(SHEET, **found), Currency()) == says


def test_sheets_that_are_missing_may_be_fewer() -> None:
    short = layout(OFF_CUT, is_proved=False)
    assert short.missing and quality_words(short, Currency()) == "Not proved: fewer might do."


def test_an_open_layout_says_how_full_one_sheet_fewer_would_have_to_be() -> None:
    """Nine panes of 300 × 400 mm fill 1.08 of 0.9128 m² of a sheet and 0.124 m² of the off-cut."""
    opened = layout(SHEET, OFF_CUT, is_proved=False, least_bought=1)
    assert opened.bought == 2
    filled = int(100 * 9 * 300 * 400 / (815 * 1120 + 400 * 310))
    fewer = f"at least {filled}% of all sheets, those at hand included; no such layout was found."
    assert any(line.endswith(fewer) for line in proof_words(opened))
    assert not any("one sheet fewer" in line for line in proof_words(layout(SHEET, OFF_CUT)))


@pytest.mark.parametrize("exhausted", [True, False])
def test_a_search_that_had_nothing_left_to_try_says_so(exhausted: bool) -> None:
    opened = layout(SHEET, is_proved=False, least_bought=1, is_exhausted=exhausted)
    assert any("ended before its time" in line for line in proof_words(opened)) == exhausted
