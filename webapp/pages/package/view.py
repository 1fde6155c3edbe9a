"""The package page: layers, mats and their windows, gap, growth, retainers, canvas and box of one frame."""

from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response

from webapp.live.desk import Desk, desk
from webapp.live.forms import Typed, typed
from webapp.live.live import Live
from webapp.live.render import render
from webapp.pages.package.actions import ANCHORS, act
from webapp.pages.package.fields import package_fields_in
from webapp.pages.package.fitting_card import card_shown, template_shown, whole_template
from webapp.pages.package.shown import package_address, package_shown
from webapp.pages.setting_out.drawings_view import FILE_POLICY

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


@router.get(f"{PAGE}/fitting")
def card(request: Request, project_id: str, frame_id: str, desk: AtDesk) -> Response:
    """Show the fitting card, to be printed."""
    return render(request, "package/card", card_shown(desk, project_id, frame_id))


@router.get(f"{PAGE}/template")
def template(
    request: Request, project_id: str, frame_id: str, desk: AtDesk, paper: str = "a4-portrait", mat: str = "lower"
) -> Response:
    """Show the template of a mat on leaves of a paper, to be printed."""
    shown = template_shown(desk, project_id, frame_id, which=mat, paper=paper)
    return render(request, "package/template", shown)


@router.get(f"{PAGE}/template.svg")
def whole(project_id: str, frame_id: str, desk: AtDesk, mat: str = "lower") -> Response:
    """Hand out the template of a mat on one leaf, as a file."""
    svg = whole_template(desk, project_id, frame_id, which=mat)
    headers = {
        "content-security-policy": FILE_POLICY,
        "content-disposition": f'attachment; filename="template-{project_id}.svg"',
        "cache-control": "no-cache",
    }
    return Response(svg, media_type="image/svg+xml", headers=headers)
