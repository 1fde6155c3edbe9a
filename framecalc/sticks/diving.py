"""From fractions to whole sticks: settle what is certain, price again, and cut a few sticks of a plan anew.

A *dive* takes the plan of fractions, settles the whole part of it, prices what is left with patterns made for it, and
so on; the last few parts are solved in whole numbers. *Recutting* puts some sticks of a plan back and dives for their
parts alone. Neither proves anything.
"""

from collections.abc import Sequence
from dataclasses import replace
from math import floor
from random import Random

from framecalc.sticks.columns import (
    Column,
    Priced,
    Settled,
    all_columns,
    columns_of,
    left_by,
    plan_of_columns,
    price_columns,
)
from framecalc.sticks.counted import Counted, Opened, cost_of
from framecalc.sticks.watch import Watch

FEW_LEFT = 30
"""So many parts are solved in whole numbers at once."""

ROUNDS = 3
"""How often patterns are made anew after each settling. Measured: one is much worse, more are little better."""

FINISH_S = 1.0
"""The time for the last few parts [s]."""

RECUTS, RECUT_STICKS = 40, 20
"""Tries at recutting without success before it is given up, and the sticks that are put back in each."""

_NOISE = 1e-6


def dive(counted: Counted, *, columns: Sequence[Column], below: int, watch: Watch) -> tuple[Opened, ...] | None:
    """Bring the plan of fractions to whole sticks; None where nothing cheaper than the plan in hand comes of it.

    Source: derived (diving with column generation).
    """
    settled: dict[Column, int] = {}
    while not watch.over:
        left = left_by(settled, counted=counted)
        if sum(left) <= FEW_LEFT:
            return _finish(counted, columns, settled, left, below, watch)
        priced = price_columns(counted, columns=columns, settled=settled, rounds=ROUNDS, watch=watch)
        columns = priced.columns
        _settle(settled, priced)
    return None


def recut(counted: Counted, opened: tuple[Opened, ...], *, least: int, watch: Watch) -> tuple[Opened, ...]:
    """Cut some sticks of a plan anew, again and again, as long as it gets cheaper.

    Args:
        least: a cost that no plan beats; the search ends there.
    Source: derived (large neighbourhood search; the choice of sticks is the same every time).
    """
    choice, failures = Random(0), 0
    while failures < RECUTS and cost_of(opened, counted=counted) > least and not watch.over:
        better = _recut_some(counted, opened, choice, watch)
        failures = 0 if cost_of(better, counted=counted) < cost_of(opened, counted=counted) else failures + 1
        opened = better
    return opened


def _settle(settled: dict[Column, int], priced: Priced) -> None:
    """Settle the whole part of every column; where that is nothing new, the column nearest to its next whole time."""
    news = {
        column: floor(times + _NOISE)
        for column, times in zip(priced.columns, priced.times, strict=False)
        if floor(times + _NOISE) > settled.get(column, 0)
    }
    if not news and priced.times:
        parts = zip(priced.columns, priced.times, strict=True)
        nearest = max(parts, key=lambda each: each[1] - settled.get(each[0], 0))[0]
        news = {nearest: settled.get(nearest, 0) + 1}
    settled.update(news)


def _finish(
    counted: Counted, columns: Sequence[Column], settled: Settled, left: Sequence[int], below: int, watch: Watch
) -> tuple[Opened, ...] | None:
    """Solve the last few parts in whole numbers, over all their patterns where these are few."""
    own = all_columns(replace(counted, counts=tuple(left))) or ()
    every = tuple(dict.fromkeys([*columns, *own]))
    opened, _ = plan_of_columns(
        counted, columns=every, settled=settled, least=0, below=below, watch=watch.at_most(FINISH_S)
    )
    return opened


def _recut_some(counted: Counted, opened: tuple[Opened, ...], choice: Random, watch: Watch) -> tuple[Opened, ...]:
    """Put some sticks back, those with the most waste more often, and dive for their parts."""
    order = sorted(opened, key=lambda stick: choice.random() * _waste_um(stick, counted), reverse=True)
    back, kept = tuple(order[:RECUT_STICKS]), tuple(order[RECUT_STICKS:])
    smaller = _only(back, kept, counted)
    cost = cost_of(back, counted=counted)
    anew = dive(smaller, columns=columns_of(back, counted=smaller), below=cost + 1, watch=watch)
    return opened if anew is None else (*kept, *anew)


def _waste_um(stick: Opened, counted: Counted) -> int:
    filled = sum(counted.length_um(pattern) for pattern in stick.patterns)
    return sum(counted.kinds[stick.kind].rooms_um) - filled


def _only(back: Sequence[Opened], kept: Sequence[Opened], counted: Counted) -> Counted:
    """The problem of the sticks put back: their parts, and the stock that those kept leave."""
    counts = [sum(times) for times in zip(*(pattern for stick in back for pattern in stick.patterns), strict=True)]
    taken = [stick.kind for stick in kept]
    kinds = tuple(replace(kind, limit=kind.limit - taken.count(index)) for index, kind in enumerate(counted.kinds))
    return replace(counted, counts=tuple(counts), kinds=kinds)
