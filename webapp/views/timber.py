"""The timber page of a project: stock, wishes, the cutting plan as a job, lists to tick off, sheets to print."""

from contextlib import suppress
from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response

from framecalc.drawing.stick_sheet import draw_stick_sheet
from framecalc.errors import FrameCalcError
from framecalc.plan import Plan
from framecalc.project import read_project
from webapp.answer import Answer, answer_to
from webapp.desk import Desk, Opened, desk
from webapp.forms import Draft, Typed, typed, work_in
from webapp.large import paper_named
from webapp.rack_beside import with_rack
from webapp.render import render, see_other, wants_parts
from webapp.revisions import Conflict
from webapp.timber_actions import carry_out, tick
from webapp.timber_fields import timber_fields_in
from webapp.timber_jobs import start_jobs, stop_jobs
from webapp.timber_lists import TITLES, as_table
from webapp.timber_page import list_shown, lists_of, sheet_of, timber_address, timber_shown
from webapp.views.drawings import FILE_POLICY

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


@router.get(PAGE + "/lists/{name}.csv")
def table(project_id: str, name: str, desk: AtDesk) -> Response:
    """Hand out a list as a table."""
    text = as_table(lists_of(desk, desk.open(project_id).project, name))
    headers = {"content-disposition": f'attachment; filename="{name}-{project_id}.csv"', "cache-control": "no-cache"}
    return Response(text, media_type="text/csv; charset=utf-8", headers=headers)


@router.get(PAGE + "/lists/{name}")
def big_list(request: Request, project_id: str, name: str, desk: AtDesk) -> Response:
    """Show one list in big type, to stand at the machine or to be printed."""
    return render(request, "timber/list", list_shown(desk, desk.open(project_id), name))


@router.get(PAGE + "/groups/{group}/sheet-{number}.svg")
def sheet(project_id: str, group: int, number: int, desk: AtDesk, paper: str = "a4") -> Response:
    """Hand out one sheet of a cutting plan as a file at the true size of its paper."""
    paper = paper_named(paper)
    cuts, block = sheet_of(desk, desk.open(project_id).project, group, number, paper)
    headers = {
        "content-security-policy": FILE_POLICY,
        "content-disposition": f'attachment; filename="cutting-plan-{group}-{number}-{paper}-{project_id}.svg"',
        "cache-control": "no-cache",
    }
    svg = draw_stick_sheet(cuts, number=number, paper=paper, block=block)
    return Response(svg, media_type="image/svg+xml", headers=headers)


@router.post(PAGE + "/tick/{key}")
def tick_off(request: Request, project_id: str, key: str, desk: AtDesk, form: Form) -> Response:
    """Tick one line of a list off, or take the tick away."""
    opened = desk.open(project_id)
    tick(opened.document, key)
    revision = desk.store.save(project_id, opened.document, base=opened.revision.number, tab=form.tab)
    if not wants_parts(request):
        back = f"/lists/{form.place}" if form.place in TITLES else ""
        return see_other(timber_address(project_id) + back, anchor=f"tick-{key}")
    done = Opened(project_id=project_id, revision=revision).project.timber.done
    return render(request, "timber/ticked", {"key": key, "is_done": key in done, "address": timber_address(project_id)})


@router.post(PAGE)
def save(request: Request, project_id: str, desk: AtDesk, form: Form) -> Response:
    """Save what is typed, after what the pressed button asks for; start or stop the search."""
    opened = desk.open(project_id)
    draft = with_rack(desk, carry_out(_draft(desk, opened, form), form.do), form.do)
    try:
        revision = desk.store.save(project_id, draft.document, base=form.base, tab=form.tab)
    except Conflict as conflict:
        return _clashed(request, desk, opened, _answer(opened, draft), conflict)
    _steer(desk, draft, form.do)
    saved = Opened(project_id=project_id, revision=revision)
    answer = _answer(saved, draft)
    if wants_parts(request) or answer.reading_messages:
        return _answered(request, desk, saved, answer, renews=True)
    return see_other(timber_address(project_id), anchor=_anchor(form.do))


def _anchor(do: str) -> str:
    """Where on the page to go on after a button."""
    name, _, argument = do.partition(":")
    if name in ("add-defect", "remove-defect"):
        return f"stock-{argument.partition(':')[0]}"
    return _ANCHORS.get(name, "")


_ANCHORS = {
    "work": "plans",
    "stop": "plans",
    "add-stock": "stock-end",
    "remove-stock": "of-stock",
    "rack-take": "of-rack",
    "rack-out": "of-rack",
}


def _steer(desk: Desk, draft: Draft, do: str) -> None:
    """Start or stop the search; where a frame cannot be computed there is none, and the page says why."""
    with suppress(FrameCalcError):
        if do == "work":
            start_jobs(desk.jobs, Plan(draft.checked))
        elif do == "stop":
            stop_jobs(desk.jobs, Plan(draft.checked))


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
