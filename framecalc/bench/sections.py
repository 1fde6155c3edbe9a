"""The section of a member as it is on the bench: a polygon after each cut, from the blank to the rabbet.

Across runs from the outer side (x = 0) to the sight edge, up from the back (y = 0) to the face. The *top* of a section
is its run of points from the sight edge over the face to the outer side: two of a plain blank, many of a profile.
"""

from collections.abc import Sequence

from framecalc.geometry.outline import Outline, Point, flatten
from framecalc.limits import require_between, require_positive
from framecalc.records import Record

FLAT_TO_MM = 0.02
"""How closely the arcs of a profile are followed. Ours, no source."""

_OF_RABBET = 3
"""The lines at the start of a rabbeted outline that are the land, the rabbet's wall and its floor."""


class Blank(Record):
    """What a rabbet is cut into: its width, the rabbet's width and depth, and the top of the section as it is then."""

    width_mm: float
    rabbet_width_mm: float
    rabbet_depth_mm: float
    top: tuple[Point, ...]

    @property
    def land_mm(self) -> float:
        """What stays beside the rabbet, from the outer side to its wall."""
        return self.width_mm - self.rabbet_width_mm

    @property
    def thickness_mm(self) -> float:
        """The height of the highest point."""
        return max(up for _, up in self.top)

    @property
    def lip_mm(self) -> float:
        """What stays over the rabbet of a plain blank."""
        return self.thickness_mm - self.rabbet_depth_mm


def plain_top(*, width_mm: float, thickness_mm: float) -> tuple[Point, ...]:
    """The top of a plain blank.

    Source: derived.

    >>> plain_top(width_mm=30, thickness_mm=20)
    ((30, 20), (0, 20))
    """
    require_positive(width_mm=width_mm, thickness_mm=thickness_mm)
    return (width_mm, thickness_mm), (0, thickness_mm)


def milled_top(outline: Outline) -> tuple[Point, ...]:
    """The top of a rabbeted outline, without the rabbet: the sight edge from the rabbet's floor up, and the face.

    Source: derived (the outline begins with the land, the rabbet's wall and its floor).
    """
    rabbet = outline.segments[:_OF_RABBET]
    points = flatten(outline, tolerance_mm=FLAT_TO_MM)
    return points[len(rabbet) :]


def solid(blank: Blank) -> tuple[Point, ...]:
    """The section before the rabbet is cut.

    Source: derived.

    >>> solid(Blank(width_mm=30, rabbet_width_mm=6, rabbet_depth_mm=12, top=((30, 20), (0, 20))))
    ((0, 0), (30, 0), (30, 20), (0, 20))
    """
    return ((0, 0), (blank.width_mm, 0), *blank.top)


def rabbeted(blank: Blank, *, depth_mm: float) -> tuple[Point, ...]:
    """The section with its rabbet cut to a depth.

    Args:
        depth_mm: [mm], 0 to the rabbet's depth.
    Raises:
        OutOfRange: the depth is out of its range.
    Source: derived.

    >>> rabbeted(Blank(width_mm=30, rabbet_width_mm=6, rabbet_depth_mm=12, top=((30, 20), (0, 20))), depth_mm=4)
    ((0, 0), (24, 0), (24, 4), (30, 4), (30, 20), (0, 20))
    """
    require_between(0, blank.rabbet_depth_mm, depth_mm=depth_mm)
    land_mm = blank.land_mm
    return ((0, 0), (land_mm, 0), (land_mm, depth_mm), (blank.width_mm, depth_mm), *blank.top)


def slotted(blank: Blank, *, kerf_mm: float) -> tuple[Point, ...]:
    """The section after the first of two cuts at the table saw: a slot beside the land, as deep as the rabbet.

    A blade as wide as the rabbet leaves no strip beside its slot.

    Args:
        kerf_mm: [mm], > 0.
    Raises:
        OutOfRange: the blade has no width.
    Source: derived.

    >>> slotted(Blank(width_mm=30, rabbet_width_mm=6, rabbet_depth_mm=12, top=((30, 20), (0, 20))), kerf_mm=3)
    ((0, 0), (24, 0), (24, 12), (27, 12), (27, 0), (30, 0), (30, 20), (0, 20))
    """
    require_positive(kerf_mm=kerf_mm)
    if kerf_mm >= blank.rabbet_width_mm:
        return rabbeted(blank, depth_mm=blank.rabbet_depth_mm)
    left_mm, depth_mm = blank.land_mm, blank.rabbet_depth_mm
    right_mm = left_mm + kerf_mm
    slot = ((left_mm, 0), (left_mm, depth_mm), (right_mm, depth_mm), (right_mm, 0))
    return ((0, 0), *slot, (blank.width_mm, 0), *blank.top)


def face_board(blank: Blank) -> tuple[Point, ...]:
    """The section of the board for the face, before the strip that makes the land is glued behind it.

    Source: derived.

    >>> face_board(Blank(width_mm=30, rabbet_width_mm=6, rabbet_depth_mm=12, top=((30, 20), (0, 20))))
    ((0, 12), (30, 12), (30, 20), (0, 20))
    """
    return ((0, blank.rabbet_depth_mm), (blank.width_mm, blank.rabbet_depth_mm), *blank.top)


def polygon_mm2(points: Sequence[Point]) -> float:
    """The area of a polygon.

    ``A = ½ |Σ (x_i y_{i+1} − x_{i+1} y_i)|``

    Source: derived (the shoelace formula; compared with a library in the tests).

    >>> polygon_mm2(((0, 0), (30, 0), (30, 20), (0, 20)))
    600.0
    """
    pairs = zip(points, (*points[1:], points[0]), strict=True)
    return abs(sum(one[0] * other[1] - other[0] * one[1] for one, other in pairs)) / 2
