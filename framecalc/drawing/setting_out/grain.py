"""The grain of the members, shown by a few strokes along each of them."""

from math import hypot

from framecalc.drawing.pen import Pen, number, run
from framecalc.drawing.ring import Size
from framecalc.drawing.sheet import View
from framecalc.drawing.style import Role
from framecalc.geometry.outline import Point
from framecalc.sizes.shape import Shape

GRAIN = (
    (0.22, 0.06, 0.4),
    (0.22, 0.52, 0.9),
    (0.5, 0.14, 0.62),
    (0.5, 0.72, 0.96),
    (0.78, 0.03, 0.3),
    (0.78, 0.44, 0.86),
)
"""Strokes that show how the grain runs: how far in from the outside, from where to where along the member (ratios)."""


def draw_grain(pen: Pen, view: View, *, shape: Shape, outside_mm: Size, land_mm: float) -> None:
    """Show the grain of the members with a few strokes, fewer on narrow ones."""
    narrow_mm = land_mm * view.scale
    strokes = [stroke for stroke in GRAIN if narrow_mm > 2.2 or (stroke[0] == 0.5 and narrow_mm > 0.9)]
    for inward, start, end in strokes:
        corners = shape.corners(*(size_mm - 2 * inward * land_mm for size_mm in outside_mm))
        for first, second in zip(corners, (*corners[1:], corners[0]), strict=True):
            _stroke(pen, view.at(_between(first, second, start)), view.at(_between(first, second, end)))


def _between(first: Point, second: Point, ratio: float) -> Point:
    """The place at a share of the way from one point to another."""
    return first[0] + (second[0] - first[0]) * ratio, first[1] + (second[1] - first[1]) * ratio


def _stroke(pen: Pen, start: Point, end: Point) -> None:
    """A line of grain: it bows a little."""
    across, up = end[0] - start[0], end[1] - start[1]
    length_mm = hypot(across, up)
    bow = (0.25 if length_mm > 8 else 0.1) / length_mm
    middle = (across / 2 - bow * up, up / 2 + bow * across)
    pen.line(f"{run([start])}q{number(middle[0])},{number(middle[1])} {number(across)},{number(up)}", Role.GRAIN)
