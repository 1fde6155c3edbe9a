"""The form of the shop profile: its fields, and what its buttons do."""

from copy import deepcopy
from dataclasses import dataclass, replace

from framecalc.drawing.sheet import usual_paper
from framecalc.errors import FrameCalcError
from framecalc.project.form import Field, fields_of, fields_under
from framecalc.units import Unit
from webapp.data.machines import MOST_MATERIALS, MOST_PRINTERS, Laser, LaserMaterial, Printer
from webapp.data.shop import Blade, Clearances, ShopProfile, read_shop
from webapp.live.as_shown import meet
from webapp.live.desk import new_id
from webapp.live.field import FieldSet
from webapp.live.forms import Document, Draft, Reading, Typed, shown, work_in

MOST_BLADES = 12


OF_THE_PROJECT = ("shop.{inch_step,mm_step,comma,words,end_trim,fence_length,mark}", "shop.strap")
"""What a project copies of the profile when it starts: the fields are the same."""

SHOP_FIELDS = {
    **fields_of(ShopProfile, "unit"),
    **{path.removeprefix("shop."): field for path, field in fields_under({"shop": {}}, *OF_THE_PROJECT).items()},
    **fields_of(ShopProfile, "called", "client_note"),
}
"""Fields of the profile itself, by their path."""

CLEARANCE_FIELDS = {f"clearances.{kind}": field for kind, field in fields_of(Clearances).items()}
"""The shop's own clearances, by their path."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopField:
    """One field as it is shown."""

    path: str
    field: Field
    text: str
    error: str


def shop_fields(document: Document) -> FieldSet:
    """All fields of a profile, those of its blades among them."""
    strap = fields_under({"shop": {}, "unit": document["unit"]}, "shop.strap")
    fields = dict(SHOP_FIELDS) | CLEARANCE_FIELDS
    fields |= {path.removeprefix("shop."): field for path, field in strap.items()}
    for blade in document["blades"]:
        fields |= {f"blades.{blade['id']}.{name}": field for name, field in fields_of(Blade).items()}
    for printer in document.get("printers", ()):
        fields |= {f"printers.{printer['id']}.{name}": field for name, field in fields_of(Printer).items()}
    fields |= {f"laser.{name}": field for name, field in fields_of(Laser).items()}
    for material in document.get("laser", {}).get("materials", ()):
        of_one = fields_of(LaserMaterial).items()
        fields |= {f"laser.materials.{material['id']}.{name}": field for name, field in of_one}
    quote = {"quote": document.get("quote") or {}}
    fields |= fields_under(quote, "quote.items.*.{name,listed_as,measure,price,priced_on}")
    names = tuple((blade["id"], blade["name"]) for blade in document["blades"])
    fields["blade"] = fields_of(ShopProfile, "blade")["blade"].choosing(names)
    return FieldSet(fields=fields)


def work_in_shop(document: Document, form: Typed) -> Draft:
    """Work a sent form into a profile: what was changed in it, then what the button asks for."""
    profile, fields = read_shop(document), shop_fields(document)
    unit = form.was.get("unit", "")
    reading = Reading(unit=Unit(unit) if unit in set(Unit) else profile.unit, comma=profile.comma)
    met = meet(document, form, fields, reading=reading)
    draft = work_in(document, met.mine, fields, reading=reading, check=read_shop)
    draft = replace(draft, messages=draft.messages | dict(met.contested), typed=form.texts)
    draft.document["confirmed"] = True
    work = deepcopy(draft.document)
    try:
        _press(work, form.do)
        return replace(draft, document=work, checked=read_shop(work))
    except FrameCalcError as error:
        return replace(draft, messages=draft.messages | {error.field: error.sentence})


def shop_field_views(draft: Draft) -> dict[str, ShopField]:
    """Every field as it is shown: what could not be taken stands as it was typed."""
    unit, troubles = Unit(draft.document["unit"]), draft.checked.troubles
    return {
        path: ShopField(
            path=path,
            field=one,
            text=draft.typed[path] if path in draft.messages else shown(draft.document, path, one, unit=unit),
            error=draft.messages.get(path) or troubles.get(path, ""),
        )
        for path, one in shop_fields(draft.document).items()
    }


def _prices(document: Document) -> list[Document]:
    """The price list of a profile."""
    items: list[Document] = document.setdefault("quote", {}).setdefault("items", [])
    return items


def _materials(document: Document) -> list[Document]:
    """The materials of the laser that have a kerf of their own."""
    materials: list[Document] = document.setdefault("laser", {}).setdefault("materials", [])
    return materials


def _press(document: Document, do: str) -> None:
    name, _, item_id = do.partition(":")
    if name == "add-blade" and len(document["blades"]) < MOST_BLADES:
        document["blades"].append({"id": new_id(), "name": "Another blade", "kerf": document["blades"][0]["kerf"]})
    elif name == "remove-blade":
        document["blades"] = [blade for blade in document["blades"] if blade["id"] != item_id]
        if document["blades"] and document["blade"] == item_id:
            document["blade"] = document["blades"][0]["id"]
    elif name == "add-price":
        _prices(document).append({"id": new_id(), "name": "Another item"})
    elif name == "remove-price":
        items = _prices(document)
        items[:] = [item for item in items if item["id"] != item_id]
    elif name == "add-printer" and len(document.get("printers", ())) < MOST_PRINTERS:
        paper = usual_paper(Unit(document["unit"]))
        document.setdefault("printers", []).append({"id": new_id(), "name": "Printer", "paper": paper})
    elif name == "remove-printer":
        document["printers"] = [one for one in document.get("printers", ()) if one["id"] != item_id]
    elif name == "add-material" and len(_materials(document)) < MOST_MATERIALS:
        _materials(document).append({"id": new_id(), "name": "Another material"})
    elif name == "remove-material":
        materials = _materials(document)
        materials[:] = [one for one in materials if one["id"] != item_id]
    elif name != "save":
        raise FrameCalcError("Remove one first: there is room for no more.")
