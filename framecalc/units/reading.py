"""Lengths as they are typed: the one place where text becomes a number.

A *length* keeps its typed text beside its exact value in millimetres (a fraction; 1 in = 25.4 mm exactly). It is read
exactly, or refused with what to enter.
"""

import re
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import lru_cache

from framecalc.errors import OutOfRange, UnreadableLength
from framecalc.records import cached_property
from framecalc.units.measures import MM_PER_INCH, Unit
from framecalc.units.writing import write_fraction

FINEST_DENOMINATOR = 128
"""The finest fraction of an inch that a text may name: twice as fine as a machinist's sixty-fourth."""

TAPE_DENOMINATORS = frozenset({1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 24, 32, 40, 50, 64, 100, 128})
"""Into how many parts rules and tapes divide an inch: halves to 128ths, tenths to hundredths, and thirds to
twenty-fourths on a drawing scale; any other is a slip of the hand. Source: common practice, no source."""

MOST_MM = 100_000
"""A hundred metres: no length in a frame shop is longer, either way. Each field has its own, closer limits."""


class Comma(StrEnum):
    """What a comma before exactly three digits means: it is asked, or the shop has said."""

    ASK = "ask"
    DECIMAL = "decimal"
    THOUSANDS = "thousands"


_MM_PER_WORD = {"mm": Fraction(1), "cm": Fraction(10), "in": MM_PER_INCH, "ft": 12 * MM_PER_INCH}
_WORDS = {"'": "ft", "′": "ft", "’": "ft", "ft": "ft", "″": "in", '"': "in", "”": "in", "''": "in", "in": "in"}
_VULGAR = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_THIRDS = {"⅓": "1/3", "⅔": "2/3", "⅕": "1/5", "⅙": "1/6"}

_DIGITS = r"\d{1,15}"
_NUMBER = rf"(?:{_DIGITS}(?:\s*-\s*|\s+){_DIGITS}/{_DIGITS}|{_DIGITS}/{_DIGITS}|\d{{0,15}}[.,]{_DIGITS}|{_DIGITS}[.,]?)"
_GRAMMAR = re.compile(
    rf"(?P<sign>[-−]?)\s*"
    rf"(?:(?P<feet>{_NUMBER})\s*(?P<feet_word>ft|'(?!')|[′’](?![′’]))\s*-?\s*)?"
    rf"(?:(?P<number>{_NUMBER})\s*(?P<word>mm|cm|in|\"|″|”|''|′′|’’)?)?",
    re.ASCII,
)
DOUBTFUL_COMMA = re.compile(r"(?<=\d),(?=\d{3}(?!\d))", re.ASCII)
"""A comma that may divide thousands or be a decimal one."""


@dataclass(frozen=True)
class Length:
    """A length as typed: its text with a unit, and its exact value in millimetres."""

    text: str
    exact_mm: Fraction

    def __hash__(self) -> int:
        """By the text alone: it says the value, and its hash is known."""
        return hash(self.text)

    @cached_property
    def mm(self) -> float:
        """The value in millimetres, as the topics take it."""
        return float(self.exact_mm)


def parse_length(text: str, *, bare: Unit | None = None, comma: Comma = Comma.ASK, is_kept: bool = False) -> Length:
    """Read a length as a person types it; exactly, or not at all.

    Reads whole numbers, decimals with point or comma, fractions and mixed fractions (`13 1/8`, `13-1/8`, `13⅛`), with
    mm, cm, in, ft, straight or typographic quotes and primes, and feet with inches (`1' 1 1/8"`).

    Args:
        text: what was typed.
        bare: the unit of a number that names none; it is appended to the text that is kept.
        comma: what a comma between a digit and exactly three more means; once that is known, the text that is kept
            says it without doubt.
        is_kept: the text has been taken before, and stands in a file: what is asked of a person is not asked again.
    Raises:
        UnreadableLength: the text is blank, or no length, or names no unit where none is given, or can be read two
            ways, or names a fraction that is on no tape; the sentence says what to enter.
        OutOfRange: the length is absurd.
    Source: derived (the grammar is our own); 1 in = 25.4 mm, NIST SP 811.

    >>> parse_length("13-1/8", bare=Unit.INCH)
    Length(text='13-1/8 in', exact_mm=Fraction(2667, 8))
    >>> parse_length("6 mm", bare=Unit.INCH).mm
    6.0
    >>> parse_length("1,234 mm", comma=Comma.THOUSANDS).text
    '1234 mm'
    """
    return _parsed(text, bare, comma, is_kept)


@lru_cache(maxsize=8192)
def _parsed(text: str, bare: Unit | None, comma: Comma, is_kept: bool) -> Length:
    """Read a length; kept, since a form is read again at every keystroke and most of its texts stay what they are."""
    typed = " ".join(text.split())
    kept = DOUBTFUL_COMMA.sub("" if comma is Comma.THOUSANDS else ".", typed)
    match = _GRAMMAR.fullmatch(_plain(kept))
    if match is None or not (match["number"] or match["feet"]):
        raise UnreadableLength(_why_unreadable(typed, bare))
    if comma is Comma.ASK and kept != typed:
        raise UnreadableLength(_two_readings(typed))
    if not is_kept:
        _refuse_doubtful(_plain(kept), kept)
    word = _unit_word(match, kept, bare)
    exact_mm = _value(match["number"], kept) * _MM_PER_WORD[word] + _value(match["feet"], kept) * _MM_PER_WORD["ft"]
    if exact_mm > MOST_MM:
        raise OutOfRange(f"Enter at most {MOST_MM // 1000} m")
    said = match["word"] or match["feet"]
    return Length(kept if said else f"{kept} {word}", -exact_mm if match["sign"] else exact_mm)


def spell_fractions(text: str) -> str:
    """Write typographic fractions with a bar; what touches a hyphen still does.

    Source: derived.

    >>> spell_fractions("13⅛"), spell_fractions("1⁄2"), spell_fractions("13 -⅛")
    ('13 1/8', '1/2', '13 -1/8')
    """
    for sign, plain in (_VULGAR | _THIRDS).items():
        text = text.replace(f"-{sign}", f"-{plain}").replace(sign, f" {plain}")
    return text.strip().replace("⁄", "/")


def _plain(text: str) -> str:
    """Bring typographic fractions and words to the few signs of the grammar."""
    text = spell_fractions(text).lower()
    return re.sub(r"\b(?:inches|inch)\b|(?<=\d)(?:inches|inch)\b", "in", re.sub(r"(?:feet|foot)\b", "ft", text))


def _unit_word(match: re.Match[str], kept: str, bare: Unit | None) -> str:
    if match["feet"] and match["word"] in ("mm", "cm"):
        raise UnreadableLength(f"Enter feet with inches, not {match['word']}: 1 ft 1 1/8 in")
    if match["feet"]:
        return "in"
    if match["word"]:
        return _WORDS.get(match["word"].replace("′′", "″").replace("’’", "″"), match["word"])
    if bare is None:
        raise UnreadableLength(f"Enter a unit: {kept} mm or {kept} in")
    return bare.value


def _value(number: str | None, kept: str) -> Fraction:
    if number is None:
        return Fraction(0)
    return _mixed(number, kept) if "/" in number else Fraction(number.replace(",", ".").rstrip("."))


def _mixed(number: str, kept: str) -> Fraction:
    whole, numerator, denominator = re.fullmatch(r"(?:(\d+)(?:\s*-\s*|\s+))?(\d+)/(\d+)", number).groups()  # type: ignore[union-attr]
    if int(denominator) == 0:
        raise UnreadableLength("Enter a fraction, such as 1/2, not over 0")
    value = int(whole or 0) + Fraction(int(numerator), int(denominator))
    if int(denominator) > FINEST_DENOMINATOR:
        decimal = f"{float(value):.4f}".rstrip("0")
        raise UnreadableLength(f"Enter {decimal}: no fraction is finer than 1/{FINEST_DENOMINATOR}")
    if whole and int(numerator) >= int(denominator):
        better = write_fraction(value)
        raise UnreadableLength(f"Enter {better}, if meant: {numerator}/{denominator} is not under 1")
    return value


def _refuse_doubtful(plain: str, kept: str) -> None:
    """Ask back where a hyphen stands as a minus does, and where a fraction is on no tape."""
    minus = re.search(r"(\d+)\s+-(\d+/\d+)", plain)
    if minus:
        joined, less = f"{minus[1]} {minus[2]}", write_fraction(int(minus[1]) - _mixed(minus[2], kept))
        raise UnreadableLength(f"“{kept}” can be read two ways: type {joined} or {less}")
    for fraction in re.findall(r"(?:\d+(?:\s*-\s*|\s+))?\d+/\d+", plain):
        _refuse_off_the_tape(_mixed(fraction, kept), int(fraction.rpartition("/")[2]), kept)


def _refuse_off_the_tape(value: Fraction, denominator: int, kept: str) -> None:
    if denominator not in TAPE_DENOMINATORS:
        nearest, decimal = (
            write_fraction(Fraction(round(value * 64), 64)),
            f"{float(value):.4f}".rstrip("0").rstrip("."),
        )
        raise UnreadableLength(f"Enter {nearest} or {decimal}: no tape divides by {denominator}")


def _two_readings(typed: str) -> str:
    decimal, thousands = DOUBTFUL_COMMA.sub(".", typed), DOUBTFUL_COMMA.sub("", typed)
    return f"“{typed}” can be read two ways: type {decimal} or {thousands}"


def _why_unreadable(kept: str, bare: Unit | None) -> str:
    """The error for an unreadable length, with an example in the unit of this field."""
    example = "13 1/8 or 333.4 mm" if bare is not Unit.MM else "333.4 or 13 1/8 in"
    if not kept:
        return f"Enter a length, such as {example}"
    if re.search(r"\d/\d+/\d", kept):
        return "Enter one fraction bar, as in 1/2"
    if re.fullmatch(r"\d+(?:[.,]\d+)?\s+\d+(?:[.,]\d+)?", kept):
        first, second = kept.split()
        return f"Enter one number, such as {first}.{second} or {first} 1/2"
    if re.search(r"\de[-+]?\d|\d_\d", kept, re.IGNORECASE):
        return f"Enter the number written out, such as {example}"
    return f"Enter a length, such as {example}"
