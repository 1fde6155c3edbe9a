"""Cheaper purchases filled: which there are, that what is filled can be cut, and how full sheets become."""

from itertools import product
from random import Random

import pytest
from sheet_jobs import by_chance, ticks

from framecalc.search.watch import start_watch
from framecalc.sheets.bounds import simple_certificate
from framecalc.sheets.bundles import OpenSheet
from framecalc.sheets.fewer import cheaper_purchases, filled_purchase
from framecalc.sheets.guillotine import leaves_strips, pieces_in
from framecalc.sheets.packing import first_layout, price_of
from framecalc.sheets.problem import SheetPart, StockSheet, sheet_problem
from framecalc.sheets.whole_numbers import LayoutJob, job_of


def _price(purchase: tuple[int, ...], job: LayoutJob) -> int:
    return sum(number * sheet.price for number, sheet in zip(purchase, job.sheets, strict=True))


@pytest.mark.parametrize("seed", range(8))
def test_a_cheaper_purchase_is_cheaper_holds_the_parts_and_leaves_no_money_for_more(seed: int) -> None:
    job = job_of(by_chance(seed))
    below = price_of(first_layout(job, random=Random(seed)), job)
    certificate = simple_certificate(job)
    area = sum(piece.across * piece.up * piece.count for piece in job.pieces)
    found = set(cheaper_purchases(job, certificate=certificate, below=below))
    for purchase in found:
        kinds = tuple(zip(purchase, job.sheets, strict=True))
        assert _price(purchase, job) < below and sum(number * sheet.size for number, sheet in kinds) >= area
        spare = below - 1 - _price(purchase, job)
        assert all(number == sheet.count or sheet.price > spare for number, sheet in kinds)


def test_all_cheaper_purchases_are_found_where_they_are_few() -> None:
    sheets = [
        StockSheet(name="small", across_mm=40, up_mm=50),
        StockSheet(name="off-cut", across_mm=30, up_mm=45, count=2),
    ]
    parts = [SheetPart(name="part", across_mm=20, up_mm=25, count=9)]
    job = job_of(sheet_problem(parts=parts, stock=sheets, kerf_mm=0, least_strip_mm=0))
    certificate, below = simple_certificate(job), 4 * job.sheets[0].price
    wanted = sum(share * piece.count for share, piece in zip(certificate.shares.pieces, job.pieces, strict=True))
    most = certificate.shares.capacities
    area = sum(piece.across * piece.up * piece.count for piece in job.pieces)
    expect = {
        (small, off_cuts)
        for small, off_cuts in product(range(5), range(3))
        if _price((small, off_cuts), job) < below <= _price((small + 1, off_cuts), job)
        and (off_cuts == 2 or _price((small, off_cuts + 1), job) >= below)
        and small * most[0] + off_cuts * most[1] >= wanted
        and small * job.sheets[0].size + off_cuts * job.sheets[1].size >= area
    }
    assert expect and set(cheaper_purchases(job, certificate=certificate, below=below)) == expect


@pytest.mark.parametrize("seed", range(12))
def test_what_is_filled_can_be_cut_with_every_part_once(seed: int) -> None:
    """The purchase of a first layout is filled anew: with a kerf, with a least strip, with off-cuts."""
    job, random = job_of(by_chance(seed)), Random(seed)
    layout = first_layout(job, random=random)
    purchase = tuple(sum(filled.sheet == number for filled in layout) for number in range(len(job.sheets)))
    filled = filled_purchase(job, purchase, random=random, watch=start_watch(1, clock=ticks()), rounds=60)
    for one in filled:
        assert leaves_strips(one.node, across=one.across, up=one.up, can_be_left=job.can_be_left)
    everything = sorted(number for number, piece in enumerate(job.pieces) for _ in range(piece.count))
    assert not filled or sorted(piece for one in filled for piece in pieces_in(one.node)) == everything


def test_most_purchases_of_first_layouts_are_filled_again() -> None:
    found = 0
    for seed in range(8):
        job, random = job_of(by_chance(seed)), Random(seed)
        layout = first_layout(job, random=random)
        purchase = tuple(sum(filled.sheet == number for filled in layout) for number in range(len(job.sheets)))
        found += bool(filled_purchase(job, purchase, random=random, watch=start_watch(1, clock=ticks()), rounds=60))
    assert found >= 6


def test_a_sheet_taken_apart_and_filled_again_has_the_places_of_one_filled_at_once() -> None:
    """Places are kept when a sheet is copied, and found anew when it changes."""
    job = job_of(by_chance(4))
    random, sheet = Random(4), OpenSheet(job, 0, job.sizes[0], 1)
    for number, piece in enumerate(job.pieces):
        place = random.choice(sheet.places) if sheet.whole else None
        sheet.join(place, number, piece.ways[0])
    again = sheet.copy()
    assert again.places == sheet.places and sheet.whole and again.whole is not sheet.whole
    again.take_out(random.choice(again.bundles))
    assert again.places != sheet.places


@pytest.mark.parametrize("seed", range(4))
def test_two_sheets_are_filled_to_nine_tenths_and_more(seed: int) -> None:
    """Fault: sheets were only ever broken up whole, so what needs a few parts exchanged took a sheet more."""
    random = Random(seed)
    sizes = [(random.randint(8, 60), random.randint(8, 60)) for _ in range(24)]
    side = (sum(across * up for across, up in sizes) / 2 / 0.92) ** 0.5
    parts = [SheetPart(name=f"part {number}", across_mm=size[0], up_mm=size[1]) for number, size in enumerate(sizes)]
    stock = [StockSheet(name="sheet", across_mm=side, up_mm=side)]
    job = job_of(sheet_problem(parts=parts, stock=stock, kerf_mm=0, least_strip_mm=0))
    filled = filled_purchase(job, (2,), random=Random(1), watch=start_watch(1, clock=ticks()), rounds=2500)
    assert sorted(piece for one in filled for piece in one.pieces) == list(range(len(job.pieces)))
    assert len(filled) == 2
