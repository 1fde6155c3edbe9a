"""The sticks of a cutting plan, each with its pieces in order, the slanting cuts, what is avoided and what is left.

A piece carries its number and its part of the carpenter's triangle, as it is chalked. A rule from the left end runs
under the strips. Lengths are to scale; widths are not, since a stick is a hundred times as long as it is wide.
"""

from collections.abc import Iterator

from framecalc.drawing.pen import Pen, rectangle, run
from framecalc.drawing.style import Role
from framecalc.labels import label_of
from framecalc.outline import Point
from framecalc.sticks.answer import CutStick, CutStrip, PlacedPiece
from framecalc.sticks.problem import Stretch
from framecalc.units import MM_PER_INCH, Unit, describe_length

ACROSS_MM, LEFT_MM, LENGTH_MM = 120.0, 2.0, 114.0
"""The panel, where a stick begins on it, and how long it is drawn, whatever its length."""

TOP_MM, STRIP_MM, APART_MM = 6.5, 9.0, 1.6
"""Where the first strip lies, how high a strip is drawn, and the saw cut between two."""

RULE_MM, LEAST_STEP_MM = 7.0, 11.0
"""Room for the rule, and how near its figures may stand."""


def draw_stick(stick: CutStick, *, name: str, slope_mm: float, unit: Unit) -> str:
    """Draw a stick, or a board with all its strips; pieces numbered from left to right.

    Args:
        slope_mm: how far a mitre runs along the stick, the width of the member at 45° [mm].
    """
    bottom_mm = TOP_MM + len(stick.strips) * (STRIP_MM + APART_MM)
    title = f"{stick.label}: {describe_length(stick.stock.length_mm, unit=unit)}"
    pen = Pen(name=name, across_mm=ACROSS_MM, up_mm=bottom_mm + RULE_MM, title=title, inline=True)
    pen.text(title, (LEFT_MM, 4.4), role=Role.STRONG)
    scale, number = LENGTH_MM / stick.stock.length_mm, 1
    for place, strip in enumerate(stick.strips):
        top_mm = TOP_MM + place * (STRIP_MM + APART_MM)
        _draw_strip(pen, strip, stick.stock.defects, top_mm, scale, unit)
        for placed in strip.pieces:
            _draw_piece(pen, placed, number, top_mm, scale, slope_mm)
            number += 1
        pen.line(rectangle(LEFT_MM, top_mm, LEFT_MM + LENGTH_MM, top_mm + STRIP_MM), Role.OUTLINE)
    _draw_rule(pen, bottom_mm, stick.stock.length_mm, scale, unit)
    return pen.svg()


def _draw_strip(
    pen: Pen, strip: CutStrip, defects: tuple[Stretch, ...], top_mm: float, scale: float, unit: Unit
) -> None:
    """The strip itself, what is avoided, and what is left of each stretch."""
    pen.area(rectangle(LEFT_MM, top_mm, LEFT_MM + LENGTH_MM, top_mm + STRIP_MM), Role.SHADOW)
    for stretch in strip.stretches:
        left_mm = LEFT_MM + (stretch.end_mm - stretch.left_over_mm) * scale
        right_mm = LEFT_MM + stretch.end_mm * scale
        if right_mm > left_mm:
            pen.area(rectangle(left_mm, top_mm, right_mm, top_mm + STRIP_MM), Role.MAT)
            pen.line(run([(left_mm, top_mm), (left_mm, top_mm + STRIP_MM)]), Role.HIDDEN)
        if right_mm - left_mm > 22:
            text = f"{describe_length(stretch.left_over_mm, unit=unit)} left"
            pen.text(text, ((left_mm + right_mm) / 2, top_mm + STRIP_MM / 2 + 1.2), anchor="middle", role=Role.FAINT)
    for defect in defects:
        _draw_defect(pen, defect, top_mm, scale)


def _draw_defect(pen: Pen, defect: Stretch, top_mm: float, scale: float) -> None:
    """A crossed box: nothing is cut from here."""
    left_mm, right_mm = LEFT_MM + defect.start_mm * scale, LEFT_MM + defect.end_mm * scale
    bottom_mm = top_mm + STRIP_MM
    pen.area(rectangle(left_mm, top_mm, right_mm, bottom_mm), Role.COVERED)
    pen.line(rectangle(left_mm, top_mm, right_mm, bottom_mm), Role.EDGE)
    pen.line(run([(left_mm, top_mm), (right_mm, bottom_mm)]), Role.EDGE)
    pen.line(run([(left_mm, bottom_mm), (right_mm, top_mm)]), Role.EDGE)


def _draw_piece(pen: Pen, placed: PlacedPiece, number: int, top_mm: float, scale: float, slope_mm: float) -> None:
    """A member lies with its long edge at the top of the strip, or at the bottom when it is turned."""
    left_mm, right_mm = LEFT_MM + placed.start_mm * scale, LEFT_MM + placed.end_mm * scale
    run_mm = min(slope_mm * scale, (right_mm - left_mm) / 2)
    long_mm, short_mm = top_mm, top_mm + STRIP_MM
    if placed.turned:
        long_mm, short_mm = short_mm, long_mm
    shape = [(left_mm, long_mm), (right_mm, long_mm), (right_mm - run_mm, short_mm), (left_mm + run_mm, short_mm)]
    pen.area(run(shape, closed=True), Role.WOOD)
    pen.line(run(shape, closed=True), Role.EDGE)
    for mark in _chalk_marks(placed):
        pen.line(
            run([(left_mm + u * (right_mm - left_mm), long_mm + v * (short_mm - long_mm)) for u, v in mark]), Role.GIVEN
        )
    if right_mm - left_mm > 5:
        at_mm = left_mm + (right_mm - left_mm) * (0.22 if right_mm - left_mm > 12 else 0.5)
        pen.text(str(number), (at_mm, top_mm + STRIP_MM / 2 + 1.2), anchor="middle", role=Role.STRONG)


def _chalk_marks(placed: PlacedPiece) -> Iterator[tuple[Point, ...]]:
    """The chalk marks of a piece as it lies: along from its left tip, and down from its long edge, both 0 to 1."""
    side = placed.piece.side
    for mark in label_of(placed.piece).marks:
        yield tuple(_as_it_lies(side, point, turned=placed.turned) for point in mark)


def _as_it_lies(side: str, point: Point, *, turned: bool) -> Point:
    """Turn a point of the hung frame so that the outer edge of its side is on top, the way it lies on the stick."""
    u, v = point
    along, down = {"top": (u, 1 - v), "bottom": (1 - u, v), "left": (v, u), "right": (1 - v, 1 - u)}[side]
    return (1 - along if turned else along), down


def _draw_rule(pen: Pen, top_mm: float, length_mm: float, scale: float, unit: Unit) -> None:
    """A rule from the left end, in steps that leave room for its figures."""
    step_mm, step = (12 * float(MM_PER_INCH), 12) if unit is Unit.INCH else (250.0, 250)
    while step_mm * scale < LEAST_STEP_MM:
        step_mm, step = 2 * step_mm, 2 * step
    for count in range(int(length_mm / step_mm) + 1):
        at_mm = LEFT_MM + count * step_mm * scale
        pen.line(run([(at_mm, top_mm), (at_mm, top_mm + 1.5)]), Role.DIMENSION)
        if at_mm < LEFT_MM + LENGTH_MM - 4:
            text = f"{count * step}" if count else f"0 {'in' if unit is Unit.INCH else 'mm'}"
            pen.text(text, (at_mm, top_mm + 5.2), anchor="middle" if count else "start", role=Role.FAINT)
    pen.line(run([(LEFT_MM, top_mm), (LEFT_MM + LENGTH_MM, top_mm)]), Role.DIMENSION)
