"""Bounds from bars: no filling is worth more than they say, they prove what areas do not, and a wrong one is caught."""

from collections import Counter
from collections.abc import Iterator
from itertools import product
from random import Random

import numpy as np
import pytest
from scipy.optimize import linprog
from sheet_jobs import ticks

from framecalc.records import replace
from framecalc.search.watch import start_watch
from framecalc.sheets.bars import BarJob, Worths, _bar_job, _best_along, _shares, _starts, _ways, bar_certificates
from framecalc.sheets.bounds import (
    SheetCertificate,
    SheetShares,
    growths,
    is_mirrored,
    least_price,
    simple_certificate,
)
from framecalc.sheets.packing import FilledSheet, fill, first_layout, ordered, price_of
from framecalc.sheets.problem import SheetPart, StockSheet, sheet_problem
from framecalc.sheets.whole_numbers import LayoutJob, job_of


def job_by_chance(seed: int, *, square: bool, turns: float) -> LayoutJob:
    """Nine sizes of parts, some of them twice, on one kind of sheet or two."""
    random = Random(seed)
    sheets = [StockSheet(name="sheet", across_mm=100, up_mm=100 if square else 140)]
    if not square:
        sheets.append(StockSheet(name="off-cut", across_mm=130, up_mm=70, count=2))
    parts = [
        SheetPart(
            name=f"part {number}",
            across_mm=random.randint(15, 95),
            up_mm=random.randint(15, 68),
            count=random.choice((1, 1, 2)),
            may_turn=random.random() < turns,
        )
        for number in range(9)
    ]
    return job_of(sheet_problem(parts=parts, stock=sheets, kerf_mm=random.choice((0, 3)), least_strip_mm=0))


def fillings(job: LayoutJob, random: Random) -> Iterator[FilledSheet]:
    everything = [number for number, piece in enumerate(job.pieces) for _ in range(piece.count)]
    for _ in range(60):
        for sheet in range(len(job.sheets)):
            yield fill(sheet, ordered(everything, job, random), job=job, random=random)[0]


def is_worth_more(filled: FilledSheet, shares: SheetShares) -> bool:
    return sum(shares.pieces[piece] for piece in filled.pieces) > shares.capacities[filled.sheet]


def bounds_of(job: LayoutJob) -> tuple[SheetCertificate, ...]:
    return tuple(bar_certificates(job, watch=start_watch(9, clock=ticks())))


@pytest.mark.parametrize("turns", [0.0, 0.5, 1.0])
@pytest.mark.parametrize("square", [True, False])
def test_no_filling_is_worth_more_than_a_sheet(square: bool, turns: float) -> None:
    for seed in range(4):
        job = job_by_chance(seed, square=square, turns=turns)
        found, random = bounds_of(job), Random(seed)
        filled = tuple(fillings(job, random))
        assert found and not any(is_worth_more(one, bound.shares) for bound in found for one in filled)
        price = price_of(first_layout(job, random=random), job)
        assert max(least_price(bound, job=job, known=price + 1) for bound in found) <= price


def test_a_share_too_large_is_caught_by_a_filling() -> None:
    """The check above finds a planted fault: the most of a sheet taken for less than it is."""
    job = job_by_chance(1, square=True, turns=1.0)
    best = max(bounds_of(job), key=lambda one: one.bound).shares
    wrong = replace(best, capacities=tuple(most * 3 // 4 for most in best.capacities))
    assert any(is_worth_more(one, wrong) for one in fillings(job, Random(1)))


def test_bars_prove_what_areas_halves_and_thirds_do_not() -> None:
    """Of the widths 70, 40 and 35 no two lie beside a 70, and 40 + 35 leaves a quarter: worth 1, 1/2 and 1/2."""
    sizes = ((70, 50), (70, 50), (40, 50), (40, 50), (35, 50), (35, 50), (40, 50), (40, 50))
    parts = [
        SheetPart(name=f"part {number}", across_mm=across, up_mm=up, may_turn=False)
        for number, (across, up) in enumerate(sizes)
    ]
    sheet = StockSheet(name="sheet", across_mm=100, up_mm=100)
    job = job_of(sheet_problem(parts=parts, stock=[sheet], kerf_mm=0, least_strip_mm=0))
    best = max(bounds_of(job), key=lambda one: one.bound)
    assert best.bound == pytest.approx(2.5 * job.sheets[0].price, rel=1e-3)
    assert best.bound >= simple_certificate(job).bound


def test_a_mirror_image_counts_only_where_there_is_one() -> None:
    assert is_mirrored(job_by_chance(1, square=True, turns=1.0))
    assert not is_mirrored(job_by_chance(1, square=False, turns=1.0))
    assert not is_mirrored(job_by_chance(1, square=True, turns=0.0))


def every_bar(bars: BarJob) -> list[Counter[int]]:
    """All ways to cut a bar of the longest sheet, no piece more often than it is wanted, by plain trial."""
    found = []
    for taken in product(*(range(bars.counts[way.piece] + 1) for way in bars.ways)):
        bar = Counter({way: number for way, number in enumerate(taken) if number})
        pieces = Counter[int]()
        for way, number in bar.items():
            pieces[bars.ways[way].piece] += number
        fits = sum(bars.lengths[way] * number for way, number in bar.items()) <= max(bars.sheets)
        if fits and all(number <= bars.counts[piece] for piece, number in pieces.items()):
            found.append(bar)
    return found


def fewest_bars(bars: BarJob, beside: Worths) -> float:
    """The fewest bars, broken ones too, that give each way its worth beside as often as its piece lies so; by SciPy."""
    every, most = every_bar(bars), max(beside.ways)
    costs = [1.0] * len(every) + [0.0] * len(bars.ways)
    rows, least = [], []
    for way, worth in enumerate(beside.ways):
        lies = [-worth / most if other == way else 0.0 for other in range(len(bars.ways))]
        rows.append([*(float(bar[way]) for bar in every), *lies])
        least.append(0.0)
    of_piece: dict[int, list[int]] = {}
    for number, way_of in enumerate(bars.ways):
        of_piece.setdefault(way_of.piece, []).append(number)
    for piece, ways in of_piece.items():
        for group in [[way] for way in ways] if bars.is_mirrored else [ways]:
            rows.append([0.0] * len(every) + [float(way in group) for way in range(len(bars.ways))])
            least.append(bars.counts[piece] * len(group) * (2 if bars.is_mirrored else 1) / len(ways))
    found = linprog(costs, A_ub=-np.array(rows), b_ub=-np.array(least), method="highs")
    assert found.success
    return float(found.fun)


def small_job(parts: list[tuple[int, int, int, bool]], *, square: bool) -> LayoutJob:
    """Parts by across, up, count and whether they may turn, on one square sheet or two oblong ones."""
    stock = [StockSheet(name="sheet", across_mm=100, up_mm=100 if square else 140)]
    if not square:
        stock.append(StockSheet(name="off-cut", across_mm=130, up_mm=70, count=2))
    wanted = [
        SheetPart(name=f"part {number}", across_mm=across, up_mm=up, count=count, may_turn=turns)
        for number, (across, up, count, turns) in enumerate(parts)
    ]
    return job_of(sheet_problem(parts=wanted, stock=stock, kerf_mm=0, least_strip_mm=0))


def agree(job: LayoutJob, along: int) -> None:
    """The worths along are those of the oracle, and of every sheet the most is that of all bars which fit it."""
    ways = tuple(_ways(job))
    bars = _bar_job(job, ways, along)
    beside = next(worths for axis, worths in _starts(job, ways) if axis == along or bars.is_mirrored)
    found = _best_along(bars, beside, watch=start_watch(9, clock=ticks()))
    shares = _shares(job, ways, found, beside)
    every = every_bar(bars)
    worth = [sum(found.ways[way] * number for way, number in bar.items()) for bar in every]
    length = [sum(bars.lengths[way] * number for way, number in bar.items()) for bar in every]
    assert list(found.sheets) == [
        max(one for one, long in zip(worth, length, strict=True) if long <= sheet) for sheet in bars.sheets
    ]
    proved = sum(share * piece.count for share, piece in zip(shares.pieces, job.pieces, strict=True))
    assert proved / max(found.sheets) / max(beside.ways) == pytest.approx(fewest_bars(bars, beside), rel=2e-3)


@pytest.mark.parametrize("along", [0, 1])
@pytest.mark.parametrize(("square", "turns"), [(True, 1.0), (True, 0.5), (False, 0.5), (False, 0.0)])
def test_worths_along_prove_as_many_bars_as_an_oracle_that_knows_every_bar(
    square: bool, turns: float, along: int
) -> None:
    for seed in range(2):
        random = Random(seed)
        parts = [
            (random.randint(18, 95), random.randint(18, 95), random.choice((1, 2)), random.random() < turns)
            for _ in range(3)
        ]
        agree(small_job(parts, square=square), along)


@pytest.mark.parametrize("square", [True, False])
def test_a_bar_holds_as_many_of_a_part_as_fit_the_shorter_way(square: bool) -> None:
    agree(small_job([(20, 60, 4, True), (45, 70, 1, True)], square=square), 0)


def test_ways_are_those_that_some_sheet_takes() -> None:
    job = small_job([(120, 60, 1, True), (20, 90, 2, False), (139, 99, 1, True), (50, 50, 1, True)], square=False)
    expected = {
        (number, (across, up))
        for number, piece in enumerate(job.pieces)
        for across, up, _ in piece.ways
        for sheet in job.sheets
        if across <= sheet.across and up <= sheet.up
    }
    found = [(way.piece, way.sizes) for way in _ways(job)]
    assert len(found) == len(expected) and set(found) == expected
    assert (130 * 3200, 60 * 3200) not in {size for _, size in found}


def test_bars_begin_with_the_lengths_beside_them_and_have_no_more_places_than_are_allowed() -> None:
    job = small_job([(41, 33, 2, False), (27, 61, 1, True)], square=False)
    ways = tuple(_ways(job))
    starts = list(_starts(job, ways))
    for along in (0, 1):
        expected = [
            Worths(
                ways=tuple(growth(way.sizes[1 - along]) for way in ways),
                sheets=tuple(growth(size[1 - along]) for size in job.sizes),
            )
            for growth in growths(job, 1 - along)
        ]
        found = [beside for axis, beside in starts if axis == along]
        assert len(found) > 2 and found == [one for one in expected if any(one.ways)][: len(found)]
    assert [axis for axis, _ in starts[:4]] == [0, 1, 0, 1]
    fine = replace(
        job,
        sheets=tuple(replace(sheet, across=across) for sheet, across in zip(job.sheets, (9973, 83), strict=True)),
        pieces=tuple(replace(piece, across=71) for piece in job.pieces),
    )
    bars = _bar_job(fine, tuple(_ways(fine)), 0)
    assert max(bars.sheets) == 9973 // 10 and bars.sheets[1] == 8 and set(bars.lengths) >= {7}
