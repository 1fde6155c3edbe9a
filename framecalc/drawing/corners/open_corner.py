"""A corner whose mitre stands open, magnified: two members, the wedge of light between them, the step at their tips.

Local places are measured from the corner's own tip, along the level member and square to it, inward. What is said of
the level member holds of the other, across the mitre.
"""

from collections.abc import Sequence
from math import cos, radians, sin, tan

from framecalc.drawing.pen import Pen, run
from framecalc.drawing.style import Role
from framecalc.geometry.outline import Point
from framecalc.records import Record

FACTORS = (20, 10, 5, 2, 1, 0.5, 0.2, 0.1)
"""By how much gaps and steps are magnified, or made smaller where a side is far too long: the first that fits."""


class OpenCorner(Record):
    """One corner on the sheet: its tip, the inward direction, the drawn width and length of its members [mm].

    Attributes:
        mitre_deg: between the mitre and the outer edge of a member; 45 in a corner of a rectangle.
    """

    tip: Point
    toward: tuple[int, int]
    width_mm: float
    reach_mm: float
    mitre_deg: float = 45.0

    @property
    def inner(self) -> Point:
        """The local place where the inner edges meet."""
        return self.width_mm / tan(radians(self.mitre_deg)), self.width_mm

    def across_mitre(self, place: Point) -> Point:
        """The local place that lies on the other member as this one lies on its own."""
        turn_rad, (along_mm, in_mm) = radians(2 * self.mitre_deg), place
        return along_mm * cos(turn_rad) + in_mm * sin(turn_rad), along_mm * sin(turn_rad) - in_mm * cos(turn_rad)

    def at(self, along_mm: float, in_mm: float) -> Point:
        """A local place on the sheet."""
        return self.tip[0] + self.toward[0] * along_mm, self.tip[1] + self.toward[1] * in_mm

    def path(self, places: Sequence[Point], *, closed: bool = True) -> str:
        """Path data of a run of local places."""
        return run([self.at(*place) for place in places], closed=closed)


class MitreGap(Record):
    """How far the mitre stands open at both its ends, and the level member's tip proud of the upright one [mm]."""

    outside_mm: float
    inside_mm: float
    level_proud_mm: float = 0.0

    def widest_mm(self, *, mitre_deg: float = 45.0) -> float:
        """The room that the gap takes along a member."""
        return max(self.outside_mm, self.inside_mm) / sin(radians(mitre_deg))

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

    A gap square to the joint moves the level face along its member by the gap over the sine of the mitre's angle. A
    shaved end is marked with a wedge: positive where the wood comes off at the inside, negative at the tip, as thick as
    it is drawn [mm].
    """
    proud, mitre_rad = opening.level_proud_mm, radians(corner.mitre_deg)
    outside, inside = (
        gap_mm / sin(mitre_rad) - proud / tan(mitre_rad) for gap_mm in (opening.outside_mm, opening.inside_mm)
    )
    reach, width, inner = corner.reach_mm, corner.width_mm, corner.inner
    level = ((outside, -proud), (reach, -proud), (reach, width - proud), (inner[0] + inside, width - proud))
    upright = tuple(map(corner.across_mitre, ((0.0, 0.0), inner, (reach, width), (reach, 0.0))))
    for member in (level, upright):
        pen.area(corner.path(member), Role.WOOD)
        pen.line(corner.path(member), Role.EDGE)
    _mark(pen, corner, level[0], level[3], thick_mm=level_shaved, into=(1.0, 0.0))
    _mark(pen, corner, upright[0], upright[1], thick_mm=upright_shaved, into=corner.across_mitre((1.0, 0.0)))


def _mark(pen: Pen, corner: OpenCorner, tip: Point, inner: Point, *, thick_mm: float, into: Point) -> None:
    """A wedge of wood to come off a face, thick at its inner end or at its tip."""
    if not thick_mm:
        return
    thick = inner if thick_mm > 0 else tip
    past = (thick[0] + abs(thick_mm) * into[0], thick[1] + abs(thick_mm) * into[1])
    wedge = corner.path((tip, inner, past))
    pen.area(wedge, Role.GIVEN_AREA)
    pen.line(wedge, Role.GIVEN)
