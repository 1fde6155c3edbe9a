"""How true a printer prints: a square with its diagonals is printed and measured, and what is found is made up for.

A printer stretches across and up, each by its own ratio, and may *skew*: its upright lines lean. The *rising* diagonal
runs from the lower left to the upper right, the *falling* one from the upper left to the lower right.
"""

from math import asin, cos, hypot, sin

from framecalc.errors import ImpossibleSize, OutOfRange
from framecalc.geometry.outline import Point
from framecalc.limits import require_positive
from framecalc.records import Record

CHECK_MM = 150.0
"""The side of the square that is printed and measured: as large as every usual paper takes."""

MOST_OFF_PCT = 10.0
"""A printer that is further off fits the page to the paper: that is a setting, and not to be made up for."""

MOST_AMISS_PCT = 1.0
"""Sides and diagonals may disagree by so much: more is a length that was read wrong (common practice, no source)."""


class Correction(Record):
    """By what a page is stretched and leant before it is printed, so that it comes out true."""

    across_ratio: float = 1.0
    up_ratio: float = 1.0
    lean_ratio: float = 0.0

    def at(self, point: Point, *, about: Point) -> Point:
        """A place on the page as it must be sent to the printer; the place that it turns about stays."""
        x, y = point[0] - about[0], point[1] - about[1]
        return about[0] + self.across_ratio * x + self.lean_ratio * y, about[1] + self.up_ratio * y


TRUE = Correction()
"""No correction."""


def correction_of(*, across_mm: float, up_mm: float, rising_mm: float, falling_mm: float) -> Correction:
    """Find what makes up for a printer, from its square of 150 mm as measured.

    ``sin S = (rising² − falling²) / (4 · across · up)`` is the skew; the correction undoes the three together.

    Args:
        across_mm, up_mm: the sides of the square as printed [mm], within 10 % of 150 mm.
        rising_mm, falling_mm: its diagonals as printed [mm].
    Raises:
        OutOfRange: a length is off by more than 10 %.
        ImpossibleSize: no square that leans has such diagonals.
    Source: derived (the law of cosines, and the inverse of what the printer does).

    >>> correction_of(across_mm=150, up_mm=150, rising_mm=212.132, falling_mm=212.132).up_ratio
    1.0
    """
    diagonal_mm = hypot(CHECK_MM, CHECK_MM)
    require_near(CHECK_MM, across_mm=across_mm, up_mm=up_mm)
    require_near(diagonal_mm, rising_mm=rising_mm, falling_mm=falling_mm)
    both, sides = hypot(rising_mm, falling_mm), hypot(across_mm, up_mm) * 2**0.5
    if abs(both / sides - 1) * 100 > MOST_AMISS_PCT:
        raise ImpossibleSize("Sides and diagonals do not match: measure all four again.", field="rising_mm")
    skew_rad = asin((rising_mm**2 - falling_mm**2) / (4 * across_mm * up_mm))
    across_ratio, up_ratio = CHECK_MM / across_mm, CHECK_MM / (up_mm * cos(skew_rad))
    lean = up_mm * sin(skew_rad) / CHECK_MM
    return Correction(across_ratio=across_ratio, up_ratio=up_ratio, lean_ratio=0 - lean * across_ratio * up_ratio)


def require_near(nominal_mm: float, /, **measured: float) -> None:
    """Refuse measures that are off by more than 10 %: the page was fitted to the paper, or they were read wrong.

    Args:
        nominal_mm: what they are when true [mm], > 0.
    Raises:
        OutOfRange: so it is; `field` is its name.
    Source: derived.

    >>> require_near(150, across_mm=149.5)
    """
    for name, length_mm in measured.items():
        require_positive(**{name: length_mm})
        if abs(length_mm / nominal_mm - 1) * 100 > MOST_OFF_PCT:
            raise OutOfRange(
                "{measured} instead of {nominal}: print at 100%, not fitted to the page.",
                field=name,
                lengths={"measured": length_mm, "nominal": nominal_mm},
            )
