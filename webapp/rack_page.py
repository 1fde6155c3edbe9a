"""The rack page: its form for one stick, the sticks that stand there, what was cut."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby
from typing import Any

from framecalc.errors import FrameCalcError
from framecalc.units import Step, Unit, describe_length, format_length
from webapp.client_page import day
from webapp.desk import Desk, new_id
from webapp.fields import Control, Field, FieldSet
from webapp.forms import Draft, Reading, Typed, shown, work_in
from webapp.rack_store import CutEntry, RackEntry, RackFile, next_tag, read_entry
from webapp.slots import FieldView, Slot, echo

KINDS = (("no", "A stick, flat and square"), ("yes", "A rough board"))
SOURCES = (("no", "Whole"), ("yes", "Off-cut"))

RACK_FIELDS = FieldSet(
    fields={
        one.path: one
        for one in (
            Field(path="is_board", label="What it is", control=Control.YES_NO, choices=KINDS),
            Field(
                path="tag",
                label="Tag",
                control=Control.WORDS,
                optional=True,
                explain="What is chalked on it; blank: the wood and a number.",
            ),
            Field(path="species", label="Wood", control=Control.WORDS, optional=True),
            Field(path="length", label="Length"),
            Field(path="width", label="Width"),
            Field(path="thickness", label="Thickness"),
            Field(
                path="profile",
                label="Rabbet or profile",
                control=Control.WORDS,
                optional=True,
                explain="Blank while it is a plain blank; else what was milled, in the same words each time.",
            ),
            Field(path="is_off_cut", label="Whole or off-cut", control=Control.YES_NO, choices=SOURCES),
        )
    }
)
"""Fields of one stick."""

BLANK: dict[str, Any] = {"tag": "", "species": "", "length": "", "width": "", "thickness": "", "profile": ""}
_STAND_IN = {"length": "1000 mm", "width": "20 mm", "thickness": "20 mm"}
"""What stands in the document of a new stick until its sizes are typed; a blank field is refused before it counts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StickView:
    """One stick of the list."""

    id: str
    tag: str
    length: str
    section: str
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WoodView:
    """The sticks of one wood."""

    wood: str
    sticks: tuple[StickView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CutView:
    """One cut as it is listed."""

    id: str
    says: str
    went: str
    came: str
    project_id: str
    is_undone: bool


def rack_shown(desk: Desk, draft: Draft, *, changes: str = "", said: str = "") -> dict[str, Any]:
    """Everything the rack page shows; `changes` is the id of the stick in the form, blank for a new one."""
    file, shop = desk.rack.read(), desk.shop()
    return {
        "words": shop.words,
        "fields": _field_views(desk, draft),
        "changes": changes,
        "woods": tuple(_woods(file, shop.unit)),
        "count": len(file.sticks),
        "away": tuple(_stick(entry, shop.unit) for entry in file.away[:3]),
        "cuts": tuple(_cut(cut, shop.unit) for cut in reversed(file.cuts)),
        "messages": draft.messages,
        "said": said,
        "unit": shop.unit.value,
        "where": lambda path: "",
    }


def form_of(desk: Desk, stick_id: str) -> Draft:
    """The form as it stands: for a stick on the rack, or blank for a new one."""
    entry = next((stick for stick in desk.rack.read().sticks if stick.id == stick_id), None)
    document = entry.model_dump(mode="json") if entry else BLANK | {"is_board": False, "is_off_cut": False}
    return Draft(document=document, checked=entry)


def work_in_stick(desk: Desk, form: Typed, stick_id: str) -> Draft:
    """Work a sent form into a stick; whatever cannot be taken has a sentence."""
    shop, before = desk.shop(), form_of(desk, stick_id)
    texts = {path: text for path, text in form.texts.items() if path in RACK_FIELDS}
    texts["tag"] = texts.get("tag", "").strip() or _usual_tag(desk, texts)
    usual = _STAND_IN | {path: value for path, value in before.document.items() if value != ""}
    return work_in(
        {"tag": texts["tag"]} | usual | {"id": stick_id or new_id()},
        texts,
        RACK_FIELDS,
        reading=Reading(unit=shop.unit, comma=shop.comma),
        check=read_entry,
    )


def put(desk: Desk, draft: Draft) -> Draft:
    """Put the stick of a draft on the rack; a draft with a sentence where that cannot be."""
    if draft.messages:
        return draft
    try:
        desk.rack.put(draft.checked)
    except FrameCalcError as error:
        return Draft(document=draft.document, checked=None, messages={error.field: error.sentence}, typed=draft.typed)
    return draft


def _usual_tag(desk: Desk, texts: dict[str, str]) -> str:
    is_board = texts.get("is_board") == "yes"
    return next_tag(desk.rack.read(), species=texts.get("species", "").strip()[:60], is_board=is_board)


def _field_views(desk: Desk, draft: Draft) -> dict[str, FieldView]:
    unit, step = desk.shop().unit, desk.shop().inch_step
    return {
        path: FieldView(
            path=path,
            id=f"in-{path}",
            field=one,
            text=draft.typed.get(path, shown(draft.document, path, one, unit=unit)),
            slot=_slot(draft, path, step),
        )
        for path, one in RACK_FIELDS.items()
    }


def _slot(draft: Draft, path: str, step: Step) -> Slot:
    length = getattr(draft.checked, path, None) if path in _STAND_IN and path not in draft.messages else None
    return Slot(
        id=f"slot-{path}",
        path=path,
        echo=echo(length, step) if length else "",
        error=draft.messages.get(path, ""),
        solved="",
        assumed=False,
        found=(),
    )


def _woods(file: RackFile, unit: Unit) -> Iterable[WoodView]:
    ordered = sorted(file.sticks, key=lambda one: (one.species.casefold(), one.is_board, -one.length.mm, one.tag))
    for _, entries in groupby(ordered, key=lambda one: one.species.casefold()):
        sticks = list(entries)
        name = sticks[0].species[:1].upper() + sticks[0].species[1:]
        yield WoodView(wood=name or "No wood named", sticks=tuple(_stick(entry, unit) for entry in sticks))


def _stick(entry: RackEntry, unit: Unit) -> StickView:
    kind = "rough board" if entry.is_board else "off-cut" if entry.is_off_cut else "stick"
    says = ", ".join(filter(None, (kind, entry.profile, entry.origin)))
    return StickView(
        id=entry.id,
        tag=entry.tag,
        length=_length(entry, unit),
        section=f"{describe_length(entry.width.mm, unit=unit)} × {describe_length(entry.thickness.mm, unit=unit)}",
        says=says[:1].upper() + says[1:],
    )


def _length(entry: RackEntry, unit: Unit) -> str:
    """The length as typed; an off-cut's, which nobody typed, in the shop's unit."""
    if unit is Unit.INCH and entry.is_off_cut and entry.length.text.endswith("mm"):
        return f"{format_length(entry.length.mm, step=Step.SIXTEENTH).text} in ({entry.length.text})"
    return entry.length.text


def _cut(cut: CutEntry, unit: Unit) -> CutView:
    return CutView(
        id=cut.id,
        says=f"{cut.project_name}: {cut.members}, {day(cut.when)}",
        went=_listed(cut.taken, unit) or "nothing from the rack",
        came=_listed(cut.returned, unit) or "nothing worth keeping",
        project_id=cut.project,
        is_undone=bool(cut.undone),
    )


def _listed(entries: Iterable[RackEntry], unit: Unit) -> str:
    return ", ".join(f"{entry.tag} ({_length(entry, unit)})" for entry in entries)
