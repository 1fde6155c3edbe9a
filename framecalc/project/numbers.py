"""Fields that hold numbers, dates and colours: exact decimals as text, a day, a colour of the screen."""

import re
from datetime import date
from decimal import Decimal
from typing import Annotated

from pydantic import AfterValidator, StringConstraints, WithJsonSchema

from framecalc.errors import OutOfRange, UnreadableNumber
from framecalc.measures import Kind, Measurement, parse_reading, within
from framecalc.money import MOST, number_text, parse_number
from framecalc.project.as_text import AsText
from framecalc.project.label import Control, NumberUnit

FIRST_DAY, LAST_DAY = date(2000, 1, 1), date(2100, 1, 1)
"""Days outside this are a slip of the hand."""


def _read_number(value: object) -> Decimal:
    if isinstance(value, Decimal):
        return value
    if not isinstance(value, str):
        raise UnreadableNumber("Enter a number in quotation marks, such as “12.50”")
    return parse_number(value)


def _require_near(value: date) -> date:
    if not FIRST_DAY <= value < LAST_DAY:
        raise OutOfRange(f"Enter a day of {FIRST_DAY.year} to {LAST_DAY.year - 1}")
    return value


Number = Annotated[
    Decimal, AsText(_read_number, number_text, says=f"a number with a decimal point, 0 to {MOST:,}"), Control.MONEY
]
"""A price, an amount or a count of hours; not negative."""


def _up_to(most: int, *, refusal: str, is_open: bool = False) -> tuple[object, ...]:
    """A number in per cent, from 0 up to a limit, or to just under it."""

    def require(value: Decimal) -> Decimal:
        if value > most or (is_open and value == most):
            raise OutOfRange(refusal)
        return value

    says = f"a number with a decimal point, 0% to {'under ' if is_open else ''}{most}%"
    return AsText(_read_number, number_text, says=says), AfterValidator(require), Control.MONEY


Percent = Annotated[Decimal, *_up_to(1000, refusal="Enter 1000% or less")]
"""Something on top, in per cent."""

PartPercent = Annotated[Decimal, *_up_to(100, refusal="Enter 100% or less")]
"""A part of something, in per cent."""

MarginPercent = Annotated[Decimal, *_up_to(100, refusal="Enter a margin under 100%", is_open=True)]
"""The part of a price that is not cost, in per cent."""


def between(least: str, most: str, unit: str, name: str) -> tuple[AsText, NumberUnit]:
    """A signed number within a range, kept as text in the file."""
    low, high, low_text = Decimal(least), Decimal(most), least.replace("-", "−")

    def read(value: object) -> Decimal:
        number = value if isinstance(value, Decimal) else _signed(value, name)
        if not low <= number <= high:
            raise OutOfRange(f"Enter {_article(name)} {name} of {low_text} to {most}{unit}")
        return number

    says = f"a number, {name}, {least} to {most}{unit}"
    return AsText(read, _plain, says=says), NumberUnit(name=unit.strip())


def _signed(value: object, name: str) -> Decimal:
    match = _SIGNED.fullmatch(value.strip()) if isinstance(value, str) else None
    if match is None:
        raise UnreadableNumber(f"Enter {_article(name)} {name}, such as 45 or 45.1")
    return Decimal(match[0].replace(",", ".").replace("−", "-"))


def _article(name: str) -> str:
    return "an" if name[0] in "aeiou" else "a"


def _plain(number: Decimal) -> str:
    return format(number.normalize(), "f") if number else "0"


_SIGNED = re.compile(r"[-−]?[0-9]{1,4}(?:[.,][0-9]{1,4})?")

Angle = Annotated[Decimal, *between("0", "90", "°", "angle")]
"""A slope, or the angle of the year rings."""

EndAngle = Annotated[Decimal, *between("20", "95", "°", "angle of an end")]
"""The angle at the long point of a member, as measured laid flat; 45 when it is right in a flat rectangle."""


def _measured(kind: Kind, *, least: int, most: int, name: str) -> tuple[object, ...]:
    """A temperature or a force within a range, kept as typed; without a unit it is in °C or N."""

    def read(value: object) -> Measurement:
        if isinstance(value, Measurement):
            return value
        if not isinstance(value, str):
            raise UnreadableNumber(f"Enter a {name} in quotation marks, such as “20”")
        return within(parse_reading(value, kind=kind), least=least, most=most, name=name)

    says = f"a number, {name}, {least:g} to {most:g} {kind}; or with its unit"
    return AsText(read, lambda reading: reading.text, says=says), kind


Celsius = Annotated[Measurement, *_measured(Kind.TEMPERATURE, least=-40, most=60, name="temperature of air")]
"""The temperature of a room."""


def celsius(text: str) -> Measurement:
    """A temperature of the air, as a file has it. Source: derived."""
    return parse_reading(text, kind=Kind.TEMPERATURE)


Humidity = Annotated[Decimal, *between("1", "99", "%", "relative humidity")]
"""Relative humidity of air."""

Moisture = Annotated[Decimal, *between("2", "30", "%", "moisture content")]
"""Moisture content of wood, by meter or scales."""

Force = Annotated[Measurement, *_measured(Kind.FORCE, least=1, most=5000, name="pull of a strap")]
"""The pull of a strap clamp."""

Day = Annotated[
    date,
    AfterValidator(_require_near),
    WithJsonSchema(
        {"type": "string", "format": "date", "description": f"a day of {FIRST_DAY.year} to {LAST_DAY.year - 1}"}
    ),
]
"""A day of the calendar."""

Colour = Annotated[str, StringConstraints(pattern=r"^#[0-9a-f]{6}$"), Control.COLOUR]
"""A colour of the screen."""
