"""The rack of the shop: what stands on it, and what was cut from it."""

from collections.abc import Callable
from functools import partial

from fastapi import APIRouter, Request, Response

from framecalc.errors import FrameCalcError
from webapp.data.errors import UnreadableFile
from webapp.data.rack import NotOnTheRack, RackChanged
from webapp.live.addresses import RACK
from webapp.live.desk import AtDesk, Desk
from webapp.live.render import render, see_other
from webapp.live.statuses import CANNOT_TAKE, CHANGED_ELSEWHERE, NOT_THERE, UNREADABLE
from webapp.live.typed.forms import Form
from webapp.pages.rack.shown import damaged_shown, form_of, put, rack_shown, stamp_of, work_in_stick

VIEW = router = APIRouter()


@router.get(RACK)
def page(request: Request, desk: AtDesk, change: str = "", like: str = "") -> Response:
    """Show what stands on the rack, and the form of one stick."""
    try:
        draft = form_of(desk, changes=change, like=like)
    except UnreadableFile as damage:
        return render(request, "rack/damaged", damaged_shown(desk, damage), status=UNREADABLE)
    return render(request, "rack/page", rack_shown(desk, draft, changes=change if draft.checked else "", like=like))


@router.post(RACK)
def save(request: Request, desk: AtDesk, form: Form, change: str = "") -> Response:
    """Put a stick on the rack, or change the one named; what cannot be taken stays in the form with its sentence."""
    try:
        with desk.rack.held():
            draft = work_in_stick(desk, form, change)
            draft = put(desk, draft, stamp=stamp_of(desk, form, change))
    except RackChanged as changed:
        shown = rack_shown(desk, draft, changes=change, said=changed.sentence)
        return render(request, "rack/page", shown, status=CHANGED_ELSEWHERE)
    if draft.messages or draft.checked is None:
        return render(request, "rack/page", rack_shown(desk, draft, changes=change), status=CANNOT_TAKE)
    stick_id = draft.checked.id
    return see_other(RACK, anchor=f"stick-{stick_id}") if change else see_other(f"{RACK}?like={stick_id}", anchor="put")


@router.post(RACK + "/mend")
def mend(desk: AtDesk) -> Response:
    """Put a damaged rack file aside, and go on with the rack as it was before its last change."""
    desk.rack.mend()
    return see_other(RACK)


@router.post(RACK + "/sticks/{stick_id}/away")
def away(request: Request, desk: AtDesk, stick_id: str) -> Response:
    """Take a stick away."""
    return _after(request, desk, partial(desk.rack.take_away, stick_id), anchor="away")


@router.post(RACK + "/sticks/{stick_id}/back")
def back(request: Request, desk: AtDesk, stick_id: str) -> Response:
    """Put a stick back that was taken away."""
    return _after(request, desk, partial(desk.rack.put_back, stick_id), anchor=f"stick-{stick_id}")


def _after(request: Request, desk: Desk, change: Callable[[], object], *, anchor: str) -> Response:
    """Change the rack and show it; where that cannot be, the page says why."""
    try:
        change()
    except NotOnTheRack as missing:
        return render(request, "rack/page", rack_shown(desk, form_of(desk), said=missing.sentence), status=NOT_THERE)
    except FrameCalcError as refusal:
        return render(request, "rack/page", rack_shown(desk, form_of(desk), said=refusal.sentence), status=CANNOT_TAKE)
    return see_other(RACK, anchor=anchor)
