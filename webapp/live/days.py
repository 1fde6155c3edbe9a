"""Times of the store as people read them, in the computer's own zone."""

from datetime import datetime


def day(when: str) -> str:
    """The day of a time for people, in the computer's own zone; nothing of nothing.

    >>> day("")
    ''
    """
    if not when:
        return ""
    local = datetime.fromisoformat(when).astimezone()
    return f"{local.day} {local:%b %Y}"


def written_when(when: str) -> str:
    """A time of the store for people: the day and the minute, in the computer's own zone.

    >>> written_when("")
    ''
    """
    if not when:
        return ""
    return datetime.fromisoformat(when).astimezone().strftime("%-d %b %Y, %H:%M")
