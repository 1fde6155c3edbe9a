"""The longest off-cut: with the sticks of a plan given, one long off-cut rather than many short ones.

The longest off-cut is bounded from above: if the parts fill all other bays as full as they can be, the rest of them
must still go into the bay of the off-cut. To get near, that bay is made shorter by a wished length, and all is packed
again.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from framecalc.sticks.counted import UM_PER_MM, Counted, Opened, Pattern
from framecalc.sticks.opening import open_purchase, purchase_of, rooms_of
from framecalc.sticks.packing import GaveUp, fullest, pack_exactly, pack_snugly, reachable
from framecalc.sticks.watch import Watch

FEW_PARTS, NEAR_UM = 14, UM_PER_MM
"""Up to so many parts the packing is exact; with more, an off-cut a millimetre short of the longest will do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """A plan, the longest stretch of a bay that it leaves, and the longest that these sticks can leave at all."""

    opened: tuple[Opened, ...]
    left_um: int
    most_um: int


def gather_off_cut(counted: Counted, *, opened: tuple[Opened, ...], worth_um: int, watch: Watch) -> Gathered:
    """Arrange the parts of a plan anew so that its longest off-cut becomes longer, with the same sticks.

    Args:
        worth_um: what must at least be left of a bay to be of any use; shorter ones are not looked for.
    Source: derived (bisection over the length of the off-cut).
    """
    purchase = purchase_of(opened, counted=counted)
    rooms = rooms_of(purchase, counted=counted)
    search = _Gathering(counted=counted, rooms=rooms, left_um=_longest_left(counted, opened))
    for room, most_um in search.bounds():
        search.try_bay(room, max(search.left_um, worth_um - 1), most_um, watch)
    if search.packed is not None:
        opened = open_purchase(purchase, packed=search.packed, counted=counted)
    return Gathered(opened=opened, left_um=search.left_um, most_um=max(search.left_um, search.most_um))


def _longest_left(counted: Counted, opened: Sequence[Opened]) -> int:
    return max(
        room - counted.length_um(pattern)
        for stick in opened
        for room, pattern in zip(counted.kinds[stick.kind].rooms_um, stick.patterns, strict=True)
    )


@dataclass(slots=True, kw_only=True)
class _Gathering:
    """The bays, the longest stretch left so far and its packing, and the longest there can be."""

    counted: Counted
    rooms: tuple[int, ...]
    left_um: int
    packed: tuple[Pattern, ...] | None = None
    most_um: int = 0

    def bounds(self) -> list[tuple[int, int]]:
        """For each room, the most that can be left of it when all other bays are as full as can be; the best first."""
        totals = reachable(self.counted.lengths_um, counts=self.counted.counts, room_um=max(self.rooms))
        full = {room: fullest(totals, room_um=room) for room in set(self.rooms)}
        held = sum(full[room] for room in self.rooms)
        most = {room: room - max(0, self.counted.total_um - held + full[room]) for room in full}
        return sorted(most.items(), key=lambda each: each[1], reverse=True)

    def try_bay(self, room: int, low_um: int, high_um: int, watch: Watch) -> None:
        """Bisect: the length that can be left of this bay lies above `low_um`, or it is not longer than that."""
        exact = sum(self.counted.counts) <= FEW_PARTS
        wished_um = high_um
        while low_um + (0 if exact else NEAR_UM) < high_um and not watch.over:
            packed, sure = self._pack(room, wished_um)
            if packed is not None:
                low_um = self.left_um = wished_um
                self.packed = packed
            elif sure:
                high_um = wished_um - 1
            else:
                exact, high_um, self.most_um = False, wished_um - 1, max(self.most_um, high_um)
            wished_um = (low_um + high_um + 1) // 2
        if watch.over:
            self.most_um = max(self.most_um, high_um)

    def _pack(self, room: int, wished_um: int) -> tuple[tuple[Pattern, ...] | None, bool]:
        """Pack with one such bay shorter by the wish; whether the answer is exact."""
        at = self.rooms.index(room)
        rooms = (*self.rooms[:at], room - wished_um, *self.rooms[at + 1 :])
        lengths, counts = self.counted.lengths_um, self.counted.counts
        if sum(counts) <= FEW_PARTS:
            try:
                return pack_exactly(lengths, counts=counts, rooms_um=rooms), True
            except GaveUp:
                pass
        return pack_snugly(lengths, counts=counts, rooms_um=rooms), False
