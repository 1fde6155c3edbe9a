"""The hours of a shop, against a clock that is looked at every minute; times of the day read and written."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from framecalc.bench.shop_day import CLOSED_ON, DAY_MIN, ShopDay, Week, read_clock, write_clock
from framecalc.errors import OutOfRange

DAYS = some.builds(
    ShopDay,
    opens_min=some.integers(400, 500),
    closes_min=some.integers(520, 600),
    first_weekday=some.integers(0, 6),
    closed_on=some.sampled_from([*CLOSED_ON.values()]),
)


def is_open(day: ShopDay, at_min: int) -> bool:
    """Whether hands may work in the minute that begins then."""
    number, minute = at_min // DAY_MIN, at_min % DAY_MIN
    return day.opens_min <= minute < day.closes_min and (day.first_weekday + number) % 7 not in day.closed_on


@settings(max_examples=12)
@given(day=DAYS, at_min=some.integers(0, 8 * DAY_MIN), lasting_min=some.integers(1, 20))
def test_work_begins_in_the_first_minute_from_which_it_is_done_before_the_shop_closes(
    day: ShopDay, at_min: int, lasting_min: int
) -> None:
    begins = day.begin(at_min, lasting_min=lasting_min)
    assert begins == next(
        minute
        for minute in range(at_min, at_min + 5 * DAY_MIN)
        if is_open(day, minute) and is_open(day, minute + lasting_min - 1)
    )


@settings(max_examples=12)
@given(day=DAYS, at_min=some.integers(0, 8 * DAY_MIN), working_min=some.integers(1, 300))
def test_working_time_goes_by_in_open_minutes_alone(day: ShopDay, at_min: int, working_min: int) -> None:
    done = day.after(at_min, working_min=working_min)
    assert is_open(day, done - 1) and sum(is_open(day, minute) for minute in range(at_min, done)) == working_min
    assert day.after(at_min, working_min=0) == at_min


def test_work_may_end_in_the_minute_in_which_the_shop_closes_and_take_all_of_a_day() -> None:
    day = ShopDay(opens_min=480, closes_min=1020)
    assert (day.length_min, day.begin(1010, lasting_min=10), day.begin(0, lasting_min=540)) == (540, 1010, 480)
    assert [day.after(480, working_min=540 * days) for days in (1, 2)] == [1020, DAY_MIN + 1020]
    with pytest.raises(OutOfRange):
        day.begin(0, lasting_min=541)


def test_hands_rest_on_the_last_days_of_a_week() -> None:
    """ISO 8601: a week begins on Monday, here 0."""
    resting = {week: sorted(days) for week, days in CLOSED_ON.items()}
    assert resting == {Week.EVERY_DAY: [], Week.NOT_SUNDAY: [6], Week.NOT_WEEKEND: [5, 6]}


def test_every_minute_of_a_day_is_read_as_it_is_written() -> None:
    assert all(read_clock(write_clock(at_min)) == at_min for at_min in range(DAY_MIN))
    assert (write_clock(3 * DAY_MIN + 61), read_clock(" 07h30 "), read_clock("23:59")) == ("1:01", 450, 1439)


@pytest.mark.parametrize("text", ["", "8", "24:00", "8:60", "8:5", "-8:30", "8:30 pm"])
def test_what_is_no_time_of_the_day_is_refused(text: str) -> None:
    with pytest.raises(OutOfRange, match="such as 8:30"):
        read_clock(text)
