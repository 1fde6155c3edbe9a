"""A live page of a whole job that shows one of its lists at a time, each at an address of its own."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import chain
from typing import ClassVar

from fastapi import Request, Response

from framecalc.records import Record, cached_property, replace
from webapp.jobs.running import JobState
from webapp.live.addresses import Address
from webapp.live.grouped import at_group
from webapp.live.grouped_page import AtGroups
from webapp.live.lists import JobList
from webapp.live.live_page import ProjectPage
from webapp.live.shown import Around, LiveShown
from webapp.live.typed.answer import Answer

LISTED = 40
"""Lines of a list that stand on the page; the list in big type has them all."""

STATE_SAYS = {
    JobState.WAITING: "Waiting its turn.",
    JobState.RUNNING: "Being worked out.",
    JobState.DONE: "Worked out.",
    JobState.STOPPED: "Stopped; this is the best that was found.",
}
"""How far a search is. What has failed says why."""


class Tab(Record):
    """Lists that a page shows at one address: its name there, its title, the names of the lists."""

    name: str
    title: str
    lists: tuple[str, ...]


class TabView(Record):
    """A tab as the page shows it: how many of its lines there are, and how many are ticked off, if they can be."""

    tab: Tab
    href: str
    done: int
    of: int
    tickable: bool

    @property
    def is_open(self) -> bool:
        """Whether some of its lines are still to be ticked off."""
        return self.tickable and self.done < self.of


class ListsShown(LiveShown, dict=True):
    """What a page of lists shows beside them: the fields that keep it from working them out.

    `asked` is the tab that the address names, if it names one.
    """

    trouble: str
    unsized: str = ""
    asked: str = ""
    listed: ClassVar[int] = LISTED
    path: ClassVar[Address]
    tabs_of_page: ClassVar[tuple[Tab, ...]]

    @property
    def lists(self) -> Iterable[JobList]:
        """Every list on the page."""
        raise NotImplementedError

    @property
    def lists_at(self) -> str:
        """The start of the addresses of the lists, of their ticks, and of all that belongs to the page."""
        return self.path(project_id=self.answer.project_id)

    @cached_property
    def tabs(self) -> tuple[TabView, ...]:
        """The tabs that have lines."""
        return tuple(view for view in map(self._tab_view, self.tabs_of_page) if view.of)

    @cached_property
    def open_tab(self) -> TabView | None:
        """The tab on the page: the one asked for, else the first with something to tick off, else the first."""
        asked = (view for view in self.tabs if view.tab.name == self.asked)
        waits = (view for view in self.tabs if view.is_open)
        return next(chain(asked, waits, self.tabs), None)

    def _tab_view(self, tab: Tab) -> TabView:
        lists = [one for one in self.lists if one.name in tab.lists]
        return TabView(
            tab=tab,
            href=at_group(self.path, tab.name)(project_id=self.answer.project_id),
            done=sum(one.done for one in lists),
            of=sum(len(one.rows) for one in lists),
            tickable=any(one.tickable for one in lists),
        )

    @property
    def astray(self) -> tuple[str, ...]:
        """Sentences about texts that belong to no field of the page."""
        return tuple(text for path, text in self.messages.items() if path not in self.answer.fields)


@dataclass(frozen=True, kw_only=True)
class TabbedPage(AtGroups[Answer], ProjectPage):
    """A page of the whole job with its lists in tabs."""

    def _rendered(
        self, request: Request, around: Around, shown: LiveShown, *, parts: str = "parts", status: int
    ) -> Response:
        """Show one tab: a page that was asked for without one is about the one that it shows from then on.

        Before there are lists it is about the first one, so that a tick set while a search goes on stays in view.
        """
        if isinstance(shown, ListsShown):
            shown = replace(shown, asked=self.group_name(request))
            first = shown.tabs_of_page[0]
            around = replace(around, group_name=shown.open_tab.tab.name if shown.open_tab else first.name)
        return super()._rendered(request, around, shown, parts=parts, status=status)
