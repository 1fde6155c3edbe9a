"""Frames with n equal sides, flat or sloping: the size chain across the flats, the member, the corners.

A regular polygon is measured *across the flats*: twice the distance from its centre to a side, which is the diameter of
the largest disc that lies in it (for an odd number of sides no flat lies opposite, the disc is still the measure). A
side that *slopes* is measured in its own face: its width runs up the slope, and the frame stands out from the wall by
its *rise*.
"""

from dataclasses import dataclass
from enum import StrEnum
from math import cos, pi, radians, sin, tan

from framecalc.corners.angles import flat_on_the_table
from framecalc.errors import ImpossibleSize
from framecalc.limits import require_between, require_positive
from framecalc.sizes.chain import require_land
from framecalc.sizes.members import Member, half_turn_deg

Point = tuple[float, float]


class PolygonMeasurement(StrEnum):
    """What was measured of a regular polygon."""

    PACKAGE_FLATS = "the package, across the flats"
    PACKAGE_HEIGHT = "the package, from a side to what lies opposite"
    PACKAGE_SIDE = "the package, one of its sides"
    RABBET_FLATS = "the rabbet size, across the flats"


@dataclass(frozen=True, slots=True, kw_only=True)
class PolygonSizes:
    """The size chain of a regular frame, across the flats; and its outside from corner to corner, for the wall."""

    sides: int
    package_flats_mm: float
    clearance_mm: float
    rabbet_flats_mm: float
    sight_flats_mm: float
    outside_flats_mm: float
    outside_corners_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SlopedSide:
    """A side that slopes, laid flat: an even trapezoid; and how far the frame stands out from the wall."""

    count: int
    long_mm: float
    short_mm: float
    width_mm: float
    mitre_deg: float
    tilt_deg: float
    rise_mm: float
    narrow_flats_mm: float


def polygon_around(
    *, sides: int, package_flats_mm: float, clearance_mm: float, rabbet_width_mm: float, face_width_mm: float
) -> PolygonSizes:
    """Size a regular frame around a package that is a regular polygon, or a disc.

    ``rabbet = package + c``, ``sight = rabbet − 2r``, ``outside = sight + 2w``, all across the flats.

    Args:
        sides: 3 to 24.
        package_flats_mm: across the flats, or the diameter of a disc [mm], > 0.
        clearance_mm: total looseness, both sides together [mm]; zero or negative is a finding, not an error.
        rabbet_width_mm: r [mm], 0 ≤ r < w.
        face_width_mm: w [mm], > 0.
    Raises:
        OutOfRange: a length or the number of sides is out of range.
        ImpossibleSize: the rabbet is as wide as the member, or nothing stays in view.
    Source: derived.

    >>> octagon = polygon_around(sides=8, package_flats_mm=300, clearance_mm=3, rabbet_width_mm=6, face_width_mm=30)
    >>> octagon.sight_flats_mm, octagon.outside_flats_mm
    (291, 351)
    """
    require_positive(package_flats_mm=package_flats_mm, face_width_mm=face_width_mm)
    require_land(rabbet_width_mm=rabbet_width_mm, face_width_mm=face_width_mm)
    rabbet_flats_mm = package_flats_mm + clearance_mm
    sight_flats_mm = rabbet_flats_mm - 2 * rabbet_width_mm
    _refuse_no_sight(sight_flats_mm, rabbet_width_mm=rabbet_width_mm)
    outside_flats_mm = sight_flats_mm + 2 * face_width_mm
    return PolygonSizes(
        sides=sides,
        package_flats_mm=package_flats_mm,
        clearance_mm=clearance_mm,
        rabbet_flats_mm=rabbet_flats_mm,
        sight_flats_mm=sight_flats_mm,
        outside_flats_mm=outside_flats_mm,
        outside_corners_mm=outside_flats_mm / cos(_half_turn_rad(sides)),
    )


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


def member_of_polygon(sizes: PolygonSizes) -> Member:
    """Find the one member, cut n times, of a regular frame.

    ``edge = flats · tan(180°/n)`` at the outside, the rabbet wall and the sight edge.

    Source: derived.

    >>> square = polygon_around(sides=4, package_flats_mm=297, clearance_mm=3, rabbet_width_mm=6, face_width_mm=30)
    >>> member = member_of_polygon(square)
    >>> round(member.long_mm, 9), round(member.short_mm, 9), member.count
    (348.0, 288.0, 4)
    """
    return Member(
        sides=side_names(sizes.sides),
        letter="A",
        count=sizes.sides,
        long_mm=side_of_flats_mm(sizes.outside_flats_mm, sides=sizes.sides),
        short_mm=side_of_flats_mm(sizes.sight_flats_mm, sides=sizes.sides),
        rabbet_wall_mm=side_of_flats_mm(sizes.rabbet_flats_mm, sides=sizes.sides),
        width_mm=(sizes.outside_flats_mm - sizes.sight_flats_mm) / 2,
        mitre_deg=half_turn_deg(sizes.sides),
    )


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


def sloped_side(*, sides: int, wide_flats_mm: float, face_width_mm: float, slope_deg: float) -> SlopedSide:
    """Find the shape of a side that slopes, from the wide edge of the frame to the narrow one.

    ``long = flats · tan t``, ``narrow flats = wide flats − 2w·cos S``, ``short = long − 2w·tan M``, ``rise = w·sin S``,
    with ``tan M = cos S · tan t``: the trapezoid laid flat has the gauge's own angle at its ends.

    Args:
        sides: 3 to 24.
        wide_flats_mm: across the flats at the wide edges [mm], > 0.
        face_width_mm: w, up the slope [mm], > 0.
        slope_deg: S, 0 flat on the wall, 90 a box [°].
    Raises:
        OutOfRange: a length, an angle or the number of sides is out of range.
        ImpossibleSize: the sides meet before they are that wide.
    Source: derived.

    >>> side = sloped_side(sides=4, wide_flats_mm=300, face_width_mm=40, slope_deg=90)
    >>> round(side.long_mm, 6), round(side.short_mm, 6), round(side.rise_mm, 6), round(side.tilt_deg, 6)
    (300.0, 300.0, 40.0, 45.0)
    """
    require_positive(wide_flats_mm=wide_flats_mm, face_width_mm=face_width_mm)
    require_between(0, 90, slope_deg=slope_deg)
    settings = flat_on_the_table(half_turn_deg=half_turn_deg(sides), slope_deg=slope_deg)
    narrow_flats_mm = wide_flats_mm - 2 * face_width_mm * cos(radians(slope_deg))
    _refuse_no_sight(narrow_flats_mm, face_width_mm=face_width_mm)
    return SlopedSide(
        count=sides,
        long_mm=side_of_flats_mm(wide_flats_mm, sides=sides),
        short_mm=side_of_flats_mm(narrow_flats_mm, sides=sides),
        width_mm=face_width_mm,
        mitre_deg=settings.mitre_deg,
        tilt_deg=settings.tilt_deg,
        rise_mm=face_width_mm * sin(radians(slope_deg)),
        narrow_flats_mm=narrow_flats_mm,
    )


def _half_turn_rad(sides: int) -> float:
    return radians(half_turn_deg(sides))


def _refuse_no_sight(sight_flats_mm: float, **width_mm: float) -> None:
    (name, value_mm), *_ = width_mm.items()
    if sight_flats_mm <= 0:
        words = name.removesuffix("_mm").replace("_", " ")
        raise ImpossibleSize(
            f"With a {words} of {{width}} nothing stays open in the middle.", field=name, lengths={"width": value_mm}
        )
