"""Whose turn it is: what waits to be worked out, one thing of each project after another.

A *search* is one press of a button: all that is asked for on one page of one project, until it is pressed again.
"""

from collections import deque
from collections.abc import Callable
from typing import Generic, TypeVar

from framecalc.records import Mutable, field

Thing = TypeVar("Thing")


class Search(Mutable, kw_only=True, eq=False):
    """One press of a button.

    `keys`: the problems that it asks for. `is_outdated`: a newer press on the same page has taken its place.
    `is_called_off`: it has been stopped, so what follows is answered without searching.
    """

    project: str = ""
    page: str = ""
    keys: set[str] = field(default_factory=set)
    is_outdated: bool = False
    is_called_off: bool = False


class Turns(Generic[Thing]):
    """What waits, by project: first come first served within one, in turn between them. Not safe without a lock."""

    def __init__(self) -> None:
        self._waiting: dict[str, deque[Thing]] = {}

    def put(self, thing: Thing, *, project: str) -> None:
        """Let something wait for a turn of its project."""
        self._waiting.setdefault(project, deque()).append(thing)

    def next(self) -> Thing | None:
        """Take what is next; its project waits behind the others then. None where nothing waits."""
        if not self._waiting:
            return None
        project, things = next(iter(self._waiting.items()))
        thing = things.popleft()
        del self._waiting[project]
        if things:
            self._waiting[project] = things
        return thing

    def take_out(self, which: Callable[[Thing], bool]) -> Thing | None:
        """Take something out of the line before its turn; None where it does not wait."""
        for project, things in self._waiting.items():
            for thing in things:
                if which(thing):
                    things.remove(thing)
                    if not things:
                        del self._waiting[project]
                    return thing
        return None
