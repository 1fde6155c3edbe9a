"""The page of templates: each with its files for the laser, for other programs and for the printer."""

from typing import Annotated

from fastapi import APIRouter, Depends, Query, Request, Response
from starlette.responses import StreamingResponse

from framecalc.errors import FrameCalcError
from webapp.live.addresses import TEMPLATES
from webapp.live.desk import AtDesk
from webapp.live.papers.files import FILE_POLICY, as_file, job_file, machine_file
from webapp.live.render import render, render_long
from webapp.live.shown import Around
from webapp.live.statuses import CANNOT_TAKE
from webapp.pages.templates import PAGE
from webapp.pages.templates.files import all_files, copies_on_beds, file_of, one_print
from webapp.pages.templates.query import TemplatesQuery
from webapp.pages.templates.shown import leaves_shown, templates_shown, without_machines

VIEW = router = APIRouter()
ZIP = "application/zip"
LEAVES_POLICY = (
    "default-src 'none'; style-src 'self' 'unsafe-inline'; font-src 'self'; img-src 'self'; frame-ancestors 'none'; "
    "base-uri 'none'"
)
"""The size of the paper stands in the page itself; no script runs on it."""


def query(
    kerf: str = "",
    paper: str = "",
    printer: str = "",
    step: str = "",
    frame: str = "",
    pick: Annotated[tuple[str, ...], Query()] = (),
) -> TemplatesQuery:
    """What the address asks for."""
    return TemplatesQuery(kerf=kerf, paper=paper, printer=printer, step=step, frame=frame, picked=pick)


InAddress = Annotated[TemplatesQuery, Depends(query)]


@router.get(TEMPLATES)
def page(request: Request, project_id: str, desk: AtDesk, query: InAddress) -> Response:
    """Show every template; a kerf that cannot be taken stands as typed, beside the templates without one."""
    opened, shop = desk.open(project_id), desk.shop()
    around = Around(page=PAGE, opened=opened)
    try:
        return render(request, PAGE.template, around, templates_shown(opened, query, shop))
    except FrameCalcError as error:
        shown = without_machines(opened, query, shop, wrong=error.sentence)
        return render(request, PAGE.template, around, shown, status=CANNOT_TAKE)


@router.get(TEMPLATES + "/all.zip")
def everything(project_id: str, desk: AtDesk, query: InAddress) -> Response:
    """Answer with every file of every chosen template as a zip."""
    opened = desk.open(project_id)
    content = all_files(opened.plan, query.wish(opened.project, desk.shop()), query.choice)
    headers = as_file(f"{job_file(opened.project, 'templates')}.zip")
    return StreamingResponse(content, media_type=ZIP, headers=headers)


@router.get(TEMPLATES + "/all.pdf")
def to_print(project_id: str, desk: AtDesk, query: InAddress) -> Response:
    """Answer with every chosen template on leaves, as one PDF."""
    opened = desk.open(project_id)
    content = one_print(opened.plan, query.wish(opened.project, desk.shop()), query.choice)
    headers = as_file(f"{job_file(opened.project, 'templates')}.pdf") | {"content-security-policy": FILE_POLICY}
    return StreamingResponse(content, media_type="application/pdf", headers=headers)


@router.get(TEMPLATES + "/print")
def in_browser(project_id: str, desk: AtDesk, query: InAddress) -> Response:
    """Show every chosen template on leaves, as a page for the browser's own printing."""
    answer = render_long("templates/print", leaves_shown(desk.open(project_id), query, desk.shop()))
    answer.headers["content-security-policy"] = LEAVES_POLICY
    return answer


@router.get(TEMPLATES + "/{frame_id}/{name}/beds")
def beds(project_id: str, frame_id: str, name: str, desk: AtDesk, query: InAddress) -> Response:
    """Answer with all copies of one template laid out on the bed of the laser."""
    plan = desk.plan(project_id, frame_id)
    called, content = copies_on_beds(plan, name=name, wish=query.wish(plan.project, desk.shop()))
    return machine_file(content, name=called, media_type=ZIP)


@router.get(TEMPLATES + "/{frame_id}/{name}/{kind}")
def file(project_id: str, frame_id: str, name: str, kind: str, desk: AtDesk, query: InAddress) -> Response:
    """Answer with one file of one template."""
    plan = desk.plan(project_id, frame_id)
    called, content, media_type = file_of(plan, name=name, kind=kind, wish=query.wish(plan.project, desk.shop()))
    return machine_file(content, name=called, media_type=media_type)
