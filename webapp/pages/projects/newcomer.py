"""A new project: three numbers, a unit and a kind; the form's fields, and what becomes of them."""

import re
from collections.abc import Callable, Mapping

from framecalc.artwork.measuring import ArtworkKind
from framecalc.errors import FrameCalcError
from framecalc.project import ProjectErrors, read_project
from framecalc.project.document import Document
from framecalc.project.form import Field
from framecalc.project.label import Control, named
from framecalc.project.model import UNITS
from framecalc.project.usual_values import FirstNumbers, beginning
from framecalc.records import Record, field, replace
from framecalc.units import Comma, Unit, parse_length
from webapp.data.shop import ShopProfile, shop_values
from webapp.live.desk import new_id
from webapp.live.typed.texts import Reading, value_of, without_unit

_KINDS = named(ArtworkKind)

NEW_FIELDS = {
    "name": Field(path="name", label="Name", control=Control.WORDS, optional=True),
    "unit": Field(path="unit", label="Measured in", control=Control.CHOICE, choices=UNITS),
    "kind": Field(path="kind", label="What is framed", control=Control.CHOICE, choices=_KINDS),
    "across": Field(path="across", label="Artwork, across"),
    "up": Field(path="up", label="Artwork, up"),
    "face_width": Field(path="face_width", label="Face width"),
}
"""The fields of the form, by their name."""

_NAME_OF_PATH = {"artwork.across": "across", "artwork.up": "up", "section.face_width": "face_width", "name": "name"}


STAMP_MM = 50.0
"""An artwork no larger than this both ways is a stamp, or its unit was forgotten: 48 in is a large poster. Ours."""

_LENGTHS = ("across", "up", "face_width")
_WHOLE = re.compile(r"[\d\s.,]+")


class Newcomer(Record):
    """The form of a new project as it was sent: its texts, a sentence for each not taken, the document if all are.

    `asks_inches`: the numbers are taken for inches that were typed under millimetres.
    """

    texts: Mapping[str, str]
    messages: Mapping[str, str] = field(default_factory=dict)
    document: Document | None = None
    asks_inches: bool = False


def blank(shop: ShopProfile) -> Newcomer:
    """The form before anything is typed."""
    return Newcomer(texts=dict.fromkeys(NEW_FIELDS, "") | {"unit": shop.unit.value, "kind": ArtworkKind.PAPER.value})


def read_newcomer(
    sent: Mapping[str, str], *, shop: ShopProfile, begin: Callable[..., Document] = beginning
) -> Newcomer:
    """Make a document of what was typed, or say what is in the way of one."""
    newcomer = Newcomer(texts=dict(blank(shop).texts) | {name: sent[name] for name in NEW_FIELDS if name in sent})
    values, messages = _values(newcomer.texts, shop)
    if messages:
        return replace(newcomer, messages=messages)
    forgotten = _inches_forgotten(newcomer.texts, values["unit"], shop.comma)
    if forgotten:
        return replace(newcomer, messages=forgotten, asks_inches=True)
    try:
        document = begin(
            _first(values, shop),
            shop=shop_values(shop),
            step=shop.step(Unit(values["unit"])),
            kerf_is_assumed=not shop.confirmed,
            new_id=new_id,
        )
        read_project(document)
    except FrameCalcError as error:
        return replace(newcomer, messages=_by_name(error))
    return replace(newcomer, document=document)


def _values(texts: Mapping[str, str], shop: ShopProfile) -> tuple[dict[str, str], dict[str, str]]:
    unit = Unit(texts["unit"]) if texts["unit"] in set(Unit) else shop.unit
    reading, values, messages = Reading(unit=unit, comma=shop.comma), {}, {}
    for name, one in NEW_FIELDS.items():
        try:
            values[name] = str(value_of(texts[name], one, reading) or "")
        except FrameCalcError as error:
            messages[name] = error.sentence
    return values, messages


def _inches_forgotten(texts: Mapping[str, str], unit: str, comma: Comma) -> dict[str, str]:
    """A sentence for each bare number under mm that is a fraction, or makes an artwork as small as a stamp."""
    bare = {name: texts[name].strip() for name in _LENGTHS if re.fullmatch(r"[\d\s.,/⁄½¼¾⅛⅜⅝⅞-]+", texts[name].strip())}
    if unit != Unit.MM:
        return {}
    asked = {name for name, text in bare.items() if not _WHOLE.fullmatch(text)}
    artwork = {name for name in ("across", "up") if name in bare}
    if len(artwork) == 2 and all(
        parse_length(bare[name], bare=Unit.MM, comma=comma).mm <= STAMP_MM for name in artwork
    ):
        asked |= artwork
    return {name: f"{bare[name]} mm? Press Inches, or write {bare[name]} mm if that is meant" for name in sorted(asked)}


def _first(values: Mapping[str, str], shop: ShopProfile) -> FirstNumbers:
    unit = Unit(values["unit"])
    sizes = " × ".join(without_unit(values[name], unit) for name in ("across", "up"))
    return FirstNumbers(
        name=values["name"] or f"{sizes} {unit}",
        unit=unit,
        kind=ArtworkKind(values["kind"]),
        across=values["across"],
        up=values["up"],
        face_width=values["face_width"],
        clearance=shop.clearance(ArtworkKind(values["kind"])),
        words=shop.words,
        saw_kind=shop.saw_kind,
    )


def _by_name(error: FrameCalcError) -> dict[str, str]:
    """The sentences of a refused document, by the name of the field of this form that each is about."""
    sentences = error.sentences if isinstance(error, ProjectErrors) else {error.field: error.sentence}
    return {_field_name(path): sentence for path, sentence in sentences.items()}


def _field_name(path: str) -> str:
    return next((name for ending, name in _NAME_OF_PATH.items() if path.endswith(ending)), "name")
