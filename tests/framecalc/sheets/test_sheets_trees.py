"""Trees of cuts: what they cut and what they leave is all of the sheet, however they are written."""

from collections import Counter
from collections.abc import Iterator
from itertools import combinations
from random import Random

import pytest
from sheet_jobs import MOUNT_BOARD, asked, ticks

from framecalc.search.watch import start_watch
from framecalc.sheets.blocks import list_blocks
from framecalc.sheets.guillotine import (
    CutAxis,
    FilledArea,
    Node,
    Part,
    Strips,
    cut_count,
    largest_waste,
    leaves_strips,
    outline_of,
    pieces_in,
    refitted,
    strip_areas,
    tidied,
    waste_areas,
    without_surplus,
)
from framecalc.sheets.whole_numbers import job_of

ACROSS, UP = 97, 61
SEEDS = range(25)


def grown(random: Random, across: int, up: int, sizes: list[tuple[int, int]]) -> Node:
    """A tree by chance; each part is a piece of its own, as large as its place."""
    if random.random() < 0.25 or min(across, up) < 8:
        sizes.append((across, up))
        return Part(len(sizes) - 1, False)
    axis, strips = random.choice(list(CutAxis)), list[tuple[int, Node]]()
    left = across if axis is CutAxis.ACROSS else up
    for _ in range(random.randint(1, 3)):
        size = random.randint(1, left)
        left -= size
        inner = (size, up) if axis is CutAxis.ACROSS else (across, size)
        strips.append((size, Strips(axis, ()) if random.random() < 0.2 else grown(random, *inner, sizes)))
        if not left:
            break
    return Strips(axis, tuple(strips))


def tree(seed: int) -> tuple[FilledArea, list[tuple[int, int]]]:
    sizes: list[tuple[int, int]] = []
    return FilledArea(0, 0, ACROSS, UP, grown(Random(seed), ACROSS, UP, sizes)), sizes


def parts_of(piece: FilledArea) -> Iterator[FilledArea]:
    if isinstance(piece.node, Part):
        yield piece
    for strip in strip_areas(piece):
        yield from parts_of(strip)


def meet(one: FilledArea, other: FilledArea) -> bool:
    across = min(one.x + one.across, other.x + other.across) - max(one.x, other.x)
    return across > 0 and min(one.y + one.up, other.y + other.up) - max(one.y, other.y) > 0


@pytest.mark.parametrize("seed", SEEDS)
def test_parts_and_waste_are_all_of_a_sheet_and_lie_over_nothing(seed: int) -> None:
    sheet, sizes = tree(seed)
    parts, waste = list(parts_of(sheet)), list(waste_areas(sheet))
    assert sum(one.size for one in (*parts, *waste)) == ACROSS * UP
    assert not any(meet(one, other) for one, other in combinations([*parts, *waste], 2))
    assert [(one.across, one.up) for one in parts] == sizes and pieces_in(sheet.node) == tuple(range(len(sizes)))
    assert all(one.x >= 0 and one.y >= 0 and one.x + one.across <= ACROSS and one.y + one.up <= UP for one in parts)
    largest = max((one.size for one in waste), default=0)
    assert largest_waste(sheet.node, across=ACROSS, up=UP) == largest


@pytest.mark.parametrize("seed", SEEDS)
def test_a_tidied_tree_cuts_the_same_parts_with_no_more_cuts_and_no_smaller_waste(seed: int) -> None:
    sheet, sizes = tree(seed)
    neat = FilledArea(0, 0, ACROSS, UP, tidied(sheet.node, across=ACROSS, up=UP))
    assert Counter((one.across, one.up) for one in parts_of(neat)) == Counter(sizes)
    assert cut_count(neat) <= cut_count(sheet)
    wasted, left = (sum(one.size for one in waste_areas(one)) for one in (sheet, neat))
    assert wasted == left
    assert largest_waste(neat.node, across=ACROSS, up=UP) >= largest_waste(sheet.node, across=ACROSS, up=UP)
    assert tidied(neat.node, across=ACROSS, up=UP) == neat.node


@pytest.mark.parametrize("seed", SEEDS)
def test_the_outline_of_a_tree_holds_it_and_it_is_cut_from_that(seed: int) -> None:
    sheet, sizes = tree(seed)
    wide, high = outline_of(sheet.node, sizes=sizes)
    assert wide <= ACROSS and high <= UP
    again = FilledArea(0, 0, wide, high, refitted(sheet.node, across=wide, up=high, sizes=sizes))
    assert Counter((one.across, one.up) for one in parts_of(again)) == Counter(sizes)
    assert not any(meet(one, other) for one, other in combinations(parts_of(again), 2))


def test_cuts_are_counted_by_hand() -> None:
    """Three strips of 30 off 97: three cuts; the last of 30, 30 and 37 takes none; in one of them one cut up."""
    part = Part(0, False)
    three = Strips(CutAxis.ACROSS, ((30, part), (30, part), (30, part)))
    whole = Strips(CutAxis.ACROSS, ((30, part), (30, Strips(CutAxis.UP, ((20, part),))), (37, part)))
    assert [cut_count(FilledArea(0, 0, ACROSS, UP, one)) for one in (part, three, whole)] == [0, 3, 3]


@pytest.mark.parametrize("wanted", [0, 1, 2, 3])
def test_what_is_not_wanted_stays_uncut(wanted: int) -> None:
    left = [wanted, 1]
    three = Strips(CutAxis.ACROSS, tuple((20, Part(number, False)) for number in (0, 1, 0)))
    assert Counter(pieces_in(without_surplus(three, left)))[0] == min(wanted, 2)
    assert left == [max(wanted - 2, 0), 0]


@pytest.mark.parametrize(("used", "can_be"), [((30, 55), True), ((30, 56), False), ((30, 67), True), ((97,), True)])
def test_strips_leave_nothing_or_what_breaks(used: tuple[int, ...], can_be: bool) -> None:
    node = Strips(CutAxis.ACROSS, tuple((size, Part(0, False)) for size in used))

    def breaks(rest: int) -> bool:
        return not rest or rest >= 12

    assert leaves_strips(node, across=ACROSS, up=UP, can_be_left=breaks) is can_be
    inside = Strips(CutAxis.UP, ((UP, node),))
    assert leaves_strips(inside, across=ACROSS, up=UP, can_be_left=breaks) is can_be


@pytest.mark.parametrize("seed", range(6))
def test_every_block_is_cut_as_it_is_counted_and_leaves_only_what_breaks(seed: int) -> None:
    """Glass with a least strip: the trees of all ways to fill a sheet, looked at one by one."""
    random = Random(seed)
    sizes = [(random.randrange(190, 420), random.randrange(250, 560), 2) for _ in range(3)]
    sizes.append((815 - sizes[0][0], sizes[0][1] + 12, 1))
    job = job_of(asked(*sizes, stock=[MOUNT_BOARD], least_strip_mm=12))
    blocks = list_blocks(job, watch=start_watch(1, clock=ticks()))
    assert blocks and len(blocks.on_sheets[0]) > 5
    for (across, up), found in zip(blocks.sizes, blocks.on_sheets, strict=True):
        for counts, outline in found:
            node = outline.node((across, up))
            assert Counter(pieces_in(node)) == Counter({n: count for n, count in enumerate(counts) if count})
            assert leaves_strips(node, across=across, up=up, can_be_left=job.can_be_left)
            for part in parts_of(FilledArea(0, 0, across, up, node)):
                assert isinstance(part.node, Part)
                ways = {
                    (wide, high)
                    for wide, high, turned in job.pieces[part.node.piece].ways
                    if turned is part.node.is_turned
                }
                assert (part.across, part.up) in ways
