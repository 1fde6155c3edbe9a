"""Times as the files keep them: ISO 8601, with a zone."""

from datetime import date, datetime


def is_time(text: str) -> bool:
    """Whether a text is a time that can be shown, and held against others.

    >>> is_time("2026-03-01T09:00:00Z"), is_time("2026-03-01T09:00:00"), is_time("yesterday"), is_time("")
    (True, False, False, False)
    """
    try:
        found = datetime.fromisoformat(text)
        found.astimezone()
    except (ValueError, OverflowError):
        return False
    return found.tzinfo is not None


def is_day(text: str) -> bool:
    """Whether a text is a day.

    >>> is_day("2026-03-01"), is_day("2026-13-45"), is_day("")
    (True, False, False)
    """
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True
