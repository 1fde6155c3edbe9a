"""The package page: layers, mats and their windows, gap, growth, retainers, canvas and box of one frame."""

from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response

from webapp.desk import Desk, desk
from webapp.forms import Typed, typed
from webapp.live import Live
from webapp.package_actions import ANCHORS, act
from webapp.package_fields import package_fields_in
from webapp.package_page import package_address, package_shown

router = APIRouter()
PAGE = "/projects/{project_id}/frames/{frame_id}/package"
PACKAGE = Live(
    template="package",
    fields=package_fields_in,
    act=act,
    shown=package_shown,
    address=package_address,
    anchors=ANCHORS,
)

AtDesk = Annotated[Desk, Depends(desk)]
Form = Annotated[Typed, Depends(typed)]


@router.get(PAGE)
def page(request: Request, project_id: str, frame_id: str, desk: AtDesk) -> Response:
    """Show what is saved."""
    return PACKAGE.page(request, desk, desk.open(project_id), frame_id)


@router.post(f"{PAGE}/preview")
def preview(request: Request, project_id: str, frame_id: str, desk: AtDesk, form: Form) -> Response:
    """Work out what is typed. Writes nothing."""
    return PACKAGE.preview(request, desk, desk.open(project_id), frame_id, form)


@router.post(PAGE)
def save(request: Request, project_id: str, frame_id: str, desk: AtDesk, form: Form) -> Response:
    """Save what is typed, after what the pressed button asks for."""
    return PACKAGE.save(request, desk, desk.open(project_id), frame_id, form)
