"""The drawing for a client: their picture in the planned frame, to scale.

Members have the colour of their wood and are shaded by their profile; the mat has its colour and a pale bevel around
the window; the picture fills the rest of the view.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import hypot

from framecalc.client.tones import Stripe, shade_ratio, shaded, stripes, wood_tone
from framecalc.drawing.dimension import Axis, DimensionSpan, draw_lanes
from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.package.mat_from_front import WindowFromFront, windows_from_front
from framecalc.drawing.pen import Pen, run
from framecalc.drawing.ring import Size, mitres, ring
from framecalc.drawing.sheet import Area, View, panel
from framecalc.drawing.style import LETTER_MM, Role
from framecalc.geometry.outline import Point
from framecalc.plan import FramePlan
from framecalc.plan.figures import Figure
from framecalc.project import Look
from framecalc.sizes.chain import Sizes
from framecalc.sizes.shape import Extent, Shape
from framecalc.units import Unit

PANEL = panel(100, 96)
BEVEL = "#fdfbf4"
"""The white core of mat board. Common practice, no source."""

LOWER_RATIO, FILLET_RATIO = 0.9, 0.8
"""How bright the lower of two mats and a fillet are drawn beside what lies over them. Common practice, no source."""

MIDDLE = (0.0, 0.0)

DEPTH_MM, DEPTH_RATIO = 2.0, 0.72
"""The strip of shade that the frame casts on what it holds, and how bright it is there. Common practice, no source."""

NO_PICTURE = "#d5e3e4"


@dataclass(frozen=True, slots=True, kw_only=True)
class ClientFront:
    """All that a client's drawing reads from a plan."""

    sizes: Sizes
    windows: tuple[WindowFromFront, ...]
    fillet_mm: float
    artwork_mm: Size
    is_tray: bool
    stripes: tuple[Stripe, ...]
    look: Look
    tone: str
    outside: tuple[Figure, Figure]
    unit: Unit
    title: str

    @property
    def shape(self) -> Shape:
        """The shape of the frame."""
        return self.sizes.shape

    @property
    def extent(self) -> Extent:
        """The upright rectangle round the outside."""
        return self.shape.extent(*self.outside_mm)

    @property
    def outside_mm(self) -> Size:
        """The outside."""
        return self.sizes.outside_across_mm, self.sizes.outside_up_mm

    @property
    def sight_mm(self) -> Size:
        """The sight edge."""
        return self.sizes.sight_across_mm, self.sizes.sight_up_mm


def read_client(plan: FramePlan) -> ClientFront:
    """Read the view of a client from a plan."""
    across, up = plan.figures["outside_across"], plan.figures["outside_up"]
    return ClientFront(
        sizes=plan.sizes,
        windows=windows_from_front(plan),
        fillet_mm=plan.package.fillet_mm,
        artwork_mm=(plan.settled.artwork_across_mm, plan.settled.artwork_up_mm),
        is_tray=plan.is_tray,
        stripes=stripes(plan.section.outline, face_width_mm=plan.settled.face_width_mm),
        look=plan.frame.look,
        tone=plan.frame.look.wood_colour or wood_tone(plan.frame.species),
        outside=(across, up),
        unit=plan.unit,
        title=f"{plan.frame.name}: {across.text} × {up.text} {plan.unit} outside",
    )


def draw_client(front: ClientFront, *, name: str, picture: str = "") -> str:
    """Draw a frame for its client, as SVG for a page.

    Args:
        name: distinguishes the drawings of one page.
        picture: the address of the straight picture, or the picture itself as a `data:` address; blank without one.
    """
    view = _alone(front)
    up_mm = front.extent.up_mm * view.scale + PANEL.lanes(1) + 2
    pen = Pen(name=name, across_mm=PANEL.across_mm, up_mm=up_mm, title=front.title, inline=True)
    draw_framed(front, view, pen, picture)
    _draw_outside(front, view, pen)
    return pen.svg()


def _alone(front: ClientFront) -> View:
    """Fill the panel with the frame and one dimension each way; what stays free under it is left off."""
    room = Area(left_mm=PANEL.lanes(1) + LETTER_MM, top_mm=1, right_mm=PANEL.across_mm - 1, bottom_mm=PANEL.up_mm)
    extent = front.extent
    across_mm, up_mm = extent.across_mm, extent.up_mm
    scale = min(room.across_mm / across_mm, (room.up_mm - PANEL.lanes(1) - 1) / up_mm)
    return View(
        scale=scale,
        left_mm=(room.left_mm + room.right_mm) / 2,
        base_mm=room.top_mm + (up_mm - extent.below_mm) * scale,
    )


def draw_framed(front: ClientFront, view: View, pen: Pen, picture: str) -> None:
    """Draw the frame with its contents, its middle at the origin of the view."""
    _draw_members(front, view, pen)
    _fill_ring(front, view, pen, front.sight_mm, _ground(front))
    _draw_fillet(front, view, pen)
    for number, window in enumerate(front.windows):
        _draw_window(front, window, view, pen, "" if number else picture)
    if front.windows:
        _draw_depth(front, view, pen, front.look.mat_colour)
    else:
        seen = front.artwork_mm if front.is_tray else _inside(front)
        _draw_picture(front, view, pen, picture, seen)
    pen.line(ring(view, front.shape, front.sight_mm), Role.EDGE)
    pen.line(ring(view, front.shape, front.outside_mm), Role.EDGE)


def _inside(front: ClientFront) -> Size:
    """The size in view inside the lip and a fillet."""
    strip_mm = 2 * front.fillet_mm
    return front.sizes.sight_across_mm - strip_mm, front.sizes.sight_up_mm - strip_mm


def _draw_fillet(front: ClientFront, view: View, pen: Pen) -> None:
    """A strip of the frame's wood beside the lip, a little darker; inside it the ground shows again."""
    if front.fillet_mm:
        _fill_ring(front, view, pen, front.sight_mm, shaded(front.tone, by_ratio=FILLET_RATIO))
        _fill_ring(front, view, pen, _inside(front), _ground(front))


def _draw_window(front: ClientFront, window: WindowFromFront, view: View, pen: Pen, picture: str) -> None:
    """A window with its bevel, with that of an upper mat around it, and the picture in it."""
    white_mm, outer_mm = 2 * window.bevel_mm, 2 * window.reveal_mm
    across_mm, up_mm = window.across_mm, window.up_mm

    def fill(wider_mm: float, colour: str) -> None:
        _fill_ring(front, view, pen, (across_mm + wider_mm, up_mm + wider_mm), colour, window.middle_mm)

    if outer_mm:
        fill(outer_mm + white_mm, BEVEL)
        fill(outer_mm, shaded(front.look.mat_colour, by_ratio=LOWER_RATIO))
    fill(white_mm, BEVEL)
    fill(0, BEVEL)
    _draw_picture(
        front,
        view,
        pen,
        picture,
        window.seen_mm,
        window.middle_mm,
        size=window.picture_mm,
        size_middle=window.picture_middle_mm,
    )


def _ground(front: ClientFront) -> str:
    """The ground behind the sight edge without a picture: the mat, the gap of a tray, or nothing."""
    if front.windows:
        return front.look.mat_colour
    return shaded(front.tone, by_ratio=0.35) if front.is_tray else NO_PICTURE


def _draw_members(front: ClientFront, view: View, pen: Pen) -> None:
    """Each stripe is drawn as far as the sight edge, and the next one over it: no seam shows between them."""
    for stripe in front.stripes:
        for corners in _sides(front, stripe.from_mm * front.shape.flat_ratio):
            colour = shaded(front.tone, by_ratio=shade_ratio(stripe, inward=_inward(corners[0], corners[1])))
            pen.area(run([view.at(corner) for corner in corners], closed=True), Role.THIN, fill=colour)
    for mitre in mitres(view, front.shape, front.outside_mm, front.sight_mm):
        pen.line(mitre, Role.GRAIN)


def _sides(front: ClientFront, from_mm: float) -> Iterator[tuple[Point, Point, Point, Point]]:
    """The part of each member between a place in from its outer side and the sight edge, clockwise."""
    across_mm, up_mm = front.outside_mm
    outer = front.shape.corners(across_mm - 2 * from_mm, up_mm - 2 * from_mm)
    inner = front.shape.corners(*front.sight_mm)
    for here, after in pairwise((*range(len(outer)), 0)):
        yield outer[here], outer[after], inner[after], inner[here]


def _inward(first: Point, second: Point) -> Point:
    """The direction from an outer side, whose ends are given clockwise, to the picture."""
    across, up = second[0] - first[0], second[1] - first[1]
    return up / hypot(across, up), -across / hypot(across, up)


def _draw_picture(
    front: ClientFront,
    view: View,
    pen: Pen,
    picture: str,
    seen: tuple[float, float],
    middle: Point = MIDDLE,
    size: tuple[float, float] | None = None,
    size_middle: Point = MIDDLE,
) -> None:
    """The picture at its size, clipped to the view; a pale area if there is no photo yet."""
    path = ring(view, front.shape, seen, middle)
    if not picture:
        pen.area(path, Role.THIN, fill=NO_PICTURE)
        _draw_no_picture(view, pen, seen, middle)
        return
    extent = front.shape.extent(*(size or front.artwork_mm))
    half_mm, below_mm = extent.across_mm / 2, extent.below_mm
    upper_left = view.at((size_middle[0] - half_mm, size_middle[1] + extent.up_mm - below_mm))
    lower_right = view.at((size_middle[0] + half_mm, size_middle[1] - below_mm))
    pen.picture(picture, upper_left, lower_right, clip=pen.clip(path))
    if not front.windows and not front.is_tray:
        _draw_shade(front, view, pen)


def _draw_no_picture(view: View, pen: Pen, seen: tuple[float, float], middle: Point) -> None:
    text = "your picture"
    if text_across_mm(text) < seen[0] * view.scale - 2 and seen[1] * view.scale > 2 * LETTER_MM:
        pen.text(text, view.at(middle), anchor="middle", role=Role.FAINT)


def _draw_depth(front: ClientFront, view: View, pen: Pen, colour: str) -> None:
    """Shade the mat under the upper and the left member."""
    for path in _shade_paths(front, view):
        pen.area(path, Role.THIN, fill=shaded(colour, by_ratio=DEPTH_RATIO))


def _draw_shade(front: ClientFront, view: View, pen: Pen) -> None:
    """A thin dark line under the upper and the left member: the picture lies deeper."""
    corners = front.shape.corners(*front.sight_mm)
    pen.line(run([view.at(corner) for corner in corners[: len(corners) // 2 + 1]]), Role.OUTLINE)


def _shade_paths(front: ClientFront, view: View) -> Iterator[str]:
    """Strips along the sides on the left and above, as `_draw_shade` has them."""
    across_mm, up_mm = front.sight_mm
    outer = front.shape.corners(across_mm, up_mm)
    inner = front.shape.corners(across_mm - 2 * DEPTH_MM, up_mm - 2 * DEPTH_MM)
    for here, after in pairwise(range(len(outer) // 2 + 1)):
        corners = outer[here], outer[after], inner[after], inner[here]
        yield run([view.at(corner) for corner in corners], closed=True)


def _draw_outside(front: ClientFront, view: View, pen: Pen) -> None:
    extent, (across, up) = front.extent, front.outside
    x, y = extent.across_mm / 2, extent.below_mm
    foot, side = view.y(-y), view.x(-x)
    below = DimensionSpan(
        from_mm=view.x(-x), to_mm=view.x(x), feet_mm=(foot, foot), figure=across, wordings=_worded(front)
    )
    beside = DimensionSpan(
        from_mm=view.y(extent.up_mm - y), to_mm=view.y(-y), feet_mm=(side, side), figure=up, wordings=_worded(front)
    )
    draw_lanes(pen, [below], axis=Axis.ACROSS, lanes_mm=[foot + PANEL.lane(0)], toward=1)
    draw_lanes(pen, [beside], axis=Axis.UP, lanes_mm=[side - PANEL.lane(0)], toward=-1)


def _worded(front: ClientFront) -> tuple[str, ...]:
    return (f"{{}} {front.unit}", "{}")


def _fill_ring(front: ClientFront, view: View, pen: Pen, size_mm: Size, colour: str, middle: Point = MIDDLE) -> None:
    pen.area(ring(view, front.shape, size_mm, middle), Role.THIN, fill=colour)
