"""Level curves of a grid of values, as closed loops, and runs of points made simpler.

Every part above a level is walked round with a loop. The loops of several levels in one even-odd path are the bands
between the levels, one in two: above the first and not above the second, and so on.
"""

from bisect import bisect_right
from collections.abc import Sequence
from itertools import pairwise, product
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
    Source: derived (marching squares; at a saddle what is above hangs together).

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
    """How far the farthest point lies from the way between two, and which it is."""
    if last - first < 2:
        return 0.0, first
    (x, y), (end_x, end_y) = points[first], points[last]
    across, up = end_x - x, end_y - y
    long, between = hypot(across, up), points[first + 1 : last]
    if long > 1e-9:
        away = [abs((at_x - x) * up - (at_y - y) * across) for at_x, at_y in between]
    else:
        away, long = [hypot(at_x - x, at_y - y) for at_x, at_y in between], 1.0
    most = max(away)
    return most / long, first + 1 + away.index(most)


def _passes(above: tuple[bool, ...]) -> tuple[tuple[int, int], ...]:
    """From which side of a cell to which a level passes, by which of its four corners lie above it."""
    found = []
    for side in range(4):
        if above[side] and not above[(side + 1) % 4]:
            other = (side + 1) % 4
            while above[other] or not above[(other + 1) % 4]:
                other = (other + 1) % 4
            found.append((side, other))
    return tuple(found)


PASSES = {above: _passes(above) for above in product((False, True), repeat=4)}


def _steps(columns: Sequence[Sequence[float]], levels: Sequence[float]) -> dict[int, dict[Edge, Edge]]:
    """From edge to edge of each cell that a level crosses, the higher part always on the same hand."""
    steps: dict[int, dict[Edge, Edge]] = {}
    under = [[bisect_right(levels, value) for value in column] for column in columns]
    for i, (here, after) in enumerate(pairwise(under)):
        for j, corners in enumerate(zip(here[:-1], after[:-1], after[1:], here[1:], strict=True)):
            for number in range(min(corners), max(corners)):
                _cross(steps.setdefault(number, {}), tuple([corner > number for corner in corners]), i, j)
    return steps


def _cross(found: dict[Edge, Edge], above: tuple[bool, ...], i: int, j: int) -> None:
    edges: tuple[Edge, ...] = ((i, j, False), (i + 1, j, True), (i, j + 1, False), (i, j, True))
    for side, other in PASSES[above]:
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
