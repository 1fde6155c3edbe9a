"""The glue-up timetable: which frame is glued when, with so many clamp sets and so many hands.

A *glue-up* is one frame: hands close it, then it stays in its clamps. It holds a clamp set from the first minute of
hands on; whoever needs the set next takes it off. Begun in the order of their starts, each as early as hands and clamps
allow, some order is the best there is: moving a start forward frees hands and clamps no later. So only orders are
searched. The search is our own branch and bound; within `MOST_NODES` it tries every order of six glue-ups.
"""

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

from framecalc.bench.shop_day import ShopDay
from framecalc.bench.timetable_bound import Bound, Free, GlueUp, bounds_from, first_bound
from framecalc.records import Record, cached_property

MOST_NODES = 2000
"""Six glue-ups have 1957 beginnings of an order."""

MOST_TRIES = 300
"""Orders tried by exchanging two, where there are too many for the search."""


class PlacedGlueUp(Record):
    """A glue-up with its start, its worker and its clamp set, counted from 0; `is_glued` where it is done already."""

    glue_up: GlueUp
    starts_min: int
    worker: int
    clamp: int
    is_glued: bool = False

    @property
    def closed_min(self) -> int:
        """When hands are free again."""
        return self.starts_min + self.glue_up.hands_on_min

    @property
    def ends_min(self) -> int:
        """When the clamps may come off."""
        return self.starts_min + self.glue_up.holds_min


class Timetable(Record):
    """Glue-ups in the order of their starts; no order ends before the `bound`. `is_searched`: every order was tried."""

    placed: tuple[PlacedGlueUp, ...]
    bound: Bound
    is_searched: bool

    @property
    def ends_min(self) -> int:
        """When the last clamps may come off."""
        return max((one.ends_min for one in self.placed), default=0)

    @property
    def is_best(self) -> bool:
        """Whether no order ends before."""
        return self.is_searched or self.ends_min <= self.bound.ends_min


class GlueRoom(Record, dict=True):
    """What there is to glue with: the hours, clamp sets, workers; and the glue-ups begun, with their starts."""

    day: ShopDay
    clamp_sets: int
    workers: int
    begun: tuple[tuple[GlueUp, int], ...] = ()

    @cached_property
    def start(self) -> tuple[tuple[PlacedGlueUp, ...], Free]:
        """What is begun, each with its worker and its set, and when hands and clamps are free after it."""
        free = Free(workers=(0,) * self.workers, clamps=(0,) * self.clamp_sets, from_min=0)
        placed: list[PlacedGlueUp] = []
        for glue_up, starts_min in sorted(self.begun, key=lambda pair: pair[1]):
            one, free = free_after(free, glue_up, starts_min)
            placed.append(
                PlacedGlueUp(glue_up=glue_up, starts_min=starts_min, worker=one[0], clamp=one[1], is_glued=True)
            )
        return tuple(placed), free


@lru_cache(maxsize=256)
def best_timetable(glue_ups: tuple[GlueUp, ...], *, room: GlueRoom) -> Timetable:
    """The order whose last clamps come off first; of many glue-ups a good one, with the bound that it is held to.

    Raises:
        OutOfRange: a glue-up takes longer than a working day.
    Source: derived.

    >>> day = ShopDay(opens_min=480, closes_min=1020)
    >>> three = [GlueUp(key=key, hands_on_min=10, clamped_min=30) for key in "abc"]
    >>> best_timetable(tuple(three), room=GlueRoom(day=day, clamp_sets=1, workers=1)).ends_min
    600
    """
    begun, free = room.start
    bound = first_bound(glue_ups, day=room.day, free=free)
    search = _Search(room=room, bound=bound)
    if glue_ups:
        search.run(glue_ups)
    order = search.best or ()
    return Timetable(placed=(*begun, *_placed(order, room)), bound=bound, is_searched=search.is_whole)


def free_after(free: Free, glue_up: GlueUp, starts_min: int) -> tuple[tuple[int, int], Free]:
    """The worker and the clamp set that are free first, and when all are free after a glue-up that they begin then.

    Source: derived.
    """
    worker = min(range(len(free.workers)), key=free.workers.__getitem__)
    clamp = min(range(len(free.clamps)), key=free.clamps.__getitem__)
    workers, clamps = list(free.workers), list(free.clamps)
    workers[worker] = max(workers[worker], starts_min + glue_up.hands_on_min)
    clamps[clamp] = max(clamps[clamp], starts_min + glue_up.holds_min)
    return (worker, clamp), Free(workers=tuple(workers), clamps=tuple(clamps), from_min=starts_min)


class _Search:
    """One search: the best order so far, and whether all others were ruled out."""

    def __init__(self, *, room: GlueRoom, bound: Bound) -> None:
        self.room, self.bound = room, bound
        self.best: tuple[GlueUp, ...] = ()
        self.best_min = 0
        self.nodes = 0
        self.is_whole = True

    def run(self, glue_ups: Sequence[GlueUp]) -> None:
        for order in _rules(glue_ups):
            self._keep(order)
        if self.best_min > self.bound.ends_min:
            self._branch((), tuple(_longest_first(glue_ups)), self.room.start[1], 0)
        if not self.is_whole:
            self._exchange()

    def _keep(self, order: Sequence[GlueUp]) -> bool:
        ends_min = max(one.ends_min for one in _placed(order, self.room))
        if self.best and ends_min >= self.best_min:
            return False
        self.best, self.best_min = tuple(order), ends_min
        return True

    def _branch(self, begun: tuple[GlueUp, ...], rest: tuple[GlueUp, ...], free: Free, ends_min: int) -> None:
        """Try every glue-up next; alike ones once, and none where the bound says that it cannot end before."""
        self.nodes += 1
        if not rest:
            self._keep(begun)
            return
        tried: set[tuple[int, int, int]] = set()
        for number, glue_up in enumerate(rest):
            if glue_up.kind in tried:
                continue
            if self.nodes > MOST_NODES:
                self.is_whole = False
                return
            tried.add(glue_up.kind)
            starts_min = _start(glue_up, free, self.room.day)
            _, after = free_after(free, glue_up, starts_min)
            left = (*rest[:number], *rest[number + 1 :])
            so_far_min = max(ends_min, starts_min + glue_up.holds_min)
            if max(so_far_min, *bounds_from(left, day=self.room.day, free=after)) < self.best_min:
                self._branch((*begun, glue_up), left, after, so_far_min)

    def _exchange(self) -> None:
        """Exchange two of the best order while that helps."""
        tries = 0
        for first in range(len(self.best)):
            for second in range(first + 1, len(self.best)):
                order = list(self.best)
                order[first], order[second] = order[second], order[first]
                tries += 1
                if tries > MOST_TRIES or self.best_min <= self.bound.ends_min:
                    return
                self._keep(order)


def _start(glue_up: GlueUp, free: Free, day: ShopDay) -> int:
    at_min = max(glue_up.from_min, free.from_min, min(free.workers), min(free.clamps))
    return day.begin(at_min, lasting_min=glue_up.hands_on_min)


def _placed(order: Iterable[GlueUp], room: GlueRoom) -> Iterator[PlacedGlueUp]:
    free = room.start[1]
    for glue_up in order:
        starts_min = _start(glue_up, free, room.day)
        (worker, clamp), free = free_after(free, glue_up, starts_min)
        yield PlacedGlueUp(glue_up=glue_up, starts_min=starts_min, worker=worker, clamp=clamp)


def _longest_first(glue_ups: Iterable[GlueUp]) -> list[GlueUp]:
    return sorted(glue_ups, key=lambda one: (one.from_min, -one.clamped_min, one.hands_on_min))


def _rules(glue_ups: Sequence[GlueUp]) -> Iterator[list[GlueUp]]:
    """Orders that are often good: what waits last, the longest in the clamps first, the shortest in them first."""
    yield _longest_first(glue_ups)
    yield sorted(glue_ups, key=lambda one: -one.clamped_min)
    yield sorted(glue_ups, key=lambda one: (one.from_min, one.holds_min))
