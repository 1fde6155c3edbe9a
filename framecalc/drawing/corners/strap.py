"""The strap around the frame: the place of the ratchet, and the force on each mitre."""

from math import cos, pi, sin

from framecalc.corners.clamping import Ratchet
from framecalc.drawing.pen import Pen, circle, run
from framecalc.drawing.record import Drawing
from framecalc.drawing.sheet import Area, Sheet
from framecalc.drawing.style import LETTER_MM, Role
from framecalc.errors import OutOfRange
from framecalc.geometry.outline import Point
from framecalc.measures import Kind, bare_measure, measure_text
from framecalc.plan import FramePlan
from framecalc.records import Record
from framecalc.units import Unit
from framecalc.words import Words, say

UP_MM = 70.0
RADIUS_MM, WIDTH_RATIO = 21.0, 0.78
MOST_NAMED = 8
"""A frame of more sides has no room for the force of each."""


class StrapView(Record):
    """What the drawing reads from a plan: the force on each mitre, from the ratchet onward, before and after easing."""

    forces_n: tuple[float, ...]
    eased_n: tuple[float, ...]
    ratchet: Ratchet
    unit: Unit
    words: Words
    name: str


def read_strap(plan: FramePlan) -> StrapView:
    """Read from a plan how hard the strap presses.

    Raises:
        FrameCalcError: no pull is typed, or the strap cannot be eased to it.
    """
    clamps = plan.corners.clamps
    if clamps.strap is None or clamps.eased is None:
        raise OutOfRange("Enter the pull of the strap at its ratchet.", field="pull")
    return StrapView(
        forces_n=clamps.strap.forces_n,
        eased_n=clamps.eased.forces_n,
        ratchet=clamps.ratchet,
        unit=plan.unit,
        words=plan.project.shop.words,
        name=plan.frame.name,
    )


def strap_title(view: StrapView) -> str:
    """The title of the drawing, for a reader who cannot see it."""
    says = "A strap around {name}: {force} on the weakest mitre"
    force = measure_text(min(view.forces_n), kind=Kind.FORCE, unit=view.unit)
    return say(says, view.words, name=view.name, force=force)


def draw_strap(view: StrapView, sheet: Sheet, pen: Pen, room: Area) -> float:
    """Draw frame and strap; to no scale. The corner after the ratchet is the first, going with the clock."""
    middle = (sheet.across_mm / 2, room.top_mm + 28.0)
    corners = _ring(view, middle, RADIUS_MM)
    inner, strap = _ring(view, middle, RADIUS_MM * WIDTH_RATIO), _ring(view, middle, RADIUS_MM + 1.6)
    pen.area(run(corners, closed=True) + run(inner, closed=True), Role.WOOD)
    pen.area(run(inner, closed=True), Role.PICTURE)
    for shape, role in ((corners, Role.OUTLINE), (inner, Role.EDGE), (strap, Role.GIVEN)):
        pen.line(run(shape, closed=True), role)
    for outer, near in zip(corners, inner, strict=True):
        pen.line(run([outer, near]), Role.MITRE)
    _draw_ratchet(view, pen, strap)
    _write_forces(view, pen, middle, corners)
    pen.text(
        say("{unit} on each mitre", view.words, unit=Kind.FORCE.sign(view.unit)),
        (1.0, sheet.up_mm - 1.4),
        role=Role.FAINT,
    )
    pen.text("(when let down)", (sheet.across_mm - 1, sheet.up_mm - 1.4), role=Role.FAINT, anchor="end")
    return 0.0


def _ring(view: StrapView, middle: Point, radius_mm: float) -> list[Point]:
    """Corners of a regular frame; the first lies at the right end of its top side."""
    sides = len(view.forces_n)
    turns = [-pi / 2 + pi / sides + 2 * pi * number / sides for number in range(sides)]
    return [(middle[0] + radius_mm * cos(turn), middle[1] + radius_mm * sin(turn)) for turn in turns]


def _draw_ratchet(view: StrapView, pen: Pen, strap: list[Point]) -> None:
    """On the side before the first corner, or at the corner that comes last."""
    last, first = strap[-1], strap[0]
    place = last if view.ratchet is Ratchet.AT_A_CORNER else ((last[0] + first[0]) / 2, (last[1] + first[1]) / 2)
    pen.area(circle(place, 2.0), Role.GIVEN_AREA)
    pen.line(circle(place, 2.0), Role.GIVEN)


def _write_forces(view: StrapView, pen: Pen, middle: Point, corners: list[Point]) -> None:
    if len(corners) > MOST_NAMED:
        return
    weakest_n = min(view.forces_n)
    for corner, force_n, eased_n in zip(corners, view.forces_n, view.eased_n, strict=True):
        on_right, below = corner[0] > middle[0] + 0.1, corner[1] > middle[1] + 0.1
        role = Role.GIVEN_LETTER if force_n < weakest_n * 1.001 else Role.STRONG
        anchor = "start" if on_right else "end"
        at = (corner[0] + (4.0 if on_right else -4.0), corner[1] + (3.0 if below else -4.7))
        pen.text(bare_measure(force_n, kind=Kind.FORCE, unit=view.unit), at, role=role, anchor=anchor)
        eased = bare_measure(eased_n, kind=Kind.FORCE, unit=view.unit)
        pen.text(f"({eased})", (at[0], at[1] + LETTER_MM + 1.0), role=Role.FAINT, anchor=anchor)


STRAP = Drawing(name="strap", read=read_strap, title=strap_title, draw=draw_strap, up_mm=UP_MM)
