"""The stop of the mitre saw from above: the member along the fence, the blade, the stop at the long point, the shim."""

from collections.abc import Iterator
from math import radians, tan

from framecalc.bench.cards import StopState
from framecalc.drawing.lettering import text_across_mm
from framecalc.drawing.pen import Pen, rectangle, run
from framecalc.drawing.style import LETTER_MM, Role
from framecalc.geometry.outline import Point

ACROSS_MM, FENCE_MM, LEFT_MM, RIGHT_MM = 90.0, 4.0, 12.0, 76.0
"""The panel, the fence, and where the member begins and ends: not to scale along it."""

DEEP_MM, MOST_LEAN = 11.0, 1.3
"""How wide the member is drawn, and how much a mitre leans at most."""

STOP_MM, RELIEF_MM, SHIM_MM, ARROW_MM = 6.0, 1.6, (9.0, 1.2), 2.0


def draw_stop(state: StopState, *, name: str) -> str:
    """Draw a stop as SVG for a page.

    Args:
        name: the start of this drawing's ids, unique on the page.
    """
    lean_mm = DEEP_MM * min(tan(radians(state.half_turn_deg)), MOST_LEAN)
    below_mm = FENCE_MM + DEEP_MM
    measure_mm = below_mm + LETTER_MM + 2
    pen = Pen(
        name=name,
        across_mm=ACROSS_MM,
        up_mm=measure_mm + LETTER_MM / 2 + 1,
        title="Member at the stop, from above" + (", with a shim behind it" if state.shim else ""),
        inline=True,
    )
    top_mm = FENCE_MM + (SHIM_MM[1] if state.shim else 0.0)
    pen.area(rectangle(0, 0, ACROSS_MM, FENCE_MM), Role.SHADOW)
    foot_mm = top_mm + DEEP_MM
    member = ((LEFT_MM, top_mm), (RIGHT_MM, top_mm), (RIGHT_MM - lean_mm, foot_mm), (LEFT_MM + lean_mm, foot_mm))
    pen.area(run(member, closed=True), Role.WOOD)
    pen.line(run(member, closed=True), Role.OUTLINE)
    if state.rabbet_ratio:
        pen.line(run(_rabbet(member, state.rabbet_ratio)), Role.HIDDEN)
    pen.line(run([(0, FENCE_MM), (ACROSS_MM, FENCE_MM)]), Role.OUTLINE)
    pen.line(run(_blade(top_mm, lean_mm)), Role.GIVEN)
    pen.area(run(_stop(top_mm), closed=True), Role.METAL)
    if state.shim:
        pen.area(rectangle(RIGHT_MM - 3 - SHIM_MM[0], FENCE_MM, RIGHT_MM - 3, top_mm), Role.TROUBLE)
    _measure(pen, measure_mm + (top_mm - FENCE_MM), top_mm)
    return pen.svg()


def _rabbet(member: tuple[Point, ...], ratio: float) -> Iterator[Point]:
    """The wall of the rabbet, so far from the long edge."""
    (left, right, lower_right, lower_left) = member
    for upper, lower in ((left, lower_left), (right, lower_right)):
        yield upper[0] + ratio * (lower[0] - upper[0]), upper[1] + ratio * (lower[1] - upper[1])


def _blade(top_mm: float, lean_mm: float) -> tuple[Point, Point]:
    """The line of the blade through the mitre, a little beyond it at both ends."""
    slope = lean_mm / DEEP_MM
    return (LEFT_MM - slope * top_mm, 0.0), (LEFT_MM + lean_mm + 3 * slope, top_mm + DEEP_MM + 3)


def _stop(top_mm: float) -> tuple[Point, ...]:
    """The block against which the long point lies, relieved under it, so that dust and a crushed tip do not count."""
    left_mm, right_mm = RIGHT_MM, RIGHT_MM + STOP_MM
    return (
        (left_mm, FENCE_MM),
        (right_mm, FENCE_MM),
        (right_mm, top_mm + DEEP_MM * 0.6),
        (left_mm + RELIEF_MM, top_mm + DEEP_MM * 0.6),
    )


def _measure(pen: Pen, at_mm: float, top_mm: float) -> None:
    """From the blade to the stop: the long point."""
    half_mm, middle_mm = text_across_mm("long point") / 2 + 1.5, (LEFT_MM + RIGHT_MM) / 2
    for end_mm, inner_mm, way in ((LEFT_MM, middle_mm - half_mm, 1), (RIGHT_MM, middle_mm + half_mm, -1)):
        pen.line(run([(end_mm, top_mm + DEEP_MM + 1), (end_mm, at_mm + 1)]), Role.DIMENSION)
        pen.line(run([(end_mm, at_mm), (inner_mm, at_mm)]), Role.DIMENSION)
        tip = ((end_mm, at_mm), (end_mm + way * ARROW_MM, at_mm - 0.7), (end_mm + way * ARROW_MM, at_mm + 0.7))
        pen.area(run(tip, closed=True), Role.ARROW)
    pen.text("long point", (middle_mm, at_mm + LETTER_MM * 0.35), anchor="middle")
