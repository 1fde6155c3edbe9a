"""The buttons of the timetable: a glue-up begun now, or at a time of today, and one that was not begun after all."""

from datetime import datetime

from framecalc.errors import FrameCalcError
from framecalc.project import read_project
from framecalc.records import replace
from webapp.live.desk import Desk
from webapp.live.typed.forms import Draft, Typed
from webapp.live.work.glued import with_begun, without_begun

BEGUN_AT = "begun-at"
"""The time that is typed afterwards; blank is now."""


def carry_out(desk: Desk, draft: Draft, typed: Typed, _: str) -> Draft:
    """Apply the pressed button."""
    name, _, argument = typed.do.partition(":")
    frame_id, _, number = argument.partition(":")
    if name not in ("begin", "not-begun") or not number.isdigit():
        return draft
    if name == "not-begun":
        document = without_begun(draft.document, frame_id, int(number))
        return replace(draft, document=document, checked=read_project(document))
    at = typed.beside.get(BEGUN_AT, "").strip()
    try:
        document = with_begun(draft.document, frame_id, int(number), now=datetime.now(), at=at)
        return replace(draft, document=document, checked=read_project(document))
    except FrameCalcError as error:
        return replace(draft, messages=draft.messages | {BEGUN_AT: error.sentence})
