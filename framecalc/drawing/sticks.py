"""The sticks of a cutting plan, each with its pieces in order, the slanting cuts, and what is left."""

from framecalc.drawing.pen import Pen, rectangle, run
from framecalc.drawing.style import Role
from framecalc.sticks.answer import CutStick, CutStretch, PlacedPiece
from framecalc.units import Unit, describe_length

STRIP_MM = 9.0
"""How high a strip is drawn; its length is to scale, its width is not."""


def draw_stick(stick: CutStick, *, name: str, slope_mm: float, unit: Unit) -> str:
    """Draw a stick or a board with all its strips; lengths to scale, pieces numbered from left to right.

    Args:
        slope_mm: how far a mitre runs along the stick, the width of the member at 45° [mm].
    """
    height_mm = 8 + len(stick.strips) * (STRIP_MM + 2)
    title = f"{stick.label}: {describe_length(stick.stock.length_mm, unit=unit)}"
    pen = Pen(name=name, across_mm=88, up_mm=height_mm, title=title, inline=True)
    pen.text(title, (2, 4.2), role=Role.STRONG)
    scale, number = 84 / stick.stock.length_mm, 0
    for place, strip in enumerate(stick.strips):
        top_mm = 6 + place * (STRIP_MM + 2)
        pen.area(rectangle(2, top_mm, 86, top_mm + STRIP_MM), Role.SHADOW)
        for stretch in strip.stretches:
            number = _draw_stretch(pen, stretch, top_mm, scale, slope_mm, number)
        pen.line(rectangle(2, top_mm, 86, top_mm + STRIP_MM), Role.OUTLINE)
    return pen.svg()


def _draw_stretch(pen: Pen, stretch: CutStretch, top_mm: float, scale: float, slope_mm: float, number: int) -> int:
    for placed in stretch.pieces:
        number += 1
        _draw_piece(pen, placed, top_mm, scale, slope_mm)
        middle_mm = 2 + (placed.start_mm + placed.end_mm) / 2 * scale
        if placed.piece.length_mm * scale > 6:
            pen.text(str(number), (middle_mm, top_mm + STRIP_MM / 2 + 1.2), anchor="middle")
    return number


def _draw_piece(pen: Pen, placed: PlacedPiece, top_mm: float, scale: float, slope_mm: float) -> None:
    """A member lies with its long edge at the top of the strip, or at the bottom when it is turned."""
    left_mm, right_mm, run_mm = 2 + placed.start_mm * scale, 2 + placed.end_mm * scale, slope_mm * scale
    long_mm, short_mm = top_mm, top_mm + STRIP_MM
    if placed.turned:
        long_mm, short_mm = short_mm, long_mm
    shape = [(left_mm, long_mm), (right_mm, long_mm), (right_mm - run_mm, short_mm), (left_mm + run_mm, short_mm)]
    pen.area(run(shape, closed=True), Role.WOOD)
    pen.line(run(shape, closed=True), Role.EDGE)
