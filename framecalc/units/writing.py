"""Lengths as they are written: for the tape, for a sentence, and as a feeler reads a gap.

Writing a length rounds it to a step, nearest, up or down, and states the difference from the exact value. Here, and
nowhere else, a length becomes text.
"""

from fractions import Fraction
from functools import lru_cache
from math import ceil, floor, isfinite

from framecalc.findings import Rounding
from framecalc.records import Record
from framecalc.units.measures import MM_PER_INCH, TOLERANCE_MM, Step, Unit


class WrittenLength(Record):
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
        """The text with its unit: `"13 1/8 in"`."""
        return f"{self.text} {self.unit}"

    def __str__(self) -> str:
        return self.text


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
    '13 1/8 in'
    >>> format_length(100.3, step=Step.MILLIMETRE).remainder
    '+0.3 mm'
    """
    if not isfinite(length_mm):
        raise ValueError(f"{length_mm} is not a length")
    return _written(length_mm, step, rounding)


@lru_cache(maxsize=8192)
def _written(length_mm: float | Fraction, step: Step, rounding: Rounding) -> WrittenLength:
    """Write a length; kept, since from one keystroke to the next most lengths of a plan stay what they are."""
    exact = Fraction(length_mm)
    steps = _whole_steps(exact / step.size_mm, rounding, tolerance=Fraction(TOLERANCE_MM) / step.size_mm)
    written = steps * step.size_mm
    return WrittenLength(
        text=write_fraction(steps * step.size) if step.unit is Unit.INCH else _decimal_text(steps * step.size),
        unit=step.unit,
        written_mm=float(written),
        remainder_mm=float(exact - written),
    )


def whole_steps_mm(length_mm: float, *, step_mm: float, rounding: Rounding) -> float:
    """Bring a length to whole steps, for the offer to fit a frame to the tape.

    Args:
        length_mm: any finite length [mm].
        step_mm: the step [mm], > 0, as the decimal number that it is written as.
        rounding: nearest (halves away from zero), up or down; within TOLERANCE_MM of a step it is that step.
    Source: derived.

    >>> whole_steps_mm(300.3, step_mm=0.5, rounding=Rounding.UP)
    300.5
    >>> whole_steps_mm(0.75, step_mm=0.1, rounding=Rounding.NEAREST)
    0.8
    """
    step = Fraction(str(step_mm))
    return float(_whole_steps(Fraction(length_mm) / step, rounding, tolerance=Fraction(TOLERANCE_MM) / step) * step)


@lru_cache(maxsize=4096)
def describe_length(length_mm: float, *, unit: Unit) -> str:
    """Write a length for a sentence: as it is, in the unit of the project, not as a number to set a tool to.

    Millimetres to the hundredth; inches to the nearest sixty-fourth, and what none comes near in decimals.

    Source: derived.

    >>> describe_length(4.2, unit=Unit.MM), describe_length(4.2, unit=Unit.INCH), describe_length(0.1, unit=Unit.INCH)
    ('4.2 mm', '11/64 in', '0.004 in')
    """
    step = step_of_sentences(unit)
    if unit is Unit.MM or length_mm == 0 or abs(length_mm) * 2 >= step.size_mm:
        return format_length(length_mm, step=step).full
    is_seen = abs(length_mm) * 2 >= MM_PER_INCH / 1000
    return f"{_decimal_inches(length_mm, places=3 if is_seen else 4)} in"


def step_of_sentences(unit: Unit) -> Step:
    """The step that sentences write lengths to: the sixty-fourth, or the hundredth of a millimetre.

    Source: derived.
    """
    return Step.SIXTY_FOURTH if unit is Unit.INCH else Step.HUNDREDTH_MILLIMETRE


def describe_size(across_mm: float, up_mm: float, *, unit: Unit) -> str:
    """Write across × up for a sentence, as `describe_length` does, with the unit once.

    Source: derived.

    >>> describe_size(400, 332.5, unit=Unit.MM), describe_size(254, 304.8, unit=Unit.INCH)
    ('400 × 332.5 mm', '10 × 12 in')
    """
    across, up = (describe_length(length_mm, unit=unit) for length_mm in (across_mm, up_mm))
    return f"{across.removesuffix(f' {unit.value}')} × {up}"


def describe_gap(gap_mm: float, *, unit: Unit) -> str:
    """Write a gap, a shim or a step for a sentence, as a feeler reads it: in hundredths of a millimetre, or in
    thousandths of an inch with the millimetres beside them.

    Source: derived; feelers are marked so (common practice, no source).

    >>> describe_gap(0.127, unit=Unit.MM), describe_gap(0.127, unit=Unit.INCH), describe_gap(0, unit=Unit.INCH)
    ('0.13 mm', '0.005 in (0.13 mm)', '0 in')
    """
    said, millimetres = f"{write_gap(gap_mm, unit=unit)} {unit}", f"{write_gap(gap_mm, unit=Unit.MM)} mm"
    return said if said.startswith("0 ") or unit is Unit.MM else f"{said} ({millimetres})"


def write_gap(gap_mm: float, *, unit: Unit) -> str:
    """Write a gap as a feeler reads it, without its unit: for drawings and tables that say the unit once.

    Source: derived; feelers are marked so (common practice, no source).

    >>> write_gap(0.127, unit=Unit.MM), write_gap(0.127, unit=Unit.INCH)
    ('0.13', '0.005')
    """
    if unit is Unit.MM:
        return format_length(gap_mm, step=Step.HUNDREDTH_MILLIMETRE).text
    return _decimal_inches(gap_mm, places=3)


def write_fraction(inches: Fraction) -> str:
    """Write inches as a whole number and a fraction.

    Source: derived.

    >>> write_fraction(Fraction(105, 8)), write_fraction(Fraction(-1, 4))
    ('13 1/8', '−1/4')
    """
    sign, inches = ("−" if inches < 0 else ""), abs(inches)
    whole, part = divmod(inches, 1)
    if not part:
        return f"{sign}{whole}"
    return f"{sign}{whole} {part}" if whole else f"{sign}{part}"


def _whole_steps(steps: Fraction, rounding: Rounding, *, tolerance: Fraction) -> int:
    nearest = floor(abs(steps) + Fraction(1, 2)) * (1 if steps >= 0 else -1)
    if rounding is Rounding.NEAREST or abs(steps - nearest) <= tolerance:
        return nearest
    return ceil(steps) if rounding is Rounding.UP else floor(steps)


def _decimal_text(millimetres: Fraction) -> str:
    digits = f"{float(millimetres):.2f}".rstrip("0").removesuffix(".").replace("-", "−")
    return "0" if digits == "−0" else digits


def _decimal_inches(length_mm: float, *, places: int) -> str:
    parts = round(Fraction(length_mm) / MM_PER_INCH * 10**places)
    return f"{parts / 10**places:.{places}f}".replace("-", "−") if parts else "0"


def _signed_tenths(length_mm: float) -> str:
    tenths = floor(abs(length_mm) * 10 + 0.5)
    return f"{'+' if length_mm > 0 else '−'}{tenths / 10:g} mm" if tenths else ""
