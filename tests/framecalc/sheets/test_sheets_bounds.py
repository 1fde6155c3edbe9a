"""What the proofs rest on: superadditive functions, exact purchases, tables and lists that agree."""

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as some
from sheet_jobs import MOUNT_BOARD, PLYWOOD, asked, by_chance, ticks

from framecalc.search.watch import start_watch
from framecalc.sheets.blocks import list_blocks, shared_length
from framecalc.sheets.bounds import SheetShares, _growths, certified, least_price
from framecalc.sheets.coarse import rounded, set_out
from framecalc.sheets.columns import ColumnSearch
from framecalc.sheets.exhaustion import try_every_way
from framecalc.sheets.guillotine import outline_of, pieces_in
from framecalc.sheets.packing import first_layout, price_of
from framecalc.sheets.places import pattern_table
from framecalc.sheets.whole_numbers import JobSheet, LayoutJob, WholePart, job_of


@given(
    longest=some.integers(20, 5000),
    sides=some.lists(some.integers(1, 5000), min_size=1, max_size=6),
    share=some.floats(0, 1),
    part=some.floats(0, 1),
)
def test_shares_of_lengths_add_up_to_no_more_than_the_share_of_their_sum(
    longest: int, sides: list[int], share: float, part: float
) -> None:
    whole = round(longest * share)
    one = round(whole * part)
    for growth in _growths(longest, sorted(set(sides))):
        assert growth(one) + growth(whole - one) <= growth(whole) <= growth(longest)


@pytest.mark.parametrize("seed", range(20))
def test_the_least_price_is_the_cheapest_purchase_there_is(seed: int) -> None:
    random = Random(seed)
    job = job_of(asked((300, 400, 6), stock=[MOUNT_BOARD, PLYWOOD]))
    capacities = (random.randint(2, 9), random.randint(3, 20))
    certificate = certified(SheetShares(pieces=(random.randint(1, 5),), capacities=capacities), job=job)
    wanted = certificate.shares.pieces[0] * 6
    cheapest = min(
        few * job.sheets[0].price + many * job.sheets[1].price
        for few in range(7)
        for many in range(7)
        if few * capacities[0] + many * capacities[1] >= wanted or (few, many) == (6, 6)
    )
    assert certificate.bound <= least_price(certificate, job=job, known=10**9) == cheapest


@pytest.mark.parametrize("seed", range(8))
def test_a_table_and_a_list_find_the_same_best_sheet(seed: int) -> None:
    """With enough of each piece both know the largest share; the list's trees yield what they say."""
    random = Random(seed)
    sizes = [(random.randrange(250, 500), random.randrange(250, 700), 12) for _ in range(3)]
    job = job_of(asked(*sizes))
    table = pattern_table(job, keeps_strips=False)
    blocks = list_blocks(job, watch=start_watch(1, clock=ticks()))
    assert table and blocks
    shares = tuple(random.randrange(1, 1000) for _ in job.pieces)
    for (share, node), (listed, tree) in zip(table.best_yields(shares), blocks.best_yields(shares), strict=True):
        assert share == listed
        assert (
            sum(shares[piece] for piece in pieces_in(node)) == sum(shares[piece] for piece in pieces_in(tree)) == share
        )


@pytest.mark.parametrize("seed", range(10))
def test_trying_every_way_finds_the_best_and_nothing_below_it(seed: int) -> None:
    random = Random(seed)
    sizes = [(random.randrange(250, 700), random.randrange(250, 700), 1) for _ in range(7)]
    job = job_of(asked(*sizes))
    watch = start_watch(1, clock=ticks())
    blocks = list_blocks(job, watch=watch)
    assert blocks
    layout = tuple(first_layout(job, random=random, tries=1))
    shares = SheetShares(
        pieces=tuple(piece.across * piece.up for piece in job.pieces), capacities=(job.sheets[0].size,)
    )
    search = ColumnSearch(job=job, layout=layout, certificate=certified(shares, job=job))
    below = search.price + 1
    while (trial := try_every_way(blocks, job=job, certificate=search.certificate, below=below, watch=watch)).layout:
        assert price_of(trial.layout, job) < below
        assert sorted(piece for filled in trial.layout for piece in filled.pieces) == list(range(7))
        below = price_of(trial.layout, job)
    assert trial.is_complete and below >= search.least_price


@pytest.mark.parametrize("seed", range(12))
def test_rounding_sizes_down_never_loses_a_layout_and_rounding_up_never_invents_one(seed: int) -> None:
    job = job_of(by_chance(seed))
    down, up = rounded(job, up=False), rounded(job, up=True)
    for filled in first_layout(job, random=Random(seed), tries=3):
        wide, high = outline_of(filled.node, sizes=down.piece_sizes)
        assert wide <= down.sheets[filled.sheet].across and high <= down.sheets[filled.sheet].up
    for filled in first_layout(up, random=Random(seed), tries=3):
        assert job.least_strip or set_out(filled.node, sheet=filled.sheet, job=job)


@pytest.mark.parametrize(
    ("one", "other", "gap", "expect"),
    [
        (100, 100, 12, (100, False)),
        (100, 88, 12, (100, False)),
        (100, 89, 12, (112, True)),
        (100, 40, 0, (100, True)),
    ],
)
def test_two_strips_side_by_side_share_a_length(one: int, other: int, gap: int, expect: tuple[int, bool]) -> None:
    loose = (not gap, not gap)
    assert shared_length(one, other, loose=loose, gap=gap) == shared_length(other, one, loose=loose, gap=gap) == expect


def test_sheets_that_hold_one_share_each_are_wanted_one_for_each_piece() -> None:
    job = job_of(asked((300, 400, 6), stock=[MOUNT_BOARD]))
    certificate = certified(SheetShares(pieces=(1,), capacities=(1,)), job=job)
    assert certificate.bound == least_price(certificate, job=job, known=10**9) == 6 * job.sheets[0].price


@pytest.mark.parametrize("turned", [False, True])
def test_a_part_as_large_as_its_sheet_is_a_block_of_its_own(turned: bool) -> None:
    across, up = MOUNT_BOARD.across_mm, MOUNT_BOARD.up_mm
    size = (up, across, 2) if turned else (across, up, 2)
    blocks = list_blocks(job_of(asked(size, stock=[MOUNT_BOARD])), watch=start_watch(1, clock=ticks()))
    assert blocks and all(len(found) == 1 for found in blocks.on_sheets)


def test_pieces_are_rounded_down_as_sheets_are_and_up_by_less_than_a_step() -> None:
    """Each length as a piece and as a sheet; two pieces that add up to a third do so when they are rounded down."""
    lengths = range(1, 6001)
    longest = JobSheet(across=400_000, up=400_000, count=1, price=2, stock=0)
    job = LayoutJob(
        pieces=tuple(WholePart(across=n, up=n, count=1, may_turn=False, parts=(0,)) for n in lengths),
        sheets=(longest, *(JobSheet(across=n, up=n, count=1, price=2, stock=0) for n in lengths)),
        kerf=0,
        least_strip=0,
        unit=2,
        coin=1,
    )
    down, up = rounded(job, up=False), rounded(job, up=True)
    assert down.piece_sizes == down.sizes[1:] == up.sizes[1:]
    low, high = [across for across, _ in down.piece_sizes], [across for across, _ in up.piece_sizes]
    assert low[0] == 0 and low[-1] > 1 and high[0] == 1
    assert all(0 <= more - less <= 1 for less, more in zip(low, high, strict=True))
    assert low == [more - 1 for more in high[1:]] + [low[-1]]
