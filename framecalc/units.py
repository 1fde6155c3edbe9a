"""Lengths: the one place where typed text becomes a number and the one place where a number becomes text.

A *length* keeps its typed text beside its exact value in millimetres (a fraction; 1 in = 25.4 mm exactly). A *step* is
the finest reading of the tape: a sixteenth of an inch, half a millimetre. Writing a length rounds it to a step,
nearest, up or down, and states the difference from the exact value.
"""

import re
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import lru_cache
from math import ceil, floor, isfinite

from framecalc.errors import OutOfRange, UnreadableLength
from framecalc.findings import Rounding

MM_PER_INCH = Fraction(254, 10)
"""International inch, exact. Source: NIST SP 811 (2008 ed.), Appendix B.8, from memory, not re-read."""

TOLERANCE_MM = 1e-6
"""Two lengths closer than this are one length: far below any tool, far above the noise of floats."""

FINEST_DENOMINATOR = 128
"""The finest fraction of an inch that a text may name: twice as fine as a machinist's sixty-fourth."""

TAPE_DENOMINATORS = frozenset({1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 24, 32, 40, 50, 64, 100, 128})
"""Into how many parts rules and tapes divide an inch: halves to 128ths, tenths to hundredths, and thirds to
twenty-fourths on a drawing scale; any other is a slip of the hand. Source: common practice, no source."""

MOST_MM = 100_000
"""A hundred metres: no length in a frame shop is longer, either way. Each field has its own, closer limits."""


class Unit(StrEnum):
    """What a bare number is measured in."""

    MM = "mm"
    INCH = "in"


class Comma(StrEnum):
    """What a comma before exactly three digits means: it is asked, or the shop has said."""

    ASK = "ask"
    DECIMAL = "decimal"
    THOUSANDS = "thousands"


class Step(StrEnum):
    """What a length is written to."""

    EIGHTH = "1/8 in"
    SIXTEENTH = "1/16 in"
    THIRTY_SECOND = "1/32 in"
    SIXTY_FOURTH = "1/64 in"
    MILLIMETRE = "1 mm"
    HALF_MILLIMETRE = "0.5 mm"
    TENTH_MILLIMETRE = "0.1 mm"
    HUNDREDTH_MILLIMETRE = "0.01 mm"

    @property
    def unit(self) -> Unit:
        """The unit in which this step is counted."""
        return Unit(self.value.split()[1])

    @property
    def size(self) -> Fraction:
        """The step in its own unit, exact."""
        return Fraction(self.value.split()[0])

    @property
    def size_mm(self) -> Fraction:
        """The step in millimetres, exact."""
        return self.size * MM_PER_UNIT[self.unit]


MM_PER_UNIT = {Unit.MM: Fraction(1), Unit.INCH: MM_PER_INCH}
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
_DOUBTFUL_COMMA = re.compile(r"(?<=\d),(?=\d{3}(?!\d))", re.ASCII)


@dataclass(frozen=True, slots=True)
class Length:
    """A length as typed: its text with a unit, and its exact value in millimetres."""

    text: str
    exact_mm: Fraction

    @property
    def mm(self) -> float:
        """The value in millimetres, as the topics take it."""
        return float(self.exact_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenLength:
    """A length rounded to a step: the text for the tape, the length it states, and the remainder.

    `remainder_mm` is exact − written: positive when the tape reads less than the exact length.
    """

    text: str
    unit: Unit
    written_mm: float
    remainder_mm: float

    @property
    def remainder(self) -> str:
        """The remainder in words, `"+0.1 mm"`, or nothing where it is under 0.05 mm."""
        return _signed_tenths(self.remainder_mm)

    @property
    def full(self) -> str:
        """The text with its unit and its remainder: `"13 1/8 in −0.1 mm"`."""
        return f"{self.text} {self.unit} {self.remainder}".rstrip()

    def __str__(self) -> str:
        return self.text


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
            ways, or names a fraction that is on no tape; the sentence says what would do.
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
    kept = _DOUBTFUL_COMMA.sub("" if comma is Comma.THOUSANDS else ".", typed)
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
        raise OutOfRange(f"“{kept}” is more than {MOST_MM // 1000} m: no frame is as large")
    said = match["word"] or match["feet"]
    return Length(kept if said else f"{kept} {word}", -exact_mm if match["sign"] else exact_mm)


def spell_fractions(text: str) -> str:
    """Write typographic fractions with a bar.

    Source: derived.

    >>> spell_fractions("13⅛"), spell_fractions("1⁄2")
    ('13 1/8', '1/2')
    """
    for sign, plain in (_VULGAR | _THIRDS).items():
        text = text.replace(sign, f" {plain}")
    return text.strip().replace("⁄", "/")


def format_length(length_mm: float | Fraction, *, step: Step, rounding: Rounding = Rounding.NEAREST) -> WrittenLength:
    """Bring a length to a step and write it, in the step's unit.

    written = step · round(length/step); a length within TOLERANCE_MM of a step is that step, whatever the direction.

    Args:
        length_mm: any finite length [mm].
        step: what it is written to.
        rounding: nearest (halves away from zero), up or down.
    Raises:
        ValueError: the length is not finite.
    Source: derived.

    >>> format_length(333.2, step=Step.SIXTEENTH, rounding=Rounding.UP).full
    '13 1/8 in −0.2 mm'
    >>> format_length(100.3, step=Step.MILLIMETRE).full
    '100 mm +0.3 mm'
    """
    if not isfinite(length_mm):
        raise ValueError(f"{length_mm} is no length")
    return _written(length_mm, step, rounding)


@lru_cache(maxsize=8192)
def _written(length_mm: float | Fraction, step: Step, rounding: Rounding) -> WrittenLength:
    """Write a length; kept, since from one keystroke to the next most lengths of a plan stay what they are."""
    exact = Fraction(length_mm)
    steps = _whole_steps(exact / step.size_mm, rounding, tolerance=Fraction(TOLERANCE_MM) / step.size_mm)
    written = steps * step.size_mm
    return WrittenLength(
        text=_fraction_text(steps * step.size) if step.unit is Unit.INCH else _decimal_text(steps * step.size),
        unit=step.unit,
        written_mm=float(written),
        remainder_mm=float(exact - written),
    )


def whole_steps_mm(length_mm: float, *, step_mm: float, rounding: Rounding) -> float:
    """Bring a length to whole steps, for the offer to fit a frame to the tape.

    Args:
        length_mm: any finite length [mm].
        step_mm: the step [mm], > 0.
        rounding: nearest (halves away from zero), up or down; within TOLERANCE_MM of a step it is that step.
    Source: derived.

    >>> whole_steps_mm(300.3, step_mm=0.5, rounding=Rounding.UP)
    300.5
    """
    step = Fraction(step_mm)
    return float(_whole_steps(Fraction(length_mm) / step, rounding, tolerance=Fraction(TOLERANCE_MM) / step) * step)


def describe_length(length_mm: float, *, unit: Unit) -> str:
    """Write a length for a sentence: as it is, in the unit of the project, not as a number to set a tool to.

    Millimetres to the hundredth; inches to the nearest sixty-fourth, with the millimetres where that is not exact.

    Source: derived.

    >>> describe_length(4.2, unit=Unit.MM), describe_length(6.35, unit=Unit.INCH), describe_length(4.2, unit=Unit.INCH)
    ('4.2 mm', '1/4 in', '11/64 in (4.2 mm)')
    """
    hundredths = format_length(length_mm, step=Step.HUNDREDTH_MILLIMETRE)
    if unit is Unit.MM:
        return f"{hundredths.text} mm"
    inches = format_length(length_mm, step=Step.SIXTY_FOURTH)
    exact = abs(inches.remainder_mm) <= TOLERANCE_MM
    return f"{inches.text} in" if exact else f"{inches.text} in ({hundredths.text} mm)"


def describe_size(across_mm: float, up_mm: float, *, unit: Unit) -> str:
    """Write across × up for a sentence, as `describe_length` does, with the unit once where both are exact in it.

    Source: derived.

    >>> describe_size(400, 332.5, unit=Unit.MM), describe_size(254, 304.8, unit=Unit.INCH)
    ('400 × 332.5 mm', '10 × 12 in')
    """
    across, up = (describe_length(length_mm, unit=unit) for length_mm in (across_mm, up_mm))
    ends = f" {unit.value}"
    return f"{across.removesuffix(ends)} × {up}" if across.endswith(ends) and up.endswith(ends) else f"{across} × {up}"


def describe_gap(gap_mm: float, *, unit: Unit) -> str:
    """Write a gap, a shim or a step for a sentence, as a feeler reads it: in hundredths of a millimetre, or in
    thousandths of an inch with the millimetres beside them.

    Source: derived; feelers are marked so (common practice, no source).

    >>> describe_gap(0.127, unit=Unit.MM), describe_gap(0.127, unit=Unit.INCH), describe_gap(2.0, unit=Unit.INCH)
    ('0.13 mm', '0.005 in (0.13 mm)', '0.079 in (2 mm)')
    """
    millimetres = f"{write_gap(gap_mm, unit=Unit.MM)} mm"
    return millimetres if unit is Unit.MM else f"{write_gap(gap_mm, unit=unit)} in ({millimetres})"


def write_gap(gap_mm: float, *, unit: Unit) -> str:
    """Write a gap as a feeler reads it, without its unit: for drawings and tables that say the unit once.

    Source: derived; feelers are marked so (common practice, no source).

    >>> write_gap(0.127, unit=Unit.MM), write_gap(0.127, unit=Unit.INCH)
    ('0.13', '0.005')
    """
    if unit is Unit.MM:
        return format_length(gap_mm, step=Step.HUNDREDTH_MILLIMETRE).text
    thousandths = round(Fraction(gap_mm) / MM_PER_INCH * 1000)
    return f"{thousandths / 1000:.3f}".replace("-", "−")


def _plain(text: str) -> str:
    """Bring typographic fractions and words to the few signs of the grammar."""
    text = spell_fractions(text).lower()
    return re.sub(r"\b(?:inches|inch)\b|(?<=\d)(?:inches|inch)\b", "in", re.sub(r"(?:feet|foot)\b", "ft", text))


def _unit_word(match: re.Match[str], kept: str, bare: Unit | None) -> str:
    if match["feet"] and match["word"] in ("mm", "cm"):
        raise UnreadableLength(f"“{kept}” mixes feet with {match['word']}: 1 ft 1 1/8 in would do")
    if match["feet"]:
        return "in"
    if match["word"]:
        return _WORDS.get(match["word"].replace("′′", "″").replace("’’", "″"), match["word"])
    if bare is None:
        raise UnreadableLength(f"“{kept}” has no unit: {kept} mm or {kept} in would do")
    return bare.value


def _value(number: str | None, kept: str) -> Fraction:
    if number is None:
        return Fraction(0)
    return _mixed(number, kept) if "/" in number else Fraction(number.replace(",", ".").rstrip("."))


def _mixed(number: str, kept: str) -> Fraction:
    whole, numerator, denominator = re.fullmatch(r"(?:(\d+)(?:\s*-\s*|\s+))?(\d+)/(\d+)", number).groups()  # type: ignore[union-attr]
    if int(denominator) == 0:
        raise UnreadableLength(f"“{kept}” divides by 0: a fraction such as 1/2 would do")
    value = int(whole or 0) + Fraction(int(numerator), int(denominator))
    if int(denominator) > FINEST_DENOMINATOR:
        decimal = f"{float(value):.4f}".rstrip("0")
        raise UnreadableLength(f"“{kept}” is finer than 1/{FINEST_DENOMINATOR}: a decimal such as {decimal} would do")
    if whole and int(numerator) >= int(denominator):
        better = _fraction_text(value)
        raise UnreadableLength(
            f"“{kept}”: {numerator}/{denominator} is not under 1; {better} would do, if that is meant"
        )
    return value


def _refuse_doubtful(plain: str, kept: str) -> None:
    """Ask back where a hyphen stands as a minus does, and where a fraction is on no tape."""
    minus = re.search(r"(\d+)\s+-(\d+/\d+)", plain)
    if minus:
        joined, less = f"{minus[1]} {minus[2]}", _fraction_text(int(minus[1]) - _mixed(minus[2], kept))
        raise UnreadableLength(f"“{kept}” can be read two ways: type {joined} or {less}")
    for fraction in re.findall(r"(?:\d+(?:\s*-\s*|\s+))?\d+/\d+", plain):
        _refuse_off_the_tape(_mixed(fraction, kept), int(fraction.rpartition("/")[2]), kept)


def _refuse_off_the_tape(value: Fraction, denominator: int, kept: str) -> None:
    if denominator not in TAPE_DENOMINATORS:
        nearest, decimal = (
            _fraction_text(Fraction(round(value * 64), 64)),
            f"{float(value):.4f}".rstrip("0").rstrip("."),
        )
        raise UnreadableLength(f"“{kept}”: no tape divides by {denominator}; {nearest} or {decimal} would do")


def _two_readings(typed: str) -> str:
    decimal, thousands = _DOUBTFUL_COMMA.sub(".", typed), _DOUBTFUL_COMMA.sub("", typed)
    return f"“{typed}” can be read two ways: type {decimal} or {thousands}"


def _why_unreadable(kept: str, bare: Unit | None) -> str:
    """The error for an unreadable length, with an example in the unit of this field."""
    example = "13 1/8 or 333.4 mm" if bare is not Unit.MM else "333.4 or 13 1/8 in"
    if not kept:
        return f"Nothing typed yet: {example} would do"
    found = kept if len(kept) <= 30 else kept[:29] + "…"
    if re.search(r"\d/\d+/\d", kept):
        return f"“{found}” has two fraction bars: 1/2 would do"
    if re.fullmatch(r"\d+(?:[.,]\d+)?\s+\d+(?:[.,]\d+)?", kept):
        first, second = kept.split()
        return f"“{found}” is two numbers: {first}.{second} or {first} 1/2 would do"
    if re.search(r"\de[-+]?\d|\d_\d", kept, re.IGNORECASE):
        return f"“{found}” is not how a tape reads: write the number out, such as {example}"
    return f"“{found}” cannot be read as a length: {example} would do"


def _whole_steps(steps: Fraction, rounding: Rounding, *, tolerance: Fraction) -> int:
    nearest = floor(abs(steps) + Fraction(1, 2)) * (1 if steps >= 0 else -1)
    if rounding is Rounding.NEAREST or abs(steps - nearest) <= tolerance:
        return nearest
    return ceil(steps) if rounding is Rounding.UP else floor(steps)


def _fraction_text(inches: Fraction) -> str:
    sign, inches = ("−" if inches < 0 else ""), abs(inches)
    whole, part = divmod(inches, 1)
    if not part:
        return f"{sign}{whole}"
    return f"{sign}{whole} {part}" if whole else f"{sign}{part}"


def _decimal_text(millimetres: Fraction) -> str:
    digits = f"{float(millimetres):.2f}".rstrip("0").removesuffix(".").replace("-", "−")
    return "0" if digits == "−0" else digits


def _signed_tenths(length_mm: float) -> str:
    tenths = floor(abs(length_mm) * 10 + 0.5)
    return f"{'+' if length_mm > 0 else '−'}{tenths / 10:g} mm" if tenths else ""
