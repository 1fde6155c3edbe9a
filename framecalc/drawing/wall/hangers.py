"""The frame from behind with its hangers: how far down, how far in, where its weight is, and its wire when loaded."""

from framecalc.drawing.dimension import Axis, DimensionSpan, draw_lanes, hanging_mm
from framecalc.drawing.pen import Pen, circle, rectangle, run
from framecalc.drawing.record import ACROSS_MM, Drawing, PaperDrawing
from framecalc.drawing.ring import Size, mitres, ring
from framecalc.drawing.sheet import Area, Sheet, View, fit_scale, panel
from framecalc.drawing.style import LETTER_MM, Role
from framecalc.geometry.outline import Point
from framecalc.hanging.cleat import IN_MM
from framecalc.hanging.hangers import PlacedHangers
from framecalc.package.stiffening import Stiffener
from framecalc.plan import FramePlan
from framecalc.plan.figures import Figure, named_figure
from framecalc.records import Record
from framecalc.sizes.shape import Extent, Shape
from framecalc.units import Unit
from framecalc.words import Words, say

TALLEST_MM, FOOT_MM, HEAD_MM = 104.0, 8.0, 3.0
DOT_MM, HOOK_MM, CROSS_MM = 0.9, 1.6, 2.2
"""A screw, a hook and the mark of the centre of gravity, on the sheet."""


class HangersView(Record):
    """What the drawing reads from a plan; across runs to the right as seen from the front."""

    shape: Shape
    outside_mm: Size
    inside_mm: Size
    placed: PlacedHangers
    top_mm: float
    centre_mm: Point
    down: Figure
    drop: Figure
    from_side: Figure
    unit: Unit
    words: Words
    says: str
    stiffener_mm: tuple[Point, Point] | None
    cleat_mm: tuple[Point, Point] | None

    @property
    def extent(self) -> Extent:
        """The upright rectangle round the frame."""
        return self.shape.extent(*self.outside_mm)


def read_hangers(plan: FramePlan) -> HangersView:
    """Read from a plan its hangers.

    Raises:
        FrameCalcError: they cannot be placed.
    """
    hangers, sizes = plan.hangers, plan.sizes
    placed, step = hangers.placed, plan.step
    at_mm = hangers.across_mm / 2 + placed.places[0][0]
    inside_mm = sizes.rabbet_across_mm, sizes.rabbet_up_mm
    return HangersView(
        shape=plan.shape,
        outside_mm=(sizes.outside_across_mm, sizes.outside_up_mm),
        inside_mm=inside_mm,
        placed=placed,
        top_mm=hangers.top_mm,
        centre_mm=(hangers.balance.across_mm, hangers.balance.up_mm),
        down=named_figure("down", "hangers, down from the top", placed.down_mm, step=step),
        drop=named_figure("drop", "drop", placed.drop_mm, step=step),
        from_side=named_figure("from_side", "screw, from the side", at_mm, step=step),
        unit=plan.unit,
        words=plan.project.shop.words,
        says=placed.kind.value,
        stiffener_mm=_stiffener_mm(plan),
        cleat_mm=_cleat_mm(plan),
    )


def _cleat_mm(plan: FramePlan) -> tuple[Point, Point] | None:
    """The lower left and the upper right corner of the half on the frame, if it hangs by a cleat."""
    cleat, top_mm = plan.hangers.cleat, plan.hangers.top_mm - IN_MM
    return ((0 - cleat.long_mm / 2, top_mm - cleat.high_mm), (cleat.long_mm / 2, top_mm)) if cleat else None


def _stiffener_mm(plan: FramePlan) -> tuple[Point, Point] | None:
    """The lower left and the upper right corner of a stiffener: along the bottom member, or up the middle."""
    found = plan.package.stiffener
    if found is None:
        return None
    if found.kind is Stiffener.STRUT:
        return (0 - found.wide_mm / 2, 0 - found.long_mm / 2), (found.wide_mm / 2, found.long_mm / 2)
    low_mm = 0 - plan.shape.extent(plan.sizes.outside_across_mm, plan.sizes.outside_up_mm).below_mm
    return (0 - found.long_mm / 2, low_mm), (found.long_mm / 2, low_mm + found.wide_mm)


def hangers_title(hangers: HangersView) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    told = (
        f"Frame from behind with its hangers ({hangers.says}): screws {hangers.down.text} {hangers.unit} down from the"
        f" top and {hangers.from_side.text} {hangers.unit} from the side; drop {hangers.drop.text} {hangers.unit}"
        + ("; a stiffener" if hangers.stiffener_mm else "")
    )
    return say(told, hangers.words)


def hangers_up_mm(hangers: HangersView) -> float:
    """The height of the panel that shows the frame as wide as it can."""
    sheet = panel(ACROSS_MM, TALLEST_MM)
    view = placed_behind(hangers, sheet, sheet.room, lanes=2)
    below_mm = view.y(-hangers.extent.below_mm) + sheet.lanes(1)
    more_mm = hanging_mm(_beside(hangers, view), sheet, below_mm=below_mm)
    return min(TALLEST_MM, hangers.extent.up_mm * view.scale + HEAD_MM + sheet.lanes(1) + more_mm + FOOT_MM)


def draw_hangers(hangers: HangersView, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the frame from behind; returns the scale, which a paper prints."""
    view, shape = placed_behind(hangers, sheet, room, lanes=2), hangers.shape
    outside = ring(view, shape, hangers.outside_mm)
    pen.area(outside, Role.WOOD)
    pen.line(outside, Role.OUTLINE)
    inside = ring(view, shape, hangers.inside_mm)
    pen.area(inside, Role.MAT)
    pen.line(inside, Role.EDGE)
    for mitre in mitres(view, shape, hangers.outside_mm, hangers.inside_mm):
        pen.line(mitre, Role.EDGE)
    draw_strips(hangers, view, pen)
    draw_hung(hangers, view, pen)
    _draw_centre(view.at(_behind(hangers.centre_mm)), pen)
    _draw_sizes(hangers, sheet, view, pen)
    at = (room.right_mm, room.bottom_mm if sheet.is_paper else sheet.up_mm - 1.2)
    pen.text("from behind", at, anchor="end", role=Role.STRONG)
    return view.scale


def _behind(point: Point) -> Point:
    return 0 - point[0], point[1]


def placed_behind(hangers: HangersView, sheet: Sheet, room: Area, *, lanes: int) -> View:
    """The frame from behind in its room, with so many lanes of dimensions on its left and one below."""
    extent = hangers.extent
    foot_mm = LETTER_MM + 2 if sheet.is_paper else 1.0
    free = room.less(left_mm=sheet.lanes(lanes) + sheet.figure_mm, top_mm=HEAD_MM, bottom_mm=sheet.lanes(1) + foot_mm)
    largest = min(free.across_mm / extent.across_mm, free.up_mm / extent.up_mm)
    scale = fit_scale(largest, sheet=sheet, unit=hangers.unit)
    top_mm = free.top_mm + (free.up_mm - extent.up_mm * scale) / 2 if sheet.is_paper else free.top_mm
    return View(
        scale=scale,
        left_mm=(free.left_mm + free.right_mm) / 2,
        base_mm=top_mm + (extent.up_mm - extent.below_mm) * scale,
    )


def draw_strips(hangers: HangersView, view: View, pen: Pen) -> None:
    """What is screwed on along a side: a stiffener, a cleat."""
    for strip in filter(None, (hangers.stiffener_mm, hangers.cleat_mm)):
        low, high = (view.at(corner) for corner in strip)
        path = rectangle(*low, *high)
        pen.area(path, Role.TAG)
        pen.line(path, Role.EDGE)


def draw_hung(hangers: HangersView, view: View, pen: Pen) -> None:
    """The screws, the hooks, and between them a wire or the rings."""
    placed = hangers.placed
    screws = [view.at(_behind(place)) for place in placed.places]
    hooks = [view.at((0 - across_mm, hangers.top_mm - placed.drop_mm)) for across_mm in placed.hooks_mm]
    if len(hooks) == len(screws):
        for screw, hook in zip(screws, hooks, strict=True):
            pen.line(run([screw, hook]), Role.MITRE)
    if placed.kind == "wire":
        pen.line(run([screws[0], *hooks, screws[1]]), Role.MITRE)
    for screw in screws:
        pen.line(circle(screw, DOT_MM), Role.ARROW)
    for x, y in hooks:
        pen.line(run([(x - HOOK_MM, y), (x + HOOK_MM, y)]) + run([(x, y - HOOK_MM), (x, y)]), Role.OUTLINE)


def _draw_centre(at: Point, pen: Pen) -> None:
    """The centre of gravity: a cross in a circle."""
    x, y = at
    pen.line(circle(at, CROSS_MM * 0.7), Role.GIVEN)
    pen.line(run([(x - CROSS_MM, y), (x + CROSS_MM, y)]) + run([(x, y - CROSS_MM), (x, y + CROSS_MM)]), Role.GIVEN)


def _beside(hangers: HangersView, view: View) -> list[DimensionSpan]:
    """The drop and the place of the screws, under the top edge; one where they are the same."""
    placed, left_mm, top_mm = hangers.placed, view.x(-hangers.extent.across_mm / 2), view.y(hangers.top_mm)
    sizes = sorted(((placed.drop_mm, hangers.drop), (placed.down_mm, hangers.down)), key=lambda pair: pair[0])
    shown = sizes[1:] if abs(sizes[0][0] - sizes[1][0]) < 1 else sizes
    return [
        DimensionSpan(
            from_mm=top_mm,
            to_mm=view.y(hangers.top_mm - down_mm),
            feet_mm=(left_mm, left_mm),
            figure=figure,
            wordings=(f"{figure.name} {{}}", "{}"),
            beyond=f"{figure.name} {{}}",
        )
        for down_mm, figure in shown
        if down_mm
    ]


def _draw_sizes(hangers: HangersView, sheet: Sheet, view: View, pen: Pen) -> None:
    """The drop and the place of the screws beside the frame, and how far in they are below it."""
    extent, placed, beside = hangers.extent, hangers.placed, _beside(hangers, view)
    left_mm, low_mm = view.x(-extent.across_mm / 2), view.y(-extent.below_mm)
    lanes = [left_mm - sheet.lane(number) for number in range(len(beside))]
    draw_lanes(pen, beside, axis=Axis.UP, lanes_mm=lanes, toward=1)
    at_mm = max(place[0] for place in map(_behind, placed.places))
    if len(placed.places) == 2:
        right_mm = view.x(extent.across_mm / 2)
        feet_mm = (low_mm, low_mm)
        span = DimensionSpan(from_mm=view.x(at_mm), to_mm=right_mm, feet_mm=feet_mm, figure=hangers.from_side)
        draw_lanes(pen, [span], axis=Axis.ACROSS, lanes_mm=[low_mm + sheet.lane(0)], toward=-1)


HANGERS = Drawing(
    name="hangers",
    read=read_hangers,
    title=hangers_title,
    draw=draw_hangers,
    up_mm=hangers_up_mm,
    paper=PaperDrawing(name="hangers", label="Hangers"),
)
