"""What the page of the shop profile shows: its fields, its lists, its machines; or that its file is damaged."""

from collections.abc import Mapping, Sequence

from framecalc.project import items_at
from framecalc.project.document import ReadDocument
from framecalc.records import Record
from framecalc.words import Words
from webapp.data.machines import Laser, LaserMaterial
from webapp.data.shop import ShopProfile
from webapp.live.desk import Desk
from webapp.live.typed.as_shown import as_shown
from webapp.live.typed.forms import DraftOf
from webapp.pages.shop.form import CLEARANCE_FIELDS, ShopField, shop_field_views, shop_fields
from webapp.pages.shop.machines import PrinterShown, printer_shown


class DamagedShop(Record):
    """What is said of a profile that cannot be read; `has_before` says whether the one before it can be."""

    words: Words
    damage: str
    has_before: bool


class ShopShown(Record):
    """Everything the page of the shop profile shows."""

    words: Words
    fields: Mapping[str, ShopField]
    clearances: tuple[str, ...]
    blades: Sequence[ReadDocument]
    prices: Sequence[ReadDocument]
    printers: tuple[PrinterShown, ...]
    materials: tuple[LaserMaterial, ...]
    cutters: Sequence[ReadDocument]
    glues: Sequence[ReadDocument]
    finishes: Sequence[ReadDocument]
    kerf: str
    logo: str
    messages: Mapping[str, str]
    was: str
    saved: bool


def damaged_shown(desk: Desk) -> DamagedShop:
    """Say what is wrong with the file, and what there is to go on with."""
    file = desk.store.shop
    return DamagedShop(words=desk.shop().words, damage=file.damage(), has_before=bool(file.before()))


def shop_shown(draft: DraftOf[ShopProfile], *, saved: bool) -> ShopShown:
    """What the page shows of a profile as it is typed; `saved`: it says that it was saved."""
    profile, document = draft.checked, draft.document
    return ShopShown(
        words=profile.words,
        fields=shop_field_views(draft),
        clearances=tuple(CLEARANCE_FIELDS),
        blades=items_at(document, "blades"),
        prices=items_at(document, "quote.items"),
        printers=tuple(map(printer_shown, profile.printers)),
        materials=profile.laser.materials,
        cutters=items_at(document, "cutters"),
        glues=items_at(document, "glues"),
        finishes=items_at(document, "finishes"),
        kerf=_kerf_says(profile.laser),
        logo=profile.logo,
        messages=draft.messages,
        was=as_shown(document, shop_fields(document), unit=profile.unit),
        saved=saved,
    )


def _kerf_says(laser: Laser) -> str:
    """The kerf that files are made with."""
    if "strip" in dict(laser.troubles()):
        return ""
    if not laser.kerf_mm:
        return "Files are made with no kerf."
    return f"Files are made with a kerf of {laser.kerf_mm:.4g} mm."
