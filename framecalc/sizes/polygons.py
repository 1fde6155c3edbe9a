"""Regular polygons: what was measured of one, its sides, its corners.

A regular polygon is measured *across the flats*: twice the distance from its centre to a side, which is the diameter of
the largest disc that lies in it (for an odd number of sides no flat lies opposite, the disc is still the measure). The
*half turn* is half of what the frame turns by at a corner, 180°/n, which is the mitre angle from square.
"""

from enum import StrEnum
from math import cos, pi, radians, sin, tan

from framecalc.errors import ImpossibleSize
from framecalc.limits import require_between, require_positive

FEWEST_SIDES, MOST_SIDES = 3, 24
"""The polygons set out here; past 24 sides a frame is turned or bent, not mitred (common practice, no source)."""

Point = tuple[float, float]


class PolygonMeasurement(StrEnum):
    """What was measured of a regular polygon."""

    PACKAGE_FLATS = "the package, across the flats"
    PACKAGE_HEIGHT = "the package, from a side to what lies opposite"
    PACKAGE_SIDE = "the package, one of its sides"
    RABBET_FLATS = "the rabbet size, across the flats"


def half_turn_deg(sides: int) -> float:
    """Find the mitre angle of a regular frame, from a square cut.

    ``M = 180° / n``

    Args:
        sides: number of equal sides, 3 to 24.
    Raises:
        OutOfRange: fewer or more sides.
    Source: derived (the angles turned at the n corners add up to 360°, and two cuts share each).

    >>> half_turn_deg(4), half_turn_deg(8)
    (45.0, 22.5)
    """
    require_between(FEWEST_SIDES, MOST_SIDES, sides=sides)
    return 180 / sides


def side_of_flats_mm(flats_mm: float, *, sides: int) -> float:
    """Find the side of a regular polygon from its measure across the flats.

    ``side = flats · tan(180°/n)``

    Args:
        flats_mm: across the flats [mm], > 0.
    Raises:
        OutOfRange: length or number of sides out of range.
    Source: derived.

    >>> round(side_of_flats_mm(400, sides=8), 3)
    165.685
    """
    require_positive(flats_mm=flats_mm)
    return flats_mm * tan(_half_turn_rad(sides))


def flats_of_side_mm(side_mm: float, *, sides: int) -> float:
    """Find the measure across the flats of a regular polygon whose side was measured.

    ``flats = side / tan(180°/n)``

    Args:
        side_mm: one side [mm], > 0.
    Raises:
        OutOfRange: length or number of sides out of range.
    Source: derived.

    >>> round(flats_of_side_mm(165.685, sides=8))
    400
    """
    require_positive(side_mm=side_mm)
    return side_mm / tan(_half_turn_rad(sides))


def flats_of_height_mm(height_mm: float, *, sides: int) -> float:
    """Find the measure across the flats of a regular polygon that was measured from a side to what lies opposite.

    An even number of sides has a side opposite: ``flats = height``. An odd number has a corner opposite:
    ``flats = 2 · height · cos(180°/n) / (1 + cos(180°/n))``.

    Args:
        height_mm: square to a side, to the far side or far corner [mm], > 0.
    Raises:
        OutOfRange: length or number of sides out of range.
    Source: derived.

    >>> round(flats_of_height_mm(150, sides=3), 6), flats_of_height_mm(150, sides=6)
    (100.0, 150)
    """
    require_positive(height_mm=height_mm)
    slant = cos(_half_turn_rad(sides))
    return height_mm if sides % 2 == 0 else 2 * height_mm * slant / (1 + slant)


def package_flats_mm(measured_mm: float, *, given: PolygonMeasurement, sides: int, clearance_mm: float) -> float:
    """Find the package across the flats from whatever was measured.

    Args:
        measured_mm: [mm], > 0; as a rabbet size more than the clearance.
        given: what it is the measure of.
        sides: 3 to 24.
        clearance_mm: total looseness, both sides together [mm].
    Raises:
        OutOfRange: length or number of sides out of range.
        ImpossibleSize: the clearance is as large as the rabbet size.
    Source: derived.

    >>> package_flats_mm(303, given=PolygonMeasurement.RABBET_FLATS, sides=8, clearance_mm=3)
    300
    """
    require_between(FEWEST_SIDES, MOST_SIDES, sides=sides)
    if given is PolygonMeasurement.PACKAGE_SIDE:
        return flats_of_side_mm(measured_mm, sides=sides)
    if given is PolygonMeasurement.PACKAGE_HEIGHT:
        return flats_of_height_mm(measured_mm, sides=sides)
    require_positive(measured_mm=measured_mm)
    if given is PolygonMeasurement.PACKAGE_FLATS:
        return measured_mm
    if measured_mm <= clearance_mm:
        raise ImpossibleSize(
            "A rabbet size of {rabbet} holds nothing with a clearance of {clearance}.",
            field="polygon_flats",
            lengths={"rabbet": measured_mm, "clearance": clearance_mm},
        )
    return measured_mm - clearance_mm


def side_names(sides: int) -> tuple[str, ...]:
    """Name the sides of a polygon: numbers, clockwise from the side at the bottom.

    Source: derived (a convention of ours).

    >>> side_names(3)
    ('1', '2', '3')
    """
    return tuple(str(number) for number in range(1, sides + 1))


def polygon_corners(flats_mm: float, *, sides: int) -> tuple[Point, ...]:
    """Place the corners of a regular polygon around its centre, a side level at the bottom, y up.

    Clockwise as the sides are numbered, the first where the bottom side ends on the left.

    Args:
        flats_mm: across the flats [mm], > 0.
    Raises:
        OutOfRange: length or number of sides out of range.
    Source: derived.

    >>> [(round(x), round(y)) for x, y in polygon_corners(200, sides=4)]
    [(-100, -100), (-100, 100), (100, 100), (100, -100)]
    """
    require_positive(flats_mm=flats_mm)
    turn_rad = _half_turn_rad(sides)
    radius_mm = flats_mm / 2 / cos(turn_rad)
    angles_rad = [-pi / 2 - turn_rad - 2 * turn_rad * number for number in range(sides)]
    return tuple((radius_mm * cos(angle_rad), radius_mm * sin(angle_rad)) for angle_rad in angles_rad)


def _half_turn_rad(sides: int) -> float:
    return radians(half_turn_deg(sides))
