"""Packing parts into bays: how full a bay can be, snug packing by rules of thumb, and an exact search for small jobs.

All lengths are whole micrometres. Of parts of one length only the count matters; the longest come first.
"""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import accumulate
from operator import add

from framecalc.records import Mutable, field
from framecalc.timber.sticks.whole_numbers import Pattern

SNUG_STEPS, STEPS_A_TRY = 1000, 60_000
"""Steps spent on filling one bay before its best filling so far is taken, and on all bays of one try."""

SPARED = 2
"""A bay may stay unfilled by its share of what may stay unfilled in all, divided by this. Ours."""

DEEPEST = 250
"""Parts in one bay that are searched for; where more fit, the longest go in ahead. Ours."""

EXACT_STEPS = 40_000
"""Steps after which the exact search gives up."""


class GaveUp(Exception):
    """The exact search ran out of steps: whether the parts fit is not known."""


def reachable(lengths_um: Sequence[int], *, counts: Sequence[int], room_um: int) -> int:
    """Find every total length that parts can make, as the bits of one number: bit s is set when some parts make s.

    Source: derived (subset sums; a part that is there n times enters as 1, 2, 4, … and the rest of it).

    >>> bin(reachable([5, 3], counts=[1, 2], room_um=10))
    '0b101101001'
    """
    within = (1 << (room_um + 1)) - 1
    totals = 1
    for length, count in zip(lengths_um, counts, strict=True):
        for times in doublings(min(count, room_um // length)):
            totals |= (totals << (length * times)) & within
    return totals


def fullest(totals: int, *, room_um: int) -> int:
    """Find the greatest total length in a bay, from what `reachable` found.

    Source: derived.

    >>> fullest(0b101101001, room_um=7)
    6
    """
    return (totals & ((1 << (room_um + 1)) - 1)).bit_length() - 1


def fill_snugly(
    lengths_um: Sequence[int],
    *,
    left: Sequence[int],
    room_um: int,
    spare_um: int = 0,
    with_longest: bool = False,
    steps: int = SNUG_STEPS,
) -> Pattern:
    """Fill one bay from the parts that are left, as full as a short search finds.

    Args:
        spare_um: an unfilled rest that is good enough to stop at.
        with_longest: the longest part left that fits goes in first.
        steps: how long the search may be.
    Source: derived (a depth-first search, longest parts first).

    >>> fill_snugly([60, 50, 30, 20], left=[1, 1, 1, 1], room_um=100)
    (0, 1, 1, 1)
    """
    ahead = _taken_ahead(lengths_um, left, room_um)
    room_um -= sum(length * times for length, times in zip(lengths_um, ahead, strict=True))
    search = _Snug(
        lengths_um=lengths_um,
        left=without(left, ahead),
        spare_um=spare_um,
        best=[0] * len(left),
        best_um=room_um,
        steps=steps,
    )
    first = _first_that_fits(lengths_um, search.left, room_um) if with_longest else None
    if first is not None:
        search.left[first] -= 1
        search.best_um = room_um - lengths_um[first]
        search.run(search.best_um)
        search.best[first] += 1
    else:
        search.run(room_um)
    return tuple(map(add, search.best, ahead))


def pack_snugly(
    lengths_um: Sequence[int], *, counts: Sequence[int], rooms_um: Sequence[int]
) -> tuple[Pattern, ...] | None:
    """Pack all parts into given bays by filling one after the other; None where no try succeeds.

    Four tries: narrow bays first or wide ones, each with the longest part forced in or free.

    Source: derived (minimum bin slack, with and without the longest part fixed).

    >>> pack_snugly([60, 50, 30, 20], counts=[1, 1, 1, 2], rooms_um=[100, 80])
    ((0, 1, 1, 1), (1, 0, 0, 1))
    """
    spare_um = sum(rooms_um) - sum(length * count for length, count in zip(lengths_um, counts, strict=True))
    if spare_um < 0:
        return None
    for reverse in (False, True):
        order = sorted(range(len(rooms_um)), key=lambda bay: rooms_um[bay], reverse=reverse)
        for with_longest in (True, False):
            packed = _fill_in_turn(lengths_um, counts, rooms_um, order, spare_um, with_longest)
            if packed is not None:
                return packed
    return None


def pack_exactly(
    lengths_um: Sequence[int], *, counts: Sequence[int], rooms_um: Sequence[int], steps: int = EXACT_STEPS
) -> tuple[Pattern, ...] | None:
    """Pack all parts into given bays, or find that it cannot be done (None).

    Raises:
        GaveUp: too many ways to try.
    Source: derived (depth-first over the parts, the longest first; bays with equal room left are tried once).

    >>> pack_exactly([60, 50, 30, 20], counts=[1, 1, 1, 2], rooms_um=[95, 85]) is None
    True
    >>> pack_exactly([60, 50, 30, 20], counts=[1, 1, 1, 2], rooms_um=[90, 90])
    ((1, 0, 1, 0), (0, 1, 0, 2))
    """
    parts = [kind for kind, count in enumerate(counts) for _ in range(count)]
    search = _Exact(lengths_um=lengths_um, parts=parts, rooms=list(rooms_um), places=[0] * len(parts), steps=steps)
    search.missing = sum(lengths_um[kind] for kind in parts)
    if not search.place(0):
        return None
    patterns = [[0] * len(lengths_um) for _ in rooms_um]
    for kind, bay in zip(parts, search.places, strict=True):
        patterns[bay][kind] += 1
    return tuple(tuple(pattern) for pattern in patterns)


def without(left: Sequence[int], pattern: Pattern) -> list[int]:
    """The parts left when a pattern has been cut.

    Source: derived.

    >>> without([2, 3], (1, 0))
    [1, 3]
    """
    return [there - taken for there, taken in zip(left, pattern, strict=True)]


def doublings(count: int) -> Iterator[int]:
    """Break a count into numbers of which every smaller count is a sum: 6 into 1, 2, 3. Source: derived."""
    times = 1
    while count > 0:
        yield min(times, count)
        count -= times
        times *= 2


def _taken_ahead(lengths_um: Sequence[int], left: Sequence[int], room_um: int) -> Pattern:
    """The longest parts, as many as leave room for no more than are searched for."""
    shortest = min((length for length, there in zip(lengths_um, left, strict=True) if there), default=room_um)
    over_um, ahead = room_um - DEEPEST * shortest, []
    for length, there in zip(lengths_um, left, strict=True):
        times = min(there, max(0, over_um) // length)
        ahead.append(times)
        over_um -= times * length
    return tuple(ahead)


def _first_that_fits(lengths_um: Sequence[int], left: Sequence[int], room_um: int) -> int | None:
    fitting = (kind for kind, length in enumerate(lengths_um) if left[kind] and length <= room_um)
    return next(fitting, None)


def _fill_in_turn(
    lengths_um: Sequence[int],
    counts: Sequence[int],
    rooms_um: Sequence[int],
    order: Sequence[int],
    spare_um: int,
    with_longest: bool,
) -> tuple[Pattern, ...] | None:
    """Fill the bays in this order, each to within its share of what may stay unfilled."""
    left, packed = list(counts), [tuple([0] * len(counts))] * len(rooms_um)
    steps = min(SNUG_STEPS, STEPS_A_TRY // len(rooms_um))
    for done, bay in enumerate(order):
        share_um = spare_um // (SPARED * (len(order) - done))
        pattern = fill_snugly(
            lengths_um,
            left=left,
            room_um=rooms_um[bay],
            spare_um=share_um,
            with_longest=with_longest,
            steps=steps,
        )
        packed[bay], left = pattern, without(left, pattern)
        spare_um -= rooms_um[bay] - sum(length * n for length, n in zip(lengths_um, pattern, strict=True))
        if spare_um < 0:
            return None
    return None if any(left) else tuple(packed)


class _Snug(Mutable):
    """A search for the fullest bay: the parts left, the best filling so far and the room it leaves."""

    lengths_um: Sequence[int]
    left: list[int]
    spare_um: int
    best: list[int]
    best_um: int
    steps: int
    taken: list[int] = field(default_factory=list)
    kinds: list[int] = field(default_factory=list)
    to_come: list[int] = field(default_factory=list)

    def run(self, room_um: int) -> None:
        """Search from scratch with this room."""
        self.kinds = [kind for kind, there in enumerate(self.left) if there]
        self.taken = [0] * len(self.left)
        shortest_first = (self.lengths_um[kind] * self.left[kind] for kind in reversed(self.kinds))
        self.to_come = list(accumulate(shortest_first))[::-1]
        self._deeper(0, room_um)

    def _deeper(self, index: int, room_um: int) -> bool:
        """Try the kinds from here on; True when the filling is good enough or the steps are used up."""
        if room_um < self.best_um:
            self.best, self.best_um = self.taken.copy(), room_um
        self.steps -= 1
        if self.best_um <= self.spare_um or self.steps <= 0:
            return True
        fits = bisect_left(self.kinds, -room_um, lo=index, key=lambda kind: -self.lengths_um[kind])
        for at in range(fits, len(self.kinds)):
            if room_um - self.to_come[at] >= self.best_um:
                return False
            kind = self.kinds[at]
            if self._with(kind, at, room_um):
                return True
        return False

    def _with(self, kind: int, at: int, room_um: int) -> bool:
        """Take as many of this kind as fit, then fewer, down to one."""
        length = self.lengths_um[kind]
        for times in range(min(self.left[kind], room_um // length), 0, -1):
            self.taken[kind] = times
            if self._deeper(at + 1, room_um - times * length):
                return True
        self.taken[kind] = 0
        return False


class _Exact(Mutable):
    """A search for a place for every part: the room left in each bay, and the bay of each part placed."""

    lengths_um: Sequence[int]
    parts: Sequence[int]
    rooms: list[int]
    places: list[int]
    steps: int
    missing: int = 0

    def place(self, index: int) -> bool:
        """Place this part and all after it; identical parts go into bays in rising order."""
        if index == len(self.parts):
            return True
        self.steps -= 1
        if self.steps <= 0:
            raise GaveUp
        shortest, kind = self.lengths_um[self.parts[-1]], self.parts[index]
        if sum(room for room in self.rooms if room >= shortest) < self.missing:
            return False
        alike = index > 0 and self.parts[index - 1] == kind
        tried: set[int] = set()
        for bay in range(self.places[index - 1] if alike else 0, len(self.rooms)):
            room = self.rooms[bay]
            if room >= self.lengths_um[kind] and room not in tried:
                tried.add(room)
                if self._into(bay, index, self.lengths_um[kind]):
                    return True
        return False

    def _into(self, bay: int, index: int, length_um: int) -> bool:
        self.rooms[bay] -= length_um
        self.missing -= length_um
        self.places[index] = bay
        if self.place(index + 1):
            return True
        self.rooms[bay] += length_um
        self.missing += length_um
        return False
