"""Splines (keys) let into a glued corner from the tip: how deep, how many, the blade's height, the blank, what shows.

The corner stands in a *cradle* on the saw, tip down, and the blade cuts across it, square to the mitre. The *depth* is
counted along the mitre from the tip. Behind the lip the rabbet's corner is the limit, within the lip the sight corner;
a spline at both heights respects the nearer one.
"""

from collections.abc import Sequence
from math import cos, sin, tan

from framecalc.corners.joints.clash import Prism, on_the_mitre
from framecalc.corners.joints.corner_stock import HAIR_MM, USUAL_WALL_MM, CornerStock, refuse_larger, room_across_mm
from framecalc.errors import ImpossibleJoint
from framecalc.findings import Finding, Severity
from framecalc.geometry.plane import Point, Rectangle, surround
from framecalc.limits import require_between, require_not_negative, require_positive
from framecalc.records import Record

USUAL_SHARE_RATIO = 0.25
"""Of the frame's thickness, for the thickest usual spline (common practice, no source)."""

USUAL_OVERHANG_MM = 3.0
"""What the blank stands out on every side, to be planed off (common practice, no source)."""

MOST_SPLINES = 9

SLED_CAUTIONS = (
    "The blade comes out of the cradle at the front and at the back: mark where, and keep both hands clear of it.",
    "Clamp the frame in the cradle, let the glue cure first, and use the guard as the saw's manual says.",
    "Stop the saw before the frame is lifted out; small frames are held by a clamp, never by hand.",
)
"""To be shown beside every number for the spline sled (common practice, no source)."""


class SplineBlank(Record):
    """A blank for one spline: its grain runs along its length, across the joint."""

    length_mm: float
    width_mm: float
    thickness_mm: float


class Spline(Record):
    """One spline: its height above the back, how deep it may go and goes, what is left and what shows."""

    height_mm: float
    kerf_mm: float
    depth_mm: float
    deepest_mm: float
    wall_mm: float
    nearest_mm: float
    back_mm: float
    face_mm: float
    visible_mm: float
    blade_mm: float
    glue_area_mm2: float
    blank: SplineBlank


def place_spline(
    stock: CornerStock,
    *,
    depth_mm: float,
    kerf_mm: float,
    height_mm: float,
    cradle_mm: float,
    wall_mm: float = USUAL_WALL_MM,
    overhang_mm: float = USUAL_OVERHANG_MM,
) -> Spline:
    """Place a spline and measure what it leaves.

    ``deepest = room / cos t − wall`` along the mitre, the room being the land behind the lip and the width within it;
    ``blade height = cradle + depth``; ``visible = depth / sin t`` on each outer edge; the bottom of the cut is
    ``2 · depth / tan t`` long.

    Args:
        depth_mm: along the mitre from the tip [mm], > 0.
        kerf_mm: thickness of cut and spline [mm], > 0.
        height_mm: of the middle of the spline above the back [mm].
        cradle_mm: from the table to the bottom of the cradle's V [mm], ≥ 0.
        wall_mm: wanted behind the spline, along the mitre [mm], > 0.
        overhang_mm: what the blank stands out [mm], ≥ 0.
    Raises:
        OutOfRange: a length is out of range, or the spline is not within the thickness.
        ImpossibleJoint: the spline is as thick as the member, or deeper than the mitre is long.
    Source: derived.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> spline = place_spline(stock, depth_mm=25, kerf_mm=3.2, height_mm=6, cradle_mm=20)
    >>> round(spline.deepest_mm, 2), round(spline.visible_mm, 2), spline.blade_mm
    (45.08, 35.36, 45)
    """
    require_positive(depth_mm=depth_mm, kerf_mm=kerf_mm, wall_mm=wall_mm)
    require_not_negative(cradle_mm=cradle_mm, overhang_mm=overhang_mm)
    refuse_larger("spline", kerf_mm, than="member's thickness", limit_mm=stock.thickness_mm, field="kerf_mm")
    refuse_larger("depth", depth_mm, than="mitre's length", limit_mm=stock.mitre_length_mm, field="depth_mm")
    require_between(kerf_mm / 2, stock.thickness_mm - kerf_mm / 2, height_mm=height_mm)
    low_mm, high_mm = height_mm - kerf_mm / 2, height_mm + kerf_mm / 2
    room_mm = room_across_mm(stock, low_mm=low_mm, high_mm=high_mm)[1] / cos(stock.half_turn_rad)
    footprint = Rectangle(left_mm=0.0, right_mm=depth_mm, low_mm=low_mm, high_mm=high_mm)
    around = surround(_open_at_the_tip(stock), footprint)
    return Spline(
        height_mm=height_mm,
        kerf_mm=kerf_mm,
        depth_mm=depth_mm,
        deepest_mm=room_mm - wall_mm,
        wall_mm=room_mm - depth_mm,
        nearest_mm=around.nearest_mm,
        back_mm=around.low_mm,
        face_mm=around.high_mm,
        visible_mm=depth_mm / sin(stock.half_turn_rad),
        blade_mm=cradle_mm + depth_mm,
        glue_area_mm2=2 * depth_mm**2 / tan(stock.half_turn_rad),
        blank=SplineBlank(
            length_mm=2 * depth_mm / tan(stock.half_turn_rad) + 2 * overhang_mm,
            width_mm=depth_mm + 2 * overhang_mm,
            thickness_mm=kerf_mm,
        ),
    )


def spread_heights_mm(stock: CornerStock, *, count: int, kerf_mm: float) -> tuple[float, ...]:
    """Spread splines evenly over the thickness: as much wood between two as behind the first and before the last.

    ``height_i = i · (t − N·k)/(N + 1) + (i − ½) · k``

    Args:
        count: N, 1 to 9.
        kerf_mm: k [mm], > 0.
    Raises:
        OutOfRange: count or kerf out of range.
        ImpossibleJoint: the splines together are as thick as the member.
    Source: derived.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> spread_heights_mm(stock, count=2, kerf_mm=4)
    (6.0, 14.0)
    """
    require_between(1, MOST_SPLINES, count=count)
    require_positive(kerf_mm=kerf_mm)
    between_mm = (stock.thickness_mm - count * kerf_mm) / (count + 1)
    if between_mm <= 0:
        raise ImpossibleJoint(
            f"Enter fewer than {count} splines of {{kerf}} in {{thickness}}.",
            field="count",
            lengths={"kerf": kerf_mm, "thickness": stock.thickness_mm},
        )
    return tuple(number * between_mm + (number - 0.5) * kerf_mm for number in range(1, count + 1))


def even_depth_mm(stock: CornerStock, heights_mm: Sequence[float], *, kerf_mm: float, wall_mm: float) -> float:
    """Find the depth that suits splines at all these heights with one setting of the blade.

    The least of their deepest.

    Args:
        heights_mm: of the middles [mm], at least one.
        kerf_mm, wall_mm: [mm], > 0.
    Raises:
        OutOfRange: a height lies outside the member.
        ImpossibleJoint: the wall wanted leaves no depth.
    Source: derived.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> round(even_depth_mm(stock, [6.0, 14.0], kerf_mm=3.2, wall_mm=3), 2)
    45.08
    """
    require_positive(kerf_mm=kerf_mm, wall_mm=wall_mm)
    rooms_mm = [
        room_across_mm(stock, low_mm=height_mm - kerf_mm / 2, high_mm=height_mm + kerf_mm / 2)[1]
        for height_mm in heights_mm
    ]
    depth_mm = min(rooms_mm) / cos(stock.half_turn_rad) - wall_mm
    if depth_mm <= 0:
        raise ImpossibleJoint("A wall of {wall} leaves no depth.", field="wall_mm", lengths={"wall": wall_mm})
    return depth_mm


def spline_prism(stock: CornerStock, spline: Spline) -> Prism:
    """Take a spline: the triangle at the tip, through its kerf.

    Source: derived.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> spline = place_spline(stock, depth_mm=20, kerf_mm=3.2, height_mm=6, cradle_mm=20)
    >>> [(round(x, 3) + 0, round(y, 3) + 0) for x, y in spline_prism(stock, spline).plan]
    [(0.0, 0.0), (28.284, 0.0), (0.0, 28.284)]
    """
    half_mm = spline.depth_mm / tan(stock.half_turn_rad)
    return Prism(
        name="spline",
        plan=(
            on_the_mitre(stock, 0.0, 0.0),
            on_the_mitre(stock, spline.depth_mm, -half_mm),
            on_the_mitre(stock, spline.depth_mm, half_mm),
        ),
        low_mm=spline.height_mm - spline.kerf_mm / 2,
        high_mm=spline.height_mm + spline.kerf_mm / 2,
    )


def spline_findings(stock: CornerStock, spline: Spline, *, wall_mm: float = USUAL_WALL_MM) -> tuple[Finding, ...]:
    """Report where a spline breaks into the rabbet or leaves too little, and when it is thicker than usual.

    Args:
        wall_mm: the least wall allowed [mm].
    Source: common practice, no source.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> deep = place_spline(stock, depth_mm=50, kerf_mm=3.2, height_mm=6, cradle_mm=20)
    >>> [finding.code for finding in spline_findings(stock, deep)]
    ['joints.spline-through']
    >>> spline_findings(stock, place_spline(stock, depth_mm=30, kerf_mm=3.2, height_mm=6, cradle_mm=20))
    ()
    """
    found = []
    if spline.wall_mm < 0:
        found.append(_through(spline))
    elif _least_mm(spline) < wall_mm - HAIR_MM:
        found.append(_thin(spline, wall_mm))
    if spline.kerf_mm > USUAL_SHARE_RATIO * stock.thickness_mm:
        found.append(_thick(spline, USUAL_SHARE_RATIO * stock.thickness_mm))
    return tuple(found)


def _open_at_the_tip(stock: CornerStock) -> tuple[Point, ...]:
    """The mitre face as a spline meets it: without an outer edge, through which it is let in."""
    return tuple((x or -stock.mitre_length_mm, y) for x, y in stock.mitre_shape)


def _least_mm(spline: Spline) -> float:
    return min(spline.wall_mm, spline.nearest_mm, spline.back_mm, spline.face_mm)


def _through(spline: Spline) -> Finding:
    return Finding(
        code="joints.spline-through",
        severity=Severity.STOP,
        sentence="The spline comes through inside, by {past}: cut it {deepest} deep at most.",
        why="It would show at the sight edge or stand in the rabbet.",
        source="derived",
        argument="spline_depth_mm",
        lengths={"past": -spline.wall_mm, "deepest": spline.deepest_mm},
    )


def _thin(spline: Spline, wall_mm: float) -> Finding:
    return Finding(
        code="joints.spline-thin",
        severity=Severity.WARN,
        sentence="The spline leaves {wall} of wood where it is thinnest; {wanted} is usual.",
        why="A thin wall breaks out when the spline is cut or tapped in.",
        source="usual practice",
        argument="spline_depth_mm",
        lengths={"wall": _least_mm(spline), "wanted": wall_mm},
    )


def _thick(spline: Spline, usual_mm: float) -> Finding:
    return Finding(
        code="joints.spline-thick",
        severity=Severity.NOTE,
        sentence="The spline is {kerf} thick; up to a quarter of the frame, {usual}, is usual.",
        why="A thick spline weakens the corner and shows more than it needs to.",
        source="usual practice",
        argument="spline_kerf_mm",
        lengths={"kerf": spline.kerf_mm, "usual": usual_mm},
    )
