"""Layouts and bounds from linear programming: choose among ways to fill a sheet, and make new ways where they pay.

A *column* is one way to fill one sheet. The linear program chooses how often each is used, fractions allowed; the
dual prices of its rows are the *shares* of the pieces, and the search looks for the best way to cut a sheet by them.
When no way has more shares than its sheet costs, the shares prove a bound. Whole numbers of the columns then make a
layout. The solver is not trusted: bounds are proved again from the shares, layouts are priced again from their sheets.
"""

from collections.abc import Iterable, Iterator, Sequence
from math import ceil
from random import Random
from typing import Protocol

from framecalc.records import Mutable, field
from framecalc.search.solver import Condition, Programme, solve
from framecalc.search.watch import Watch
from framecalc.sheets.bounds import SheetCertificate, SheetShares, certified, least_price
from framecalc.sheets.guillotine import Node, without_surplus
from framecalc.sheets.packing import FilledSheet, fill, filled_sheet, price_of
from framecalc.sheets.whole_numbers import LayoutJob

SHARE_STEPS = 10**4
"""Steps into which one price is divided when the solver's prices become whole shares."""

MOST_ROUNDS = 300
"""Rounds of new columns after which the search ends in any case."""

LEAST_GAIN = 1e-6
"""What a new column must save, as a part of the dearest price, to count: above the solver's own tolerance."""

GREEDY_TRIES = 3
"""Columns tried by greedy filling for each kind of sheet and round, the largest share for its area first."""

FRUITLESS = 3
"""How many beginnings in a row that meet nothing new end a search. Ours."""

WHOLE_SHARE_S = 5.0
"""The longest that the search for whole numbers of columns may take [s]."""


class SheetYield(Protocol):
    """A kind of sheet, and what is cut from one."""

    @property
    def sheet(self) -> int:
        """Which kind of sheet."""
        ...

    @property
    def pieces(self) -> tuple[int, ...]:
        """The pieces that it yields."""
        ...


class Yields(Protocol):
    """The best way to cut each kind of sheet for given shares of the pieces."""

    def best_yields(self, shares: tuple[int, ...]) -> tuple[tuple[int, Node], ...]:
        """The largest share that each kind of sheet yields, and a tree of cuts that yields it."""
        ...


class ColumnSearch(Mutable):
    """A search in progress: the best layout, the best bound proved, the columns.

    `ruled_out`: every way with a lower price was tried without success. `is_for_bound`: only a bound is needed. `met`:
    what well filled sheets of trials have yielded, however they were cut; `fruitless` beginnings in a row met no more.
    """

    job: LayoutJob
    layout: tuple[FilledSheet, ...]
    certificate: SheetCertificate
    ruled_out: int = 0
    is_for_bound: bool = False
    columns: dict[FilledSheet, None] = field(default_factory=dict)
    met: set[tuple[int, tuple[int, ...]]] = field(default_factory=set)
    fruitless: int = 0

    @property
    def price(self) -> int:
        """The price of the layout."""
        return price_of(self.layout, self.job)

    @property
    def is_proved(self) -> bool:
        """Whether the bound shows that no layout has a lower price."""
        return self.least_price == self.price

    @property
    def is_exhausted(self) -> bool:
        """Whether beginning anew meets nothing that is new any more."""
        return self.fruitless >= FRUITLESS

    @property
    def least_price(self) -> int:
        """The least price that the bound leaves to any layout."""
        proved = least_price(self.certificate, job=self.job, known=self.price)
        return max(proved, self.ruled_out)

    def take(self, certificate: SheetCertificate) -> None:
        """Keep a certificate if it proves more than the present one."""
        least = least_price(certificate, job=self.job, known=self.price)
        if (least, certificate.bound) > (self.least_price, self.certificate.bound):
            self.certificate = certificate


def make_columns(search: ColumnSearch, *, yields: Yields | None, proves: bool, random: Random, watch: Watch) -> None:
    """Make columns while they pay; columns and bounds are kept in the search.

    Args:
        search: any layout and bound of a job, where to start from.
        yields: finds the best column; without it only greedy ones are tried.
        proves: whether nothing beats what `yields` finds, so that it proves a bound.
        watch: asked between the steps; when it is over, the search ends with what there is.
    Source: Gilmore and Gomory, "Multistage cutting stock problems of two and more dimensions", 1965, from memory, not
        re-read.
    """
    search.columns |= dict.fromkeys(search.layout)
    for _ in range(MOST_ROUNDS):
        if watch.over or search.is_proved or not _add_columns(search, yields, proves, random, watch):
            break


def _add_columns(search: ColumnSearch, yields: Yields | None, proves: bool, random: Random, watch: Watch) -> bool:
    """Add the columns that pay at the present shares; whether there were any."""
    job = search.job
    shares, places, hope = _shares(search, watch)
    if not shares or (search.is_for_bound and not _can_better_bound(search, hope)):
        return False
    new = list(_greedy_columns(shares, job, random))
    if yields:
        found = yields.best_yields(shares)
        new += [_column(sheet, node, job) for sheet, (_, node) in enumerate(found)]
        if proves:
            proof = SheetShares(pieces=shares, capacities=tuple(share for share, _ in found))
            search.take(certified(proof, job=job))
    least = LEAST_GAIN * max(sheet.price for sheet in job.sheets if not sheet.is_missing)
    paying = [column for column in new if _saving(column, shares, places, job) > least]
    before = len(search.columns)
    search.columns |= dict.fromkeys(paying)
    return len(search.columns) > before


def _shares(search: ColumnSearch, watch: Watch) -> tuple[tuple[int, ...], tuple[float, ...], float]:
    """Solve the linear program: shares of the pieces in steps, the price of room for a sheet, and the optimum."""
    number = len(search.job.pieces)
    prices = solve(programme_of(search.job, tuple(search.columns)), whole=False, watch=watch).prices
    limits = [*search.job.counts, *(sheet.count for sheet in search.job.sheets)]
    shares = tuple(max(0, int(price * SHARE_STEPS)) for price in prices[:number])
    places = tuple(min(0.0, price) for price in prices[number:])
    return shares, places, sum(price * limit for price, limit in zip(prices, limits, strict=False))


def _can_better_bound(search: ColumnSearch, hope: float) -> bool:
    """Whether a bound as high as the program's optimum, which only falls, would say more than the present one."""
    return ceil(hope) > search.least_price


def programme_of(job: LayoutJob, columns: Sequence[SheetYield]) -> Programme:
    """Each piece covered, and no more sheets of a kind than there are.

    Source: derived.
    """
    covered: list[list[tuple[int, int]]] = [[] for _ in job.pieces]
    for number, column in enumerate(columns):
        for piece in sorted(set(column.pieces)):
            covered[piece].append((number, column.pieces.count(piece)))
    taken = [[(number, 1) for number, column in enumerate(columns) if column.sheet == sheet] for sheet in _numbers(job)]
    return Programme(
        costs=[job.sheets[column.sheet].price for column in columns],
        floors=[0] * len(columns),
        limits=[None] * len(columns),
        rows=[
            *(Condition(terms=terms, least=piece.count) for terms, piece in zip(covered, job.pieces, strict=True)),
            *(Condition(terms=terms, most=sheet.count) for terms, sheet in zip(taken, job.sheets, strict=True)),
        ],
    )


def _numbers(job: LayoutJob) -> range:
    return range(len(job.sheets))


def _greedy_columns(shares: tuple[int, ...], job: LayoutJob, random: Random) -> Iterator[FilledSheet]:
    """Sheets filled by the largest share for its area, no piece more often than it is needed."""
    everything = [number for number, piece in enumerate(job.pieces) for _ in range(piece.count) if shares[number]]
    for sheet in _numbers(job):
        for attempt in range(GREEDY_TRIES):
            keys = {
                piece: _density(piece, shares, job) * (1 + 0.3 * attempt * random.random())
                for piece in dict.fromkeys(everything)
            }
            queue = sorted(everything, key=lambda piece: -keys[piece])
            yield fill(sheet, queue, job=job, random=random)[0]


def _density(piece: int, shares: tuple[int, ...], job: LayoutJob) -> float:
    return shares[piece] / (job.pieces[piece].across * job.pieces[piece].up)


def _column(sheet: int, node: Node, job: LayoutJob) -> FilledSheet:
    return filled_sheet(sheet, without_surplus(node, job.counts), job=job)


def _saving(column: FilledSheet, shares: tuple[int, ...], places: tuple[float, ...], job: LayoutJob) -> float:
    share = sum(shares[piece] for piece in column.pieces) / SHARE_STEPS
    return share + places[column.sheet] - job.sheets[column.sheet].price


def choose_whole(search: ColumnSearch, *, watch: Watch) -> None:
    """Choose whole numbers of the columns, and keep the layout if it is better.

    Source: derived.
    """
    counts = solve(
        programme_of(search.job, tuple(search.columns)), whole=True, watch=watch.at_most(WHOLE_SHARE_S)
    ).counts
    chosen = [column for column, count in zip(search.columns, counts, strict=False) for _ in range(count)]
    layout = tuple(_without_surplus(chosen, search.job))
    wanted = sum(search.job.counts)
    if sum(len(filled.pieces) for filled in layout) == wanted and price_of(layout, search.job) < search.price:
        search.layout = layout


def _without_surplus(chosen: Iterable[FilledSheet], job: LayoutJob) -> Iterator[FilledSheet]:
    wanted = job.counts
    for column in chosen:
        filled = filled_sheet(column.sheet, without_surplus(column.node, wanted), job=job)
        if filled.pieces:
            yield filled
