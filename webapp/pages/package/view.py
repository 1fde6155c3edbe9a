"""The package page: layers, mats and their windows, gap, growth, retainers, canvas and box of one frame."""

from fastapi import APIRouter, Request, Response

from webapp.live.addresses import PACKAGE, mat_templates_at
from webapp.live.desk import AtDesk
from webapp.live.grouped_page import GroupedPage
from webapp.live.render import render, see_other
from webapp.pages.package import PAGE
from webapp.pages.package.actions import act
from webapp.pages.package.fields import package_fields_in
from webapp.pages.package.fitting_card import card_shown
from webapp.pages.package.shown import package_shown

router = APIRouter()


@router.get(PACKAGE + "/fitting")
def card(request: Request, project_id: str, frame_id: str, desk: AtDesk) -> Response:
    """Show the fitting card to print."""
    return render(request, "package/card", card_shown(desk, project_id, frame_id))


@router.get(PACKAGE + "/template")
@router.get(PACKAGE + "/template.svg")
def template(project_id: str, frame_id: str) -> Response:
    """Lead an old address on: the templates of mats stand with all others."""
    return see_other(mat_templates_at(project_id, frame_id))


VIEW = GroupedPage(
    page=PAGE,
    fields=package_fields_in,
    act=act,
    shows=package_shown,
    router=router,
)
