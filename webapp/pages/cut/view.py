"""Mark a cutting plan as cut: show the change to the rack first, then make it and keep a record."""

import re

from fastapi import APIRouter, Request, Response

from framecalc.errors import FrameCalcError
from webapp.data.rack import RackChanged
from webapp.live.addresses import CUT, CUT_RECORD, RACK, TIMBER
from webapp.live.desk import AtDesk, Desk
from webapp.live.render import render, see_other
from webapp.live.statuses import CANNOT_TAKE, CHANGED_ELSEWHERE, NOT_THERE
from webapp.live.typed.forms import Form
from webapp.live.work.cuts_told import tell
from webapp.pages.cut.cutting import NoPlanToCut, cutting_of
from webapp.pages.cut.shown import cut_shown, no_plan_shown, record_shown

VIEW = router = APIRouter()


@router.get(CUT)
def ask(request: Request, project_id: str, key: str, desk: AtDesk) -> Response:
    """Show what leaves the rack and what comes back."""
    try:
        cutting = cutting_of(desk, project_id, key)
    except NoPlanToCut as missing:
        return _no_plan(request, desk, project_id, key, missing)
    return render(request, "cut/page", cut_shown(desk, cutting))


@router.post(CUT)
def mark(request: Request, project_id: str, key: str, desk: AtDesk, form: Form) -> Response:
    """Mark the plan as cut, if the rack is still as shown."""
    try:
        cutting = cutting_of(desk, project_id, key)
    except NoPlanToCut as missing:
        return _no_plan(request, desk, project_id, key, missing)
    wish, shown = cutting.wish(after=_count(form.texts.get("after", ""))), form.texts.get("shown", "")
    try:
        cut = desk.rack.cut(wish, change_of=cutting.change, shown=shown)
    except RackChanged as changed:
        return render(request, "cut/page", cut_shown(desk, cutting, notice=changed.sentence), status=CHANGED_ELSEWHERE)
    except FrameCalcError as refusal:
        return render(request, "cut/page", cut_shown(desk, cutting, notice=refusal.sentence), status=CANNOT_TAKE)
    tell(desk, cut, tab=form.tab)
    return see_other(CUT_RECORD(cut_id=cut.id))


def _count(text: str) -> int:
    """The number of cuts of this plan that the page was shown with."""
    return int(text) if re.fullmatch(r"[0-9]{1,4}", text) else 0


def _no_plan(request: Request, desk: Desk, project_id: str, key: str, missing: NoPlanToCut) -> Response:
    shown = no_plan_shown(desk, project_id, key, missing)
    return render(request, "cut/no_plan", shown, status=NOT_THERE)


@router.get(CUT_RECORD)
def record(request: Request, cut_id: str, desk: AtDesk) -> Response:
    """Show the record of a cut: the plan, and the tags to chalk on its off-cuts."""
    return render(request, "cut/record", record_shown(desk, cut_id))


@router.post(CUT_RECORD + "/undo")
def undo(request: Request, cut_id: str, desk: AtDesk, form: Form) -> Response:
    """Undo a cut, and go back to the page of the button."""
    try:
        cut = desk.rack.undo(cut_id)
    except FrameCalcError as refusal:
        return render(request, "cut/record", record_shown(desk, cut_id, said=refusal.sentence), status=CANNOT_TAKE)
    tell(desk, cut, tab=form.tab)
    places = {"timber": f"{TIMBER(project_id=cut.project)}#plans", "rack": f"{RACK}#cuts"}
    return see_other(places.get(form.place, CUT_RECORD(cut_id=cut_id)))
