"""Outlines of a frame on the sheet: round its middle, in its shape; and the mitres between two of them."""

from collections.abc import Iterator

from framecalc.drawing.pen import run
from framecalc.drawing.sheet import View
from framecalc.geometry.outline import Point
from framecalc.sizes.shape import Shape

Size = tuple[float, float]
"""Across and up; of a polygon both are across its flats."""


def ring(view: View, shape: Shape, size_mm: Size, middle_mm: Point = (0.0, 0.0)) -> str:
    """The path of an outline round the middle of the frame, or round another place."""
    (across_mm, up_mm), (x, y) = size_mm, middle_mm
    if shape.is_rectangle:
        return view.rectangle(x - across_mm / 2, y - up_mm / 2, x + across_mm / 2, y + up_mm / 2)
    return run([view.at((x + right, y + up)) for right, up in shape.corners(across_mm, up_mm)], closed=True)


def mitres(view: View, shape: Shape, outer_mm: Size, inner_mm: Size) -> Iterator[str]:
    """The paths from the corners of an outline to those of one inside it."""
    for outer, inner in zip(shape.corners(*outer_mm), shape.corners(*inner_mm), strict=True):
        yield run([view.at(outer), view.at(inner)])
