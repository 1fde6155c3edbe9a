"""What all corner joints share: the stock at the corner, the walls that a joint leaves, and when they are too thin.

A joint is seen in the member's *section*: x from the outer edge (0) to the sight edge, y from the back (0) to the face.
Whatever is cut into a member and keeps to it along its length shows there as a rectangle, its *footprint*. The *walls*
are the solid around the footprint: the *outer* wall to the outer edge, the *inner* one to the rabbet wall (or to the
sight edge, in the lip), the *back* wall (to the rabbet floor, over the rabbet) and the *face* wall.
"""

from collections.abc import Sequence
from math import cos, radians

from framecalc.errors import ImpossibleJoint, ImpossibleSection
from framecalc.evidence import USUAL_PRACTICE
from framecalc.findings import Finding, Severity
from framecalc.geometry.plane import Point, Rectangle, shape_area_mm2, surround
from framecalc.limits import require_between, require_not_negative, require_positive
from framecalc.records import Record
from framecalc.sizes.chain import require_land
from framecalc.sizes.polygons import half_turn_deg

USUAL_WALL_MM = 3.0
"""The least wood left between a joint and the open (common practice, no source: at least 3 mm, or 1/8 in)."""

HAIR_MM = 0.01
"""A wall short of what is wanted by less than this is as wanted. Ours, no source."""


class CornerStock(Record):
    """The stock of two members that meet: its section, and the half turn of the corner. Made by `corner_stock`."""

    face_width_mm: float
    thickness_mm: float
    rabbet_width_mm: float
    rabbet_depth_mm: float
    half_turn_deg: float
    shape: tuple[Point, ...]

    @property
    def land_mm(self) -> float:
        """What the rabbet leaves of the width."""
        return self.face_width_mm - self.rabbet_width_mm

    @property
    def half_turn_rad(self) -> float:
        """The half turn, for formulas."""
        return radians(self.half_turn_deg)

    @property
    def mitre_length_mm(self) -> float:
        """From the tip to the short point, in the mitre."""
        return self.face_width_mm / cos(self.half_turn_rad)

    @property
    def mitre_shape(self) -> tuple[Point, ...]:
        """The mitre face: the section, stretched along the mitre."""
        return tuple((x / cos(self.half_turn_rad), y) for x, y in self.shape)

    @property
    def mitre_area_mm2(self) -> float:
        """The area of the mitre face."""
        return shape_area_mm2(self.mitre_shape)


class Walls(Record):
    """The solid around a footprint, across the member, and what is wanted. Negative: it breaks out, by so much."""

    outer_mm: float
    inner_mm: float
    back_mm: float
    face_mm: float
    nearest_mm: float
    wanted_mm: float

    @property
    def least_mm(self) -> float:
        """The thinnest of them."""
        return min(self.outer_mm, self.inner_mm, self.back_mm, self.face_mm, self.nearest_mm)

    @property
    def sound(self) -> bool:
        """Whether every wall is as thick as wanted."""
        return self.least_mm >= self.wanted_mm - HAIR_MM


def corner_stock(
    *,
    face_width_mm: float,
    thickness_mm: float,
    rabbet_width_mm: float,
    rabbet_depth_mm: float,
    sides: int = 4,
    shape: Sequence[Point] = (),
) -> CornerStock:
    """Describe the stock at a corner; without a shape it is the blank with its rabbet.

    ``(0,0) (w−r,0) (w−r,d) (w,d) (w,t) (0,t)``

    Args:
        face_width_mm, thickness_mm: w and t [mm], > 0.
        rabbet_width_mm: r [mm], 0 ≤ r < w.
        rabbet_depth_mm: d [mm], 0 ≤ d < t.
        sides: 3 to 24.
        shape: the section as milled, corner by corner, where the face has a profile.
    Raises:
        OutOfRange, ImpossibleSize, ImpossibleSection: a length is out of range, or the rabbet takes all.
    Source: derived.

    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> round(stock.mitre_area_mm2, 1)
    1029.5
    """
    require_positive(face_width_mm=face_width_mm, thickness_mm=thickness_mm)
    require_not_negative(rabbet_depth_mm=rabbet_depth_mm)
    require_land(rabbet_width_mm=rabbet_width_mm, face_width_mm=face_width_mm)
    if rabbet_depth_mm >= thickness_mm:
        raise ImpossibleSection(
            "A rabbet {depth} deep leaves no lip on a member {thickness} thick.",
            field="rabbet_depth_mm",
            lengths={"depth": rabbet_depth_mm, "thickness": thickness_mm},
        )
    return CornerStock(
        face_width_mm=face_width_mm,
        thickness_mm=thickness_mm,
        rabbet_width_mm=rabbet_width_mm,
        rabbet_depth_mm=rabbet_depth_mm,
        half_turn_deg=half_turn_deg(sides),
        shape=tuple(shape) or _blank(face_width_mm, thickness_mm, rabbet_width_mm, rabbet_depth_mm),
    )


def walls_around(stock: CornerStock, footprint: Rectangle, *, wanted_mm: float) -> Walls:
    """Measure the walls around a footprint in the section as it is milled.

    Args:
        footprint: what the joint takes of the section.
        wanted_mm: the least wall allowed [mm], > 0.
    Raises:
        OutOfRange: wall out of range.
    Source: derived.

    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> walls = walls_around(stock, Rectangle(left_mm=8, right_mm=28, low_mm=7, high_mm=13), wanted_mm=3)
    >>> walls.outer_mm, walls.inner_mm, walls.back_mm, walls.face_mm, walls.sound
    (8.0, 6.0, 7.0, 7.0, True)
    """
    require_positive(wanted_mm=wanted_mm)
    around = surround(stock.shape, footprint)
    return Walls(
        outer_mm=around.left_mm,
        inner_mm=around.right_mm,
        back_mm=around.low_mm,
        face_mm=around.high_mm,
        nearest_mm=around.nearest_mm,
        wanted_mm=wanted_mm,
    )


def room_across_mm(stock: CornerStock, *, low_mm: float, high_mm: float) -> tuple[float, float]:
    """Find the solid from the outer edge inward at some heights: where it begins and where it ends, from the outside.

    Behind the lip it ends at the rabbet wall, in the lip at the sight edge; a profile may take more.

    Args:
        low_mm, high_mm: heights above the back [mm], 0 ≤ low < high ≤ t.
    Raises:
        OutOfRange: heights outside the member.
    Source: derived.

    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> room_across_mm(stock, low_mm=7, high_mm=13), room_across_mm(stock, low_mm=13, high_mm=18)
    ((0.0, 34.0), (0.0, 40.0))
    """
    require_between(0, stock.thickness_mm, low_mm=low_mm, high_mm=high_mm)
    middle = stock.land_mm / 2
    around = surround(stock.shape, Rectangle(left_mm=middle, right_mm=middle, low_mm=low_mm, high_mm=high_mm))
    return middle - around.left_mm, middle + around.right_mm


def refuse_larger(what: str, value_mm: float, *, than: str, limit_mm: float, field: str) -> None:
    """Refuse a joint that is as large as its member, or larger.

    Args:
        what, than: the two lengths in words, for the sentence.
        value_mm, limit_mm: the two lengths [mm].
        field: the argument at fault.
    Raises:
        ImpossibleJoint: the value is not less than the limit.
    Source: derived.

    >>> refuse_larger("slot", 6, than="member", limit_mm=20, field="thickness_mm")
    """
    if value_mm >= limit_mm:
        raise ImpossibleJoint(
            f"Enter a {what} under {{limit}}, the {than}, not {{value}}.",
            field=field,
            lengths={"value": value_mm, "limit": limit_mm},
        )


def wall_findings(walls: Walls, *, joint: str, across: str, up: str) -> tuple[Finding, ...]:
    """Report where a joint breaks out; where it does not, which walls are too thin.

    Args:
        joint: what it is called in the sentence.
        across, up: the arguments that move it across the member and up from the back.
    Source: common practice, no source (the walls wanted).

    >>> walls = Walls(outer_mm=-1, inner_mm=6, back_mm=7, face_mm=2, nearest_mm=0, wanted_mm=3)
    >>> [finding.code for finding in wall_findings(walls, joint="slot", across="from_tip_mm", up="height_mm")]
    ['joints.breaks-out']
    """
    sides = (
        ("outer side", walls.outer_mm, across),
        ("inner side", walls.inner_mm, across),
        ("back", walls.back_mm, up),
        ("face", walls.face_mm, up),
    )
    enough_mm = 0.0 if walls.least_mm < 0 else walls.wanted_mm - HAIR_MM
    found = [
        _wall_finding(joint, side, wall_mm, walls.wanted_mm, argument)
        for side, wall_mm, argument in sides
        if wall_mm < enough_mm
    ]
    if not found and not walls.sound:
        found = [_wall_finding(joint, "corner of the rabbet", walls.nearest_mm, walls.wanted_mm, across)]
    return tuple(found)


def _wall_finding(joint: str, side: str, wall_mm: float, wanted_mm: float, argument: str) -> Finding:
    out = wall_mm < 0
    return Finding(
        code="joints.breaks-out" if out else "joints.wall-thin",
        severity=Severity.STOP if out else Severity.WARN,
        sentence=(
            f"The {joint} breaks out at the {side}, by {{wall}}."
            if out
            else f"The {joint} leaves {{wall}} of wood to the {side}; {{wanted}} is usual."
        ),
        why="A thin wall swells, shows through or breaks when the joint is glued.",
        source=USUAL_PRACTICE,
        argument=argument,
        lengths={"wall": abs(wall_mm), "wanted": wanted_mm},
    )


def _blank(
    face_width_mm: float, thickness_mm: float, rabbet_width_mm: float, rabbet_depth_mm: float
) -> tuple[Point, ...]:
    land_mm = face_width_mm - rabbet_width_mm
    if not rabbet_width_mm or not rabbet_depth_mm:
        return (0.0, 0.0), (face_width_mm, 0.0), (face_width_mm, thickness_mm), (0.0, thickness_mm)
    return (
        (0.0, 0.0),
        (land_mm, 0.0),
        (land_mm, rabbet_depth_mm),
        (face_width_mm, rabbet_depth_mm),
        (face_width_mm, thickness_mm),
        (0.0, thickness_mm),
    )
