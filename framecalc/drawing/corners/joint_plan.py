"""The corner from the front with its joint: the slot or spline across the mitre, and the walls that it leaves.

The tip is up on the left; the first member runs to the right, the second down, or aslant in a polygon: it is the first
one's image in the mitre.
"""

from collections.abc import Sequence
from math import cos, radians, sin, tan

from framecalc.drawing.breaks import break_line
from framecalc.drawing.corners.joint_view import JOINT_PAPER, DrawnSize, JointView, read_joint
from framecalc.drawing.dimension import Axis, DimensionSpan, draw_beside, draw_lanes
from framecalc.drawing.pen import Pen, run
from framecalc.drawing.record import ACROSS_MM, Drawing
from framecalc.drawing.sheet import Area, Sheet, fit_scale, panel
from framecalc.drawing.style import Role
from framecalc.geometry.plane import Point
from framecalc.records import Record
from framecalc.words import say, worded

PAST_RATIO = 0.35
"""How far the members run past what is cut into them, in parts of the face width."""

MOST_UP_MM, BAR_MM = 78.0, 8.4
"""How tall a panel of the page is at most, and what its scale bar takes."""

FULL_SIZE = 1.0
_ABOVE_MM, _BESIDE_MM = 7.4, 20.0
"""Room over the corner for what shows on its edge, and beside it for the walls."""


class _Corner(Record):
    """The corner on its sheet: its tip, the scale, the drawn length of its members."""

    left_mm: float
    top_mm: float
    scale: float
    reach_mm: float

    def at(self, point: Point) -> Point:
        """A point of the corner: so far along the first member's outer edge, so far in from it."""
        return self.left_mm + point[0] * self.scale, self.top_mm + point[1] * self.scale

    def path(self, points: Sequence[Point], *, closed: bool = False) -> str:
        """Path data of a run of points of the corner."""
        return run(map(self.at, points), closed=closed)


def joint_plan_title(joint: JointView) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    cut = ", ".join(dict.fromkeys(hole.name for hole in joint.holes))
    return say("Corner of {name} from the front, with {cut}", joint.words, name=joint.name, cut=worded(cut))


def plan_up_mm(joint: JointView) -> float:
    """The height of a panel that shows the corner across its full width."""
    tall = panel(ACROSS_MM, MOST_UP_MM)
    corner = _placed(joint, tall, tall.room)
    member = _member(joint, corner.reach_mm)
    low_mm = max(corner.at(point)[1] for point in (*member, *_image(joint, member), *_cut(joint)))
    return low_mm + BAR_MM


def draw_joint_plan(joint: JointView, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the corner; returns the scale."""
    corner = _placed(joint, sheet, room)
    for member in (_member(joint, corner.reach_mm), _image(joint, _member(joint, corner.reach_mm))):
        pen.area(corner.path(member, closed=True), Role.WOOD)
    for hole in joint.holes:
        pen.area(corner.path(hole.plan, closed=True), Role.SHADOW)
        pen.line(corner.path(hole.plan, closed=True), Role.TROUBLE if hole.trouble else Role.HIDDEN)
    _draw_edges(joint, corner, pen)
    _draw_sizes(joint, corner, sheet, pen)
    return corner.scale


def _placed(joint: JointView, sheet: Sheet, room: Area) -> _Corner:
    reach_mm = _reach_mm(joint)
    member = _member(joint, reach_mm)
    shown = (*member, *_image(joint, member), *_cut(joint))
    left, right = min(x for x, _ in shown), max(x for x, _ in shown)
    high, low = min(y for _, y in shown), max(y for _, y in shown)
    above_mm = _ABOVE_MM if joint.outer_edge or joint.across else 1.0
    largest = min((room.across_mm - _BESIDE_MM - 3) / (right - left), (room.up_mm - above_mm - 3) / (low - high))
    scale = fit_scale(min(largest, FULL_SIZE) if sheet.is_paper else largest, sheet=sheet, unit=joint.unit)
    return _Corner(
        left_mm=room.left_mm + 2 - left * scale,
        top_mm=room.top_mm + above_mm - high * scale,
        scale=scale,
        reach_mm=reach_mm,
    )


def _reach_mm(joint: JointView) -> float:
    """The drawn length of the members that shows everything cut into them."""
    inner_mm = _inner(joint, joint.face_width_mm)[0]
    return max(inner_mm, *(x for x, _ in _cut(joint))) + PAST_RATIO * joint.face_width_mm


def _cut(joint: JointView) -> list[Point]:
    """The corners of every cut in the two members, and their images: a pin goes into either."""
    return [point for hole in joint.holes for point in (*hole.plan, *_image(joint, hole.plan))]


def _member(joint: JointView, reach_mm: float) -> tuple[Point, ...]:
    width_mm = joint.face_width_mm
    return (0.0, 0.0), (reach_mm, 0.0), (reach_mm, width_mm), _inner(joint, width_mm)


def _inner(joint: JointView, in_mm: float) -> Point:
    """The point of the mitre that lies so far in from the outer edges."""
    return in_mm * tan(radians(joint.half_turn_deg)), in_mm


def _image(joint: JointView, points: Sequence[Point]) -> tuple[Point, ...]:
    """Points mirrored in the mitre: from one member into the other."""
    turn_rad = radians(joint.half_turn_deg)
    along = (sin(turn_rad), cos(turn_rad))
    shares = [2 * (x * along[0] + y * along[1]) for x, y in points]
    return tuple((share * along[0] - x, share * along[1] - y) for share, (x, y) in zip(shares, points, strict=True))


def _draw_edges(joint: JointView, corner: _Corner, pen: Pen) -> None:
    """Outer edges, sight edges, rabbet walls behind, the mitre, and where the members are broken off."""
    for in_mm, role in ((0.0, Role.OUTLINE), (joint.face_width_mm, Role.OUTLINE), (joint.land_mm, Role.HIDDEN)):
        edge = (_inner(joint, in_mm), (corner.reach_mm, in_mm))
        pen.line(corner.path(edge), role)
        pen.line(corner.path(_image(joint, edge)), role)
    end = ((corner.reach_mm, 0.0), (corner.reach_mm, joint.face_width_mm))
    for start, finish in (end, _image(joint, end)):
        pen.line(break_line(corner.at(start), corner.at(finish)), Role.BREAK)
    pen.line(corner.path(((0.0, 0.0), _inner(joint, joint.face_width_mm))), Role.MITRE)


def _draw_sizes(joint: JointView, corner: _Corner, sheet: Sheet, pen: Pen) -> None:
    right_mm = corner.at((corner.reach_mm, 0.0))[0] + 1.4
    for size in joint.across:
        draw_beside(pen, _wall(size, corner, right_mm), lane_mm=right_mm + sheet.lane(0) / 2, toward=1)
    outer = [_outer_edge(size, corner) for size in joint.outer_edge]
    if outer:
        draw_lanes(pen, outer, axis=Axis.ACROSS, lanes_mm=[corner.top_mm - sheet.lane_above(0)], toward=1)


def _wall(size: DrawnSize, corner: _Corner, right_mm: float) -> DimensionSpan:
    return DimensionSpan(
        from_mm=corner.at((0.0, size.from_mm))[1],
        to_mm=corner.at((0.0, size.to_mm))[1],
        feet_mm=(right_mm, right_mm),
        figure=size.figure,
    )


def _outer_edge(size: DrawnSize, corner: _Corner) -> DimensionSpan:
    return DimensionSpan(
        from_mm=corner.at((size.from_mm, 0.0))[0],
        to_mm=corner.at((size.to_mm, 0.0))[0],
        feet_mm=(corner.top_mm, corner.top_mm),
        figure=size.figure,
        wordings=(f"{size.word} {{}}", "{}"),
        beyond=f"{size.word} {{}}",
    )


PLAN = Drawing(
    name="plan", read=read_joint, title=joint_plan_title, draw=draw_joint_plan, up_mm=plan_up_mm, paper=JOINT_PAPER
)
