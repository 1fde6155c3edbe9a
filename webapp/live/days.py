"""Times of the store written for people, in the computer's own time zone; blank where a file has none or no such."""

from datetime import date, datetime

from framecalc.words import Words, day_said
from webapp.data.times import is_time


def day(when: str) -> str:
    """The day of a time, in the computer's own time zone; a blank stays blank.

    >>> day(""), day("yesterday")
    ('', '')
    """
    if not is_time(when):
        return ""
    local = datetime.fromisoformat(when).astimezone()
    return f"{local.day} {local:%b %Y}"


def written_when(when: str) -> str:
    """The day and the minute of a time, in the computer's own time zone; a blank stays blank.

    >>> written_when("")
    ''
    """
    if not is_time(when):
        return ""
    return datetime.fromisoformat(when).astimezone().strftime("%-d %b %Y, %H:%M")


def with_age(when: datetime, *, today: date) -> str:
    """A time in the computer's own time zone, and how many days ago that was.

    >>> with_age(datetime(2026, 11, 27, 18, 30).astimezone(), today=date(2026, 11, 30))
    '27 Nov 2026, 18:30, 3 days ago'
    """
    days = (today - when.astimezone().date()).days
    age = {0: "today", 1: "yesterday"}.get(days, f"{days} days ago")
    return f"{written_when(when.isoformat())}, {age}" if days >= 0 else written_when(when.isoformat())


def day_in(when: str, words: Words) -> str:
    """The day of a time as the shop writes it, in the computer's own time zone; a blank stays blank.

    >>> day_in("", Words.US)
    ''
    """
    return day_said(datetime.fromisoformat(when).astimezone().date(), words) if is_time(when) else ""


def minute_in(when: str, words: Words) -> str:
    """The day as the shop writes it and the minute, in the computer's own time zone; a blank stays blank.

    >>> minute_in("", Words.US)
    ''
    """
    return f"{day_in(when, words)}, {datetime.fromisoformat(when).astimezone():%H:%M}" if is_time(when) else ""
