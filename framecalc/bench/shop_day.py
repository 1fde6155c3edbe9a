"""The hours of a shop: when work may begin, and how long it takes on the clock.

Minutes count from the midnight before the first working day; each later day begins 1440 minutes on. Hands work within
the hours of a day and never leave a piece of work for the next; glue goes on setting at night and on closed days.
"""

import re
from enum import StrEnum

from framecalc.errors import OutOfRange
from framecalc.records import Record

DAY_MIN = 24 * 60
WEEK_DAYS = 7


class Week(StrEnum):
    """The days on which a shop works."""

    EVERY_DAY = "every day"
    NOT_SUNDAY = "not on Sundays"
    NOT_WEEKEND = "Monday to Friday"


CLOSED_ON = {
    Week.EVERY_DAY: frozenset[int](),
    Week.NOT_SUNDAY: frozenset({6}),
    Week.NOT_WEEKEND: frozenset({5, 6}),
}
"""The weekdays on which hands rest, 0 a Monday."""


class ShopDay(Record):
    """The hours of a working day, from midnight [min], the first one's weekday, and the weekdays off; 0 a Monday."""

    opens_min: int
    closes_min: int
    first_weekday: int = 0
    closed_on: frozenset[int] = frozenset()

    @property
    def length_min(self) -> int:
        """How long it is."""
        return self.closes_min - self.opens_min

    def begin(self, at_min: int, *, lasting_min: int) -> int:
        """The first minute from which hands have this long before the shop closes.

        Raises:
            OutOfRange: it is longer than a working day.
        Source: derived.

        >>> ShopDay(opens_min=480, closes_min=1020).begin(1015, lasting_min=9)
        1920
        """
        if lasting_min > self.length_min:
            raise OutOfRange("One glue-up takes longer than the working hours", field="closes")
        day, minute = divmod(at_min, DAY_MIN)
        minute = max(minute, self.opens_min)
        if minute + lasting_min > self.closes_min:
            day, minute = day + 1, self.opens_min
        worked = self._worked(day)
        return worked * DAY_MIN + (minute if worked == day else self.opens_min)

    def _worked(self, day: int) -> int:
        """This day, or the next one that is worked."""
        while (self.first_weekday + day) % WEEK_DAYS in self.closed_on:
            day += 1
        return day

    def after(self, at_min: int, *, working_min: int) -> int:
        """The minute at which this much working time has gone by.

        Source: derived.

        >>> ShopDay(opens_min=480, closes_min=1020).after(1000, working_min=30)
        1930
        """
        if working_min <= 0:
            return at_min
        begin_min = self.begin(at_min, lasting_min=0)
        day, minute = divmod(begin_min, DAY_MIN)
        days, rest_min = divmod(minute - self.opens_min + working_min, self.length_min)
        if rest_min == 0:
            days, rest_min = days - 1, self.length_min
        for _ in range(days):
            day = self._worked(day + 1)
        return day * DAY_MIN + self.opens_min + rest_min


_CLOCK = re.compile(r"([01]?[0-9]|2[0-3])[:.h]([0-5][0-9])")


def read_clock(text: str) -> int:
    """Minutes after midnight of a time of the day as typed.

    Raises:
        OutOfRange: it is no such time.
    Source: derived.

    >>> read_clock("8:30"), read_clock("17.05")
    (510, 1025)
    """
    found = _CLOCK.fullmatch(text.strip())
    if found is None:
        raise OutOfRange("Enter a time of the day, such as 8:30")
    return 60 * int(found[1]) + int(found[2])


def write_clock(at_min: int) -> str:
    """A time of the day, whatever the day.

    Source: derived.

    >>> write_clock(1440 + 545)
    '9:05'
    """
    hour, minute = divmod(at_min % DAY_MIN, 60)
    return f"{hour}:{minute:02d}"
