"""What no order of glue-ups can beat: sound against every order, and exact where a sum by hand is."""

from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from framecalc.bench.shop_day import ShopDay
from framecalc.bench.timetable_bound import Bound, Free, GlueUp, bounds_from, first_bound

DAY = ShopDay(opens_min=480, closes_min=1020)
glue_ups = some.builds(
    GlueUp,
    key=some.just("a"),
    hands_on_min=some.integers(1, 60),
    clamped_min=some.integers(0, 200),
    from_min=some.sampled_from([0, 500, 800]),
)
free_at = some.lists(some.integers(480, 700), min_size=1, max_size=3).map(tuple)


def bound(
    *parts: tuple[int, int, int], workers: tuple[int, ...], clamps: tuple[int, ...], from_min: int = 480
) -> Bound:
    wanted = [
        GlueUp(key=str(at), hands_on_min=hands, clamped_min=clamped, from_min=begins)
        for at, (hands, clamped, begins) in enumerate(parts)
    ]
    return first_bound(wanted, day=DAY, free=Free(workers=workers, clamps=clamps, from_min=from_min))


def end_of(order: tuple[GlueUp, ...], free: Free, day: ShopDay) -> int:
    """When all sets are free again, where each is begun in turn by the worker and in the set that are free first."""
    workers, clamps = list(free.workers), list(free.clamps)
    for one in order:
        workers.sort()
        clamps.sort()
        at = day.begin(max(free.from_min, one.from_min, workers[0], clamps[0]), lasting_min=one.hands_on_min)
        workers[0], clamps[0] = at + one.hands_on_min, at + one.holds_min
    return max(clamps)


@settings(max_examples=150, deadline=None)
@given(
    wanted=some.lists(glue_ups, min_size=1, max_size=4),
    workers=free_at,
    clamps=free_at,
    from_min=some.integers(480, 700),
    day=some.sampled_from([DAY, ShopDay(opens_min=540, closes_min=640, first_weekday=4, closed_on=frozenset({5, 6}))]),
)
def test_no_order_in_a_shop_that_is_busy_ends_before_the_bound(
    wanted: list[GlueUp], workers: tuple[int, ...], clamps: tuple[int, ...], from_min: int, day: ShopDay
) -> None:
    free = Free(workers=workers, clamps=clamps, from_min=from_min)
    best = min(end_of(order, free, day) for order in permutations(wanted))
    assert first_bound(wanted, day=day, free=free).ends_min <= best
    assert max(bounds_from(wanted, day=day, free=free)) <= best


@pytest.mark.parametrize(
    ("workers", "clamps", "from_min"),
    [((600,), (480, 480), 480), ((480,), (600, 600), 480), ((480,), (480, 480), 600)],
)
def test_hands_begin_when_worker_set_and_shop_are_free(
    workers: tuple[int, ...], clamps: tuple[int, ...], from_min: int
) -> None:
    """From 600, two frames of 10 min one after the other, and the second sets for 30 min: 650."""
    found = bound((10, 30, 0), (10, 30, 0), workers=workers, clamps=clamps, from_min=from_min)
    assert (found.ends_min, found.why) == (650, "one worker needs 20 min of work, and the last must set")


@pytest.mark.parametrize(("clamped_min", "ends_min"), [(78, 620), (79, 621), (80, 621)])
def test_sets_are_held_for_their_sum_on_average(clamped_min: int, ends_min: int) -> None:
    """Held for 41, 80, 80 and 79 min, two sets from 480 end at (2 × 480 + 280) / 2 = 620 or later; rounded up."""
    others = (1, 40, 0), (1, 79, 0), (1, 79, 0)
    found = bound((1, clamped_min, 0), *others, workers=(480, 480), clamps=(480, 480))
    assert (found.ends_min, found.why) == (ends_min, f"2 clamp sets are held for {202 + clamped_min} min in all")


@pytest.mark.parametrize("from_min", [0, 700])
def test_one_frame_alone_takes_its_time_from_when_it_may_begin(from_min: int) -> None:
    found = bound((10, 90, from_min), (10, 20, 0), workers=(480, 480), clamps=(480, 480))
    assert found.ends_min == max(480, from_min) + 100
    assert from_min == 0 or found.why == "one frame alone takes that long, from when it may begin"


def test_sets_take_frames_in_turn_of_which_each_takes_the_shortest() -> None:
    """Three frames of 40 min and more in one set from 480: 600. In two sets the third ends after two of them: 560."""
    three = [(10, 30, 0)] * 3
    assert bound(*three, workers=(480,) * 3, clamps=(480,)) == Bound(
        ends_min=600, why="one clamp set takes 3 frames in turn, 40 min each or more"
    )
    assert bound(*three, workers=(480,) * 3, clamps=(480, 480)).ends_min == 560
    single = bound((10, 30, 0), workers=(480,), clamps=(480,))
    assert single.ends_min == 520


def test_where_all_are_glued_the_end_is_that_of_the_last_set() -> None:
    assert bound(workers=(480,), clamps=(500, 700)) == Bound(ends_min=700, why="all are glued")
    assert list(bounds_from([], day=DAY, free=Free(workers=(480,), clamps=(500,), from_min=480))) == [0]
