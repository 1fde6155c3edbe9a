"""A regular frame set out from the front: outside, sight edge, rabbet size, mitres, sizes of a member and the flats."""

from framecalc.corners.angles import write_angle
from framecalc.drawing.dimension import Axis, DimensionSpan, draw_lanes
from framecalc.drawing.pen import Pen, run
from framecalc.drawing.record import Drawing, PaperDrawing
from framecalc.drawing.sheet import Area, Sheet, fit_scale
from framecalc.drawing.style import LETTER_MM, Role
from framecalc.errors import ImpossibleSize
from framecalc.geometry.outline import Point
from framecalc.plan import FramePlan
from framecalc.plan.figures import Figure
from framecalc.records import Record
from framecalc.sizes.chain import Sizes
from framecalc.units import Unit
from framecalc.words import Words, say

UP_MM, LINES = 97.0, 3
"""How tall the panel is, and how many lines of figures stand below the polygon."""


class PolygonView(Record):
    """What the drawing reads from a plan."""

    sizes: Sizes
    member: Figure
    flats: Figure
    sight: Figure
    rabbet: Figure
    corners: Figure
    mitre_deg: float
    unit: Unit
    words: Words
    name: str


def read_polygon(plan: FramePlan) -> PolygonView:
    """Read from a plan what the drawing of its polygon shows.

    Raises:
        ImpossibleSize: it is a rectangle.
    """
    sizes, figures = plan.sizes, plan.figures
    if sizes.shape.is_rectangle:
        raise ImpossibleSize("The frame has four sides: its front is the drawing of it.", field="sides")
    return PolygonView(
        sizes=sizes,
        member=figures["member_long"],
        flats=figures["outside_flats"],
        sight=figures["sight_flats"],
        rabbet=figures["rabbet_flats"],
        corners=figures["outside_corners"],
        mitre_deg=plan.shape.mitre_deg,
        unit=plan.unit,
        words=plan.project.shop.words,
        name=plan.frame.name,
    )


def polygon_title(view: PolygonView) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    says = f"A frame of {view.sizes.shape.sides} sides from the front, {view.flats.text} {view.unit} across the flats"
    return say(says, view.words)


def draw_polygon(view: PolygonView, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the polygon; returns the scale."""
    extent = view.sizes.shape.extent(view.sizes.outside_across_mm, view.sizes.outside_up_mm)
    below_mm = sheet.lanes(1) + LINES * (LETTER_MM + 1.2)
    largest = min((room.across_mm - 4) / extent.across_mm, (room.up_mm - below_mm - 2) / extent.up_mm)
    scale = fit_scale(largest, sheet=sheet, unit=view.unit)
    base_mm = room.top_mm + 1 + extent.up_mm * scale
    middle = ((room.left_mm + room.right_mm) / 2, base_mm - extent.below_mm * scale)
    _draw_rings(view, pen, middle, scale)
    _draw_member(view, sheet, pen, middle, base_mm, scale)
    _write(view, pen, room, base_mm + sheet.lanes(1))
    return scale


def _draw_rings(view: PolygonView, pen: Pen, middle: Point, scale: float) -> None:
    sizes = view.sizes

    def ring(flats_mm: float) -> list[Point]:
        corners = sizes.shape.corners(flats_mm, flats_mm)
        return [(middle[0] + x_mm * scale, middle[1] - y_mm * scale) for x_mm, y_mm in corners]

    outside, sight = ring(sizes.outside_across_mm), ring(sizes.sight_across_mm)
    pen.area(run(outside, closed=True) + run(sight, closed=True), Role.WOOD)
    pen.area(run(sight, closed=True), Role.PICTURE)
    for shape, role in ((outside, Role.OUTLINE), (sight, Role.OUTLINE), (ring(sizes.rabbet_across_mm), Role.HIDDEN)):
        pen.line(run(shape, closed=True), role)
    for corner, inner in zip(outside, sight, strict=True):
        pen.line(run([corner, inner]), Role.MITRE)


def _draw_member(view: PolygonView, sheet: Sheet, pen: Pen, middle: Point, base_mm: float, scale: float) -> None:
    half_mm = view.member.exact_mm / 2 * scale
    span = DimensionSpan(
        from_mm=middle[0] - half_mm,
        to_mm=middle[0] + half_mm,
        feet_mm=(base_mm, base_mm),
        figure=view.member,
        wordings=("long points {}", "{}"),
    )
    draw_lanes(pen, [span], axis=Axis.ACROSS, lanes_mm=[base_mm + sheet.lane(0)], toward=1)


def _write(view: PolygonView, pen: Pen, room: Area, below_mm: float) -> None:
    lines = (
        f"mitre {write_angle(view.mitre_deg)}, corner to corner {view.corners.text}",
        f"across the flats: outside {view.flats.text}",
        f"rabbet size {view.rabbet.text}, sight {view.sight.text}",
    )
    for number, line in enumerate(lines, start=1):
        at = (room.left_mm + 1, below_mm + number * (LETTER_MM + 1.2))
        pen.text(say(line, view.words), at)


POLYGON = Drawing(
    name="polygon",
    read=read_polygon,
    title=polygon_title,
    draw=draw_polygon,
    up_mm=UP_MM,
    paper=PaperDrawing(name="polygon", label="Setting out"),
)
