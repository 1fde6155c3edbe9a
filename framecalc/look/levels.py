"""Level curves of a grid of values, as closed loops, and runs of points made simpler.

Every part above a level is walked round with a loop. The loops of several levels in one even-odd path are the bands
between the levels, one in two: above the first and not above the second, and so on.
"""

from bisect import bisect_right
from collections.abc import Sequence
from itertools import pairwise
from math import hypot

from framecalc.geometry.outline import Point

Run = tuple[Point, ...]
Edge = tuple[int, int, bool]
"""An edge of the grid: its column and row, and whether it runs up a column."""

LOW = -1e6
"""A value under every level: with it round the grid every loop closes."""


def level_loops(
    columns: Sequence[Sequence[float]], *, xs_mm: Sequence[float], ys_mm: Sequence[float], levels: Sequence[float]
) -> tuple[Run, ...]:
    """Walk round everything above each level, along straight edges between the points of a grid.

    Args:
        columns: the values of the grid by place along, then across.
        levels: ascending.
    Source: derived (marching squares; a saddle is cut apart).

    >>> peak = [[0, 0, 0], [0, 2, 0], [0, 0, 0]]
    >>> sorted(level_loops(peak, xs_mm=[0, 1, 2], ys_mm=[0, 1, 2], levels=[1])[0])
    [(0.5, 1), (1, 0.5), (1, 1.5), (1.5, 1)]
    """
    steps = _steps(columns, levels)
    return tuple(
        tuple(_places(columns, xs_mm, ys_mm, level, edges))
        for number, level in enumerate(levels)
        for edges in _walks(steps.get(number, {}))
    )


def framed(
    columns: Sequence[Sequence[float]], *, xs_mm: Sequence[float], ys_mm: Sequence[float]
) -> tuple[list[list[float]], list[float], list[float]]:
    """The grid with low values all round, so that its loops close; with its places.

    Source: derived.

    >>> framed([[1.0]], xs_mm=[0], ys_mm=[5])[1:]
    ([-1, 0, 1], [4, 5, 6])
    """
    low = [LOW] * (len(ys_mm) + 2)
    grid = [low, *([LOW, *column, LOW] for column in columns), low]
    return grid, [xs_mm[0] - 1, *xs_mm, xs_mm[-1] + 1], [ys_mm[0] - 1, *ys_mm, ys_mm[-1] + 1]


def simplified(points: Sequence[Point], *, tolerance_mm: float) -> Run:
    """Leave out points that lie within the tolerance of the way between those that stay.

    Source: D. Douglas, T. Peucker, 1973, from memory, not re-read.

    >>> simplified([(0, 0), (1, 0.01), (2, 0), (2, 3)], tolerance_mm=0.1)
    ((0, 0), (2, 0), (2, 3))
    """
    keep, waiting = {0, len(points) - 1}, [(0, len(points) - 1)]
    while waiting:
        first, last = waiting.pop()
        far_mm, at = _farthest(points, first, last)
        if far_mm > tolerance_mm:
            keep.add(at)
            waiting += [(first, at), (at, last)]
    return tuple(points[number] for number in sorted(keep))


def _farthest(points: Sequence[Point], first: int, last: int) -> tuple[float, int]:
    (x, y), (end_x, end_y) = points[first], points[last]
    across, up = end_x - x, end_y - y
    long = hypot(across, up)
    best, at = 0.0, first
    for number in range(first + 1, last):
        right, over = points[number][0] - x, points[number][1] - y
        away = abs(right * up - over * across) / long if long > 1e-9 else hypot(right, over)
        if away > best:
            best, at = away, number
    return best, at


def _steps(columns: Sequence[Sequence[float]], levels: Sequence[float]) -> dict[int, dict[Edge, Edge]]:
    """From edge to edge of each cell that a level crosses, the higher part always on the same hand."""
    steps: dict[int, dict[Edge, Edge]] = {}
    for i, (here, after) in enumerate(pairwise(columns)):
        for j in range(len(here) - 1):
            corners = here[j], after[j], after[j + 1], here[j + 1]
            first, last = bisect_right(levels, min(corners)), bisect_right(levels, max(corners))
            for number in range(first, last):
                _cross(steps.setdefault(number, {}), corners, levels[number], i, j)
    return steps


def _cross(found: dict[Edge, Edge], corners: tuple[float, ...], level: float, i: int, j: int) -> None:
    above = [corner >= level for corner in corners]
    edges: tuple[Edge, ...] = ((i, j, False), (i + 1, j, True), (i, j + 1, False), (i, j, True))
    for side in range(4):
        if above[side] and not above[(side + 1) % 4]:
            other = (side + 1) % 4
            while above[other] or not above[(other + 1) % 4]:
                other = (other + 1) % 4
            found[edges[side]] = edges[other]


def _walks(steps: dict[Edge, Edge]) -> list[list[Edge]]:
    """The closed walks of one level."""
    walks = []
    while steps:
        edge, walk = next(iter(steps)), []
        while edge in steps:
            walk.append(edge)
            edge = steps.pop(edge)
        walks.append(walk)
    return walks


def _places(
    columns: Sequence[Sequence[float]],
    xs_mm: Sequence[float],
    ys_mm: Sequence[float],
    level: float,
    edges: Sequence[Edge],
) -> list[Point]:
    """Where a level crosses edges of the grid."""
    places = []
    for i, j, runs_up in edges:
        low, high = columns[i][j], columns[i][j + 1] if runs_up else columns[i + 1][j]
        part = (level - low) / (high - low)
        if runs_up:
            places.append((xs_mm[i], ys_mm[j] + part * (ys_mm[j + 1] - ys_mm[j])))
        else:
            places.append((xs_mm[i] + part * (xs_mm[i + 1] - xs_mm[i]), ys_mm[j]))
    return places
