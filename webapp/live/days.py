"""Times of the store written for people, in the computer's own time zone."""

from datetime import datetime


def day(when: str) -> str:
    """The day of a time, in the computer's own time zone; a blank stays blank.

    >>> day("")
    ''
    """
    if not when:
        return ""
    local = datetime.fromisoformat(when).astimezone()
    return f"{local.day} {local:%b %Y}"


def written_when(when: str) -> str:
    """The day and the minute of a time, in the computer's own time zone; a blank stays blank.

    >>> written_when("")
    ''
    """
    if not when:
        return ""
    return datetime.fromisoformat(when).astimezone().strftime("%-d %b %Y, %H:%M")
