"""Where in the text of a file each of its values stands, and what stands in it that no file may hold.

A *place* is the way to a value through a document: the name in an object, the position in a list. *Half a letter* is a
surrogate without its other half: JSON can write it, but no text can carry it.
"""

import json
import re
from collections.abc import Iterator
from math import inf
from typing import TypeAlias

from framecalc.errors import UnreadableProject
from framecalc.records import Mutable, Record, field

JsonPlace: TypeAlias = tuple[str | int, ...]

_TOKEN = re.compile(r'"(?:[^"\\]|\\.)*"|[{}\[\],]|[^\s{}\[\],:"]+')
_HALF_LETTER = re.compile("[\ud800-\udfff]")


class Places(Record):
    """The line of each value, from 1; which names stand twice in one object; where half a letter stands."""

    lines: dict[JsonPlace, int]
    twice: tuple[JsonPlace, ...]
    halves: tuple[JsonPlace, ...]


class _Inside(Mutable):
    """The object or the list that is being read, and how far."""

    place: JsonPlace
    is_object: bool
    names: set[str] = field(default_factory=set)
    name: str | None = None
    position: int = 0

    @property
    def here(self) -> JsonPlace:
        """The place of the value that is read or comes next."""
        return (*self.place, (self.name or "") if self.is_object else self.position)

    def go_on(self) -> None:
        """A comma: the next value follows."""
        self.name, self.position = None, self.position + 1


def places_in(text: str, *, most: float = inf) -> Places:
    """Find the line of every value in a text that can be read as JSON.

    Args:
        text: the text.
        most: as many values it may hold.
    Raises:
        UnreadableProject: it holds more.
    Source: derived (RFC 8259, the grammar).

    >>> places_in('{"a": 1,\\n "a": [2,\\n 3]}')
    Places(lines={(): 1, ('a',): 2, ('a', 0): 2, ('a', 1): 3}, twice=(('a',),), halves=())
    """
    lines: dict[JsonPlace, int] = {}
    twice: list[JsonPlace] = []
    halves: list[JsonPlace] = []
    inside: list[_Inside] = []
    for token, line in _tokens(text):
        top = inside[-1] if inside else None
        here = top.here if top else ()
        if token in ("}", "]"):
            inside.pop()
        elif token == "," and top:
            top.go_on()
        elif top and top.is_object and top.name is None:
            name = top.name = json.loads(token)
            twice += [top.here] if name in top.names else []
            halves += [top.here] if _HALF_LETTER.search(name) else []
            top.names.add(name)
        else:
            lines[here] = line
            if len(lines) > most:
                raise UnreadableProject("This file has more values than any project: choose another")
            halves += [here] if token[0] == '"' and _HALF_LETTER.search(json.loads(token)) else []
            if token in ("{", "["):
                inside.append(_Inside(place=here, is_object=token == "{"))
    return Places(lines=lines, twice=tuple(twice), halves=tuple(halves))


def _tokens(text: str) -> Iterator[tuple[str, int]]:
    line, counted = 1, 0
    for found in _TOKEN.finditer(text):
        line += text.count("\n", counted, found.start())
        counted = found.start()
        yield found[0], line
