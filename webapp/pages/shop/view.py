"""The shop profile: units, steps, words, blades; what new projects start with."""

from fastapi import APIRouter, Request, Response

from framecalc.project.document import Document
from webapp.data.pictures import clean_logo
from webapp.data.shop import ShopProfile, profile_document, read_shop
from webapp.live.addresses import KERF_STRIP, LOGO, PRINTER_CHECK, SHOP
from webapp.live.desk import AtDesk, Desk
from webapp.live.papers.files import machine_file
from webapp.live.render import render, see_other
from webapp.live.statuses import CANNOT_TAKE, UNREADABLE
from webapp.live.typed.forms import DraftOf, Form
from webapp.live.typed.sent_photo import SentPhoto
from webapp.pages.shop import PAGE
from webapp.pages.shop.form import LISTS, work_in_shop
from webapp.pages.shop.machines import check_leaf, strip_file
from webapp.pages.shop.shown import damaged_shown, shop_shown
from webapp.server.guard import PHOTO_LIMIT_BYTES

VIEW = router = APIRouter()


@router.get(SHOP)
def page(request: Request, desk: AtDesk, saved: str = "") -> Response:
    """Show the profile."""
    if desk.store.shop.damage():
        return _damaged(request, desk)
    document = profile_document(desk.store.read_shop())
    return _shown(request, DraftOf(document=document, checked=read_shop(document)), saved=bool(saved))


@router.post(SHOP)
def save(request: Request, desk: AtDesk, form: Form) -> Response:
    """Save what was changed; fields in error, and those changed elsewhere too, keep what is kept, and say why."""
    made: list[DraftOf[ShopProfile]] = []

    def changed(profile: Document) -> Document:
        made.append(work_in_shop(profile_document(profile), form))
        return made[0].document

    desk.store.shop.change(changed)
    draft = made[0]
    if draft.messages:
        return _shown(request, draft, status=CANNOT_TAKE)
    return see_other(f"{SHOP}?saved=yes" if form.do == "save" else SHOP, anchor=_anchor(form.do))


def _anchor(do: str) -> str:
    """Where on the page to go on after a button."""
    kind = do.partition(":")[0].partition("-")[2]
    return ("finishes" if kind == "finish" else f"{kind}s") if kind in LISTS else ""


@router.post(LOGO, max_body_size=PHOTO_LIMIT_BYTES)
def take_logo(desk: AtDesk, sent: SentPhoto) -> Response:
    """Add the mark of the shop, which clients see beside its name."""
    logo = clean_logo(sent)
    desk.store.shop.change(lambda profile: profile_document(profile) | {"logo": logo})
    return see_other(SHOP, anchor="logo")


@router.post(LOGO + "/remove")
def remove_logo(desk: AtDesk) -> Response:
    """Take the mark of the shop out again."""
    desk.store.shop.change(lambda profile: profile_document(profile) | {"logo": ""})
    return see_other(SHOP, anchor="logo")


@router.get(PRINTER_CHECK)
def printer_check(desk: AtDesk, printer: str = "", paper: str = "", proof: str = "") -> Response:
    """Answer with the leaf by which a printer is checked, or with the proof that one prints true now."""
    leaf = check_leaf(desk.shop(), printer_id=printer, paper=paper, proof=bool(proof))
    return machine_file(leaf, name="printer-check.pdf", media_type="application/pdf")


@router.get(KERF_STRIP + ".{ending}")
def kerf_strip(desk: AtDesk, ending: str) -> Response:
    """Answer with the strip by which a kerf is found."""
    content, media_type = strip_file(desk.shop(), ending)
    return machine_file(content, name=f"kerf-strip.{ending}", media_type=media_type)


@router.post(SHOP + "/mend")
def mend(desk: AtDesk) -> Response:
    """Set a damaged profile aside, and go on with the one before it."""
    desk.store.shop.mend()
    return see_other(SHOP)


def _damaged(request: Request, desk: Desk) -> Response:
    return render(request, "shop/damaged", damaged_shown(desk), status=UNREADABLE)


def _shown(request: Request, draft: DraftOf[ShopProfile], *, saved: bool = False, status: int = 200) -> Response:
    return render(request, PAGE.template, shop_shown(draft, saved=saved), status=status)
