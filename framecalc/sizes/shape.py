"""The shape of a frame: a rectangle or a regular polygon, its sides flat or sloping.

A rectangle is measured across and up; a regular polygon has one measure, *across the flats*, which stands for both. A
side that *slopes* is measured in its own face: its width runs up the slope and takes ``width · cos S`` of the frame as
seen from the front, and the frame stands out by its *rise*. The *mitre* is the slant of a side's end from a square cut,
the side laid flat on its back; the *end* is the angle between that slant and the long edge. The *extent* of an outline
is the upright rectangle round it; a side lies level at its bottom.
"""

from math import atan, cos, degrees, radians, sin, tan

from framecalc.records import Record
from framecalc.sizes.polygons import Point, half_turn_deg, polygon_corners, side_names, side_of_flats_mm

RECTANGLE_SIDES = ("top", "right", "bottom", "left")
RECTANGLE_CORNERS = ("top-right", "bottom-right", "bottom-left", "top-left")
"""The sides and corners of a rectangle, clockwise from the top as seen from the front."""

ON_EDGE_DEG = 90.0
"""The slope of a side that stands on edge, like that of a box."""


class Extent(Record):
    """The upright rectangle round an outline; `below_mm` is how far it reaches down from the middle of the frame."""

    across_mm: float
    up_mm: float
    below_mm: float


class Shape(Record):
    """How many sides a frame has, and how they slope: 0° flat on the wall, 90° on edge like a box.

    Sizes are given across and up; of a polygon both are its measure across the flats.

    >>> hexagon = Shape(sides=6)
    >>> extent = hexagon.extent(300, 300)
    >>> round(extent.across_mm, 2), round(extent.up_mm, 2), round(hexagon.area_mm2(300, 300))
    (346.41, 300.0, 77942)
    """

    sides: int = len(RECTANGLE_SIDES)
    slope_deg: float = 0.0

    @property
    def is_rectangle(self) -> bool:
        """Whether it has four sides."""
        return self.sides == len(RECTANGLE_SIDES)

    @property
    def slopes(self) -> bool:
        """Whether its sides slope."""
        return self.slope_deg > 0

    @property
    def names(self) -> tuple[str, ...]:
        """The names of its sides: as on the wall, or numbers."""
        return RECTANGLE_SIDES if self.is_rectangle else side_names(self.sides)

    @property
    def half_turn_deg(self) -> float:
        """Half of what the frame turns by at a corner."""
        return half_turn_deg(self.sides)

    @property
    def mitre_deg(self) -> float:
        """The slant of a side's end, laid flat: ``tan M = cos S · tan(180°/n)``."""
        return degrees(atan(self.flat_ratio * tan(radians(self.half_turn_deg)))) if self.slopes else self.half_turn_deg

    @property
    def end_deg(self) -> float:
        """The angle at a long point, between the end and the long edge, laid flat."""
        return 90 - self.mitre_deg

    @property
    def flat_ratio(self) -> float:
        """How much of a width in the face shows from the front: ``cos S``; nothing of one that stands on edge."""
        if not self.slopes:
            return 1.0
        return cos(radians(self.slope_deg)) if self.slope_deg < ON_EDGE_DEG else 0.0

    @property
    def seen_ratio(self) -> float:
        """By how much a small error of an end, laid flat, turns its joint as seen from the front.

        ``dt / dM = cos² t / (cos S · cos² M)``, from ``tan M = cos S · tan t``; nothing of a side on edge.
        """
        if not self.slopes or not self.flat_ratio:
            return 1.0 if not self.slopes else 0.0
        seen, laid = cos(radians(self.half_turn_deg)), cos(radians(self.mitre_deg))
        return seen**2 / (self.flat_ratio * laid**2)

    def rise_mm(self, width_mm: float) -> float:
        """How far a width in the face stands out from the wall."""
        return width_mm * sin(radians(self.slope_deg))

    def area_mm2(self, across_mm: float, up_mm: float) -> float:
        """The area inside an outline: ``across · up``, or ``n/4 · flats² · tan(180°/n)``."""
        if self.is_rectangle:
            return across_mm * up_mm
        return self.sides / 4 * across_mm * side_of_flats_mm(across_mm, sides=self.sides)

    def edges_mm(self, across_mm: float, up_mm: float) -> tuple[float, ...]:
        """The length of an outline along each side, in the order of their names."""
        if self.is_rectangle:
            return across_mm, up_mm, across_mm, up_mm
        return (side_of_flats_mm(across_mm, sides=self.sides),) * self.sides

    def corners(self, across_mm: float, up_mm: float) -> tuple[Point, ...]:
        """The corners of an outline round the middle of the frame, clockwise from the bottom left, y up."""
        if not self.is_rectangle:
            return polygon_corners(across_mm, sides=self.sides)
        x_mm, y_mm = across_mm / 2, up_mm / 2
        return (-x_mm, -y_mm), (-x_mm, y_mm), (x_mm, y_mm), (x_mm, -y_mm)

    def extent(self, across_mm: float, up_mm: float) -> Extent:
        """The upright rectangle round an outline."""
        if self.is_rectangle:
            return Extent(across_mm=across_mm, up_mm=up_mm, below_mm=up_mm / 2)
        xs, ys = zip(*self.corners(across_mm, up_mm), strict=True)
        return Extent(across_mm=max(xs) - min(xs), up_mm=max(ys) - min(ys), below_mm=-min(ys))

    def corner_to_corner_mm(self, across_mm: float, up_mm: float) -> float:
        """The circle through the corners of an outline: its diameter."""
        x_mm, y_mm = self.corners(across_mm, up_mm)[0]
        return float(2 * (x_mm**2 + y_mm**2) ** 0.5)


RECTANGLE = Shape()
"""The usual frame: four flat sides."""
