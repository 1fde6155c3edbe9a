"""The front: the frame as it hangs, with what its lip hides.

Outlines are the outside and the sight edge; dashed are the rabbet wall and the package behind the lip; the strip of the
package that the lip covers is tinted. The place of the picture is shown by its diagonals. A crooked artwork is drawn
with its error exaggerated, by the factor written beside the drawing; its figures are true.
"""

from framecalc.drawing.dimension import Axis, DimensionSpan, beyond_mm, draw_lanes
from framecalc.drawing.pen import Pen
from framecalc.drawing.record import Drawing, PaperDrawing
from framecalc.drawing.ring import mitres, ring
from framecalc.drawing.setting_out.crooked import exaggeration
from framecalc.drawing.setting_out.front_artwork import APART_MM, draw_artwork
from framecalc.drawing.setting_out.front_read import Front, read_front, read_small_front
from framecalc.drawing.setting_out.grain import draw_grain
from framecalc.drawing.sheet import Area, Sheet, View, fit_scale
from framecalc.drawing.style import Role
from framecalc.words import Words, say

UP_MM, SMALL_MM = 76.0, 40.0
"""How tall the panel is; the side of the square that a front without words is drawn in."""


def draw_front(front: Front, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the front; returns the scale, which a paper prints."""
    view = _placed(front, sheet, room)
    _draw_members(front, view, pen)
    _draw_opening(front, view, pen)
    draw_artwork(front, view, pen)
    _draw_sizes(front, sheet, view, pen, room)
    return view.scale


def draw_small_front(front: Front, sheet: Sheet, pen: Pen, _: Area) -> float:
    """Draw the front without words, as large as its panel; it states no scale."""
    room = Area(left_mm=1, top_mm=1, right_mm=sheet.across_mm - 1, bottom_mm=sheet.up_mm - 1)
    draw_front(front, sheet, pen, room)
    return 0.0


def front_title(front: Front) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    return front.title


def _placed(front: Front, sheet: Sheet, room: Area) -> View:
    """Fill the room with the frame and its dimension lanes, and centre them in what is left."""
    lanes = len(front.lanes)
    if lanes:
        room = room.less(left_mm=sheet.lanes(lanes) + sheet.figure_mm * 0.6, bottom_mm=sheet.lanes(lanes))
    extent = front.extent
    across_mm, up_mm = extent.across_mm, extent.up_mm
    right_mm = top_mm = 0.0
    for _ in range(4):
        largest = min((room.across_mm - right_mm) / across_mm, (room.up_mm - top_mm) / up_mm)
        scale = fit_scale(largest, sheet=sheet, unit=front.unit)
        right_mm, top_mm = _beyond(front, scale, sheet)
    spare_across_mm = room.across_mm - right_mm - across_mm * scale
    spare_up_mm = room.up_mm - top_mm - up_mm * scale
    return View(
        scale=scale,
        left_mm=room.left_mm + spare_across_mm / 2 + across_mm / 2 * scale,
        base_mm=room.bottom_mm - spare_up_mm / 2 - extent.below_mm * scale,
    )


def _beyond(front: Front, scale: float, sheet: Sheet) -> tuple[float, float]:
    view = View(scale=scale, left_mm=0, base_mm=0)
    return beyond_mm(_spans_across(front, view), sheet), beyond_mm(_spans_up(front, view), sheet)


def _spans_across(front: Front, view: View) -> list[DimensionSpan]:
    foot_mm = view.y(-front.extent.below_mm)
    return [
        DimensionSpan(
            from_mm=view.x(-pair.across.exact_mm / 2),
            to_mm=view.x(pair.across.exact_mm / 2),
            feet_mm=(foot_mm, foot_mm),
            figure=pair.across,
            wordings=_wordings(word, front.words),
            beyond=f"{say(word, front.words)} {{}}",
        )
        for word, pair in front.lanes
    ]


def _wordings(word: str, words: Words) -> tuple[str, ...]:
    fullest = ("rabbet size {}",) if word == "rabbet" else ()
    return tuple(say(wording, words) for wording in (*fullest, f"{word} {{}}", "{}"))


def _spans_up(front: Front, view: View) -> list[DimensionSpan]:
    foot_mm = view.x(-front.extent.across_mm / 2)
    return [
        DimensionSpan(
            from_mm=view.y(pair.up.exact_mm - pair.below_mm),
            to_mm=view.y(-pair.below_mm),
            feet_mm=(foot_mm, foot_mm),
            figure=pair.up,
            wordings=_wordings(word, front.words),
            beyond=f"{say(word, front.words)} {{}}",
        )
        for word, pair in front.lanes
    ]


def _draw_members(front: Front, view: View, pen: Pen) -> None:
    outside = ring(view, front.shape, front.outside_mm)
    pen.area(outside, Role.WOOD)
    pen.line(outside, Role.OUTLINE)
    for mitre in mitres(view, front.shape, front.outside_mm, front.sight_mm):
        pen.line(mitre, Role.EDGE)
    land_mm = (front.sizes.outside_across_mm - front.sizes.rabbet_across_mm) / 2
    draw_grain(pen, view, shape=front.shape, outside_mm=front.outside_mm, land_mm=land_mm)


def _draw_opening(front: Front, view: View, pen: Pen) -> None:
    """Draw the covered strip, the contents of the opening, and the hidden edges that the scale can show."""
    is_tray = front.ledge_mm is not None
    sight = ring(view, front.shape, front.sight_mm)
    if not is_tray:
        pen.area(ring(view, front.shape, front.package_mm), Role.COVERED)
    pen.area(sight, Role.SHADOW if is_tray else Role.MAT if front.windows else Role.PICTURE)
    pen.line(sight, Role.OUTLINE)
    if front.fillet_mm:
        _draw_fillet(front, sight, view, pen)
    if not is_tray:
        _draw_hidden(front, view, pen)


def _draw_fillet(front: Front, sight: str, view: View, pen: Pen) -> None:
    """Draw the strip of a fillet or a liner beside the lip, with its own edge."""
    inner = ring(view, front.shape, front.seen_mm)
    pen.area(sight, Role.WOOD)
    pen.area(inner, Role.MAT if front.windows else Role.PICTURE)
    pen.line(inner, Role.EDGE)


def _draw_hidden(front: Front, view: View, pen: Pen) -> None:
    sizes = front.sizes
    apart_mm = APART_MM / view.scale
    if sizes.rabbet_across_mm - sizes.sight_across_mm > 2 * apart_mm:
        pen.line(ring(view, front.shape, front.rabbet_mm), Role.HIDDEN)
    shows_gap = sizes.rabbet_across_mm - sizes.package_across_mm > 2 * apart_mm
    if shows_gap and sizes.package_across_mm - sizes.sight_across_mm > 2 * apart_mm and not front.is_crooked:
        pen.line(ring(view, front.shape, front.package_mm), Role.HIDDEN)


def _draw_sizes(front: Front, sheet: Sheet, view: View, pen: Pen, room: Area) -> None:
    if not front.lanes:
        return
    lanes = range(len(front.lanes))
    below = [view.y(-front.extent.below_mm) + sheet.lane(lane) for lane in lanes]
    beside = [view.x(-front.extent.across_mm / 2) - sheet.lane(lane) for lane in lanes]
    draw_lanes(pen, _spans_across(front, view), axis=Axis.ACROSS, lanes_mm=below, toward=1)
    draw_lanes(pen, _spans_up(front, view), axis=Axis.UP, lanes_mm=beside, toward=-1)
    factor = exaggeration(front.corners, scale=view.scale)
    if front.is_crooked and factor > 1:
        note = f"corners shown ×{factor}"
        at = (room.right_mm, room.bottom_mm if sheet.is_paper else sheet.up_mm - 1)
        pen.text(note, at, anchor="end", role=Role.FAINT)


FRONT = Drawing(
    name="front",
    label="Front",
    read=read_front,
    title=front_title,
    draw=draw_front,
    up_mm=UP_MM,
    of_every_frame=True,
    paper=PaperDrawing(name="front", label="Front"),
)
THUMBNAIL = Drawing(
    name="thumbnail",
    read=read_small_front,
    title=front_title,
    draw=draw_small_front,
    across_mm=SMALL_MM,
    up_mm=SMALL_MM,
)
