"""All ways to fill a sheet, and the best of them, against every cut on every whole millimetre."""

from collections import Counter
from functools import cache
from random import Random

import pytest
from sheet_jobs import ticks
from sheet_yields import all_yields, best_yield

from framecalc.records import replace
from framecalc.search.watch import start_watch
from framecalc.sheets import blocks, exhaustion
from framecalc.sheets.blocks import list_blocks
from framecalc.sheets.bounds import SheetShares, certified
from framecalc.sheets.exhaustion import Trial, try_every_way
from framecalc.sheets.guillotine import leaves_strips, pieces_in
from framecalc.sheets.packing import price_of
from framecalc.sheets.places import pattern_table
from framecalc.sheets.whole_numbers import JobSheet, LayoutJob, WholePart

SHEETS = ((14, 11), (9, 18))
SQUARES = ((15, 15), (11, 11))


def job(
    sizes: list[tuple[int, int]],
    *,
    counts: list[int] | None = None,
    strip: int = 0,
    turns: bool = True,
    sheets: tuple[tuple[int, int], ...] = SHEETS,
) -> LayoutJob:
    """A job in whole millimetres, without a kerf."""
    return LayoutJob(
        pieces=tuple(
            WholePart(across=across, up=up, count=count, may_turn=turns, parts=(number,) * count)
            for number, ((across, up), count) in enumerate(zip(sizes, counts or [1] * len(sizes), strict=True))
        ),
        sheets=tuple(JobSheet(across=across, up=up, count=9, price=2, stock=0) for across, up in sheets),
        kerf=0,
        least_strip=strip,
        unit=2,
        coin=1,
    )


def some_sizes(seed: int, number: int) -> list[tuple[int, int]]:
    """Sizes of which all fit both sheets."""
    draw, found = Random(seed), set[tuple[int, int]]()
    while len(found) < number:
        found.add((draw.randint(3, 9), draw.randint(3, 8)))
    return sorted(found)


@pytest.mark.parametrize("strip", [0, 2, 3])
@pytest.mark.parametrize("seed", range(6))
def test_all_ways_to_fill_a_sheet_are_listed_and_no_other(seed: int, strip: int) -> None:
    sizes = some_sizes(seed, 4)
    listed = list_blocks(job(sizes, strip=strip), watch=start_watch(1, clock=ticks()))
    assert listed
    yields = all_yields(tuple(sizes), strip)
    for size, found in zip(listed.sizes, listed.on_sheets, strict=True):
        every = {tuple(chosen >> part & 1 for part in range(4)) for chosen in yields(*size) if chosen}
        assert len(found) == len(every) and {counts for counts, _ in found} == every
        for counts, outline in found:
            node = outline.node(size)
            assert Counter(pieces_in(node)) == +Counter(dict(enumerate(counts)))
            rest_breaks = job(sizes, strip=strip).can_be_left
            assert leaves_strips(node, across=size[0], up=size[1], can_be_left=rest_breaks)


@pytest.mark.parametrize("seed", range(4))
def test_pieces_alike_are_listed_as_often_as_they_are_wanted(seed: int) -> None:
    sizes = some_sizes(seed, 2)
    listed = list_blocks(job(sizes, counts=[3, 2]), watch=start_watch(1, clock=ticks()))
    assert listed
    yields = all_yields((sizes[0],) * 3 + (sizes[1],) * 2, 0)
    for size, found in zip(listed.sizes, listed.on_sheets, strict=True):
        chosen = [[one >> part & 1 for part in range(5)] for one in yields(*size) if one]
        assert {counts for counts, _ in found} == {(sum(one[:3]), sum(one[3:])) for one in chosen}
        shares = (Random(seed).randint(1, 9), Random(seed + 1).randint(1, 9))
        most = max(sum(one[:3]) * shares[0] + sum(one[3:]) * shares[1] for one in chosen)
        ((share, node),) = [
            pair for at, pair in zip(listed.sizes, listed.best_yields(shares), strict=True) if at == size
        ]
        assert share == most == sum(shares[piece] for piece in pieces_in(node))


def test_of_shares_that_are_nothing_nothing_is_cut() -> None:
    listed = list_blocks(job([(5, 5)]), watch=start_watch(1, clock=ticks()))
    assert listed
    assert [(share, pieces_in(node)) for share, node in listed.best_yields((0,))] == [(0, ()), (0, ())]


def test_a_list_is_given_up_where_it_is_too_long_or_the_time_is_up(monkeypatch: pytest.MonkeyPatch) -> None:
    """Two squares alike are joined once, side by side; a pair of them and one more, each with one outline or two."""
    squares = job([(5, 5)], counts=[2])
    assert list_blocks(squares, watch=start_watch(0, clock=ticks(step_s=1))) is None
    for most, is_listed in ((0, False), (1, True)):
        monkeypatch.setattr(blocks, "MOST_JOINED", most)
        assert (list_blocks(squares, watch=start_watch(1, clock=ticks())) is not None) is is_listed


@pytest.mark.parametrize("sheets", [SHEETS, SQUARES])
@pytest.mark.parametrize("turns", [True, False])
@pytest.mark.parametrize("seed", range(8))
def test_a_table_knows_the_best_yield_of_each_sheet_and_how_to_cut_it(
    seed: int, turns: bool, sheets: tuple[tuple[int, int], ...]
) -> None:
    sizes, draw = some_sizes(seed, 3), Random(seed)
    shares = tuple(draw.randint(0, 60) for _ in sizes)
    table = pattern_table(job(sizes, counts=[30] * 3, turns=turns, sheets=sheets), keeps_strips=False)
    assert table and table.sheets == sheets and not table.keeps_strips
    assert table.is_mirrored == (turns and sheets == SQUARES)
    best = best_yield(sizes, shares, may_turn=turns)
    for size, (share, node) in zip(sheets, table.best_yields(shares), strict=True):
        assert share == best(*size) == sum(shares[piece] for piece in pieces_in(node))
        assert leaves_strips(node, across=size[0], up=size[1], can_be_left=lambda rest: rest >= 0)


@pytest.mark.parametrize("strip", [1, 2, 3])
@pytest.mark.parametrize("seed", range(8))
def test_a_table_that_heeds_strips_leaves_only_what_breaks(seed: int, strip: int) -> None:
    sizes, draw = some_sizes(seed, 3), Random(seed)
    shares = tuple(draw.randint(1, 60) for _ in sizes)
    asked = job(sizes, counts=[30] * 3, strip=strip)
    table = pattern_table(asked, keeps_strips=True)
    assert table and table.keeps_strips
    best = best_yield(sizes, shares, may_turn=True)
    for size, (share, node) in zip(SHEETS, table.best_yields(shares), strict=True):
        assert 0 < share == sum(shares[piece] for piece in pieces_in(node)) <= best(*size)
        assert leaves_strips(node, across=size[0], up=size[1], can_be_left=asked.can_be_left)
        single = max(
            share
            for (across, up), share in zip(sizes, shares, strict=True)
            for wide, high in ((across, up), (up, across))
            if asked.can_be_left(size[0] - wide) and asked.can_be_left(size[1] - high)
        )
        assert share >= single


def test_a_table_is_not_made_where_it_would_take_too_long() -> None:
    asked = job([(3, 4)], counts=[9], sheets=((14, 14),))
    places = [0, 3, 4, 6, 7, 8, 9, 10, 11, 12, 13, 14]
    work = len(places) ** 2 * 2 * len(places) / 4
    assert pattern_table(asked, keeps_strips=False, most_work=int(work))
    assert pattern_table(asked, keeps_strips=False, most_work=int(work) - 1) is None


def least_price(sizes: list[tuple[int, int]], sheets: list[tuple[tuple[int, int], int, int]]) -> int | None:
    """The least price of sheets (size, price, count) that yield all parts, by trying every yield on every sheet."""
    yields = all_yields(tuple(sizes), 0)

    @cache
    def least(wanted: int, left: tuple[int, ...]) -> int | None:
        if not wanted:
            return 0
        found = []
        for kind, ((across, up), price, _) in enumerate(sheets):
            fewer = tuple(count - (at == kind) for at, count in enumerate(left))
            for chosen in yields(across, up) if left[kind] else ():
                rest = least(wanted & ~chosen, fewer) if chosen and not chosen & ~wanted else None
                if rest is not None:
                    found.append(price + rest)
        return min(found, default=None)

    return least((1 << len(sizes)) - 1, tuple(count for _, _, count in sheets))


@pytest.mark.parametrize("seed", range(10))
def test_every_way_is_tried_until_none_is_cheaper(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    draw = Random(seed)
    sizes = some_sizes(seed, 4)
    sheets = [(size, draw.randint(2, 9), draw.randint(1, 3)) for size in SHEETS]
    asked = job(sizes)
    kinds = tuple(
        replace(sheet, price=price, count=there) for sheet, (_, price, there) in zip(asked.sheets, sheets, strict=True)
    )
    asked = replace(asked, sheets=kinds)
    watch = start_watch(1, clock=ticks())
    listed = list_blocks(asked, watch=watch)
    areas = SheetShares(
        pieces=tuple(across * up for across, up in sizes), capacities=tuple(sheet.size for sheet in asked.sheets)
    )
    assert listed
    certificate, below = certified(areas, job=asked), 1000
    while (trial := try_every_way(listed, job=asked, certificate=certificate, below=below, watch=watch)).layout:
        assert price_of(trial.layout, asked) < below
        taken = Counter(filled.sheet for filled in trial.layout)
        assert all(taken[kind] <= there for kind, (_, _, there) in enumerate(sheets))
        assert sorted(piece for filled in trial.layout for piece in filled.pieces) == [0, 1, 2, 3]
        below = price_of(trial.layout, asked)
    expected = least_price(sizes, sheets)
    assert trial.is_complete and below == (1000 if expected is None else expected)
    over = start_watch(0, clock=ticks(step_s=1))
    if expected is not None:
        late = try_every_way(listed, job=asked, certificate=certificate, below=1000, watch=over)
        assert late == Trial(is_complete=False)
        monkeypatch.setattr(exhaustion, "MOST_STATES", 0)
        assert not try_every_way(listed, job=asked, certificate=certificate, below=1000, watch=watch).is_complete
