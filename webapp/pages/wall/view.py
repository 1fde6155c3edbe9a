"""The wall page: the hangers of a frame, its nails, the group of the job, hanging strips."""

from typing import Annotated

from fastapi import APIRouter, Depends, Response

from framecalc.drawing.templates.pdf import template_pdf
from framecalc.drawing.templates.tiles import paper_called
from framecalc.drawing.wall.group import draw_wall_picture, wall_drawing
from framecalc.plan.templates.strips import row_strip
from framecalc.plan.templates.templates import stamp_of
from webapp.live.addresses import WALL
from webapp.live.desk import AtDesk, ProjectAtRevision
from webapp.live.grouped_page import GroupedPage
from webapp.live.papers.files import drawing_file, job_file, machine_file, paper_named, table_file
from webapp.live.papers.of_wall import nails_table, wall_on_paper
from webapp.pages.wall import PAGE
from webapp.pages.wall.actions import act
from webapp.pages.wall.fields import wall_fields_in
from webapp.pages.wall.shown import wall_shown

router = APIRouter()


def opened_at(project_id: str, frame_id: str, desk: AtDesk) -> ProjectAtRevision:
    """The project that a wall is of, as long as the frame is there under whose address it stands."""
    opened = desk.open(project_id)
    opened.frame(frame_id)
    return opened


Opened = Annotated[ProjectAtRevision, Depends(opened_at)]
"""The project, as an argument of a route."""


@router.get(WALL + "/drawing.svg")
def wall_paper(opened: Opened, desk: AtDesk, paper: str = "") -> Response:
    """Answer with the wall on a sheet of paper."""
    paper = paper_named(paper, unit=opened.project.unit)
    svg = wall_on_paper(opened.plan, paper, shop=desk.shop().called)
    return drawing_file(svg, name=job_file(opened.project, "wall", paper))


@router.get(WALL + "/picture.svg")
def wall_picture(opened: Opened) -> Response:
    """Answer with the bare wall, as a picture to tap on."""
    return drawing_file(draw_wall_picture(wall_drawing(opened.plan)), name=job_file(opened.project, "wall-picture"))


@router.get(WALL + "/nails.csv")
def nails(opened: Opened) -> Response:
    """Answer with the nails as a table."""
    return table_file(nails_table(opened.plan), name=job_file(opened.project, "nails"))


@router.get(WALL + "/row-strip.pdf")
def row(opened: Opened, desk: AtDesk, paper: str = "") -> Response:
    """Answer with the hanging strip of the whole row, on leaves."""
    shop = desk.shop()
    template, printer = row_strip(opened.plan.wall), next(iter(shop.printers), None)
    leaves = printer.on(paper) if printer else paper_called(paper_named(paper, unit=opened.project.unit))
    stamp = stamp_of(next(iter(opened.plan.frames.values())))
    content = template_pdf(template, stamp=stamp, paper=leaves, printer=printer.used if printer else None)
    return machine_file(content, name=f"{job_file(opened.project, 'hanging-strip')}.pdf", media_type="application/pdf")


VIEW = GroupedPage(
    page=PAGE,
    fields=wall_fields_in,
    act=act,
    shows=wall_shown,
    router=router,
)
