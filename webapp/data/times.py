"""Times as the files keep them: ISO 8601, with a zone."""

from datetime import datetime


def is_time(text: str) -> bool:
    """Whether a text is a time that can be shown.

    >>> is_time("2026-03-01T09:00:00Z"), is_time("yesterday"), is_time("")
    (True, False, False)
    """
    try:
        datetime.fromisoformat(text).astimezone()
    except (ValueError, OverflowError):
        return False
    return True
