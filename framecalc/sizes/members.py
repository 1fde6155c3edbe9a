"""The mitred corner seen from the front: members, their two edges, and what a slanting cut takes.

A *member* is one side of the frame. Its *long points* are the tips of its outer edge, its *short points* those of the
sight edge; the *rabbet wall* runs between them. The *mitre length* is the joint line on the face, corner to corner.
Sides are named as on the wall, corners by the two sides that they join; those of a polygon have numbers.
"""

from math import cos, radians

from framecalc.limits import require_not_negative, require_positive
from framecalc.records import Record
from framecalc.sizes.chain import Sizes
from framecalc.sizes.polygons import half_turn_deg, side_of_flats_mm
from framecalc.sizes.shape import RECTANGLE, Shape


class Member(Record):
    """The sides of a frame that are cut alike: their names, the letter on the drawing, how many, and their lengths.

    It lies flat on its back: `width_mm` is its face, and `mitre_deg` the slant of its ends from a square cut.
    """

    sides: tuple[str, ...]
    letter: str
    count: int
    long_mm: float
    short_mm: float
    rabbet_wall_mm: float
    width_mm: float
    mitre_deg: float


def mitre_length_mm(face_width_mm: float, *, shape: Shape = RECTANGLE) -> float:
    """Measure the joint line on the face, from the tip to the short point.

    ``m = w / cos M``, which is w·√2 for a flat rectangle.

    Args:
        face_width_mm: width of the member [mm], > 0.
        shape: the frame's; M is its mitre.
    Raises:
        OutOfRange: no width.
    Source: derived.

    >>> round(mitre_length_mm(38.1), 2)
    53.88
    """
    require_positive(face_width_mm=face_width_mm)
    return face_width_mm / cos(radians(shape.mitre_deg))


def slant_kerf_mm(kerf_mm: float, *, sides: int = 4) -> float:
    """Find what one mitre cut takes out of the stick, measured along it, whatever the slope of the sides.

    ``k / cos(180°/n)``, which is k·√2 for a rectangle: the joint stands so to the length of a side, flat or sloping.

    Args:
        kerf_mm: width of the cut, square to the blade [mm], ≥ 0.
        sides: 3 to 24.
    Raises:
        OutOfRange: a negative kerf, or no polygon.
    Source: derived.

    >>> round(slant_kerf_mm(3.2), 3)
    4.525
    """
    require_not_negative(kerf_mm=kerf_mm)
    return kerf_mm / cos(radians(half_turn_deg(sides)))


def members_of(sizes: Sizes) -> tuple[Member, ...]:
    """Find the members that are cut alike: top and bottom, left and right; or the one of a polygon, cut n times.

    Their edges run along the outside, along the sight edge and along the rabbet wall.

    Source: derived.

    >>> from framecalc.sizes.chain import sizes_around
    >>> across, up = members_of(sizes_around(package_across_mm=297, package_up_mm=420, clearance_across_mm=3,
    ...                                      clearance_up_mm=3, rabbet_width_mm=6, face_width_mm=30))
    >>> across.long_mm, across.short_mm, across.rabbet_wall_mm, up.short_mm
    (348.0, 288.0, 300, 411.0)
    """
    if not sizes.shape.is_rectangle:
        flats_mm = sizes.outside_across_mm, sizes.sight_across_mm, sizes.rabbet_across_mm
        edges_mm = [side_of_flats_mm(one_mm, sides=sizes.shape.sides) for one_mm in flats_mm]
        return (_member(sizes, sizes.shape.names, "A", edges_mm),)
    across_mm = [sizes.outside_across_mm, sizes.sight_across_mm, sizes.rabbet_across_mm]
    up_mm = [sizes.outside_up_mm, sizes.sight_up_mm, sizes.rabbet_up_mm]
    return _member(sizes, ("top", "bottom"), "A", across_mm), _member(sizes, ("left", "right"), "B", up_mm)


def _member(sizes: Sizes, sides: tuple[str, ...], letter: str, edges_mm: list[float]) -> Member:
    long_mm, short_mm, rabbet_wall_mm = edges_mm
    return Member(
        sides=sides,
        letter=letter,
        count=len(sides),
        long_mm=long_mm,
        short_mm=short_mm,
        rabbet_wall_mm=rabbet_wall_mm,
        width_mm=sizes.face_width_mm,
        mitre_deg=sizes.shape.mitre_deg,
    )
