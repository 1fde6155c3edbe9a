"""Before what no order of glue-ups can end, each with its reason in words.

Four reasons: one frame alone takes so long; hands are busy so long before the last can set; the clamp sets are held so
long in all; the sets take so many frames in turn.
"""

from collections.abc import Iterator, Sequence

from framecalc.bench.shop_day import ShopDay
from framecalc.records import Record


class GlueUp(Record):
    """One frame to glue: how long hands are on it, how long it stays in the clamps after, not before when [min]."""

    key: str
    hands_on_min: int
    clamped_min: int
    from_min: int = 0

    @property
    def holds_min(self) -> int:
        """How long it holds a clamp set."""
        return self.hands_on_min + self.clamped_min

    @property
    def kind(self) -> tuple[int, int, int]:
        """Glue-ups of one kind can change places."""
        return self.hands_on_min, self.clamped_min, self.from_min


class Free(Record):
    """When each worker and each clamp set is free; nothing is begun before `from_min`."""

    workers: tuple[int, ...]
    clamps: tuple[int, ...]
    from_min: int


class Bound(Record):
    """No order ends before this minute, and why."""

    ends_min: int
    why: str


def first_bound(glue_ups: Sequence[GlueUp], *, day: ShopDay, free: Free) -> Bound:
    """The latest of all bounds, with its reason.

    Source: derived.

    >>> two = [GlueUp(key=key, hands_on_min=10, clamped_min=30) for key in "ab"]
    >>> day = ShopDay(opens_min=480, closes_min=1020)
    >>> first_bound(two, day=day, free=Free(workers=(0,), clamps=(0,), from_min=0)).why
    'one clamp set takes 2 frames in turn, 40 min each or more'
    """
    if not glue_ups:
        return Bound(ends_min=max(free.clamps), why="all are glued")
    return max(_bounds(glue_ups, day=day, free=free), key=lambda bound: bound.ends_min)


def bounds_from(rest: Sequence[GlueUp], *, day: ShopDay, free: Free) -> Iterator[int]:
    """Before what the rest cannot end, whatever its order. Source: derived."""
    yield 0
    if rest:
        yield _alone_min(rest, day=day, free=free)
        yield _hands_min(rest, day=day, free=free)
        yield _held_min(rest, free=free)


def _bounds(glue_ups: Sequence[GlueUp], *, day: ShopDay, free: Free) -> Iterator[Bound]:
    clamps, workers = len(free.clamps), len(free.workers)
    hands = "one worker" if workers == 1 else f"{workers} workers"
    sets = "one clamp set" if clamps == 1 else f"{clamps} clamp sets"
    busy_min = sum(one.hands_on_min for one in glue_ups)
    yield Bound(
        ends_min=_hands_min(glue_ups, day=day, free=free),
        why=f"{hands} {'needs' if workers == 1 else 'need'} {busy_min} min of work, and the last must set",
    )
    yield Bound(ends_min=_in_turn_min(glue_ups, day=day, free=free), why=_in_turn(glue_ups, sets, clamps))
    yield Bound(
        ends_min=_held_min(glue_ups, free=free),
        why=f"{sets} {'is' if clamps == 1 else 'are'} held for {sum(one.holds_min for one in glue_ups)} min in all",
    )
    yield Bound(
        ends_min=_alone_min(glue_ups, day=day, free=free), why="one frame alone takes that long, from when it may begin"
    )


def _in_turn(glue_ups: Sequence[GlueUp], sets: str, clamps: int) -> str:
    shortest_min = min(one.holds_min for one in glue_ups)
    frames = "1 frame" if len(glue_ups) == 1 else f"{len(glue_ups)} frames"
    return f"{sets} {'takes' if clamps == 1 else 'take'} {frames} in turn, {shortest_min} min each or more"


def _earliest_min(rest: Sequence[GlueUp], free: Free) -> int:
    return max(free.from_min, min(one.from_min for one in rest))


def _alone_min(rest: Sequence[GlueUp], *, day: ShopDay, free: Free) -> int:
    """The end of the one that ends last, were it begun as soon as it may."""
    ready_min = max(free.from_min, min(free.workers), min(free.clamps))
    return max(day.begin(max(one.from_min, ready_min), lasting_min=one.hands_on_min) + one.holds_min for one in rest)


def _hands_min(rest: Sequence[GlueUp], *, day: ShopDay, free: Free) -> int:
    """The end of work on those that set longest, and then their shortest time in the clamps; the worst of all such."""
    at_min = max(_earliest_min(rest, free), min(free.workers), min(free.clamps))
    found_min = busy_min = 0
    for one in sorted(rest, key=lambda one: -one.clamped_min):
        busy_min += one.hands_on_min
        closed_min = day.after(at_min, working_min=-(-busy_min // len(free.workers)))
        found_min = max(found_min, closed_min + one.clamped_min)
    return found_min


def _held_min(rest: Sequence[GlueUp], *, free: Free) -> int:
    """The mean end of the clamp sets, each held by no more than one at a time."""
    from_min = _earliest_min(rest, free)
    begin_min = sum(max(at_min, from_min) for at_min in free.clamps)
    return -(-(begin_min + sum(one.holds_min for one in rest)) // len(free.clamps))


def _in_turn_min(glue_ups: Sequence[GlueUp], *, day: ShopDay, free: Free) -> int:
    """The end of as many turns of the clamp sets as there are frames, were all as short as the shortest.

    Hands begin one set after the other, and the kth frame of a set cannot end before k times the shortest: of all
    these ends the nth is the earliest at which n frames can be done.
    """
    hands_min, clamped_min = (min(getattr(one, name) for one in glue_ups) for name in ("hands_on_min", "clamped_min"))
    first_min = _earliest_min(glue_ups, free)
    ends: list[int] = []
    for number, free_min in enumerate(sorted(free.clamps)):
        busy_min = number // len(free.workers) * hands_min
        at_min = max(free_min, day.after(max(first_min, min(free.workers)), working_min=busy_min))
        for _ in glue_ups:
            at_min = day.begin(at_min, lasting_min=hands_min) + hands_min + clamped_min
            ends.append(at_min)
    return sorted(ends)[len(glue_ups) - 1]
