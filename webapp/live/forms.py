"""Between a form and a document: what is shown in a field, and what becomes of what was typed into it.

A field shows the text of the document, without the unit where that is the project's own. What was typed is compared
with what is shown; only a difference is a change. A text that cannot be read stays in its field with a sentence, the
document keeps its value there, and every other change is taken all the same.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from typing import Annotated, Any, TypeAlias
from unicodedata import category

from fastapi import Depends, Request

from framecalc.errors import FrameCalcError
from framecalc.money import number_text, parse_number
from framecalc.project import ProjectErrors, value_at, with_value
from framecalc.project.form import Field
from framecalc.project.label import Control
from framecalc.units import Comma, Unit, parse_length
from framecalc.weights import parse_weight
from webapp.live.field import FieldSet

LONGEST_LENGTH_TEXT = 40
"""No length needs more letters; longer texts are not read at all."""

OTHER_UNITS = {("°C", "F"): (Decimal(32), Decimal(5) / 9), ("N", "lb"): (Decimal(0), Decimal("4.4482216"))}
"""What may be typed instead of a field's own unit: what is taken off, and the factor. Source: NIST SP 811, B.8."""

_UNSEEN = ("Cc", "Cf", "Cs")
"""The Unicode categories of control characters, format characters and surrogates."""

SERVICE_FIELDS = frozenset({"do", "base", "tab", "over", "frame", "place", "new_layer"})
"""Form fields that are no value of the file."""

Document: TypeAlias = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """One form as it was sent: texts by path, the button pressed, the revision and the browser tab it belongs to.

    `over` is the revision that a person has seen in a conflict and wants changed; `frame` is the frame of the page, and
    `place` which of that frame's pages it is. `project` is the project of the address, if there is one.
    """

    texts: Mapping[str, str]
    do: str = "save"
    base: int = 0
    tab: str = ""
    over: int = 0
    frame: str = ""
    place: str = ""
    new_layer: str = ""
    project: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A document with what was typed worked in, what it was checked to be, a sentence for each field not taken."""

    document: Document
    checked: Any
    messages: dict[str, str] = field(default_factory=dict)
    typed: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """How lengths are read: the unit of a bare number, and what a doubtful comma means."""

    unit: Unit
    comma: Comma


async def typed(request: Request) -> Typed:
    """Take a form from a request; a field sent twice counts with its last value."""
    async with request.form() as form:
        sent = {name: value for name, value in form.multi_items() if isinstance(value, str)}
    return Typed(
        texts={name: plain(value) for name, value in sent.items() if name not in SERVICE_FIELDS},
        do=sent.get("do", "save"),
        base=_number(sent.get("base", "")),
        tab=sent["tab"] if re.fullmatch(r"[a-z0-9]{1,32}", sent.get("tab", "")) else "",
        over=_number(sent.get("over", "")),
        frame=sent.get("frame", ""),
        place=sent.get("place", ""),
        new_layer=sent.get("new_layer", ""),
        project=request.path_params.get("project_id", ""),
    )


Form = Annotated[Typed, Depends(typed)]
"""The form that was sent, as an argument of a route."""


def plain(text: str) -> str:
    """A text with a space for each character that nobody sees: controls, marks of direction, halves of letters.

    A space, since digits on either side of such a character are never taken for one number.

    >>> plain("a\\x00b\\u202ec"), plain("12\\u200b3/4")
    ('a b c', '12 3/4')
    """
    if text.isprintable():
        return text
    return "".join(letter if letter in "\r\n\t" or category(letter) not in _UNSEEN else " " for letter in text)


def shown(document: Document, path: str, one: Field, *, unit: Unit) -> str:
    """The text that a field shows for a document: a length in the project's own unit stands without it."""
    value = value_at(document, path)
    if value is None:
        return ""
    if one.control is Control.YES_NO:
        return "yes" if value else "no"
    text = str(value)
    return without_unit(text, unit) if one.is_length else text


def without_unit(text: str, unit: Unit) -> str:
    """A length's text as a field shows it: without the unit where that is the project's own and the text stays clear.

    >>> without_unit("13 1/8 in", Unit.INCH), without_unit("6 mm", Unit.INCH), without_unit("1 ft 2 in", Unit.INCH)
    ('13 1/8', '6 mm', '1 ft 2 in')
    """
    bare = text.removesuffix(f" {unit.value}")
    return text if re.search(r"[a-z'\"′″’”]", bare, re.IGNORECASE) else bare


def work_in(
    document: Document,
    typed: Mapping[str, str],
    fields: FieldSet,
    *,
    reading: Reading,
    check: Callable[[Document], object],
    before: Document | None = None,
) -> Draft:
    """Work what was typed into a document; the one given stays as it is, and shares with the new one what is unchanged.

    Args:
        document: what the changes are worked into.
        typed: texts by path; fields that were not sent stay as they are.
        fields: the fields of the page; a text for any other path is refused.
        reading: how lengths are read.
        check: raises ProjectErrors for values that do not fit.
        before: the document that the page showed, where it is another one than `document`.
    """
    changed: dict[str, Any] = {}
    messages = {path: f"“{_short(path)}” is no field of this page" for path in typed if path not in fields}
    for path, one in fields.items():
        text = typed.get(path)
        if text is None or _same_text(text, shown(before or document, path, one, unit=reading.unit)):
            continue
        try:
            changed[path] = value_of(text, one, reading)
        except FrameCalcError as error:
            messages[path] = error.sentence
    work, checked, refused = _put_in(document, changed, check)
    confirm(work, (set(changed) - set(refused)).__contains__)
    return Draft(document=work, checked=checked, messages=messages | refused, typed=typed)


def value_of(text: str, one: Field, reading: Reading) -> Any:
    """The value of the file that a text stands for; None takes the field out of the file.

    Raises:
        FrameCalcError: the text stands for none; the sentence says what would do.
    """
    return _READERS[one.control](text.strip(), one, reading)


def all_sentences(error: FrameCalcError, *, most: int = 6) -> str:
    """Everything that an error says, each with its place; a file with many faults names the first few."""
    if not isinstance(error, ProjectErrors):
        return error.sentence
    said = [f"{path}: {sentence}" for path, sentence in error.sentences.items()]
    return "; ".join(said[:most]) + (f"; and {len(said) - most} more" if len(said) > most else "")


def confirm(document: Document, belongs: Callable[[str], bool]) -> None:
    """Take paths out of those that are only assumed."""
    if "assumed" in document:
        document["assumed"] = [path for path in document["assumed"] if not belongs(path)]


def _put_in(
    document: Document, changed: Mapping[str, Any], check: Callable[[Document], object]
) -> tuple[Document, object, dict[str, str]]:
    """Put changed values in; those that do not fit are taken out again, each with a sentence."""
    work = dict(document)
    for path, value in changed.items():
        work = with_value(work, path, value)
    try:
        return work, check(work), {}
    except FrameCalcError as error:
        sentences = error.sentences if isinstance(error, ProjectErrors) else {error.field: error.sentence}
    refused = {path: sentence for path in changed if (sentence := _said_of(path, sentences))}
    for path in refused:
        work = with_value(work, path, value_at(document, path))
    return work, check(work), refused


def _said_of(path: str, sentences: Mapping[str, str]) -> str:
    """What is said of a path, or of something below it."""
    return next((said for at, said in sentences.items() if at == path or at.startswith(f"{path}.")), "")


def _read_length(text: str, one: Field, reading: Reading) -> str | None:
    if not text and one.optional:
        return None
    if len(text) > LONGEST_LENGTH_TEXT:
        raise FrameCalcError(f"“{_short(text)}” is too long for a length: 13 1/8 in or 333.4 mm would do")
    length = parse_length(_printable(text), bare=reading.unit, comma=reading.comma)
    return _thousands.sub(r"\1\2", length.text) if reading.comma is Comma.THOUSANDS else length.text


def _read_weight(text: str, one: Field, reading: Reading) -> str | None:
    if not text and one.optional:
        return None
    return parse_weight(_printable(text[: LONGEST_LENGTH_TEXT + 1]), bare=reading.unit, comma=reading.comma).text


def _read_choice(text: str, one: Field, reading: Reading) -> str:
    if text not in dict(one.choices):
        raise FrameCalcError(f"“{_short(text)}” is none of the choices here")
    return text


def _read_yes_no(text: str, one: Field, reading: Reading) -> bool:
    return _read_choice(text, one, reading) == "yes"


def _read_count(text: str, one: Field, reading: Reading) -> int | None:
    if not text and one.optional:
        return None
    if not re.fullmatch(r"[0-9]{1,6}", text):
        found = f"“{_short(text)}” is no whole number" if text else "Nothing typed yet"
        raise FrameCalcError(f"{found}: 1 would do")
    return int(text)


def _read_number(text: str, one: Field, reading: Reading) -> str | None:
    if not text and one.optional:
        return None
    match = re.fullmatch(r"([-−]?[0-9]{1,6}(?:[.,][0-9]{1,6})?)\s*(?:°|%|N|°C|°?(F|lb)f?)?", text)
    if match is None or (match[2] and (one.unit, match[2]) not in OTHER_UNITS):
        found = f"“{_short(text)}” cannot be read as a number" if text else "Nothing typed yet"
        raise FrameCalcError(f"{found}: 45 or 45.1 would do")
    number = match[1].replace(",", ".").replace("−", "-")
    return _converted(number, one.unit, match[2]) if match[2] else number


def _converted(number: str, unit: str, other: str) -> str:
    """A number typed in another unit, to a tenth of the field's own.

    >>> _converted("68", "°C", "F"), _converted("45", "N", "lb")
    ('20.0', '200.2')
    """
    zero, factor = OTHER_UNITS[unit, other]
    return format((Decimal(number) - zero) * factor, ".1f")


def _read_money(text: str, one: Field, reading: Reading) -> str | None:
    """A price, an amount or a percentage: it may have thousands apart, and a doubtful comma is asked back."""
    if not text and one.optional:
        return None
    return number_text(parse_number(text[:LONGEST_LENGTH_TEXT]))


def _read_day(text: str, one: Field, reading: Reading) -> str | None:
    if not text and one.optional:
        return None
    try:
        return date.fromisoformat(text).isoformat()
    except ValueError:
        raise FrameCalcError(f"“{_short(text)}” is no day: {date(2026, 3, 1).isoformat()} would do") from None


def _read_colour(text: str, one: Field, reading: Reading) -> str:
    if not text and one.optional:
        return ""
    if not re.fullmatch(r"#[0-9a-f]{6}", text.lower()):
        raise FrameCalcError(f"“{_short(text)}” is no colour: #d9c7a0 would do")
    return text.lower()


def _read_words(text: str, one: Field, reading: Reading) -> str:
    if not text and not one.optional:
        raise FrameCalcError("Nothing typed yet: a name would do")
    return text.replace("\r\n", "\n")


_READERS: dict[Control, Callable[[str, Field, Reading], Any]] = {
    Control.LENGTH: _read_length,
    Control.CHOICE: _read_choice,
    Control.YES_NO: _read_yes_no,
    Control.COUNT: _read_count,
    Control.NUMBER: _read_number,
    Control.WEIGHT: _read_weight,
    Control.MONEY: _read_money,
    Control.DAY: _read_day,
    Control.COLOUR: _read_colour,
    Control.WORDS: _read_words,
}
_thousands = re.compile(r"(\d),(\d{3})(?!\d)")


def _same_text(typed: str, stored: str) -> bool:
    """Whether a field holds what it held: browsers change line ends, people leave spaces."""
    return typed.replace("\r\n", "\n").strip() == stored.strip()


def _printable(text: str) -> str:
    return "".join(letter if letter.isprintable() or letter.isspace() else "�" for letter in text)


def _short(text: str) -> str:
    text = _printable(text)
    return text if len(text) <= 30 else f"{text[:29]}…"


def _number(text: str) -> int:
    return int(text) if re.fullmatch(r"[0-9]{1,9}", text) else 0
