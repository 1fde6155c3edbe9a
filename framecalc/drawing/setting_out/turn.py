"""How two members meet at a corner, as seen from the front: the directions of the second, the first running level."""

from math import cos, radians, sin, tan

from framecalc.geometry.outline import Point
from framecalc.records import Record

SQUARE_DEG = 45.0
"""Half of what a rectangle turns by at a corner."""


class CornerTurn(Record):
    """How two members meet as seen from the front: `half_turn_deg` is 45 where they are square to each other."""

    half_turn_deg: float
    slopes: bool

    @property
    def is_square(self) -> bool:
        """Whether they are square to each other."""
        return self.half_turn_deg == SQUARE_DEG

    @property
    def along(self) -> Point:
        """The direction in which the second member runs from the tip, on the sheet."""
        return (0.0, 1.0) if self.is_square else (-cos(self._turn_rad), sin(self._turn_rad))

    @property
    def inward(self) -> Point:
        """The direction from the outer edge of the second member to its sight edge, on the sheet."""
        return (1.0, 0.0) if self.is_square else (sin(self._turn_rad), cos(self._turn_rad))

    @property
    def _turn_rad(self) -> float:
        return 2 * radians(self.half_turn_deg)

    @property
    def tip_ratio(self) -> float:
        """How far across the joint goes for each millimetre down."""
        return 1.0 if self.is_square else tan(radians(self.half_turn_deg))
