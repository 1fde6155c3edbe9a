"""What the scales say: a weight as it was typed, with its unit, beside its exact value in kilograms."""

import re
from fractions import Fraction

from framecalc.errors import UnreadableNumber
from framecalc.records import Record
from framecalc.units import Comma, Unit, spell_fractions
from framecalc.units.reading import DOUBTFUL_COMMA

KG_PER_POUND = Fraction(45359237, 100_000_000)
"""The international pound, exact by definition. Source: NIST SP 811 (2008 ed.), Appendix B.8, from memory."""

M3_PER_FT3 = 0.3048**3
MM3_PER_M3 = 1e9

_KG = {"kg": Fraction(1), "g": Fraction(1, 1000), "lb": KG_PER_POUND, "oz": KG_PER_POUND / 16}
_UNITS = {"k": "kg", "g": "g", "l": "lb", "p": "lb", "o": "oz"}
"""The unit that a word stands for, by its first letter."""

_BARE = {Unit.MM: "kg", Unit.INCH: "lb"}

_MOST_LETTERS = 30
"""So much of what was typed is said back. Ours, no source."""

_NUMBER = r"\d{1,7}[ -]\d{1,3}/\d{1,3}|\d{1,3}/\d{1,3}|\d{0,7}\.\d{1,6}|\d{1,7}\.?"
_POUNDS, _OUNCES = r"lbs?|pounds?", r"oz|ounces?"
_GRAMMAR = re.compile(
    rf"(?P<number>{_NUMBER}) ?(?P<unit>kg|kilos?|kilograms?|g|grams?|{_POUNDS}|{_OUNCES})?"
    rf"|(?P<pounds>{_NUMBER}) ?(?:{_POUNDS}) ?(?P<ounces>{_NUMBER}) ?(?:{_OUNCES})",
    re.ASCII | re.IGNORECASE,
)


class Weight(Record, kw_only=False):
    """A weight as typed: its text with a unit, and its exact value in kilograms."""

    text: str
    exact_kg: Fraction

    @property
    def kg(self) -> float:
        """The value in kilograms, as the topics take it."""
        return float(self.exact_kg)


def parse_weight(text: str, *, bare: Unit = Unit.MM, comma: Comma = Comma.ASK) -> Weight:
    """Read a weight as a person types it, exactly, or not at all: kg, g, lb, oz, and pounds with ounces.

    Args:
        text: what was typed.
        bare: the project's unit of length; a number that names no unit is kg where that is mm, lb where it is inch.
        comma: what a comma before exactly three digits means.
    Raises:
        UnreadableNumber: the text is no weight; the sentence says what to enter.
    Source: derived (the grammar is our own).

    >>> parse_weight("850 g").kg, parse_weight("2 lb 8 oz").text, parse_weight("2 1/2", bare=Unit.INCH).text
    (0.85, '2 lb 8 oz', '2 1/2 lb')
    """
    typed = " ".join(text.split())
    if comma is Comma.ASK and DOUBTFUL_COMMA.search(typed):
        raise UnreadableNumber(f"“{_short(typed)}” can be read two ways: with a point, or without the comma")
    kept = (DOUBTFUL_COMMA.sub("", typed) if comma is Comma.THOUSANDS else typed).replace(",", ".")
    match = _GRAMMAR.fullmatch(" ".join(spell_fractions(kept).split()))
    if match is None:
        example = "2 lb 10 oz or 1.2 kg" if bare is Unit.INCH else "1.2 kg or 850 g"
        raise UnreadableNumber(f"Enter a weight, such as {example}")
    if match["pounds"]:
        return Weight(kept, _value(match["pounds"]) * _KG["lb"] + _value(match["ounces"]) * _KG["oz"])
    unit = _UNITS[match["unit"][0].lower()] if match["unit"] else _BARE[bare]
    return Weight(kept if match["unit"] else f"{kept} {unit}", _value(match["number"]) * _KG[unit])


def mass_text(mass_kg: float, *, unit: Unit) -> str:
    """A mass in the job's unit: pounds or ounces, kilograms or grams.

    Source: NIST SP 811 (2008 ed.), Appendix B.8, from memory, not re-read.

    >>> mass_text(1.2, unit=Unit.MM), mass_text(0.3, unit=Unit.MM)
    ('1.20 kg', '300 g')
    >>> mass_text(1.2, unit=Unit.INCH), mass_text(0.3, unit=Unit.INCH)
    ('2.65 lb', '10.6 oz')
    """
    if unit is Unit.MM:
        return f"{mass_kg:.2f} kg" if mass_kg >= 1 else f"{1000 * mass_kg:.0f} g"
    pounds = mass_kg / float(KG_PER_POUND)
    return f"{pounds:.2f} lb" if pounds >= 1 else f"{16 * pounds:.1f} oz"


def density_text(density_kg_m3: float, *, unit: Unit) -> str:
    """A density in the job's unit.

    Source: as `mass_text`; a foot is 0.3048 m.

    >>> density_text(560, unit=Unit.MM), density_text(560, unit=Unit.INCH)
    ('560 kg/m³', '35.0 lb/ft³')
    """
    if unit is Unit.MM:
        return f"{density_kg_m3:.0f} kg/m³"
    return f"{density_kg_m3 * M3_PER_FT3 / float(KG_PER_POUND):.1f} lb/ft³"


def _value(number: str) -> Fraction:
    """A whole number, a decimal, a fraction or a mixed fraction; a fraction over nothing is no number."""
    try:
        return sum((Fraction(part) for part in number.replace("-", " ").split()), Fraction(0))
    except ZeroDivisionError:
        raise UnreadableNumber("Enter a fraction, such as 1/2, not over 0") from None


def _short(text: str) -> str:
    return text if len(text) <= _MOST_LETTERS else f"{text[: _MOST_LETTERS - 1]}…"
