"""The rack of the shop: what stands on it, what was cut from it; and a plan marked as cut."""

from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response

from webapp.desk import Desk, desk
from webapp.forms import Typed, typed
from webapp.rack_page import form_of, put, rack_shown, work_in_stick
from webapp.render import render, see_other

router = APIRouter()
CANNOT_TAKE = 422

AtDesk = Annotated[Desk, Depends(desk)]
Form = Annotated[Typed, Depends(typed)]


@router.get("/rack")
def page(request: Request, desk: AtDesk, change: str = "") -> Response:
    """Show what stands on the rack, and the form of one stick."""
    return render(request, "rack/page", rack_shown(desk, form_of(desk, change), changes=change))


@router.post("/rack")
def save(request: Request, desk: AtDesk, form: Form, change: str = "") -> Response:
    """Put a stick on the rack, or change the one named; what cannot be taken stays in the form with its sentence."""
    draft = put(desk, work_in_stick(desk, form, change))
    if draft.messages:
        return render(request, "rack/page", rack_shown(desk, draft, changes=change), status=CANNOT_TAKE)
    return see_other("/rack", anchor=f"stick-{draft.checked.id}")


@router.post("/rack/sticks/{stick_id}/away")
def away(desk: AtDesk, stick_id: str) -> Response:
    """Take a stick away."""
    desk.rack.take_away(stick_id)
    return see_other("/rack", anchor="away")


@router.post("/rack/sticks/{stick_id}/back")
def back(desk: AtDesk, stick_id: str) -> Response:
    """Put a stick back that was taken away."""
    desk.rack.put_back(stick_id)
    return see_other("/rack", anchor=f"stick-{stick_id}")


@router.post("/rack/cuts/{cut_id}/undo")
def undo(desk: AtDesk, cut_id: str) -> Response:
    """Take a cut back."""
    desk.rack.undo(cut_id)
    return see_other("/rack", anchor="cuts")
