"""The best way to cut one sheet, when every piece has a share and may be cut any number of times.

``F(x, y) = max(share of a piece that fits, F(x₁, y) + F(x - x₁, y), F(x, y₁) + F(x, y - y₁))``

It is enough to cut at *places* that pieces side by side add up to: anything in between can be pushed to the left or
down. Where strips under a least width do not break off, pushing is not always possible; then strips of exactly that
width count as pieces too, and what is found is good but no proof.

Where each layout is one with every part turned as well, ``F(x, y) = F(y, x)``, and half of the sums are enough.
"""

from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator, Sequence
from operator import add, itemgetter

from framecalc.records import Record
from framecalc.sheets.bounds import is_mirrored
from framecalc.sheets.guillotine import WASTE, CutAxis, Node, Part, Strips, is_waste, tidied
from framecalc.sheets.whole_numbers import LayoutJob, Size

QUICK_WORK, MOST_WORK = 3_000_000, 30_000_000
"""Sums that a quick table may take, about a fifth of a second, and any table at all."""

MOST_PLACES = 2_000
"""Places in one direction past which no table can be made."""


class PlacesAlong(Record):
    """One direction: the places in rising order and, for each, the pairs of places that a cut makes of it."""

    places: tuple[int, ...]
    cuts: tuple[tuple[Size, ...], ...]

    def at(self, length: int) -> int:
        """The number of the largest place that is not beyond a length."""
        return bisect_right(self.places, length) - 1


class PlaceTable(Record):
    """Both directions, where each piece lies in them (place across, place up, piece, turned), and the sheets' sizes.

    `is_mirrored`: a rectangle that is turned yields the same.
    """

    across: PlacesAlong
    up: PlacesAlong
    keeps_strips: bool
    is_mirrored: bool
    fits: tuple[tuple[int, int, int, bool], ...]
    sheets: tuple[Size, ...]

    def best_yields(self, shares: tuple[int, ...]) -> tuple[tuple[int, Node], ...]:
        """The largest share that each kind of sheet yields, and a tree of cuts that yields it."""
        values = best_values(self, shares)
        return tuple(
            (
                values[self.across.at(across)][self.up.at(up)],
                best_pattern(self, values, shares, across=across, up=up),
            )
            for across, up in self.sheets
        )


Values = list[list[int]]
"""The largest share of a rectangle, by the numbers of its places across and up."""


def pattern_table(job: LayoutJob, *, keeps_strips: bool, most_work: int = QUICK_WORK) -> PlaceTable | None:
    """Set out the places of a job; nothing where there are too many.

    Args:
        most_work: sums that it may take each time.
        keeps_strips: respect the least strip. Without it the values are an upper bound for any layout.
    Source: Herz, "Recursive computational procedure for two-dimensional stock cutting", 1972 (normal patterns), from
        memory, not re-read.
    """
    strip = job.least_strip + job.kerf if keeps_strips and job.least_strip else 0
    across, up = _places(job, CutAxis.ACROSS, strip=strip), _places(job, CutAxis.UP, strip=strip)
    if len(across) * len(up) * (len(across) + len(up)) > 4 * most_work:
        return None
    across_side = PlacesAlong(places=across, cuts=tuple(_cuts(across, job, strip)))
    up_side = PlacesAlong(places=up, cuts=tuple(_cuts(up, job, strip)))
    fits = tuple(_fits(job, across_side, up_side))
    return PlaceTable(
        across=across_side,
        up=up_side,
        keeps_strips=bool(strip),
        is_mirrored=is_mirrored(job),
        fits=fits,
        sheets=job.sizes,
    )


def best_values(table: PlaceTable, shares: Iterable[int]) -> Values:
    """The largest share of every rectangle of the table.

    Args:
        shares: of each piece, >= 0.
    Source: Gilmore and Gomory, "The theory and computation of knapsack functions", 1966, from memory, not re-read; the
        equation above.
    """
    shares = tuple(shares)
    values: Values = []
    pickers = [_picker(pairs) for pairs in table.up.cuts]
    for across, pairs in enumerate(table.across.cuts):
        known = mirrored(table, values, across)
        column = [0] * len(table.up.places)
        for at_across, at_up, piece, _ in table.fits:
            if at_across == across:
                column[at_up] = max(column[at_up], shares[piece])
        halves = ((values[first], values[second]) for first, second in pairs)
        column = [*known, *joined_halves(column, halves, start=len(known))]
        for at_up, pick in enumerate(pickers[len(known) :], start=len(known)):
            column[at_up] = max(column[at_up], pick(column))
        values.append(column)
    return values


def mirrored(table: PlaceTable, values: Values, across: int) -> list[int]:
    """The first of the values at a place across, where those before it have them already.

    Source: derived, as in the text above.
    """
    return [column[across] for column in values] if table.is_mirrored else []


def joined_halves(
    column: Sequence[int], halves: Iterable[tuple[Sequence[int], Sequence[int]]], *, start: int
) -> list[int]:
    """The values of a column from a place on, or more where two halves side by side have more.

    Source: derived.

    >>> joined_halves([9, 1, 1, 8], [([0, 2, 3, 4], [0, 1, 2, 3]), ([0, 0, 6, 0], [0, 0, 0, 0])], start=1)
    [3, 6, 8]
    """
    joined = [map(add, one[start:], other[start:]) for one, other in halves]
    return list(map(max, column[start:], *joined) if joined else column[start:])


def best_pattern(table: PlaceTable, values: Values, shares: Iterable[int], *, across: int, up: int) -> Node:
    """A tree of cuts that yields the largest share of a rectangle.

    Source: derived (the equation above, read backwards).
    """
    node = _traced(table, values, tuple(shares), table.across.at(across), table.up.at(up))
    node = _in_strip(CutAxis.UP, node, size=table.up.places[table.up.at(up)], of=up)
    node = _in_strip(CutAxis.ACROSS, node, size=table.across.places[table.across.at(across)], of=across)
    return tidied(node, across=across, up=up)


def _places(job: LayoutJob, axis: CutAxis, *, strip: int) -> tuple[int, ...]:
    """Sums of pieces, each as often as it is wanted; with strips also those and one strip, and the ends of sheets."""
    ends = {_along(axis, sheet.across, sheet.up) for sheet in job.sheets}
    sums, longest = {0}, max(ends)
    for piece in job.pieces:
        sides = {_along(axis, across, up) for across, up, _ in piece.ways}
        for _ in range(piece.count):
            before = len(sums)
            sums |= {place + side for place in sums for side in sides if place + side <= longest}
            if len(sums) == before or len(sums) > MOST_PLACES:
                break
    if strip:
        sums |= ends | {place + strip for place in sums if place + strip <= longest}
    return tuple(sorted(sums))


def _along(axis: CutAxis, across: int, up: int) -> int:
    return across if axis is CutAxis.ACROSS else up


def _cuts(places: tuple[int, ...], job: LayoutJob, strip: int) -> Iterator[tuple[Size, ...]]:
    """For each place, the pairs of smaller places it can be cut into; the second is what can be used of the rest."""
    known = frozenset(places)
    for number, whole in enumerate(places):
        pairs = [(number - 1, 0)] if number and not strip else []
        for first in range(1, number):
            rest = whole - places[first]
            if strip and job.can_be_left(rest):
                pairs.append((first, bisect_right(places, _heeding_strip(rest, known, places, job)) - 1))
            elif not strip and rest >= places[first]:
                pairs.append((first, bisect_right(places, rest) - 1))
        yield tuple(pairs)


def _heeding_strip(rest: int, known: frozenset[int], places: tuple[int, ...], job: LayoutJob) -> int:
    """What can be used of a rest: all of it, or what leaves a strip that breaks off."""
    if rest in known or rest <= job.kerf:
        return rest
    below = places[bisect_right(places, rest) - 1]
    return below if job.can_be_left(rest - below) else rest - job.least_strip - job.kerf


def _fits(job: LayoutJob, across_side: PlacesAlong, up_side: PlacesAlong) -> Iterator[tuple[int, int, int, bool]]:
    longest, highest = across_side.places[-1], up_side.places[-1]
    for number, piece in enumerate(job.pieces):
        for across, up, is_turned in piece.ways:
            if across <= longest and up <= highest:
                yield across_side.at(across), up_side.at(up), number, is_turned


def _picker(pairs: tuple[Size, ...]) -> Callable[[list[int]], int]:
    """Take the best pair of one column."""
    if not pairs:
        return lambda column: 0
    firsts, seconds = (itemgetter(*numbers, numbers[0]) for numbers in zip(*pairs, strict=True))
    return lambda column: max(map(add, firsts(column), seconds(column)))


def _traced(table: PlaceTable, values: Values, shares: tuple[int, ...], across: int, up: int) -> Node:
    """Find the cuts that make the value of a rectangle, drawn in to where it first reaches that value."""
    share = values[across][up]
    if not share:
        return WASTE
    snug_across, snug_up = (across, up) if table.keeps_strips else _drawn_in(values, across, up)
    node = _cut_of(table, values, shares, snug_across, snug_up)
    node = _in_strip(CutAxis.UP, node, size=table.up.places[snug_up], of=table.up.places[up])
    return _in_strip(CutAxis.ACROSS, node, size=table.across.places[snug_across], of=table.across.places[across])


def _drawn_in(values: Values, across: int, up: int) -> tuple[int, int]:
    share = values[across][up]
    while across and values[across - 1][up] == share:
        across -= 1
    while up and values[across][up - 1] == share:
        up -= 1
    return across, up


def _cut_of(table: PlaceTable, values: Values, shares: tuple[int, ...], across: int, up: int) -> Node:
    share = values[across][up]
    for at_across, at_up, piece, is_turned in table.fits:
        if (at_across, at_up, shares[piece]) == (across, up, share):
            return Part(piece, is_turned)
    for first, second in table.across.cuts[across]:
        if values[first][up] + values[second][up] == share:
            halves = [(table.across.places[half], _traced(table, values, shares, half, up)) for half in (first, second)]
            return Strips(CutAxis.ACROSS, tuple(half for half in halves if half[0]))
    first, second = next(
        pair for pair in table.up.cuts[up] if values[across][pair[0]] + values[across][pair[1]] == share
    )
    halves = [(table.up.places[half], _traced(table, values, shares, across, half)) for half in (first, second)]
    return Strips(CutAxis.UP, tuple(half for half in halves if half[0]))


def _in_strip(axis: CutAxis, node: Node, *, size: int, of: int) -> Node:
    """Cut a rectangle off what is larger than it."""
    return node if size == of or is_waste(node) else Strips(axis, ((size, node),))
