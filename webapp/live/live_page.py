"""A live page of fields: it shows the saved state, answers while a person types, and saves when they leave a field.

Such pages share three things: a draft of the typed values, on a page that may be older than the newest revision; the
save, after the action of a button; and the answer to a conflict, which loses no typed value.
"""

from abc import ABC, abstractmethod
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Generic, TypeVar

from fastapi import APIRouter, Request, Response
from starlette.routing import BaseRoute

from framecalc.project.document import Document
from framecalc.records import cached_property, replace
from webapp.data.revisions import Conflict
from webapp.live.desk import AtDesk, Desk, ProjectAtRevision
from webapp.live.news import TOKEN, news_of
from webapp.live.page import Page
from webapp.live.render import answer_with, html_id, nothing_new, render, rendered, see_other, wants_parts
from webapp.live.shown import Around, LiveShown
from webapp.live.statuses import CANNOT_TAKE, CHANGED_ELSEWHERE
from webapp.live.typed.answer import Answer, FrameAnswer, PageFields, answer_to, frame_answer_to
from webapp.live.typed.conflicts import clash_of
from webapp.live.typed.forms import Draft, Form, Typed
from webapp.live.typed.inches import with_inches
from webapp.live.typed.merging import Merging, Opens, as_it_is

A = TypeVar("A", bound=Answer)


def _nothing_to_do(desk: Desk, draft: Draft, typed: Typed, frame_id: str) -> Draft:
    return draft


@dataclass(frozen=True, kw_only=True)
class LivePage(ABC, Generic[A]):
    """The view of a live page: its fields, its actions, and what it shows; `router` has what else it answers.

    `anchors` say where on the page to continue after a button; `{}` in one is the argument of the button.
    `shows_in_parts`: only parts of the page change while a person types. `opens` may fill in what a project does not
    have yet. A page with `weighs_clashes` lets the person compare what was changed here and elsewhere, field
    by field; the others keep what was typed, beside what was saved elsewhere, for another save. A page that
    `wants_plan` answers an impossible frame as it does a text that cannot be read.
    """

    page: Page
    fields: PageFields
    act: Callable[[Desk, Draft, Typed, str], Draft] = _nothing_to_do
    shows: Callable[[Desk, ProjectAtRevision, A], LiveShown]
    shows_in_parts: Callable[[Desk, ProjectAtRevision, A], LiveShown] | None = None
    anchors: Mapping[str, str] = field(default_factory=dict)
    opens: Opens = as_it_is
    has_preview: bool = True
    weighs_clashes: bool = False
    wants_plan: bool = False
    router: APIRouter = field(default_factory=APIRouter)

    @abstractmethod
    def answer(self, opened: ProjectAtRevision, frame_id: str, draft: Draft | None = None) -> A:
        """Answer the typed values; without a draft, the saved ones."""

    @cached_property
    def routes(self) -> Sequence[BaseRoute]:
        """The routes of every live page, then those of this one; built once."""
        router = APIRouter()
        router.get(self.page.path)(self.show)
        router.post(self.page.path)(self.save)
        if self.has_preview:
            router.post(f"{self.page.path}/preview")(self.preview)
        if self.weighs_clashes:
            router.post(f"{self.page.path}/keep-mine")(self.save)
        return [*router.routes, *self.router.routes]

    def show(self, request: Request, project_id: str, desk: AtDesk, together: str = "", outdated: str = "") -> Response:
        """Show the saved state, or its parts to a page that shows an older one.

        `together`: with changes from elsewhere, where a save has just found some.

        `outdated`: an undo or a redo was pressed on a page that did not show the newest revision.
        """
        opened, frame_id = self._opened(request, desk, desk.open(project_id))
        around = Around(
            page=self.page,
            has_preview=self.has_preview,
            opened=opened,
            frame_id=frame_id,
            renews=wants_parts(request),
            together=bool(together),
            outdated=bool(outdated),
            shown_by=request.query_params.get("holds", ""),
        )
        shown = self.shows(desk, opened, self._planned(desk, opened, frame_id))
        return self._rendered(request, around, shown, status=200)

    async def preview(self, request: Request, project_id: str, desk: AtDesk, form: Form) -> Response:
        """Answer the typed values; writes nothing."""
        head = desk.open(project_id)
        if wants_parts(request) and news_of(request).is_answered(form.holds, asked=_asked(form, head)):
            return nothing_new()
        merging = self._merging(request, desk, head, form)
        return self._answered(request, merging, merging.head, self._answer(merging, merging.draft))

    def save(self, request: Request, project_id: str, desk: AtDesk, form: Form) -> Response:
        """Apply the pressed button to the typed values and save them, beside changes saved elsewhere meanwhile.

        After a conflict the form says which revision the person has seen, and the typed values replace that.
        """
        made: list[tuple[Merging, Draft]] = []
        form = with_inches(form)

        def changed(head: ProjectAtRevision) -> Document:
            merging = self._merging(request, desk, head, form)
            merging.require_uncontested()
            made.append((merging, self.act(desk, merging.draft, form, merging.frame_id)))
            return made[0][1].document

        try:
            saved = desk.change(project_id, changed, tab=form.tab)
        except Conflict as conflict:
            return self._clashed(request, self._merging(request, desk, desk.open(project_id), form), conflict)
        return self._saved(request, *made[0], saved)

    def _opened(self, request: Request, desk: Desk, opened: ProjectAtRevision) -> tuple[ProjectAtRevision, str]:
        """The project, and the frame that the address names: none on a page of the whole project.

        Raises:
            NoSuchFrame: the project has none of this id.
        """
        opened, frame_id = self.opens(desk, opened), str(request.path_params.get("frame_id", ""))
        if frame_id:
            opened.frame(frame_id)
        return opened, frame_id

    def _merging(self, request: Request, desk: Desk, head: ProjectAtRevision, form: Typed) -> Merging:
        head, frame_id = self._opened(request, desk, head)
        return Merging(desk=desk, head=head, page_fields=self.fields, frame_id=frame_id, form=form, opens=self.opens)

    def _answer(self, merging: Merging, draft: Draft, *, saved: ProjectAtRevision | None = None) -> A:
        return self._planned(merging.desk, saved or merging.head, merging.frame_id, draft)

    def _planned(self, desk: Desk, opened: ProjectAtRevision, frame_id: str, draft: Draft | None = None) -> A:
        """The answer, with what the light says of the whole job."""
        return replace(self.answer(opened, frame_id, draft), beside=desk.beside)

    def _saved(self, request: Request, merging: Merging, draft: Draft, saved: ProjectAtRevision) -> Response:
        """Show the save. A browser that wants parts gets them; others go to the page, unless a field is in error."""
        answer, together = self._answer(merging, draft, saved=saved), merging.together
        if wants_parts(request) or answer.reading_messages:
            return self._answered(request, merging, saved, answer, renews=True, together=together)
        name = self.group_name(request)
        address = self.page.address(project_id=saved.project_id, frame_id=merging.frame_id, group_name=name)
        more = "?together=yes" if together else ""
        return see_other(address + more, anchor=self._anchor(merging.form.do, name))

    def group_name(self, request: Request) -> str:
        """The group that an address asks for, on a page of groups."""
        return ""

    def _anchor(self, do: str, group_name: str) -> str:
        name, _, argument = do.partition(":")
        return self.anchors.get(name, "").format(html_id(argument.partition(":")[0]))

    def _answered(
        self,
        request: Request,
        merging: Merging,
        opened: ProjectAtRevision,
        answer: A,
        *,
        renews: bool = False,
        together: bool = False,
    ) -> Response:
        """Show an answer.

        A save renews the base revision of the page, unless fields that the page still shows were changed elsewhere; a
        preview must not.
        """
        is_live = wants_parts(request)
        shows = self.shows_in_parts if self.shows_in_parts and is_live else self.shows
        sent = merging.form.base if together and is_live and not merging.is_shown_on(opened) else None
        around = Around(
            page=self.page,
            has_preview=self.has_preview,
            opened=opened,
            frame_id=merging.frame_id,
            renews=renews,
            together=together,
            sent=sent,
        )
        if not renews:
            around = replace(around, shown_by=merging.form.holds, asked=_asked(merging.form, opened))
        cannot_take = answer.messages if self.wants_plan else answer.reading_messages
        shown = shows(merging.desk, opened, answer)
        return self._rendered(request, around, shown, status=CANNOT_TAKE if cannot_take else 200)

    def _clashed(self, request: Request, merging: Merging, conflict: Conflict) -> Response:
        """Show who changed what; all typed values stay on the page."""
        desk, opened, form = merging.desk, merging.head, merging.form
        answer = self._answer(merging, merging.draft)
        around = Around(page=self.page, has_preview=self.has_preview, opened=opened, frame_id=merging.frame_id)
        if not self.weighs_clashes:
            around = replace(around, notice=_CHANGED.format(opened.revision.number))
            return self._rendered(request, around, self.shows(desk, opened, answer), status=CHANGED_ELSEWHERE)
        clash = clash_of(opened, self.fields, conflict, frame_id=merging.frame_id, form=form)
        around = replace(around, clash=clash, sent=form.base)
        shown = self.shows(desk, opened, replace(answer, is_unsaved=True))
        return self._rendered(request, around, shown, parts="clash", status=CHANGED_ELSEWHERE)

    def _rendered(
        self, request: Request, around: Around, shown: LiveShown, *, parts: str = "parts", status: int
    ) -> Response:
        if not wants_parts(request):
            return render(request, self.page.template, around, shown, status=status)
        return parts_of_page(request, f"{self.page.name}/{parts}", around, shown, status=status)


def parts_of_page(request: Request, parts: str, around: Around, shown: LiveShown, *, status: int = 200) -> Response:
    """Answer with the parts that a page does not show yet.

    Args:
        parts: the template that lists them.
    """
    text = rendered(request, parts, around, shown)
    new, token = news_of(request).since(around.shown_by, text, asked=around.asked)
    return answer_with(new, status=status, more={TOKEN: token}) if token else nothing_new()


def _asked(form: Typed, head: ProjectAtRevision) -> int:
    """What an answer to a form follows from, as one number."""
    return hash((form.said, head.revision.number))


_CHANGED = (
    "Revision {} was saved elsewhere meanwhile. Nothing was overwritten, and what you typed is not saved yet: look it "
    "over and save again to keep it."
)


@dataclass(frozen=True, kw_only=True)
class FramePage(LivePage[FrameAnswer]):
    """A live page of one frame."""

    def answer(self, opened: ProjectAtRevision, frame_id: str, draft: Draft | None = None) -> FrameAnswer:
        """Answer the values typed for the frame.

        Raises:
            NoSuchFrame: the project has no such frame.
        """
        return frame_answer_to(opened, frame_id, self.fields, draft)


@dataclass(frozen=True, kw_only=True)
class ProjectPage(LivePage[Answer]):
    """A live page of a whole project."""

    def answer(self, opened: ProjectAtRevision, frame_id: str, draft: Draft | None = None) -> Answer:
        """Answer the values typed for the project."""
        return answer_to(opened, self.fields, draft)
