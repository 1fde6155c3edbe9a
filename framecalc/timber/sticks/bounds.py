"""Valid bounds: a share for each part, the most that any stick can hold, the cheapest purchase that covers all parts.

Any shares give a valid bound. Good ones come from the dual prices of a linear program, rounded down to *units* that
can be written. The solver is not trusted: the most that a stick can hold, and the cheapest purchase, are found here in
whole numbers.
"""

from collections.abc import Iterator, Sequence
from enum import StrEnum
from fractions import Fraction
from math import ceil, floor, log10
from operator import mul

from framecalc.records import Record
from framecalc.timber.sticks.packing import doublings, fullest, reachable
from framecalc.timber.sticks.purchases import Purchase, least_cost
from framecalc.timber.sticks.whole_numbers import UM_PER_MM, WholeNumbers

UNITS_OF_A_STICK = (1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 24, 30, 36, 48, 60, 100, 1000, 10_000)
"""Numbers of units into which a stick may be divided to state a share: fractions first, then decimals. Ours."""

FEWEST_UNITS, MOST_UNITS = 20, 40_000
"""Numbers of units into which the dearest stick's price is divided to state a share in money, at least and at most.
Ours."""

PARTS, PARTS_FOR_MONEY = (1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12), (1, 2, 4, 5, 8, 10)
"""Counts of parts in a bay that are tried for a bound, ours; a part of a price must be a decimal that ends."""

PLAIN_UNITS = 60
"""The finest fraction of a stick that is written. Ours."""

_SOLVER_NOISE = 1e-6


class ShareMeasure(StrEnum):
    """What a share is measured in."""

    LENGTH = "length"
    STICKS = "sticks"
    MONEY = "money"


class StickCertificate(Record):
    """A bound in whole numbers: the share of each part, in units, and the most units that one stick of each kind holds.

    `unit` is the amount of one unit in the measure. `cost` is the bound; None if all the stock cannot hold the parts.
    """

    measure: ShareMeasure
    unit: Fraction
    shares: tuple[int, ...]
    most: tuple[int, ...]
    needed: int
    cost: int | None

    def covers(self, purchase: Purchase) -> bool:
        """Whether these sticks could hold the shares of all parts; an empty purchase stands for any."""
        return not purchase or sum(map(mul, self.most, purchase)) >= self.needed


def certify_by_length(whole_numbers: WholeNumbers) -> StickCertificate:
    """Bound the cost by length alone: the share of a part is the length that it takes.

    Source: derived (the fullest bay is a greatest subset sum).
    """
    widest = max(kind.rooms_um[0] for kind in whole_numbers.kinds)
    totals = reachable(whole_numbers.lengths_um, counts=whole_numbers.counts, room_um=widest)
    most = tuple(sum(fullest(totals, room_um=room) for room in kind.rooms_um) for kind in whole_numbers.kinds)
    return _certificate(whole_numbers, ShareMeasure.LENGTH, Fraction(1, UM_PER_MM), whole_numbers.lengths_um, most)


def certify_by_counting(whole_numbers: WholeNumbers, *, target: int) -> StickCertificate:
    """Bound the cost by how many parts fit: one over 1/(k+1) of a bay counts 1/k, one over twice that 2/k, …

    Args:
        target: a bound that is enough; the search ends there.
    Source: S. P. Fekete and J. Schepers, New classes of fast lower bounds for bin packing problems, Mathematical
        Programming 91 (2001) 11–31, from memory, not re-read.
    """
    best = certify_by_length(whole_numbers)
    dearest = (
        max(kind.coins for kind in whole_numbers.kinds) * whole_numbers.coin if whole_numbers.by_money else Fraction(1)
    )
    for kind in whole_numbers.kinds:
        for parts in PARTS_FOR_MONEY if whole_numbers.by_money else PARTS:
            if best.cost is None or best.cost >= target:
                return best
            shares = [(parts + 1) * length // kind.rooms_um[0] for length in whole_numbers.lengths_um]
            best = stronger(best, certify_shares(whole_numbers, shares=shares, unit=dearest / parts))
    return best


def certify_shares(whole_numbers: WholeNumbers, *, shares: Sequence[int], unit: Fraction) -> StickCertificate:
    """Bound the cost by any given shares.

    Args:
        shares: of one part of each length, in whole units, ≥ 0.
        unit: the amount of one unit: part of a stick, or money where prices differ. Parts of a stick are written so
            that the fullest stick holds 1, where that gives plain fractions.
    Source: derived (linear programming duality; V. Chvátal, Linear Programming, 1983, chapters 5 and 13, from memory,
        not re-read).
    """
    measure = ShareMeasure.MONEY if whole_numbers.by_money else ShareMeasure.STICKS
    most = most_shares(whole_numbers, shares=shares)
    if measure is ShareMeasure.STICKS and 0 < max(most) <= PLAIN_UNITS:
        unit = Fraction(1, max(most))
    return _certificate(whole_numbers, measure, unit, tuple(shares), most)


def certify_prices(whole_numbers: WholeNumbers, *, prices: Sequence[float], target: int) -> StickCertificate:
    """Turn a solver's prices into shares, in the coarsest units that reach the best bound.

    Args:
        prices: of one part of each length, in the costs of `Kind`, as a solver found them.
        target: a bound that is enough; the search ends there.
    Source: derived.
    """
    best: StickCertificate | None = None
    target = min(target, _within_reach(whole_numbers, prices))
    for shares, unit in _roundings(whole_numbers, prices):
        found = certify_shares(whole_numbers, shares=shares, unit=unit)
        best = found if best is None else stronger(best, found)
        if best.cost is None or best.cost >= target:
            return best
    return best or certify_by_length(whole_numbers)


def certify_against(
    whole_numbers: WholeNumbers, *, prices: Sequence[float], purchase: Purchase
) -> StickCertificate | None:
    """Turn prices by which a purchase cannot hold the parts into shares that prove it, in the coarsest units that do.

    None where no unit does: prices are rounded, and rounding can lose the proof.

    Args:
        prices: as for `certify_prices`.
    Source: derived.
    """
    found = (
        certify_shares(whole_numbers, shares=shares, unit=unit) for shares, unit in _roundings(whole_numbers, prices)
    )
    return next((certificate for certificate in found if not certificate.covers(purchase)), None)


def stronger(first: StickCertificate, second: StickCertificate) -> StickCertificate:
    """The certificate with the higher bound, of equals the first; that the stock is too small is the highest of all.

    Source: derived.
    """
    higher = second.cost is None or (first.cost is not None and second.cost > first.cost)
    return second if higher and first.cost is not None else first


def most_shares(whole_numbers: WholeNumbers, *, shares: Sequence[int]) -> tuple[int, ...]:
    """Find the most that one stick of each kind can hold, exactly.

    Source: derived (the least room for every sum of shares, by dynamic programming).
    """
    room = max(kind.rooms_um[0] for kind in whole_numbers.kinds)
    least = _least_rooms(whole_numbers, shares, room)
    best = {room: _last_within(least, room) for kind in whole_numbers.kinds for room in kind.rooms_um}
    return tuple(sum(best[room] for room in kind.rooms_um) for kind in whole_numbers.kinds)


def _certificate(
    whole_numbers: WholeNumbers, measure: ShareMeasure, unit: Fraction, shares: tuple[int, ...], most: tuple[int, ...]
) -> StickCertificate:
    needed = sum(share * count for share, count in zip(shares, whole_numbers.counts, strict=True))
    cost = least_cost(whole_numbers.kinds, most=most, needed=needed)
    return StickCertificate(measure=measure, unit=unit, shares=shares, most=most, needed=needed, cost=cost)


def _least_rooms(whole_numbers: WholeNumbers, shares: Sequence[int], room_um: int) -> list[int]:
    """For each sum of shares the least room that parts of exactly that sum take; more than the room where none do."""
    parts = [
        (share, length, min(count, room_um // length))
        for share, length, count in zip(shares, whole_numbers.lengths_um, whole_numbers.counts, strict=True)
        if share and length <= room_um
    ]
    dearest = max((Fraction(share, length) for share, length, _ in parts), default=Fraction(0))
    top = min(floor(dearest * room_um), sum(share * count for share, _, count in parts))
    least = [0] + [room_um + 1] * top
    for share, length, count in parts:
        for times in doublings(count):
            _admit(least, share=share * times, length_um=length * times)
    return least


def _admit(least: list[int], *, share: int, length_um: int) -> None:
    """Let one more part, or several at once, into every combination so far."""
    least[share:] = [
        old if old <= before + length_um else before + length_um
        for old, before in zip(least[share:], least, strict=False)
    ]


def _last_within(least: Sequence[int], room_um: int) -> int:
    return next(share for share in range(len(least) - 1, -1, -1) if least[share] <= room_um)


def _roundings(whole_numbers: WholeNumbers, prices: Sequence[float]) -> Iterator[tuple[list[int], Fraction]]:
    """Prices in whole units, rounded down, the coarsest units first."""
    for unit in (
        _units_of_money(whole_numbers) if whole_numbers.by_money else (Fraction(1, n) for n in UNITS_OF_A_STICK)
    ):
        cost = float(unit / whole_numbers.coin * whole_numbers.weight if whole_numbers.by_money else unit)
        yield [max(0, floor(price / cost + _SOLVER_NOISE)) for price in prices], unit


def _within_reach(whole_numbers: WholeNumbers, prices: Sequence[float]) -> int:
    """The bound that the prices prove before rounding: the cheapest purchase that costs what all parts cost."""
    needed = ceil(sum(price * count for price, count in zip(prices, whole_numbers.counts, strict=True)) - _SOLVER_NOISE)
    costs = [kind.cost for kind in whole_numbers.kinds]
    return least_cost(whole_numbers.kinds, most=costs, needed=needed) or needed


def _units_of_money(whole_numbers: WholeNumbers) -> Iterator[Fraction]:
    """Powers of ten of the shop's money that divide the dearest stick neither too coarsely nor too finely."""
    dearest = max(kind.coins for kind in whole_numbers.kinds) * whole_numbers.coin
    exponent = floor(log10(dearest / FEWEST_UNITS))
    while dearest / Fraction(10) ** exponent <= MOST_UNITS:
        yield Fraction(10) ** exponent
        exponent -= 1
