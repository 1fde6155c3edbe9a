"""The timber page of a project: stock, wishes, the cutting plan as a job, lists to tick off, sheets to print."""

from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response

from framecalc.drawing.timber.stick_sheet import draw_stick_sheet
from webapp.live.desk import Desk, desk
from webapp.live.forms import Typed, typed
from webapp.live.live import Live
from webapp.live.render import render, see_other, wants_parts
from webapp.pages.setting_out.drawings_view import FILE_POLICY
from webapp.pages.setting_out.large import paper_named
from webapp.pages.timber.actions import ANCHORS, carry_out, ticked
from webapp.pages.timber.fields import timber_fields_in
from webapp.pages.timber.lists import TITLES, as_table
from webapp.pages.timber.shown import list_shown, lists_of, sheet_of, timber_address, timber_shown

router = APIRouter()
PAGE = "/projects/{project_id}/timber"
TIMBER = Live(
    template="timber",
    fields=timber_fields_in,
    act=carry_out,
    shown=timber_shown,
    address=timber_address,
    anchors=ANCHORS,
)

AtDesk = Annotated[Desk, Depends(desk)]
Form = Annotated[Typed, Depends(typed)]


@router.get(PAGE)
def page(request: Request, project_id: str, desk: AtDesk) -> Response:
    """Show what is saved, and how far the jobs are."""
    opened = desk.open(project_id)
    return TIMBER.page(request, desk, opened, opened.project.frames[0].id)


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
    revision = desk.store.save(project_id, ticked(opened.document, key), base=opened.revision.number, tab=form.tab)
    if not wants_parts(request):
        back = f"/lists/{form.place}" if form.place in TITLES else ""
        return see_other(timber_address(project_id) + back, anchor=f"tick-{key}")
    done = desk.saved(opened, revision).project.timber.done
    return render(request, "timber/ticked", {"key": key, "is_done": key in done, "address": timber_address(project_id)})


@router.post(PAGE)
def save(request: Request, project_id: str, desk: AtDesk, form: Form) -> Response:
    """Save what is typed, after what the pressed button asks for; start or stop the search."""
    opened = desk.open(project_id)
    return TIMBER.save(request, desk, opened, opened.project.frames[0].id, form)
