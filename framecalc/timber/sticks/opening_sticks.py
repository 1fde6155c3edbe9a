"""Opening sticks: packing the parts into a given purchase, or opening one good stick after another.

No search here proves anything; it only finds plans, quickly. How good they are, the bounds say.
"""

from collections.abc import Iterable, Sequence

from framecalc.records import replace
from framecalc.timber.sticks.packing import fill_snugly, without
from framecalc.timber.sticks.purchases import Purchase
from framecalc.timber.sticks.whole_numbers import OpenedStick, Pattern, StickKind, WholeNumbers

LOOKED_AT, SNUG_STEPS = 4, 400
"""Kinds of stick that are filled for comparison before one is opened, and steps spent on each bay."""


def rooms_of(purchase: Purchase, *, whole_numbers: WholeNumbers) -> tuple[int, ...]:
    """List the rooms of all bays that a purchase opens, stick by stick.

    Source: derived.
    """
    return tuple(
        room
        for kind, count in zip(whole_numbers.kinds, purchase, strict=True)
        for _ in range(count)
        for room in kind.rooms_um
    )


def open_purchase(
    purchase: Purchase, *, packed: Sequence[Pattern], whole_numbers: WholeNumbers
) -> tuple[OpenedStick, ...]:
    """Give the patterns of a packed purchase back to its sticks, in the order of `rooms_of`; empty sticks are left out.

    Source: derived.
    """
    opened, start = [], 0
    for index, count in enumerate(purchase):
        size = len(whole_numbers.kinds[index].rooms_um)
        for _ in range(count):
            opened.append(OpenedStick(kind=index, patterns=tuple(packed[start : start + size])))
            start += size
    return tuple(stick for stick in opened if any(map(any, stick.patterns)))


def purchase_of(opened: Iterable[OpenedStick], *, whole_numbers: WholeNumbers) -> Purchase:
    """Count the sticks of each kind in a plan.

    Source: derived.
    """
    taken = [stick.kind for stick in opened]
    return tuple(taken.count(kind) for kind in range(len(whole_numbers.kinds)))


def open_greedily(whole_numbers: WholeNumbers) -> tuple[OpenedStick, ...] | None:
    """Open the stick with the least cost for what it holds, until no part is left; None where stock runs out.

    Source: derived.
    """
    left, opened = list(whole_numbers.counts), []
    there = [kind.limit for kind in whole_numbers.kinds]
    order = sorted(range(len(there)), key=lambda index: _cost_per_room(whole_numbers.kinds[index]))
    while any(left):
        shortest = min(length for length, there_are in zip(whole_numbers.lengths_um, left, strict=True) if there_are)
        useful = [kind for kind in order if there[kind] and whole_numbers.kinds[kind].rooms_um[0] >= shortest]
        if not useful:
            return None
        tried = [_fill(kind, left, whole_numbers) for kind in useful[:LOOKED_AT]]
        best = min(tried, key=lambda stick: _cost_per_length(stick, whole_numbers))
        opened.append(best)
        there[best.kind] -= 1
        for pattern in best.patterns:
            left = without(left, pattern)
    return _trade_down(opened, whole_numbers)


def _cost_per_room(kind: StickKind) -> float:
    return kind.cost / sum(kind.rooms_um)


def _cost_per_length(stick: OpenedStick, whole_numbers: WholeNumbers) -> tuple[float, int]:
    filled = sum(whole_numbers.length_um(pattern) for pattern in stick.patterns)
    return whole_numbers.kinds[stick.kind].cost / filled, -filled


def _fill(index: int, left: Sequence[int], whole_numbers: WholeNumbers) -> OpenedStick:
    patterns: list[Pattern] = []
    for room in whole_numbers.kinds[index].rooms_um:
        pattern = fill_snugly(whole_numbers.lengths_um, left=left, room_um=room, with_longest=True, steps=SNUG_STEPS)
        patterns.append(pattern)
        left = without(left, pattern)
    return OpenedStick(kind=index, patterns=tuple(patterns))


def _trade_down(opened: Sequence[OpenedStick], whole_numbers: WholeNumbers) -> tuple[OpenedStick, ...]:
    """Swap each stick for a cheaper one that holds the same, where there is one left."""
    there = [kind.limit for kind in whole_numbers.kinds]
    for stick in opened:
        there[stick.kind] -= 1
    traded = []
    for stick in opened:
        there[stick.kind] += 1
        cheapest = next(kind for kind in _cheaper_first(stick, whole_numbers) if there[kind])
        there[cheapest] -= 1
        traded.append(_moved(stick, cheapest, whole_numbers) if cheapest != stick.kind else stick)
    return tuple(traded)


def _cheaper_first(stick: OpenedStick, whole_numbers: WholeNumbers) -> list[int]:
    """The kinds that hold what this stick holds and cost no more, the stick's own kind among them."""
    own = whole_numbers.kinds[stick.kind].cost
    fitting = [
        index
        for index, kind in enumerate(whole_numbers.kinds)
        if kind.cost < own and _fits(_lengths(stick, whole_numbers), kind.rooms_um)
    ]
    return [*sorted(fitting, key=lambda index: whole_numbers.kinds[index].cost), stick.kind]


def _lengths(stick: OpenedStick, whole_numbers: WholeNumbers) -> list[int]:
    return sorted((whole_numbers.length_um(pattern) for pattern in stick.patterns), reverse=True)


def _fits(lengths_um: Sequence[int], rooms_um: Sequence[int]) -> bool:
    full = [length for length in lengths_um if length]
    return len(full) <= len(rooms_um) and all(length <= room for length, room in zip(full, rooms_um, strict=False))


def _moved(stick: OpenedStick, kind: int, whole_numbers: WholeNumbers) -> OpenedStick:
    """The same patterns, the longest into the widest bay of another kind."""
    size = len(whole_numbers.kinds[kind].rooms_um)
    ordered = sorted(stick.patterns, key=whole_numbers.length_um, reverse=True)
    empty: Pattern = (0,) * len(whole_numbers.counts)
    return replace(stick, kind=kind, patterns=tuple([*ordered, *[empty] * size][:size]))
