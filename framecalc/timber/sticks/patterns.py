"""Patterns: the ways to fill one bay. All of them when they are few, or only those whose parts cost enough.

A pattern is *maximal* when no further part fits. Only maximal ones are listed: parts that a plan has too many of are
simply not cut.
"""

from bisect import bisect_left
from collections.abc import Sequence
from itertools import accumulate

from framecalc.records import Mutable, field
from framecalc.timber.sticks.whole_numbers import Pattern, WholeNumbers

MOST_PATTERNS, MOST_STEPS = 3000, 60_000
"""As many patterns as the solver takes whole in good time; beyond, they are made as needed. Measured."""

MOST_LENGTHS = 200
"""Different lengths beyond which patterns are not listed; there are too many in any case."""

PRICING_STEPS = 1500
"""Steps spent on finding a richer pattern for one bay. Measured: more find little."""

RICHEST = 8
"""Patterns kept of each search, the richest ones."""


def all_patterns(
    whole_numbers: WholeNumbers,
    *,
    room_um: int,
    prices: Sequence[float] = (),
    at_least: float = 0.0,
    most: int = MOST_PATTERNS,
    steps: int = MOST_STEPS,
) -> list[Pattern] | None:
    """List every maximal pattern of one bay, or those of at least a given value; None where there are too many.

    Args:
        prices: of one part of each length; none for all patterns.
        most: how many are not too many.
        steps: how long the search may be.
    Source: derived.

    >>> from framecalc.timber.sticks.problem import Piece, Stock, StickProblem
    >>> from framecalc.timber.sticks.whole_numbers import in_whole_numbers
    >>> pieces = tuple(Piece(frame=name, side="top", length_mm=long) for name, long in zip("abc", (30, 30, 50)))
    >>> problem = StickProblem(pieces=pieces, stock=(Stock(name="ash", length_mm=80),), kerf_mm=0, width_mm=20)
    >>> all_patterns(in_whole_numbers(problem), room_um=80_000)
    [(1, 1), (0, 2)]
    """
    kinds = len(whole_numbers.counts)
    if kinds > MOST_LENGTHS:
        return None
    search = _Listing(
        lengths=whole_numbers.lengths_um,
        counts=whole_numbers.counts,
        prices=prices or [0.0] * kinds,
        at_least=at_least,
        taken=[0] * kinds,
        most=most,
        steps=steps,
    )
    search.deeper(0, room_um, room_um + 1, 0.0)
    return None if search.steps <= 0 or len(search.found) > most else search.found


def richer_patterns(
    whole_numbers: WholeNumbers,
    *,
    left: Sequence[int],
    prices: Sequence[float],
    room_um: int,
    above: float,
    steps: int = PRICING_STEPS,
) -> list[Pattern]:
    """Find a few patterns of more value than the bay costs, the richest last.

    Args:
        left: parts of each length that may go in.
        prices: of one part of each length.
        above: what the bay costs.
        steps: how long the search may be.
    Source: derived (branch and bound for the bounded knapsack; the best price per length goes in first).
    """
    lengths = whole_numbers.lengths_um
    candidates = [kind for kind, price in enumerate(prices) if price > 0 and left[kind] and lengths[kind] <= room_um]
    candidates.sort(key=lambda kind: lengths[kind] / prices[kind])
    search = _Pricing(
        kinds=candidates,
        lengths=[lengths[kind] for kind in candidates],
        prices=[prices[kind] for kind in candidates],
        counts=[left[kind] for kind in candidates],
        size=len(left),
        best=above,
        taken=[0] * len(candidates),
        steps=steps,
    )
    search.deeper(0, room_um, 0.0)
    return search.found[-RICHEST:]


class _Listing(Mutable):
    """A search for all maximal patterns, the longest parts first, as many as fit first."""

    lengths: Sequence[int]
    counts: Sequence[int]
    prices: Sequence[float]
    at_least: float
    taken: list[int]
    most: int
    steps: int
    found: list[Pattern] = field(default_factory=list)
    to_come: list[int] = field(default_factory=list)
    dearest: list[float] = field(default_factory=list)
    shorter: list[int] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Find, from each kind on, the length still to come and the best price per length; negate lengths to bisect."""
        each = zip(self.lengths, self.counts, self.prices, strict=True)
        rest = [(length * count, price / length) for length, count, price in each][::-1]
        self.to_come = [0, *accumulate(length for length, _ in rest)][::-1]
        self.dearest = [0.0, *accumulate((ratio for _, ratio in rest), max)][::-1]
        self.shorter = [-length for length in self.lengths]

    def deeper(self, kind: int, room: int, spare: int, value: float) -> None:
        """Try the kinds from here on; at the end less than `spare` may be left, or a part passed over would fit."""
        self.steps -= 1
        kind = bisect_left(self.shorter, -room, lo=kind)
        if self.steps <= 0 or len(self.found) > self.most or room - self.to_come[kind] >= spare:
            return
        if value + room * self.dearest[kind] < self.at_least:
            return
        if kind == len(self.lengths):
            self.found.append(tuple(self.taken))
            return
        length = self.lengths[kind]
        for times in range(min(self.counts[kind], room // length), -1, -1):
            self.taken[kind] = times
            bound = spare if times == self.counts[kind] else min(spare, length)
            self.deeper(kind + 1, room - times * length, bound, value + times * self.prices[kind])


class _Pricing(Mutable):
    """A search for a richer pattern: the kinds by price per length, what is taken, and the richest patterns so far."""

    kinds: Sequence[int]
    lengths: Sequence[int]
    prices: Sequence[float]
    counts: Sequence[int]
    size: int
    best: float
    taken: list[int]
    steps: int
    found: list[Pattern] = field(default_factory=list)

    def deeper(self, index: int, room: int, value: float) -> None:
        """Try the kinds from here on, as long as the best price per length could still beat the richest pattern."""
        if value > self.best:
            self.best = value
            self.found.append(self._pattern())
        self.steps -= 1
        for at in range(index, len(self.kinds)):
            if self.steps <= 0 or value + room * self.prices[at] / self.lengths[at] <= self.best:
                return
            self._with(at, room, value)

    def _with(self, at: int, room: int, value: float) -> None:
        length, price = self.lengths[at], self.prices[at]
        for times in range(min(self.counts[at], room // length), 0, -1):
            self.taken[at] = times
            self.deeper(at + 1, room - times * length, value + times * price)
        self.taken[at] = 0

    def _pattern(self) -> Pattern:
        pattern = [0] * self.size
        for kind, times in zip(self.kinds, self.taken, strict=True):
            pattern[kind] = times
        return tuple(pattern)
