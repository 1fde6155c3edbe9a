"""Bounds from bars: a sheet seen as a bundle of thin bars, all cut in one direction.

Give each way that a piece may lie a length's worth *along* and one *beside* it. Where the pieces that fit side by side
along a sheet are never worth more together than A, and those that fit above each other never more than B, the products
of the two are never more than A·B on a sheet: a cut divides the pieces in two, and adds up along or beside. Each piece
is counted no more often than it is wanted.

The best worths along, with those beside given, are the prices of a linear program over bars: how to cut thin bars so
that each piece gets as many as it is worth beside. Then those beside are sought with the new ones along, in turns.
"""

from collections.abc import Iterator, Sequence
from functools import reduce
from itertools import chain, product
from math import ceil, gcd

from framecalc.records import Record
from framecalc.search.solver import Condition, Programme, solve
from framecalc.search.watch import Watch
from framecalc.sheets.bounds import SheetCertificate, SheetShares, certified, growths, is_mirrored, shares_of_ways
from framecalc.sheets.whole_numbers import LayoutJob

STEPS = 10**4
"""Steps into which the worth of a bar is divided."""

MOST_PLACES = 1_000
"""Places along a bar: longer lengths are rounded down to so many steps, which only weakens the bound."""

MOST_ROUNDS = 150
"""Rounds of new bars after which a program ends in any case; what it proves by then holds."""

MOST_AT_ONCE = 8
"""How many bars are made in a round at most. Ours."""

GAIN_TOLERANCE = 1e-4
"""What a bar must be worth more than one to count."""

TURNS = 2
"""How often worths are sought from one beginning: along, then beside; a third time hardly ever gives more."""


class PieceAlong(Record):
    """One way that a piece may lie, with its sizes across and up."""

    piece: int
    sizes: tuple[int, int]


class Worths(Record):
    """What each way is worth in one direction, and the most that fits side by side on each kind of sheet is."""

    ways: tuple[int, ...]
    sheets: tuple[int, ...]


class BarJob(Record):
    """A job seen in one direction, its lengths in few whole steps: those of the ways, and those of the sheets.

    `is_mirrored`: every layout is to be counted with its mirror image, so that each way of a piece is as frequent.
    """

    ways: tuple[PieceAlong, ...]
    counts: tuple[int, ...]
    lengths: tuple[int, ...]
    sheets: tuple[int, ...]
    is_mirrored: bool


Bar = tuple[int, ...]
"""The ways that are cut from a bar, each as often as it is cut."""


def bar_certificates(job: LayoutJob, *, watch: Watch) -> Iterator[SheetCertificate]:
    """Bounds that bars prove, one after the other, in no order; none once the watch is over.

    Source: the bar relaxation after Scheithauer, "Equivalence and dominance for problems of optimal packing of
        rectangles", 1997, and conservative scales after Fekete and Schepers, 2001, both from memory, not re-read; bars
        of counted pieces and the turns from along to beside: derived, as in the text above.
    """
    ways = tuple(_ways(job))
    directions = _bar_job(job, ways, 0), _bar_job(job, ways, 1)
    for along, beside in _starts(job, ways):
        for _ in range(TURNS):
            if watch.over:
                return
            found = _best_along(directions[along], beside, watch=watch)
            yield certified(_shares(job, ways, found, beside), job=job)
            along, beside = 1 - along, found


def _ways(job: LayoutJob) -> Iterator[PieceAlong]:
    """The ways that some sheet takes."""
    for number, piece in enumerate(job.pieces):
        for across, up, _ in piece.ways:
            if any(across <= sheet.across and up <= sheet.up for sheet in job.sheets):
                yield PieceAlong(piece=number, sizes=(across, up))


def _starts(job: LayoutJob, ways: tuple[PieceAlong, ...]) -> Iterator[tuple[int, Worths]]:
    """Worths beside to begin with, those of plain lengths first, for bars along each direction."""
    grown = [tuple(growths(job, axis)) for axis in (1, 0)]
    axes = (0,) if is_mirrored(job) else (0, 1)
    for along, growth in chain.from_iterable(zip(*(product((axis,), grown[axis]) for axis in axes), strict=False)):
        lengths, sheets = (way.sizes[1 - along] for way in ways), (size[1 - along] for size in job.sizes)
        beside = Worths(ways=tuple(map(growth, lengths)), sheets=tuple(map(growth, sheets)))
        if any(beside.ways):
            yield along, beside


def _bar_job(job: LayoutJob, ways: tuple[PieceAlong, ...], along: int) -> BarJob:
    lengths, sheets = [way.sizes[along] for way in ways], [size[along] for size in job.sizes]
    step = reduce(gcd, (*lengths, *sheets))
    step *= ceil(max(sheets) / step / MOST_PLACES)
    return BarJob(
        ways=ways,
        counts=tuple(job.counts),
        lengths=tuple(length // step for length in lengths),
        sheets=tuple(sheet // step for sheet in sheets),
        is_mirrored=is_mirrored(job),
    )


def _shares(job: LayoutJob, ways: tuple[PieceAlong, ...], along: Worths, beside: Worths) -> SheetShares:
    worths: list[list[int]] = [[] for _ in job.pieces]
    for way, one, other in zip(ways, along.ways, beside.ways, strict=True):
        worths[way.piece].append(one * other)
    most = [one * other for one, other in zip(along.sheets, beside.sheets, strict=True)]
    return shares_of_ways(worths, most, job=job)


def _best_along(bars: BarJob, beside: Worths, *, watch: Watch) -> Worths:
    """The best worths along, by making bars while they pay."""
    known = dict.fromkeys(_first_bars(bars))
    worths = tuple(0 for _ in bars.ways)
    for _ in range(MOST_ROUNDS):
        prices = solve(_programme(bars, beside, tuple(known)), whole=False, watch=watch).prices
        if not prices:
            break
        worths = tuple(max(0, int(price * STEPS)) for price in prices[: len(bars.ways)])
        before = len(known)
        known |= dict.fromkeys(_paying_bars(bars, worths))
        if len(known) == before:
            break
    return Worths(ways=worths, sheets=tuple(_best_bars(bars, worths)[-1][sheet] for sheet in bars.sheets))


def _first_bars(bars: BarJob) -> Iterator[Bar]:
    """Bars of one way each."""
    longest = max(bars.sheets)
    for number, (way, length) in enumerate(zip(bars.ways, bars.lengths, strict=True)):
        yield (number,) * min(bars.counts[way.piece], longest // length if length else bars.counts[way.piece])


def _programme(bars: BarJob, beside: Worths, known: tuple[Bar, ...]) -> Programme:
    """The fewest bars that give each way its worth beside, as often as its piece lies so."""
    most, number = max(beside.ways) or 1, len(known)
    taken: list[list[tuple[int, int]]] = [[] for _ in bars.ways]
    for column, bar in enumerate(known):
        for way in sorted(set(bar)):
            taken[way].append((column, bar.count(way)))
    weights = [-(-STEPS * worth // most) for worth in beside.ways]
    return Programme(
        costs=[1] * number + [0] * len(bars.ways),
        floors=[0] * (number + len(bars.ways)),
        limits=[None] * (number + len(bars.ways)),
        rows=[
            *(Condition(terms=[*taken[at], (number + at, -weights[at])], least=0) for at in range(len(bars.ways))),
            *_lying(bars, number),
        ],
    )


def _lying(bars: BarJob, number: int) -> Iterator[Condition]:
    """How often each piece lies in one of its ways, or in each; the variables of that follow those of the bars."""
    of_piece: dict[int, list[tuple[int, int]]] = {}
    for at, way in enumerate(bars.ways):
        of_piece.setdefault(way.piece, []).append((number + at, 1))
    for piece, terms in of_piece.items():
        if bars.is_mirrored:
            yield from (Condition(terms=[term], least=bars.counts[piece] * 2 // len(terms)) for term in terms)
        else:
            yield Condition(terms=terms, least=bars.counts[piece])


def _best_bars(bars: BarJob, worths: Sequence[int]) -> list[list[int]]:
    """The largest worth for each length, without pieces, then with one copy of a piece more each time."""
    tables = [[0] * (max(bars.sheets) + 1)]
    for ways in _copies(bars):
        last = tables[-1]
        table = last
        for way in ways:
            shift = bars.lengths[way]
            table = [*table[:shift], *map(max, table[shift:], (worths[way] + one for one in last))]
        tables.append(table)
    return tables


def _copies(bars: BarJob) -> Iterator[tuple[int, ...]]:
    """The ways of each single copy of a piece that a bar has room for."""
    longest = max(bars.sheets)
    of_piece: dict[int, list[int]] = {}
    for number, way in enumerate(bars.ways):
        of_piece.setdefault(way.piece, []).append(number)
    for piece, ways in of_piece.items():
        shortest = min(bars.lengths[way] for way in ways)
        for _ in range(min(bars.counts[piece], longest // shortest if shortest else bars.counts[piece])):
            yield tuple(ways)


def _paying_bars(bars: BarJob, worths: Sequence[int]) -> Iterator[Bar]:
    """Bars that are worth more than one, the best first, each of pieces that those before it leave."""
    left = list(worths)
    for _ in range(MOST_AT_ONCE):
        worth, bar = _best_bar(bars, left)
        if worth <= STEPS * (1 + GAIN_TOLERANCE):
            return
        yield bar
        taken = {bars.ways[way].piece for way in bar}
        left = [0 if way.piece in taken else one for way, one in zip(bars.ways, left, strict=True)]


def _best_bar(bars: BarJob, worths: Sequence[int]) -> tuple[int, Bar]:
    """The bar of the largest worth, and that worth."""
    tables, copies, place = _best_bars(bars, worths), tuple(_copies(bars)), max(bars.sheets)
    bar = []
    for number in range(len(copies), 0, -1):
        before, worth = tables[number - 1], tables[number][place]
        if before[place] == worth:
            continue
        way = next(
            way
            for way in copies[number - 1]
            if bars.lengths[way] <= place and before[place - bars.lengths[way]] + worths[way] == worth
        )
        bar.append(way)
        place -= bars.lengths[way]
    return tables[-1][max(bars.sheets)], tuple(sorted(bar))
