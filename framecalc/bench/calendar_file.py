"""A calendar file with an alarm at each step, as every calendar program reads it: iCalendar.

Times are those of the shop's own clock, without a time zone: they mean the same hour wherever the file is opened.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime

_LINE_BYTES = 75
"""The longest line. Source: RFC 5545, section 3.1, from memory, not re-read."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One step: a key that stays the same when it moves, when it begins and ends, and what it is."""

    key: str
    begins: datetime
    ends: datetime
    says: str


def calendar_text(entries: Iterable[Entry], *, name: str, written: datetime) -> str:
    """The text of a calendar file.

    Args:
        name: of the calendar.
        written: when it is written, in universal time.
    Source: RFC 5545, sections 3.1, 3.3.5, 3.3.11, 3.6.1 and 3.6.6, from memory, not re-read.

    >>> calendar_text([], name="Hall; stairs", written=datetime(2026, 11, 30)).splitlines()[3]
    'X-WR-CALNAME:Hall\\\\; stairs'
    """
    lines = (
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Rabbetry//Glue-up timetable//EN",
        f"X-WR-CALNAME:{_escaped(name)}",
        *(line for entry in entries for line in _event(entry, written)),
        "END:VCALENDAR",
    )
    return "".join(f"{_folded(line)}\r\n" for line in lines)


def _event(entry: Entry, written: datetime) -> Iterator[str]:
    says = _escaped(entry.says)
    yield from ("BEGIN:VEVENT", f"UID:{entry.key}@rabbetry", f"DTSTAMP:{written:%Y%m%dT%H%M%S}Z")
    yield from (f"DTSTART:{entry.begins:%Y%m%dT%H%M%S}", f"DTEND:{entry.ends:%Y%m%dT%H%M%S}", f"SUMMARY:{says}")
    yield from ("BEGIN:VALARM", "ACTION:DISPLAY", "TRIGGER:PT0M", f"DESCRIPTION:{says}", "END:VALARM", "END:VEVENT")


def _escaped(text: str) -> str:
    plain = "".join(letter for letter in text if letter.isprintable() or letter == "\n")
    return re.sub(r"([\\;,])", r"\\\1", plain).replace("\n", "\\n")


def _folded(line: str) -> str:
    """A long line goes on behind a break and a blank; no letter is cut in two."""
    parts: list[str] = []
    part = ""
    for letter in line:
        if len((part + letter).encode()) > _LINE_BYTES - bool(parts):
            parts.append(part)
            part = ""
        part += letter
    return "\r\n ".join((*parts, part))
