"""The drawings of a frame: large on a page, or as a file at the true size of its paper."""

from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response

from framecalc.drawing import draw_paper
from webapp.live.desk import Desk, desk
from webapp.live.render import render
from webapp.pages.setting_out.large import drawing_shown, paper_drawing, paper_named

router = APIRouter()
FRAME = "/projects/{project_id}/frames/{frame_id}"
FILE_POLICY = "default-src 'none'; style-src 'unsafe-inline'; sandbox"
"""A drawing opened by itself runs nothing, whatever it holds."""

AtDesk = Annotated[Desk, Depends(desk)]


@router.get(FRAME + "/drawings/{name}.svg")
def download(desk: AtDesk, project_id: str, frame_id: str, name: str, paper: str = "a4") -> Response:
    """Hand out a drawing as a file."""
    plan, paper, name = desk.plan(project_id, frame_id), paper_named(paper), paper_drawing(name)
    headers = {
        "content-security-policy": FILE_POLICY,
        "content-disposition": f'attachment; filename="{name}-{paper}-{project_id}.svg"',
        "cache-control": "no-cache",
    }
    return Response(draw_paper(name, plan, paper), media_type="image/svg+xml", headers=headers)


@router.get(FRAME + "/drawings/{name}")
def large(request: Request, desk: AtDesk, project_id: str, frame_id: str, name: str) -> Response:
    """Show a drawing large, with its papers to download."""
    return render(request, "setting_out/large", drawing_shown(desk, project_id, frame_id, name))
