"""The rack page: its form for one stick, the sticks that stand there, what was cut."""

import re
from collections.abc import Iterable, Iterator, Mapping
from itertools import groupby
from typing import TypeAlias

from framecalc.errors import FrameCalcError
from framecalc.look.tones import wood_tone
from framecalc.project.document import Document
from framecalc.project.form import fields_of
from framecalc.records import Record, replace
from framecalc.units import Step, Unit
from framecalc.words import Words, capitalised, joined
from webapp.data.errors import UnreadableFile
from webapp.data.rack_file import CutEntry, RackEntry, RackFile, new_tags, read_entry
from webapp.live.days import day
from webapp.live.desk import Desk, new_id
from webapp.live.slots import FieldSlot, FieldView, echo
from webapp.live.typed.as_shown import as_shown, meet
from webapp.live.typed.field import FieldSet
from webapp.live.typed.forms import DraftOf, Typed, work_in
from webapp.live.typed.texts import Reading, shown
from webapp.live.work.claims import Claim, Claims, claims_on
from webapp.live.work.rack_words import length_said, origin_said, section_said

_OF_STICK = fields_of(RackEntry)
RACK_FIELDS = FieldSet(fields=_OF_STICK | {"tag": replace(_OF_STICK["tag"], optional=True)})
"""Fields of one stick; on the page its tag may stay blank."""

BLANK: Document = {"tag": "", "species": "", "length": "", "width": "", "thickness": "", "profile": ""}
_USUAL = BLANK | {"is_board": False, "is_off_cut": False}
_ALIKE = ("species", "width", "thickness", "profile", "is_board", "is_off_cut")
"""What the next stick often has in common with the last."""

_STAND_IN = {"length": "1000 mm", "width": "20 mm", "thickness": "20 mm"}
"""What stands in the document of a new stick until its sizes are typed; a blank field is refused before it counts."""

StickDraft: TypeAlias = DraftOf[RackEntry | None]
"""The form of a stick with what is typed; it is checked once a whole stick is sent."""

CUTS_SHOWN, AWAY_SHOWN = 12, 5
"""How many of the last cuts are listed at once, and how many sticks that were taken away."""


class RackStickView(Record):
    """One stick of the list; `share` is its length to the longest of the rack, in hundredths.

    `claims` are the projects that count on it.
    """

    id: str
    tag: str
    length: str
    section: str
    says: str
    share: str
    is_board: bool
    claims: tuple[Claim, ...]


class WoodView(Record):
    """The sticks of one wood, and its colour."""

    wood: str
    tone: str
    sticks: tuple[RackStickView, ...]


class CutLine(Record):
    """One cut as it is listed."""

    id: str
    says: str
    went: str
    came: str
    project_id: str
    is_undone: bool


class RackShown(Record):
    """Everything the rack page shows.

    `changes` is the id of the stick in the form and `called` its tag, both blank for a new one; `put_on` is the tag of
    the stick that was put on last. `said`: why what was asked for was not done.
    """

    words: Words
    unit: str
    fields: Mapping[str, FieldView]
    messages: Mapping[str, str]
    changes: str
    new: str
    stamp: int
    was: str
    called: str
    put_on: str
    woods: tuple[WoodView, ...]
    away: tuple[RackStickView, ...]
    cuts: tuple[CutLine, ...]
    earlier: tuple[CutLine, ...]
    said: str


def rack_shown(desk: Desk, draft: StickDraft, *, changes: str = "", like: str = "", said: str = "") -> RackShown:
    """Everything the rack page shows.

    Args:
        changes: the id of the stick in the form; blank for a new one.
        like: the id of the stick that the form's one starts like.
        said: why what was asked for was not done.
    """
    file, shop = desk.rack.read(), desk.shop()
    there = {entry.id: entry for entry in file.sticks}
    cuts = tuple(_cut(cut, shop.unit) for cut in reversed(file.cuts))
    claims = claims_on(desk, file)
    longest_mm = max((entry.length.mm for entry in file.sticks), default=1.0)
    return RackShown(
        words=shop.words,
        fields=_field_views(desk, draft),
        changes=changes,
        new=new_id(),
        stamp=there[changes].stamp if changes in there else 0,
        was=as_shown(_document(there[changes]), RACK_FIELDS, unit=shop.unit) if changes in there else "",
        called=there[changes].tag if changes in there else "",
        put_on=there[like].tag if like in there else "",
        woods=tuple(_woods(file, shop.unit, longest_mm, claims)),
        away=tuple(_stick(entry, shop.unit, longest_mm, ()) for entry in file.away[:AWAY_SHOWN]),
        cuts=cuts[:CUTS_SHOWN],
        earlier=cuts[CUTS_SHOWN:],
        messages=draft.messages,
        said=said,
        unit=shop.unit.value,
    )


class DamagedRack(Record):
    """What is said of a rack that cannot be read; `count` sticks stood there before its last change."""

    words: Words
    damage: str
    count: int


def damaged_shown(desk: Desk, damage: UnreadableFile) -> DamagedRack:
    """What is said of a rack that cannot be read, and what there is to go on with."""
    before = desk.rack.before()
    return DamagedRack(words=desk.shop().words, damage=damage.sentence, count=len(before.sticks))


def form_of(desk: Desk, *, changes: str = "", like: str = "") -> StickDraft:
    """The form as it stands: for a stick on the rack, for a new one like it, or blank."""
    sticks = desk.rack.read().sticks
    entry = next((stick for stick in sticks if stick.id == changes), None)
    if entry is not None:
        return StickDraft(document=entry.model_dump(mode="json"), checked=entry)
    model = next((stick for stick in sticks if stick.id == like), None)
    alike = model.model_dump(mode="json", include=set(_ALIKE)) if model else {}
    return StickDraft(document=_USUAL | alike, checked=None)


def work_in_stick(desk: Desk, form: Typed, stick_id: str) -> StickDraft:
    """Work a sent form into a stick; whatever cannot be taken has a sentence.

    A form for a new stick carries the id that it will have. Sent twice as it was, it is the same stick; sent again from
    an earlier page with something else in it, it is another one.
    """
    sticks = {stick.id: stick for stick in desk.rack.read().sticks}
    if stick_id:
        return _worked_in(desk, form, stick_id if stick_id in sticks else new_id(), sticks.get(stick_id))
    sent = form.texts.get("new", "")
    fresh_id = sent if re.fullmatch(r"[a-z0-9]{6}", sent) else new_id()
    draft = _worked_in(desk, form, fresh_id, sticks.get(fresh_id))
    if fresh_id not in sticks or draft.messages or draft.checked == sticks[fresh_id]:
        return draft
    return _worked_in(desk, form, new_id(), None)


def _worked_in(desk: Desk, form: Typed, stick_id: str, before: RackEntry | None) -> StickDraft:
    """Work a form into a stick of this id, or into the one that stands there before."""
    shop = desk.shop()
    reading = Reading(unit=shop.unit, comma=shop.comma)
    met = meet(_document(before), form if before else replace(form, was={}), RACK_FIELDS, reading=reading)
    texts = {path: text for path, text in met.mine.items() if path in RACK_FIELDS}
    tag = before.tag if before else _usual_tag(desk, texts)
    texts["tag"] = texts.get("tag", "").strip() or tag
    document = {"tag": tag} | _STAND_IN | _document(before) | {"id": stick_id}
    draft: StickDraft = work_in(document, texts, RACK_FIELDS, reading=reading, check=read_entry)
    typed = {path: form.texts[path] for path in met.contested} | texts
    return replace(draft, messages=draft.messages | dict(met.contested), typed=typed)


def _document(entry: RackEntry | None) -> Document:
    """A stick as plain values, without what is blank."""
    kept = entry.model_dump(mode="json") if entry else {}
    return {path: value for path, value in kept.items() if value != ""}


def stamp_of(desk: Desk, form: Typed, stick_id: str) -> int:
    """The stamp that a stick must still have: what a form that says what it showed changes is worked into any."""
    now = next((stick.stamp for stick in desk.rack.read().sticks if stick.id == stick_id), 0)
    return now if form.was and now else form.base


def put(desk: Desk, draft: StickDraft, *, stamp: int) -> StickDraft:
    """Put the stick of a draft on the rack; a draft with a sentence where that cannot be.

    Args:
        stamp: of the stick as the form showed it; 0 for a new one.
    Raises:
        RackChanged: that stick is no longer as it was shown.
    """
    if draft.messages or draft.checked is None:
        return draft
    try:
        desk.rack.put(draft.checked, stamp=stamp)
    except FrameCalcError as error:
        return replace(draft, checked=None, messages={error.field: error.sentence})
    return draft


def _usual_tag(desk: Desk, texts: dict[str, str]) -> str:
    kind = "board" if texts.get("is_board") == "yes" else "stick"
    return next(new_tags(desk.rack.read(), texts.get("species", "").strip()[:60] or kind))


def _field_views(desk: Desk, draft: StickDraft) -> dict[str, FieldView]:
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


def _slot(draft: StickDraft, path: str, step: Step) -> FieldSlot:
    length = getattr(draft.checked, path, None) if path in _STAND_IN and path not in draft.messages else None
    return FieldSlot(
        id=f"slot-{path}",
        path=path,
        echo=echo(length, step) if length else "",
        error=draft.messages.get(path, ""),
        solved="",
        assumed=False,
        found=(),
    )


def _woods(file: RackFile, unit: Unit, longest_mm: float, claims: Claims) -> Iterator[WoodView]:
    ordered = sorted(file.sticks, key=_place)
    for _, entries in groupby(ordered, key=lambda one: one.species.casefold()):
        sticks = list(entries)
        name = sticks[0].species[:1].upper() + sticks[0].species[1:]
        views = tuple(_stick(entry, unit, longest_mm, claims.get(entry.tag, ())) for entry in sticks)
        yield WoodView(wood=name or "No wood named", tone=wood_tone(name), sticks=views)


def _place(entry: RackEntry) -> tuple[object, ...]:
    """Where a stick stands in the list: by its wood, boards after sticks, the longest first."""
    return not entry.species, entry.species.casefold(), entry.is_board, -entry.length.mm, entry.tag


def _stick(entry: RackEntry, unit: Unit, longest_mm: float, claims: tuple[Claim, ...]) -> RackStickView:
    whole = "rough board" if entry.is_board else "off-cut" if entry.is_off_cut else "stick"
    kind = capitalised(origin_said(entry) if entry.origin else whole)
    return RackStickView(
        id=entry.id,
        tag=entry.tag,
        length=length_said(entry, unit),
        section=section_said(entry, unit),
        says=joined(", ", filter(None, (kind, entry.profile))),
        share=f"{min(100.0, 100 * entry.length.mm / longest_mm):.2f}",
        is_board=entry.is_board,
        claims=claims,
    )


def _cut(cut: CutEntry, unit: Unit) -> CutLine:
    return CutLine(
        id=cut.id,
        says=f"{cut.project_name}: {cut.members}, {day(cut.when)}",
        went=_listed(cut.taken, unit) or "nothing from the rack",
        came=_listed(cut.returned, unit) or "nothing worth keeping",
        project_id=cut.project,
        is_undone=bool(cut.undone),
    )


def _listed(entries: Iterable[RackEntry], unit: Unit) -> str:
    return "; ".join(f"{entry.tag}, {length_said(entry, unit)}" for entry in entries)
