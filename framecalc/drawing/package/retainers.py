"""The frame from behind, with its retainers: their number and places along each side.

The first and the last stand at one distance from the corners of the rabbet, the others evenly between them.
"""

from collections.abc import Iterator
from itertools import pairwise
from math import dist

from framecalc.drawing.dimension import OUTWARD_MM, Axis, DimensionSpan, draw_lanes
from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.pen import Pen, circle, run
from framecalc.drawing.record import ACROSS_MM, Drawing, PaperDrawing
from framecalc.drawing.ring import Size, mitres, ring
from framecalc.drawing.sheet import Area, Sheet, View, fit_scale, panel
from framecalc.drawing.style import LETTER_MM, Role
from framecalc.errors import ImpossibleSize
from framecalc.geometry.outline import Point
from framecalc.package.retainer_places import RetainerSpacing
from framecalc.package.retainers import Retainer
from framecalc.plan import FramePlan
from framecalc.plan.figures import Figure, named_figure
from framecalc.records import Record
from framecalc.sizes.chain import Sizes
from framecalc.sizes.shape import Extent
from framecalc.units import Unit
from framecalc.words import Words, say

TALLEST_MM, FOOT_MM = 112.0, 8.0
ON_PACKAGE_MM, POINT_MM = 2.6, 3.4
"""How far a button or a clip is drawn over the package, and how long a point, on the sheet."""


class RetainerRow(Record):
    """One direction: the places of the retainers from the rabbet's corner, and the two sizes that set them out."""

    spacing: RetainerSpacing
    first: Figure
    apart: Figure


class RetainersView(Record):
    """What the drawing reads from a plan."""

    sizes: Sizes
    across: RetainerRow
    up: RetainerRow
    is_point: bool
    says: str
    unit: Unit
    words: Words

    @property
    def outside_mm(self) -> Size:
        """The outside."""
        return self.sizes.outside_across_mm, self.sizes.outside_up_mm

    @property
    def rabbet_mm(self) -> Size:
        """The rabbet size."""
        return self.sizes.rabbet_across_mm, self.sizes.rabbet_up_mm

    @property
    def extent(self) -> Extent:
        """The upright rectangle round the outside."""
        return self.sizes.shape.extent(*self.outside_mm)


def read_retainers(plan: FramePlan) -> RetainersView:
    """Read from a plan its retainers.

    Raises:
        ImpossibleSize: the frame is a tray, or the wished retainers cannot hold the package.
    """
    retainers = plan.package.retainers
    if retainers is None:
        raise ImpossibleSize("A tray has no retainers: its artwork is screwed on from behind.", field="kind")
    across, up = retainers.spacings
    return RetainersView(
        sizes=plan.sizes,
        across=_side(plan, across),
        up=_side(plan, up),
        is_point=retainers.retention.retainer is Retainer.POINTS,
        says=f"{retainers.count} {retainers.retention.retainer.pieces}",
        unit=plan.unit,
        words=plan.project.shop.words,
    )


def retainers_title(retainers: RetainersView) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    across, up = retainers.across.spacing.count, retainers.up.spacing.count
    along = f"{across} along top and bottom, {up} along each side"
    if not retainers.sizes.shape.is_rectangle:
        along = f"{across} along each side"
    told = f"Frame from behind with {retainers.says}: {along}"
    return say(told, retainers.words)


def retainers_up_mm(retainers: RetainersView) -> float:
    """The height of the panel that shows the frame as wide as it can."""
    sheet = panel(ACROSS_MM, TALLEST_MM)
    view = _placed(retainers, sheet, sheet.room)
    return min(TALLEST_MM, retainers.extent.up_mm * view.scale + OUTWARD_MM + sheet.lanes(2) + FOOT_MM)


def draw_retainers(retainers: RetainersView, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the frame from behind; returns the scale, which a paper prints."""
    view, sizes, shape = _placed(retainers, sheet, room), retainers.sizes, retainers.sizes.shape
    outside_mm, rabbet_mm = retainers.outside_mm, retainers.rabbet_mm
    outside = ring(view, shape, outside_mm)
    pen.area(outside, Role.WOOD)
    pen.line(outside, Role.OUTLINE)
    pen.line(ring(view, shape, rabbet_mm), Role.OUTLINE)
    package = ring(view, shape, (sizes.package_across_mm, sizes.package_up_mm))
    pen.area(package, Role.MAT)
    pen.line(package, Role.EDGE)
    for mitre in mitres(view, shape, outside_mm, rabbet_mm):
        pen.line(mitre, Role.EDGE)
    for at, inward in _places(retainers):
        _draw_retainer(retainers, view.at(at), inward, pen)
    _draw_sizes(retainers, sheet, view, pen)
    _write(retainers, sheet, view, pen, room)
    return view.scale


def _side(plan: FramePlan, spacing: RetainerSpacing) -> RetainerRow:
    return RetainerRow(
        spacing=spacing,
        first=named_figure("first", "first from the corner", spacing.places_mm[0], step=plan.step),
        apart=named_figure("apart", "apart", _second_mm(spacing) - spacing.places_mm[0], step=plan.step),
    )


def _second_mm(spacing: RetainerSpacing) -> float:
    """The place of the second; of the first where there is but one."""
    return spacing.places_mm[min(1, spacing.count - 1)]


def _placed(retainers: RetainersView, sheet: Sheet, room: Area) -> View:
    extent = retainers.extent
    across_mm, up_mm = extent.across_mm, extent.up_mm
    foot_mm = LETTER_MM + 2 if sheet.is_paper else 1.0
    free = room.less(left_mm=sheet.lanes(2) + sheet.figure_mm, top_mm=OUTWARD_MM, bottom_mm=sheet.lanes(2) + foot_mm)
    scale = fit_scale(min(free.across_mm / across_mm, free.up_mm / up_mm), sheet=sheet, unit=retainers.unit)
    top_mm = free.top_mm + (free.up_mm - up_mm * scale) / 2 if sheet.is_paper else free.top_mm
    return View(
        scale=scale,
        left_mm=(free.left_mm + free.right_mm) / 2,
        base_mm=top_mm + (up_mm - extent.below_mm) * scale,
    )


def _places(retainers: RetainersView) -> Iterator[tuple[Point, Point]]:
    """Where each retainer crosses the rabbet wall, and which way is inward, on the sheet."""
    corners = retainers.sizes.shape.corners(*retainers.rabbet_mm)
    rows = retainers.up, retainers.across
    for number, (first, second) in enumerate(pairwise((*corners, corners[0]))):
        length_mm = dist(first, second)
        along = (second[0] - first[0]) / length_mm, (second[1] - first[1]) / length_mm
        for place_mm in rows[number % 2].spacing.places_mm:
            at = first[0] + along[0] * place_mm, first[1] + along[1] * place_mm
            yield at, (along[1], along[0])


def _draw_retainer(retainers: RetainersView, at: Point, inward: Point, pen: Pen) -> None:
    """A point lies on the package; a button or a clip has its screw in the land."""
    reach_mm = POINT_MM if retainers.is_point else ON_PACKAGE_MM
    tip = (at[0] + inward[0] * reach_mm, at[1] + inward[1] * reach_mm)
    foot = at if retainers.is_point else (at[0] - inward[0] * 1.6, at[1] - inward[1] * 1.6)
    pen.line(run([foot, tip]), Role.MITRE)
    if not retainers.is_point:
        pen.line(circle(foot, 0.7), Role.ARROW)


def _draw_sizes(retainers: RetainersView, sheet: Sheet, view: View, pen: Pen) -> None:
    """Dimension the first from the corner, and the spacing: below for top and bottom, at the left for the sides.

    Of a polygon the level side at the bottom shows both.
    """
    (x, y), *_ = retainers.sizes.shape.corners(*retainers.rabbet_mm)
    base_mm, left_mm = view.y(-retainers.extent.below_mm), view.x(-retainers.extent.across_mm / 2)
    below = [
        _span(view.x(x + from_mm), view.x(x + to_mm), base_mm, one) for from_mm, to_mm, one in _gaps(retainers.across)
    ]
    draw_lanes(pen, below, axis=Axis.ACROSS, lanes_mm=[base_mm + sheet.lane(n) for n in range(len(below))], toward=1)
    if not retainers.sizes.shape.is_rectangle:
        return
    beside = [
        _span(view.y(-y - from_mm), view.y(-y - to_mm), left_mm, one) for from_mm, to_mm, one in _gaps(retainers.up)
    ]
    draw_lanes(pen, beside, axis=Axis.UP, lanes_mm=[left_mm - sheet.lane(n) for n in range(len(beside))], toward=1)


def _gaps(side: RetainerRow) -> list[tuple[float, float, Figure]]:
    """From the corner to the first, and from there to the second, if there is one."""
    places = side.spacing.places_mm
    first = [(0.0, places[0], side.first)]
    return first if len(places) == 1 else [*first, (places[0], places[1], side.apart)]


def _span(from_mm: float, to_mm: float, foot_mm: float, figure: Figure) -> DimensionSpan:
    return DimensionSpan(from_mm=from_mm, to_mm=to_mm, feet_mm=(foot_mm, foot_mm), figure=figure)


def _write(retainers: RetainersView, sheet: Sheet, view: View, pen: Pen, room: Area) -> None:
    """Write the kind of retainer, on the package if that is wide enough, and the direction of view."""
    room_mm = retainers.sizes.package_across_mm * view.scale - 2 * POINT_MM - 3
    if text_across_mm(retainers.says) <= room_mm:
        pen.text(retainers.says, (view.x(0), view.y(0) + LETTER_MM * 0.36), anchor="middle")
    at = (room.right_mm, room.bottom_mm if sheet.is_paper else sheet.up_mm - 1.2)
    pen.text("from behind", at, anchor="end", role=Role.STRONG)


HELD = Drawing(
    name="held",
    read=read_retainers,
    title=retainers_title,
    draw=draw_retainers,
    up_mm=retainers_up_mm,
    paper=PaperDrawing(name="held", label="Retainers"),
)
