"""The page of templates: each with its files for the laser, for other programs and for the printer."""

from dataclasses import replace
from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response

from framecalc.drawing.templates.pdf import printer_leaf_pdf
from framecalc.errors import FrameCalcError
from webapp.live.addresses import TEMPLATES
from webapp.live.desk import AtDesk
from webapp.live.page import Page
from webapp.live.papers import job_file, machine_file
from webapp.live.render import render
from webapp.live.shown import Around
from webapp.pages.templates.files import all_files, file_of
from webapp.pages.templates.shown import Asked, templates_shown

router = APIRouter()
PAGE = Page(name="templates", title="Templates", path=TEMPLATES, router=router)
CANNOT_TAKE = 422


def asked(kerf: str = "", paper: str = "") -> Asked:
    """What the address asks for."""
    return Asked(kerf=kerf, paper=paper)


IsAsked = Annotated[Asked, Depends(asked)]


@router.get(TEMPLATES)
def page(request: Request, project_id: str, desk: AtDesk, asked: IsAsked) -> Response:
    """Show every template; a kerf that cannot be taken stands as typed, beside the templates without one."""
    opened = desk.open(project_id)
    around = Around(page=PAGE, opened=opened)
    try:
        return render(request, PAGE.template, around, templates_shown(opened, asked))
    except FrameCalcError as error:
        without = templates_shown(opened, replace(asked, kerf=""), wrong=error.sentence)
        return render(request, PAGE.template, around, replace(without, kerf=asked.kerf), status=CANNOT_TAKE)


@router.get(TEMPLATES + "/all.zip")
def everything(project_id: str, desk: AtDesk, asked: IsAsked) -> Response:
    """Answer with every file of every template as a zip."""
    opened = desk.open(project_id)
    content = all_files(opened.plan, asked.wish(opened.project))
    return machine_file(content, name=f"{job_file(opened.project, 'templates')}.zip", media_type="application/zip")


@router.get(TEMPLATES + "/printer-check.pdf")
def printer_check(project_id: str, desk: AtDesk, asked: IsAsked) -> Response:
    """Answer with the leaf by which a printer is checked."""
    paper = asked.on(desk.open(project_id).project)
    return machine_file(printer_leaf_pdf(paper), name="printer-check.pdf", media_type="application/pdf")


@router.get(TEMPLATES + "/{frame_id}/{name}/{kind}")
def file(project_id: str, frame_id: str, name: str, kind: str, desk: AtDesk, asked: IsAsked) -> Response:
    """Answer with one file of one template."""
    plan = desk.plan(project_id, frame_id)
    called, content, media_type = file_of(plan, name=name, kind=kind, wish=asked.wish(plan.project))
    return machine_file(content, name=called, media_type=media_type)
