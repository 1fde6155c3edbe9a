"""Room for connections: nobody who only holds the line keeps out somebody who asks for something.

A *guest* is an open connection. It is *waiting* while it is the other side's turn: to send a request, the rest of one,
or to take an answer. Where a circle of guests is full, the one that has been waiting longest goes, so a newcomer finds
a place; only where each is being served is the newcomer told that the server is busy. Strangers share a small circle,
and each of their addresses a smaller one: the shop's own computer and paired devices always have the rest.
"""

from collections.abc import Collection, Iterator
from typing import Protocol

MOST_OPEN = 150
"""Connections at once: with those just accepted and those just sent away it stays under 256 open files, which is what
some systems grant a program."""

MOST_STRANGERS = 30
"""Of those, strangers': five browsers with six connections each. Fewer than the forty threads that answer requests."""

MOST_OF_ONE_STRANGER = 12
"""Of those, one address's: two browsers."""


class Guest(Protocol):
    """An open connection."""

    @property
    def address(self) -> str:
        """Where it comes from."""

    @property
    def is_stranger(self) -> bool:
        """Whether it is neither from this computer nor from a paired device, as far as is known by now."""

    @property
    def waiting_since(self) -> float | None:
        """Since when it has been the other side's turn; None while an answer is worked out."""

    def leave(self) -> None:
        """Go at once."""


def make_room(new: Guest, guests: Collection[Guest]) -> bool:
    """Let those go that have been waiting longest where a new guest makes a circle too large; say if that sufficed.

    Args:
        guests: all that are open and stay, the new one among them.
    """
    return all([_fits(new, circle, most) for circle, most in _circles(new, guests)])


def _circles(new: Guest, guests: Collection[Guest]) -> Iterator[tuple[list[Guest], int]]:
    strangers = [guest for guest in guests if guest.is_stranger]
    if new.is_stranger:
        yield [guest for guest in strangers if guest.address == new.address], MOST_OF_ONE_STRANGER
        yield strangers, MOST_STRANGERS
    yield list(guests), MOST_OPEN


def _fits(new: Guest, circle: list[Guest], most: int) -> bool:
    if len(circle) <= most:
        return True
    waiting = [(not guest.is_stranger, since, guest) for guest in circle if (since := _since(guest, new)) is not None]
    if waiting:
        min(waiting, key=lambda one: one[:2])[2].leave()
    return bool(waiting)


def _since(guest: Guest, new: Guest) -> float | None:
    return None if guest is new else guest.waiting_since
