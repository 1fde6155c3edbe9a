"""The costs page of a project and the quote to print."""

from dataclasses import replace
from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response

from webapp.live.desk import Desk, ProjectAtRevision, desk
from webapp.live.forms import Typed, typed
from webapp.live.live import Live
from webapp.live.render import render
from webapp.pages.costs.actions import ANCHORS, carry_out, with_quote
from webapp.pages.costs.fields import costs_fields_in
from webapp.pages.costs.quote import quote_shown
from webapp.pages.costs.shown import costs_address, costs_shown

router = APIRouter()
PAGE = "/projects/{project_id}/costs"
COSTS = Live(
    template="costs",
    fields=costs_fields_in,
    act=carry_out,
    shown=costs_shown,
    address=costs_address,
    anchors=ANCHORS,
)

AtDesk = Annotated[Desk, Depends(desk)]
Form = Annotated[Typed, Depends(typed)]


@router.get(PAGE)
def page(request: Request, project_id: str, desk: AtDesk) -> Response:
    """Show what is saved."""
    opened = _quoted(desk, desk.open(project_id))
    return COSTS.page(request, desk, opened, opened.project.frames[0].id)


@router.post(f"{PAGE}/preview")
def preview(request: Request, project_id: str, desk: AtDesk, form: Form) -> Response:
    """Work out what is typed. Writes nothing."""
    opened = _quoted(desk, desk.open(project_id))
    return COSTS.preview(request, desk, opened, opened.project.frames[0].id, form)


@router.post(PAGE)
def save(request: Request, project_id: str, desk: AtDesk, form: Form) -> Response:
    """Save what is typed, after what the pressed button asks for."""
    opened = _quoted(desk, desk.open(project_id))
    return COSTS.save(request, desk, opened, opened.project.frames[0].id, form)


@router.get("/projects/{project_id}/quote")
def quote(request: Request, project_id: str, desk: AtDesk) -> Response:
    """Show the quote for the printer."""
    return render(request, "costs/quote", quote_shown(desk, desk.open(project_id)))


def _quoted(desk: Desk, opened: ProjectAtRevision) -> ProjectAtRevision:
    """The project with a quote: the shop's own until it has one."""
    if opened.project.quote:
        return opened
    opened.plan.compute_all()
    return opened.followed_by(replace(opened.revision, document=with_quote(desk, opened.document)))
