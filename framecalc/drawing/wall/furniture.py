"""What is on a wall or before it, drawn as on an elevation: outlines in ink, what lies within them thin and grey."""

from collections.abc import Callable, Mapping

from framecalc.drawing.pen import Pen, circle, run
from framecalc.drawing.sheet import View
from framecalc.drawing.style import Role
from framecalc.geometry.outline import Point
from framecalc.hanging.groups import OnWall
from framecalc.hanging.things import ThingKind
from framecalc.records import Record

PAPER, GLASS, SOFT = "#fffdf6", "#e4eef0", "#efe9da"
FIN_MM, RIB_MM = 1.6, 90.0
"""Ribs of a radiator stand no closer than this on the sheet, and usually so far apart on the wall."""


class Elevation(Record):
    """A thing being drawn in its place; its parts are stated in shares of its size, from its lower left corner."""

    place: OnWall
    view: View
    pen: Pen

    def at(self, across: float, up: float) -> Point:
        """A place of it on the sheet."""
        place = self.place
        return self.view.at((place.left_mm + across * place.across_mm, place.low_mm + up * place.up_mm))

    def path(self, left: float, low: float, right: float, high: float) -> str:
        """A rectangle of it."""
        corners = [self.at(left, low), self.at(right, low), self.at(right, high), self.at(left, high)]
        return run(corners, closed=True)

    def body(self, left: float, low: float, right: float, high: float, *, fill: str = PAPER) -> None:
        """A part with its outline."""
        self.pen.area(self.path(left, low, right, high), Role.THIN, fill=fill)
        self.pen.line(self.path(left, low, right, high), Role.EDGE)

    def inner(self, left: float, low: float, right: float, high: float) -> None:
        """What lies within a part: thin."""
        self.pen.line(self.path(left, low, right, high), Role.DIAGONAL)

    def thin(self, *points: Point) -> None:
        """A thin line through places of it."""
        self.pen.line(run([self.at(*point) for point in points]), Role.DIAGONAL)

    def dot(self, across: float, up: float, *, share: float, role: Role = Role.EDGE) -> None:
        """A circle, its radius a share of the smaller size."""
        radius_mm = share * min(self.place.across_mm, self.place.up_mm) * self.view.scale
        self.pen.line(circle(self.at(across, up), max(radius_mm, 0.25)), role)


def draw_furniture(kind: ThingKind, place: OnWall, view: View, pen: Pen) -> None:
    """Draw a thing in its place."""
    DRAWN[kind](Elevation(place=place, view=view, pen=pen))


def _door(it: Elevation) -> None:
    it.body(0, 0, 1, 1)
    it.inner(0.07, 0, 0.93, 0.97)
    for low, high in ((0.07, 0.42), (0.52, 0.91)):
        it.inner(0.18, low, 0.46, high)
        it.inner(0.54, low, 0.82, high)
    it.dot(0.88, 0.47, share=0.025)


def _window(it: Elevation) -> None:
    it.body(0, 0, 1, 1)
    it.body(0.06, 0.06, 0.94, 0.94, fill=GLASS)
    it.inner(0.47, 0.06, 0.53, 0.94)
    it.thin((0.06, 0.64), (0.47, 0.64))
    it.thin((0.53, 0.64), (0.94, 0.64))
    it.body(-0.04, -0.035, 1.04, 0)


def _switch(it: Elevation) -> None:
    it.body(0, 0, 1, 1)
    it.inner(0.3, 0.22, 0.7, 0.78)


def _socket(it: Elevation) -> None:
    it.body(0, 0, 1, 1)
    it.dot(0.5, 0.5, share=0.34, role=Role.DIAGONAL)


def _alarm(it: Elevation) -> None:
    it.dot(0.5, 0.5, share=0.5)
    it.dot(0.5, 0.5, share=0.22, role=Role.DIAGONAL)


def _radiator(it: Elevation) -> None:
    it.body(0, 0.08, 1, 1)
    across_mm = it.place.across_mm
    ribs = int(min(across_mm / RIB_MM, across_mm * it.view.scale / FIN_MM))
    for number in range(1, ribs):
        it.thin((number / ribs, 0.14), (number / ribs, 0.94))
    for across in (0.08, 0.92):
        it.thin((across, 0.08), (across, 0))


def _bed(it: Elevation) -> None:
    it.body(0, 0, 1, 1, fill=SOFT)
    it.body(0.1, 0.54, 0.47, 0.74)
    it.body(0.53, 0.54, 0.9, 0.74)
    it.body(0.02, 0.24, 0.98, 0.54)
    it.thin((0.02, 0.42), (0.98, 0.42))
    it.body(0, 0.12, 1, 0.24, fill=SOFT)


def _seat(it: Elevation) -> None:
    for across in (0.07, 0.93):
        it.body(across - 0.015, 0, across + 0.015, 0.1)
    it.body(0.1, 0.3, 0.9, 1, fill=SOFT)
    seats = max(1, round(it.place.across_mm / 750))
    wide = 0.8 / seats
    for number in range(seats):
        left = 0.1 + number * wide
        it.inner(left + 0.01, 0.5, left + wide - 0.01, 0.95)
        it.body(left, 0.32, left + wide, 0.5)
    it.body(0.1, 0.1, 0.9, 0.32, fill=SOFT)
    it.body(0, 0.1, 0.1, 0.7, fill=SOFT)
    it.body(0.9, 0.1, 1, 0.7, fill=SOFT)


def _sideboard(it: Elevation) -> None:
    for across in (0.06, 0.94):
        it.body(across - 0.015, 0, across + 0.015, 0.16)
    it.body(0.01, 0.16, 0.99, 0.95)
    it.body(0, 0.95, 1, 1)
    doors = max(1, round(it.place.across_mm / 500))
    wide = 0.98 / doors
    for number in range(doors):
        left = 0.01 + number * wide
        it.inner(left + 0.012, 0.2, left + wide - 0.012, 0.91)
        it.dot(left + wide * (0.85 if number % 2 == 0 else 0.15), 0.62, share=0.02)


def _other(it: Elevation) -> None:
    it.body(0, 0, 1, 1)


DRAWN: Mapping[ThingKind, Callable[[Elevation], None]] = {
    ThingKind.DOOR: _door,
    ThingKind.WINDOW: _window,
    ThingKind.SWITCH: _switch,
    ThingKind.SOCKET: _socket,
    ThingKind.ALARM: _alarm,
    ThingKind.RADIATOR: _radiator,
    ThingKind.BED: _bed,
    ThingKind.SEAT: _seat,
    ThingKind.SIDEBOARD: _sideboard,
    ThingKind.OTHER: _other,
}
"""How each kind is drawn."""
