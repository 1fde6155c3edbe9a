"""A calendar file with an alarm at each step, as every calendar program reads it: iCalendar.

Times are those of the shop's own clock, without a time zone: they mean the same hour wherever the file is opened.
"""

from collections.abc import Iterable
from datetime import datetime, timedelta

from icalendar import Alarm, Calendar, Event

from framecalc.records import Record


class Entry(Record):
    """One step: a key that stays the same when it moves, when it begins and ends, and what it is."""

    key: str
    begins: datetime
    ends: datetime
    says: str


def calendar_file(entries: Iterable[Entry], *, name: str, written: datetime) -> bytes:
    """A calendar file.

    Args:
        name: of the calendar.
        written: when it is written, in universal time.
    """
    calendar = Calendar()
    calendar.add("version", "2.0")
    calendar.add("prodid", "-//Rabbetry//Glue-up timetable//EN")
    calendar.add("x-wr-calname", _on_one_line(name))
    for entry in entries:
        calendar.add_component(_event(entry, written))
    return bytes(calendar.to_ical())


def _event(entry: Entry, written: datetime) -> Event:
    event, alarm, says = Event(), Alarm(), _on_one_line(entry.says)
    event.add("uid", f"{entry.key}@rabbetry")
    event.add("dtstamp", written)
    event.add("dtstart", entry.begins)
    event.add("dtend", entry.ends)
    event.add("summary", says)
    alarm.add("action", "DISPLAY")
    alarm.add("trigger", timedelta(0))
    alarm.add("description", says)
    event.add_component(alarm)
    return event


def _on_one_line(text: str) -> str:
    """A typed name without signs that nobody sees: a line of the file ends at some of them."""
    return "".join(sign if sign.isprintable() else " " for sign in text)
