"""The form of the shop profile: its fields, and what its buttons do."""

from collections.abc import Mapping
from copy import deepcopy
from dataclasses import dataclass, replace
from typing import Any

from framecalc.artwork.measuring import ArtworkKind
from framecalc.errors import FrameCalcError
from framecalc.project.form import Field
from framecalc.project.label import Control
from framecalc.units import Comma, Unit
from framecalc.words import Words
from webapp.data.shop import INCH_STEPS, MM_STEPS, USUAL_SHOP, read_shop
from webapp.live.desk import new_id
from webapp.live.field import FieldSet
from webapp.live.forms import Document, Draft, Reading, Typed, shown, work_in

COMMAS = (
    (Comma.ASK.value, "Ask which is meant"),
    (Comma.DECIMAL.value, "It is a decimal comma"),
    (Comma.THOUSANDS.value, "It groups thousands"),
)
WORDS = ((Words.US.value, "American: rabbet, mat, miter"), (Words.UK.value, "British: rebate, mount, mitre"))
UNITS = ((Unit.MM.value, "Millimetres"), (Unit.INCH.value, "Inches"))
MOST_BLADES = 12


def _steps(steps: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    return tuple((str(step), str(step)) for step in steps)


def _choice(path: str, label: str, choices: tuple[tuple[str, str], ...], explain: str) -> Field:
    return Field(path=path, label=label, control=Control.CHOICE, choices=choices, explain=explain)


SHOP_FIELDS = {
    one.path: one
    for one in (
        _choice("unit", "New projects are measured in", UNITS, "A bare number is taken in this unit."),
        _choice("inch_step", "Inches are written to", _steps(INCH_STEPS), "What your tape is read to."),
        _choice("mm_step", "Millimetres are written to", _steps(MM_STEPS), "What your tape is read to."),
        _choice(
            "comma", "A comma before three digits", COMMAS, "12,125 can be a size in decimals, or twelve thousand."
        ),
        _choice("words", "Trade words", WORDS, "Both name the same things."),
        Field(path="end_trim", label="End trim", explain="What is cut off each end of a stick before it counts."),
        Field(
            path="called",
            label="Name of the shop",
            control=Control.WORDS,
            optional=True,
            explain="Clients read it over their frame.",
        ),
        Field(
            path="client_note",
            label="Note to every client",
            control=Control.WORDS,
            optional=True,
            explain="How to reach you, how to pay: clients read it under their frame.",
        ),
        Field(path="fence_length", label="Fence length", explain="How long a piece the stop on your fence can set."),
    )
}
"""Fields of the profile itself, by their path."""

CLEARANCE_FIELDS = {
    f"clearances.{kind.replace(' ', '_')}": Field(path="clearance", label=kind.capitalize(), optional=True)
    for kind in ArtworkKind
}
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
    fields = dict(SHOP_FIELDS) | CLEARANCE_FIELDS
    for blade in document["blades"]:
        here = f"blades.{blade['id']}"
        fields[f"{here}.name"] = Field(path="name", label="Blade", control=Control.WORDS)
        fields[f"{here}.kerf"] = Field(path="kerf", label="Kerf", explain="Measure the cut in a scrap.")
    names = tuple((blade["id"], blade["name"]) for blade in document["blades"])
    fields["blade"] = _choice("blade", "Blade in use", names, "New projects are started with its kerf.")
    return FieldSet(fields=fields)


def profile_document(stored: Mapping[str, Any]) -> Document:
    """The profile to show and to change: the stored one, or the usual one where none is stored."""
    return deepcopy(dict(stored or USUAL_SHOP))


def work_in_shop(document: Document, form: Typed) -> Draft:
    """Work a sent form into a profile: what was typed, then what the button asks for."""
    profile = read_shop(document)
    reading = Reading(unit=profile.unit, comma=profile.comma)
    draft = work_in(document, form.texts, shop_fields(document), reading=reading, check=read_shop)
    draft.document["confirmed"] = True
    work = deepcopy(draft.document)
    try:
        _press(work, form.do)
        return replace(draft, document=work, checked=read_shop(work))
    except FrameCalcError as error:
        return replace(draft, messages=draft.messages | {error.field: error.sentence})


def shop_field_views(draft: Draft) -> dict[str, ShopField]:
    """Every field as it is shown: what could not be taken stands as it was typed."""
    unit = Unit(draft.document["unit"])
    return {
        path: ShopField(
            path=path,
            field=one,
            text=draft.typed[path] if path in draft.messages else shown(draft.document, path, one, unit=unit),
            error=draft.messages.get(path, ""),
        )
        for path, one in shop_fields(draft.document).items()
    }


def _press(document: Document, do: str) -> None:
    name, _, blade_id = do.partition(":")
    if name == "add-blade" and len(document["blades"]) < MOST_BLADES:
        document["blades"].append({"id": new_id(), "name": "Another blade", "kerf": document["blades"][0]["kerf"]})
    elif name == "remove-blade":
        document["blades"] = [blade for blade in document["blades"] if blade["id"] != blade_id]
        if document["blades"] and document["blade"] == blade_id:
            document["blade"] = document["blades"][0]["id"]
    elif name != "save":
        raise FrameCalcError("this button is not known here, or there are as many blades as there can be")
