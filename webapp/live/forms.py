"""Between a form and a document: the text that a field shows, and the value that typed text becomes.

A field shows the text of the document, without the unit where that is the project's own. The typed text is
compared with the shown one; only a difference is a change. A text that cannot be read stays in its field with a
sentence, the document keeps its value there, and every other change is still made.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from copy import deepcopy
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal
from typing import Annotated, Generic, TypeAlias, TypeVar
from unicodedata import category

from fastapi import Depends, Request
from pydantic import TypeAdapter, ValidationError

from framecalc.errors import FrameCalcError
from framecalc.measures import Kind, parse_reading
from framecalc.money import number_text, parse_number
from framecalc.project import Project, ProjectErrors, read_project, texts_at, value_at, with_value
from framecalc.project.corners import HUMIDITY_IN_ORDER
from framecalc.project.document import Document, ReadDocument
from framecalc.project.form import Field
from framecalc.project.label import Control
from framecalc.units import Comma, Unit, parse_length
from framecalc.weights import parse_weight
from webapp.live.field import FieldSet

LONGEST_LENGTH_TEXT = 40
"""No length needs more letters; longer texts are not read at all."""

MOST_FIELDS = 20_000
"""The most fields of one form: the largest page of a project, sixty boards with all their defects, has about 4,500."""

_UNSEEN = ("Cc", "Cf", "Cs")
"""The Unicode categories of control characters, format characters and surrogates."""

SERVICE_FIELDS = frozenset({"do", "base", "tab", "over", "meant", "was", "frame", "place", "new_layer"})
"""Form fields that are no value of the file."""

BESIDE = "beside-"
"""How the names of boxes begin that go with a button and are no field: a time, minutes."""

WHOLE = 100
"""No air holds more than this, in per cent; what is typed above it is refused for that."""

_TEXTS = TypeAdapter(dict[str, str])


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """One form as sent: texts by path, the pressed button, the revision and the browser tab it belongs to.

    `over` is the revision that a person has seen in a conflict and wants to change; `meant` are the paths of the fields
    that were touched, whatever their text is now; `was` are the texts that the page showed, if there are no revisions.
    `frame` is the frame of the page, and `place` tells which of its pages it is. `project` is the project of the
    address, if there is one. `beside` is what goes with a button and is no field.
    """

    texts: Mapping[str, str]
    do: str = "save"
    base: int = 0
    tab: str = ""
    over: int = 0
    meant: frozenset[str] = frozenset()
    was: Mapping[str, str] = field(default_factory=dict)
    frame: str = ""
    place: str = ""
    new_layer: str = ""
    project: str = ""
    beside: Mapping[str, str] = field(default_factory=dict)


Checked = TypeVar("Checked")


@dataclass(frozen=True, kw_only=True)
class DraftOf(Generic[Checked]):
    """A document with the typed changes, what it is once checked, and a sentence for each refused field."""

    document: Document
    checked: Checked
    messages: dict[str, str] = field(default_factory=dict)
    typed: Mapping[str, str] = field(default_factory=dict)


Draft: TypeAlias = DraftOf[Project]
"""A project with the typed changes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """How to read lengths: the unit of a bare number, and the meaning of an ambiguous comma."""

    unit: Unit
    comma: Comma


async def typed(request: Request) -> Typed:
    """Read a form from a request; of a field sent twice the last value counts."""
    async with request.form(max_fields=MOST_FIELDS) as form:
        sent = {name: value for name, value in form.multi_items() if isinstance(value, str)}
    return Typed(
        texts={name: plain(value) for name, value in sent.items() if _is_text(name)},
        beside={name.removeprefix(BESIDE): plain(sent[name]) for name in sent if name.startswith(BESIDE)},
        do=sent.get("do", "save"),
        base=_number(sent.get("base", "")),
        tab=sent["tab"] if re.fullmatch(r"[a-z0-9]{1,32}", sent.get("tab", "")) else "",
        over=_number(sent.get("over", "")),
        meant=frozenset(sent.get("meant", "").split()),
        was=_texts(sent.get("was", "")),
        frame=sent.get("frame", ""),
        place=sent.get("place", ""),
        new_layer=sent.get("new_layer", ""),
        project=request.path_params.get("project_id", ""),
    )


Form = Annotated[Typed, Depends(typed)]
"""The form that was sent, as an argument of a route."""


def _is_text(name: str) -> bool:
    return name not in SERVICE_FIELDS and not name.startswith(BESIDE)


def plain(text: str) -> str:
    """Replace each invisible character by a space: controls, direction marks, lone surrogates.

    A space keeps digits on either side apart, so that they never form one number.

    >>> plain("a\\x00b\\u202ec"), plain("12\\u200b3/4")
    ('a b c', '12 3/4')
    """
    if text.isprintable():
        return text
    return "".join(letter if letter in "\r\n\t" or category(letter) not in _UNSEEN else " " for letter in text)


def shown(document: Document, path: str, one: Field, *, unit: Unit) -> str:
    """The text that a field shows: a length in the project's own unit is written without the unit."""
    value = value_at(document, path)
    if value is None:
        return ""
    if one.control is Control.YES_NO:
        return "yes" if value else "no"
    text = str(value)
    if one.control is Control.MEASURED:
        return _shown_measure(text, one)
    return without_unit(text, unit) if one.is_length else text


def without_unit(text: str, unit: Unit) -> str:
    """A length as a field shows it: without the project's own unit, if it stays unambiguous.

    >>> without_unit("13 1/8 in", Unit.INCH), without_unit("6 mm", Unit.INCH), without_unit("1 ft 2 in", Unit.INCH)
    ('13 1/8', '6 mm', '1 ft 2 in')
    """
    bare = text.removesuffix(f" {unit.value}")
    return text if re.search(r"[a-z'\"′″’”]", bare, re.IGNORECASE) else bare


def same_text(typed: str, stored: str) -> bool:
    """Whether a field holds what it held: browsers change line ends, people leave spaces."""
    return typed.replace("\r\n", "\n").strip() == stored.strip()


def work_in(
    document: Document,
    typed: Mapping[str, str],
    fields: FieldSet,
    *,
    reading: Reading,
    check: Callable[[Document], Checked],
) -> DraftOf[Checked]:
    """Apply typed texts to a document and return a new one, which shares its unchanged parts with the old one.

    Args:
        document: the document to change.
        typed: texts by path; fields that were not sent keep their values.
        fields: the fields of the page; a text for any other path is refused.
        reading: how lengths are read.
        check: raises ProjectErrors for values that do not fit.
    """
    changed: Document = {}
    messages = {path: f"“{_short(path)}” is not a field of this page" for path in typed if path not in fields}
    for path, one in fields.items():
        text = typed.get(path)
        if text is None or same_text(text, shown(document, path, one, unit=reading.unit)):
            continue
        try:
            changed[path] = value_of(text, one, reading)
        except FrameCalcError as error:
            messages[path] = error.sentence
    for path, sentence in _out_of_order(document, changed).items():
        messages[path] = sentence
        del changed[path]
    work, checked, refused = _put_in(document, changed, fields, check)
    return DraftOf(document=work, checked=checked, messages=messages | refused, typed=typed)


def value_of(text: str, one: Field, reading: Reading) -> str | int | None:
    """The value that the file gets for a text; None removes the field from the file.

    Raises:
        FrameCalcError: the text has no value; the sentence says what to enter.
    """
    return _READERS[one.control](text.strip(), one, reading)


def edited(draft: Draft, change: Callable[[Document], None]) -> Draft:
    """A draft whose document is changed in a copy; one whose change is refused says why, in its field."""
    document = deepcopy(draft.document)
    try:
        change(document)
        return replace(draft, document=document, checked=read_project(document))
    except FrameCalcError as error:
        return replace(draft, messages=draft.messages | {error.field: error.sentence})


def all_sentences(error: FrameCalcError, *, most: int = 6) -> str:
    """Every sentence of an error with its place; of a file with many faults the first few."""
    if not isinstance(error, ProjectErrors):
        return error.sentence
    said = [f"{path}: {sentence}" for path, sentence in error.sentences.items()]
    return "; ".join(said[:most]) + (f"; and {len(said) - most} more" if len(said) > most else "")


def confirm(document: Document, belongs: Callable[[str], bool]) -> None:
    """Remove paths from the assumed ones."""
    if "assumed" in document:
        document["assumed"] = [path for path in texts_at(document, "assumed") if not belongs(path)]


def _out_of_order(document: Document, changed: ReadDocument) -> dict[str, str]:
    """A sentence for each changed humidity by which the driest air would be damper than the dampest."""
    driest, _ = HUMIDITY_IN_ORDER
    said = {}
    for path in changed:
        parent, _, name = path.rpartition(".")
        if name not in HUMIDITY_IN_ORDER:
            continue
        low, high = (_number_at(document, changed, f"{parent}.{one}") for one in HUMIDITY_IN_ORDER)
        if low is not None and high is not None and high < low < WHOLE:
            limit = f"up to {high}%" if name == driest else f"{low}% or more"
            said[path] = f"Enter {limit}: the driest month cannot be above the dampest"
    return said


def _number_at(document: Document, changed: ReadDocument, path: str) -> Decimal | None:
    """What a path holds once the changes are in, if that is a number."""
    try:
        return Decimal(str(changed.get(path, value_at(document, path))))
    except ArithmeticError:
        return None


def _put_in(
    document: Document, changed: ReadDocument, fields: FieldSet, check: Callable[[Document], Checked]
) -> tuple[Document, Checked, dict[str, str]]:
    """Set the changed values; values that do not fit are left out again, each with a sentence."""
    work = _with(document, changed, fields)
    try:
        return work, check(work), {}
    except FrameCalcError as error:
        sentences = error.sentences if isinstance(error, ProjectErrors) else {error.field: error.sentence}
    refused = {path: sentence for path in changed if (sentence := _said_of(path, sentences))}
    work = _with(document, {path: value for path, value in changed.items() if path not in refused}, fields)
    return work, check(work), refused


def _with(document: Document, changed: ReadDocument, fields: FieldSet) -> Document:
    """A document with changed values, which are no longer only assumed; what they unsettle is."""
    work = dict(document)
    for path, value in changed.items():
        work = with_value(work, path, value)
    confirm(work, changed.__contains__)
    if unsettled := [path for path in _measured_anew(changed, fields) if path not in changed]:
        work["assumed"] = [*dict.fromkeys([*texts_at(work, "assumed"), *unsettled])]
    return work


def _measured_anew(changed: ReadDocument, fields: FieldSet) -> Iterator[str]:
    """The fields beside a changed one whose values have to be measured again."""
    for path in changed:
        above = path.rpartition(".")[0]
        yield from (f"{above}.{name}" for name in fields.fields[path].measured_anew)


def _said_of(path: str, sentences: Mapping[str, str]) -> str:
    """The sentence about a path, or about a path below it."""
    return next((said for at, said in sentences.items() if at == path or at.startswith(f"{path}.")), "")


def _read_length(text: str, one: Field, reading: Reading) -> str | None:
    if not text and one.optional:
        return None
    if len(text) > LONGEST_LENGTH_TEXT:
        raise FrameCalcError("Enter a length, such as 13 1/8 in or 333.4 mm")
    length = parse_length(_printable(text), bare=reading.unit, comma=reading.comma)
    return _thousands.sub(r"\1\2", length.text) if reading.comma is Comma.THOUSANDS else length.text


def _read_weight(text: str, one: Field, reading: Reading) -> str | None:
    if not text and one.optional:
        return None
    return parse_weight(_printable(text[: LONGEST_LENGTH_TEXT + 1]), bare=reading.unit, comma=reading.comma).text


def _read_choice(text: str, one: Field, reading: Reading) -> str:
    if text not in dict(one.choices):
        raise FrameCalcError("Choose one of the list")
    return text


def _read_yes_no(text: str, one: Field, reading: Reading) -> bool:
    return _read_choice(text, one, reading) == "yes"


def _read_count(text: str, one: Field, reading: Reading) -> int | None:
    if not text and one.optional:
        return None
    if not re.fullmatch(r"[0-9]{1,6}", text):
        raise FrameCalcError("Enter a whole number, such as 1")
    return int(text)


def _read_number(text: str, one: Field, reading: Reading) -> str | None:
    if not text and one.optional:
        return None
    match = re.fullmatch(r"([-−]?[0-9]{1,6}(?:[.,][0-9]{1,6})?)\s*[°%]?", text)
    if match is None:
        raise FrameCalcError("Enter a number, such as 45 or 45.1")
    return match[1].replace(",", ".").replace("−", "-")


def _read_measured(text: str, one: Field, reading: Reading) -> str | None:
    """Read a temperature or a force; one that names no unit is in the field's own, which is that of the project."""
    if not text and one.optional:
        return None
    kind = next(kind for kind in Kind if one.unit in (kind.value, kind.sign(Unit.INCH)))
    bare = Unit.MM if one.unit == kind else Unit.INCH
    return parse_reading(_printable(text[:LONGEST_LENGTH_TEXT]), kind=kind, bare=bare).text


def _shown_measure(text: str, one: Field) -> str:
    """A temperature or a force as its field shows it: without the field's own unit."""
    if text[-1:].isalpha():
        return text.removesuffix(one.unit).strip()
    kind = next((kind for kind in Kind if kind == one.unit), None)
    return text if kind else f"{text} {_metric(one.unit)}"


def _metric(sign: str) -> str:
    return next(kind.value for kind in Kind if kind.sign(Unit.INCH) == sign)


def _read_money(text: str, one: Field, reading: Reading) -> str | None:
    """Read a price, an amount or a percentage: thousands may be separated, an ambiguous comma is refused."""
    if not text and one.optional:
        return None
    return number_text(parse_number(text[:LONGEST_LENGTH_TEXT]))


def _read_day(text: str, one: Field, reading: Reading) -> str | None:
    if not text and one.optional:
        return None
    try:
        return date.fromisoformat(text).isoformat()
    except ValueError:
        raise FrameCalcError(f"Enter a day, such as {date(2026, 3, 1).isoformat()}") from None


def _read_colour(text: str, one: Field, reading: Reading) -> str:
    if not text and one.optional:
        return ""
    if not re.fullmatch(r"#[0-9a-f]{6}", text.lower()):
        raise FrameCalcError("Enter a colour, such as #d9c7a0")
    return text.lower()


def _read_words(text: str, one: Field, reading: Reading) -> str:
    if not text and not one.optional:
        raise FrameCalcError("Enter a name")
    return text.replace("\r\n", "\n")


_READERS: dict[Control, Callable[[str, Field, Reading], str | int | None]] = {
    Control.LENGTH: _read_length,
    Control.CHOICE: _read_choice,
    Control.YES_NO: _read_yes_no,
    Control.COUNT: _read_count,
    Control.NUMBER: _read_number,
    Control.WEIGHT: _read_weight,
    Control.MEASURED: _read_measured,
    Control.MONEY: _read_money,
    Control.DAY: _read_day,
    Control.COLOUR: _read_colour,
    Control.WORDS: _read_words,
}
_thousands = re.compile(r"(\d),(\d{3})(?!\d)")


def _printable(text: str) -> str:
    return "".join(letter if letter.isprintable() or letter.isspace() else "�" for letter in text)


def _short(text: str) -> str:
    text = _printable(text)
    return text if len(text) <= 30 else f"{text[:29]}…"


def _texts(sent: str) -> Mapping[str, str]:
    try:
        return _TEXTS.validate_json(sent)
    except ValidationError:
        return {}


def _number(text: str) -> int:
    return int(text) if re.fullmatch(r"[0-9]{1,9}", text) else 0
