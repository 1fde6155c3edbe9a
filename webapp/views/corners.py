"""The corners page: settings, tolerance, test cuts, closing, clamps, joint, seasons of one frame."""

from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response

from framecalc.project import read_project
from webapp.answer import Answer, answer_to
from webapp.corner_actions import carry_out
from webapp.corner_fields import corner_fields_in
from webapp.corner_page import corner_shown, corners_address
from webapp.desk import Desk, Opened, desk
from webapp.forms import Draft, Typed, typed, work_in
from webapp.render import render, see_other, wants_parts
from webapp.revisions import Conflict
from webapp.woods_page import woods_shown

router = APIRouter()
PAGE = "/projects/{project_id}/frames/{frame_id}/corners"
CANNOT_TAKE, CHANGED_ELSEWHERE = 422, 409

AtDesk = Annotated[Desk, Depends(desk)]
Form = Annotated[Typed, Depends(typed)]


@router.get(PAGE)
def page(request: Request, project_id: str, frame_id: str, desk: AtDesk) -> Response:
    """Show what is saved."""
    opened = desk.open(project_id)
    return _answered(request, desk, opened, _answer(opened, frame_id))


@router.get("/projects/{project_id}/frames/{frame_id}/woods")
def woods(request: Request, project_id: str, frame_id: str, desk: AtDesk) -> Response:
    """Show every wood of the table, and what it would do to this frame."""
    opened = desk.open(project_id)
    return render(request, "corners/woods", woods_shown(opened, _answer(opened, frame_id)))


@router.post(f"{PAGE}/preview")
async def preview(request: Request, project_id: str, frame_id: str, desk: AtDesk, form: Form) -> Response:
    """Work out what is typed. Writes nothing."""
    opened = desk.open(project_id)
    return _answered(request, desk, opened, _answer(opened, frame_id, _draft(desk, opened, frame_id, form)))


@router.post(PAGE)
def save(request: Request, project_id: str, frame_id: str, desk: AtDesk, form: Form) -> Response:
    """Save what is typed, after what the pressed button asks for."""
    opened = desk.open(project_id)
    draft = carry_out(_draft(desk, opened, frame_id, form), form.do, frame_id=frame_id)
    try:
        revision = desk.store.save(project_id, draft.document, base=form.base, tab=form.tab)
    except Conflict as conflict:
        return _clashed(request, desk, opened, _answer(opened, frame_id, draft), conflict)
    saved = Opened(project_id=project_id, revision=revision)
    answer = _answer(saved, frame_id, draft)
    if wants_parts(request) or answer.reading_messages:
        return _answered(request, desk, saved, answer, renews=True)
    return see_other(corners_address(project_id, frame_id))


def _draft(desk: Desk, opened: Opened, frame_id: str, form: Typed) -> Draft:
    """What was changed on the page, worked into the newest revision; what changed elsewhere stays as it is there."""
    fields, before = corner_fields_in(opened.document, frame_id), None
    if 0 < form.base < opened.revision.number:
        before = desk.open_revision(opened.project_id, form.base).document
    return work_in(opened.document, form.texts, fields, reading=opened.reading, check=read_project, before=before)


def _answer(opened: Opened, frame_id: str, draft: Draft | None = None) -> Answer:
    return answer_to(opened, frame_id, draft, page_fields=corner_fields_in)


def _answered(request: Request, desk: Desk, opened: Opened, answer: Answer, *, renews: bool = False) -> Response:
    status = CANNOT_TAKE if answer.reading_messages else 200
    return render(
        request, "corners/page", corner_shown(desk, opened, answer, renews=renews), parts="corners/parts", status=status
    )


def _clashed(request: Request, desk: Desk, opened: Opened, answer: Answer, conflict: Conflict) -> Response:
    """Nothing was written: show both changes together, to be looked over and saved by a second press."""
    notice = (
        f"Revision {conflict.current.number} was saved elsewhere meanwhile. Nothing was overwritten, and what you"
        " typed is not saved yet: look it over and save again to keep it."
    )
    shown = corner_shown(desk, opened, answer, notice=notice)
    return render(request, "corners/page", shown, parts="corners/parts", status=CHANGED_ELSEWHERE)
