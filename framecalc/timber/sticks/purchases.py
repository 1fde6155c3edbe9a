"""Ways of buying: which numbers of sticks of each kind could hold all parts, the cheapest first.

Each kind of stick can hold a limited sum of shares, whatever they measure: length, sticks, money. A *purchase* covers
the parts when the most that its sticks can hold is no less than the shares of all parts together. The cheapest
that covers is a bound: no plan costs less. The search goes best first; the cost of what is still missing is estimated
from below by buying fractions of sticks.
"""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from fractions import Fraction
from heapq import heappop, heappush
from itertools import accumulate

from framecalc.records import Record
from framecalc.timber.sticks.whole_numbers import StickKind

MOST_STEPS = 20_000
"""Steps after which the search settles for the bound it has. Ours."""

Purchase = tuple[int, ...]
"""How many sticks of each kind."""


class _Shelf(Record):
    """Sticks of one cost, in the order in which they are taken: what the first 0, 1, 2, … hold together."""

    cost: int
    held: tuple[int, ...]


class _Rest(Record):
    """The shelves still to come, as fractions: what the best-value sticks hold and cost together."""

    held: tuple[int, ...]
    costs: tuple[int, ...]

    def least_cost(self, missing: int) -> int | None:
        """The least that the missing shares cost; None where all sticks together cannot hold them."""
        if missing <= 0:
            return 0
        index = bisect_left(self.held, missing)
        if index == len(self.held):
            return None
        held, cost = self.held[index - 1], self.costs[index - 1]
        share = (self.costs[index] - cost) * (missing - held)
        return cost - (-share // (self.held[index] - held))


def least_cost(kinds: Sequence[StickKind], *, most: Sequence[int], needed: int) -> int | None:
    """Bound the cost of every plan from below; None where all sticks together cannot hold the parts.

    Of sticks that cost the same, those that hold most are taken first: for the bound no other choice is better.

    Args:
        most: what one stick of each kind can hold at most, in any measure.
        needed: the shares of all parts together, in the same measure.
    Source: derived (the cover problem of integer programming, solved exactly, or bounded after MOST_STEPS).

    >>> from framecalc.timber.sticks.whole_numbers import Bay
    >>> stick = StickKind(cost=1, coins=1, limit=9, bays=(Bay(room_um=100, count=1),), members=(0,))
    >>> least_cost([stick], most=[100], needed=301), least_cost([stick], most=[100], needed=1000)
    (4, None)
    """
    shelves = []
    for cost in sorted({kind.cost for kind in kinds}):
        alike = [(held, kind.limit) for kind, held in zip(kinds, most, strict=True) if kind.cost == cost]
        units = [held for held, limit in sorted(alike, reverse=True) for _ in range(limit)]
        shelves.append(_Shelf(cost=cost, held=tuple(_up_to(needed, accumulate(units, initial=0)))))
    dear = 1 + sum(kind.cost * kind.limit for kind in kinds)
    bound, _ = next(_cheapest_first(shelves, needed, below=dear), (None, ()))
    return bound


def purchases(
    kinds: Sequence[StickKind], *, most: Sequence[int], needed: int, below: int
) -> Iterator[tuple[int, Purchase]]:
    """Go through all ways of buying that cover the parts and cost less than a plan in hand, the cheapest first.

    Gives each with its cost. Ends early, after MOST_STEPS, with a cost and an empty purchase: those not listed cost no
    less.

    Source: derived.
    """
    shelves = [
        _Shelf(cost=kind.cost, held=tuple(held * count for count in range(kind.limit + 1)))
        for kind, held in zip(kinds, most, strict=True)
    ]
    yield from _cheapest_first(shelves, needed, below=below)


def _up_to(needed: int, held: Iterator[int]) -> Iterator[int]:
    """What more and more sticks hold, as far as the first that is enough."""
    for total in held:
        yield total
        if total >= needed:
            return


def _cheapest_first(shelves: Sequence[_Shelf], needed: int, *, below: int) -> Iterator[tuple[int, Purchase]]:
    rests = [_rest(shelves[index:]) for index in range(len(shelves) + 1)]
    start = rests[0].least_cost(needed)
    heap: list[tuple[int, int, Purchase, int, int]] = [] if start is None else [(start, 0, (), 0, 0)]
    for _ in range(MOST_STEPS):
        if not heap:
            return
        _, _, taken, cost, held = heappop(heap)
        if len(taken) == len(shelves):
            yield cost, taken
            continue
        shelf, rest = shelves[len(taken)], rests[len(taken) + 1]
        for count, more in enumerate(shelf.held):
            spent = cost + count * shelf.cost
            if spent >= below:
                break
            to_come = rest.least_cost(needed - held - more)
            if to_come is not None and spent + to_come < below:
                heappush(heap, (spent + to_come, -len(taken), (*taken, count), spent, held + more))
    if heap:
        yield heap[0][0], ()


def _rest(shelves: Sequence[_Shelf]) -> _Rest:
    units = [
        (Fraction(shelf.cost, after - before), after - before, shelf.cost)
        for shelf in shelves
        for before, after in zip(shelf.held, shelf.held[1:], strict=False)
        if after > before
    ]
    units.sort()
    return _Rest(
        held=tuple(accumulate((held for _, held, _ in units), initial=0)),
        costs=tuple(accumulate((cost for _, _, cost in units), initial=0)),
    )
