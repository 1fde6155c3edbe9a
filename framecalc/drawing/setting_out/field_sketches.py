"""Sketches of fields: a small drawing beside a field's explanation shows where to measure it.

Scenes are fixed sketches in millimetres of a sheet of 60 by 40; they show no plan. A *mark* is one measured distance on
a scene: its two ends, the letter of the size, and where extension lines start if the ends lie outside the shape.
"""

from collections.abc import Callable
from functools import cache
from math import hypot

from framecalc.drawing.dimension import ARROW_MM, FIGURE_GAP_MM, arrow
from framecalc.drawing.pen import Pen, rectangle, run
from framecalc.drawing.style import CAPITAL_RATIO, LETTER_MM, Role
from framecalc.geometry.outline import Point
from framecalc.records import Record

ACROSS_MM, UP_MM = 60.0, 40.0

Scene = Callable[[Pen], None]


class MeasuredDistance(Record):
    """A measured distance on a scene; `feet` are where the extension lines of its ends start."""

    scene: Scene
    letter: str
    start: Point
    end: Point
    feet: tuple[Point, ...] = ()


@cache
def draw_field_sketch(path: str) -> str:
    """Draw the sketch of a field, as SVG for a page.

    Args:
        path: the field within a frame or within the project, such as `section.rabbet_width`; one of PLACES.
    Raises:
        KeyError: the field has no sketch.
    """
    mark = PLACES[path]
    name = path.replace(".", "-").replace("_", "-")
    title = f"Where the size “{path.rsplit('.', 1)[-1].replace('_', ' ')}” is measured: {mark.letter}"
    pen = Pen(name=f"where-{name}", across_mm=ACROSS_MM, up_mm=UP_MM, title=title, inline=True)
    mark.scene(pen)
    _draw_mark(mark, pen)
    return pen.svg()


def _draw_mark(mark: MeasuredDistance, pen: Pen) -> None:
    (x1, y1), (x2, y2) = mark.start, mark.end
    length_mm = hypot(x2 - x1, y2 - y1)
    along = ((x2 - x1) / length_mm, (y2 - y1) / length_mm)
    outward = _is_short(mark)
    reach_mm = 4.2 if outward else 0.0
    tails = (
        (x1 - along[0] * reach_mm, y1 - along[1] * reach_mm),
        (x2 + along[0] * reach_mm, y2 + along[1] * reach_mm),
    )
    pen.line(run(tails), Role.GIVEN)
    for tip, other, tail in ((mark.start, mark.end, tails[0]), (mark.end, mark.start, tails[1])):
        arrow(pen, tip, from_point=tail if outward else other, role=Role.GIVEN_ARROW)
    for foot, tip in zip(mark.feet, (mark.start, mark.end), strict=False):
        pen.line(run([foot, tip]), Role.DIMENSION)
    _write_letter(mark, along, tails, pen)


def _write_letter(mark: MeasuredDistance, along: Point, tails: tuple[Point, Point], pen: Pen) -> None:
    """Beside the middle of the line, or past its end where the line is short."""
    half_mm, upright = LETTER_MM * CAPITAL_RATIO / 2, abs(along[1]) > 0.9
    x, y = (mark.start[0] + mark.end[0]) / 2, (mark.start[1] + mark.end[1]) / 2
    if _is_short(mark):
        x, y = tails[1]
    if upright or _is_short(mark):
        pen.text(mark.letter, (x + 1.2, y + half_mm), role=Role.GIVEN_LETTER)
    else:
        slant_mm = 2.4 * abs(along[1])
        pen.text(mark.letter, (x, y - FIGURE_GAP_MM - slant_mm), anchor="middle", role=Role.GIVEN_LETTER)


def _is_short(mark: MeasuredDistance) -> bool:
    return hypot(mark.end[0] - mark.start[0], mark.end[1] - mark.start[1]) < 2 * ARROW_MM + 1


def _artwork(pen: Pen) -> None:
    """A crooked artwork, seen from the front."""
    path = run(_CROOKED, closed=True)
    pen.area(path, Role.PICTURE)
    pen.line(path, Role.EDGE)


_CROOKED = ((13.0, 33.0), (46.0, 32.0), (49.0, 9.0), (11.0, 7.5))
"""Lower left, lower right, upper right, upper left."""


def _sheet(pen: Pen) -> None:
    """A sheet, and on it the image that is to be seen."""
    _box(pen, 12, 3, 48, 37, Role.MAT)
    _box(pen, 20, 8, 40, 27, Role.PICTURE)


def _mat(pen: Pen) -> None:
    """A mat with its window, and the artwork behind it."""
    _box(pen, 10, 3, 50, 37, Role.MAT)
    _box(pen, 21, 11, 39, 26, Role.PICTURE)
    pen.line(rectangle(19, 9, 41, 28), Role.HIDDEN)


def _window_corner(pen: Pen) -> None:
    """The upper left corner of a mat's window, with the artwork's edge behind it."""
    pen.area(rectangle(5, 4, 56, 37), Role.MAT)
    pen.area(rectangle(30, 18, 56, 37), Role.PICTURE)
    pen.line("M30,37V18H56", Role.OUTLINE)
    pen.line("M18,37V10H56", Role.HIDDEN)


def _opening(pen: Pen) -> None:
    """A package pushed into the lower left corner of its opening: all its clearance is on the other two sides."""
    _box(pen, 4, 3, 56, 37, Role.WOOD)
    pen.area(rectangle(9, 8, 51, 32), Role.MAT)
    _box(pen, 9, 15, 42, 32, Role.PICTURE)
    pen.line(rectangle(9, 8, 51, 32), Role.OUTLINE)


def _frame(pen: Pen) -> None:
    """A frame from the front."""
    _box(pen, 16, 4, 54, 30, Role.WOOD, Role.OUTLINE)
    _box(pen, 21, 9, 49, 25, Role.PICTURE, Role.OUTLINE)
    pen.line("M16,4L21,9M54,4L49,9M16,30L21,25M54,30L49,25", Role.EDGE)


def _member(pen: Pen, face: str) -> None:
    """A member with a rabbet, cut across, the package in its place; `face` is the path over the top."""
    _box(pen, 28.5, 20, 52, 28, Role.MAT)
    pen.area(f"{face}V20H27V34H12Z", Role.WOOD)
    pen.line(f"{face}V20H27V34H12Z", Role.OUTLINE)


def _section(pen: Pen) -> None:
    _member(pen, "M12,12H36")


def _shaped(pen: Pen) -> None:
    _member(pen, "M12,19A7,7 0 0 1 19,12H29L36,19")


def _coved(pen: Pen) -> None:
    _member(pen, "M12,14H14A14,14 0 0 0 34,14H36")


def _stepped(pen: Pen) -> None:
    """A face that comes down to a point beside the sight edge; dashed, the blank."""
    pen.line("M18,12H36V17", Role.HIDDEN)
    _member(pen, "M12,12H18L29,17H36")


def _sloping(pen: Pen) -> None:
    _member(pen, "M12,9L36,16")


def _tray(pen: Pen) -> None:
    """A tray, cut across, with the artwork on its ledge."""
    _box(pen, 24, 15, 54, 28, Role.PICTURE)
    path = "M10,9H18V28H35V34H10Z"
    pen.area(path, Role.WOOD)
    pen.line(path, Role.OUTLINE)


def _layers(pen: Pen) -> None:
    """Three layers of a package."""
    _box(pen, 10, 7, 46, 14, Role.PICTURE)
    _box(pen, 10, 14, 46, 25, Role.GIVEN_AREA)
    _box(pen, 10, 25, 46, 33, Role.MAT)


def _calipers(pen: Pen) -> None:
    """One layer, and how much thicker it may be."""
    _box(pen, 10, 14, 46, 30, Role.GIVEN_AREA)
    pen.line("M8,9H56", Role.HIDDEN)


def _stick(pen: Pen) -> None:
    """A stick with its mitre cuts and its trimmed ends."""
    _box(pen, 4, 14, 56, 24, Role.WOOD, Role.OUTLINE)
    pen.line("M9,14L19,24M30,14L20,24M32,14L42,24M53,14L43,24", Role.EDGE)


def _patterned(pen: Pen) -> None:
    """A stick with a pattern along it."""
    _box(pen, 4, 14, 56, 24, Role.WOOD, Role.OUTLINE)
    pen.line("M8,19L14,15L20,19L14,23ZM20,19L26,15L32,19L26,23ZM32,19L38,15L44,19L38,23Z", Role.EDGE)


def _cut(pen: Pen) -> None:
    """A board and the slot that the blade leaves."""
    _box(pen, 6, 14, 26, 30, Role.WOOD, Role.OUTLINE)
    _box(pen, 34, 14, 54, 30, Role.WOOD, Role.OUTLINE)


def _trimmed(pen: Pen) -> None:
    """The end of a stick, and what is cut off it."""
    _box(pen, 8, 14, 56, 28, Role.WOOD, Role.OUTLINE)
    pen.area(rectangle(8, 14, 20, 28), Role.SHADOW)
    pen.line("M20,12V30", Role.OUTLINE)


def _box(pen: Pen, left: float, top: float, right: float, bottom: float, role: Role, line: Role = Role.EDGE) -> None:
    path = rectangle(left, top, right, bottom)
    pen.area(path, role)
    pen.line(path, line)


def _beside(corner: int, across: float, up: float) -> Point:
    """A point beside a corner of the crooked artwork."""
    return _CROOKED[corner][0] + across, _CROOKED[corner][1] + up


_OUTSIDE_ACROSS = MeasuredDistance(
    scene=_frame, letter="A", start=(16, 36.5), end=(54, 36.5), feet=((16, 31), (54, 31))
)
_OUTSIDE_UP = MeasuredDistance(scene=_frame, letter="U", start=(9, 4), end=(9, 30), feet=((15, 4), (15, 30)))

_STICK_LENGTH = MeasuredDistance(scene=_stick, letter="l", start=(4, 31), end=(56, 31), feet=((4, 25), (56, 25)))

PLACES = {
    "artwork.across": MeasuredDistance(scene=_artwork, letter="a", start=_beside(3, 0.4, 5), end=_beside(2, -0.7, 5)),
    "artwork.across_bottom": MeasuredDistance(
        scene=_artwork, letter="a", start=_beside(0, 0, -2.5), end=_beside(1, 0.3, -2.5)
    ),
    "artwork.up": MeasuredDistance(scene=_artwork, letter="u", start=_beside(0, 3, 0), end=_beside(3, 3, 0)),
    "artwork.up_right": MeasuredDistance(
        scene=_artwork, letter="u", start=_beside(1, -4, 0.2), end=_beside(2, -4, -0.2)
    ),
    "artwork.diagonal_rising": MeasuredDistance(scene=_artwork, letter="e", start=_CROOKED[0], end=_CROOKED[2]),
    "artwork.diagonal_falling": MeasuredDistance(scene=_artwork, letter="f", start=_CROOKED[3], end=_CROOKED[1]),
    "artwork.image_across": MeasuredDistance(scene=_sheet, letter="i", start=(20, 24), end=(40, 24)),
    "artwork.image_up": MeasuredDistance(scene=_sheet, letter="i", start=(30, 8), end=(30, 27)),
    "artwork.image_left": MeasuredDistance(scene=_sheet, letter="x", start=(12, 18), end=(20, 18)),
    "artwork.image_below": MeasuredDistance(scene=_sheet, letter="y", start=(30, 27), end=(30, 37)),
    "start.wall_across": _OUTSIDE_ACROSS,
    "start.wall_up": _OUTSIDE_UP,
    "start.stick_length": _STICK_LENGTH,
    "package.clearance_across": MeasuredDistance(scene=_opening, letter="c", start=(42, 24), end=(51, 24)),
    "package.clearance_up": MeasuredDistance(scene=_opening, letter="c", start=(26, 15), end=(26, 8)),
    "package.mat.overlap": MeasuredDistance(scene=_window_corner, letter="o", start=(18, 28), end=(30, 28)),
    "package.mat.border": MeasuredDistance(scene=_mat, letter="m", start=(10, 18), end=(21, 18)),
    "package.mat.bottom": MeasuredDistance(scene=_mat, letter="b", start=(30, 26), end=(30, 37)),
    "package.layers.thickness": MeasuredDistance(
        scene=_layers, letter="s", start=(51, 14), end=(51, 25), feet=((47, 14), (47, 25))
    ),
    "package.layers.tolerance": MeasuredDistance(
        scene=_calipers, letter="±", start=(52, 14), end=(52, 9), feet=((47, 14),)
    ),
    "package.layers.thinner": MeasuredDistance(
        scene=_calipers, letter="−", start=(52, 9), end=(52, 14), feet=((47, 14),)
    ),
    "section.face_width": MeasuredDistance(
        scene=_section, letter="w", start=(12, 7), end=(36, 7), feet=((12, 11), (36, 11))
    ),
    "section.thickness": MeasuredDistance(
        scene=_section, letter="t", start=(6, 12), end=(6, 34), feet=((11, 12), (11, 34))
    ),
    "section.rabbet_width": MeasuredDistance(
        scene=_section, letter="r", start=(27, 37.5), end=(36, 37.5), feet=((27, 35), (36, 21))
    ),
    "section.rabbet_depth": MeasuredDistance(
        scene=_section, letter="d", start=(55, 20), end=(55, 34), feet=((53, 20), (28, 34))
    ),
    "section.points.across": MeasuredDistance(
        scene=_coved, letter="a", start=(14, 8), end=(36, 8), feet=((14, 13), (36, 13))
    ),
    "section.points.down": MeasuredDistance(
        scene=_stepped, letter="d", start=(43, 12), end=(43, 17), feet=((37, 12), (37, 17))
    ),
    "section.points.radius": MeasuredDistance(scene=_coved, letter="r", start=(24, 4.2), end=(24, 18.2)),
    "section.face_drop": MeasuredDistance(
        scene=_sloping, letter="h", start=(43, 9), end=(43, 16), feet=((13, 9), (37, 16))
    ),
    "section.sight_edge.size": MeasuredDistance(
        scene=_shaped, letter="s", start=(29, 8), end=(36, 8), feet=((29, 11), (36, 18))
    ),
    "section.back_edge.size": MeasuredDistance(
        scene=_shaped, letter="s", start=(12, 8), end=(19, 8), feet=((12, 18), (19, 11))
    ),
    "section.moulding.stick_length": _STICK_LENGTH,
    "section.moulding.least_length": _STICK_LENGTH,
    "section.moulding.repeat": MeasuredDistance(
        scene=_patterned, letter="p", start=(20, 31), end=(32, 31), feet=((20, 25), (32, 25))
    ),
    "section.tray_gap": MeasuredDistance(
        scene=_tray, letter="g", start=(18, 5.5), end=(24, 5.5), feet=((18, 8), (24, 14))
    ),
    "section.ledge_width": MeasuredDistance(
        scene=_tray, letter="l", start=(18, 38.7), end=(35, 38.7), feet=((18, 28), (35, 35))
    ),
    "section.ledge_thickness": MeasuredDistance(
        scene=_tray, letter="h", start=(41, 28), end=(41, 34), feet=((36, 28), (36, 34))
    ),
    "known.outside_across": _OUTSIDE_ACROSS,
    "known.outside_up": _OUTSIDE_UP,
    "shop.kerf": MeasuredDistance(scene=_cut, letter="k", start=(26, 9), end=(34, 9), feet=((26, 13), (34, 13))),
    "shop.end_trim": MeasuredDistance(
        scene=_trimmed, letter="e", start=(8, 34), end=(20, 34), feet=((8, 29), (20, 29))
    ),
}
"""Every length of a frame and of the project that somebody measures, by its path."""
