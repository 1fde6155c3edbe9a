"""Between a text and a value: what a field shows of a document, and the value that typed text becomes.

A field shows the text of the document, without the unit where that is the project's own.
"""

import re
from collections.abc import Callable
from datetime import date
from functools import lru_cache

from framecalc.errors import FrameCalcError
from framecalc.measures import Kind, parse_reading
from framecalc.money import number_text, parse_number
from framecalc.project import value_at
from framecalc.project.document import Document
from framecalc.project.form import Field
from framecalc.project.label import Control
from framecalc.records import Record
from framecalc.units import Comma, Unit, parse_length
from framecalc.weights import parse_weight

LONGEST_LENGTH_TEXT = 40
"""No length needs more letters; longer texts are not read at all."""


class Reading(Record):
    """How to read lengths: the unit of a bare number, and the meaning of an ambiguous comma."""

    unit: Unit
    comma: Comma


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


@lru_cache(maxsize=4096)
def without_unit(text: str, unit: Unit) -> str:
    """A length as a field shows it: without the project's own unit, if it stays unambiguous.

    >>> without_unit("13 1/8 in", Unit.INCH), without_unit("6 mm", Unit.INCH), without_unit("1 ft 2 in", Unit.INCH)
    ('13 1/8', '6 mm', '1 ft 2 in')
    """
    bare = text.removesuffix(f" {unit.value}")
    return text if re.search(r"[a-z'\"′″’”]", bare, re.IGNORECASE) else bare


def same_text(typed: str, stored: str) -> bool:
    """Whether a field holds what it held: browsers change line ends, people leave spaces."""
    return typed == stored or typed.replace("\r\n", "\n").strip() == stored.strip()


def value_of(text: str, one: Field, reading: Reading) -> str | int | None:
    """The value that the file gets for a text; None removes the field from the file.

    Raises:
        FrameCalcError: the text has no value; the sentence says what to enter.
    """
    return _READERS[one.control](text.strip(), one, reading)


def _read_length(text: str, one: Field, reading: Reading) -> str | None:
    if not text and one.optional:
        return None
    if len(text) > LONGEST_LENGTH_TEXT:
        raise FrameCalcError("Enter a length, such as 13 1/8 in or 333.4 mm")
    length = parse_length(printable(text), bare=reading.unit, comma=reading.comma)
    return _thousands.sub(r"\1\2", length.text) if reading.comma is Comma.THOUSANDS else length.text


def _read_weight(text: str, one: Field, reading: Reading) -> str | None:
    if not text and one.optional:
        return None
    return parse_weight(printable(text[: LONGEST_LENGTH_TEXT + 1]), bare=reading.unit, comma=reading.comma).text


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
    return parse_reading(printable(text[:LONGEST_LENGTH_TEXT]), kind=kind, bare=bare).text


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


def printable(text: str) -> str:
    """A text with a mark in place of each letter that cannot be shown."""
    return "".join(letter if letter.isprintable() or letter.isspace() else "�" for letter in text)
