"""The setting-out page: one frame of a project, redrawn while it is typed, saved when a field is left."""

from dataclasses import replace
from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response

from webapp.data.revisions import Conflict
from webapp.live.answer import Answer, answer_to
from webapp.live.conflicts import clash_of, merged
from webapp.live.desk import Desk, ProjectAtRevision, desk, frame_in
from webapp.live.field import fields_of
from webapp.live.forms import Draft, Typed, typed, work_in
from webapp.live.render import render, see_other, wants_parts
from webapp.pages.setting_out.actions import anchor_of, carry_out
from webapp.pages.setting_out.shown import address, page_shown, parts_shown

router = APIRouter()
PAGE = "/projects/{project_id}/frames/{frame_id}/setting-out"
CANNOT_TAKE, CHANGED_ELSEWHERE = 422, 409

AtDesk = Annotated[Desk, Depends(desk)]
Form = Annotated[Typed, Depends(typed)]


@router.get(PAGE)
def page(request: Request, project_id: str, frame_id: str, desk: AtDesk) -> Response:
    """Show what is saved."""
    opened = desk.open(project_id)
    return render(request, "setting_out/page", page_shown(desk, opened, answer_to(opened, frame_id)))


@router.post(f"{PAGE}/preview")
async def preview(request: Request, project_id: str, frame_id: str, desk: AtDesk, form: Form) -> Response:
    """Redraw what is typed. Writes nothing."""
    opened = desk.open(project_id)
    return _answered(request, desk, opened, answer_to(opened, frame_id, _draft(opened, frame_id, form)))


@router.post(PAGE)
def save(request: Request, project_id: str, frame_id: str, desk: AtDesk, form: Form) -> Response:
    """Save what is typed, after what the pressed button asks for."""
    opened = desk.open(project_id)
    draft = carry_out(_draft(opened, frame_id, form), form, frame_id=frame_id, shop=desk.shop())
    try:
        return _saved(request, desk, opened, frame_id, draft, form, base=form.base)
    except Conflict as conflict:
        return _clashed(request, desk, opened, frame_id, draft, form, conflict)


@router.post(f"{PAGE}/keep-mine")
def keep_mine(request: Request, project_id: str, frame_id: str, desk: AtDesk, form: Form) -> Response:
    """After a conflict: work what was changed here into what was saved elsewhere, and save that."""
    opened = desk.open(project_id)
    draft = merged(desk, opened, frame_id=frame_id, form=form)
    try:
        return _saved(request, desk, opened, frame_id, draft, form, base=form.over)
    except Conflict as conflict:
        return _clashed(request, desk, opened, frame_id, draft, form, conflict)


def _draft(opened: ProjectAtRevision, frame_id: str, form: Typed) -> Draft:
    fields = fields_of(frame_in(opened.document, frame_id))
    return work_in(opened.document, form.texts, fields, reading=opened.reading, check=opened.check)


def _saved(
    request: Request, desk: Desk, opened: ProjectAtRevision, frame_id: str, draft: Draft, form: Typed, *, base: int
) -> Response:
    """Write the draft. A browser that wants parts gets them; the others go to the page, unless a field is in error."""
    revision = desk.store.save(opened.project_id, draft.document, base=base, tab=form.tab)
    saved = desk.saved(opened, revision)
    answer = answer_to(saved, frame_id, draft)
    if wants_parts(request) or answer.reading_messages:
        return _answered(request, desk, saved, answer, renews=True)
    return see_other(address(saved.project_id, frame_id), anchor=anchor_of(form.do, frame_id=frame_id))


def _answered(
    request: Request, desk: Desk, opened: ProjectAtRevision, answer: Answer, *, renews: bool = False
) -> Response:
    """Show an answer; a save renews the revision that the page starts from, a preview must not."""
    shown = parts_shown(opened, answer) if wants_parts(request) else page_shown(desk, opened, answer)
    status = 200 if answer.is_good else CANNOT_TAKE
    return render(request, "setting_out/page", shown | {"renews": renews}, parts="setting_out/parts", status=status)


def _clashed(
    request: Request,
    desk: Desk,
    opened: ProjectAtRevision,
    frame_id: str,
    draft: Draft,
    form: Typed,
    conflict: Conflict,
) -> Response:
    """Say who changed what; everything typed stays in the page."""
    clash = clash_of(opened, conflict, frame_id=frame_id, form=form)
    answer = replace(answer_to(opened, frame_id, draft), is_unsaved=True)
    shown = page_shown(desk, opened, answer) | {"clash": clash, "base": form.base}
    return render(request, "setting_out/page", shown, parts="setting_out/clash", status=CHANGED_ELSEWHERE)
