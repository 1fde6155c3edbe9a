"""A page of fields that is live: shown as saved, worked out while it is typed, saved when a field is left.

What such pages share: a draft of what was typed on a page that may be older than the newest revision, the save with the
action of a button before it, and the answer to a conflict, in which nothing typed is lost.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from fastapi import Request, Response

from webapp.data.revisions import Conflict
from webapp.live.answer import Answer, answer_to
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.field import FieldSet
from webapp.live.forms import Document, Draft, Typed, work_in
from webapp.live.render import render, see_other, wants_parts

CANNOT_TAKE, CHANGED_ELSEWHERE = 422, 409


@dataclass(frozen=True, slots=True, kw_only=True)
class Live:
    """One live page: its templates, its fields, what its buttons do, what it shows and where it is.

    `anchors` say where on the page to go on after a button; `{}` in one stands for what the button is about.
    """

    template: str
    fields: Callable[[Document, str], FieldSet]
    act: Callable[[Desk, Draft, Typed, str], Draft]
    shown: Callable[..., dict[str, Any]]
    address: Callable[[str, str], str]
    anchors: dict[str, str]

    def page(self, request: Request, desk: Desk, opened: ProjectAtRevision, frame_id: str) -> Response:
        """Show what is saved."""
        return self._answered(request, desk, opened, self._answer(opened, frame_id))

    def preview(self, request: Request, desk: Desk, opened: ProjectAtRevision, frame_id: str, form: Typed) -> Response:
        """Work out what is typed. Writes nothing."""
        return self._answered(
            request, desk, opened, self._answer(opened, frame_id, self._draft(desk, opened, frame_id, form))
        )

    def save(self, request: Request, desk: Desk, opened: ProjectAtRevision, frame_id: str, form: Typed) -> Response:
        """Save what is typed, after what the pressed button asks for."""
        draft = self.act(desk, self._draft(desk, opened, frame_id, form), form, frame_id)
        try:
            revision = desk.store.save(opened.project_id, draft.document, base=form.base, tab=form.tab)
        except Conflict as conflict:
            return self._clashed(request, desk, opened, self._answer(opened, frame_id, draft), conflict)
        saved = desk.saved(opened, revision)
        answer = self._answer(saved, frame_id, draft)
        if wants_parts(request) or answer.reading_messages:
            return self._answered(request, desk, saved, answer, renews=True)
        return see_other(self.address(opened.project_id, frame_id), anchor=self._anchor(form.do))

    def _anchor(self, do: str) -> str:
        name, _, argument = do.partition(":")
        return self.anchors.get(name, "").format(argument.partition(":")[0])

    def _draft(self, desk: Desk, opened: ProjectAtRevision, frame_id: str, form: Typed) -> Draft:
        """What was changed on the page, worked into the newest revision; what changed elsewhere stays as it is."""
        before = None
        if 0 < form.base < opened.revision.number:
            before = desk.open_revision(opened.project_id, form.base).document
        fields = self.fields(opened.document, frame_id)
        return work_in(opened.document, form.texts, fields, reading=opened.reading, check=opened.check, before=before)

    def _answer(self, opened: ProjectAtRevision, frame_id: str, draft: Draft | None = None) -> Answer:
        return answer_to(opened, frame_id, draft, page_fields=self.fields)

    def _answered(
        self,
        request: Request,
        desk: Desk,
        opened: ProjectAtRevision,
        answer: Answer,
        *,
        notice: str = "",
        renews: bool = False,
    ) -> Response:
        shown = self.shown(desk, opened, answer) | {"notice": notice, "renews": renews}
        status = CHANGED_ELSEWHERE if notice else CANNOT_TAKE if answer.reading_messages else 200
        return render(request, f"{self.template}/page", shown, parts=f"{self.template}/parts", status=status)

    def _clashed(
        self, request: Request, desk: Desk, opened: ProjectAtRevision, answer: Answer, conflict: Conflict
    ) -> Response:
        notice = (
            f"Revision {conflict.current.number} was saved elsewhere meanwhile. Nothing was overwritten, and what you "
            "typed is not saved yet: look it over and save again to keep it."
        )
        return self._answered(request, desk, opened, answer, notice=notice)
