"""The longest off-cut: on the sticks of a plan, one long off-cut instead of many short ones.

The longest off-cut is bounded from above: if the parts fill all other bays as full as they can be, the rest of them
must still go into the bay of the off-cut. To get near, that bay is made shorter by a wished length, and all is packed
again, or filled again by the linear programme; where the patterns are few, the solver looks for the least that this bay
must hold.
"""

from collections.abc import Sequence

from framecalc.records import Mutable, Record, replace
from framecalc.search.solver import Outcome
from framecalc.search.watch import Watch
from framecalc.timber.sticks.column_lists import Column, PricedColumns, all_columns, columns_of
from framecalc.timber.sticks.columns import emptiest_bay
from framecalc.timber.sticks.filling import UNCUT_UM, cannot_hold, fill, given_sticks, price_given
from framecalc.timber.sticks.opening_sticks import open_purchase, purchase_of, rooms_of
from framecalc.timber.sticks.packing import GaveUp, fullest, pack_exactly, pack_snugly, reachable
from framecalc.timber.sticks.purchases import Purchase
from framecalc.timber.sticks.whole_numbers import UM_PER_MM, Bay, OpenedStick, Pattern, WholeNumbers

FEW_PARTS, NEAR_UM = 14, UM_PER_MM
"""Up to so many parts the packing is exact; with more, an off-cut a millimetre short of the longest is enough. Ours."""

FAR = 0.8
"""Below this share of the longest off-cut the sticks are filled again; above, it takes too long. Ours."""

MOST_LENGTHS = 30
"""Different lengths beyond which only snug packing is tried: filling would take longer than it may. Measured; ours."""

TRIES = 5
"""Lengths of off-cut that are tried in one bay."""


class OffCutPlan(Record):
    """A plan, the longest stretch of a bay that it leaves, and the longest that these sticks can leave at all."""

    opened: tuple[OpenedStick, ...]
    left_um: int
    most_um: int


def gather_off_cut(
    whole_numbers: WholeNumbers, *, opened: tuple[OpenedStick, ...], useful_um: int, watch: Watch
) -> OffCutPlan:
    """Rearrange the parts of a plan on the same sticks so that its longest off-cut becomes longer.

    Args:
        useful_um: what must at least be left of a bay to be of any use; shorter ones are not looked for.
    Source: derived.
    """
    search = _OffCutSearch(
        whole_numbers=whole_numbers,
        listed=all_columns(whole_numbers),
        purchase=purchase_of(opened, whole_numbers=whole_numbers),
        opened=opened,
        watch=watch,
    )
    most_um = 0
    for room, bound_um in search.bounds():
        if bound_um > search.left_um and bound_um >= useful_um:
            bound_um = search.lengthen(room, bound_um)
        most_um = max(most_um, bound_um)
    return OffCutPlan(opened=search.opened, left_um=search.left_um, most_um=max(most_um, search.left_um))


class _OffCutSearch(Mutable):
    """The sticks, the plan so far with the longest off-cut, and all columns where they are few."""

    whole_numbers: WholeNumbers
    listed: tuple[Column, ...] | None
    purchase: Purchase
    opened: tuple[OpenedStick, ...]
    watch: Watch

    @property
    def left_um(self) -> int:
        """The longest stretch of a bay that is left."""
        return max(
            room - self.whole_numbers.length_um(pattern)
            for stick in self.opened
            for room, pattern in zip(self.whole_numbers.kinds[stick.kind].rooms_um, stick.patterns, strict=True)
        )

    def bounds(self) -> list[tuple[int, int]]:
        """For each room, the most that can be left of it when all other bays are as full as can be; the best first."""
        rooms = rooms_of(self.purchase, whole_numbers=self.whole_numbers)
        totals = reachable(self.whole_numbers.lengths_um, counts=self.whole_numbers.counts, room_um=max(rooms))
        full = {room: fullest(totals, room_um=room) for room in set(rooms)}
        held = sum(full[room] for room in rooms)
        most = {room: room - max(0, self.whole_numbers.total_um - held + full[room]) for room in full}
        return sorted(most.items(), key=lambda each: each[1], reverse=True)

    def lengthen(self, room: int, bound_um: int) -> int:
        """Look for more left of such a bay, and give the bound that then remains."""
        if sum(self.whole_numbers.counts) <= FEW_PARTS:
            try:
                return self._lengthen_exactly(room, bound_um)
            except GaveUp:
                pass
        self._lengthen_snugly(room, bound_um)
        if self.left_um + NEAR_UM >= bound_um or self.watch.over:
            return bound_um
        if self.listed is not None:
            return self._empty(room, bound_um, self.listed)
        far = self.left_um < FAR * bound_um and len(self.whole_numbers.counts) <= MOST_LENGTHS
        return self._lengthen_by_filling(room, bound_um) if far else bound_um

    def _lengthen_exactly(self, room: int, bound_um: int) -> int:
        """Bisect over the length that is left, each length tried exactly."""
        wished_um = bound_um
        while self.left_um < bound_um and not self.watch.over:
            packed = pack_exactly(
                self.whole_numbers.lengths_um, counts=self.whole_numbers.counts, rooms_um=self._rooms(room, wished_um)
            )
            if packed is None:
                bound_um = wished_um - 1
            else:
                self._keep(packed)
            wished_um = (self.left_um + bound_um + 1) // 2
        return bound_um

    def _lengthen_snugly(self, room: int, bound_um: int) -> None:
        """Bisect over the length that is left, as far as snug packing goes."""
        wished_um = bound_um
        for _ in range(TRIES):
            if wished_um <= self.left_um or self.watch.over:
                return
            packed = pack_snugly(
                self.whole_numbers.lengths_um, counts=self.whole_numbers.counts, rooms_um=self._rooms(room, wished_um)
            )
            if packed is None:
                bound_um = wished_um
            else:
                self._keep(packed)
            wished_um = (self.left_um + bound_um + 1) // 2

    def _empty(self, room: int, bound_um: int, columns: Sequence[Column]) -> int:
        """Have the solver empty one such bay as far as it goes, where these are all columns."""
        opened, outcome = emptiest_bay(
            self.whole_numbers,
            columns=columns,
            purchase=self.purchase,
            where=self._where(room),
            below_um=room - self.left_um,
            watch=self.watch,
        )
        self.opened = opened or self.opened
        return self.left_um if outcome in (Outcome.BEST, Outcome.IMPOSSIBLE) else bound_um

    def _lengthen_by_filling(self, room: int, bound_um: int) -> int:
        """Bisect over the length that is left: shares rule out the impossible, the rest is filled or given up."""
        kind, bay = self._where(room)
        wished_um = most_um = bound_um
        for _ in range(TRIES):
            if wished_um <= self.left_um + NEAR_UM or self.watch.over:
                break
            given = self._shortened(kind, bay, wished_um)
            priced = price_given(
                given, columns=columns_of(self.opened, whole_numbers=self.whole_numbers), watch=self.watch
            )
            if cannot_hold(given, priced=priced):
                bound_um = wished_um - 1
            if not self._fill(given, priced, kind):
                most_um = wished_um
            wished_um = (self.left_um + most_um + 1) // 2
        return bound_um

    def _fill(self, given: WholeNumbers, priced: PricedColumns, kind: int) -> bool:
        """Fill the sticks, the last of them one of this kind with a shorter bay; keep the plan where it can be done."""
        opened = None if priced.uncut_um > UNCUT_UM else fill(given, priced=priced, watch=self.watch)
        if opened is None:
            return False
        apart = len(self.whole_numbers.kinds)
        self.opened = tuple(replace(stick, kind=kind) if stick.kind == apart else stick for stick in opened)
        return True

    def _shortened(self, kind: int, bay: int, wished_um: int) -> WholeNumbers:
        """The sticks, one of them apart as the last kind, with one bay that is shorter by the wish."""
        given = given_sticks(self.whole_numbers, purchase=self.purchase)
        taken, wide = given.kinds[kind], given.kinds[kind].bays[bay]
        short = Bay(room_um=wide.room_um - wished_um, count=1)
        rest = (replace(wide, count=wide.count - 1),) if wide.count > 1 else ()
        apart = replace(taken, limit=1, bays=(*taken.bays[:bay], *rest, short, *taken.bays[bay + 1 :]))
        fewer = replace(taken, limit=taken.limit - 1)
        return replace(given, kinds=(*given.kinds[:kind], fewer, *given.kinds[kind + 1 :], apart))

    def _where(self, room: int) -> tuple[int, int]:
        """Kind and bay of the first such room."""
        return next(
            (kind, bay)
            for kind, taken in enumerate(self.purchase)
            for bay, each in enumerate(self.whole_numbers.kinds[kind].bays)
            if taken and each.room_um == room
        )

    def _rooms(self, room: int, wished_um: int) -> Sequence[int]:
        """All rooms, one of them shorter by the wish."""
        rooms = rooms_of(self.purchase, whole_numbers=self.whole_numbers)
        at = rooms.index(room)
        return (*rooms[:at], room - wished_um, *rooms[at + 1 :])

    def _keep(self, packed: Sequence[Pattern]) -> None:
        self.opened = open_purchase(self.purchase, packed=packed, whole_numbers=self.whole_numbers)
