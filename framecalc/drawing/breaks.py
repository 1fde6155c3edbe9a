"""Freehand break lines: a part continues past them, undrawn. Source: ISO 128, from memory, not re-read."""

from framecalc.drawing.pen import run
from framecalc.geometry.outline import Point

SWING_MM = 1.3
"""How far the handles of the curve stand out; the line itself swings by less than a third of it."""


def break_line(start: Point, end: Point, *, along: Point | None = None) -> str:
    """Path data of a freehand break line.

    Args:
        along: the direction of the part that is broken off, 1 long; an upright or level line needs none.

    >>> break_line((10, 0), (10, 30))
    'M10,0C11.3,10 8.7,20 10,30'
    """
    across, up = end[0] - start[0], end[1] - start[1]
    along = along or ((1.0, 0.0) if abs(up) > abs(across) else (0.0, 1.0))
    swing_x, swing_y = SWING_MM * along[0], SWING_MM * along[1]
    first = (start[0] + across / 3 + swing_x, start[1] + up / 3 + swing_y)
    second = (start[0] + across * 2 / 3 - swing_x, start[1] + up * 2 / 3 - swing_y)
    return f"{run([start])}C{run([first])[1:]} {run([second])[1:]} {run([end])[1:]}"


def swing_at_mm(ratio: float) -> float:
    """The distance of a break line from its straight, at a fraction of its length: an edge that meets it ends there.

    ``3 a t (1 − t)(1 − 2t)``, the cubic of `break_line`; its parameter runs evenly along its length.

    Source: derived.

    >>> swing_at_mm(0.5), round(swing_at_mm(0.25), 3)
    (0.0, 0.366)
    """
    return 3 * SWING_MM * ratio * (1 - ratio) * (1 - 2 * ratio)
