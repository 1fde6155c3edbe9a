"""A page as one record: what it is called, where it is, its routes.

From the list of these records come the menu, the routes, the addresses, what the revision list calls a field, and the
walk of the tests through all pages.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from fastapi import APIRouter, Request
from starlette.routing import BaseRoute

from webapp.live.addresses import CLIENT_VIEW, FRAME, PROJECT, Address


class Place(StrEnum):
    """Whose a page is, by how its address begins."""

    FRAME = FRAME
    PROJECT = PROJECT
    CLIENT = CLIENT_VIEW
    SHOP = ""


@dataclass(frozen=True, kw_only=True)
class Page:
    """One page.

    `name` is that of its folder in webapp/pages and in templates; `title` its word in the menu and over it. A page that
    is not in the menu itself may stand `under` another one there.
    """

    name: str
    title: str
    path: Address
    in_menu: bool = True
    under: str = ""
    router: APIRouter = field(default_factory=APIRouter)

    @property
    def place(self) -> Place:
        """Whose it is."""
        return next(place for place in Place if self.path.startswith(place))

    @property
    def tail(self) -> str:
        """Its address after that of the frame or project that it belongs to."""
        return self.path.removeprefix(self.place).strip("/")

    @property
    def entry(self) -> str:
        """The name of the page that stands for it in the menu."""
        return self.under or self.name

    @property
    def template(self) -> str:
        """The template of the page."""
        return f"{self.name}/page"

    @property
    def routes(self) -> Sequence[BaseRoute]:
        """Everything that it answers to."""
        return self.router.routes

    def address(self, **holes: object) -> str:
        """Where it is, for a project and a frame; what its address does not name does not matter."""
        return self.path(**holes)


@dataclass(frozen=True, slots=True)
class Pages:
    """Every page, in the order of the menu."""

    pages: tuple[Page, ...]

    def __iter__(self) -> Iterator[Page]:
        return iter(self.pages)

    @property
    def of_shop(self) -> tuple[Page, ...]:
        """The menu of the shop."""
        return self._menu(Place.SHOP)

    @property
    def of_project(self) -> tuple[Page, ...]:
        """The menu of a project and of its frames."""
        return self._menu(Place.PROJECT, Place.FRAME)

    def _menu(self, *places: Place) -> tuple[Page, ...]:
        return tuple(page for page in self.pages if page.in_menu and page.place in places)


def pages(request: Request) -> Pages:
    """The pages of this server, for a route."""
    found: Pages = request.app.state.pages
    return found
