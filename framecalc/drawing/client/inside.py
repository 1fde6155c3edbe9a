"""What a frame holds, as the client sees it: mat and windows with their bevels, the picture, the gap of a tray, glass.

Everything lies deeper than the sight edge, which throws its shadow on it.
"""

from itertools import pairwise

from framecalc.drawing.client.seen import ClientFront
from framecalc.drawing.client.shadows import draw_inside_edge, draw_round_panel, edge_lines
from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.package.mat_from_front import WindowFromFront
from framecalc.drawing.pen import Pen, run
from framecalc.drawing.ring import Size, ring
from framecalc.drawing.sheet import View
from framecalc.drawing.style import CAPITAL_RATIO, LETTER_MM, Role
from framecalc.geometry.outline import Point
from framecalc.look.light import brightness_ratio
from framecalc.look.tones import shaded

CORE = "#fdfbf4"
"""The white core of mat board. Common practice, no source."""

LOWER_RATIO, FILLET_RATIO, GAP_RATIO = 0.9, 0.8, 0.3
"""How bright the lower of two mats, a fillet and the floor of a tray are. Our own, set by eye, no source."""

MAT_LIP_MM, TRAY_LIP_MM = 7.0, 16.0
"""The most that a lip throws its shadow from: a wall of light is never farther off than the room's other walls."""

MAT_DARK, TRAY_DARK, WINDOW_DARK, WINDOW_DEEP_MM = 0.5, 0.58, 0.4, 1.6
"""How dark a shadow is where it is darkest, and how deep a picture lies in its window. Our own, set by eye."""

BEVEL_NORMAL = (0.7071, 0.7071)
"""A bevel of 45° falls to the picture."""

BEVEL_EDGE = "#2a2018"
NO_PICTURE = "#e6e9e4"
GLASS = ((0, 0), (0.16, 0.085), (0.34, 0.03), (0.35, 0), (0.46, 0), (0.465, 0.035), (0.56, 0.012), (0.57, 0), (1, 0))
"""The window of a room in the glazing: how far across, and how bright. Our own, set by eye, no source."""

MIDDLE = (0.0, 0.0)


def draw_inside(front: ClientFront, view: View, pen: Pen, picture: str) -> None:
    """Draw all that stands inside the sight edge."""
    _fill(front, view, pen, front.sight_mm, _ground(front))
    if front.fillet_mm:
        _fill(front, view, pen, front.sight_mm, shaded(front.wood.tone, by_ratio=FILLET_RATIO))
        _fill(front, view, pen, front.seen_mm, _ground(front))
    if front.is_tray:
        _draw_in_tray(front, view, pen, picture)
    elif not front.windows:
        _draw_picture(front, view, pen, picture, front.seen_mm)
    for number, window in enumerate(front.windows):
        _draw_window(front, window, view, pen, "" if number else picture)
    _draw_lip_shadow(front, view, pen)
    if front.is_glazed and not front.is_tray:
        _draw_glass(front, view, pen)


def _ground(front: ClientFront) -> str:
    """The ground behind the sight edge without a picture: the mat, the floor of a tray, or nothing."""
    if front.windows:
        return front.look.mat_colour
    return shaded(front.wood.tone, by_ratio=GAP_RATIO) if front.is_tray else NO_PICTURE


def _draw_in_tray(front: ClientFront, view: View, pen: Pen, picture: str) -> None:
    """The artwork stands free: a dark gap round it, its own shadow on the floor, its edge lit or not."""
    with pen.within(clip=pen.clip(ring(view, front.shape, front.sight_mm))):
        draw_round_panel(front.shape, front.artwork_mm, view, pen, deep_mm=TRAY_LIP_MM / 2)
    _draw_picture(front, view, pen, picture, front.artwork_mm)
    for line, inward in edge_lines(front.shape, front.artwork_mm, view):
        is_lit = brightness_ratio((-inward[0], -inward[1]), slope=BEVEL_NORMAL) > 1
        pen.stroke(line, "#ffffff" if is_lit else "#000000", wide=0.5 * view.scale, opacity=0.35)


def _draw_lip_shadow(front: ClientFront, view: View, pen: Pen) -> None:
    most_mm, dark = (TRAY_LIP_MM, TRAY_DARK) if front.is_tray else (MAT_LIP_MM, MAT_DARK)
    draw_inside_edge(front.shape, front.sight_mm, view, pen, deep_mm=min(front.lip_mm, most_mm), dark=dark, soft_mm=1.6)


def _draw_window(front: ClientFront, window: WindowFromFront, view: View, pen: Pen, picture: str) -> None:
    """A window with its bevel, with that of an upper mat around it, and the picture in it."""
    size, bevel_mm = (window.across_mm, window.up_mm), window.bevel_mm
    if window.reveal_mm:
        upper = size[0] + 2 * window.reveal_mm, size[1] + 2 * window.reveal_mm
        _draw_bevel(front, upper, window.middle_mm, bevel_mm, view, pen)
        _fill(front, view, pen, upper, shaded(front.look.mat_colour, by_ratio=LOWER_RATIO), window.middle_mm)
        _draw_window_shadow(front, upper, window.middle_mm, view, pen)
    _draw_bevel(front, size, window.middle_mm, bevel_mm, view, pen)
    _fill(front, view, pen, size, CORE, window.middle_mm)
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
    _draw_window_shadow(front, size, window.middle_mm, view, pen)


def _draw_window_shadow(front: ClientFront, size: Size, middle: Point, view: View, pen: Pen) -> None:
    draw_inside_edge(front.shape, size, view, pen, deep_mm=WINDOW_DEEP_MM, dark=WINDOW_DARK, soft_mm=0.5, middle=middle)


def _draw_bevel(front: ClientFront, size: Size, middle: Point, bevel_mm: float, view: View, pen: Pen) -> None:
    """The white core, each side in its own light, and a fine line where the mat ends."""
    outer = front.shape.corners(size[0] + 2 * bevel_mm, size[1] + 2 * bevel_mm)
    inner = front.shape.corners(*size)
    sides = zip(
        edge_lines(front.shape, size, view), pairwise((*outer, outer[0])), pairwise((*inner, inner[0])), strict=True
    )
    for (_, inward), (start, end), (inner_start, inner_end) in sides:
        light = brightness_ratio(inward, slope=BEVEL_NORMAL)
        places = [(x + middle[0], y + middle[1]) for x, y in (start, end, inner_end, inner_start)]
        pen.tint(run(map(view.at, places), closed=True), shaded(CORE, by_ratio=min(1.0, 0.62 + 0.38 * light)))
    edge = ring(view, front.shape, (size[0] + 2 * bevel_mm, size[1] + 2 * bevel_mm), middle)
    pen.stroke(edge, BEVEL_EDGE, wide=0.22 * view.scale, opacity=0.28)


def _draw_picture(
    front: ClientFront,
    view: View,
    pen: Pen,
    picture: str,
    seen: Size,
    middle: Point = MIDDLE,
    size: Size | None = None,
    size_middle: Point = MIDDLE,
) -> None:
    """The picture at its size, clipped to the view; a pale area if there is no photo yet."""
    path = ring(view, front.shape, seen, middle)
    if not picture:
        pen.tint(path, NO_PICTURE)
        _draw_no_picture(view, pen, seen, middle)
        return
    extent = front.shape.extent(*(size or front.artwork_mm))
    half_mm, below_mm = extent.across_mm / 2, extent.below_mm
    upper_left = view.at((size_middle[0] - half_mm, size_middle[1] + extent.up_mm - below_mm))
    lower_right = view.at((size_middle[0] + half_mm, size_middle[1] - below_mm))
    pen.picture(picture, upper_left, lower_right, clip=pen.clip(path))


CLIPPED_MM = 96.0
"""So far to the right of a sheet 100 mm wide no words stand."""


def _draw_no_picture(view: View, pen: Pen, seen: Size, middle: Point) -> None:
    text = "your picture"
    across_mm, (x, y) = text_across_mm(text), view.at(middle)
    if x + across_mm / 2 > CLIPPED_MM:
        return  # it lies outside a close-up
    if across_mm < seen[0] * view.scale - 2 and seen[1] * view.scale > 2 * LETTER_MM:
        pen.text(text, (x, y + LETTER_MM * CAPITAL_RATIO / 2), anchor="middle", role=Role.FAINT)


def _draw_glass(front: ClientFront, view: View, pen: Pen) -> None:
    """A faint sheen aslant over the glazing."""
    extent = front.shape.extent(*front.sight_mm)
    left, right = view.x(-extent.across_mm / 2), view.x(extent.across_mm / 2)
    top, bottom = view.y(extent.up_mm - extent.below_mm), view.y(-extent.below_mm)
    end = left + (right - left) * 0.9, top + (bottom - top) * 0.9
    stops = [(at, "#ffffff", bright) for at, bright in GLASS]
    pen.tint(ring(view, front.shape, front.sight_mm), pen.fade((left, top), end, stops))


def _fill(front: ClientFront, view: View, pen: Pen, size_mm: Size, colour: str, middle: Point = MIDDLE) -> None:
    pen.tint(ring(view, front.shape, size_mm, middle), colour)
