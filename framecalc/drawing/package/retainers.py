"""The frame from behind, with what holds its package: how many retainers stand along each side, and where.

The first stands so far from the rabbet's corner, the others evenly between it and the last.
"""

from dataclasses import dataclass

from framecalc.drawing.dimension import OUTWARD_MM, Axis, DimensionSpan, draw_lanes
from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.pen import Pen, circle, run
from framecalc.drawing.record import ACROSS_MM, Drawing, PaperDrawing
from framecalc.drawing.sheet import Area, Sheet, View, fit_scale, panel
from framecalc.drawing.style import LETTER_MM, Role
from framecalc.errors import ImpossibleSize
from framecalc.geometry.outline import Point
from framecalc.package.retainers import Retainer, Spacing
from framecalc.plan import FramePlan
from framecalc.plan.figures import Figure, named_figure
from framecalc.sizes.chain import Sizes
from framecalc.units import Unit
from framecalc.words import Words, say

TALLEST_MM, FOOT_MM = 112.0, 8.0
ON_PACKAGE_MM, POINT_MM = 2.6, 3.4
"""How far a button or a clip is drawn over the package, and how long a point, on the sheet."""


_PIECES = {Retainer.SHIM: "turn buttons", Retainer.STRIP: "turn buttons"}
"""What presses on the package, where something lies under it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RetainerRow:
    """One direction: where the retainers stand, from the rabbet's corner, and the two sizes that set them out."""

    spacing: Spacing
    first: Figure
    apart: Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldDrawing:
    """All that the drawing reads from a plan."""

    sizes: Sizes
    across: RetainerRow
    up: RetainerRow
    is_point: bool
    says: str
    unit: Unit
    words: Words


def read_held(plan: FramePlan) -> HeldDrawing:
    """Take from a plan what holds its package.

    Raises:
        ImpossibleSize: the frame is a tray, or what is wished for cannot hold the package.
    """
    held = plan.package.held
    if held is None:
        raise ImpossibleSize("A tray has no retainers: its artwork is screwed on from behind.")
    across, up = held.spacings
    return HeldDrawing(
        sizes=plan.sizes,
        across=_side(plan, across),
        up=_side(plan, up),
        is_point=held.retention.retainer is Retainer.POINTS,
        says=f"{held.count} {_PIECES.get(held.retention.retainer, held.retention.retainer.value)}",
        unit=plan.unit,
        words=plan.project.shop.words,
    )


def held_title(held: HeldDrawing) -> str:
    """What a reader who cannot see the drawing is told."""
    across, up = held.across.spacing.count, held.up.spacing.count
    told = f"Frame from behind with {held.says}: {across} along top and bottom, {up} along each side"
    return say(told, held.words)


def held_up_mm(held: HeldDrawing) -> float:
    """How tall the panel must be that shows the frame as wide as it can."""
    sheet = panel(ACROSS_MM, TALLEST_MM)
    view = _placed(held, sheet, sheet.room)
    return min(TALLEST_MM, held.sizes.outside_up_mm * view.scale + OUTWARD_MM + sheet.lanes(2) + FOOT_MM)


def draw_held(held: HeldDrawing, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the frame from behind; returns the scale, which a paper states."""
    view, sizes = _placed(held, sheet, room), held.sizes
    outside = _centred(view, sizes.outside_across_mm, sizes.outside_up_mm)
    pen.area(outside, Role.WOOD)
    pen.line(outside, Role.OUTLINE)
    pen.line(_centred(view, sizes.rabbet_across_mm, sizes.rabbet_up_mm), Role.OUTLINE)
    package = _centred(view, sizes.package_across_mm, sizes.package_up_mm)
    pen.area(package, Role.MAT)
    pen.line(package, Role.EDGE)
    _draw_mitres(held, view, pen)
    for at, inward in _places(held):
        _draw_retainer(held, view.at(at), inward, pen)
    _draw_sizes(held, sheet, view, pen)
    _write(held, sheet, view, pen, room)
    return view.scale


def _side(plan: FramePlan, spacing: Spacing) -> RetainerRow:
    return RetainerRow(
        spacing=spacing,
        first=named_figure("first", "first from the corner", spacing.places_mm[0], step=plan.step),
        apart=named_figure("apart", "apart", spacing.apart_mm, step=plan.step),
    )


def _placed(held: HeldDrawing, sheet: Sheet, room: Area) -> View:
    across_mm, up_mm = held.sizes.outside_across_mm, held.sizes.outside_up_mm
    foot_mm = LETTER_MM + 2 if sheet.is_paper else 1.0
    free = room.less(left_mm=sheet.lanes(2) + LETTER_MM, top_mm=OUTWARD_MM, bottom_mm=sheet.lanes(2) + foot_mm)
    scale = fit_scale(min(free.across_mm / across_mm, free.up_mm / up_mm), sheet=sheet, unit=held.unit)
    top_mm = free.top_mm + (free.up_mm - up_mm * scale) / 2 if sheet.is_paper else free.top_mm
    return View(
        scale=scale,
        left_mm=(free.left_mm + free.right_mm) / 2,
        base_mm=top_mm + up_mm / 2 * scale,
    )


def _centred(view: View, across_mm: float, up_mm: float) -> str:
    return view.rectangle(-across_mm / 2, -up_mm / 2, across_mm / 2, up_mm / 2)


def _draw_mitres(held: HeldDrawing, view: View, pen: Pen) -> None:
    sizes = held.sizes
    for right in (-1, 1):
        for up in (-1, 1):
            outer = (right * sizes.outside_across_mm / 2, up * sizes.outside_up_mm / 2)
            inner = (right * sizes.rabbet_across_mm / 2, up * sizes.rabbet_up_mm / 2)
            pen.line(run([view.at(outer), view.at(inner)]), Role.EDGE)


def _places(held: HeldDrawing) -> list[tuple[Point, Point]]:
    """Where each retainer crosses the rabbet wall, and which way is inward, on the sheet."""
    x, y = held.sizes.rabbet_across_mm / 2, held.sizes.rabbet_up_mm / 2
    across = [place_mm - x for place_mm in held.across.spacing.places_mm]
    up = [y - place_mm for place_mm in held.up.spacing.places_mm]
    return [
        *(((along, y), (0.0, 1.0)) for along in across),
        *(((along, -y), (0.0, -1.0)) for along in across),
        *(((-x, along), (1.0, 0.0)) for along in up),
        *(((x, along), (-1.0, 0.0)) for along in up),
    ]


def _draw_retainer(held: HeldDrawing, at: Point, inward: Point, pen: Pen) -> None:
    """A point lies on the package; a button or a clip has its screw in the land."""
    reach_mm = POINT_MM if held.is_point else ON_PACKAGE_MM
    tip = (at[0] + inward[0] * reach_mm, at[1] + inward[1] * reach_mm)
    foot = at if held.is_point else (at[0] - inward[0] * 1.6, at[1] - inward[1] * 1.6)
    pen.line(run([foot, tip]), Role.MITRE)
    if not held.is_point:
        pen.line(circle(foot, 0.7), Role.ARROW)


def _draw_sizes(held: HeldDrawing, sheet: Sheet, view: View, pen: Pen) -> None:
    """The first from the corner, and how far apart: below for top and bottom, at the left for the sides."""
    sizes = held.sizes
    x, y = sizes.rabbet_across_mm / 2, sizes.rabbet_up_mm / 2
    base_mm, left_mm = view.y(-sizes.outside_up_mm / 2), view.x(-sizes.outside_across_mm / 2)
    below = [_span(view.x(from_mm - x), view.x(to_mm - x), base_mm, one) for from_mm, to_mm, one in _gaps(held.across)]
    beside = [_span(view.y(y - from_mm), view.y(y - to_mm), left_mm, one) for from_mm, to_mm, one in _gaps(held.up)]
    draw_lanes(pen, below, axis=Axis.ACROSS, lanes_mm=[base_mm + sheet.lane(n) for n in range(len(below))], toward=1)
    draw_lanes(pen, beside, axis=Axis.UP, lanes_mm=[left_mm - sheet.lane(n) for n in range(len(beside))], toward=1)


def _gaps(side: RetainerRow) -> list[tuple[float, float, Figure]]:
    """From the corner to the first, and from there to the second, if there is one."""
    places = side.spacing.places_mm
    first = [(0.0, places[0], side.first)]
    return first if len(places) == 1 else [*first, (places[0], places[1], side.apart)]


def _span(from_mm: float, to_mm: float, foot_mm: float, figure: Figure) -> DimensionSpan:
    return DimensionSpan(from_mm=from_mm, to_mm=to_mm, feet_mm=(foot_mm, foot_mm), figure=figure)


def _write(held: HeldDrawing, sheet: Sheet, view: View, pen: Pen, room: Area) -> None:
    """What they are, on the package where that is wide enough, and from where it is seen."""
    room_mm = held.sizes.package_across_mm * view.scale - 2 * POINT_MM - 3
    if text_across_mm(held.says) <= room_mm:
        pen.text(held.says, (view.x(0), view.y(0) + LETTER_MM * 0.36), anchor="middle")
    at = (room.right_mm, room.bottom_mm if sheet.is_paper else sheet.up_mm - 1.2)
    pen.text("from behind", at, anchor="end", role=Role.STRONG)


HELD = Drawing(
    name="held",
    read=read_held,
    title=held_title,
    draw=draw_held,
    up_mm=held_up_mm,
    paper=PaperDrawing(name="held", label="Retainers"),
)
