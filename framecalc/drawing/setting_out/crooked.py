"""A crooked artwork, drawn with its error exaggerated so that it can be seen which way it leans.

The *error* of a corner is how far it lies inside the upright rectangle around all four. Drawn larger, the corners move
further in, never out: an artwork that enters its opening is not drawn as if it did not.
"""

from collections.abc import Sequence

from framecalc.geometry.outline import Point

CROOKED_MM = 0.5
"""An artwork out of square by less than a tape shows is drawn square. Common practice, no source."""

SHOWN_MM = 2.5
"""How far a crooked corner is moved on the sheet, at most."""

FACTORS = (50, 40, 30, 20, 15, 12, 10, 8, 6, 5, 4, 3, 2)
"""What the error may be multiplied by: numbers that are easily undone in the head."""


def is_crooked(corners: Sequence[Point]) -> bool:
    """Whether the artwork is out of square by more than a tape shows.

    Source: derived.

    >>> is_crooked([(0, 0), (500, 0), (504, 400), (4, 400)])
    True
    """
    return _largest_error_mm(corners) >= CROOKED_MM


def exaggeration(corners: Sequence[Point], *, scale: float) -> int:
    """The factor that exaggerates the error of a crooked artwork; 1 if the true error is visible.

    Args:
        corners: the artwork, from its lower left corner round to the left [mm].
        scale: of the drawing.
    Source: derived.

    >>> exaggeration([(0, 0), (500, 0), (504, 400), (4, 400)], scale=0.1)
    6
    """
    shown_mm = _largest_error_mm(corners) * scale
    return next((factor for factor in FACTORS if factor * shown_mm <= SHOWN_MM), 1)


def exaggerated(corners: Sequence[Point], factor: int) -> tuple[Point, ...]:
    """The corners about their middle, each moved inward by its error times the factor."""
    across_mm = max(x for x, _ in corners) - min(x for x, _ in corners)
    up_mm = max(y for _, y in corners) - min(y for _, y in corners)
    square = upright(across_mm, up_mm)
    return tuple(
        (x + factor * off_x, y + factor * off_y)
        for (x, y), (off_x, off_y) in zip(square, _errors(corners), strict=True)
    )


def upright(across_mm: float, up_mm: float, *, rise_mm: float = 0) -> tuple[Point, ...]:
    """The corners of an upright rectangle about the middle, from the lower left round to the left."""
    x, y = across_mm / 2, up_mm / 2
    return ((-x, -y + rise_mm), (x, -y + rise_mm), (x, y + rise_mm), (-x, y + rise_mm))


def _largest_error_mm(corners: Sequence[Point]) -> float:
    return max(abs(away) for corner in _errors(corners) for away in corner)


def _errors(corners: Sequence[Point]) -> list[Point]:
    """By how much each corner lies inside the upright rectangle around them all."""
    left, right = min(x for x, _ in corners), max(x for x, _ in corners)
    low, high = min(y for _, y in corners), max(y for _, y in corners)
    around = ((left, low), (right, low), (right, high), (left, high))
    return [(x - out_x, y - out_y) for (x, y), (out_x, out_y) in zip(corners, around, strict=True)]
