"""The best way to cut one sheet, when some pieces are counted and all others may be cut any number of times.

A table of places (`places`) cuts every piece as often as it likes. Of a *counted* piece no more than are wanted come
from one sheet: the table has a *layer* for every number of them that may still be taken, and a cut shares what a layer
has between its halves. One counted piece of a kind makes two layers, another one four.
"""

from collections.abc import Callable, Iterator, Sequence
from itertools import product
from operator import add, itemgetter, sub

from framecalc.records import Record
from framecalc.sheets.places import PlaceTable, Values, joined_halves, mirrored
from framecalc.sheets.whole_numbers import LayoutJob

MOST_WORK = 12_000_000
"""Sums that all layers of a table may take, some two seconds."""

Layer = tuple[int, ...]
"""How many of each counted piece may be taken."""


class Layers(Record):
    """A table with layers: how many of each counted piece a layer has, and the pairs of layers that share it out."""

    table: PlaceTable
    counted: tuple[int, ...]
    layers: tuple[Layer, ...]
    shared: tuple[tuple[tuple[int, int], ...], ...]

    def allows(self, layer: int, piece: int) -> bool:
        """Whether a piece may be cut from a part of the sheet that has a layer."""
        return piece not in self.counted or self.layers[layer][self.counted.index(piece)] > 0


def layers_of(table: PlaceTable, counted: Sequence[int], *, job: LayoutJob) -> Layers | None:
    """A table with layers for some pieces; nothing where that takes too long.

    Source: state spaces that are relaxed, then restored where that pays, after Righini and Salani, 2008, from memory,
        not re-read; their use for tables of places: derived.
    """
    layers = tuple(product(*(range(job.counts[piece] + 1) for piece in counted)))
    across, up = len(table.across.places), len(table.up.places)
    pairs = 1
    for piece in counted:
        pairs *= (job.counts[piece] + 1) * (job.counts[piece] + 2) // 2
    if across * up * (across + up) // 4 * pairs > MOST_WORK:
        return None
    number_of = {layer: number for number, layer in enumerate(layers)}
    shared = tuple(
        tuple((number_of[some], number_of[tuple(map(sub, layer, some))]) for some in _parts_of(layer))
        for layer in layers
    )
    return Layers(table=table, counted=tuple(counted), layers=layers, shared=shared)


def layered_values(layers: Layers, shares: Sequence[int]) -> tuple[Values, ...]:
    """The largest share of every rectangle of the table, for every layer.

    Args:
        shares: of each piece, >= 0.
    Source: derived, from the equation of `places`.
    """
    table = layers.table
    values: tuple[Values, ...] = tuple([] for _ in layers.layers)
    pickers = [_picker(pairs) for pairs in table.up.cuts]
    for across, pairs in enumerate(table.across.cuts):
        columns: list[list[int]] = []
        for layer, shared in enumerate(layers.shared):
            known = mirrored(table, values[layer], across)
            halves = (
                (values[some][first], values[others][second]) for some, others in shared for first, second in pairs
            )
            column = _with_pieces(layers, layer, across, shares)
            columns.append([*known, *joined_halves(column, halves, start=len(known))])
            _cut_up(columns, shared, pickers, start=len(known))
        for layer, column in enumerate(columns):
            values[layer].append(column)
    return values


def best_pieces(layers: Layers, values: Sequence[Values], shares: Sequence[int], sheet: int) -> tuple[int, ...]:
    """The pieces that make the largest share of a kind of sheet.

    Source: derived (the equation of `places`, read backwards).
    """
    table, found = layers.table, list[int]()
    across, up = table.sheets[sheet]
    left = [(len(layers.layers) - 1, table.across.at(across), table.up.at(up))]
    while left:
        layer, at_across, at_up = left.pop()
        share = values[layer][at_across][at_up]
        if not share:
            continue
        piece = _piece_of(layers, layer, at_across, at_up, shares, share)
        if piece is not None:
            found.append(piece)
        else:
            left += next(
                (one, other)
                for one, other in _halves(layers, layer, at_across, at_up)
                if sum(values[part][wide][high] for part, wide, high in (one, other)) == share
            )
    return tuple(sorted(found))


def most_of(layers: Layers, values: Sequence[Values], sheet: int) -> int:
    """The largest share that a kind of sheet yields.

    Source: derived.
    """
    across, up = layers.table.sheets[sheet]
    return values[-1][layers.table.across.at(across)][layers.table.up.at(up)]


def _parts_of(layer: Layer) -> Iterator[Layer]:
    return product(*(range(number + 1) for number in layer))


def _with_pieces(layers: Layers, layer: int, across: int, shares: Sequence[int]) -> list[int]:
    """A column with the shares of single pieces as wide as the place."""
    column = [0] * len(layers.table.up.places)
    for at_across, at_up, piece, _ in layers.table.fits:
        if at_across == across and layers.allows(layer, piece):
            column[at_up] = max(column[at_up], shares[piece])
    return column


Picker = tuple[Callable[[list[int]], tuple[int, ...]], Callable[[list[int]], tuple[int, ...]]] | None
"""What takes the first and the second halves of all cuts from a column."""


def _picker(pairs: tuple[tuple[int, int], ...]) -> Picker:
    if not pairs:
        return None
    firsts, seconds = zip(*pairs, strict=True)
    return itemgetter(*firsts, firsts[0]), itemgetter(*seconds, seconds[0])


def _cut_up(
    columns: list[list[int]], shared: Sequence[tuple[int, int]], pickers: Sequence[Picker], *, start: int
) -> None:
    """Cut the last of the columns up from a place on, each half from its own layer."""
    column = columns[-1]
    for at_up, picker in enumerate(pickers[start:], start=start):
        if picker:
            firsts, seconds = picker
            cut = (max(map(add, firsts(columns[some]), seconds(columns[others]))) for some, others in shared)
            column[at_up] = max(column[at_up], *cut)


def _piece_of(layers: Layers, layer: int, across: int, up: int, shares: Sequence[int], share: int) -> int | None:
    """A piece that fits a rectangle and has its share; none where it has to be cut."""
    for at_across, at_up, piece, _ in layers.table.fits:
        if at_across <= across and at_up <= up and shares[piece] == share and layers.allows(layer, piece):
            return piece
    return None


Half = tuple[int, int, int]
"""A layer, and the places across and up of a rectangle."""


def _halves(layers: Layers, layer: int, across: int, up: int) -> Iterator[tuple[Half, Half]]:
    """All ways to cut a rectangle in two, and to share its layer out."""
    for some, others in layers.shared[layer]:
        for first, second in layers.table.across.cuts[across]:
            yield (some, first, up), (others, second, up)
        for first, second in layers.table.up.cuts[up]:
            yield (some, across, first), (others, across, second)
