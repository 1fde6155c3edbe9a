"""Closed outlines of straight lines and true arcs, and what is measured on them.

An outline runs *counter-clockwise*: the solid lies to the left of the way along it. Points are `(x, y)` [mm]. A *chain*
is a part of an outline, segment joined to segment. Arcs stay arcs: nothing is flattened before it is drawn.
"""

from collections.abc import Callable, Iterable, Sequence
from enum import Enum
from itertools import pairwise
from math import acos, atan2, ceil, copysign, cos, hypot, pi, sin, sqrt, tau

from framecalc.records import Record, replace
from framecalc.units import TOLERANCE_MM

Point = tuple[float, float]
"""A point of a section: across [mm], up [mm]."""


class Line(Record):
    """A straight line from start to end."""

    start: Point
    end: Point


class Arc(Record):
    """A circular arc from start to end, less than a full turn, turning left (counter-clockwise) or right."""

    start: Point
    end: Point
    centre: Point
    radius_mm: float
    turns_left: bool


Segment = Line | Arc


class Outline(Record):
    """A closed counter-clockwise run of segments, each starting where the one before it ends."""

    segments: tuple[Segment, ...]

    def __post_init__(self) -> None:
        for before, after in pairwise((*self.segments, self.segments[0])):
            if not _same_point(before.end, after.start):
                raise ValueError(f"an outline is closed: {before.end} does not meet {after.start}")


class Bounds(Record):
    """The upright rectangle around a shape."""

    left_mm: float
    bottom_mm: float
    right_mm: float
    top_mm: float


class _Side(Enum):
    """From which side a height is looked at where the outline jumps."""

    LEFT = "left"
    RIGHT = "right"


def join(points: Sequence[Point]) -> tuple[Line, ...]:
    """Run straight lines from point to point, leaving out lines of no length.

    Source: derived.

    >>> len(join([(0, 0), (2, 0), (2, 0), (2, 1)]))
    2
    """
    return tuple(Line(start=start, end=end) for start, end in pairwise(points) if not _same_point(start, end))


def area_mm2(outline: Outline) -> float:
    """Area inside the outline: the polygon of its corners and, for each arc, the sliver between arc and chord.

    `area = Σ (x₁y₂ − x₂y₁)/2 + Σ r²(φ − sin φ)/2`, with φ the signed sweep of an arc.

    Source: derived (Green's theorem).

    >>> area_mm2(Outline(segments=join([(0, 0), (4, 0), (4, 3), (0, 3), (0, 0)])))
    12.0
    """
    corners = sum(_cross(segment.start, segment.end) / 2 for segment in outline.segments)
    return corners + sum(_sliver_mm2(arc) for arc in _arcs(outline.segments))


def centroid(outline: Outline) -> Point:
    """Centre of the area inside the outline.

    A sliver's first moment is its area times the arc's centre, and `2/3 r³ sin³(φ/2)` toward the middle of the arc.

    Source: derived (Green's theorem; centroid of a circular segment).

    >>> centroid(Outline(segments=join([(0, 0), (4, 0), (4, 3), (0, 3), (0, 0)])))
    (2.0, 1.5)
    """
    moments = [_triangle_moment(segment) for segment in outline.segments]
    moments += [_sliver_moment(arc) for arc in _arcs(outline.segments)]
    whole = area_mm2(outline)
    return sum(x for x, _ in moments) / whole, sum(y for _, y in moments) / whole


def second_moment_mm4(outline: Outline) -> float:
    """Second moment of the area for bending across the section: about the upright line through its centroid.

    `I = Σ (x₁² + x₁x₂ + x₂²)(x₁y₂ − x₂y₁)/12 − area · x̄²`, with arcs flattened to a thousandth of a millimetre.

    Source: derived (Green's theorem; parallel axes).

    >>> second_moment_mm4(Outline(segments=join([(0, 0), (6, 0), (6, 2), (0, 2), (0, 0)])))
    36.0
    """
    points = flatten(outline, tolerance_mm=0.001)
    runs = tuple(pairwise((*points, points[0])))
    area = sum(_cross(start, end) / 2 for start, end in runs)
    middle_mm = sum((start[0] + end[0]) * _cross(start, end) / 6 for start, end in runs) / area
    about_side = sum((start[0] ** 2 + start[0] * end[0] + end[0] ** 2) * _cross(start, end) / 12 for start, end in runs)
    return about_side - area * middle_mm**2


def bounds(segments: Iterable[Segment]) -> Bounds:
    """The upright rectangle around segments, arcs at their true reach.

    Source: derived.

    >>> bounds([Arc(start=(1, 0), end=(-1, 0), centre=(0, 0), radius_mm=1, turns_left=True)])
    Bounds(left_mm=-1, bottom_mm=0, right_mm=1, top_mm=1.0)
    """
    points = [point for segment in segments for point in _outermost(segment)]
    across, up = [x for x, _ in points], [y for _, y in points]
    return Bounds(left_mm=min(across), bottom_mm=min(up), right_mm=max(across), top_mm=max(up))


def flatten(outline: Outline, *, tolerance_mm: float) -> tuple[Point, ...]:
    """The outline as a polygon with its corners on the outline, nowhere further from it than the tolerance.

    A chord over the angle φ of a circle of radius r leaves `r(1 − cos φ/2)`.

    Args:
        tolerance_mm: the largest sagitta [mm], > 0.
    Source: derived.

    >>> flatten(Outline(segments=join([(0, 0), (4, 0), (4, 3), (0, 0)])), tolerance_mm=0.1)
    ((0, 0), (4, 0), (4, 3))
    """
    if not tolerance_mm > 0:
        raise ValueError(f"Enter a tolerance of more than 0 mm, not {tolerance_mm} mm")
    return tuple(point for segment in outline.segments for point in _chord_starts(segment, tolerance_mm))


def height_at(outline: Outline, x_mm: float) -> float:
    """Solid height under the top of the outline at x: from the top down to the first void.

    Where the outline jumps at x, the lower of its two sides counts: a screw or a lip is as weak as its weaker side.

    Args:
        x_mm: where [mm], within the outline's bounds.
    Raises:
        ValueError: the outline does not reach x.
    Source: derived.

    >>> stair = Outline(segments=join([(0, 0), (6, 0), (6, 2), (3, 2), (3, 5), (0, 5), (0, 0)]))
    >>> height_at(stair, 1), height_at(stair, 3)
    (5.0, 2.0)
    """
    heights = [crossings[-1] - crossings[-2] for side in _Side if (crossings := _crossings(outline, x_mm, side))]
    if not heights:
        raise ValueError(f"the outline does not reach {x_mm} mm")
    return min(heights)


def lowest_point(chain: Sequence[Segment], *, from_mm: float, to_mm: float) -> Point:
    """The lowest point of a chain between two places across, both included; the rightmost of equals.

    Raises:
        ValueError: the chain does not reach into the range.
    Source: derived.

    >>> lowest_point(join([(4, 3), (0, 5)]), from_mm=0, to_mm=2)
    (2, 4.0)
    """
    points = [point for piece in _monotone(chain) for point in _low_points(piece, from_mm, to_mm)]
    if not points:
        raise ValueError(f"the chain does not reach between {from_mm} and {to_mm} mm")
    return min(points, key=lambda point: (round(point[1] / TOLERANCE_MM), -point[0]))


def distance_mm(chain: Iterable[Segment], point: Point) -> float:
    """The shortest way from a point to a chain.

    A circle is as far away as its centre, less its radius; where that foot lies beside the arc, an end is nearest.

    Source: derived.

    >>> distance_mm(join([(0, 3), (4, 3)]), (5, 3)), distance_mm(join([(0, 3), (4, 3)]), (2, 0))
    (1.0, 3.0)
    """
    return min(hypot(x - point[0], y - point[1]) for segment in chain for x, y in _feet(segment, point))


def turned_right(chain: Iterable[Segment]) -> tuple[Segment, ...]:
    """The chain turned by a quarter about the origin, clockwise: what was above lies to the right.

    Source: derived.

    >>> turned_right(join([(3, 1), (0, 2)]))
    (Line(start=(1, -3), end=(2, 0)),)
    """
    return tuple(_remade(segment, lambda point: (point[1], 0 - point[0]), mirrored=False) for segment in chain)


def moved(chain: Iterable[Segment], *, by: Point) -> tuple[Segment, ...]:
    """The chain shifted by a vector.

    Source: derived.

    >>> moved(join([(0, 0), (1, 0)]), by=(5, 5))
    (Line(start=(5, 5), end=(6, 5)),)
    """
    return tuple(
        _remade(segment, lambda point: (point[0] + by[0], point[1] + by[1]), mirrored=False) for segment in chain
    )


def turned_over(chain: Sequence[Segment]) -> tuple[Segment, ...]:
    """The chain mirrored left for right and run backwards, so that its solid stays to the left of the way.

    Source: derived.

    >>> turned_over(join([(0, 0), (1, 2)]))
    (Line(start=(-1.0, 2), end=(0.0, 0)),)
    """
    mirrored = [_remade(segment, lambda point: (0.0 - point[0], point[1]), mirrored=True) for segment in chain]
    return tuple(_backwards(segment) for segment in reversed(mirrored))


def sweep_rad(arc: Arc) -> float:
    """The signed angle an arc turns through, positive to the left.

    Source: derived.

    >>> round(sweep_rad(Arc(start=(1, 0), end=(0, 1), centre=(0, 0), radius_mm=1, turns_left=True)), 4)
    1.5708
    """
    turned = (_angle_rad(arc, arc.end) - _angle_rad(arc, arc.start)) % tau
    return turned if arc.turns_left else turned - tau


def _feet(segment: Segment, point: Point) -> list[Point]:
    """The ends of a segment, and the foot on it of the way from a point, where there is one."""
    ends = [segment.start, segment.end]
    if isinstance(segment, Line):
        (x, y), along = segment.start, (segment.end[0] - segment.start[0], segment.end[1] - segment.start[1])
        share = ((point[0] - x) * along[0] + (point[1] - y) * along[1]) / (along[0] ** 2 + along[1] ** 2)
        return [*ends, (x + share * along[0], y + share * along[1])] if 0 < share < 1 else ends
    turned = (_angle_rad(segment, point) - _angle_rad(segment, segment.start)) % tau
    turned = turned if segment.turns_left else (turned - tau) % -tau
    is_on_arc = abs(turned) < abs(sweep_rad(segment))
    return [*ends, _on_circle(segment, _angle_rad(segment, point))] if is_on_arc else ends


def _remade(segment: Segment, place: Callable[[Point], Point], *, mirrored: bool) -> Segment:
    start, end = place(segment.start), place(segment.end)
    if isinstance(segment, Line):
        return Line(start=start, end=end)
    turns_left = segment.turns_left is not mirrored
    return Arc(start=start, end=end, centre=place(segment.centre), radius_mm=segment.radius_mm, turns_left=turns_left)


def _backwards(segment: Segment) -> Segment:
    if isinstance(segment, Line):
        return Line(start=segment.end, end=segment.start)
    return replace(segment, start=segment.end, end=segment.start, turns_left=not segment.turns_left)


def _same_point(one: Point, other: Point) -> bool:
    return hypot(one[0] - other[0], one[1] - other[1]) <= TOLERANCE_MM


def _cross(one: Point, other: Point) -> float:
    return one[0] * other[1] - other[0] * one[1]


def _arcs(chain: Iterable[Segment]) -> list[Arc]:
    return [segment for segment in chain if isinstance(segment, Arc)]


def _angle_rad(arc: Arc, point: Point) -> float:
    return atan2(point[1] - arc.centre[1], point[0] - arc.centre[0])


def _on_circle(arc: Arc, angle_rad: float) -> Point:
    return arc.centre[0] + arc.radius_mm * cos(angle_rad), arc.centre[1] + arc.radius_mm * sin(angle_rad)


def _sliver_mm2(arc: Arc) -> float:
    sweep = sweep_rad(arc)
    return arc.radius_mm**2 / 2 * (sweep - sin(sweep))


def _triangle_moment(segment: Segment) -> Point:
    """First moment of the triangle from the origin over a segment's chord."""
    area = _cross(segment.start, segment.end) / 2
    return area * (segment.start[0] + segment.end[0]) / 3, area * (segment.start[1] + segment.end[1]) / 3


def _sliver_moment(arc: Arc) -> Point:
    sweep, area = sweep_rad(arc), _sliver_mm2(arc)
    middle_rad = _angle_rad(arc, arc.start) + sweep / 2
    reach = 2 / 3 * arc.radius_mm**3 * sin(sweep / 2) ** 3
    return area * arc.centre[0] + reach * cos(middle_rad), area * arc.centre[1] + reach * sin(middle_rad)


def _quarters_rad(arc: Arc) -> list[float]:
    """The angles, in the order they are met, at which an arc runs upright or level."""
    start_rad, sweep = _angle_rad(arc, arc.start), sweep_rad(arc)
    quarters = [quarter * pi / 2 for quarter in range(-2, 3)]
    turns = [((angle - start_rad) % tau if sweep > 0 else (angle - start_rad) % tau - tau, angle) for angle in quarters]
    return [angle for turn, angle in sorted(turns, reverse=sweep < 0) if 0 < abs(turn) < abs(sweep)]


def _outermost(segment: Segment) -> list[Point]:
    ends = [segment.start, segment.end]
    return (
        ends if isinstance(segment, Line) else ends + [_on_circle(segment, angle) for angle in _quarters_rad(segment)]
    )


def _chord_starts(segment: Segment, tolerance_mm: float) -> list[Point]:
    if isinstance(segment, Line):
        return [segment.start]
    widest_rad = 2 * acos(1 - min(tolerance_mm / segment.radius_mm, 1))
    start_rad, sweep = _angle_rad(segment, segment.start), sweep_rad(segment)
    chords = ceil(abs(sweep) / widest_rad)
    return [segment.start, *(_on_circle(segment, start_rad + sweep * turn / chords) for turn in range(1, chords))]


def _monotone(chain: Iterable[Segment]) -> list[Segment]:
    """The chain with each arc cut where it runs upright or level, so that no piece turns back across or up."""
    return [piece for segment in chain for piece in _quartered(segment)]


def _quartered(segment: Segment) -> list[Segment]:
    if isinstance(segment, Line):
        return [segment]
    cuts = [segment.start, *(_on_circle(segment, angle) for angle in _quarters_rad(segment)), segment.end]
    return [replace(segment, start=start, end=end) for start, end in pairwise(cuts) if not _same_point(start, end)]


def _up_at(piece: Segment, x_mm: float) -> float:
    """Height of a piece that does not turn back, at x within its reach."""
    (from_x, from_y), (to_x, to_y) = piece.start, piece.end
    if isinstance(piece, Line):
        return from_y + (to_y - from_y) * (x_mm - from_x) / (to_x - from_x)
    beside = x_mm - piece.centre[0]
    rise = sqrt(max(piece.radius_mm**2 - beside**2, 0.0))
    return piece.centre[1] + copysign(rise, from_y + to_y - 2 * piece.centre[1])


def _crossings(outline: Outline, x_mm: float, side: _Side) -> list[float]:
    """Heights, upward, at which the outline is crossed just to one side of x."""
    return sorted(_up_at(piece, x_mm) for piece in _monotone(outline.segments) if _spans(piece, x_mm, side))


def _spans(piece: Segment, x_mm: float, side: _Side) -> bool:
    left, right = sorted((piece.start[0], piece.end[0]))
    if right - left <= TOLERANCE_MM:
        return False
    near = TOLERANCE_MM if side is _Side.RIGHT else -TOLERANCE_MM
    return left <= x_mm + near < right if side is _Side.RIGHT else left < x_mm + near <= right


def _low_points(piece: Segment, from_mm: float, to_mm: float) -> list[Point]:
    """The ends of a piece that does not turn back, clipped to a range across; nothing if it lies outside."""
    left, right = sorted((piece.start[0], piece.end[0]))
    if right < from_mm - TOLERANCE_MM or left > to_mm + TOLERANCE_MM:
        return []
    ends = [point for point in (piece.start, piece.end) if from_mm - TOLERANCE_MM <= point[0] <= to_mm + TOLERANCE_MM]
    return ends + [(x_mm, _up_at(piece, x_mm)) for x_mm in (from_mm, to_mm) if left < x_mm < right]
