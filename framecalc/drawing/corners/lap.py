"""A half-lap mitre or a bridle as it is cut: a member of each pair, from the front and from its outer edge.

Left and right run through in one layer, and show there beyond their mitres; top and bottom are cut back between them.
The members are broken off in the middle, so their lengths are figures, not drawn.
"""

from framecalc.corners.joints.laps import LapLayer
from framecalc.drawing.breaks import break_line
from framecalc.drawing.dimension import Axis, DimensionSpan, draw_beside, draw_lanes
from framecalc.drawing.pen import Pen, run
from framecalc.drawing.record import ACROSS_MM, Drawing, PaperDrawing
from framecalc.drawing.sheet import Area, Sheet, fit_scale, panel
from framecalc.drawing.style import Role
from framecalc.errors import ImpossibleJoint
from framecalc.geometry.outline import Point
from framecalc.plan import FramePlan
from framecalc.plan.figures import Figure, fine_figure
from framecalc.records import Record
from framecalc.units import Unit
from framecalc.words import Words, say, worded

FRONT_MM, EDGE_MM = 13.0, 10.0
PAPER_FRONT_MM, PAPER_EDGE_MM = 45.0, 30.0
"""How wide a member is drawn at most from the front, and from its outer edge; on a panel and on paper."""

TITLE_MM, BETWEEN_MM, BREAK_MM = 5.2, 2.4, 2.0
"""Room for the name of a pair, between its two views, and on each side of the break."""

LEFT_MM, RIGHT_MM, BAR_MM = 17.0, 17.0, 7.0
"""Room for the heights at both ends, and for the scale bar."""


class LapView(Record):
    """What the drawing reads from a plan."""

    kind: str
    lapped: LapLayer
    face_width_mm: float
    thickness_mm: float
    unit: Unit
    words: Words
    name: str

    @property
    def has_layer_before(self) -> bool:
        """Whether there is wood behind the layer too: a bridle."""
        return self.lapped.low_mm > 0

    def figure(self, name: str, length_mm: float) -> Figure:
        """A size of this drawing."""
        return fine_figure(f"lap_{name}", name.replace("_", " "), length_mm, unit=self.unit)


class _Member(Record):
    """One member on its sheet: its two ends, where its views begin, the scale."""

    left_mm: float
    right_mm: float
    front_mm: float
    edge_mm: float
    scale: float

    @property
    def middle_mm(self) -> float:
        return (self.left_mm + self.right_mm) / 2

    def at(self, side: int, in_mm: float, beside_mm: float) -> Point:
        """A point by its distance in from the left (−1) or right (+1) end and below the long edge, as drawn [mm]."""
        x_mm = self.left_mm + in_mm if side < 0 else self.right_mm - in_mm
        return x_mm, beside_mm

    def reach_mm(self) -> float:
        return self.middle_mm - BREAK_MM - self.left_mm


def read_lap(plan: FramePlan) -> LapView:
    """Read from a plan how its members lap.

    Raises:
        ImpossibleJoint: they do not.
    """
    joint = plan.corners.joint
    if joint.lapped is None:
        raise ImpossibleJoint("Choose a joint in which members lap, such as a half-lap.", field="joint")
    return LapView(
        kind=joint.kind,
        lapped=joint.lapped,
        face_width_mm=joint.stock.face_width_mm,
        thickness_mm=joint.stock.thickness_mm,
        unit=plan.unit,
        words=plan.project.shop.words,
        name=plan.frame.name,
    )


def lap_title(view: LapView) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    says = "The members of {name} cut for a {kind}: left and right run through, top and bottom are cut back"
    return say(says, view.words, name=view.name, kind=worded(view.kind))


def lap_up_mm(view: LapView) -> float:
    """The height of a panel for both pairs."""
    sheet = panel(ACROSS_MM, 2 * ACROSS_MM)
    return 2 * _pair_mm(view, sheet, _scale(view, sheet)) + BAR_MM


def draw_lap(view: LapView, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw a member of each pair; returns the scale of what is cut."""
    scale = _scale(view, sheet)
    for number, runs_through in enumerate((True, False)):
        top_mm = room.top_mm + number * _pair_mm(view, sheet, scale)
        front_mm = top_mm + TITLE_MM + sheet.lanes_above(1)
        member = _Member(
            left_mm=room.left_mm + LEFT_MM,
            right_mm=room.right_mm - RIGHT_MM,
            front_mm=front_mm,
            edge_mm=front_mm + view.face_width_mm * scale + BETWEEN_MM,
            scale=scale,
        )
        pen.text(_pair_name(view, runs_through=runs_through), (room.left_mm + 1, top_mm + 3.4), role=Role.STRONG)
        for side in (-1, 1):
            _draw_front(view, member, pen, side, runs_through=runs_through)
            _draw_edge(view, member, pen, side, runs_through=runs_through)
        _draw_sizes(view, member, sheet, pen, runs_through=runs_through)
    return scale


def _scale(view: LapView, sheet: Sheet) -> float:
    if not sheet.is_paper:
        return min(FRONT_MM / view.face_width_mm, EDGE_MM / view.thickness_mm)
    largest = min(1.0, PAPER_FRONT_MM / view.face_width_mm, PAPER_EDGE_MM / view.thickness_mm)
    return fit_scale(largest, sheet=sheet, unit=view.unit)


def _pair_mm(view: LapView, sheet: Sheet, scale: float) -> float:
    """The height of one pair: its name, a lane above, both views, a lane below."""
    views_mm = (view.face_width_mm + view.thickness_mm) * scale + BETWEEN_MM
    return TITLE_MM + sheet.lanes_above(1) + views_mm + sheet.lanes(1) + 3.0


def _pair_name(view: LapView, *, runs_through: bool) -> str:
    if view.has_layer_before:
        return "left and right: tenons" if runs_through else "top and bottom: slots"
    return "left and right: through behind" if runs_through else "top and bottom: cut back behind"


def _draw_front(view: LapView, member: _Member, pen: Pen, side: int, *, runs_through: bool) -> None:
    """From the front: mitred; what runs through shows beyond the mitre, what is cut back lies hidden behind."""
    width_mm, lap_mm, reach_mm = (
        view.face_width_mm * member.scale,
        view.lapped.reach_mm * member.scale,
        member.reach_mm(),
    )
    top_mm = member.front_mm

    def place(in_mm: float, below_mm: float) -> Point:
        return member.at(side, in_mm, top_mm + below_mm)

    if runs_through:
        end = run([place(0, 0), place(lap_mm, lap_mm), place(0, lap_mm)], closed=True)
        pen.area(end, Role.COVERED)
        pen.line(end, Role.EDGE)
    pen.area(
        run([place(0, 0), place(reach_mm, 0), place(reach_mm, width_mm), place(width_mm, width_mm)], closed=True),
        Role.WOOD,
    )
    pen.line(run([place(reach_mm, 0), place(0, 0), place(width_mm, width_mm), place(reach_mm, width_mm)]), Role.OUTLINE)
    if not runs_through:
        pen.line(run([place(lap_mm, 0), place(lap_mm, lap_mm), place(reach_mm, lap_mm)]), Role.HIDDEN)
    pen.line(break_line(place(reach_mm, 0), place(reach_mm, width_mm)), Role.BREAK)


def _draw_edge(view: LapView, member: _Member, pen: Pen, side: int, *, runs_through: bool) -> None:
    """From the outer edge, the face up: the layer runs through to the end, or is cut back to its shoulder."""
    scale, lapped = member.scale, view.lapped
    base_mm, reach_mm, lap_mm = member.edge_mm + view.thickness_mm * scale, member.reach_mm(), lapped.reach_mm * scale

    def place(in_mm: float, up_mm: float) -> Point:
        return member.at(side, in_mm, base_mm - up_mm * scale)

    low_mm, high_mm, top_mm = lapped.low_mm, lapped.high_mm, view.thickness_mm
    layer = [place(0, low_mm), place(lap_mm, low_mm), place(lap_mm, high_mm), place(0, high_mm)]
    around = [place(reach_mm, top_mm), place(0, top_mm), place(0, high_mm)]
    around += [layer[2], layer[1]] if not runs_through else []
    around += [place(0, low_mm), place(0, 0)] if low_mm or runs_through else [place(lap_mm, 0)]
    around.append(place(reach_mm, 0))
    pen.area(run(around, closed=True), Role.WOOD)
    if runs_through:
        pen.area(run(layer, closed=True), Role.COVERED)
        pen.line(run([layer[1], layer[0]]) + run([layer[3], layer[2]]), Role.EDGE)
    pen.line(run(around), Role.OUTLINE)
    pen.line(break_line(place(reach_mm, 0), place(reach_mm, top_mm)), Role.BREAK)


def _draw_sizes(view: LapView, member: _Member, sheet: Sheet, pen: Pen, *, runs_through: bool) -> None:
    lapped, scale = view.lapped, member.scale
    base_mm, lap_mm = member.edge_mm + view.thickness_mm * scale, lapped.reach_mm * scale
    long_mm = lapped.upright_long_mm if runs_through else lapped.level_long_mm
    above = DimensionSpan(
        from_mm=member.left_mm,
        to_mm=member.right_mm,
        feet_mm=(member.front_mm, member.front_mm),
        figure=view.figure("through" if runs_through else "front", long_mm),
        wordings=("long edge {}", "{}"),
    )
    draw_lanes(pen, [above], axis=Axis.ACROSS, lanes_mm=[member.front_mm - sheet.lane_above(0)], toward=1)
    below = _below(view, member, base_mm, lap_mm, runs_through=runs_through)
    draw_lanes(pen, [below], axis=Axis.ACROSS, lanes_mm=[base_mm + sheet.lane(0)], toward=1)
    _draw_heights(view, member, sheet, pen, base_mm)


def _below(view: LapView, member: _Member, base_mm: float, lap_mm: float, *, runs_through: bool) -> DimensionSpan:
    """The length of the layer from the end, or between its shoulders."""
    if runs_through:
        return DimensionSpan(
            from_mm=member.left_mm,
            to_mm=member.left_mm + lap_mm,
            feet_mm=(base_mm, base_mm),
            figure=view.figure("reach", view.lapped.reach_mm),
            wordings=("reach {}", "{}"),
            beyond="reach {}",
        )
    return DimensionSpan(
        from_mm=member.left_mm + lap_mm,
        to_mm=member.right_mm - lap_mm,
        feet_mm=(base_mm, base_mm),
        figure=view.figure("between", view.lapped.between_mm),
        wordings=("between shoulders {}", "{}"),
    )


def _draw_heights(view: LapView, member: _Member, sheet: Sheet, pen: Pen, base_mm: float) -> None:
    """Heights from the back: of the layer's face on the left, of its back on the right where it has wood behind."""
    for up_mm, end_mm, toward, name in (
        (view.lapped.high_mm, member.left_mm, -1, "high"),
        (view.lapped.low_mm, member.right_mm, 1, "low"),
    ):
        if up_mm:
            span = DimensionSpan(
                from_mm=base_mm - up_mm * member.scale,
                to_mm=base_mm,
                feet_mm=(end_mm, end_mm),
                figure=view.figure(name, up_mm),
            )
            draw_beside(pen, span, lane_mm=end_mm + toward * sheet.lane(0) * 0.8, toward=toward, over_short=False)


LAP = Drawing(
    name="lap",
    read=read_lap,
    title=lap_title,
    draw=draw_lap,
    up_mm=lap_up_mm,
    paper=PaperDrawing(name="lap", label="Lapped joint"),
)
