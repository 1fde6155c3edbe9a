"""A page as one record: its title, its address, and the folder that has its view.

The list of these records gives the menu, the addresses, the labels of the revision list, and the walk of the tests
through all pages. A *view* answers the requests of a page; its module is imported when the first of them comes.
"""

from collections.abc import Iterator, Mapping, Sequence
from enum import StrEnum
from importlib import import_module
from typing import Protocol, runtime_checkable

from fastapi import Request
from starlette.routing import BaseRoute

from framecalc.records import Record, cached_property, field
from webapp.live.addresses import CLIENT_VIEW, FRAME, PROJECT, Address
from webapp.live.grouped import at_group


class Place(StrEnum):
    """What a page belongs to; its address begins with it."""

    FRAME = FRAME
    PROJECT = PROJECT
    CLIENT = CLIENT_VIEW
    SHOP = ""


@runtime_checkable
class PageView(Protocol):
    """What answers the requests of a page: a router, or a live page."""

    @property
    def routes(self) -> Sequence[BaseRoute]:
        """All its routes."""


class Page(Record, dict=True):
    """One page.

    `folder` is the package in whose `view` it has its `VIEW`; `title` stands in the menu and above the page. A page
    without a menu entry of its own may belong `under` the entry of another one. `elsewhere`: what it answers that does
    not lie under its address, where another page's address would fit as well, or where it is asked often.
    """

    folder: str
    title: str
    path: Address
    in_menu: bool = True
    under: str = ""
    elsewhere: tuple[Address, ...] = ()

    @property
    def name(self) -> str:
        """The name of its folder, in webapp/pages and in templates."""
        return self.folder.rpartition(".")[2]

    @cached_property
    def view(self) -> PageView:
        """What answers its requests."""
        view = import_module(f"{self.folder}.view").VIEW
        assert isinstance(view, PageView)
        return view

    @property
    def place(self) -> Place:
        """What it belongs to."""
        return next(place for place in Place if self.path.startswith(place))

    @property
    def tail(self) -> str:
        """Its address after that of its frame or project."""
        return self.path.removeprefix(self.place).strip("/")

    @property
    def entry(self) -> str:
        """The page whose menu entry it belongs to."""
        return self.under or self.name

    @property
    def template(self) -> str:
        """The template of the page."""
        return f"{self.name}/page"

    def address(self, *, group_name: str = "", **holes: object) -> str:
        """Its address, or that of one of its groups, for a project and a frame; ids that it lacks are ignored."""
        return at_group(self.path, group_name)(**holes)

    def is_at(self, place: str) -> bool:
        """Whether a place within a frame or a project is this page, or one of its groups."""
        return place == self.tail or at_group(self.path, place.rpartition("/")[2]) == self.place + f"/{place}"


class Pages(Record, kw_only=False):
    """Every page, in the order of the menu; `grouped` has the names of those that stand together in a job's menu."""

    pages: tuple[Page, ...]
    grouped: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

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

    @property
    def groups(self) -> tuple[tuple[str, tuple[Page, ...]], ...]:
        """The menu of a project, each group under its title."""
        groups = (
            (title, tuple(page for page in self.of_project if page.name in names))
            for title, names in self.grouped.items()
        )
        return tuple((title, group) for title, group in groups if group)

    def _menu(self, *places: Place) -> tuple[Page, ...]:
        return tuple(page for page in self.pages if page.in_menu and page.place in places)


def pages(request: Request) -> Pages:
    """The pages of this server, as a dependency of a route."""
    found: Pages = request.app.state.pages
    return found
