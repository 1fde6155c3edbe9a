"""The mitred corner seen from the front: members, their two edges, and what a slanting cut takes.

A *member* is one side of the frame. Its *long points* are the tips of its outer edge, its *short points* those of the
sight edge; the *rabbet wall* runs between them. The *mitre length* is the joint line seen from the front, corner to
corner. The *half turn* is half of what the frame turns by at a corner, 180°/n, which is the mitre angle from square.
Sides are named as on the wall, corners by the two sides that they join.
"""

from dataclasses import dataclass
from math import cos, radians

from framecalc.errors import ImpossibleSize
from framecalc.limits import require_between, require_not_negative, require_positive
from framecalc.sizes.chain import require_land

FEWEST_SIDES, MOST_SIDES = 3, 24
"""The polygons set out here; past 24 sides a frame is turned or bent, not mitred (common practice, no source)."""

RECTANGLE_SIDES = ("top", "right", "bottom", "left")
RECTANGLE_CORNERS = ("top-right", "bottom-right", "bottom-left", "top-left")
"""The sides and corners of a rectangle, clockwise from the top as seen from the front."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """The sides of a frame that are cut alike: their names, the letter on the drawing, how many, and their lengths."""

    sides: tuple[str, ...]
    letter: str
    count: int
    long_mm: float
    short_mm: float
    rabbet_wall_mm: float
    width_mm: float
    mitre_deg: float = 45.0


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


def mitre_length_mm(face_width_mm: float, *, sides: int = 4) -> float:
    """Measure the joint line from the tip to the short point.

    ``m = w / cos(180°/n)``, which is w·√2 for a rectangle.

    Args:
        face_width_mm: width of the member [mm], > 0.
        sides: 3 to 24.
    Raises:
        OutOfRange: no width, or no polygon.
    Source: derived.

    >>> round(mitre_length_mm(38.1), 2)
    53.88
    """
    require_positive(face_width_mm=face_width_mm)
    return _along_the_slant(face_width_mm, sides)


def slant_kerf_mm(kerf_mm: float, *, sides: int = 4) -> float:
    """Find what one mitre cut takes out of the stick, measured along it.

    ``k / cos(180°/n)``, which is k·√2 for a rectangle.

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
    return _along_the_slant(kerf_mm, sides)


def members_of_rectangle(
    *, outside_across_mm: float, outside_up_mm: float, face_width_mm: float, rabbet_width_mm: float
) -> tuple[Member, Member]:
    """Find the two pairs of members of a rectangular frame: first top and bottom, then left and right.

    ``long = outside``, ``short = outside − 2w``, ``rabbet wall = outside − 2(w − r)``

    Args:
        outside_across_mm, outside_up_mm: outside size [mm], each > 2w.
        face_width_mm: width w of the members [mm], > 0.
        rabbet_width_mm: rabbet wall to sight edge r [mm], 0 ≤ r < w.
    Raises:
        OutOfRange: a width is no width.
        ImpossibleSize: the rabbet is as wide as the member, or nothing stays in view.
    Source: derived.

    >>> across, up = members_of_rectangle(
    ...     outside_across_mm=348, outside_up_mm=471, face_width_mm=30, rabbet_width_mm=6)
    >>> across.long_mm, across.short_mm, across.rabbet_wall_mm, up.short_mm
    (348, 288, 300, 411)
    """
    require_positive(face_width_mm=face_width_mm)
    require_land(rabbet_width_mm=rabbet_width_mm, face_width_mm=face_width_mm)
    _refuse_no_sight(face_width_mm, outside_across_mm=outside_across_mm, outside_up_mm=outside_up_mm)
    return (
        _pair(("top", "bottom"), "A", outside_across_mm, face_width_mm, rabbet_width_mm),
        _pair(("left", "right"), "B", outside_up_mm, face_width_mm, rabbet_width_mm),
    )


def _pair(
    sides: tuple[str, str], letter: str, outside_mm: float, face_width_mm: float, rabbet_width_mm: float
) -> Member:
    return Member(
        sides=sides,
        letter=letter,
        count=len(sides),
        long_mm=outside_mm,
        short_mm=outside_mm - 2 * face_width_mm,
        rabbet_wall_mm=outside_mm - 2 * (face_width_mm - rabbet_width_mm),
        width_mm=face_width_mm,
    )


def _along_the_slant(width_mm: float, sides: int) -> float:
    return width_mm / cos(radians(half_turn_deg(sides)))


def _refuse_no_sight(face_width_mm: float, **outsides_mm: float) -> None:
    require_positive(**outsides_mm)
    for name, outside_mm in outsides_mm.items():
        if outside_mm <= 2 * face_width_mm:
            raise ImpossibleSize(
                "Two members of {width} leave nothing in view of {outside} outside.",
                field=name,
                lengths={"width": face_width_mm, "outside": outside_mm},
            )
