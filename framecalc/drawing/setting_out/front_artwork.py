"""The artwork in the front drawing: in the windows of a mat, in a tray, or as crooked as it is behind the lip."""

from collections.abc import Sequence

from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.package.mat_from_front import WindowFromFront
from framecalc.drawing.pen import Pen, run
from framecalc.drawing.ring import Size, ring
from framecalc.drawing.setting_out.crooked import exaggerated, exaggeration, upright
from framecalc.drawing.setting_out.front_read import Front, Pair
from framecalc.drawing.setting_out.image import ImageInView, draw_image
from framecalc.drawing.sheet import Area, View
from framecalc.drawing.style import CAPITAL_RATIO, LETTER_MM, Role
from framecalc.geometry.outline import Point

APART_MM = 0.7
"""Lines nearer than this on the sheet would run into one: the inner one is left out. Common practice, no source."""


def draw_artwork(front: Front, view: View, pen: Pen) -> None:
    """The picture in its place: in the mat's window, in the tray, or as crooked as it is behind the lip."""
    if front.windows:
        for window in front.windows:
            _draw_window(front, window, view, pen)
    elif front.is_crooked:
        _draw_crooked(front, view, pen)
        draw_image(front.image, view, pen)
    elif front.ledge_mm:
        _draw_in_tray(front, front.ledge_mm, view, pen)
    elif front.image:
        draw_image(front.image, view, pen)
        _draw_picture(front, view, pen, front.image.corners, _pair_of(front.image) if front.artwork else None)
    else:
        _draw_seen(front, view, pen, front.seen_mm)


def _draw_window(front: Front, window: WindowFromFront, view: View, pen: Pen) -> None:
    """Draw a window in its place: the reveal of a lower mat, the picture behind it or floating, its hidden edges."""
    outer_mm = 2 * window.reveal_mm

    def around(across_mm: float, up_mm: float, middle_mm: Point | None = None) -> str:
        return ring(view, front.shape, (across_mm, up_mm), middle_mm or window.middle_mm)

    if window.reveal_mm * view.scale > APART_MM:
        pen.line(around(window.across_mm + outer_mm, window.up_mm + outer_mm), Role.EDGE)
    opening = around(window.across_mm, window.up_mm)
    picture = around(*window.seen_mm)
    if window.floats:
        pen.area(opening, Role.SHADOW)
    pen.area(picture, Role.PICTURE)
    pen.line(opening, Role.EDGE)
    hidden_mm = (window.picture_mm[0] - window.across_mm) / 2
    if abs(hidden_mm) * view.scale > APART_MM:
        sheet = around(*window.picture_mm, window.picture_middle_mm)
        pen.line(sheet, Role.EDGE if window.floats else Role.HIDDEN)
    if window.image_mm and abs(window.across_mm - window.image_mm[0]) * view.scale > 2 * APART_MM:
        pen.line(around(*window.image_mm), Role.EDGE)
    if not front.shape.is_rectangle:
        _draw_seen(front, view, pen, window.seen_mm)
        return
    x, y = window.middle_mm
    corners = [(x + across, y + up) for across, up in upright(*(window.image_mm or window.seen_mm))]
    across, up = window.figures
    own = Pair(across=across, up=up, below_mm=up.exact_mm / 2)
    figures = own if len(front.windows) > 1 else front.artwork
    if window.image_mm and front.image:
        figures = _pair_of(front.image)
    _draw_picture(front, view, pen, corners, figures if front.artwork else None)


def _draw_in_tray(front: Front, ledge_mm: tuple[float, float], view: View, pen: Pen) -> None:
    path = ring(view, front.shape, front.artwork_mm)
    pen.area(path, Role.PICTURE)
    pen.line(path, Role.EDGE)
    _draw_ledge(front, ledge_mm, view, pen)
    _draw_seen(front, view, pen, front.artwork_mm)


def _draw_seen(front: Front, view: View, pen: Pen, seen_mm: Size) -> None:
    """The picture's place: its diagonals, or of a polygon its spokes, and its size."""
    if front.shape.is_rectangle:
        _draw_picture(front, view, pen, upright(*seen_mm), front.artwork)
        return
    middle = view.at((0.0, 0.0))
    corners = [view.at(corner) for corner in front.shape.corners(*seen_mm)]
    for corner in corners:
        pen.line(run([middle, corner]), Role.DIAGONAL)
    if front.artwork:
        (left, bottom), (right, _) = corners[0], corners[-1]
        box = Area(left_mm=left, top_mm=2 * middle[1] - bottom, right_mm=right, bottom_mm=bottom)
        _write_artwork(front.artwork, pen, box)


def _draw_ledge(front: Front, ledge_mm: tuple[float, float], view: View, pen: Pen) -> None:
    """The opening in the ledge, behind the artwork."""
    apart_mm = min(size - ledge for size, ledge in zip(front.artwork_mm, ledge_mm, strict=True)) / 2
    if apart_mm * view.scale > APART_MM:
        pen.line(ring(view, front.shape, ledge_mm), Role.HIDDEN)


def _draw_crooked(front: Front, view: View, pen: Pen) -> None:
    factor = exaggeration(front.corners, scale=view.scale)
    shown = exaggerated(front.corners, factor)
    path = run([view.at(corner) for corner in shown], closed=True)
    if front.ledge_mm:
        pen.area(path, Role.PICTURE)
        _draw_ledge(front, front.ledge_mm, view, pen)
    pen.line(path, Role.EDGE if front.ledge_mm else Role.HIDDEN)
    _draw_picture(front, view, pen, shown, front.artwork)


def _draw_picture(front: Front, view: View, pen: Pen, corners: Sequence[Point], figures: Pair | None) -> None:
    """The picture's place: diagonals from corner to corner, and its size between them where it fits."""
    points = [view.at(corner) for corner in corners]
    pen.line(run([points[0], points[2]]) + run([points[1], points[3]]), Role.DIAGONAL)
    left, right = max(points[0][0], points[3][0]), min(points[1][0], points[2][0])
    top, bottom = max(points[2][1], points[3][1]), min(points[0][1], points[1][1])
    seen_mm = (front.ledge_mm[1] if front.ledge_mm else front.sizes.sight_up_mm) / 2
    top, bottom = max(top, view.y(seen_mm)), min(bottom, view.y(-seen_mm))
    if figures:
        _write_artwork(figures, pen, Area(left_mm=left, top_mm=top, right_mm=right, bottom_mm=bottom))


def _write_artwork(artwork: Pair, pen: Pen, box: Area) -> None:
    """Write the name and size of a box along its lower edge; the name along the upper edge if it does not fit."""
    middle, capital_mm = (box.left_mm + box.right_mm) / 2, LETTER_MM * CAPITAL_RATIO
    size = f"{artwork.across.text} × {artwork.up.text}"
    low, high = box.bottom_mm - 1.6, box.top_mm + 1.6 + capital_mm
    spread_mm = (box.up_mm / 2 - 1.6 - capital_mm) / box.up_mm * box.across_mm
    name = artwork.across.name.partition("_")[0].replace("picture", "artwork")
    if text_across_mm(f"{name} {size}") / 2 + 0.8 <= spread_mm:
        pen.text(f"{name} {size}", (middle, low), anchor="middle", role=Role.FAINT)
    elif text_across_mm(size) / 2 + 0.8 <= spread_mm:
        pen.text(name, (middle, high), anchor="middle", role=Role.FAINT)
        pen.text(size, (middle, low), anchor="middle", role=Role.FAINT)


def _pair_of(image: ImageInView) -> Pair:
    return Pair(across=image.across, up=image.up, below_mm=image.up.exact_mm / 2)
