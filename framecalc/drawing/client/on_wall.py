"""The frame on a wall, for its client: at a scale that the sheet prints at, beside a person or over a thing.

The middle of the frame hangs at the *eye line*, which is where the eyes of the person are; a frame too tall for that
stands clear of the floor.
"""

from dataclasses import dataclass
from functools import lru_cache

from framecalc.drawing.client.framed import MOST_KEPT, draw_framed
from framecalc.drawing.client.room import SKIRTING_MM, THINGS, RoomThing, draw_room, draw_thing
from framecalc.drawing.client.seen import ClientFront
from framecalc.drawing.pen import Pen, circle, run
from framecalc.drawing.sheet import Sheet, View, fit_scale, scale_text
from framecalc.drawing.style import Role
from framecalc.units import describe_length

EYES_RATIO = 0.936
"""Height of the eyes to stature. Source: R. Drillis, R. Contini, Body Segment Parameters, 1966, from memory."""

SHEET = Sheet(across_mm=160, up_mm=112, is_paper=True)
PERSON = "#8b9091"
ABOVE_FLOOR_MM, CLEAR_MM, PERSON_MM, OVER_MM = 100.0, 250.0, 520.0, 150.0
"""The least that is left under a frame, what is left beside everything, how wide a person stands; what is left between
a frame and a thing under it."""

HALF_FIGURE = (
    *((0.008, 0.46), (0.02, 0.0), (0.075, 0.0), (0.07, 0.03), (0.085, 0.27), (0.1, 0.47), (0.092, 0.6)),
    *((0.104, 0.72), (0.118, 0.6), (0.112, 0.45), (0.138, 0.45), (0.146, 0.62), (0.14, 0.78), (0.118, 0.815)),
    *((0.05, 0.838), (0.034, 0.862), (0.034, 0.89)),
)
"""One half of a standing figure in front view, from the crotch round the arm to the neck, in parts of its stature."""

HEAD_RATIO, HEAD_AT_RATIO = 0.062, 0.93


@dataclass(frozen=True, slots=True, kw_only=True)
class _Scene:
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
    right = [(x * tall_mm, y * tall_mm) for x, y in HALF_FIGURE]
    left = [(-x, y) for x, y in reversed(right)]
    pen.area(run([stand.at(point) for point in (*right, *left)], closed=True), Role.THIN, fill=PERSON)
    head = circle(stand.at((0, HEAD_AT_RATIO * tall_mm)), HEAD_RATIO * tall_mm * stand.scale)
    pen.area(head, Role.THIN, fill=PERSON)


def _draw_eye_line(front: ClientFront, scene: _Scene, pen: Pen) -> None:
    """The eye line passes behind the frame."""
    eye_mm, half_mm = front.look.eye_line.mm, front.extent.across_mm / 2
    wall = scene.view(0, 0)
    y, left, right = wall.y(eye_mm), wall.x(scene.frame_x_mm - half_mm), wall.x(scene.frame_x_mm + half_mm)
    pen.line(run([(0, y), (left, y)]) + run([(right, y), (SHEET.across_mm, y)]), Role.HIDDEN)
