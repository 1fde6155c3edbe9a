"""The form of the shop profile: its fields, and what its buttons do."""

from copy import deepcopy

from framecalc.bench.cutters import CutterKind
from framecalc.bench.finishing import Finish
from framecalc.bench.gluing import Glue
from framecalc.drawing.sheet import usual_paper
from framecalc.errors import FrameCalcError
from framecalc.project import items_at, items_of, remove_item, text_at
from framecalc.project.document import Document
from framecalc.project.form import Field, fields_of, fields_under
from framecalc.project.own_times import MOST_OWN, OwnFinish, OwnGlue
from framecalc.project.price import MOST_ITEMS
from framecalc.records import Record, replace
from framecalc.units import Unit
from webapp.data.cutters import MOST_CUTTERS, OwnCutter
from webapp.data.machines import MOST_MATERIALS, MOST_PRINTERS, Laser, LaserMaterial, Printer
from webapp.data.shop import Blade, Clearances, ShopProfile, read_shop
from webapp.live.desk import new_id
from webapp.live.typed.as_shown import meet
from webapp.live.typed.field import FieldSet
from webapp.live.typed.forms import DraftOf, Typed, work_in
from webapp.live.typed.texts import Reading, shown

MOST_BLADES = 12

USUAL_CUTTER = {Unit.MM: "6 mm", Unit.INCH: "1/4 in"}
"""What a new cutter is taken for until its size is typed."""


OF_THE_PROJECT = ("shop.{inch_step,mm_step,comma,words,end_trim,fence_length,mark}", "shop.strap")
"""What a project copies of the profile when it starts: the fields are the same."""

SHOP_FIELDS = {
    **fields_of(ShopProfile, "unit", "saw_kind"),
    **{path.removeprefix("shop."): field for path, field in fields_under({"shop": {}}, *OF_THE_PROJECT).items()},
    **fields_of(ShopProfile, "called", "contact", "client_note", "how_to_pay", "after_yes"),
}
"""Fields of the profile itself, by their path."""

CLEARANCE_FIELDS = {f"clearances.{kind}": field for kind, field in fields_of(Clearances).items()}
"""The shop's own clearances, by their path."""


class ShopField(Record):
    """One field as it is shown."""

    path: str
    field: Field
    text: str
    error: str


def shop_fields(document: Document) -> FieldSet:
    """All fields of a profile, those of its blades among them."""
    blades = items_at(document, "blades")
    strap = fields_under({"shop": {}, "unit": document["unit"]}, "shop.strap")
    fields = dict(SHOP_FIELDS) | CLEARANCE_FIELDS
    fields |= {path.removeprefix("shop."): field for path, field in strap.items()}
    for blade in blades:
        fields |= {f"blades.{blade['id']}.{name}": field for name, field in fields_of(Blade).items()}
    for printer in items_at(document, "printers"):
        fields |= {f"printers.{printer['id']}.{name}": field for name, field in fields_of(Printer).items()}
    for one in items_at(document, "glues"):
        fields |= {f"glues.{one['id']}.{name}": field for name, field in fields_of(OwnGlue).items()}
    for one in items_at(document, "finishes"):
        fields |= {f"finishes.{one['id']}.{name}": field for name, field in fields_of(OwnFinish).items()}
    for cutter in items_at(document, "cutters"):
        fields |= {f"cutters.{cutter['id']}.{name}": field for name, field in fields_of(OwnCutter).items()}
    fields |= {f"laser.{name}": field for name, field in fields_of(Laser).items()}
    for material in items_at(document, "laser.materials"):
        of_one = fields_of(LaserMaterial).items()
        fields |= {f"laser.materials.{material['id']}.{name}": field for name, field in of_one}
    quote = {"quote": document.get("quote") or {}}
    fields |= fields_under(quote, "quote.items.*.{name,listed_as,measure,price,priced_on}")
    names = tuple((text_at(blade, "id"), text_at(blade, "name")) for blade in blades)
    fields["blade"] = fields_of(ShopProfile, "blade")["blade"].choosing(names)
    return FieldSet(fields=fields)


def work_in_shop(document: Document, form: Typed) -> DraftOf[ShopProfile]:
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


def shop_field_views(draft: DraftOf[ShopProfile]) -> dict[str, ShopField]:
    """Every field as it is shown: what could not be taken stands as it was typed."""
    unit, troubles = draft.checked.unit, draft.checked.troubles
    return {
        path: ShopField(
            path=path,
            field=one,
            text=draft.typed[path] if path in draft.messages else shown(draft.document, path, one, unit=unit),
            error=draft.messages.get(path) or troubles.get(path, ""),
        )
        for path, one in shop_fields(draft.document).items()
    }


LISTS = {
    "blade": "blades",
    "price": "quote.items",
    "printer": "printers",
    "material": "laser.materials",
    "cutter": "cutters",
    "glue": "glues",
    "finish": "finishes",
}
"""The lists of a profile that buttons add to and remove from, by what one item is called."""

MOST = {
    "blade": MOST_BLADES,
    "price": MOST_ITEMS,
    "printer": MOST_PRINTERS,
    "material": MOST_MATERIALS,
    "cutter": MOST_CUTTERS,
    "glue": MOST_OWN,
    "finish": MOST_OWN,
}


def _press(document: Document, do: str) -> None:
    """Do what a button says: `add-blade`, `remove-blade:ID` and their like."""
    name, _, item_id = do.partition(":")
    verb, _, kind = name.partition("-")
    if verb == "add" and kind in LISTS:
        items = items_of(document, LISTS[kind])
        if len(items) >= MOST[kind]:
            raise FrameCalcError("Remove one first: there is room for no more.")
        items.append({"id": new_id()} | _new(document, kind))
    elif verb == "remove" and kind in LISTS:
        remove_item(document, LISTS[kind], item_id)
        _choose_a_blade_that_is_there(document)
    elif name != "save":
        raise FrameCalcError("This button is not known here: nothing was changed by it.")


def _new(document: Document, kind: str) -> Document:
    """What a new item begins with."""
    begins: dict[str, Document] = {
        "blade": {"name": "Another blade", "kerf": items_at(document, "blades")[0]["kerf"]},
        "price": {"name": "Another item"},
        "printer": {"name": "Printer", "paper": usual_paper(Unit(text_at(document, "unit")))},
        "material": {"name": "Another material"},
        "cutter": {
            "kind": CutterKind.ROUND_OVER.value,
            "size": USUAL_CUTTER[Unit(text_at(document, "unit"))],
            "has_bearing": False,
        },
        "glue": {"glue": Glue.YELLOW.value, "open_minutes": 5, "clamped_minutes": 30},
        "finish": {"finish": Finish.OIL.value, "coats": 3, "recoat_hours": "24", "cure_days": 21},
    }
    return begins[kind]


def _choose_a_blade_that_is_there(document: Document) -> None:
    blades = [one["id"] for one in items_at(document, "blades")]
    if blades and document["blade"] not in blades:
        document["blade"] = blades[0]
