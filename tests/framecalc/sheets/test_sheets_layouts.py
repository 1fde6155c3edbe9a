"""Layouts seen whole: cut up by a witness, compared with published optima, with exhaustive search and with laws.

`RABBETRY_LONG=1` tries three times as many jobs.
"""

import tomllib
from collections import Counter
from decimal import Decimal
from pathlib import Path
from random import Random
from time import monotonic
from typing import Any

import numpy as np
import pytest
from long import tries
from scipy.optimize import Bounds, LinearConstraint, milp
from sheet_jobs import MOUNT_BOARD, PLYWOOD, asked, by_chance, laid_out, ticks
from sheet_witness import complaints
from sheet_yields import all_yields

from framecalc.records import replace
from framecalc.search.watch import start_watch
from framecalc.sheets import bounds, packing
from framecalc.sheets.answer import SheetLayout
from framecalc.sheets.columns import ColumnSearch
from framecalc.sheets.guillotine import FilledArea, pieces_in, waste_areas
from framecalc.sheets.layout import LAST_S, find_layout
from framecalc.sheets.packing import by_left_over, fill, ordered
from framecalc.sheets.places import pattern_table
from framecalc.sheets.plan import lay_out_sheets
from framecalc.sheets.problem import Goal, StockSheet, sheet_problem
from framecalc.sheets.whole_numbers import JobSheet, LayoutJob, WholePart, job_of

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/sheets.toml").read_text("utf-8"))


@pytest.mark.parametrize("check", CHECKS["one_sheet"], ids=lambda check: check["name"])
def test_published_optimum_of_one_sheet(check: dict[str, Any]) -> None:
    pieces = tuple(
        WholePart(across=across, up=up, count=check["across"] * check["up"], may_turn=False, parts=(number,))
        for number, (across, up, _) in enumerate(check["pieces"])
    )
    sheet = JobSheet(across=check["across"], up=check["up"], count=1, price=2, stock=0)
    job = LayoutJob(pieces=pieces, sheets=(sheet,), kerf=0, least_strip=0, unit=2, coin=1)
    table = pattern_table(job, keeps_strips=False)
    assert table
    shares = tuple(share for _, _, share in check["pieces"])
    ((share, node),) = table.best_yields(shares)
    assert sum(shares[piece] for piece in pieces_in(node)) == share
    if "expect" in check:
        assert share == check["expect"]
    else:
        assert share >= check["expect_at_least"]


@pytest.mark.parametrize("check", CHECKS["sheets"], ids=lambda check: check["name"])
def test_published_number_of_sheets(check: dict[str, Any]) -> None:
    stock = StockSheet(name="sheet", across_mm=check["sheet_mm"][0], up_mm=check["sheet_mm"][1])
    problem = asked((*check["part_mm"], check["count"]), stock=[stock])
    layout = laid_out(problem)
    assert (layout.bought, layout.is_proved, complaints(layout, problem)) == (check["expect_sheets"], True, [])


@pytest.mark.parametrize("seed", tries(8, long=30))
def test_a_layout_can_be_cut_as_it_is_written(seed: int) -> None:
    problem = by_chance(seed)
    layout = lay_out_sheets(problem, watch=start_watch(1, clock=monotonic))
    assert complaints(layout, problem) == []
    used = sum(part.across_mm * part.up_mm for _, part in layout.parts())
    left = sum(left.area_mm2 for sheet in layout.sheets for left in sheet.left_overs)
    assert used + left <= sum(sheet.stock.across_mm * sheet.stock.up_mm for sheet in layout.sheets) + 1e-3
    assert layout.least_bought <= layout.bought and layout.least_cost <= layout.cost


def test_the_largest_waste_is_the_largest_of_all_that_is_left() -> None:
    for seed in range(10):
        job, random = job_of(by_chance(seed)), Random(seed)
        filled, _ = fill(0, ordered(range(len(job.pieces)), job, random), job=job, random=random)
        whole = FilledArea(0, 0, job.sheets[0].across, job.sheets[0].up, filled.node)
        assert filled.left_over == max((area.size for area in waste_areas(whole)), default=0), seed


SMALL = StockSheet(name="small", across_mm=14, up_mm=11)


@pytest.mark.parametrize("strip", [0, 2, 3])
@pytest.mark.parametrize("seed", tries(4, long=12))
def test_as_few_sheets_as_exhaustive_search_finds(seed: int, strip: int) -> None:
    random = Random(seed)
    sizes = [(random.randint(3, 9), random.randint(3, 7)) for _ in range(5)]
    problem = asked(*((across, up, 1) for across, up in sizes), stock=[SMALL], least_strip_mm=strip)
    layout = laid_out(problem)
    assert layout.is_proved and complaints(layout, problem) == []
    assert layout.bought == _fewest_sheets(sizes, strip)


@pytest.mark.parametrize("seed", tries(3, long=8))
def test_as_cheap_as_exhaustive_search_finds(seed: int) -> None:
    random = Random(100 + seed)
    sizes = [(random.randint(3, 9), random.randint(3, 7)) for _ in range(5)]
    dear = replace(SMALL, cost=Decimal(random.randint(5, 12)))
    large = StockSheet(name="large", across_mm=22, up_mm=12, cost=Decimal(random.randint(8, 20)))
    problem = asked(*((across, up, 1) for across, up in sizes), stock=[dear, large], goal=Goal.CHEAPEST)
    layout = laid_out(problem)
    assert layout.is_proved
    sheets = [(14, 11, float(dear.cost)), (22, 12, float(large.cost))]
    assert float(layout.cost) == pytest.approx(_least_cost(sizes, sheets, 0))


def _fewest_sheets(sizes: list[tuple[int, int]], strip: int) -> int:
    return round(_least_cost(sizes, [(14, 11, 1.0)], strip))


def _least_cost(sizes: list[tuple[int, int]], sheets: list[tuple[int, int, float]], strip: int) -> float:
    """Choose among all sets of parts that one sheet yields: exhaustive search, then SciPy's integer program."""
    everything = range(len(sizes))
    yields = all_yields(tuple(sizes), strip)
    columns = [(chosen, cost) for across, up, cost in sheets for chosen in yields(across, up) if chosen]
    covers = np.array([[chosen >> part & 1 for chosen, _ in columns] for part in everything], dtype=float)
    found = milp(
        c=[cost for _, cost in columns],
        constraints=LinearConstraint(covers, lb=1.0),
        integrality=np.ones(len(columns)),
        bounds=Bounds(0, 1),
    )
    assert found.success
    return float(found.fun)


def _some_sizes(seed: int) -> list[tuple[float, float, int]]:
    random = Random(200 + seed)
    return [(random.randrange(200, 560), random.randrange(250, 700), random.choice([3, 6, 10])) for _ in range(2)]


@pytest.mark.parametrize("seed", tries(2, long=5))
def test_one_more_kind_of_sheet_never_makes_a_proved_layout_worse(seed: int) -> None:
    problem = asked(*_some_sizes(seed), stock=[MOUNT_BOARD], goal=Goal.CHEAPEST)
    richer = replace(problem, stock=(*problem.stock, replace(PLYWOOD, cost=Decimal(30))))
    layout, better = laid_out(problem), laid_out(richer)
    assert layout.cost == layout.least_cost and better.cost == better.least_cost
    assert better.cost <= layout.cost


@pytest.mark.parametrize("seed", tries(2, long=6))
def test_turning_never_needs_more_and_kerf_never_less(seed: int) -> None:
    sizes = _some_sizes(seed)
    turned, fixed, sawn = (
        laid_out(asked(*sizes, turn=turn, kerf_mm=kerf)) for turn, kerf in ((True, 0), (False, 0), (True, 4))
    )
    assert turned.is_proved and fixed.is_proved and sawn.is_proved
    assert turned.bought <= fixed.bought and turned.bought <= sawn.bought


def test_an_off_cut_at_hand_is_used_before_a_sheet_is_bought() -> None:
    off_cut = StockSheet(name="off-cut", across_mm=420, up_mm=310, count=1)
    layout = laid_out(asked((400, 300, 1), stock=[MOUNT_BOARD, off_cut]))
    assert [sheet.stock.name for sheet in layout.sheets] == ["off-cut"]
    assert layout.verdict == "Nothing to buy, 1 sheet to cut; proved: no layout needs fewer."


def test_sheets_at_hand_that_do_not_suffice_are_said_to_be_missing() -> None:
    layout = laid_out(asked((800, 1100, 5), stock=[replace(MOUNT_BOARD, count=2)]))
    assert (len(layout.sheets), len(layout.missing)) == (5, 3)
    assert layout.verdict.startswith("3 sheets more than are at hand; proved")


def test_the_largest_left_over_is_one_piece() -> None:
    """All three in one strip 400 high, two of them turned, leave more than 800 × 300 and the small one on its own."""
    layout = laid_out(asked((400, 300, 2), (200, 150, 1)))
    left = layout.largest_left_over
    assert left and left.area_mm2 == pytest.approx(815 * (1120 - 400))


@pytest.mark.parametrize("sizes", [((409, 482, 6),), ((297, 420, 20), (700, 1000, 3))])
def test_sheets_that_yield_the_same_parts_are_cut_alike(sizes: tuple[tuple[float, float, int], ...]) -> None:
    problem = asked(*sizes, least_strip_mm=12)
    layout = laid_out(problem)
    ways: dict[Any, set[Any]] = {}
    for sheet in layout.sheets:
        yields = tuple(sorted(part.name for part in sheet.parts))
        ways.setdefault(yields, set()).add(tuple((part.x_mm, part.y_mm, part.is_turned) for part in sheet.parts))
    assert len(layout.sheets) > len(ways) and all(len(way) == 1 for way in ways.values())
    assert complaints(layout, problem) == []


def test_one_large_left_over_goes_before_several_small_ones_on_every_sheet() -> None:
    """Two of 409 × 482 on each: one above the other leaves 406 × 1120 in one piece, and takes three cuts."""
    layout = laid_out(asked((409, 482, 6), least_strip_mm=12))
    assert [max(left.area_mm2 for left in sheet.left_overs) for sheet in layout.sheets] == [406 * 1120] * 3
    assert [len(sheet.cuts) for sheet in layout.sheets] == [3, 3, 3]


def test_parts_that_fill_a_sheet_to_the_hundredth_of_an_inch_fill_it() -> None:
    sheet = StockSheet(name="sheet", across_mm=25.4 * 20.125, up_mm=25.4 * 10.0625)
    problem = asked((25.4 * 10.0625, 25.4 * 10.0625, 1), (25.4 * 10.0625, 25.4 * 10.0625, 1), stock=[sheet])
    layout = laid_out(problem)
    assert (layout.bought, complaints(layout, problem)) == (1, [])
    assert [cut.setting_mm for cut in layout.sheets[0].cuts] == [pytest.approx(25.4 * 10.0625)]


def test_glass_leaves_no_strip_too_narrow_to_break() -> None:
    wide = StockSheet(name="sheet", across_mm=808, up_mm=400)
    parts = ((400, 400, 2),)
    assert laid_out(asked(*parts, stock=[wide])).bought == 1
    assert laid_out(asked(*parts, stock=[wide], least_strip_mm=12)).bought == 2


def test_the_same_problem_has_the_same_layout_and_fingerprint() -> None:
    one, other = by_chance(1), by_chance(1)
    assert one.fingerprint == other.fingerprint != by_chance(5).fingerprint
    assert laid_out(one) == laid_out(other)


def test_a_search_called_off_at_once_still_gives_a_layout_that_can_be_cut() -> None:
    problem = asked(*((200 + 7 * number, 300 + 11 * number, 2) for number in range(30)), kerf_mm=3.2)
    layout = lay_out_sheets(problem, watch=start_watch(60, clock=ticks(), cancelled=lambda: True))
    assert complaints(layout, problem) == []
    assert not layout.is_proved and "might do" in layout.verdict


def test_a_search_called_off_at_once_tries_one_layout_and_one_bound(monkeypatch: pytest.MonkeyPatch) -> None:
    """Fault: the largest jobs went on for seconds after they were called off, and kept the next search waiting."""
    asked_for = Counter[str]()
    for module, name in ((packing, "pack"), (bounds, "certified")):
        inner = getattr(module, name)
        monkeypatch.setattr(module, name, lambda *a, n=name, f=inner, **k: asked_for.update([n]) or f(*a, **k))
    problem = asked(*((200 + 7 * number, 300 + 11 * number, 2) for number in range(30)), kerf_mm=3.2)
    lay_out_sheets(problem, watch=start_watch(60, clock=ticks(), cancelled=lambda: True))
    assert asked_for == {"pack": 1, "certified": 1}


def test_layouts_so_far_are_reported_and_only_get_better() -> None:
    reports: list[SheetLayout] = []
    problem = asked((377, 219, 20), (210, 450, 17), (150, 330, 9))
    layout = lay_out_sheets(problem, watch=start_watch(1, clock=ticks()), report=reports.append, most_beginnings=0)
    numbers = [(report.bought, -report.least_bought) for report in reports]
    assert numbers == sorted(numbers, reverse=True)
    assert reports[-1] == layout


@pytest.mark.parametrize("seed", range(3))
def test_left_overs_and_likeness_take_no_longer_than_the_proof_or_the_least_and_spoil_nothing(seed: int) -> None:
    """Fault: what follows the proof had no limit of its own. The clock advances each time that somebody looks at it."""
    random = Random(seed)
    sizes = [(random.randrange(350, 405), random.randrange(900, 1110), 2) for _ in range(20)]
    job, step_s, clock = job_of(asked(*sizes)), 0.1, ticks(step_s=0.1)
    proved: list[tuple[float, tuple[int, int]]] = []

    def note(search: ColumnSearch) -> None:
        proved.append((clock(), by_left_over(search.layout, job)))

    search = find_layout(job, watch=start_watch(1000, clock=clock), report=note)
    (proved_s, before), (end_s, after) = proved[-2:]
    assert search.is_proved and end_s - proved_s <= max(LAST_S, proved_s) + (10 + len(search.layout)) * step_s
    assert after <= before and after == by_left_over(search.layout, job)


@pytest.mark.parametrize("seed", tries(2, long=6))
def test_the_proof_adds_up(seed: int) -> None:
    """Shares of all parts ≤ what the least number of sheets yields; the sheet never yields more than is said."""
    random = Random(seed)
    sizes = [(random.randrange(150, 500), random.randrange(150, 600), random.choice([2, 6, 15])) for _ in range(3)]
    layout = laid_out(asked(*sizes))
    proof, (most,) = layout.proof, layout.proof.sheets
    assert proof.wanted_ratio == pytest.approx(sum(part.share_ratio * part.count for part in proof.parts))
    assert proof.wanted_ratio > (layout.least_bought - 1) * most.most_ratio - 1e-9
    share_of = {name: part.share_ratio for part in proof.parts for name in part.names}
    for sheet in layout.sheets:
        assert sum(share_of[part.name] for part in sheet.parts) <= most.most_ratio + 1e-9


def test_two_hundred_parts_are_laid_out() -> None:
    problem = asked((297, 420, 90), (210, 297, 70), (406.4, 508, 40), least_strip_mm=12)
    layout = laid_out(problem)
    assert layout.is_proved and complaints(layout, problem) == []


def test_a_kind_of_part_may_be_split_among_names() -> None:
    problem = sheet_problem(
        parts=[
            replace(asked((297, 420, 2)).parts[0], name="hall glass"),
            replace(asked((420, 297, 1)).parts[0], name="stair glass"),
        ],
        stock=[MOUNT_BOARD],
        kerf_mm=0,
    )
    layout = laid_out(problem)
    labels = sorted(part.label for _, part in layout.parts())
    assert labels == ["hall glass 1/2", "hall glass 2/2", "stair glass"] and complaints(layout, problem) == []
