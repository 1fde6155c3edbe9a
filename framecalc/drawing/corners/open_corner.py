"""A corner whose mitre stands open, magnified: two members, the wedge of light between them, the step at their tips.

Local places are measured from the corner's own tip inward, along the level member and along the upright one.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from framecalc.drawing.pen import Pen, run
from framecalc.drawing.style import Role
from framecalc.geometry.outline import Point

FACTORS = (20, 10, 5, 2, 1, 0.5, 0.2, 0.1)
"""By how much gaps and steps are magnified, or made smaller where a side is far too long: the first that fits."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenCorner:
    """One corner on the sheet: its tip, the inward direction, the drawn width and length of its members [mm]."""

    tip: Point
    toward: tuple[int, int]
    width_mm: float
    reach_mm: float

    def at(self, along_mm: float, in_mm: float) -> Point:
        """A local place on the sheet."""
        return self.tip[0] + self.toward[0] * along_mm, self.tip[1] + self.toward[1] * in_mm

    def path(self, places: Sequence[Point], *, closed: bool = True) -> str:
        """Path data of a run of local places."""
        return run([self.at(*place) for place in places], closed=closed)


@dataclass(frozen=True, slots=True, kw_only=True)
class MitreGap:
    """How far the mitre stands open at both its ends, and the level member's tip proud of the upright one [mm]."""

    outside_mm: float
    inside_mm: float
    level_proud_mm: float = 0.0

    @property
    def widest_mm(self) -> float:
        """The room that the gap takes along a member."""
        return max(self.outside_mm, self.inside_mm) * sqrt(2)

    def magnified(self, gaps: float, *, steps: float = 1) -> "MitreGap":
        """The same, its gaps and its step magnified by a factor."""
        return MitreGap(
            outside_mm=self.outside_mm * gaps,
            inside_mm=self.inside_mm * gaps,
            level_proud_mm=self.level_proud_mm * steps,
        )


def factor_for(*lengths_mm: float, room_mm: float) -> float:
    """The largest factor that keeps all lengths within their room.

    >>> factor_for(0.2, -0.1, room_mm=6), factor_for(0.5, room_mm=6)
    (20, 10)
    """
    most_mm = max(map(abs, lengths_mm))
    return next((factor for factor in FACTORS if most_mm * factor <= room_mm), FACTORS[-1])


def draw_open_corner(
    pen: Pen, corner: OpenCorner, opening: MitreGap, *, level_shaved: float = 0, upright_shaved: float = 0
) -> None:
    """Draw a corner with its opening, which is magnified already.

    A gap square to the joint moves the level face by √2 of it along its member. A shaved end is marked with a wedge:
    positive where the wood comes off at the inside, negative at the tip, as thick as it is drawn [mm].
    """
    width, reach, proud = corner.width_mm, corner.reach_mm, opening.level_proud_mm
    outside, inside = opening.outside_mm * sqrt(2) - proud, opening.inside_mm * sqrt(2) - proud
    level = ((outside, -proud), (reach, -proud), (reach, width - proud), (width + inside, width - proud))
    upright = ((0.0, 0.0), (width, width), (width, reach), (0.0, reach))
    for member in (level, upright):
        pen.area(corner.path(member), Role.WOOD)
        pen.line(corner.path(member), Role.EDGE)
    _mark(pen, corner, level[0], level[3], thick_mm=level_shaved, into=(1.0, 0.0))
    _mark(pen, corner, upright[0], upright[1], thick_mm=upright_shaved, into=(0.0, 1.0))


def _mark(pen: Pen, corner: OpenCorner, tip: Point, inner: Point, *, thick_mm: float, into: Point) -> None:
    """A wedge of wood to come off a face, thick at its inner end or at its tip."""
    if not thick_mm:
        return
    thick = inner if thick_mm > 0 else tip
    past = (thick[0] + abs(thick_mm) * into[0], thick[1] + abs(thick_mm) * into[1])
    wedge = corner.path((tip, inner, past))
    pen.area(wedge, Role.GIVEN_AREA)
    pen.line(wedge, Role.GIVEN)
