"""Temperatures, forces, pressures: what is typed keeps its unit, what is worked out is written in the job's.

A job in inches speaks of °F, lbf and psi, one in millimetres of °C, N and MPa. A *reading* is a value as typed: its
text, and its exact value in °C or N. In a file a number without a unit is in °C or N.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from framecalc.errors import OutOfRange, UnreadableNumber
from framecalc.units import Unit

NEWTON_PER_LBF = Fraction(44482216152605, 10**13)
"""The pound-force, exact. Source: NIST SP 811 (2008 ed.), Appendix B.8, from memory, not re-read."""

MM2_PER_IN2 = Fraction(254, 10) ** 2


class Kind(StrEnum):
    """What is measured, by its unit in a job in millimetres."""

    TEMPERATURE = "°C"
    FORCE = "N"
    PRESSURE = "MPa"

    def sign(self, unit: Unit) -> str:
        """Its unit in a job."""
        return _INCH[self] if unit is Unit.INCH else self.value


_INCH = {Kind.TEMPERATURE: "°F", Kind.FORCE: "lbf", Kind.PRESSURE: "psi"}
_TO_INCH: Mapping[Kind, Callable[[Fraction], Fraction]] = {
    Kind.TEMPERATURE: lambda celsius: celsius * 9 / 5 + 32,
    Kind.FORCE: lambda newton: newton / NEWTON_PER_LBF,
    Kind.PRESSURE: lambda mpa: mpa * MM2_PER_IN2 / NEWTON_PER_LBF,
}
_FROM_INCH: Mapping[Kind, Callable[[Fraction], Fraction]] = {
    Kind.TEMPERATURE: lambda fahrenheit: (fahrenheit - 32) * 5 / 9,
    Kind.FORCE: lambda pounds: pounds * NEWTON_PER_LBF,
}
_GRAMMAR = re.compile(r"([-−]?[0-9]{1,6}(?:[.,][0-9]{1,6})?)\s*(°?\s?[CF]|°|N|lbf?)?", re.IGNORECASE)
_SIGNS = {
    Kind.TEMPERATURE: {"c": "°C", "f": "°F"},
    Kind.FORCE: {"n": "N", "lb": "lbf", "lbf": "lbf"},
}
_EXAMPLE = {
    Kind.TEMPERATURE: {Unit.MM: "20 °C", Unit.INCH: "68 °F"},
    Kind.FORCE: {Unit.MM: "300 N", Unit.INCH: "60 lbf"},
}


@dataclass(frozen=True, slots=True)
class Measurement:
    """A value as typed: its text in the file, and its exact value in °C or N."""

    text: str
    exact: Fraction
    kind: Kind

    def __float__(self) -> float:
        return float(self.exact)

    @property
    def full(self) -> str:
        """The text with its unit."""
        return self.text if self.text[-1:].isalpha() else f"{self.text} {self.kind}"


def parse_reading(text: str, *, kind: Kind, bare: Unit = Unit.MM) -> Measurement:
    """Read a temperature or a force as a person types it.

    Args:
        text: what was typed.
        kind: what is measured.
        bare: the job's unit; a number that names none is in °F or lbf where that is inch.
    Raises:
        UnreadableNumber: the text is none; the sentence says what to enter.
    Source: derived (the grammar is our own).

    >>> [str(parse_reading("68", kind=Kind.TEMPERATURE, bare=unit).text) for unit in Unit]
    ['68', '68 °F']
    >>> float(parse_reading("68 F", kind=Kind.TEMPERATURE))
    20.0
    """
    match = _GRAMMAR.fullmatch(text.strip())
    sign = _sign(match[2] or "", kind, bare) if match else None
    if match is None or sign is None:
        raise UnreadableNumber(f"Enter a number, such as {_EXAMPLE[kind][bare]}")
    number = match[1].replace(",", ".").replace("−", "-")
    if sign == kind:
        return Measurement(number, Fraction(number), kind)
    return Measurement(f"{number} {sign}", _FROM_INCH[kind](Fraction(number)), kind)


def within(reading: Measurement, *, least: int, most: int, name: str) -> Measurement:
    """The reading, if it lies in a range.

    Args:
        least, most: the range in °C or N.
        name: what it is called in a sentence.
    Raises:
        OutOfRange: it lies outside; the sentence speaks in the unit that was typed.
    Source: derived.
    """
    if least <= reading.exact <= most:
        return reading
    unit = Unit.MM if reading.full.endswith(reading.kind) else Unit.INCH
    low, high = (measure_text(limit, kind=reading.kind, unit=unit) for limit in (least, most))
    raise OutOfRange(f"Enter a {name} of {low} to {high}")


def measure_text(value: float, *, kind: Kind, unit: Unit, digits: int = 0) -> str:
    """A temperature in °C, a force in N or a pressure in MPa, written in the job's unit.

    Args:
        digits: decimals.
    Source: NIST SP 811 (2008 ed.), Appendix B.8, from memory, not re-read.

    >>> [measure_text(20, kind=Kind.TEMPERATURE, unit=unit) for unit in Unit]
    ['20 °C', '68 °F']
    >>> [measure_text(300, kind=Kind.FORCE, unit=unit) for unit in Unit]
    ['300 N', '67 lbf']
    """
    number = float(_TO_INCH[kind](Fraction(value))) if unit is Unit.INCH else value
    text = f"{number:.{digits}f}".replace("-", "−")
    return f"{text} {kind.sign(unit)}"


def written_measures(measures: Mapping[str, tuple[float, str]], unit: Unit) -> dict[str, str]:
    """Temperatures, forces and pressures, each beside its own unit, written in the job's.

    Source: as `measure_text`.

    >>> written_measures({"pull": (100.0, "N")}, Unit.INCH), written_measures({"pull": (100.0, "N")}, Unit.MM)
    ({'pull': '22.5 lbf'}, {'pull': '100 N'})
    """
    texts = {name: _written(value, Kind(sign), unit) for name, (value, sign) in measures.items()}
    return {name: text.replace(".0 ", " ") for name, text in texts.items()}


def bare_measure(value: float, *, kind: Kind, unit: Unit) -> str:
    """The same without its unit, for a drawing that names the unit once. Source: as `measure_text`."""
    return measure_text(value, kind=kind, unit=unit).partition(" ")[0]


def _written(value: float, kind: Kind, unit: Unit) -> str:
    """A pressure in psi to the whole one, in MPa to the hundredth; all else to the tenth."""
    if kind is Kind.PRESSURE:
        return measure_text(value, kind=kind, unit=unit, digits=0 if unit is Unit.INCH else 2)
    return measure_text(value, kind=kind, unit=unit, digits=1)


def _sign(typed: str, kind: Kind, bare: Unit) -> str | None:
    """The unit that a text names, or that of the job where it names none; None for one that is none of this kind."""
    word = typed.replace("°", "").replace(" ", "").casefold()
    if not word:
        return kind.sign(bare) if kind is Kind.TEMPERATURE or not typed else None
    return _SIGNS[kind].get(word)
