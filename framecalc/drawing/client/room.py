"""A room for the frame: the wall in its light, the floor, and plain things of usual size to measure a frame by.

All of it is our own drawing. Places are on the wall, in millimetres from the middle of the thing and up from the floor.
"""

from collections.abc import Callable

from framecalc.drawing.pen import Pen, circle, number, rectangle, run
from framecalc.drawing.sheet import Area, View
from framecalc.geometry.outline import Point
from framecalc.look.tones import mixed, shaded
from framecalc.project.look import Beside
from framecalc.records import Record, replace

SKIRTING_MM, SKIRTING_UP_MM = 6.0, 90.0
"""How much of the floor is on the sheet [mm of the sheet], how high its skirting board is."""

AROUND_MM = 90.0
"""How far the room goes on beyond the sheet [mm of the sheet]."""

FLOOR, WOOD, CLOTH, CLAY, LEAF, BRASS = "#a58d72", "#6d4d36", "#6f8079", "#b9694b", "#5d7358", "#a8925c"
STANDS_MM = 1.6
"""How far before the wall things stand, as seen from above their feet [mm of the sheet]."""


EVENING = ((0, "#ffcf87", 0.2), (0.28, "#8a5a26", 0.24), (0.62, "#2a1a0c", 0.6), (1, "#120b06", 0.76))
"""What an evening lays over a room, from the lamp outward: how far out, colour, opacity. Our own, by eye, no source."""


class RoomThing(Record):
    """Something to measure a frame by: its size, whether frames hang over it or beside it, and how it is drawn."""

    says: str
    across_mm: float
    up_mm: float
    is_under: bool
    draw: Callable[[Pen, View, str], None]


def draw_room(pen: Pen, view: View, *, sheet: Area, wall: str) -> None:
    """Draw the wall with the light falling off to the lower right, its skirting board and the floor.

    The room goes on beyond the sheet: a page that has more space shows it.
    """
    floor = sheet.bottom_mm - SKIRTING_MM
    inside, sheet = sheet, sheet.less(left_mm=-AROUND_MM, top_mm=-AROUND_MM, right_mm=-AROUND_MM, bottom_mm=-AROUND_MM)
    whole = rectangle(sheet.left_mm, sheet.top_mm, sheet.right_mm, floor)
    pen.tint(whole, wall)
    stops = ((0, "#ffffff", 0.14), (0.45, "#ffffff", 0.0), (0.5, "#000000", 0.0), (1, "#000000", 0.14))
    pen.tint(whole, pen.fade((inside.left_mm, inside.top_mm), (inside.right_mm, floor), stops))
    pen.tint(rectangle(sheet.left_mm, floor, sheet.right_mm, sheet.bottom_mm), FLOOR)
    for number_of in range(1, 12):
        y = floor + SKIRTING_MM * (number_of / 4) ** 1.3
        pen.stroke(run([(sheet.left_mm, y), (sheet.right_mm, y)]), "#4a3724", wide=0.12, opacity=0.3)
    top = floor - SKIRTING_UP_MM * view.scale
    pen.tint(rectangle(sheet.left_mm, top, sheet.right_mm, floor), mixed(wall, "#ffffff", by_ratio=0.55))
    pen.stroke(run([(sheet.left_mm, top), (sheet.right_mm, top)]), "#000000", wide=0.15, opacity=0.18)
    pen.stroke(run([(sheet.left_mm, floor), (sheet.right_mm, floor)]), "#000000", wide=0.25, opacity=0.35)


def draw_evening(pen: Pen, *, sheet: Area, lamp: Point) -> None:
    """Draw the evening over everything: a warm lamp, and the dark that lies round its light."""
    whole = sheet.less(left_mm=-AROUND_MM, top_mm=-AROUND_MM, right_mm=-AROUND_MM, bottom_mm=-AROUND_MM)
    path = rectangle(whole.left_mm, whole.top_mm, whole.right_mm, whole.bottom_mm)
    pen.tint(path, pen.glow(lamp, sheet.across_mm * 1.1, EVENING))


def draw_thing(pen: Pen, thing: RoomThing, view: View, *, wall: str) -> None:
    """Draw a thing: a door in the wall, everything else before it."""
    thing.draw(pen, replace(view, base_mm=view.base_mm + STANDS_MM) if thing.is_under else view, wall)


def _box(
    pen: Pen, view: View, left: float, low: float, right: float, high: float, fill: str, *, round_mm: float = 0
) -> None:
    """An upright rectangle with round corners."""
    pen.tint(_rounded(view, left, low, right, high, round_mm), fill)


def _rounded(view: View, left: float, low: float, right: float, high: float, round_mm: float) -> str:
    if not round_mm:
        return view.rectangle(left, low, right, high)
    r, (x, y), (end_x, end_y) = round_mm * view.scale, view.at((left, high)), view.at((right, low))
    arc = f"A{number(r)},{number(r)} 0 0 1 "
    places = [(x + r, y), (end_x - r, y), (end_x, y + r), (end_x, end_y - r), (end_x - r, end_y), (x + r, end_y)]
    places += [(x, end_y - r), (x, y + r)]
    texts = [f"{number(px)},{number(py)}" for px, py in places]
    return (
        f"M{texts[0]}L{texts[1]}{arc}{texts[2]}L{texts[3]}{arc}{texts[4]}L{texts[5]}{arc}{texts[6]}L{texts[7]}{arc}"
        f"{texts[0]}Z"
    )


def _lit(pen: Pen, view: View, left: float, low: float, right: float, high: float, fill: str, round_mm: float) -> None:
    """A soft body: paler above, darker below."""
    path = _rounded(view, left, low, right, high, round_mm)
    pen.tint(path, fill)
    stops = ((0, "#ffffff", 0.16), (0.3, "#ffffff", 0.03), (0.6, "#000000", 0.04), (1, "#000000", 0.22))
    pen.tint(path, pen.fade(view.at((left, high)), view.at((left, low)), stops))
    pen.stroke(path, "#000000", wide=0.12, opacity=0.22)


def _shadow(pen: Pen, view: View, left: float, low: float, right: float, high: float) -> None:
    """On the wall, to the lower right; and under the feet."""
    for layer in range(8):
        more = 16 * layer
        path = _rounded(view, left + 130 - more / 2, low, right + 60 + more, high - 30 + more / 3, 60 + more / 2)
        pen.tint(path, "#000000", opacity=5 / 255)
    for layer in range(5):
        more = 25 * layer
        path = _rounded(view, left - more + 20, -26 - more / 5, right + more + 20, 6 + more / 8, 14)
        pen.tint(path, "#000000", opacity=18 / 255)


def _draw_sofa(pen: Pen, view: View, wall: str) -> None:
    """Two seats, 1900 wide and 800 high."""
    cloth = CLOTH
    _shadow(pen, view, -950, 60, 950, 790)
    for x in (-880, 820):
        legs = [(x, 130), (x + 60, 130), (x + 45, 0), (x + 18, 0)]
        pen.tint(run(map(view.at, legs), closed=True), WOOD)
    _lit(pen, view, -800, 300, 800, 800, shaded(cloth, by_ratio=0.92), 60)
    for x in (-790, 5):
        _lit(pen, view, x, 380, x + 785, 770, cloth, 70)
    _lit(pen, view, -800, 130, 800, 330, shaded(cloth, by_ratio=0.8), 20)
    for x in (-785, 3):
        _lit(pen, view, x, 290, x + 782, 450, shaded(cloth, by_ratio=1.06), 45)
    for x in (-950, 770):
        _lit(pen, view, x, 120, x + 180, 600, shaded(cloth, by_ratio=0.97), 70)
    _cushion(pen, view, (-560, 590), 0.16, CLAY)
    _cushion(pen, view, (555, 580), -0.12, "#e2dac8")


def _cushion(pen: Pen, view: View, middle: Point, lean: float, fill: str) -> None:
    """A square of cloth that leans."""
    (x, y), half = middle, 170
    corners = [
        (x + a * half + b * half * lean, y + b * half - a * half * lean)
        for a, b in ((-1, -1), (-1, 1), (1, 1), (1, -1))
    ]
    path = _pillow([view.at(corner) for corner in corners])
    pen.tint(path, fill)
    stops = ((0, "#ffffff", 0.16), (0.5, "#ffffff", 0.0), (1, "#000000", 0.2))
    pen.tint(path, pen.fade(view.at(corners[1]), view.at(corners[3]), stops))


def _pillow(corners: list[Point]) -> str:
    """Sides that bow in a little between four points."""
    middle = sum(x for x, _ in corners) / 4, sum(y for _, y in corners) / 4
    text = f"M{number(corners[0][0])},{number(corners[0][1])}"
    for here, after in zip(corners, [*corners[1:], corners[0]], strict=True):
        bow = [((a + b) / 2) * 0.93 + c * 0.07 for a, b, c in zip(here, after, middle, strict=True)]
        text += f"Q{number(bow[0])},{number(bow[1])} {number(after[0])},{number(after[1])}"
    return text + "Z"


def _draw_table(pen: Pen, view: View, wall: str) -> None:
    """A side table, 1200 wide and 780 high, with a vase and two books."""
    _shadow(pen, view, -600, 500, 600, 780)
    for x in (-575, 525):
        legs = [(x, 740), (x + 50, 740), (x + 40, 0), (x + 10, 0)]
        pen.tint(run(map(view.at, legs), closed=True), shaded(WOOD, by_ratio=0.85))
    _lit(pen, view, -560, 650, 560, 740, shaded(WOOD, by_ratio=0.9), 4)
    for x in (-370, 0):
        pen.stroke(_rounded(view, x + 5, 662, x + 365, 730, 3), "#000000", wide=0.12, opacity=0.3)
        pen.tint(circle(view.at((x + 185, 696)), 11 * view.scale), BRASS)
    _lit(pen, view, -600, 740, 600, 780, WOOD, 5)
    _lit(pen, view, 250, 780, 520, 812, "#41566b", 3)
    _lit(pen, view, 270, 812, 505, 840, "#d8cdb6", 3)
    _draw_vase(pen, view)


def _draw_vase(pen: Pen, view: View) -> None:
    for lean, tall in ((-90, 250), (-20, 300), (60, 265), (110, 190)):
        stem = run(
            [view.at((-400, 960)), view.at((-400 + lean * 0.7, 960 + tall * 0.7)), view.at((-400 + lean, 960 + tall))]
        )
        pen.stroke(stem, LEAF, wide=7 * view.scale)
        pen.tint(circle(view.at((-400 + lean, 960 + tall)), 24 * view.scale), LEAF)
        pen.tint(circle(view.at((-400 + lean * 0.7, 960 + tall * 0.7)), 18 * view.scale), shaded(LEAF, by_ratio=1.15))
    _lit(pen, view, -455, 780, -345, 930, "#d9d2c2", 45)
    _lit(pen, view, -425, 900, -375, 975, "#d9d2c2", 10)


def _draw_door(pen: Pen, view: View, wall: str) -> None:
    """A door of 826 by 2040 in its casing, with two panels."""
    white = mixed(wall, "#ffffff", by_ratio=0.7)
    _box(pen, view, -478, 0, 478, 2110, shaded(white, by_ratio=0.97))
    pen.stroke(view.rectangle(-478, 0, 478, 2110), "#000000", wide=0.14, opacity=0.3)
    _box(pen, view, -413, 0, 413, 2040, white)
    pen.stroke(view.rectangle(-413, 0, 413, 2040), "#000000", wide=0.16, opacity=0.4)
    for low, high in ((170, 880), (1010, 1900)):
        pen.tint(view.rectangle(-290, low, 290, high), shaded(white, by_ratio=0.96))
        dark, bright = [(-290, low), (-290, high), (290, high)], [(290, high), (290, low), (-290, low)]
        pen.stroke(run(map(view.at, dark)), "#000000", wide=9 * view.scale, opacity=0.22)
        pen.stroke(run(map(view.at, bright)), "#ffffff", wide=9 * view.scale, opacity=0.6)
    _box(pen, view, -375, 930, -335, 1110, BRASS, round_mm=8)
    _box(pen, view, -360, 1035, -235, 1058, shaded(BRASS, by_ratio=0.85), round_mm=10)


THINGS = {
    Beside.SOFA: RoomThing(says="over a sofa 1.9 m wide", across_mm=1900, up_mm=800, is_under=True, draw=_draw_sofa),
    Beside.TABLE: RoomThing(says="over a table 1.2 m wide", across_mm=1200, up_mm=780, is_under=True, draw=_draw_table),
    Beside.DOOR: RoomThing(
        says="beside a door 2.04 m high", across_mm=956, up_mm=2110, is_under=False, draw=_draw_door
    ),
}
"""By what the maker chooses; a person is drawn with the eye line. Usual sizes, common practice, no source."""
