"""Patterns: the ways to fill one bay. All of them when they are few, or just the ones that are worth cutting.

A pattern is *maximal* when no further part fits. Only maximal ones are listed: parts that a plan has too many of are
simply not cut.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from framecalc.sticks.counted import Counted, Pattern

MOST_PATTERNS, MOST_STEPS = 3000, 60_000
"""As many patterns as the solver takes whole in good time; beyond, they are made as needed. Measured."""

PRICING_STEPS = 20_000
"""Steps spent on finding a richer pattern for one bay."""


def all_patterns(counted: Counted, *, room_um: int) -> list[Pattern] | None:
    """List every maximal pattern of one bay; None where there are more than MOST_PATTERNS.

    Source: derived.

    >>> from framecalc.sticks.problem import Piece, Stock, StickProblem
    >>> from framecalc.sticks.counted import count_problem
    >>> pieces = tuple(Piece(frame=name, side="top", length_mm=long) for name, long in zip("abc", (30, 30, 50)))
    >>> problem = StickProblem(pieces=pieces, stock=(Stock(name="ash", length_mm=80),), kerf_mm=0, width_mm=20)
    >>> all_patterns(count_problem(problem), room_um=80_000)
    [(1, 1), (0, 2)]
    """
    search = _Listing(lengths=counted.lengths_um, counts=counted.counts, taken=[0] * len(counted.counts))
    search.deeper(0, room_um, room_um + 1)
    return None if search.steps <= 0 or len(search.found) > MOST_PATTERNS else search.found


def richer_patterns(
    counted: Counted, *, prices: Sequence[float], room_um: int, above: float
) -> tuple[list[Pattern], bool]:
    """Find patterns worth more than a bay costs, each richer than the one before; and whether the search was complete.

    Args:
        prices: of one part of each length.
        above: what the bay costs.
    Source: derived (branch and bound for the bounded knapsack; the best price per length goes in first).
    """
    worthy = [kind for kind, price in enumerate(prices) if price > 0 and counted.lengths_um[kind] <= room_um]
    worthy.sort(key=lambda kind: counted.lengths_um[kind] / prices[kind])
    search = _Pricing(
        kinds=worthy,
        lengths=[counted.lengths_um[kind] for kind in worthy],
        prices=[prices[kind] for kind in worthy],
        counts=[counted.counts[kind] for kind in worthy],
        size=len(counted.counts),
        best=above,
        taken=[0] * len(worthy),
    )
    search.deeper(0, room_um, 0.0)
    return search.found, search.steps > 0


@dataclass(slots=True, kw_only=True)
class _Listing:
    """A search for all maximal patterns, the longest parts first, as many as fit first."""

    lengths: Sequence[int]
    counts: Sequence[int]
    taken: list[int]
    steps: int = MOST_STEPS
    found: list[Pattern] = field(default_factory=list)

    def deeper(self, kind: int, room: int, spare: int) -> None:
        """Try the kinds from here on; less than `spare` may be left at the end, or a part passed over would still fit."""
        self.steps -= 1
        if self.steps <= 0 or len(self.found) > MOST_PATTERNS or room - self._to_come(kind) >= spare:
            return
        if kind == len(self.lengths):
            self.found.append(tuple(self.taken))
            return
        length = self.lengths[kind]
        for times in range(min(self.counts[kind], room // length), -1, -1):
            self.taken[kind] = times
            enough = times == self.counts[kind]
            self.deeper(kind + 1, room - times * length, spare if enough else min(spare, length))

    def _to_come(self, kind: int) -> int:
        return sum(a * b for a, b in zip(self.lengths[kind:], self.counts[kind:], strict=True))


@dataclass(slots=True, kw_only=True)
class _Pricing:
    """A search for a richer pattern: the kinds by price per length, what is taken, and the richest patterns so far."""

    kinds: Sequence[int]
    lengths: Sequence[int]
    prices: Sequence[float]
    counts: Sequence[int]
    size: int
    best: float
    taken: list[int]
    steps: int = PRICING_STEPS
    found: list[Pattern] = field(default_factory=list)

    def deeper(self, index: int, room: int, worth: float) -> None:
        """Try the kinds from here on, as long as the best price per length could still beat the richest pattern."""
        if worth > self.best:
            self.best = worth
            self.found.append(self._pattern())
        self.steps -= 1
        for at in range(index, len(self.kinds)):
            if self.steps <= 0 or worth + room * self.prices[at] / self.lengths[at] <= self.best:
                return
            self._with(at, room, worth)

    def _with(self, at: int, room: int, worth: float) -> None:
        length, price = self.lengths[at], self.prices[at]
        for times in range(min(self.counts[at], room // length), 0, -1):
            self.taken[at] = times
            self.deeper(at + 1, room - times * length, worth + times * price)
        self.taken[at] = 0

    def _pattern(self) -> Pattern:
        pattern = [0] * self.size
        for kind, times in zip(self.kinds, self.taken, strict=True):
            pattern[kind] = times
        return tuple(pattern)
