"""What a layout costs and what its proof says, in money and in ratios."""

from decimal import Decimal

import pytest
from sheet_jobs import MOUNT_BOARD, asked, laid_out

from framecalc.records import replace
from framecalc.sheets.problem import Goal, StockSheet

LARGE = StockSheet(name="large", across_mm=1630, up_mm=1120, cost=Decimal("23.30"))


@pytest.mark.parametrize("price", ["12.35", "0.07", "30"])
def test_the_cheapest_layout_costs_what_its_sheets_do_to_the_coin(price: str) -> None:
    stock = [replace(MOUNT_BOARD, cost=Decimal(price)), LARGE]
    layout = laid_out(asked((700, 1000, 3), stock=stock, goal=Goal.CHEAPEST))
    least = min(Decimal(price) * small + LARGE.cost * large for small, large in ((3, 0), (1, 1), (0, 2)))
    assert layout.is_proved and layout.cost == layout.least_cost == least
    assert sum((one.cost for one in layout.purchases), Decimal(0)) == layout.cost
    assert all(one.cost == one.count * one.stock.cost for one in layout.purchases)
    assert (layout.least_bought, layout.least_cut) == (0, len(layout.sheets))


def test_the_fewest_sheets_are_bounded_in_sheets_and_not_in_money() -> None:
    off_cut = StockSheet(name="off-cut", across_mm=720, up_mm=1010, count=1)
    layout = laid_out(asked((700, 1000, 3), stock=[MOUNT_BOARD, off_cut]))
    assert (layout.bought, layout.least_bought, layout.least_cut) == (2, 2, 3)
    assert (layout.cost, layout.least_cost, layout.is_proved) == (25, 0, True)
    assert [(one.stock.name, one.count, one.cost) for one in layout.purchases] == [(MOUNT_BOARD.name, 2, 25)]


@pytest.mark.parametrize("on_hand", [0, 1])
def test_shares_are_ratios_of_the_most_that_any_sheet_yields(on_hand: int) -> None:
    stock = [replace(MOUNT_BOARD, count=2), replace(LARGE, count=1)] if on_hand else [MOUNT_BOARD, LARGE]
    layout = laid_out(asked((700, 1000, 3), (300, 200, 4), stock=stock))
    proof = layout.proof
    assert max(sheet.most_ratio for sheet in proof.sheets) == 1
    assert [sheet.stock for sheet in proof.sheets] == stock
    assert proof.wanted_ratio == pytest.approx(sum(part.share_ratio * part.count for part in proof.parts))
    assert {(part.names, part.across_mm, part.up_mm, part.count) for part in proof.parts} == {
        (("part 1",), 700, 1000, 3),
        (("part 2",), 300, 200, 4),
    }
    assert not layout.tried_every_way
