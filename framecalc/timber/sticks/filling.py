"""Filling given sticks: how they can hold all parts, or prices which show that they cannot.

Given sticks cost nothing and are as many as their limits; what counts is the length of the parts that stay *uncut*.
If even the plan in fractions leaves some uncut, its prices are a proof: as shares, the parts need more than the sticks
can hold. Otherwise a *dive* brings the plan to whole sticks: settle its whole-number part, price the rest with patterns
made for it, and so on; the last few parts are solved in whole numbers. Then groups of sticks are cut again, together
with the parts that are still uncut, until none is left. If this way fails, it proves nothing.
"""

from collections.abc import Iterable, Sequence
from functools import reduce
from math import floor
from operator import add
from random import Random

from framecalc.records import replace
from framecalc.search.solver import Outcome
from framecalc.search.watch import Watch
from framecalc.timber.sticks.bounds import most_shares
from framecalc.timber.sticks.column_lists import Column, PricedColumns, columns_of, full_columns, tight_columns
from framecalc.timber.sticks.columns import Filling, fill_columns, left_by, plan_of_columns, price_columns, stick_prices
from framecalc.timber.sticks.whole_numbers import OpenedStick, Pattern, WholeNumbers

FEW_LEFT = 40
"""So many parts are solved in whole numbers at once."""

ROUNDS, DIVE_ROUNDS = 60, 10
"""Most rounds of new patterns, at first and after each settling; usually it ends much earlier. Measured."""

GROUP, GROUPS = 6, 30
"""Sticks that are cut again together, and how many groups are tried without success."""

EVEN_UM = 2000
"""Added to the waste of each stick before a group is drawn by it, so that full sticks have a chance."""

KEPT_RATIO = 0.8
"""How likely a draw is to settle a whole number instead of passing it over."""

UNCUT_UM = 1.0
"""Up to so much left uncut in the plan in fractions is the solver's noise."""

UNIT_UM = 250
"""The unit of shares that no page shows: finer units take longer. Measured."""

_NOISE = 1e-6

Filled = tuple[tuple[OpenedStick, ...] | None, Outcome]
"""Sticks that hold all parts, if they were found, and how the search for them ended."""


def given_sticks(whole_numbers: WholeNumbers, *, purchase: Sequence[int]) -> WholeNumbers:
    """The same parts, to be cut from the sticks of a purchase.

    Source: derived.
    """
    kinds = zip(whole_numbers.kinds, purchase, strict=True)
    return replace(whole_numbers, kinds=tuple(replace(kind, cost=0, limit=count) for kind, count in kinds))


def price_given(given: WholeNumbers, *, columns: Iterable[Column], watch: Watch) -> PricedColumns:
    """Plan in fractions so that the least length stays uncut.

    Source: derived.
    """
    return price_columns(given, columns=columns, settled={}, rounds=ROUNDS, watch=watch)


def cannot_hold(given: WholeNumbers, *, priced: PricedColumns) -> bool:
    """Whether shares near the prices prove, in whole numbers, that given sticks cannot hold all parts.

    Source: derived.
    """
    if priced.uncut_um <= UNCUT_UM:
        return False
    shares = [max(0, floor(price / UNIT_UM)) for price in priced.part_prices]
    held = sum(most * kind.limit for most, kind in zip(most_shares(given, shares=shares), given.kinds, strict=True))
    return sum(share * count for share, count in zip(shares, given.counts, strict=True)) > held


def prices_in_costs(whole_numbers: WholeNumbers, *, given: WholeNumbers, priced: PricedColumns) -> list[float]:
    """Scale the prices for given sticks so that the kind priced highest, all its sticks together, costs its own cost.

    No part is priced above the dearest stick: a part that fits none of these sticks could have any price.

    Source: derived.
    """
    prices = stick_prices(given, priced=priced)
    kind = max(range(len(prices)), key=lambda kind: given.kinds[kind].limit * prices[kind])
    scale = max(kind.cost for kind in whole_numbers.kinds) / max(priced.part_prices)
    if prices[kind] > _NOISE:
        scale = min(scale, whole_numbers.kinds[kind].cost / prices[kind])
    return [price * scale for price in priced.part_prices]


def decide(given: WholeNumbers, *, most_spare_um: int, watch: Watch) -> Filled:
    """Cut all parts from given sticks, or learn that it cannot be done, where the patterns that may be cut are few.

    No bay may waste more than all of them together have to spare: where that is little, few patterns are left, and the
    solver chooses among all of them. `Outcome.NOTHING` where they are many.

    Args:
        most_spare_um: the room to spare beyond which the sticks are too roomy for it.
    Source: derived.
    """
    spare_um = _spare_um(given)
    listed = tight_columns(given, spare_um=spare_um) if spare_um <= most_spare_um else None
    if listed is None:
        return None, Outcome.NOTHING
    return plan_of_columns(given, columns=listed, settled={}, least=0, below=1, watch=watch)


def fill(
    given: WholeNumbers, *, priced: PricedColumns, watch: Watch, draw: Random | None = None
) -> tuple[OpenedStick, ...] | None:
    """Cut all parts from given sticks; None where no way was found.

    Args:
        priced: the plan in fractions, which leaves nothing uncut.
        draw: makes other choices than the last time; None for the likeliest ones.
    Source: derived (diving with column generation, then large neighbourhood search; the same every time).
    """
    settled, columns = _dive(given, priced, watch, draw)
    own = full_columns(_left(given, settled), spare_um=_spare_um(given))
    every = tuple(dict.fromkeys([*columns, *own]))
    filling = fill_columns(given, columns=every, settled=settled, watch=watch)
    if filling is None:
        filling = fill_columns(given, columns=tuple(settled), settled=settled, watch=watch)
    return None if filling is None else _regroup(given, filling, watch, draw or Random(0))


def _dive(
    given: WholeNumbers, priced: PricedColumns, watch: Watch, draw: Random | None
) -> tuple[dict[Column, int], tuple[Column, ...]]:
    """Settle columns until few parts are left."""
    settled: dict[Column, int] = {}
    _settle(settled, priced, draw)
    while sum(left_by(settled, whole_numbers=given)) > FEW_LEFT and not watch.over:
        priced = price_columns(given, columns=priced.columns, settled=settled, rounds=DIVE_ROUNDS, watch=watch)
        _settle(settled, priced, draw)
    return settled, priced.columns


def _settle(settled: dict[Column, int], priced: PricedColumns, draw: Random | None) -> None:
    """Settle the whole-number part of every column; if nothing is new, the column nearest to its next whole number.

    A draw passes some of the whole numbers over, and takes any of the nearest.
    """
    news = {
        column: floor(times + _NOISE)
        for column, times in zip(priced.columns, priced.times, strict=False)
        if floor(times + _NOISE) > settled.get(column, 0) and (draw is None or draw.random() < KEPT_RATIO)
    }
    if not news and priced.times:
        parts = zip(priced.columns, priced.times, strict=True)
        nearest = max(
            parts, key=lambda each: (each[1] - settled.get(each[0], 0)) * (1 if draw is None else draw.random())
        )
        news = {nearest[0]: settled.get(nearest[0], 0) + 1}
    settled.update(news)


def _left(given: WholeNumbers, settled: dict[Column, int]) -> WholeNumbers:
    """The parts that settled columns leave, and the sticks that they do not fill."""
    taken = [0] * len(given.kinds)
    for column, times in settled.items():
        taken[column.kind] += times
    kinds = tuple(
        replace(kind, limit=max(0, kind.limit - times // len(kind.rooms_um)))
        for kind, times in zip(given.kinds, taken, strict=True)
    )
    return replace(given, counts=tuple(left_by(settled, whole_numbers=given)), kinds=kinds)


def _regroup(given: WholeNumbers, filling: Filling, watch: Watch, choice: Random) -> tuple[OpenedStick, ...] | None:
    """Cut groups of sticks again until no part is uncut."""
    failures = 0
    while any(filling.uncut) and failures < GROUPS and not watch.over:
        anew = _cut_anew(given, filling, choice, watch)
        failures = 0 if given.length_um(anew.uncut) < given.length_um(filling.uncut) else failures + 1
        filling = anew
    return None if any(filling.uncut) else tuple(stick for stick in filling.sticks if any(map(any, stick.patterns)))


def _cut_anew(given: WholeNumbers, filling: Filling, choice: Random, watch: Watch) -> Filling:
    """Put some sticks back, and cut their parts and the uncut ones so that no more stays uncut than before."""
    order = sorted(
        filling.sticks, key=lambda stick: choice.random() * (EVEN_UM + _waste_um(stick, given)), reverse=True
    )
    back, kept = order[:GROUP], tuple(order[GROUP:])
    group = _only(back, filling.uncut, given)
    waste_um = sum(_waste_um(stick, given) for stick in back)
    columns = dict.fromkeys([*full_columns(group, spare_um=waste_um), *columns_of(back, whole_numbers=group)])
    anew = fill_columns(group, columns=tuple(columns), settled={}, watch=watch)
    if anew is None or group.length_um(anew.uncut) > group.length_um(filling.uncut):
        return filling
    return Filling(sticks=(*kept, *anew.sticks), uncut=anew.uncut)


def _only(back: Sequence[OpenedStick], uncut: Pattern, given: WholeNumbers) -> WholeNumbers:
    """These sticks, and the parts that they hold or that are uncut."""
    patterns = [pattern for stick in back for pattern in stick.patterns]
    counts = tuple(reduce(lambda sums, more: tuple(map(add, sums, more)), patterns, uncut))
    kinds = [stick.kind for stick in back]
    return replace(given_sticks(given, purchase=[kinds.count(kind) for kind in range(len(given.kinds))]), counts=counts)


def _waste_um(stick: OpenedStick, given: WholeNumbers) -> int:
    return sum(given.kinds[stick.kind].rooms_um) - sum(map(given.length_um, stick.patterns))


def _spare_um(given: WholeNumbers) -> int:
    """The room that is left when all parts are cut."""
    return sum(kind.limit * sum(kind.rooms_um) for kind in given.kinds) - given.total_um
