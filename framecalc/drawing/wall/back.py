"""The back of a frame, finished: its dust cover, bumpers, label, hangers and wire."""

from framecalc.drawing.dimension import Axis, DimensionSpan, draw_lanes, hanging_mm
from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.pen import Pen, circle
from framecalc.drawing.record import ACROSS_MM, Drawing, PaperDrawing
from framecalc.drawing.ring import Size, mitres, ring
from framecalc.drawing.sheet import Area, Sheet, View, panel
from framecalc.drawing.style import CAPITAL_RATIO, LETTER_MM, Role
from framecalc.drawing.wall.hangers import HangersView, draw_hung, draw_strips, placed_behind, read_hangers
from framecalc.plan import FramePlan
from framecalc.plan.figures import Figure, named_figure
from framecalc.records import Record
from framecalc.units import Unit

TALLEST_MM, FOOT_MM, HEAD_MM = 104.0, 8.0, 3.0
BUMPER_MM = 5.0
"""How far in from the outer edges the middle of a bumper is. Common practice, no source."""

FROM_EDGE_RATIO = 0.06
"""The label stands so far inside the cover, of the width of the frame, at the lower right."""


class BackView(Record):
    """What the drawing reads from a plan; without a dust cover what holds the package stays in sight."""

    hung: HangersView
    cover_mm: Size | None
    cover: tuple[Figure, Figure] | None
    label_mm: Size
    has_bumpers: bool

    @property
    def unit(self) -> Unit:
        """The unit of its sizes."""
        return self.hung.unit


def read_back(plan: FramePlan) -> BackView:
    """Read from a plan its back.

    Raises:
        FrameCalcError: its hangers cannot be placed.
    """
    cover_mm = plan.hand_over.cover_mm if plan.hand_over.has_cover else None
    label, step = plan.frame.hand_over.label, plan.step
    figures = (
        (
            named_figure("cover_across", "dust cover", cover_mm[0], step=step),
            named_figure("cover_up", "dust cover", cover_mm[1], step=step),
        )
        if cover_mm
        else None
    )
    return BackView(
        hung=read_hangers(plan),
        cover_mm=cover_mm,
        cover=figures,
        label_mm=(label.across.mm, label.up.mm),
        has_bumpers=plan.frame.hanging.bumper.mm > 0,
    )


def back_title(back: BackView) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    cover = f"dust cover {back.cover[0].text} × {back.cover[1].text} {back.unit}" if back.cover else "no dust cover"
    return f"Back of the frame: {cover}, label, bumpers, hangers ({back.hung.says})"


def back_up_mm(back: BackView) -> float:
    """The height of the panel that shows the frame as wide as it can."""
    sheet = panel(ACROSS_MM, TALLEST_MM)
    view = placed_behind(back.hung, sheet, sheet.room, lanes=1)
    below_mm = view.y(-back.hung.extent.below_mm) + sheet.lanes(1)
    more_mm = hanging_mm(_cover_up(back, view), sheet, below_mm=below_mm)
    return min(TALLEST_MM, back.hung.extent.up_mm * view.scale + HEAD_MM + sheet.lanes(1) + more_mm + FOOT_MM)


def draw_back(back: BackView, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the back; returns the scale, which a paper prints."""
    view, hung = placed_behind(back.hung, sheet, room, lanes=1), back.hung
    outside = ring(view, hung.shape, hung.outside_mm)
    pen.area(outside, Role.WOOD)
    pen.line(outside, Role.OUTLINE)
    inner_mm = back.cover_mm or hung.inside_mm
    inside = ring(view, hung.shape, inner_mm)
    pen.area(inside, Role.MAT)
    pen.line(inside, Role.EDGE)
    for mitre in mitres(view, hung.shape, hung.outside_mm, inner_mm):
        pen.line(mitre, Role.EDGE)
    if back.cover_mm:
        pen.line(ring(view, hung.shape, hung.inside_mm), Role.HIDDEN)
    draw_strips(hung, view, pen)
    _draw_label(back, view, pen)
    _draw_bumpers(back, view, pen)
    draw_hung(hung, view, pen)
    _draw_cover_sizes(back, sheet, view, pen)
    return view.scale


def _draw_label(back: BackView, view: View, pen: Pen) -> None:
    """The label, at the lower left as seen from behind, if the back has room for it."""
    (across_mm, up_mm), (wide_mm, high_mm) = back.hung.inside_mm, back.label_mm
    if wide_mm > across_mm * 0.8 or high_mm > up_mm * 0.8 or not back.hung.shape.is_rectangle:
        return
    inset_mm = FROM_EDGE_RATIO * across_mm
    left, low = inset_mm - across_mm / 2, inset_mm - up_mm / 2
    path = view.rectangle(left, low, left + wide_mm, low + high_mm)
    pen.area(path, Role.TAG)
    pen.line(path, Role.EDGE)
    if text_across_mm("label") + 1 <= wide_mm * view.scale and high_mm * view.scale > LETTER_MM + 1:
        at = view.x(left + wide_mm / 2), view.y(low + high_mm / 2) + LETTER_MM * CAPITAL_RATIO / 2
        pen.text("label", at, anchor="middle", role=Role.FAINT)


def _draw_bumpers(back: BackView, view: View, pen: Pen) -> None:
    """A bumper at either end of the lower edge."""
    if not (back.has_bumpers and back.hung.shape.is_rectangle):
        return
    half_mm, low_mm = back.hung.outside_mm[0] / 2 - 2 * BUMPER_MM, 2 * BUMPER_MM - back.hung.outside_mm[1] / 2
    for x_mm in (-half_mm, half_mm):
        spot = circle((view.x(x_mm), view.y(low_mm)), max(BUMPER_MM * view.scale, 0.8))
        pen.area(spot, Role.METAL)
        pen.line(spot, Role.EDGE)


def _cover_up(back: BackView, view: View) -> list[DimensionSpan]:
    """The height of the dust cover, if there is one."""
    if not (back.cover and back.cover_mm and back.hung.shape.is_rectangle):
        return []
    (across_mm, up_mm), (_, figure) = back.cover_mm, back.cover
    low_mm, left_mm = view.y(-up_mm / 2), view.x(-across_mm / 2)
    return [DimensionSpan(from_mm=view.y(up_mm / 2), to_mm=low_mm, feet_mm=(left_mm, left_mm), figure=figure)]


def _draw_cover_sizes(back: BackView, sheet: Sheet, view: View, pen: Pen) -> None:
    """The size of the dust cover, below it and beside it."""
    if not (back.cover and back.cover_mm and back.hung.shape.is_rectangle):
        return
    (across_mm, up_mm), (across, _) = back.cover_mm, back.cover
    low_mm, left_mm = view.y(-up_mm / 2), view.x(-across_mm / 2)
    below = DimensionSpan(
        from_mm=left_mm,
        to_mm=view.x(across_mm / 2),
        feet_mm=(low_mm, low_mm),
        figure=across,
        wordings=("dust cover {}", "{}"),
    )
    outer_low, outer_left = view.y(-back.hung.outside_mm[1] / 2), view.x(-back.hung.outside_mm[0] / 2)
    draw_lanes(pen, [below], axis=Axis.ACROSS, lanes_mm=[outer_low + sheet.lane(0)], toward=-1)
    draw_lanes(pen, _cover_up(back, view), axis=Axis.UP, lanes_mm=[outer_left - sheet.lane(0)], toward=1)


BACK = Drawing(
    name="back",
    read=read_back,
    title=back_title,
    draw=draw_back,
    up_mm=back_up_mm,
    paper=PaperDrawing(name="back", label="Back"),
)
