"""The sheets page of a project: stock, ways of cutting, layouts, lists to tick off, sheets to print."""

import re

from fastapi import APIRouter, Request, Response

from framecalc.records import replace
from webapp.live.addresses import SHEETS
from webapp.live.desk import AtDesk
from webapp.live.lists import ListPages
from webapp.live.live_page import parts_of_page
from webapp.live.papers.files import drawing_file, job_file, paper_named
from webapp.live.render import render
from webapp.live.shown import Around
from webapp.live.tabbed import TabbedPage
from webapp.live.typed.answer import answer_to
from webapp.pages.sheets import PAGE
from webapp.pages.sheets.actions import ANCHORS, carry_out
from webapp.pages.sheets.fields import sheets_fields_in
from webapp.pages.sheets.lists import TITLES
from webapp.pages.sheets.shown import lists_of, material_shown, sheet_on_paper, sheet_shown, sheets_shown

router = APIRouter()


@router.get(SHEETS + "/layouts")
def layouts(request: Request, project_id: str, desk: AtDesk) -> Response:
    """Show the progress of the searches and the light; the page polls this while one runs.

    A page that says how many materials it shows gets each by itself, if there are as many.
    """
    opened = desk.open(project_id)
    answer = replace(answer_to(opened, sheets_fields_in), beside=desk.beside)
    around = Around(page=PAGE, opened=opened, shown_by=request.query_params.get("holds", ""))
    shown = sheets_shown(desk, opened, answer)
    has_all = request.query_params.get("of") == str(len(shown.groups))
    return parts_of_page(request, "sheets/progress_of_each" if has_all else "sheets/progress", around, shown)


def _back(place: str) -> str:
    """The page of one sheet, if the tick came from there."""
    sheet = re.fullmatch(r"sheet-([0-9]{1,3})-([0-9]{1,4})", place)
    return f"/groups/{sheet[1]}/sheet-{sheet[2]}" if sheet else ""


LISTS = ListPages(
    path=SHEETS,
    title="Sheets",
    comes_from="layout",
    part="sheets",
    titles=TITLES,
    lists_of=lists_of,
    head="Material",
    is_split="cuts".__eq__,
    back=_back,
    most=1900,
)
LISTS.add_to(router)


@router.get(SHEETS + "/groups/{group}/sheet-{number}.svg")
def drawing(project_id: str, group: int, number: int, desk: AtDesk, paper: str = "") -> Response:
    """Answer with one sheet of a layout as a file at the true size of its paper."""
    project = desk.open(project_id).project
    paper = paper_named(paper, unit=project.unit)
    svg = sheet_on_paper(desk, project, group, number, paper)
    return drawing_file(svg, name=job_file(project, f"sheet-{group}-{number}", paper))


@router.get(SHEETS + "/groups/{group}")
def material(request: Request, project_id: str, group: int, desk: AtDesk) -> Response:
    """Name every sheet of a material, with a link to its page."""
    return render(request, "sheets/material", material_shown(desk, desk.open(project_id), group))


@router.get(SHEETS + "/groups/{group}/sheet-{number}")
def sheet(request: Request, project_id: str, group: int, number: int, desk: AtDesk) -> Response:
    """Show one sheet of a layout, with its cuts to tick off."""
    return render(request, "sheets/sheet", sheet_shown(desk, desk.open(project_id), group, number))


VIEW = TabbedPage(
    page=PAGE,
    fields=sheets_fields_in,
    act=carry_out,
    shows=sheets_shown,
    anchors=ANCHORS,
    has_preview=False,
    router=router,
)
