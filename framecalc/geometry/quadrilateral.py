"""The quadrilateral behind six measured distances: four sides and two diagonals.

Corners go counter-clockwise from the bottom left: bottom left, bottom right, top right, top left. The bottom left is
the origin and the bottom side lies along x, which leaves five coordinates to find. Six distances over-determine them:
the best fit has the least sum of squared differences. Five determine them; four leave one choice, and the most nearly
square of those quadrilaterals is taken, the one whose opposite corners add to 180°, which is also the largest.
"""

from collections.abc import Iterable, Mapping
from enum import Enum
from math import dist, sqrt

from framecalc.errors import ImpossibleArtwork

Point = tuple[float, float]
Corners = tuple[Point, Point, Point, Point]
Distances = Mapping["Span", float]

MOST_ROUNDS = 60
"""Rounds of Gauss–Newton; four or five are usual, and what has not settled by then fits nothing."""

SETTLED_MM = 1e-10
"""A round that moves no coordinate further has settled."""


class Span(Enum):
    """A measured distance: the two corners it joins, by their place in `Corners`."""

    BOTTOM = (0, 1)
    RIGHT = (1, 2)
    TOP = (2, 3)
    LEFT = (3, 0)
    RISING = (0, 2)
    FALLING = (1, 3)


SIDES = (Span.BOTTOM, Span.RIGHT, Span.TOP, Span.LEFT)
_TRIANGLES = {
    Span.RISING: ((Span.BOTTOM, Span.RIGHT), (Span.LEFT, Span.TOP)),
    Span.FALLING: ((Span.BOTTOM, Span.LEFT), (Span.RIGHT, Span.TOP)),
}
_FIELDS = {
    Span.BOTTOM: "across_bottom_mm",
    Span.RIGHT: "up_right_mm",
    Span.TOP: "artwork_across_mm",
    Span.LEFT: "artwork_up_mm",
    Span.RISING: "diagonal_rising_mm",
    Span.FALLING: "diagonal_falling_mm",
}
_FREE = ((1, 0), (2, 0), (2, 1), (3, 0), (3, 1))
"""The five coordinates that are free, as (corner, axis)."""


def fit_quadrilateral(distances: Distances) -> Corners:
    """Find the corners that agree best with the distances measured.

    ``minimise sum (measured - |P_i - P_j|)**2``, by Gauss–Newton with step halving, when both diagonals are given.

    Args:
        distances: the four sides [mm], > 0, and neither, one or both diagonals.
    Raises:
        ImpossibleArtwork: no quadrilateral has such sides, a diagonal cannot span them, or nothing fits them all.
    Source: derived; without diagonals, Ptolemy's theorem for the cyclic quadrilateral, from memory, not re-read.

    >>> corners = fit_quadrilateral({Span.BOTTOM: 300.0, Span.RIGHT: 400.0, Span.TOP: 300.0, Span.LEFT: 400.0})
    >>> [(round(x_mm, 6) + 0, round(y_mm, 6)) for x_mm, y_mm in corners]
    [(0.0, 0.0), (300.0, 0.0), (300.0, 400.0), (0.0, 400.0)]
    """
    _require_closed(distances)
    for diagonal in _TRIANGLES.keys() & distances.keys():
        _require_span(distances, diagonal)
    corners = _first_corners(distances)
    if Span.RISING in distances and Span.FALLING in distances:
        corners = _settle(corners, distances)
    _require_convex(corners)
    return corners


def rectangle(*, across_mm: float, up_mm: float) -> Corners:
    """The corners of a true rectangle.

    Source: plane geometry.

    >>> rectangle(across_mm=3, up_mm=4)
    ((0.0, 0.0), (3, 0.0), (3, 4), (0.0, 4))
    """
    return (0.0, 0.0), (across_mm, 0.0), (across_mm, up_mm), (0.0, up_mm)


def scaled(corners: Corners, *, by_ratio: float) -> Corners:
    """The same shape at another scale.

    Source: plane geometry.

    >>> scaled(((0, 0), (3, 0), (3, 4), (0, 4)), by_ratio=2)
    ((0, 0), (6, 0), (6, 8), (0, 8))
    """
    one, two, three, four = ((x_mm * by_ratio, y_mm * by_ratio) for x_mm, y_mm in corners)
    return one, two, three, four


def residuals(corners: Corners, distances: Distances) -> dict[Span, float]:
    """Measured minus fitted, for each distance measured [mm].

    Source: derived.

    >>> residuals(((0, 0), (3, 0), (3, 4), (0, 4)), {Span.RISING: 5.5})
    {<Span.RISING: (0, 2)>: 0.5}
    """
    return {span: measured_mm - _length(corners, span) for span, measured_mm in distances.items()}


def _length(corners: Corners, span: Span) -> float:
    start, end = span.value
    return dist(corners[start], corners[end])


def _first_corners(distances: Distances) -> Corners:
    """The corners as two triangles on a diagonal: the rising one, or the falling one seen in a mirror."""
    if Span.FALLING in distances and Span.RISING not in distances:
        return _mirrored(_on_rising_diagonal(_mirror_distances(distances)), distances[Span.BOTTOM])
    return _on_rising_diagonal(distances)


def _on_rising_diagonal(distances: Distances) -> Corners:
    bottom_mm, right_mm, top_mm, left_mm = (distances[side] for side in SIDES)
    rising_mm = distances.get(Span.RISING) or _cyclic_diagonal_mm(bottom_mm, right_mm, top_mm, left_mm)
    bottom_left, bottom_right = (0.0, 0.0), (bottom_mm, 0.0)
    top_right = _apex(bottom_left, bottom_right, from_start_mm=rising_mm, from_end_mm=right_mm)
    top_left = _apex(bottom_left, top_right, from_start_mm=left_mm, from_end_mm=top_mm)
    return bottom_left, bottom_right, top_right, top_left


def _cyclic_diagonal_mm(bottom_mm: float, right_mm: float, top_mm: float, left_mm: float) -> float:
    """The rising diagonal when opposite corners add to 180°: p² = (ac + bd)(ad + bc)/(ab + cd)."""
    opposite = bottom_mm * top_mm + right_mm * left_mm
    crossed = bottom_mm * left_mm + right_mm * top_mm
    return sqrt(opposite * crossed / (bottom_mm * right_mm + top_mm * left_mm))


def _apex(start: Point, end: Point, *, from_start_mm: float, from_end_mm: float) -> Point:
    """The point to the left of a base line at two given distances from its ends."""
    base_mm = dist(start, end)
    along_mm = (from_start_mm**2 + base_mm**2 - from_end_mm**2) / (2 * base_mm)
    aside_mm = sqrt(max(from_start_mm**2 - along_mm**2, 0.0))
    across, up = (end[0] - start[0]) / base_mm, (end[1] - start[1]) / base_mm
    return start[0] + along_mm * across - aside_mm * up, start[1] + along_mm * up + aside_mm * across


def _mirror_distances(distances: Distances) -> Distances:
    swapped = {Span.LEFT: Span.RIGHT, Span.RIGHT: Span.LEFT, Span.FALLING: Span.RISING}
    return {swapped.get(span, span): length_mm for span, length_mm in distances.items()}


def _mirrored(corners: Corners, bottom_mm: float) -> Corners:
    bottom_right, bottom_left, top_left, top_right = ((bottom_mm - x_mm, y_mm) for x_mm, y_mm in corners)
    return bottom_left, bottom_right, top_right, top_left


def _settle(corners: Corners, distances: Distances) -> Corners:
    """Gauss–Newton from a first guess: solve the normal equations, step, halve a step that makes things worse."""
    for _ in range(MOST_ROUNDS):
        step = _gauss_newton_step(corners, distances)
        while _moves(step) and _badness(_moved(corners, step), distances) > _badness(corners, distances):
            step = [part / 2 for part in step]
        if not _moves(step):
            return corners
        corners = _moved(corners, step)
    raise ImpossibleArtwork(_FITS_NOTHING, field=_FIELDS[Span.RISING])


def _moves(step: list[float]) -> bool:
    return max(map(abs, step)) > SETTLED_MM


def _badness(corners: Corners, distances: Distances) -> float:
    return sum(residual_mm**2 for residual_mm in residuals(corners, distances).values())


def _moved(corners: Corners, step: list[float]) -> Corners:
    moved = [list(corner) for corner in corners]
    for (corner, axis), part in zip(_FREE, step, strict=True):
        moved[corner][axis] += part
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = moved
    return (ax, ay), (bx, by), (cx, cy), (dx, dy)


def _gauss_newton_step(corners: Corners, distances: Distances) -> list[float]:
    """Solve the normal equations JᵀJ·step = Jᵀ·residual."""
    slopes = [_slope(corners, span) for span in distances]
    misses = residuals(corners, distances).values()
    columns = list(zip(*slopes, strict=True))
    normal = [[_dot(one, other) for other in columns] for one in columns]
    return _solve(normal, [_dot(column, misses) for column in columns])


def _slope(corners: Corners, span: Span) -> list[float]:
    """How a distance grows with each free coordinate."""
    start, end = span.value
    length_mm = _length(corners, span)
    toward = [(corners[end][axis] - corners[start][axis]) / length_mm for axis in (0, 1)]
    signs = {start: -1.0, end: 1.0}
    return [signs.get(corner, 0.0) * toward[axis] for corner, axis in _FREE]


def _dot(one: Iterable[float], other: Iterable[float]) -> float:
    return sum(a * b for a, b in zip(one, other, strict=True))


def _solve(matrix: list[list[float]], right: list[float]) -> list[float]:
    """Solve a few linear equations by elimination, the largest pivot first."""
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    for column in range(len(rows)):
        best = max(range(column, len(rows)), key=lambda index: abs(rows[index][column]))
        rows[column], rows[best] = rows[best], rows[column]
        pivot = rows[column]
        if abs(pivot[column]) < 1e-12:
            raise ImpossibleArtwork(_FITS_NOTHING, field=_FIELDS[Span.RISING])
        for below in range(column + 1, len(rows)):
            factor = rows[below][column] / pivot[column]
            rows[below] = [low - factor * high for low, high in zip(rows[below], pivot, strict=True)]
    return _back_substituted(rows)


def _back_substituted(rows: list[list[float]]) -> list[float]:
    solution: list[float] = []
    for index in reversed(range(len(rows))):
        row = rows[index]
        solution.insert(0, (row[-1] - _dot(row[index + 1 : -1], solution)) / row[index])
    return solution


def _require_closed(distances: Distances) -> None:
    for side in SIDES:
        rest_mm = sum(distances[other] for other in SIDES if other is not side)
        if distances[side] >= rest_mm:
            raise ImpossibleArtwork(
                "Side of {side} is too long: enter less than {rest}.",
                field=_FIELDS[side],
                lengths={"side": distances[side], "rest": rest_mm},
            )


def _require_span(distances: Distances, diagonal: Span) -> None:
    pairs = [(distances[first], distances[second]) for first, second in _TRIANGLES[diagonal]]
    least_mm, most_mm = max(abs(a - b) for a, b in pairs), min(a + b for a, b in pairs)
    if not least_mm < distances[diagonal] < most_mm:
        raise ImpossibleArtwork(
            "Diagonal of {diagonal} does not fit: enter between {least} and {most}.",
            field=_FIELDS[diagonal],
            lengths={"diagonal": distances[diagonal], "least": least_mm, "most": most_mm},
        )


def _require_convex(corners: Corners) -> None:
    for index in range(4):
        (ax, ay), (bx, by), (cx, cy) = (corners[(index + ahead) % 4] for ahead in range(3))
        if (bx - ax) * (cy - by) - (by - ay) * (cx - bx) <= 0:
            raise ImpossibleArtwork(_FITS_NOTHING, field=_FIELDS[Span.RISING])


_FITS_NOTHING = "These measurements fit no piece with four corners: read both diagonals again."
