"""Plane geometry of straight-sided shapes: areas, distances, and what stands around a rectangle.

A shape is a closed run of corner points; convex where it says so. A *band* is all that lies between two parallel lines.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import hypot

from framecalc.records import Record
from framecalc.units import TOLERANCE_MM

Point = tuple[float, float]


class Rectangle(Record):
    """An upright rectangle."""

    left_mm: float
    right_mm: float
    low_mm: float
    high_mm: float

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Its corners, counter-clockwise from the lower left."""
        return (
            (self.left_mm, self.low_mm),
            (self.right_mm, self.low_mm),
            (self.right_mm, self.high_mm),
            (self.left_mm, self.high_mm),
        )


class Surround(Record):
    """What solid stands around a rectangle in a shape: to each side, and nearest in any direction.

    Negative to a side: the rectangle breaks out of the shape there, by so much. Nearest is then 0.
    """

    left_mm: float
    right_mm: float
    low_mm: float
    high_mm: float
    nearest_mm: float


def shape_area_mm2(corners: Sequence[Point]) -> float:
    """Measure the area of a shape.

    ``½ |Σ (x₁y₂ − x₂y₁)|``

    Source: shoelace formula.

    >>> shape_area_mm2([(0, 0), (4, 0), (0, 3)])
    6.0
    """
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in _edges(corners))) / 2


def distance_mm(one: Sequence[Point], other: Sequence[Point]) -> float:
    """Measure how far two convex shapes stand apart; 0 where they touch or overlap.

    Source: derived (the nearest points lie on two edges, unless one shape lies over the other).

    >>> distance_mm([(0, 0), (1, 0), (0, 1)], [(3, 0), (4, 0), (4, 4)])
    2.0
    """
    if convex_overlap(one, other):
        return 0.0
    return _boundary_distance_mm(one, other)


def convex_overlap(one: Sequence[Point], other: Sequence[Point]) -> bool:
    """Find whether two convex shapes share any area.

    They do not when the edge of one of them parts them.

    Source: separating axis theorem.

    >>> convex_overlap([(0, 0), (2, 0), (0, 2)], [(1, 1), (3, 1), (3, 3)])
    False
    """
    axes = [(end[1] - start[1], start[0] - end[0]) for shape in (one, other) for start, end in _edges(shape)]
    return all(_shadows_overlap(one, other, axis) for axis in axes)


def surround(shape: Sequence[Point], rectangle: Rectangle) -> Surround:
    """Measure the solid around a rectangle that lies in a shape, or by how much it breaks out.

    Only edges beside the rectangle count to a side: those that run through its band. An edge counts to the side of the
    rectangle's middle on which it lies.

    Args:
        shape: its corners, any straight-sided shape.
    Source: derived.

    >>> surround([(0, 0), (30, 0), (30, 20), (0, 20)], Rectangle(left_mm=5, right_mm=22, low_mm=8, high_mm=14))
    Surround(left_mm=5.0, right_mm=8.0, low_mm=8.0, high_mm=6.0, nearest_mm=5.0)
    """
    across = _beside(shape, low_mm=rectangle.low_mm, high_mm=rectangle.high_mm)
    turned = [(y, x) for x, y in shape]
    up = _beside(turned, low_mm=rectangle.left_mm, high_mm=rectangle.right_mm)
    left_mm, right_mm = _clear(across, rectangle.left_mm, rectangle.right_mm)
    low_mm, high_mm = _clear(up, rectangle.low_mm, rectangle.high_mm)
    inside = min(left_mm, right_mm, low_mm, high_mm) >= 0
    return Surround(
        left_mm=left_mm,
        right_mm=right_mm,
        low_mm=low_mm,
        high_mm=high_mm,
        nearest_mm=_boundary_distance_mm(shape, rectangle.corners) if inside else 0.0,
    )


def _edges(corners: Sequence[Point]) -> Iterator[tuple[Point, Point]]:
    return pairwise((*corners, corners[0]))


def _shadows_overlap(one: Sequence[Point], other: Sequence[Point], axis: Point) -> bool:
    """Whether the two cast overlapping shadows on an axis; shadows that only touch part the shapes."""
    length = hypot(*axis)
    if not length:
        return True
    casts = [[(x * axis[0] + y * axis[1]) / length for x, y in shape] for shape in (one, other)]
    return min(max(casts[0]), max(casts[1])) - max(min(casts[0]), min(casts[1])) > TOLERANCE_MM


def _boundary_distance_mm(one: Sequence[Point], other: Sequence[Point]) -> float:
    """Between two boundaries that do not cross: the nearest is a corner of one of them."""
    ours, theirs = tuple(_edges(one)), tuple(_edges(other))
    return min(
        min(_point_distance_mm(point, edge) for point in corners for edge in edges)
        for corners, edges in ((one, theirs), (other, ours))
    )


def _point_distance_mm(point: Point, edge: tuple[Point, Point]) -> float:
    (x1, y1), (x2, y2) = edge
    along, up = x2 - x1, y2 - y1
    square = along**2 + up**2
    share = ((point[0] - x1) * along + (point[1] - y1) * up) / square if square else 0.0
    share = min(max(share, 0.0), 1.0)
    return hypot(point[0] - x1 - share * along, point[1] - y1 - share * up)


def _beside(shape: Sequence[Point], *, low_mm: float, high_mm: float) -> list[tuple[float, float]]:
    """How far across each edge reaches within a band: (least, most)."""
    reaches = []
    for (x1, y1), (x2, y2) in _edges(shape):
        low, high = max(min(y1, y2), low_mm), min(max(y1, y2), high_mm)
        if high - low > TOLERANCE_MM:
            ends = [x1 + (x2 - x1) * (y - y1) / (y2 - y1) for y in (low, high)]
            reaches.append((min(ends), max(ends)))
    return reaches


def _clear(reaches: list[tuple[float, float]], least_mm: float, most_mm: float) -> tuple[float, float]:
    """The room before `least` and past `most`; an edge counts before when its middle lies before the middle."""
    middle = (least_mm + most_mm) / 2
    before = [most for least, most in reaches if least + most < 2 * middle]
    past = [least for least, most in reaches if least + most >= 2 * middle]
    return (
        float(least_mm - max(before, default=middle)),
        float(min(past, default=middle) - most_mm),
    )
