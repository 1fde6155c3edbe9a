"""Bounds by counted pieces: what a sheet yields at most, never beyond an integer programme, a planted fault caught."""

from itertools import count
from random import Random

import numpy as np
import pytest
from scipy.optimize import LinearConstraint, milp
from sheet_jobs import asked, ticks

from framecalc.records import replace
from framecalc.search.watch import start_watch
from framecalc.sheets.blocks import Blocks, list_blocks
from framecalc.sheets.bounds import SheetCertificate, SheetShares, least_price, simple_certificate
from framecalc.sheets.counted import counted_certificates
from framecalc.sheets.layers import best_pieces, layered_values, layers_of, most_of
from framecalc.sheets.packing import fill, first_layout, ordered, price_of
from framecalc.sheets.places import PlaceTable, best_values, pattern_table
from framecalc.sheets.problem import StockSheet
from framecalc.sheets.whole_numbers import LayoutJob, job_of

STOCK = (StockSheet(name="sheet", across_mm=20, up_mm=16), StockSheet(name="off-cut", across_mm=13, up_mm=21, count=2))


def job_by_chance(seed: int, *, kinds: int) -> LayoutJob:
    random = Random(seed)
    sizes = [(random.randint(3, 14), random.randint(3, 12), random.choice((1, 1, 2))) for _ in range(kinds)]
    return job_of(asked(*sizes, stock=STOCK[: 1 + seed % 2], turn=seed % 3 > 0))


def table_of(job: LayoutJob) -> PlaceTable:
    table = pattern_table(job, keeps_strips=False)
    assert table
    return table


def blocks_of(job: LayoutJob) -> Blocks:
    blocks = list_blocks(job, watch=start_watch(1, clock=ticks()))
    assert blocks
    return blocks


def shares_by_chance(job: LayoutJob, random: Random) -> tuple[int, ...]:
    return tuple(random.randrange(piece.across * piece.up // 10**6) for piece in job.pieces)


def certificates(job: LayoutJob) -> tuple[SheetCertificate, ...]:
    layout = first_layout(job, random=Random(1))
    weak = SheetCertificate(
        shares=SheetShares(pieces=(0,) * len(job.pieces), capacities=(1,) * len(job.sheets)), bound=0
    )
    found = counted_certificates(
        table_of(job), layout, job=job, best=weak, known=price_of(layout, job), watch=start_watch(1, clock=ticks())
    )
    return tuple(found)


@pytest.mark.parametrize("seed", range(6))
def test_a_table_without_counted_pieces_is_the_plain_table(seed: int) -> None:
    job = job_by_chance(seed, kinds=5)
    table, shares = table_of(job), shares_by_chance(job, Random(seed))
    layers = layers_of(table, (), job=job)
    assert layers and layered_values(layers, shares) == (best_values(table, shares),)


@pytest.mark.parametrize("seed", range(6))
def test_half_of_the_sums_say_what_all_of_them_do_where_a_turned_rectangle_yields_the_same(seed: int) -> None:
    random = Random(seed)
    sizes = [(random.randint(3, 14), random.randint(3, 12), random.choice((1, 2))) for _ in range(5)]
    job = job_of(asked(*sizes, stock=(StockSheet(name="square", across_mm=19, up_mm=19),), turn=True))
    table, shares = table_of(job), shares_by_chance(job, random)
    plain = replace(table, is_mirrored=False)
    assert table.is_mirrored and best_values(table, shares) == best_values(plain, shares)
    for counted in ((), (0,), (1, 0)):
        layers = layers_of(table, counted, job=job)
        assert layers
        assert layered_values(layers, shares) == layered_values(replace(layers, table=plain), shares)


@pytest.mark.parametrize("seed", range(8))
def test_with_every_piece_counted_a_sheet_yields_what_a_list_of_all_blocks_says(seed: int) -> None:
    job = job_by_chance(seed, kinds=4)
    shares = shares_by_chance(job, Random(seed))
    layers = layers_of(table_of(job), range(len(job.pieces)), job=job)
    assert layers
    values = layered_values(layers, shares)
    for sheet, (share, _) in enumerate(blocks_of(job).best_yields(shares)):
        pieces = best_pieces(layers, values, shares, sheet)
        assert most_of(layers, values, sheet) == share == sum(shares[piece] for piece in pieces)
        assert all(pieces.count(number) <= wanted for number, wanted in enumerate(job.counts))


@pytest.mark.parametrize("seed", range(6))
def test_each_counted_piece_makes_the_most_of_a_sheet_no_larger(seed: int) -> None:
    job = job_by_chance(seed, kinds=6)
    table, shares = table_of(job), shares_by_chance(job, Random(seed))
    most = []
    for number in range(3):
        layers = layers_of(table, range(number), job=job)
        assert layers
        most.append(most_of(layers, layered_values(layers, shares), 0))
    assert most == sorted(most, reverse=True)


@pytest.mark.parametrize("seed", range(6))
def test_no_bound_is_beyond_what_an_integer_programme_finds(seed: int) -> None:
    """Every way to fill a sheet is listed, and SciPy chooses among them: no other search has a say."""
    job = job_by_chance(seed, kinds=6)
    ways = [(sheet, counts) for sheet, blocks in enumerate(blocks_of(job).on_sheets) for counts, _ in blocks]
    covers = np.array([counts for _, counts in ways]).T
    taken = np.array([[sheet == kind for sheet, _ in ways] for kind in range(len(job.sheets))])
    found = milp(
        c=[job.sheets[sheet].price for sheet, _ in ways],
        constraints=[
            LinearConstraint(covers, lb=job.counts),
            LinearConstraint(taken, ub=[sheet.count for sheet in job.sheets]),
        ],
        integrality=np.ones(len(ways)),
    )
    bounds = certificates(job)
    assert bounds and max(one.bound for one in bounds) >= 1
    assert max(least_price(one, job=job, known=10**9) for one in bounds) <= round(found.fun)


def test_no_filling_is_worth_more_than_a_sheet_and_a_planted_fault_is_found() -> None:
    caught = 0
    for seed in range(4):
        job, random = job_by_chance(seed, kinds=9), Random(seed)
        everything = [number for number, piece in enumerate(job.pieces) for _ in range(piece.count)]
        filled = [fill(0, ordered(everything, job, random), job=job, random=random)[0] for _ in range(60)]
        best = max(certificates(job), key=lambda one: one.bound).shares
        worths = [sum(best.pieces[piece] for piece in one.pieces) for one in filled]
        assert max(worths) <= best.capacities[0]
        caught += max(worths) > best.capacities[0] * 3 // 4
    assert caught == 4


def test_counting_pieces_proves_what_cutting_them_any_number_of_times_does_not() -> None:
    """Four of 10 × 8 fill a sheet of 20 × 16, but there is one only: beside it, the large ones leave much waste."""
    sizes = [(13, 11, 1), (12, 11, 1), (14, 10, 1), (11, 10, 1), (10, 8, 1), (7, 5, 1), (5, 4, 1)]
    job = job_of(asked(*sizes, stock=STOCK[:1], turn=False))
    plain = simple_certificate(job)
    best = max((*certificates(job), plain), key=lambda one: one.bound)
    assert best.bound > plain.bound


def test_bounds_end_with_the_watch() -> None:
    job = job_by_chance(1, kinds=9)
    layout, ended = first_layout(job, random=Random(1)), count()
    found = counted_certificates(
        table_of(job),
        layout,
        job=job,
        best=simple_certificate(job),
        known=price_of(layout, job),
        watch=start_watch(9, clock=ticks(), cancelled=lambda: next(ended) >= 0),
    )
    assert list(found) == []
