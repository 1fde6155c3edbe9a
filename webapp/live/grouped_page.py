"""A live page that shows one group of its answers at a time, each at an address of its own, beside a list of them all.

Without a group in its address the page shows the one that asks first: the first that is stopped, else the first to be
checked, else the first that is open.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import ClassVar

from fastapi import APIRouter, Request, Response
from starlette.routing import BaseRoute

from framecalc.records import Record, cached_property, replace
from webapp.live.answers import AnswerGroup, Link
from webapp.live.grouped import GROUPED, at_group, group_of
from webapp.live.live_page import A, FramePage, LivePage
from webapp.live.shown import Around, FrameShown, LiveShown
from webapp.live.slots import FieldSlot
from webapp.live.typed.answer import FrameAnswer

URGENCY = ("stop", "check", "open", "done", "not-needed")
"""The states of a group, the one that asks first at first."""

WORDS = {"stop": "Stop", "check": "Check", "open": "Open", "done": "Done", "not-needed": "Not needed"}
"""What each state is called."""


class Listed(Record):
    """One line of the list of groups: what it is called, its answer, its state, its address."""

    name: str
    title: str
    answer: str
    state: str
    word: str
    href: str


class GroupedShown(FrameShown, dict=True):
    """What a page of groups shows. `asked` is the group that the address names, if it names one.

    `beside` leads to the page that shares its entry of the menu, if there is one.
    """

    groups: Mapping[str, AnswerGroup]
    asked: str = ""
    beside: tuple[Link, ...] = ()
    titles: ClassVar[Mapping[str, str]]

    @cached_property
    def open_group(self) -> AnswerGroup:
        """The group on the page: the one asked for, else the one that asks first."""
        asks_first = min(self.groups.values(), key=lambda group: URGENCY.index(self._state_of(group)))
        return self.groups.get(self.asked, asks_first)

    @property
    def slots(self) -> tuple[FieldSlot, ...]:
        """The slots under the fields of the group."""
        page, name = self.answer.fields.page, self.open_group.name
        return tuple(slot for slot in super().slots if group_of(slot.path, page=page) == name)

    @property
    def listed(self) -> tuple[Listed, ...]:
        """The groups that this frame has, in the order of the work."""
        return tuple(one for one in self._lines if one.state != "not-needed")

    @property
    def not_needed(self) -> tuple[Listed, ...]:
        """The groups that do not apply to this frame."""
        return tuple(one for one in self._lines if one.state == "not-needed")

    @property
    def kept(self) -> bool:
        """Whether the page keeps its earlier answers, because there are no new ones."""
        return bool(self.answer.impossible)

    @cached_property
    def _lines(self) -> tuple[Listed, ...]:
        return tuple(self._listed(group) for group in self.groups.values())

    def _listed(self, group: AnswerGroup) -> Listed:
        state = self._state_of(group)
        address = at_group(self.answer.fields.page, group.name)
        return Listed(
            name=group.name,
            title=self.titles[group.name],
            answer=group.answer,
            state=state,
            word=WORDS[state],
            href=address(project_id=self.answer.project_id, frame_id=self.frame.id),
        )

    def _state_of(self, group: AnswerGroup) -> str:
        if group.state == "stop":
            return "stop"
        if group.state == "warn" or group.name in self._assumed:
            return "check"
        if not group.applies:
            return "not-needed"
        return "open" if group.is_open or self.kept else "done"

    @cached_property
    def _assumed(self) -> frozenset[str]:
        """The groups in which a value that counts is only assumed."""
        page = self.answer.fields.page
        paths = (path for path in self.answer.fields.fields if self.answer.is_assumed(path))
        return frozenset(group_of(path, page=page) for path in paths)


@dataclass(frozen=True, kw_only=True)
class AtGroups(LivePage[A]):
    """A page that has an address for each of its groups, besides its own."""

    @cached_property
    def routes(self) -> Sequence[BaseRoute]:
        """The routes of a live page, then those of each of its groups."""
        router = APIRouter()
        for name in GROUPED[self.page.path]:
            at = at_group(self.page.path, name)
            router.get(at)(self.show)
            router.post(at)(self.save)
            if self.has_preview:
                router.post(f"{at}/preview")(self.preview)
        return [*super().routes, *router.routes]

    def group_name(self, request: Request) -> str:
        """The group that an address asks for, if it asks for one."""
        within = request.url.path.removeprefix(self.page.address(**request.path_params)).strip("/")
        name = within.partition("/")[0]
        return name if name in GROUPED[self.page.path] else ""


@dataclass(frozen=True, kw_only=True)
class GroupedPage(AtGroups[FrameAnswer], FramePage):
    """A page of one frame that shows its groups one at a time."""

    def _anchor(self, do: str, group_name: str) -> str:
        """After a button the eye is at the group that it stands in."""
        return f"of-{group_name}" if group_name and do != "save" else ""

    def _rendered(
        self, request: Request, around: Around, shown: LiveShown, *, parts: str = "parts", status: int
    ) -> Response:
        """Show one group: a page that was asked for without one is about the group that it shows from then on."""
        if isinstance(shown, GroupedShown):
            shown = replace(shown, asked=self.group_name(request))
            around = replace(around, group_name=shown.open_group.name)
        return super()._rendered(request, around, shown, parts=parts, status=status)
