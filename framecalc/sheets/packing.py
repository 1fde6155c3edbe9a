"""Layouts found by trying: fill sheet after sheet, break up a few sheets and fill them again, keep what is better.

A *slot* is a rectangle of a sheet where a part may still go. Placing a part cuts the slot in two directions and leaves
two slots. Which slot a part takes and which cut comes first is decided by a *habit*; trying many habits and many orders
is what finds good layouts. Everything random comes from the generator handed in, so a search can be repeated.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from math import exp
from random import Random

from framecalc.records import Mutable, Record, cached_property
from framecalc.search.watch import nobody, until_enough
from framecalc.sheets.guillotine import WASTE, CutAxis, Node, Part, Strips, largest_waste, pieces_in, tidied
from framecalc.sheets.whole_numbers import JobSheet, LayoutJob, WholePart

MOST_BROKEN_UP = 4
"""Sheets broken up at once: enough to merge three into two and one over."""


ASKED_EVERY = 50
"""Rounds between two looks at whether the search is to end."""

WORSE_RATIO = 0.02
"""How often a worse filling of the same price is kept, to get out of a dead end."""


class FilledSheet(Record, eq=False, dict=True):
    """One sheet, the pieces it yields, and how it is cut. The cuts are set out when first asked for: most of what is
    tried is put away unseen.
    """

    sheet: int
    across: int
    up: int
    pieces: tuple[int, ...]
    used: int
    as_cut: Callable[[], Node]

    @cached_property
    def node(self) -> Node:
        """Its tree of cuts."""
        return tidied(self.as_cut(), across=self.across, up=self.up)

    @cached_property
    def contents(self) -> tuple[int, tuple[int, ...]]:
        """The kind of sheet, and the pieces that it yields, however it is cut."""
        return self.sheet, tuple(sorted(self.pieces))

    @cached_property
    def left_over(self) -> int:
        """Its largest single left-over in square units."""
        return largest_waste(self.node, across=self.across, up=self.up)

    @cached_property
    def _hash(self) -> int:
        return hash((self.sheet, self.pieces, self.node))

    def __eq__(self, other: object) -> bool:
        """Whether the other is the same sheet, cut alike, with its pieces in the same order."""
        if not isinstance(other, FilledSheet):
            return NotImplemented
        return (self.sheet, self.pieces, self.node) == (other.sheet, other.pieces, other.node)

    def __hash__(self) -> int:
        return self._hash


Measure = Callable[[Iterable[FilledSheet], LayoutJob], tuple[int, int]]


class _Slot(Mutable, eq=False, kw_only=False):
    """A rectangle of a sheet while it is being filled: open, or cut along an axis into parts and slots."""

    across: int
    up: int
    axis: CutAxis = CutAxis.ACROSS
    halves: "tuple[tuple[int, _Slot | Part], ...]" = ()

    def node(self) -> Node:
        """The finished tree."""
        if not self.halves:
            return WASTE
        strips = [(size, half if isinstance(half, Part) else half.node()) for size, half in self.halves]
        return Strips(self.axis, tuple(strips))


class _Habit(Record, kw_only=False):
    """How slots are chosen: by the area, the short or the long side that stays; and how often the cuts are swapped."""

    measure: int
    swap_ratio: float


_AREA, _SHORT_SIDE, _LONG_SIDE = range(3)


def fill(sheet: int, queue: Sequence[int], *, job: LayoutJob, random: Random) -> tuple[FilledSheet, list[int]]:
    """Fill one sheet with pieces in the order of a queue; return it with the pieces that found no place.

    Source: derived; first-fit packing with edge-to-edge cuts, a habit drawn at random.
    """
    across, up = job.sheets[sheet].across, job.sheets[sheet].up
    whole = _Slot(across, up)
    open_slots, hopeless, rest, placed = [whole], set[int](), list[int](), list[int]()
    habit = _Habit(random.randrange(3), random.choice((0.0, 0.0, 0.15, 0.5)))
    for piece in queue:
        if piece in hopeless or not _place(piece, open_slots, job, habit, random):
            hopeless.add(piece)
            rest.append(piece)
        else:
            placed.append(piece)
    return _filled(sheet, whole.node, placed, job), rest


def ordered(pieces: Iterable[int], job: LayoutJob, random: Random) -> list[int]:
    """Put pieces in an order: by area, by the long or the short side, the largest first, more or less strictly.

    Source: derived.
    """
    key = random.choice((_by_area, _by_long_side, _by_short_side))
    noise = random.choice((0.0, 0.1, 0.3))
    keys = {piece: key(job.pieces[piece]) * exp(random.gauss(0, noise)) for piece in sorted(set(pieces))}
    return sorted(pieces, key=lambda piece: -keys[piece])


def pack(queue: Sequence[int], *, job: LayoutJob, room: Counter[int], random: Random) -> list[FilledSheet] | None:
    """Fill sheets until the queue is empty, off-cuts and cheap sheets rather first; nothing where the room runs out.

    Args:
        room: how many there are of each kind of sheet.
    Source: derived.
    """
    room, layout, rest = Counter(room), [], list(queue)
    while rest:
        chosen = _next_sheet(rest, job, room, random)
        if chosen is None:
            return None
        filled, rest = fill(chosen, rest, job=job, random=random)
        if not filled.pieces:
            room[chosen] = 0
            continue
        room[chosen] -= 1
        layout.append(_on_cheaper(filled, job, room, random))
    return layout


def first_layout(
    job: LayoutJob, *, random: Random, tries: int = 20, is_enough: Callable[[], bool] = nobody
) -> list[FilledSheet]:
    """The best of some layouts from scratch.

    Args:
        is_enough: asked after each; once it says so, the best of those so far is taken.
    Source: derived.
    """
    everything = [number for number, piece in enumerate(job.pieces) for _ in range(piece.count)]
    room = _room(job)
    tried = (pack(ordered(everything, job, random), job=job, room=room, random=random) for _ in range(tries))
    layouts = until_enough(filter(None, tried), is_enough=is_enough)
    return min(layouts, key=lambda layout: by_crowding(layout, job))


def improved(
    layout: Iterable[FilledSheet],
    *,
    job: LayoutJob,
    random: Random,
    rounds: int,
    measure: Measure,
    is_done: Callable[[Sequence[FilledSheet]], bool],
) -> Iterator[Sequence[FilledSheet]]:
    """Break up a few sheets at a time and fill them again; keep what is not worse, and hand out all that was tried.

    Args:
        rounds: how often.
        measure: what is compared, the lower the better.
        is_done: asked now and then with the layout kept; stops the search.
    Source: Schrimpf et al., "Record breaking optimization results using the ruin and recreate principle", 2000, from
        memory, not re-read.
    """
    kept = list(layout)
    for number in range(rounds):
        if number % ASKED_EVERY == 0 and is_done(kept):
            return
        broken, whole = _to_break_up(kept, job, random)
        again = _packed_again(broken, whole, job, random)
        if again is None:
            continue
        yield (tried := whole + again)
        is_better = measure(again, job) <= measure(broken, job)
        if is_better or (price_of(again, job) == price_of(broken, job) and random.random() < WORSE_RATIO):
            kept = tried


def by_crowding(layout: Iterable[FilledSheet], job: LayoutJob) -> tuple[int, int]:
    """Compare by the price, then by how unevenly the sheets are filled: an almost empty one is soon saved.

    Source: derived.
    """
    layout = tuple(layout)
    crowded = sum(filled.used * filled.used // job.sheets[filled.sheet].size for filled in layout)
    return price_of(layout, job), -crowded


def by_left_over(layout: Iterable[FilledSheet], job: LayoutJob) -> tuple[int, int]:
    """Compare by the price, then by the largest single left-over.

    Source: derived.
    """
    layout = tuple(layout)
    return price_of(layout, job), -largest_left_over(layout)


def price_of(layout: Iterable[FilledSheet], job: LayoutJob) -> int:
    """The price of a layout.

    Source: derived.
    """
    return sum(job.sheets[filled.sheet].price for filled in layout)


def largest_left_over(layout: Iterable[FilledSheet]) -> int:
    """The largest single left-over of a layout, in square units. No sheet has a larger one than all that is free on it.

    Source: derived.
    """
    largest = 0
    for filled in sorted(layout, key=_free, reverse=True):
        if _free(filled) <= largest:
            break
        largest = max(largest, filled.left_over)
    return largest


def _free(filled: FilledSheet) -> int:
    return filled.across * filled.up - filled.used


def filled_sheet(sheet: int, node: Node, *, job: LayoutJob) -> FilledSheet:
    """A sheet filled by a tree of cuts made elsewhere.

    Source: derived.
    """
    return _filled(sheet, lambda: node, pieces_in(node), job)


def _filled(sheet: int, as_cut: Callable[[], Node], pieces: Iterable[int], job: LayoutJob) -> FilledSheet:
    pieces = tuple(pieces)
    return FilledSheet(
        sheet=sheet,
        across=job.sheets[sheet].across,
        up=job.sheets[sheet].up,
        pieces=pieces,
        used=sum(job.pieces[piece].across * job.pieces[piece].up for piece in pieces),
        as_cut=as_cut,
    )


def _place(piece: int, open_slots: list[_Slot], job: LayoutJob, habit: _Habit, random: Random) -> bool:
    """Put a piece into the best slot that takes it, and cut the slot up."""
    best: tuple[float, _Slot, tuple[int, int, bool]] | None = None
    ways, can_be_left = job.pieces[piece].ways, job.can_be_left
    for slot in open_slots:
        across, up = slot.across, slot.up
        for way in ways:
            rest_across, rest_up = across - way[0], up - way[1]
            if rest_across < 0 or rest_up < 0 or not (can_be_left(rest_across) and can_be_left(rest_up)):
                continue
            measure = _measure(rest_across, rest_up, way, habit) + random.random() / 2
            if best is None or measure < best[0]:
                best = measure, slot, way
    if best is None:
        return False
    _cut_slot(best[1], best[2], piece, open_slots, swaps=random.random() < habit.swap_ratio)
    return True


def _measure(rest_across: int, rest_up: int, way: tuple[int, int, bool], habit: _Habit) -> int:
    if habit.measure == _AREA:
        return (rest_across + way[0]) * (rest_up + way[1]) - way[0] * way[1]
    return min(rest_across, rest_up) if habit.measure == _SHORT_SIDE else max(rest_across, rest_up)


def _cut_slot(slot: _Slot, way: tuple[int, int, bool], piece: int, open_slots: list[_Slot], *, swaps: bool) -> None:
    """Cut a slot so that the larger of the two slots that stay is as large as can be, unless that is swapped."""
    across, up, is_turned = way
    rest_across, rest_up = slot.across - across, slot.up - up
    first_across = max(rest_across * slot.up, across * rest_up) >= max(rest_across * up, slot.across * rest_up)
    first_across = first_across != swaps
    open_slots.remove(slot)
    part = Part(piece, is_turned)
    if first_across:
        strip = _Slot(across, slot.up, CutAxis.UP)
        beyond = _opened(rest_across, rest_across, slot.up, open_slots)
        slot.axis, slot.halves = CutAxis.ACROSS, ((across, strip), *beyond)
        strip.halves = ((up, part), *_opened(rest_up, across, rest_up, open_slots))
    else:
        strip = _Slot(slot.across, up, CutAxis.ACROSS)
        beyond = _opened(rest_up, slot.across, rest_up, open_slots)
        slot.axis, slot.halves = CutAxis.UP, ((up, strip), *beyond)
        strip.halves = ((across, part), *_opened(rest_across, rest_across, up, open_slots))


def _opened(size: int, across: int, up: int, open_slots: list[_Slot]) -> tuple[tuple[int, _Slot], ...]:
    """The slot that a cut leaves, with its size along the cut pieces; none where nothing is left."""
    if not (across and up):
        return ()
    open_slots.append(slot := _Slot(across, up))
    return ((size, slot),)


def _next_sheet(queue: list[int], job: LayoutJob, room: Counter[int], random: Random) -> int | None:
    """Choose what to fill next: likely what costs least for its size, of the sheets that take any piece at all."""
    kinds = [job.pieces[piece] for piece in set(queue)]
    able = [number for number, sheet in enumerate(job.sheets) if room[number] and _takes_any(sheet, kinds, job)]
    if not able:
        return None
    return min(able, key=lambda number: _dearness(job.sheets[number]) * exp(random.gauss(0, 0.3)))


def _dearness(sheet: JobSheet) -> float:
    return sheet.price / sheet.size


def _takes_any(sheet: JobSheet, kinds: list[WholePart], job: LayoutJob) -> bool:
    return any(
        job.can_be_left(sheet.across - across) and job.can_be_left(sheet.up - up)
        for piece in kinds
        for across, up, _ in piece.ways
    )


def _on_cheaper(filled: FilledSheet, job: LayoutJob, room: Counter[int], random: Random) -> FilledSheet:
    """Move what a sheet yields to a cheaper one, if one takes it all."""
    price = job.sheets[filled.sheet].price
    for number, sheet in sorted(enumerate(job.sheets), key=lambda item: (item[1].price, item[1].size)):
        if sheet.price >= price:
            break
        if not room[number] or sheet.size < filled.used:
            continue
        other, rest = fill(number, ordered(filled.pieces, job, random), job=job, random=random)
        if not rest:
            room[filled.sheet] += 1
            room[number] -= 1
            return other
    return filled


def _by_area(piece: WholePart) -> int:
    return piece.across * piece.up


def _by_long_side(piece: WholePart) -> int:
    return max(piece.across, piece.up)


def _by_short_side(piece: WholePart) -> int:
    return min(piece.across, piece.up)


def _to_break_up(
    layout: list[FilledSheet], job: LayoutJob, random: Random
) -> tuple[list[FilledSheet], list[FilledSheet]]:
    """Choose some sheets, rather the emptier ones; those, and the others."""
    number = min(len(layout), random.randint(1, MOST_BROKEN_UP))
    emptier = sorted(layout, key=lambda filled: filled.used / job.sheets[filled.sheet].size * (0.5 + random.random()))
    return emptier[:number], emptier[number:]


def _packed_again(
    broken: list[FilledSheet], whole: list[FilledSheet], job: LayoutJob, random: Random
) -> list[FilledSheet] | None:
    queue = ordered([piece for filled in broken for piece in filled.pieces], job, random)
    room = _room(job)
    room.subtract(filled.sheet for filled in whole)
    return pack(queue, job=job, room=room, random=random)


def _room(job: LayoutJob) -> Counter[int]:
    return Counter({number: sheet.count for number, sheet in enumerate(job.sheets)})
