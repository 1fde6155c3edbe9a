"""The sheets page of a project: stock, ways of cutting, layouts as jobs, lists to tick off, layouts to print."""

import re
from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response

from webapp.live.answer import answer_to
from webapp.live.desk import Desk, desk
from webapp.live.forms import Typed, typed
from webapp.live.live import Live
from webapp.live.render import render, see_other, wants_parts
from webapp.pages.setting_out.drawings_view import FILE_POLICY
from webapp.pages.setting_out.large import paper_named
from webapp.pages.sheets.actions import ANCHORS, carry_out, ticked
from webapp.pages.sheets.fields import sheets_fields_in
from webapp.pages.sheets.lists import TITLES, as_table
from webapp.pages.sheets.shown import list_shown, lists_of, sheet_on_paper, sheet_shown, sheets_address, sheets_shown

router = APIRouter()
PAGE = "/projects/{project_id}/sheets"
SHEETS = Live(
    template="sheets",
    fields=sheets_fields_in,
    act=carry_out,
    shown=sheets_shown,
    address=sheets_address,
    anchors=ANCHORS,
)

AtDesk = Annotated[Desk, Depends(desk)]
Form = Annotated[Typed, Depends(typed)]


@router.get(PAGE)
def page(request: Request, project_id: str, desk: AtDesk) -> Response:
    """Show what is saved, and how far the jobs are."""
    opened = desk.open(project_id)
    return SHEETS.page(request, desk, opened, opened.project.frames[0].id)


@router.get(PAGE + "/layouts")
def layouts(request: Request, project_id: str, desk: AtDesk) -> Response:
    """Show how far the jobs are, by themselves: what the page asks for while one is going on."""
    opened = desk.open(project_id)
    answer = answer_to(opened, opened.project.frames[0].id, page_fields=sheets_fields_in)
    return render(request, "sheets/_layouts", sheets_shown(desk, opened, answer))


@router.post(PAGE)
def save(request: Request, project_id: str, desk: AtDesk, form: Form) -> Response:
    """Save what is typed, after what the pressed button asks for; start or stop the search."""
    opened = desk.open(project_id)
    return SHEETS.save(request, desk, opened, opened.project.frames[0].id, form)


@router.post(PAGE + "/tick/{key}")
def tick_off(request: Request, project_id: str, key: str, desk: AtDesk, form: Form) -> Response:
    """Tick one line of a list off, or take the tick away."""
    opened = desk.open(project_id)
    revision = desk.store.save(project_id, ticked(opened.document, key), base=opened.revision.number, tab=form.tab)
    if not wants_parts(request):
        return see_other(sheets_address(project_id) + _back(form.place), anchor=f"tick-{key}")
    done = desk.saved(opened, revision).project.sheets.done
    return render(request, "timber/ticked", {"key": key, "is_done": key in done, "address": sheets_address(project_id)})


def _back(place: str) -> str:
    """Where a line was ticked off: on a list in big type, on the page of one sheet, or on the page of them all."""
    sheet = re.fullmatch(r"sheet-([0-9]{1,3})-([0-9]{1,4})", place)
    if sheet:
        return f"/groups/{sheet[1]}/sheet-{sheet[2]}"
    return f"/lists/{place}" if place in TITLES else ""


@router.get(PAGE + "/lists/{name}.csv")
def table(project_id: str, name: str, desk: AtDesk) -> Response:
    """Hand out a list as a table."""
    text = as_table(lists_of(desk, desk.open(project_id).project, name))
    headers = {"content-disposition": f'attachment; filename="{name}-{project_id}.csv"', "cache-control": "no-cache"}
    return Response(text, media_type="text/csv; charset=utf-8", headers=headers)


@router.get(PAGE + "/lists/{name}")
def big_list(request: Request, project_id: str, name: str, desk: AtDesk) -> Response:
    """Show one list in big type, to stand at the bench or to be printed."""
    return render(request, "sheets/list", list_shown(desk, desk.open(project_id), name))


@router.get(PAGE + "/groups/{group}/sheet-{number}.svg")
def drawing(project_id: str, group: int, number: int, desk: AtDesk, paper: str = "a4") -> Response:
    """Hand out one sheet of a layout as a file at the true size of its paper."""
    paper = paper_named(paper)
    svg = sheet_on_paper(desk, desk.open(project_id).project, group, number, paper)
    headers = {
        "content-security-policy": FILE_POLICY,
        "content-disposition": f'attachment; filename="sheet-{group}-{number}-{paper}-{project_id}.svg"',
        "cache-control": "no-cache",
    }
    return Response(svg, media_type="image/svg+xml", headers=headers)


@router.get(PAGE + "/groups/{group}/sheet-{number}")
def sheet(request: Request, project_id: str, group: int, number: int, desk: AtDesk) -> Response:
    """Show one sheet of a layout by itself, with its cuts to tick off."""
    return render(request, "sheets/sheet", sheet_shown(desk, desk.open(project_id), group, number))
