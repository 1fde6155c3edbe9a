"""The timber page of a project: stock, wishes, the cutting plan as a job, lists."""

from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response

from framecalc.plan import Plan
from framecalc.project import read_project
from webapp.answer import Answer, answer_to
from webapp.desk import Desk, Opened, desk
from webapp.forms import Draft, Typed, typed, work_in
from webapp.render import render, see_other, wants_parts
from webapp.revisions import Conflict
from webapp.timber_actions import carry_out
from webapp.timber_fields import timber_fields_in
from webapp.timber_page import groups_of, start_jobs, stop_jobs, stops_csv, timber_address, timber_shown

router = APIRouter()
PAGE = "/projects/{project_id}/timber"
CANNOT_TAKE, CHANGED_ELSEWHERE = 422, 409

AtDesk = Annotated[Desk, Depends(desk)]
Form = Annotated[Typed, Depends(typed)]


@router.get(PAGE)
def page(request: Request, project_id: str, desk: AtDesk) -> Response:
    """Show what is saved, and how far the jobs are."""
    opened = desk.open(project_id)
    return _answered(request, desk, opened, _answer(opened))


@router.get(f"{PAGE}/stops.csv")
def stops(project_id: str, desk: AtDesk) -> Response:
    """Hand out the stop list as a table."""
    groups, _ = groups_of(desk, _answer(desk.open(project_id)))
    headers = {"content-disposition": f'attachment; filename="stops-{project_id}.csv"', "cache-control": "no-cache"}
    return Response(stops_csv(groups), media_type="text/csv; charset=utf-8", headers=headers)


@router.post(PAGE)
def save(request: Request, project_id: str, desk: AtDesk, form: Form) -> Response:
    """Save what is typed, after what the pressed button asks for; start or stop the search."""
    opened = desk.open(project_id)
    draft = carry_out(_draft(desk, opened, form), form.do)
    try:
        revision = desk.store.save(project_id, draft.document, base=form.base, tab=form.tab)
    except Conflict as conflict:
        return _clashed(request, desk, opened, _answer(opened, draft), conflict)
    _steer(desk, draft, form.do)
    saved = Opened(project_id=project_id, revision=revision)
    answer = _answer(saved, draft)
    if wants_parts(request) or answer.reading_messages:
        return _answered(request, desk, saved, answer, renews=True)
    return see_other(timber_address(project_id), anchor=_ANCHORS.get(form.do.partition(":")[0], ""))


_ANCHORS = {"work": "plans", "stop": "plans", "tick": "plans", "add-stock": "of-stock", "remove-stock": "of-stock"}


def _steer(desk: Desk, draft: Draft, do: str) -> None:
    if do == "work":
        start_jobs(desk, Plan(draft.checked))
    elif do == "stop":
        stop_jobs(desk, Plan(draft.checked))


def _draft(desk: Desk, opened: Opened, form: Typed) -> Draft:
    before = None
    if 0 < form.base < opened.revision.number:
        before = desk.open_revision(opened.project_id, form.base).document
    fields = timber_fields_in(opened.document, "")
    return work_in(opened.document, form.texts, fields, reading=opened.reading, check=read_project, before=before)


def _answer(opened: Opened, draft: Draft | None = None) -> Answer:
    return answer_to(opened, opened.project.frames[0].id, draft, page_fields=timber_fields_in)


def _answered(request: Request, desk: Desk, opened: Opened, answer: Answer, *, renews: bool = False) -> Response:
    status = CANNOT_TAKE if answer.reading_messages else 200
    shown = timber_shown(desk, opened, answer, renews=renews)
    return render(request, "timber/page", shown, parts="timber/parts", status=status)


def _clashed(request: Request, desk: Desk, opened: Opened, answer: Answer, conflict: Conflict) -> Response:
    """Nothing was written: show both changes together, to be looked over and saved by a second press."""
    notice = (
        f"Revision {conflict.current.number} was saved elsewhere meanwhile. Nothing was overwritten, and what you"
        " typed is not saved yet: look it over and save again to keep it."
    )
    shown = timber_shown(desk, opened, answer, notice=notice)
    return render(request, "timber/page", shown, parts="timber/parts", status=CHANGED_ELSEWHERE)
