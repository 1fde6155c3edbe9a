"""Bounds that hold: a worth for each part, the most that any stick can hold of it, the cheapest purchase that covers.

Any worths give a valid bound. Good ones come from a solver, rounded down to shares that can be told. Nothing of the
solver is trusted: the most that a stick can hold, and the cheapest purchase, are found here in whole numbers.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from math import ceil, floor, log10
from operator import mul

from framecalc.timber.sticks.packing import doublings, fullest, reachable
from framecalc.timber.sticks.purchases import Purchase, least_cost
from framecalc.timber.sticks.whole_numbers import UM_PER_MM, Counted

SHARES_OF_A_STICK = (1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 24, 30, 36, 48, 60, 100, 1000, 10_000)
"""Into how many shares a stick may be divided to state a worth: fractions first, then decimals."""

FEWEST_SHARES, MOST_SHARES = 20, 40_000
"""How finely the dearest stick's price is divided to state a worth in money."""

COUNTED, COUNTED_FOR_MONEY = (1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12), (1, 2, 4, 5, 8, 10)
"""Counts of parts in a bay that are tried for a bound; a share of a price must be a decimal that ends."""

PLAIN_SHARES = 60
"""The finest fraction that is said of a stick."""

_SOLVER_NOISE = 1e-6


class WorthMeasure(StrEnum):
    """What a worth is measured in."""

    LENGTH = "length"
    STICKS = "sticks"
    MONEY = "money"


@dataclass(frozen=True, slots=True, kw_only=True)
class StickCertificate:
    """A bound in whole numbers: the worth of each part, in shares, and the most that one stick of each kind holds.

    `share` is what one share stands for in the measure. `cost` is the bound; None where all the stock cannot hold the
    parts.
    """

    measure: WorthMeasure
    share: Fraction
    worths: tuple[int, ...]
    most: tuple[int, ...]
    needed: int
    cost: int | None

    def covers(self, purchase: Purchase) -> bool:
        """Whether these sticks could hold what all parts are worth; an empty purchase stands for any."""
        return not purchase or sum(map(mul, self.most, purchase)) >= self.needed


def certify_by_length(counted: Counted) -> StickCertificate:
    """Bound the cost by length alone: every part is worth what it takes of a stick.

    Source: derived (the fullest bay is a greatest subset sum).
    """
    widest = max(kind.rooms_um[0] for kind in counted.kinds)
    totals = reachable(counted.lengths_um, counts=counted.counts, room_um=widest)
    most = tuple(sum(fullest(totals, room_um=room) for room in kind.rooms_um) for kind in counted.kinds)
    return _certificate(counted, WorthMeasure.LENGTH, Fraction(1, UM_PER_MM), counted.lengths_um, most)


def certify_by_counting(counted: Counted, *, target: int) -> StickCertificate:
    """Bound the cost by how many parts fit: one over 1/(k+1) of a bay counts 1/k, one over twice that 2/k, …

    Args:
        target: a bound that is enough; the search ends there.
    Source: S. P. Fekete and J. Schepers, New classes of fast lower bounds for bin packing problems, Mathematical
        Programming 91 (2001) 11–31, from memory, not re-read.
    """
    best = certify_by_length(counted)
    dearest = max(kind.coins for kind in counted.kinds) * counted.coin if counted.by_money else Fraction(1)
    for kind in counted.kinds:
        for parts in COUNTED_FOR_MONEY if counted.by_money else COUNTED:
            if best.cost is None or best.cost >= target:
                return best
            worths = [(parts + 1) * length // kind.rooms_um[0] for length in counted.lengths_um]
            best = stronger(best, certify_worths(counted, worths=worths, share=dearest / parts))
    return best


def certify_worths(counted: Counted, *, worths: Sequence[int], share: Fraction) -> StickCertificate:
    """Bound the cost by given worths, whatever they are.

    Args:
        worths: of one part of each length, in whole shares, ≥ 0.
        share: what one share stands for: part of a stick, or money where prices differ. Parts of a stick are told so
            that the fullest stick holds 1, where that gives plain fractions.
    Source: derived (linear programming duality; V. Chvátal, Linear Programming, 1983, chapters 5 and 13, from memory,
        not re-read).
    """
    measure = WorthMeasure.MONEY if counted.by_money else WorthMeasure.STICKS
    most = most_worth(counted, worths=worths)
    if measure is WorthMeasure.STICKS and 0 < max(most) <= PLAIN_SHARES:
        share = Fraction(1, max(most))
    return _certificate(counted, measure, share, tuple(worths), most)


def certify_prices(counted: Counted, *, prices: Sequence[float], target: int) -> StickCertificate:
    """Turn a solver's prices into worths that can be told, in the coarsest shares that reach the best bound.

    Args:
        prices: of one part of each length, in the costs of `Kind`, as a solver found them.
        target: a bound that is enough; the search ends there.
    Source: derived.
    """
    best: StickCertificate | None = None
    target = min(target, _within_reach(counted, prices))
    for worths, share in _roundings(counted, prices):
        found = certify_worths(counted, worths=worths, share=share)
        best = found if best is None else stronger(best, found)
        if best.cost is None or best.cost >= target:
            return best
    return best or certify_by_length(counted)


def certify_against(counted: Counted, *, prices: Sequence[float], purchase: Purchase) -> StickCertificate | None:
    """Turn prices by which a purchase cannot hold the parts into worths that show it, in the coarsest shares that do.

    Gives None where none do: a price has to be rounded to be told.

    Args:
        prices: as for `certify_prices`.
    Source: derived.
    """
    found = (certify_worths(counted, worths=worths, share=share) for worths, share in _roundings(counted, prices))
    return next((certificate for certificate in found if not certificate.covers(purchase)), None)


def stronger(first: StickCertificate, second: StickCertificate) -> StickCertificate:
    """The certificate with the higher bound, of equals the first; that the stock is too small is the highest of all.

    Source: derived.
    """
    higher = second.cost is None or (first.cost is not None and second.cost > first.cost)
    return second if higher and first.cost is not None else first


def most_worth(counted: Counted, *, worths: Sequence[int]) -> tuple[int, ...]:
    """Find the most that one stick of each kind can hold, exactly.

    Source: derived (the least room for every worth, by dynamic programming over worths).
    """
    room = max(kind.rooms_um[0] for kind in counted.kinds)
    least = _least_rooms(counted, worths, room)
    best = {room: _last_within(least, room) for kind in counted.kinds for room in kind.rooms_um}
    return tuple(sum(best[room] for room in kind.rooms_um) for kind in counted.kinds)


def _certificate(
    counted: Counted, measure: WorthMeasure, share: Fraction, worths: tuple[int, ...], most: tuple[int, ...]
) -> StickCertificate:
    needed = sum(worth * count for worth, count in zip(worths, counted.counts, strict=True))
    cost = least_cost(counted.kinds, most=most, needed=needed)
    return StickCertificate(measure=measure, share=share, worths=worths, most=most, needed=needed, cost=cost)


def _least_rooms(counted: Counted, worths: Sequence[int], room_um: int) -> list[int]:
    """For each worth the least room that parts of exactly that worth take; more than the room where none do."""
    parts = [
        (worth, length, min(count, room_um // length))
        for worth, length, count in zip(worths, counted.lengths_um, counted.counts, strict=True)
        if worth and length <= room_um
    ]
    dearest = max((Fraction(worth, length) for worth, length, _ in parts), default=Fraction(0))
    top = min(floor(dearest * room_um), sum(worth * count for worth, _, count in parts))
    least = [0] + [room_um + 1] * top
    for worth, length, count in parts:
        for times in doublings(count):
            _admit(least, worth=worth * times, length_um=length * times)
    return least


def _admit(least: list[int], *, worth: int, length_um: int) -> None:
    """Let one more part, or several at once, into every combination so far."""
    if worth < len(least):
        least[worth:] = [
            old if old <= before + length_um else before + length_um
            for old, before in zip(least[worth:], least, strict=False)
        ]


def _last_within(least: Sequence[int], room_um: int) -> int:
    return next(worth for worth in range(len(least) - 1, -1, -1) if least[worth] <= room_um)


def _roundings(counted: Counted, prices: Sequence[float]) -> Iterator[tuple[list[int], Fraction]]:
    """Prices in whole shares, rounded down, the coarsest shares first."""
    for share in _shares_of_money(counted) if counted.by_money else (Fraction(1, n) for n in SHARES_OF_A_STICK):
        cost = float(share / counted.coin * counted.weight if counted.by_money else share)
        yield [max(0, floor(price / cost + _SOLVER_NOISE)) for price in prices], share


def _within_reach(counted: Counted, prices: Sequence[float]) -> int:
    """What the prices could prove if none were rounded: the cheapest purchase that costs what all parts are worth."""
    needed = ceil(sum(price * count for price, count in zip(prices, counted.counts, strict=True)) - _SOLVER_NOISE)
    costs = [kind.cost for kind in counted.kinds]
    return least_cost(counted.kinds, most=costs, needed=needed) or needed


def _shares_of_money(counted: Counted) -> Iterator[Fraction]:
    """Powers of ten of the shop's money that divide the dearest stick neither too coarsely nor too finely."""
    dearest = max(kind.coins for kind in counted.kinds) * counted.coin
    exponent = floor(log10(dearest / FEWEST_SHARES))
    while dearest / Fraction(10) ** exponent <= MOST_SHARES:
        yield Fraction(10) ** exponent
        exponent -= 1
