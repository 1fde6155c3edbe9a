"""What a layout costs and what its proof says, and its edges: kerfs, trims, sheets that are just filled."""

from decimal import Decimal
from random import Random

import pytest
from sheet_jobs import MOUNT_BOARD, asked, laid_out, ticks

from framecalc.records import replace
from framecalc.search.watch import start_watch
from framecalc.sheets.answer import SheetLayout
from framecalc.sheets.blocks import list_blocks
from framecalc.sheets.bounds import SheetShares, certified
from framecalc.sheets.check import SAME_MM, faults_of
from framecalc.sheets.coarse import rounded, set_out
from framecalc.sheets.exhaustion import try_every_way
from framecalc.sheets.guillotine import Part
from framecalc.sheets.layout import _are_alike, _well_filled
from framecalc.sheets.packing import first_layout
from framecalc.sheets.plan import lay_out_sheets
from framecalc.sheets.problem import Goal, StockSheet
from framecalc.sheets.whole_numbers import UNITS_PER_MM, job_of

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


def test_what_is_not_proved_might_cost_less() -> None:
    problem = asked(
        *((200 + 7 * number, 300 + 11 * number, 2) for number in range(30)), goal=Goal.CHEAPEST, kerf_mm=3.2
    )
    layout = lay_out_sheets(problem, watch=start_watch(60, clock=ticks(), cancelled=lambda: True))
    assert not layout.is_proved and 0 < layout.least_cost < layout.cost


def moved(layout: SheetLayout, places: list[tuple[float, float]]) -> SheetLayout:
    """The parts of the first sheet, each at another place."""
    parts = tuple(replace(part, x_mm=x, y_mm=y) for part, (x, y) in zip(layout.sheets[0].parts, places, strict=True))
    return replace(layout, sheets=(replace(layout.sheets[0], parts=parts),))


@pytest.mark.parametrize("apart", [(103, 0), (-103, 0), (0, 203), (0, -203), (103, 203), (-103, 150), (40, -203)])
def test_parts_a_kerf_apart_in_any_direction_can_be_cut_and_nearer_ones_cannot(apart: tuple[float, float]) -> None:
    problem = asked((100, 200, 2), kerf_mm=3, turn=False)
    layout = laid_out(problem)
    x, y = apart
    assert faults_of(moved(layout, [(300, 400), (300 + x, 400 + y)]), problem=problem) == ()
    near_x, near_y = (size - 0.01 * (size > 0) + 0.01 * (size < 0) for size in apart)
    if 0 in apart or abs(x) < 103:
        (fault,) = faults_of(moved(layout, [(300, 400), (300 + near_x, 400 + near_y)]), problem=problem)
        assert "lie too close" in fault


@pytest.mark.parametrize(("x", "y", "is_in"), [(5, 5, True), (710, 915, True), (4.99, 5, False), (5, 4.99, False),
                                               (710.01, 5, False), (5, 915.01, False)])  # fmt: skip
def test_a_part_lies_inside_the_trim(x: float, y: float, is_in: bool) -> None:
    problem = asked((100, 200, 1), trim_mm=5, turn=False)
    faults = faults_of(moved(laid_out(problem), [(x, y)]), problem=problem)
    assert (faults == ()) is is_in and all("into the trim" in fault for fault in faults)


def test_a_part_as_large_as_its_sheet_lies_at_the_trim_and_a_kerf_beside_one_is_no_left_over() -> None:
    (sheet,) = laid_out(asked((795, 1100, 1), trim_mm=10, turn=False)).sheets
    assert [(part.x_mm, part.y_mm) for part in sheet.parts] == [(10, 10)]
    (sheet,) = laid_out(asked((812, 1120, 1), kerf_mm=3, turn=False)).sheets
    assert [(cut.leaves, cut.setting_mm) for cut in sheet.cuts] == [("", 812)] and not sheet.left_overs
    (sheet,) = laid_out(asked((811, 1120, 1), kerf_mm=3, turn=False)).sheets
    assert [cut.leaves for cut in sheet.cuts] == ["left-over"] and sheet.left_overs[0].across_mm == pytest.approx(1)


def test_a_coarse_job_has_no_kerf_of_its_own_and_what_fills_a_sheet_is_set_out_on_it() -> None:
    job = job_of(asked((812, 1117, 1), kerf_mm=3, least_strip_mm=12, turn=False, stock=[SNUG]))
    coarse = rounded(job, up=True)
    assert (coarse.kerf, coarse.least_strip) == (0, 0)
    assert set_out(Part(0, False), sheet=0, job=job) == Part(0, False)
    larger = replace(job, pieces=(replace(job.pieces[0], up=job.pieces[0].up + 1),))
    assert set_out(Part(0, False), sheet=0, job=larger) is None


SNUG = StockSheet(name="snug", across_mm=812, up_mm=1117)


def test_a_layout_for_just_the_money_is_found_and_none_for_less() -> None:
    job = job_of(asked((700, 1000, 2)))
    watch = start_watch(1, clock=ticks())
    blocks = list_blocks(job, watch=watch)
    shares = SheetShares(pieces=(1,), capacities=(1,))
    assert blocks
    price = 2 * job.sheets[0].price
    for below, number in ((price + 1, 2), (price, 0)):
        trial = try_every_way(blocks, job=job, certificate=certified(shares, job=job), below=below, watch=watch)
        assert (len(trial.layout), trial.is_complete) == (number, True)


@pytest.mark.parametrize(("counts", "is_so"), [((2, 2, 2), True), ((1, 2, 3), True), ((1, 2, 2), False), ((1,), False)])
def test_parts_are_alike_where_there_are_two_of_a_kind_on_average(counts: tuple[int, ...], is_so: bool) -> None:
    sizes = ((100 + 10 * number, 200, count) for number, count in enumerate(counts))
    assert _are_alike(job_of(asked(*sizes))) is is_so


def test_only_what_uses_most_of_its_sheet_is_kept_for_the_choice() -> None:
    """Parts of 81 and of 25 hundredths of a sheet, of which no two lie side by side."""
    square = StockSheet(name="square", across_mm=100, up_mm=100)
    job = job_of(asked((90, 90, 1), (50, 50, 1), stock=[square]))
    layout = first_layout(job, random=Random(1), tries=1)
    kept = list(_well_filled(layout, job))
    assert len(layout) == 2 and [filled.used for filled in kept] == [90 * 90 * UNITS_PER_MM**2]


def test_places_are_told_apart_to_a_thousandth_of_a_millimetre() -> None:
    assert 1000 * SAME_MM == 1
