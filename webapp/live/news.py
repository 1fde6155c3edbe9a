"""What pages show already, so that an answer sends only what is new, and nothing where nothing is.

A *token* stands for the parts that a page holds once it has taken an answer. The page sends the last one it took with
the next form; without one, or with one that is forgotten here, it gets all parts. A lost answer does no harm: the page
still sends the token of the one before.
"""

import secrets
from collections import OrderedDict
from collections.abc import Iterator, Mapping
from threading import Lock

from starlette.requests import Request

from framecalc.records import Record, field

MOST_TOKENS = 256
"""Answers that are remembered, of all pages that are open. One takes up to 20 kB, for a page of about 100 parts."""

_BEGIN, _END = "<hx-partial", "</hx-partial>"
TOKEN = "x-holds"
"""The header in which an answer says its token."""


class Held(Record):
    """What a page holds: the hash of each part by its place, and of the form that was answered."""

    parts: Mapping[str, int] = field(default_factory=dict)
    asked: int = 0


NOTHING_HELD = Held()


class News:
    """What the pages of one server hold, by token; every method may be called from any thread."""

    def __init__(self, *, most: int = MOST_TOKENS) -> None:
        self._most = most
        self._held: OrderedDict[str, Held] = OrderedDict()
        self._lock = Lock()

    def is_answered(self, token: str, *, asked: int) -> bool:
        """Whether a page has taken the answer to this very form last."""
        return token != "" and self._find(token).asked == asked

    def since(self, token: str, parts: str, *, asked: int) -> tuple[str, str]:
        """The parts that a page does not hold yet, and its new token; both blank where it holds all of them.

        Args:
            token: the one that the page sent.
            parts: all parts, as `<hx-partial>`s.
            asked: the hash of the form that they answer.
        """
        held, new = self._find(token), list[str]()
        now: dict[str, int] = {}
        for before, part in _each(parts):
            target, now_hash = part.split('"', 2)[1], hash(part)
            is_held = held.parts.get(target) == now_hash
            new += (before,) if is_held else (before, _BEGIN, part, _END)
            now[target] = now_hash
        if now.items() <= held.parts.items():
            self._keep(token, Held(parts=held.parts, asked=asked))
            return "", ""
        kept = _without_overlaid(held.parts, now) | now
        return "".join(new).strip(), self._keep(secrets.token_urlsafe(9), Held(parts=kept, asked=asked))

    def _find(self, token: str) -> Held:
        with self._lock:
            if token in self._held:
                self._held.move_to_end(token)
            return self._held.get(token, NOTHING_HELD)

    def _keep(self, token: str, held: Held) -> str:
        with self._lock:
            self._held[token] = held
            if len(self._held) > self._most:
                self._held.popitem(last=False)
        return token


def _each(parts: str) -> Iterator[tuple[str, str]]:
    """What stands before each part, and the part itself: its target is the first of its attributes."""
    for piece in parts.split(_END)[:-1]:
        before, _, part = piece.partition(_BEGIN)
        yield before, part


def _without_overlaid(held: Mapping[str, int], now: Mapping[str, int]) -> dict[str, int]:
    """What a page held and still holds: a part and a part within it, "#plans #one" in "#plans", renew each other."""
    sent = {place for place, part in now.items() if held.get(place) != part}
    around = {above for place in sent for above in _around(place)}
    return {place: part for place, part in held.items() if place not in around and sent.isdisjoint(_around(place))}


def _around(place: str) -> list[str]:
    """The places that a place lies within: "#plans" of "#plans #one"."""
    return [place[:at] for at, letter in enumerate(place) if letter == " "] if " " in place else []


def news_of(request: Request) -> News:
    """What the pages of this server hold."""
    found: News = request.app.state.news
    return found
