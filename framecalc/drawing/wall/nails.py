"""Where the hooks go, for whoever hangs the frame: the frame from the front, its hooks behind it, two sizes."""

from framecalc.drawing.dimension import Axis, DimensionSpan, draw_lanes, hanging_mm
from framecalc.drawing.pen import Pen, circle, run
from framecalc.drawing.record import ACROSS_MM, Drawing, PaperDrawing
from framecalc.drawing.ring import Size, ring
from framecalc.drawing.sheet import Area, Sheet, View, fit_scale, panel
from framecalc.drawing.style import LETTER_MM, Role
from framecalc.geometry.outline import Point
from framecalc.plan import FramePlan
from framecalc.plan.figures import Figure, named_figure
from framecalc.records import Record
from framecalc.sizes.shape import Extent, Shape
from framecalc.units import Unit

TALLEST_MM, FOOT_MM = 92.0, 8.0
NAIL_MM, CROSS_MM = 1.1, 3.0


class NailsView(Record):
    """What the drawing reads from a plan; places are from the middle of the frame, as seen from the front."""

    shape: Shape
    outside_mm: Size
    inside_mm: Size
    top_mm: float
    hooks_mm: tuple[Point, ...]
    drop: Figure
    apart: Figure | None
    unit: Unit

    @property
    def extent(self) -> Extent:
        """The upright rectangle round the frame."""
        return self.shape.extent(*self.outside_mm)


def read_nails(plan: FramePlan) -> NailsView:
    """Read from a plan its hooks.

    Raises:
        FrameCalcError: their drop is not known.
    """
    hangers, sizes = plan.hangers, plan.sizes
    hooks_mm = hangers.hooks_mm
    apart_mm = hooks_mm[-1] - hooks_mm[0]
    return NailsView(
        shape=plan.shape,
        outside_mm=(sizes.outside_across_mm, sizes.outside_up_mm),
        inside_mm=(sizes.sight_across_mm, sizes.sight_up_mm),
        top_mm=hangers.top_mm,
        hooks_mm=tuple((across_mm, hangers.top_mm - hangers.drop_mm) for across_mm in hooks_mm),
        drop=named_figure("hook_down", "hook under the top edge", hangers.drop_mm, step=plan.step),
        apart=named_figure("hooks_apart", "hooks apart", apart_mm, step=plan.step) if apart_mm else None,
        unit=plan.unit,
    )


def nails_title(nails: NailsView) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    apart = f", {nails.apart.text} {nails.unit} apart" if nails.apart else ""
    return f"Hooks {nails.drop.text} {nails.unit} under the top edge{apart}"


def nails_up_mm(nails: NailsView) -> float:
    """The height of the panel that shows the frame as wide as it can."""
    sheet = panel(ACROSS_MM, TALLEST_MM)
    view = _placed(nails, sheet, sheet.room)
    more_mm = hanging_mm([_down(nails, view)], sheet, below_mm=view.y(-nails.extent.below_mm))
    return min(TALLEST_MM, nails.extent.up_mm * view.scale + sheet.lanes_above(1) + more_mm + FOOT_MM)


def draw_nails(nails: NailsView, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the frame and its hooks; returns the scale, which a paper prints."""
    view = _placed(nails, sheet, room)
    outside = ring(view, nails.shape, nails.outside_mm)
    pen.area(outside, Role.MAT)
    pen.line(outside, Role.OUTLINE)
    pen.line(ring(view, nails.shape, nails.inside_mm), Role.EDGE)
    for hook in nails.hooks_mm:
        x, y = view.at(hook)
        pen.line(run([(x - CROSS_MM, y), (x + CROSS_MM, y)]) + run([(x, y - CROSS_MM), (x, y + CROSS_MM)]), Role.MITRE)
        pen.line(circle((x, y), NAIL_MM), Role.MITRE)
    _draw_sizes(nails, sheet, view, pen)
    return view.scale


def _placed(nails: NailsView, sheet: Sheet, room: Area) -> View:
    extent = nails.extent
    foot_mm = LETTER_MM + 2 if sheet.is_paper else 1.0
    free = room.less(
        left_mm=sheet.lanes(1) + sheet.figure_mm,
        top_mm=sheet.lanes_above(1) + 1,
        right_mm=sheet.lanes(1),
        bottom_mm=foot_mm,
    )
    largest = min(free.across_mm / extent.across_mm, free.up_mm / extent.up_mm)
    scale = fit_scale(largest, sheet=sheet, unit=nails.unit)
    top_mm = free.top_mm + (free.up_mm - extent.up_mm * scale) / 2 if sheet.is_paper else free.top_mm
    return View(
        scale=scale,
        left_mm=(free.left_mm + free.right_mm) / 2,
        base_mm=top_mm + (extent.up_mm - extent.below_mm) * scale,
    )


def _down(nails: NailsView, view: View) -> DimensionSpan:
    """From the top edge down to the hooks."""
    (hook_x, hook_y), left_mm = view.at(nails.hooks_mm[0]), view.x(-nails.extent.across_mm / 2)
    return DimensionSpan(from_mm=view.y(nails.top_mm), to_mm=hook_y, feet_mm=(left_mm, hook_x), figure=nails.drop)


def _draw_sizes(nails: NailsView, sheet: Sheet, view: View, pen: Pen) -> None:
    top_mm, left_mm = view.y(nails.top_mm), view.x(-nails.extent.across_mm / 2)
    (first_x, hook_y), (last_x, _) = view.at(nails.hooks_mm[0]), view.at(nails.hooks_mm[-1])
    if hook_y - top_mm > 0.5:
        draw_lanes(pen, [_down(nails, view)], axis=Axis.UP, lanes_mm=[left_mm - sheet.lane(0)], toward=1)
    if nails.apart:
        apart = DimensionSpan(
            from_mm=first_x,
            to_mm=last_x,
            feet_mm=(hook_y, hook_y),
            figure=nails.apart,
            wordings=("hooks {} apart", "{}"),
        )
        draw_lanes(pen, [apart], axis=Axis.ACROSS, lanes_mm=[top_mm - sheet.lane_above(0)], toward=-1)


NAILS = Drawing(
    name="nails",
    read=read_nails,
    title=nails_title,
    draw=draw_nails,
    up_mm=nails_up_mm,
    paper=PaperDrawing(name="nails", label="Hooks"),
)
