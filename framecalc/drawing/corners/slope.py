"""Sides that slope, at the saw: flat on the table with the blade tilted, or propped with it upright; and one laid flat.

The first view looks along the feed, the second along the fence. They are to no scale; their angles are true.
"""

from math import cos, radians, sin

from framecalc.corners.angles import write_angle
from framecalc.drawing.dimension import Axis, DimensionSpan, angle_arc, draw_lanes
from framecalc.drawing.pen import Pen, rectangle, run
from framecalc.drawing.record import Drawing
from framecalc.drawing.sheet import Area, Sheet
from framecalc.drawing.style import Role
from framecalc.errors import ImpossibleSize
from framecalc.geometry.outline import Point
from framecalc.plan import FramePlan
from framecalc.plan.figures import Figure
from framecalc.records import Record
from framecalc.units import Unit
from framecalc.words import Words, say

TABLE_MM, STOCK_MM, PROPPED_MM = 28.0, 3.6, 22.0
"""Where the table lies on the sheet, how thick the stock is drawn, and how wide where it is propped."""

BLADE_AT_MM, BLADE_MM, FENCE_AT_MM = 19.0, 20.0, 72.0
VIEWS_MM, LAID_MM, LINE_MM = 47.0, 30.0, 4.8
"""What the two views take up the sheet, what a side laid flat takes below them, from line to line of letters."""

SIDE_ACROSS_MM, SIDE_UP_MM = 60.0, 13.0


class SlopeView(Record):
    """What the drawing reads from a plan; the side laid flat is the first."""

    slope_deg: float
    flat_mitre_deg: float
    tilt_deg: float
    propped_mitre_deg: float
    wide: Figure
    narrow: Figure
    width_mm: float
    unit: Unit
    words: Words


def read_slope(plan: FramePlan) -> SlopeView:
    """Read from a plan how its sloping sides are cut.

    Raises:
        ImpossibleSize: they do not slope.
    """
    corners = plan.corners
    wide, narrow = ("outside_across", "sight_across") if plan.shape.is_rectangle else ("member_long", "member_short")
    if corners.propped is None:
        raise ImpossibleSize("Flat sides: enter a slope of more than 0°.", field="slope")
    return SlopeView(
        slope_deg=plan.shape.slope_deg,
        flat_mitre_deg=corners.flat.mitre_deg,
        tilt_deg=corners.flat.tilt_deg,
        propped_mitre_deg=corners.propped.mitre_deg,
        wide=plan.figures[wide],
        narrow=plan.figures[narrow],
        width_mm=plan.members[0].width_mm,
        unit=plan.unit,
        words=plan.project.shop.words,
    )


def slope_title(view: SlopeView) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    flat = f"flat on the table: gauge {view.flat_mitre_deg:.2f}°, blade tilted {view.tilt_deg:.2f}°"
    propped = f"propped: gauge {write_angle(view.propped_mitre_deg)}, blade upright"
    says = f"Sides that slope {view.slope_deg:g}°, {flat}; {propped}"
    return say(says, view.words)


def draw_slope(view: SlopeView, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw both ways to cut, and the side laid flat; to no scale."""
    _draw_flat(view, pen)
    _draw_propped(view, pen)
    _draw_laid(view, sheet, pen)
    return 0.0


def _draw_flat(view: SlopeView, pen: Pen) -> None:
    """Along the feed: the table, the stock flat on it, the blade tilted through it."""
    tilt_rad = radians(view.tilt_deg)

    def on_the_blade(up_mm: float) -> Point:
        return BLADE_AT_MM + up_mm * sin(tilt_rad), TABLE_MM - up_mm * cos(tilt_rad)

    stock = rectangle(3.0, TABLE_MM - STOCK_MM, 35.0, TABLE_MM)
    pen.area(stock, Role.WOOD)
    pen.line(stock, Role.EDGE)
    pen.line(run([(1.0, TABLE_MM), (37.0, TABLE_MM)]), Role.OUTLINE)
    pen.line(run([(BLADE_AT_MM, TABLE_MM), (BLADE_AT_MM, TABLE_MM - BLADE_MM)]), Role.HIDDEN)
    pen.line(run([on_the_blade(-0.8), on_the_blade(BLADE_MM)]), Role.MITRE)
    if view.tilt_deg > 1:
        angle_arc(pen, (BLADE_AT_MM, TABLE_MM), radius_mm=15.0, from_deg=-90, to_deg=view.tilt_deg - 90)
    lines = ("flat on the table", f"gauge {write_angle(view.flat_mitre_deg)}", f"blade {write_angle(view.tilt_deg)}")
    _write(pen, 1.0, lines)


def _draw_propped(view: SlopeView, pen: Pen) -> None:
    """Along the fence: the stock leans against it as it will hang, its face up."""
    slope_rad = radians(view.slope_deg)
    foot = (FENCE_AT_MM - PROPPED_MM * cos(slope_rad), TABLE_MM)
    up = (foot[0] + PROPPED_MM * cos(slope_rad), foot[1] - PROPPED_MM * sin(slope_rad))
    into = (-STOCK_MM * sin(slope_rad), -STOCK_MM * cos(slope_rad))
    stock = run([foot, up, (up[0] + into[0], up[1] + into[1]), (foot[0] + into[0], foot[1] + into[1])], closed=True)
    fence = rectangle(FENCE_AT_MM, 4.0, FENCE_AT_MM + 3.0, TABLE_MM)
    for shape, role in ((fence, Role.SHADOW), (stock, Role.WOOD)):
        pen.area(shape, role)
        pen.line(shape, Role.EDGE)
    pen.line(run([(43.0, TABLE_MM), (78.0, TABLE_MM)]), Role.OUTLINE)
    room_mm = FENCE_AT_MM - foot[0]
    if view.slope_deg > 1 and room_mm > 4:
        angle_arc(pen, foot, radius_mm=min(9.0, room_mm - 1), from_deg=-view.slope_deg, to_deg=0)
    lines = (f"propped at {view.slope_deg:g}°", f"gauge {write_angle(view.propped_mitre_deg)}", "blade upright")
    _write(pen, 43.0, lines)


def _write(pen: Pen, left_mm: float, lines: tuple[str, str, str]) -> None:
    for number, line in enumerate(lines, start=1):
        role = Role.STRONG if number == 1 else Role.LETTER
        pen.text(line, (left_mm, TABLE_MM + 1.4 + number * LINE_MM), role=role)


def _draw_laid(view: SlopeView, sheet: Sheet, pen: Pen) -> None:
    """The side laid flat, its narrow edge above: the ends slant by the gauge's own angle."""
    scale = min(SIDE_ACROSS_MM / view.wide.exact_mm, SIDE_UP_MM / view.width_mm)
    middle_mm, top_mm = sheet.across_mm / 2, VIEWS_MM + sheet.lanes_above(1)
    base_mm = top_mm + view.width_mm * scale
    half_mm, narrow_mm = view.wide.exact_mm / 2 * scale, view.narrow.exact_mm / 2 * scale
    shape = run(
        [(middle_mm - half_mm, base_mm), (middle_mm - narrow_mm, top_mm),
         (middle_mm + narrow_mm, top_mm), (middle_mm + half_mm, base_mm)],
        closed=True,
    )  # fmt: skip
    pen.area(shape, Role.WOOD)
    pen.line(shape, Role.OUTLINE)
    for half, at_mm, lane_mm, figure, words in (
        (narrow_mm, top_mm, top_mm - sheet.lane_above(0), view.narrow, "narrow edge {}"),
        (half_mm, base_mm, base_mm + sheet.lane(0), view.wide, "wide edge {}"),
    ):
        span = DimensionSpan(
            from_mm=middle_mm - half,
            to_mm=middle_mm + half,
            feet_mm=(at_mm, at_mm),
            figure=figure,
            wordings=(words, "{}"),
        )
        draw_lanes(pen, [span], axis=Axis.ACROSS, lanes_mm=[lane_mm], toward=1)


SLOPE = Drawing(name="slope", read=read_slope, title=slope_title, draw=draw_slope, up_mm=VIEWS_MM + LAID_MM)
