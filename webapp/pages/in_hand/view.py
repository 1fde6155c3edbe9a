"""A stick or board in hand: which frames it can make, and how wide the members of a job could be."""

from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response

from webapp.live.desk import Desk, desk
from webapp.live.forms import Typed, typed
from webapp.live.live import Live
from webapp.pages.in_hand.fields import reach_fields_in
from webapp.pages.in_hand.from_rack import take_in_hand
from webapp.pages.in_hand.shown import reach_address, reach_shown

router = APIRouter()
PAGE = "/projects/{project_id}/timber/reach"
REACH = Live(
    template="in_hand", fields=reach_fields_in, act=take_in_hand, shown=reach_shown, address=reach_address, anchors={}
)

AtDesk = Annotated[Desk, Depends(desk)]
Form = Annotated[Typed, Depends(typed)]


@router.get(PAGE)
def page(request: Request, project_id: str, desk: AtDesk) -> Response:
    """Show what is saved."""
    opened = desk.open(project_id)
    return REACH.page(request, desk, opened, opened.project.frames[0].id)


@router.post(f"{PAGE}/preview")
def preview(request: Request, project_id: str, desk: AtDesk, form: Form) -> Response:
    """Work out what is typed. Writes nothing."""
    opened = desk.open(project_id)
    return REACH.preview(request, desk, opened, opened.project.frames[0].id, form)


@router.post(PAGE)
def save(request: Request, project_id: str, desk: AtDesk, form: Form) -> Response:
    """Save what is typed."""
    opened = desk.open(project_id)
    return REACH.save(request, desk, opened, opened.project.frames[0].id, form)
