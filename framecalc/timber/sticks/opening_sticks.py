"""Opening sticks: packing the parts into a given purchase, or opening one good stick after another.

No search here proves anything; it only finds plans, quickly. How good they are, the bounds say.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from framecalc.timber.sticks.packing import fill_snugly, without
from framecalc.timber.sticks.purchases import Purchase
from framecalc.timber.sticks.whole_numbers import Counted, OpenedStick, Pattern, StickKind

LOOKED_AT, SNUG_STEPS = 4, 400
"""Kinds of stick that are filled for comparison before one is opened, and steps spent on each bay."""


def rooms_of(purchase: Purchase, *, counted: Counted) -> tuple[int, ...]:
    """List the rooms of all bays that a purchase opens, stick by stick.

    Source: derived.
    """
    return tuple(
        room
        for kind, count in zip(counted.kinds, purchase, strict=True)
        for _ in range(count)
        for room in kind.rooms_um
    )


def open_purchase(purchase: Purchase, *, packed: Sequence[Pattern], counted: Counted) -> tuple[OpenedStick, ...]:
    """Give the patterns of a packed purchase back to its sticks, in the order of `rooms_of`; empty sticks are left out.

    Source: derived.
    """
    opened, start = [], 0
    for index, count in enumerate(purchase):
        size = len(counted.kinds[index].rooms_um)
        for _ in range(count):
            opened.append(OpenedStick(kind=index, patterns=tuple(packed[start : start + size])))
            start += size
    return tuple(stick for stick in opened if any(map(any, stick.patterns)))


def purchase_of(opened: Iterable[OpenedStick], *, counted: Counted) -> Purchase:
    """Count the sticks of each kind in a plan.

    Source: derived.
    """
    taken = [stick.kind for stick in opened]
    return tuple(taken.count(kind) for kind in range(len(counted.kinds)))


def open_greedily(counted: Counted) -> tuple[OpenedStick, ...] | None:
    """Open the stick with the least cost for what it holds, until no part is left; None where stock runs out.

    Source: derived.
    """
    left, opened = list(counted.counts), []
    there = [kind.limit for kind in counted.kinds]
    order = sorted(range(len(there)), key=lambda index: _cost_per_room(counted.kinds[index]))
    while any(left):
        shortest = min(length for length, there_are in zip(counted.lengths_um, left, strict=True) if there_are)
        useful = [kind for kind in order if there[kind] and counted.kinds[kind].rooms_um[0] >= shortest]
        if not useful:
            return None
        tried = [_fill(kind, left, counted) for kind in useful[:LOOKED_AT]]
        best = min(tried, key=lambda stick: _cost_per_length(stick, counted))
        opened.append(best)
        there[best.kind] -= 1
        for pattern in best.patterns:
            left = without(left, pattern)
    return _trade_down(opened, counted)


def _cost_per_room(kind: StickKind) -> float:
    return kind.cost / sum(kind.rooms_um)


def _cost_per_length(stick: OpenedStick, counted: Counted) -> tuple[float, int]:
    filled = sum(counted.length_um(pattern) for pattern in stick.patterns)
    return counted.kinds[stick.kind].cost / filled, -filled


def _fill(index: int, left: Sequence[int], counted: Counted) -> OpenedStick:
    patterns: list[Pattern] = []
    for room in counted.kinds[index].rooms_um:
        pattern = fill_snugly(counted.lengths_um, left=left, room_um=room, with_longest=True, steps=SNUG_STEPS)
        patterns.append(pattern)
        left = without(left, pattern)
    return OpenedStick(kind=index, patterns=tuple(patterns))


def _trade_down(opened: Sequence[OpenedStick], counted: Counted) -> tuple[OpenedStick, ...]:
    """Swap each stick for a cheaper one that holds the same, where there is one left."""
    there = [kind.limit for kind in counted.kinds]
    for stick in opened:
        there[stick.kind] -= 1
    traded = []
    for stick in opened:
        there[stick.kind] += 1
        cheapest = next(kind for kind in _cheaper_first(stick, counted) if there[kind])
        there[cheapest] -= 1
        traded.append(_moved(stick, cheapest, counted) if cheapest != stick.kind else stick)
    return tuple(traded)


def _cheaper_first(stick: OpenedStick, counted: Counted) -> list[int]:
    """The kinds that hold what this stick holds and cost no more, the stick's own kind among them."""
    own = counted.kinds[stick.kind].cost
    fitting = [
        index
        for index, kind in enumerate(counted.kinds)
        if kind.cost < own and _fits(_lengths(stick, counted), kind.rooms_um)
    ]
    return [*sorted(fitting, key=lambda index: counted.kinds[index].cost), stick.kind]


def _lengths(stick: OpenedStick, counted: Counted) -> list[int]:
    return sorted((counted.length_um(pattern) for pattern in stick.patterns), reverse=True)


def _fits(lengths_um: Sequence[int], rooms_um: Sequence[int]) -> bool:
    full = [length for length in lengths_um if length]
    return len(full) <= len(rooms_um) and all(length <= room for length, room in zip(full, rooms_um, strict=False))


def _moved(stick: OpenedStick, kind: int, counted: Counted) -> OpenedStick:
    """The same patterns, the longest into the widest bay of another kind."""
    size = len(counted.kinds[kind].rooms_um)
    ordered = sorted(stick.patterns, key=counted.length_um, reverse=True)
    empty: Pattern = (0,) * len(counted.counts)
    return replace(stick, kind=kind, patterns=tuple([*ordered, *[empty] * size][:size]))
