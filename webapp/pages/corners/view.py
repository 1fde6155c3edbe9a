"""The corners page: settings, tolerance, test cuts, closing, clamps, joint, seasons of one frame."""

from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response

from webapp.live.answer import answer_to
from webapp.live.desk import Desk, desk
from webapp.live.forms import Typed, typed
from webapp.live.live import Live
from webapp.live.render import render
from webapp.pages.corners.actions import carry_out
from webapp.pages.corners.fields import corner_fields_in
from webapp.pages.corners.shown import corner_shown, corners_address
from webapp.pages.corners.woods import woods_shown

router = APIRouter()
PAGE = "/projects/{project_id}/frames/{frame_id}/corners"
CORNERS = Live(
    template="corners",
    fields=corner_fields_in,
    act=carry_out,
    shown=corner_shown,
    address=corners_address,
    anchors={},
)

AtDesk = Annotated[Desk, Depends(desk)]
Form = Annotated[Typed, Depends(typed)]


@router.get(PAGE)
def page(request: Request, project_id: str, frame_id: str, desk: AtDesk) -> Response:
    """Show what is saved."""
    return CORNERS.page(request, desk, desk.open(project_id), frame_id)


@router.get("/projects/{project_id}/frames/{frame_id}/woods")
def woods(request: Request, project_id: str, frame_id: str, desk: AtDesk) -> Response:
    """Show every wood of the table, and what it would do to this frame."""
    opened = desk.open(project_id)
    return render(
        request, "corners/woods", woods_shown(opened, answer_to(opened, frame_id, page_fields=corner_fields_in))
    )


@router.post(f"{PAGE}/preview")
def preview(request: Request, project_id: str, frame_id: str, desk: AtDesk, form: Form) -> Response:
    """Work out what is typed. Writes nothing."""
    return CORNERS.preview(request, desk, desk.open(project_id), frame_id, form)


@router.post(PAGE)
def save(request: Request, project_id: str, frame_id: str, desk: AtDesk, form: Form) -> Response:
    """Save what is typed, after what the pressed button asks for."""
    return CORNERS.save(request, desk, desk.open(project_id), frame_id, form)
