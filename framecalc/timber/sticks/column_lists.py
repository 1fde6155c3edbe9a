"""Columns: patterns cut in the bays of the sticks, all of them or those that a plan may hold, as lists."""

from collections.abc import Iterable

from framecalc.records import Record
from framecalc.timber.sticks.patterns import MOST_PATTERNS, all_patterns
from framecalc.timber.sticks.whole_numbers import OpenedStick, Pattern, WholeNumbers

FULL_PATTERNS, SPARE_STEP = 500, 8
"""Patterns of one bay that waste little, and how the waste is narrowed down where they are more. Measured."""

TIGHT_STEPS = 600_000
"""Steps spent on listing the patterns of one bay that waste little. Measured: one second for 170 lengths."""


class Column(Record):
    """A pattern cut in one bay of one kind of stick."""

    kind: int
    bay: int
    pattern: Pattern


class PricedColumns(Record):
    """Columns, how often each is cut in the cheapest plan in fractions, and the prices of parts and bays.

    `uncut_um` is the length of the parts that this plan leaves uncut. Times and prices are empty if time ran out.
    """

    columns: tuple[Column, ...]
    times: tuple[float, ...] = ()
    part_prices: tuple[float, ...] = ()
    bay_prices: tuple[float, ...] = ()
    uncut_um: float = 0.0


def all_columns(
    whole_numbers: WholeNumbers, *, priced: PricedColumns | None = None, gap: float = 0.0
) -> tuple[Column, ...] | None:
    """List every maximal pattern of every bay; None where they are too many.

    With prices: only those that a plan may hold that costs at most `gap` more than the plan in fractions.

    Source: derived (a column whose parts cost less than its bay makes the plan dearer by at least the difference).
    """
    listed: list[Column] = []
    for number, (kind, bay, room) in enumerate(bays_of(whole_numbers)):
        prices, at_least = (priced.part_prices, priced.bay_prices[number] - gap) if priced else ((), 0.0)
        patterns = all_patterns(whole_numbers, room_um=room, prices=prices, at_least=at_least)
        if patterns is None or len(listed) + len(patterns) > MOST_PATTERNS:
            return None
        listed.extend(Column(kind=kind, bay=bay, pattern=pattern) for pattern in patterns)
    return tuple(listed)


def full_columns(whole_numbers: WholeNumbers, *, spare_um: int) -> tuple[Column, ...]:
    """List, for every bay, the patterns that waste the least room, as many as are listed in good time.

    Args:
        spare_um: the most that may be wasted in one bay.
    Source: derived.
    """
    listed: list[Column] = []
    for kind, bay, room in bays_of(whole_numbers):
        patterns = _full_patterns(whole_numbers, room, spare_um) if whole_numbers.kinds[kind].limit else []
        listed.extend(Column(kind=kind, bay=bay, pattern=pattern) for pattern in patterns)
    return tuple(listed)


def tight_columns(given: WholeNumbers, *, spare_um: int) -> tuple[Column, ...] | None:
    """List, for every bay of given sticks, all patterns that waste no more than there is to spare; None where many.

    Source: derived.
    """
    listed: list[Column] = []
    for kind, bay, room in bays_of(given):
        if not given.kinds[kind].limit:
            continue
        patterns = all_patterns(
            given, room_um=room, prices=given.lengths_um, at_least=room - spare_um, steps=TIGHT_STEPS
        )
        if patterns is None or len(listed) + len(patterns) > MOST_PATTERNS:
            return None
        listed.extend(Column(kind=kind, bay=bay, pattern=pattern) for pattern in patterns)
    return tuple(listed)


def columns_of(opened: Iterable[OpenedStick], *, whole_numbers: WholeNumbers) -> tuple[Column, ...]:
    """Take the patterns of a plan as columns, each once.

    Source: derived.
    """
    found: dict[Column, None] = {}
    for stick in opened:
        bays = [index for index, bay in enumerate(whole_numbers.kinds[stick.kind].bays) for _ in range(bay.count)]
        for bay, pattern in zip(bays, stick.patterns, strict=True):
            if any(pattern):
                found[Column(kind=stick.kind, bay=bay, pattern=pattern)] = None
    return tuple(found)


def bays_of(whole_numbers: WholeNumbers) -> list[tuple[int, int, int]]:
    """Kind, bay and room of every bay, in the order of the bays' rows.

    Source: derived.
    """
    return [
        (index, number, bay.room_um)
        for index, kind in enumerate(whole_numbers.kinds)
        for number, bay in enumerate(kind.bays)
    ]


def plain_columns(whole_numbers: WholeNumbers) -> Iterable[Column]:
    """One pattern for each part and bay: as many of that part as fit.

    Source: derived.
    """
    for kind, bay, room in bays_of(whole_numbers):
        for part, (length, count) in enumerate(zip(whole_numbers.lengths_um, whole_numbers.counts, strict=True)):
            times = min(count, room // length)
            if times:
                pattern = tuple(times if index == part else 0 for index in range(len(whole_numbers.counts)))
                yield Column(kind=kind, bay=bay, pattern=pattern)


def _full_patterns(whole_numbers: WholeNumbers, room_um: int, spare_um: int) -> list[Pattern]:
    """The patterns that waste at most so much of a bay, or half of it, a quarter, … until they are few."""
    while True:
        at_least = room_um - spare_um
        patterns = all_patterns(
            whole_numbers, room_um=room_um, prices=whole_numbers.lengths_um, at_least=at_least, most=FULL_PATTERNS
        )
        if patterns is not None or not spare_um:
            return patterns or []
        spare_um //= SPARE_STEP
