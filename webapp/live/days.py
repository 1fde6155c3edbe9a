"""Times of the store written for people, in the computer's own time zone; blank where a file has none or no such."""

from datetime import datetime

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
