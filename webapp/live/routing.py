"""The routes of all pages, as one route of the application: a page's view is imported when somebody first asks for it.

Which page that is follows from its address. What a page answers elsewhere is found too, by asking the others in turn.
"""

from collections.abc import Sequence
from functools import lru_cache, partial
from itertools import takewhile

from starlette.routing import BaseRoute, Match
from starlette.types import Receive, Scope, Send

from webapp.live.page import Page, Pages

KEPT = 256
"""For how many paths it is remembered in which order the pages are asked."""


class PageRoutes(BaseRoute):
    """Whatever pages answer."""

    def __init__(self, pages: Pages) -> None:
        self._nearest_first = lru_cache(maxsize=KEPT)(partial(nearest_first, pages))

    def matches(self, scope: Scope) -> tuple[Match, Scope]:
        """Find the route for a request; a path belongs to one page, whatever is done there."""
        for page in self._nearest_first(path=scope["path"]):
            match, found = _match_within(page.view.routes, scope)
            if match is not Match.NONE:
                return match, found
        return Match.NONE, {}

    async def handle(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let the route that was found answer."""
        await scope["route"].handle(scope, receive, send)


def _match_within(routes: Sequence[BaseRoute], scope: Scope) -> tuple[Match, Scope]:
    """The first route that answers; failing that, the first that would for another method."""
    nearly: tuple[Match, Scope] = Match.NONE, {}
    for route in routes:
        match, found = route.matches(scope)
        if match is Match.FULL:
            return match, {**found, "route": route}
        if match is Match.PARTIAL and nearly[0] is Match.NONE:
            nearly = match, {**found, "route": route}
    return nearly


def nearest_first(pages: Pages, *, path: str) -> tuple[Page, ...]:
    """The pages in the order in which they are asked: first those whose whole address begins the path, the longest."""
    asked = _parts(path)

    def distance(page: Page) -> tuple[int, int]:
        return min(_distance(_parts(one), asked) for one in (page.path, *page.elsewhere))

    return tuple(sorted(pages, key=distance))


def _distance(ours: Sequence[str], asked: Sequence[str]) -> tuple[int, int]:
    """How far an address is from one that is asked for: what it has more, and what both share, as less than nothing."""
    shared = sum(1 for _ in takewhile(_agrees, zip(ours, asked, strict=False)))
    return len(ours) - shared, -shared


def _agrees(parts: tuple[str, str]) -> bool:
    ours, asked = parts
    return ours == asked or ours.startswith("{")


def _parts(path: str) -> list[str]:
    return path.strip("/").split("/")
