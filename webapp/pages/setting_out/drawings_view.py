"""The drawings of a frame: one enlarged on a page, or a file at the true size of its paper."""

from fastapi import APIRouter, Request, Response

from framecalc.drawing.registry import draw_paper
from webapp.live.addresses import DRAWING, DRAWING_FILE
from webapp.live.desk import AtDesk
from webapp.live.papers.files import drawing_file, frame_file, paper_named
from webapp.live.render import render
from webapp.pages.setting_out.one_drawing import drawing_shown, paper_drawing

router = APIRouter()


@router.get(DRAWING_FILE)
def download(desk: AtDesk, project_id: str, frame_id: str, name: str, paper: str = "") -> Response:
    """Answer with a drawing as a file."""
    plan, name = desk.plan(project_id, frame_id), paper_drawing(name)
    paper = paper_named(paper, unit=plan.unit)
    svg = draw_paper(name, plan, paper, shop=desk.shop().called)
    return drawing_file(svg, name=frame_file(plan.project, plan.frame, name, paper))


@router.get(DRAWING)
def one_drawing(request: Request, desk: AtDesk, project_id: str, frame_id: str, name: str, zoom: str = "1") -> Response:
    """Show one drawing enlarged, as on paper, with its papers to download."""
    shown = drawing_shown(desk, project_id, frame_id, name, zoom=zoom)
    return render(request, "setting_out/one_drawing", shown)
