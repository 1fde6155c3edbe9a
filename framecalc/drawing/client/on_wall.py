"""The frame on a wall, for its client: at a scale that the sheet prints at, beside a person or over a thing.

The middle of the frame hangs at the *eye line*, which is where the eyes of the person are; a frame too tall for that
stands clear of the floor.
"""

from collections.abc import Sequence
from functools import lru_cache, partial
from itertools import pairwise
from math import cos, pi, sin

from framecalc.drawing.client.framed import MOST_KEPT, draw_framed
from framecalc.drawing.client.room import AROUND_MM, SKIRTING_MM, THINGS, RoomThing, draw_evening, draw_room, draw_thing
from framecalc.drawing.client.seen import ClientFront
from framecalc.drawing.pen import Pen, point_text, run
from framecalc.drawing.sheet import Sheet, View, fit_scale, scale_text
from framecalc.geometry.outline import Point
from framecalc.look.tones import shaded
from framecalc.project.look import RoomLight
from framecalc.records import Record
from framecalc.units import describe_length

EYES_RATIO = 0.936
"""Height of the eyes to stature. Source: R. Drillis, R. Contini, Body Segment Parameters, 1966, from memory."""

SHEET = Sheet(across_mm=120, up_mm=132, is_paper=True)
"""Nearly square: a telephone shows it whole over its width."""

ABOVE_FLOOR_MM, CLEAR_MM, PERSON_MM, OVER_MM = 100.0, 250.0, 520.0, 150.0
"""The least that is left under a frame, what is left beside everything, how wide a person stands; what is left between
a frame and a thing under it."""

LAMP_ASIDE_MM = 16.0
"""So far to the left of the middle of a frame an evening's lamp stands [mm of the sheet]."""

COAT, LEGS, SKIN, HAIR = "#4b5560", "#343a40", "#c49a7c", "#3d2f27"
HALF_COAT = ((0, 0.815), (0.045, 0.826), (0.098, 0.812), (0.128, 0.785), (0.138, 0.7), (0.142, 0.6), (0.147, 0.49),
             (0.138, 0.452), (0.118, 0.45), (0.122, 0.4), (0.128, 0.33), (0.06, 0.318), (0, 0.316))  # fmt: skip
HALF_LEGS = ((0.004, 0.33), (0.088, 0.33), (0.078, 0.17), (0.07, 0.045), (0.084, 0.012), (0.082, 0), (0.022, 0),
             (0.024, 0.03), (0.014, 0.18), (0.004, 0.3))  # fmt: skip
"""One half of somebody in a coat who looks at the wall: from the collar round the sleeve to the hem; a leg, its shoe.
In parts of the stature. Our own, by eye, no source."""

HEAD_ACROSS_RATIO, HEAD_UP_RATIO, HEAD_AT_RATIO = 0.046, 0.07, 0.932


class _Scene(Record):
    """The scale, and the places on the wall [mm of the wall, from the left end of the floor]."""

    scale: float
    frame_x_mm: float
    middle_mm: float
    other_x_mm: float

    @property
    def floor(self) -> float:
        return SHEET.up_mm - SKIRTING_MM

    def view(self, x_mm: float, up_mm: float) -> View:
        return View(scale=self.scale, left_mm=x_mm * self.scale, base_mm=self.floor - up_mm * self.scale)


@lru_cache(maxsize=MOST_KEPT)
def draw_on_wall(front: ClientFront, *, name: str, picture: str = "") -> str:
    """Draw a frame on its wall, as SVG for a page.

    Args:
        name: distinguishes the drawings of one page.
        picture: the address of the straight picture, or the picture itself as a `data:` address; blank without one.
    """
    scene, thing = _scene(front), THINGS.get(front.look.beside)
    title = f"{front.title}, on a wall {thing.says if thing else 'beside a person'}"
    pen = Pen(name=name, across_mm=SHEET.across_mm, up_mm=SHEET.up_mm, title=title, inline=True)
    draw_room(pen, scene.view(0, 0), sheet=SHEET.whole, wall=front.look.wall_colour)
    draw_framed(front, scene.view(scene.frame_x_mm, scene.middle_mm), pen, picture, sheet=SHEET.whole)
    if thing:
        draw_thing(pen, thing, scene.view(scene.other_x_mm, 0), wall=front.look.wall_colour)
    else:
        _draw_person(pen, scene.view(scene.other_x_mm, 0), tall_mm=front.look.eye_line.mm / EYES_RATIO)
        _draw_eye_line(front, scene, pen)
    if front.look.light is RoomLight.EVENING:
        x, y = scene.view(scene.frame_x_mm, scene.middle_mm).at((0, 0))
        draw_evening(pen, sheet=SHEET.whole, lamp=(x - LAMP_ASIDE_MM, y - LAMP_ASIDE_MM / 2))
    return pen.svg()


def wall_says(front: ClientFront) -> str:
    """The line under the drawing: what the frame is seen with, and the scale in print.

    It is not part of the drawing, so that it stays legible when the drawing is small.
    """
    thing, prints = THINGS.get(front.look.beside), f"prints at {scale_text(_scene(front).scale, front.unit)}."
    if thing:
        return f"To scale, {thing.says}; {prints}"
    eye_line = describe_length(front.look.eye_line.mm, unit=front.unit)
    return f"Eye line {eye_line} above the floor; {prints}"


def wall_caption(front: ClientFront) -> str:
    """The line for a client, who sees it on a screen."""
    thing = THINGS.get(front.look.beside)
    return f"To scale, {thing.says if thing else 'beside a person'}."


def _scene(front: ClientFront) -> _Scene:
    thing = THINGS.get(front.look.beside)
    return _over(front, thing) if thing and thing.is_under else _beside(front, thing)


def _beside(front: ClientFront, thing: RoomThing | None) -> _Scene:
    """The frame at the eye line, and a person or a thing to the right of it."""
    extent, eye_mm = front.extent, front.look.eye_line.mm
    wide_mm, tall_mm = (thing.across_mm, thing.up_mm) if thing else (PERSON_MM, eye_mm / EYES_RATIO)
    middle_mm = max(eye_mm, extent.below_mm + ABOVE_FLOOR_MM)
    across_mm = extent.across_mm + wide_mm + 3 * CLEAR_MM
    over_mm = 0 if thing else CLEAR_MM
    up_mm = max(tall_mm + over_mm, middle_mm + extent.up_mm - extent.below_mm + CLEAR_MM)
    scale = _scale(front, across_mm, up_mm)
    start_mm = (SHEET.across_mm / scale - across_mm) / 2 + CLEAR_MM
    return _Scene(
        scale=scale,
        frame_x_mm=start_mm + extent.across_mm / 2,
        middle_mm=middle_mm,
        other_x_mm=start_mm + extent.across_mm + CLEAR_MM + wide_mm / 2,
    )


def _over(front: ClientFront, thing: RoomThing) -> _Scene:
    """The frame over the middle of a thing, at the eye line or as high as the thing asks for."""
    extent = front.extent
    middle_mm = max(front.look.eye_line.mm, extent.below_mm + thing.up_mm + OVER_MM)
    across_mm = max(extent.across_mm, thing.across_mm) + 2 * CLEAR_MM
    scale = _scale(front, across_mm, middle_mm + extent.up_mm - extent.below_mm + CLEAR_MM)
    middle_x_mm = SHEET.across_mm / scale / 2
    return _Scene(scale=scale, frame_x_mm=middle_x_mm, middle_mm=middle_mm, other_x_mm=middle_x_mm)


def _scale(front: ClientFront, across_mm: float, up_mm: float) -> float:
    largest = min(SHEET.across_mm / across_mm, (SHEET.up_mm - SKIRTING_MM) / up_mm)
    return fit_scale(largest, sheet=SHEET, unit=front.unit)


def _draw_person(pen: Pen, stand: View, *, tall_mm: float) -> None:
    """Somebody seen from behind, with the shadow under their feet."""
    place = partial(_at_stature, stand, tall_mm)
    for layer in range(5):
        half = 0.13 + 0.015 * layer
        pen.tint(
            _soft([place((x, y)) for x, y in _oval(half, 0.012 + 0.002 * layer, 0.002)]), "#000000", opacity=20 / 255
        )
    for side in (1, -1):
        pen.tint(run([place((side * x, y)) for x, y in HALF_LEGS], closed=True), LEGS)
    neck = [place(point) for point in ((-0.03, 0.82), (-0.026, 0.88), (0.026, 0.88), (0.03, 0.82))]
    pen.tint(run(neck, closed=True), shaded(SKIN, by_ratio=0.85))
    outline = [*HALF_COAT, *((-x, y) for x, y in reversed(HALF_COAT[1:-1]))]
    coat = _soft([place(point) for point in outline])
    pen.tint(coat, COAT)
    stops = ((0, "#ffffff", 0.16), (0.45, "#ffffff", 0.0), (0.55, "#000000", 0.0), (1, "#000000", 0.28))
    pen.tint(coat, pen.fade(place((-0.14, 0.8)), place((0.14, 0.5)), stops))
    pen.stroke(run([place((0, 0.8)), place((0, 0.33))]), "#000000", wide=0.004 * tall_mm * stand.scale, opacity=0.2)
    for side in (1, -1):
        arm = [place((side * x, y)) for x, y in ((0.1, 0.75), (0.1, 0.6), (0.104, 0.47))]
        pen.stroke(run(arm), "#000000", wide=0.004 * tall_mm * stand.scale, opacity=0.22)
    head = [place((x, y + HEAD_AT_RATIO)) for x, y in _oval(HEAD_ACROSS_RATIO, HEAD_UP_RATIO, 0)]
    pen.tint(_soft(head), HAIR)
    pen.tint(_soft(head), pen.fade(place((-0.04, 0.99)), place((0.04, 0.88)), stops))


def _at_stature(stand: View, tall_mm: float, point: Point) -> Point:
    return stand.at((point[0] * tall_mm, point[1] * tall_mm))


def _oval(across: float, up: float, middle: float) -> list[Point]:
    turns = (2 * pi * number_of / 12 for number_of in range(12))
    return [(across * cos(turn), middle + up * sin(turn)) for turn in turns]


def _soft(points: Sequence[Point]) -> str:
    """A closed curve that runs smoothly through the middles of the sides of a polygon."""
    middles = [((x + next_x) / 2, (y + next_y) / 2) for (x, y), (next_x, next_y) in pairwise([*points, points[0]])]
    bows = (f"Q{point_text(point)} {point_text(middle)}" for point, middle in zip(points[1:], middles[1:], strict=True))
    return f"M{point_text(middles[0])}{''.join(bows)}Q{point_text(points[0])} {point_text(middles[0])}Z"


def _draw_eye_line(front: ClientFront, scene: _Scene, pen: Pen) -> None:
    """The eye line passes behind the frame."""
    eye_mm, half_mm = front.look.eye_line.mm, front.extent.across_mm / 2
    wall = scene.view(0, 0)
    y, left, right = wall.y(eye_mm), wall.x(scene.frame_x_mm - half_mm), wall.x(scene.frame_x_mm + half_mm)
    ends = -AROUND_MM, SHEET.across_mm + AROUND_MM
    pen.stroke(run([(ends[0], y), (left, y)]) + run([(right, y), (ends[1], y)]), "#000000", wide=0.15, opacity=0.3)
