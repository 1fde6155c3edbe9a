"""The glue-up timetable against two strangers: every order on a minute grid, and an integer programme."""

from bisect import bisect_left
from collections.abc import Sequence
from functools import cache
from itertools import islice, permutations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

from framecalc.bench.shop_day import ShopDay
from framecalc.bench.timetable import GlueRoom, Timetable, best_timetable
from framecalc.bench.timetable_bound import Bound, GlueUp
from framecalc.errors import OutOfRange

DAY = ShopDay(opens_min=480, closes_min=1020)
FRIDAY = ShopDay(opens_min=540, closes_min=600, first_weekday=4, closed_on=frozenset({5, 6}))

glue_ups = st.lists(
    st.tuples(st.integers(1, 30), st.integers(0, 120), st.sampled_from([0, 0, 500, 560])), min_size=1, max_size=5
).map(
    lambda parts: [
        GlueUp(key=str(number), hands_on_min=hands, clamped_min=clamped, from_min=from_min)
        for number, (hands, clamped, from_min) in enumerate(parts)
    ]
)


def room(clamp_sets: int, workers: int, day: ShopDay = DAY, begun: tuple[tuple[GlueUp, int], ...] = ()) -> GlueRoom:
    return GlueRoom(day=day, clamp_sets=clamp_sets, workers=workers, begun=begun)


@cache
def open_minutes(day: ShopDay) -> tuple[int, ...]:
    """The minutes of ten days at which the shop is open."""
    open_days = [number for number in range(10) if (day.first_weekday + number) % 7 not in day.closed_on]
    return tuple(1440 * number + minute for number in open_days for minute in range(day.opens_min, day.closes_min))


def on_a_grid(order: Sequence[GlueUp], *, clamp_sets: int, workers: int, day: ShopDay) -> int:
    """Put each in turn at the first minute at which hands and a set are free all through; when the last comes off."""
    hands, clamps = bytearray(15000), bytearray(15000)
    minutes, ends = open_minutes(day), 0
    for one in order:
        at = next(
            at
            for at in islice(minutes, bisect_left(minutes, one.from_min), None)
            if at % 1440 + one.hands_on_min <= day.closes_min
            and max(hands[at : at + one.hands_on_min]) < workers
            and max(clamps[at : at + one.holds_min]) < clamp_sets
        )
        for taken, lasts_min in ((hands, one.hands_on_min), (clamps, one.holds_min)):
            taken[at : at + lasts_min] = bytes(count + 1 for count in taken[at : at + lasts_min])
        ends = max(ends, at + one.holds_min)
    return ends


def require_honest(
    timetable: Timetable, wanted: Sequence[GlueUp], *, clamp_sets: int, workers: int, day: ShopDay
) -> None:
    """Every frame once, no hands and no set twice at a time, all hands within the hours."""
    assert sorted(one.glue_up.key for one in timetable.placed) == sorted(one.key for one in wanted)
    hands, clamps = np.zeros((workers, 15000), int), np.zeros((clamp_sets, 15000), int)
    for one in timetable.placed:
        hands[one.worker, one.starts_min : one.closed_min] += 1
        clamps[one.clamp, one.starts_min : one.ends_min] += 1
        assert one.starts_min >= one.glue_up.from_min
        assert (day.first_weekday + one.starts_min // 1440) % 7 not in day.closed_on
        assert (
            day.opens_min <= one.starts_min % 1440
            and one.starts_min % 1440 + one.glue_up.hands_on_min <= day.closes_min
        )
    assert hands.max() <= 1 and clamps.max() <= 1
    assert hands.sum() == sum(one.hands_on_min for one in wanted)
    assert clamps.sum() == sum(one.holds_min for one in wanted)
    assert timetable.bound.ends_min <= timetable.ends_min


@settings(max_examples=40, deadline=None)
@given(
    glue_ups,
    st.integers(1, 3),
    st.integers(1, 2),
    st.sampled_from([DAY, FRIDAY, ShopDay(opens_min=540, closes_min=600)]),
)
def test_no_order_on_a_grid_ends_before_the_best(
    wanted: list[GlueUp], clamp_sets: int, workers: int, day: ShopDay
) -> None:
    found = best_timetable(tuple(wanted), room=room(clamp_sets, workers, day))
    require_honest(found, wanted, clamp_sets=clamp_sets, workers=workers, day=day)
    assert found.is_best
    assert found.ends_min == min(
        on_a_grid(order, clamp_sets=clamp_sets, workers=workers, day=day) for order in permutations(wanted)
    )


def by_programme(wanted: Sequence[GlueUp], *, clamp_sets: int, workers: int, open_min: int) -> int:
    """The least end by an integer programme: one yes or no for each frame and minute of its start."""
    last = open_min + sum(one.holds_min for one in wanted)
    starts = [(one, at) for one in wanted for at in range(max(open_min, one.from_min), last)]
    columns = len(starts) + 1
    rows, low, high = [], [], []

    def add(row: dict[int, float], least: float, most: float) -> None:
        dense = np.zeros(columns)
        dense[list(row)] = list(row.values())
        rows.append(dense)
        low.append(least)
        high.append(most)

    for one in wanted:
        own = [number for number, (of, _) in enumerate(starts) if of is one]
        add(dict.fromkeys(own, 1.0), 1, 1)
        add({**{number: starts[number][1] + one.holds_min for number in own}, columns - 1: -1.0}, -np.inf, 0)
    for minute in range(open_min, last):
        on = [(number, of, at) for number, (of, at) in enumerate(starts) if at <= minute]
        add({number: 1.0 for number, of, at in on if minute < at + of.hands_on_min}, 0, workers)
        add({number: 1.0 for number, of, at in on if minute < at + of.holds_min}, 0, clamp_sets)
    cost = np.zeros(columns)
    cost[-1] = 1
    whole = np.ones(columns)
    found = milp(
        cost,
        constraints=LinearConstraint(np.array(rows), low, high),
        integrality=whole,
        bounds=Bounds(0, [*([1] * len(starts)), last * 2]),
    )
    assert found.success
    return round(found.fun)


@pytest.mark.parametrize(("clamp_sets", "workers"), [(1, 1), (2, 1), (2, 2), (3, 1)])
def test_an_integer_programme_finds_no_earlier_end(clamp_sets: int, workers: int) -> None:
    sizes = ((3, 9, 0), (2, 4, 0), (4, 6, 490), (1, 12, 0), (3, 3, 484))
    wanted = [
        GlueUp(key=str(n), hands_on_min=hands, clamped_min=clamped, from_min=at)
        for n, (hands, clamped, at) in enumerate(sizes)
    ]
    found = best_timetable(tuple(wanted), room=room(clamp_sets, workers))
    assert found.is_best
    assert found.ends_min == by_programme(wanted, clamp_sets=clamp_sets, workers=workers, open_min=480)


@pytest.mark.parametrize("count", [7, 40])
def test_many_frames_keep_every_rule_and_stay_above_the_bound(count: int) -> None:
    wanted = [GlueUp(key=str(n), hands_on_min=5 + n % 4, clamped_min=20 + 7 * (n % 5)) for n in range(count)]
    found = best_timetable(tuple(wanted), room=room(3, 1))
    require_honest(found, wanted, clamp_sets=3, workers=1, day=DAY)
    more = best_timetable(tuple(wanted), room=room(4, 1))
    assert more.bound.ends_min <= found.bound.ends_min


def test_what_is_begun_stays_where_it_was_and_the_rest_follows() -> None:
    first, second = (GlueUp(key=key, hands_on_min=10, clamped_min=30) for key in "ab")
    planned = best_timetable((first, second), room=room(1, 1))
    late = best_timetable((second,), room=room(1, 1, begun=((first, 495),)))
    assert [one.starts_min for one in planned.placed] == [480, 520]
    assert [(one.glue_up.key, one.starts_min, one.is_glued) for one in late.placed] == [
        ("a", 495, True),
        ("b", 535, False),
    ]
    assert late.ends_min == 575 and late.is_best


def test_work_longer_than_a_day_is_refused() -> None:
    with pytest.raises(OutOfRange, match="longer than the working hours"):
        best_timetable((GlueUp(key="a", hands_on_min=541, clamped_min=0),), room=room(1, 1))


def test_where_there_is_enough_of_everything_the_bound_is_the_end_of_the_longest() -> None:
    wanted = tuple(
        GlueUp(key=key, hands_on_min=10, clamped_min=long, from_min=0) for key, long in (("a", 30), ("b", 90))
    )
    found = best_timetable(wanted, room=room(2, 2))
    assert found.bound.ends_min == found.ends_min == DAY.opens_min + 100


def test_nothing_to_glue_is_done_at_once() -> None:
    assert Timetable(placed=(), bound=Bound(ends_min=0, why=""), is_searched=True).ends_min == 0
