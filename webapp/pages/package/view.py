"""The package page: layers, mats and their windows, gap, growth, retainers, canvas and box of one frame."""

from fastapi import APIRouter, Request, Response

from webapp.live.addresses import PACKAGE
from webapp.live.desk import AtDesk
from webapp.live.grouped_page import GroupedPage
from webapp.live.papers import drawing_file, frame_file
from webapp.live.render import render
from webapp.pages.package.actions import act
from webapp.pages.package.fields import package_fields_in
from webapp.pages.package.fitting_card import TEMPLATE_NAMES, card_shown, template_shown, whole_template
from webapp.pages.package.shown import package_shown

router = APIRouter()


@router.get(PACKAGE + "/fitting")
def card(request: Request, project_id: str, frame_id: str, desk: AtDesk) -> Response:
    """Show the fitting card to print."""
    return render(request, "package/card", card_shown(desk, project_id, frame_id))


@router.get(PACKAGE + "/template")
def template(
    request: Request, project_id: str, frame_id: str, desk: AtDesk, paper: str = "", mat: str = "lower"
) -> Response:
    """Show the template of a mat to print, on leaves of a paper."""
    shown = template_shown(desk, project_id, frame_id, which=mat, paper=paper)
    return render(request, "package/template", shown)


@router.get(PACKAGE + "/template.svg")
def whole(project_id: str, frame_id: str, desk: AtDesk, mat: str = "lower") -> Response:
    """Answer with the template of a mat on one leaf, as a file."""
    svg = whole_template(desk, project_id, frame_id, which=mat)
    plan = desk.plan(project_id, frame_id)
    return drawing_file(svg, name=frame_file(plan.project, plan.frame, TEMPLATE_NAMES[mat]))


PAGE = GroupedPage(
    name="package",
    title="Package",
    path=PACKAGE,
    fields=package_fields_in,
    act=act,
    shows=package_shown,
    router=router,
)
