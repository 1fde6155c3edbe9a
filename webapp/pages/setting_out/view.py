"""The setting-out page: one frame of a project, redrawn while a person types, saved when they leave a field."""

from fastapi import APIRouter

from webapp.live.actions import carry_out
from webapp.live.desk import Desk
from webapp.live.live_page import FramePage
from webapp.live.typed.field import fields_in
from webapp.live.typed.forms import Draft, Typed
from webapp.live.work.price_list import BUTTONS, with_prices
from webapp.pages.setting_out import PAGE, drawings_view, frames_view
from webapp.pages.setting_out.shown import page_shown, parts_shown

router = APIRouter()
router.routes.extend((*frames_view.router.routes, *drawings_view.router.routes))

ANCHORS = {
    "confirm": "field-{}",
    "confirm-group": "typed",
    "fix": "findings",
    "add-mat": "in-mat",
    "remove-mat": "in-mat",
    "take-out": "findings",
    "add-point": "points",
    "remove-point": "points",
    "usual-clearance": "in-fit",
    "fit-to-tape": "findings",
    "take-shop": "findings",
    "measured-once": "in-artwork",
    **dict.fromkeys(BUTTONS, "offers"),
}
"""Where on the page the eye should be after a button."""


def act(desk: Desk, draft: Draft, typed: Typed, frame_id: str) -> Draft:
    """Apply the pressed button to a draft; `save` changes nothing more. The shop goes on with a unit chosen here."""
    if typed.do.partition(":")[0] in BUTTONS:
        return with_prices(desk, draft, typed.do)
    changed = carry_out(draft, typed, frame_id=frame_id, shop=desk.shop())
    if changed.checked.unit is not draft.checked.unit:
        desk.remember_unit(changed.checked.unit)
    return changed


VIEW = FramePage(
    page=PAGE,
    fields=fields_in,
    act=act,
    shows=page_shown,
    shows_in_parts=parts_shown,
    anchors=ANCHORS,
    weighs_clashes=True,
    wants_plan=True,
    router=router,
)
