"""The front: the frame as it hangs, with what its lip hides.

Outlines are the outside and the sight edge; dashed are the rabbet wall and the package behind the lip; the strip of the
package that the lip covers is tinted. The place of the picture is shown by its diagonals. A crooked artwork is drawn
with its error exaggerated, by the factor written beside the drawing; its figures are true.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from framecalc.drawing.dimension import Axis, DimensionSpan, beyond_mm, draw_lanes
from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.package.mat_from_front import WindowFromFront, windows_from_front
from framecalc.drawing.pen import Pen, run
from framecalc.drawing.record import Drawing, PaperDrawing
from framecalc.drawing.ring import Size, mitres, ring
from framecalc.drawing.setting_out.crooked import exaggerated, exaggeration, is_crooked, upright
from framecalc.drawing.setting_out.grain import draw_grain
from framecalc.drawing.setting_out.image import ImageInView, draw_image, read_image
from framecalc.drawing.sheet import Area, Sheet, View, fit_scale
from framecalc.drawing.style import CAPITAL_RATIO, LETTER_MM, Role
from framecalc.geometry.outline import Point
from framecalc.plan import FramePlan
from framecalc.plan.figures import Figure
from framecalc.sizes.chain import Sizes
from framecalc.sizes.shape import Extent, Shape
from framecalc.units import Unit
from framecalc.words import Words, say

UP_MM, SMALL_MM = 76.0, 40.0
"""How tall the panel is; the side of the square that a front without words is drawn in."""

APART_MM = 0.7
"""Lines nearer than this on the sheet would run into one: the inner one is left out. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """A size as figures, across and up, and how far it reaches down from the middle of the frame."""

    across: Figure
    up: Figure
    below_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Front:
    """All that the front drawing reads from a plan. Without `lanes` and `artwork` it is drawn without words.

    Of a polygon the sizes are those across its flats; `extent` is the upright rectangle round it.
    """

    sizes: Sizes
    windows: tuple[WindowFromFront, ...]
    fillet_mm: float
    artwork_mm: tuple[float, float]
    corners: tuple[Point, ...]
    ledge_mm: tuple[float, float] | None
    lanes: tuple[tuple[str, Pair], ...]
    artwork: Pair | None
    image: ImageInView | None
    unit: Unit
    words: Words
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

    @property
    def rabbet_mm(self) -> Size:
        """The rabbet size."""
        return self.sizes.rabbet_across_mm, self.sizes.rabbet_up_mm

    @property
    def package_mm(self) -> Size:
        """The package."""
        return self.sizes.package_across_mm, self.sizes.package_up_mm

    @property
    def seen_mm(self) -> Size:
        """What stays in view inside the lip and a fillet."""
        return self.sizes.sight_across_mm - 2 * self.fillet_mm, self.sizes.sight_up_mm - 2 * self.fillet_mm


def read_front(plan: FramePlan) -> Front:
    """Read from a plan what the front shows."""
    names = ("artwork", "sight", "outside") if plan.is_tray else ("sight", "rabbet", "outside")
    words = ("artwork", "inside", "outside") if plan.is_tray else names
    return Front(
        sizes=plan.sizes,
        windows=windows_from_front(plan),
        fillet_mm=plan.package.fillet_mm,
        artwork_mm=(plan.settled.artwork_across_mm, plan.settled.artwork_up_mm),
        corners=plan.play.corners,
        ledge_mm=(plan.tray.opening_across_mm, plan.tray.opening_up_mm) if plan.tray else None,
        lanes=tuple((word, _pair(plan, name)) for word, name in zip(words, names, strict=True)),
        artwork=_pair(plan, "artwork"),
        image=read_image(plan),
        unit=plan.unit,
        words=plan.project.shop.words,
        title=_title(plan),
    )


def read_small_front(plan: FramePlan) -> Front:
    """Read from a plan what a front too small for words shows."""
    return replace(read_front(plan), lanes=(), artwork=None)


def draw_front(front: Front, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw the front; returns the scale, which a paper prints."""
    view = _placed(front, sheet, room)
    _draw_members(front, view, pen)
    _draw_opening(front, view, pen)
    _draw_artwork(front, view, pen)
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


def _title(plan: FramePlan) -> str:
    across, up = plan.figures["outside_across"], plan.figures["outside_up"]
    return f"Front of {plan.frame.name}: {across.text} × {up.text} {plan.unit} outside"


def _pair(plan: FramePlan, name: str) -> Pair:
    """A size in figures; of a polygon that of the rectangle round it, whose middle is seldom that of the frame."""
    up_mm = plan.settled.artwork_up_mm if name == "artwork" else getattr(plan.sizes, f"{name}_up_mm")
    return Pair(across=plan.figures[f"{name}_across"], up=plan.figures[f"{name}_up"], below_mm=up_mm / 2)


def _pair_of(image: ImageInView) -> Pair:
    return Pair(across=image.across, up=image.up, below_mm=image.up.exact_mm / 2)


def _placed(front: Front, sheet: Sheet, room: Area) -> View:
    """Fill the room with the frame and its dimension lanes, and centre them in what is left."""
    lanes = len(front.lanes)
    if lanes:
        room = room.less(left_mm=sheet.lanes(lanes) + LETTER_MM * 0.6, bottom_mm=sheet.lanes(lanes))
    extent = front.extent
    across_mm, up_mm = extent.across_mm, extent.up_mm
    right_mm = top_mm = 0.0
    for _ in range(4):
        largest = min((room.across_mm - right_mm) / across_mm, (room.up_mm - top_mm) / up_mm)
        scale = fit_scale(largest, sheet=sheet, unit=front.unit)
        right_mm, top_mm = _beyond(front, scale)
    spare_across_mm = room.across_mm - right_mm - across_mm * scale
    spare_up_mm = room.up_mm - top_mm - up_mm * scale
    return View(
        scale=scale,
        left_mm=room.left_mm + spare_across_mm / 2 + across_mm / 2 * scale,
        base_mm=room.bottom_mm - spare_up_mm / 2 - extent.below_mm * scale,
    )


def _beyond(front: Front, scale: float) -> tuple[float, float]:
    view = View(scale=scale, left_mm=0, base_mm=0)
    return beyond_mm(_spans_across(front, view)), beyond_mm(_spans_up(front, view))


def _spans_across(front: Front, view: View) -> list[DimensionSpan]:
    foot_mm = view.y(-front.extent.below_mm)
    return [
        DimensionSpan(
            from_mm=view.x(-pair.across.exact_mm / 2),
            to_mm=view.x(pair.across.exact_mm / 2),
            feet_mm=(foot_mm, foot_mm),
            figure=pair.across,
            wordings=(f"{say(word, front.words)} {{}}", "{}"),
            beyond=f"{say(word, front.words)} {{}}",
        )
        for word, pair in front.lanes
    ]


def _spans_up(front: Front, view: View) -> list[DimensionSpan]:
    foot_mm = view.x(-front.extent.across_mm / 2)
    return [
        DimensionSpan(
            from_mm=view.y(pair.up.exact_mm - pair.below_mm),
            to_mm=view.y(-pair.below_mm),
            feet_mm=(foot_mm, foot_mm),
            figure=pair.up,
            wordings=(f"{say(word, front.words)} {{}}", "{}"),
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
    if shows_gap and sizes.package_across_mm - sizes.sight_across_mm > 2 * apart_mm and not _is_crooked(front):
        pen.line(ring(view, front.shape, front.package_mm), Role.HIDDEN)


def _is_crooked(front: Front) -> bool:
    return not front.windows and is_crooked(front.corners)


def _draw_artwork(front: Front, view: View, pen: Pen) -> None:
    """The picture in its place: in the mat's window, in the tray, or as crooked as it is behind the lip."""
    if front.windows:
        for window in front.windows:
            _draw_window(front, window, view, pen)
    elif _is_crooked(front):
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
    if window.reveal_mm * view.scale > APART_MM:
        pen.line(_around(window, view, window.across_mm + outer_mm, window.up_mm + outer_mm), Role.EDGE)
    opening = _around(window, view, window.across_mm, window.up_mm)
    picture = _around(window, view, *window.seen_mm)
    if window.floats:
        pen.area(opening, Role.SHADOW)
    pen.area(picture, Role.PICTURE)
    pen.line(opening, Role.EDGE)
    hidden_mm = (window.picture_mm[0] - window.across_mm) / 2
    if abs(hidden_mm) * view.scale > APART_MM:
        sheet = _around(window, view, *window.picture_mm, middle=window.picture_middle_mm)
        pen.line(sheet, Role.EDGE if window.floats else Role.HIDDEN)
    if window.image_mm and abs(window.across_mm - window.image_mm[0]) * view.scale > 2 * APART_MM:
        pen.line(_around(window, view, *window.image_mm), Role.EDGE)
    x, y = window.middle_mm
    corners = [(x + across, y + up) for across, up in upright(*(window.image_mm or window.seen_mm))]
    across, up = window.figures
    own = Pair(across=across, up=up, below_mm=up.exact_mm / 2)
    figures = own if len(front.windows) > 1 else front.artwork
    if window.image_mm and front.image:
        figures = _pair_of(front.image)
    _draw_picture(front, view, pen, corners, figures if front.artwork else None)


def _around(window: WindowFromFront, view: View, across_mm: float, up_mm: float, *, middle: Point | None = None) -> str:
    """An upright rectangle about the middle of a window, or another middle."""
    x, y = middle or window.middle_mm
    return view.rectangle(x - across_mm / 2, y - up_mm / 2, x + across_mm / 2, y + up_mm / 2)


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


def _draw_sizes(front: Front, sheet: Sheet, view: View, pen: Pen, room: Area) -> None:
    if not front.lanes:
        return
    lanes = range(len(front.lanes))
    below = [view.y(-front.extent.below_mm) + sheet.lane(lane) for lane in lanes]
    beside = [view.x(-front.extent.across_mm / 2) - sheet.lane(lane) for lane in lanes]
    draw_lanes(pen, _spans_across(front, view), axis=Axis.ACROSS, lanes_mm=below, toward=1)
    draw_lanes(pen, _spans_up(front, view), axis=Axis.UP, lanes_mm=beside, toward=-1)
    factor = exaggeration(front.corners, scale=view.scale)
    if _is_crooked(front) and factor > 1:
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
