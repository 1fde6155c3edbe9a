"""The shop profile: units, steps, words, blades; what new projects start with."""

from typing import Annotated

from fastapi import APIRouter, Depends, Request, Response

from webapp.data.shop import read_shop
from webapp.live.desk import Desk, desk
from webapp.live.forms import Draft, Typed, typed
from webapp.live.render import render, see_other
from webapp.pages.shop.form import CLEARANCE_FIELDS, profile_document, shop_field_views, work_in_shop

router = APIRouter()
CANNOT_TAKE = 422

AtDesk = Annotated[Desk, Depends(desk)]
Form = Annotated[Typed, Depends(typed)]


@router.get("/shop")
def page(request: Request, desk: AtDesk, saved: str = "") -> Response:
    """Show the profile."""
    document = profile_document(desk.store.read_shop())
    return _shown(request, Draft(document=document, checked=read_shop(document)), saved=bool(saved))


@router.post("/shop")
def save(request: Request, desk: AtDesk, form: Form) -> Response:
    """Save what was typed; fields in error keep what they had, and say why."""
    draft = work_in_shop(profile_document(desk.store.read_shop()), form)
    desk.store.write_shop(draft.document)
    if draft.messages:
        return _shown(request, draft, status=CANNOT_TAKE)
    return see_other("/shop?saved=yes" if form.do == "save" else "/shop", anchor="blades" if form.do != "save" else "")


def _shown(request: Request, draft: Draft, *, saved: bool = False, status: int = 200) -> Response:
    shown = {
        "words": draft.checked.words,
        "fields": shop_field_views(draft),
        "clearances": tuple(CLEARANCE_FIELDS),
        "blades": draft.document["blades"],
        "messages": draft.messages,
        "saved": saved,
    }
    return render(request, "shop/page", shown, status=status)
