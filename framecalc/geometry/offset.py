"""Parallel outlines: everything at one distance outside an outline, or inside it, arcs staying arcs.

Lines move, arcs take another radius about the same centre. Where that opens a corner, an arc about the corner closes
it; where it makes two neighbours cross, both end where they cross.
"""

from collections.abc import Sequence
from math import atan2, cos, hypot, pi, sin, sqrt, tau

from framecalc.errors import ImpossibleSize
from framecalc.geometry.outline import Arc, Line, Outline, Point, Segment, area_mm2, distance_mm, sweep_rad
from framecalc.records import replace
from framecalc.units import TOLERANCE_MM

_SAMPLES = 8
"""How many points of each segment are looked at for their distance."""


def parallel(outline: Outline, *, by_mm: float) -> Outline:
    """Run round an outline at a distance: outside it, or inside it where the distance is negative.

    Args:
        by_mm: the distance [mm]; 0 leaves it as it is.
    Raises:
        ImpossibleSize: a part of the outline is too narrow for it.
    Source: derived.

    >>> square = Outline(segments=(Line(start=(0, 0), end=(2, 0)), Line(start=(2, 0), end=(2, 2)),
    ...                            Line(start=(2, 2), end=(0, 2)), Line(start=(0, 2), end=(0, 0))))
    >>> round(area_mm2(parallel(square, by_mm=1)), 4), area_mm2(parallel(square, by_mm=-0.5))
    (15.1416, 1.0)
    """
    if abs(by_mm) <= TOLERANCE_MM:
        return outline
    shifted = [_shifted(segment, by_mm) for segment in outline.segments]
    for number in range(len(shifted)):
        before = number - 1
        if _crosses(outline.segments[before], outline.segments[number], by_mm):
            near = outline.segments[number].start
            meeting = _meeting(shifted[before], shifted[number], near)
            shifted[before], shifted[number] = (
                replace(shifted[before], end=meeting),
                replace(shifted[number], start=meeting),
            )
    closed = Outline(segments=tuple(_with_corners(outline.segments, shifted, by_mm)))
    _require_true(outline, shifted, closed, by_mm)
    return closed


def _too_narrow() -> ImpossibleSize:
    return ImpossibleSize("A place is narrower than the cut: nothing would be left.")


def _shifted(segment: Segment, by_mm: float) -> Segment:
    """The segment moved to its right by the distance."""
    if isinstance(segment, Line):
        along = _direction(segment, at_end=False)
        by = (along[1] * by_mm, -along[0] * by_mm)
        return Line(start=_sum(segment.start, by), end=_sum(segment.end, by))
    radius_mm = segment.radius_mm + (by_mm if segment.turns_left else -by_mm)
    if radius_mm <= TOLERANCE_MM:
        raise _too_narrow()
    start, end = (_from(segment.centre, point, radius_mm) for point in (segment.start, segment.end))
    return replace(segment, start=start, end=end, radius_mm=radius_mm)


def _with_corners(original: Sequence[Segment], shifted: Sequence[Segment], by_mm: float) -> list[Segment]:
    """The shifted segments, with an arc about each corner that has opened."""
    closed: list[Segment] = []
    for number, segment in enumerate(shifted):
        closed.append(segment)
        after = shifted[(number + 1) % len(shifted)]
        if _apart_mm(segment.end, after.start) > TOLERANCE_MM:
            closed.append(
                Arc(
                    start=segment.end,
                    end=after.start,
                    centre=original[number].end,
                    radius_mm=abs(by_mm),
                    turns_left=by_mm > 0,
                )
            )
    return closed


def _crosses(before: Segment, after: Segment, by_mm: float) -> bool:
    """Whether two neighbours cross once they are shifted: the way turns toward the side that they move to."""
    one, other = _direction(before, at_end=True), _direction(after, at_end=False)
    return (one[0] * other[1] - one[1] * other[0]) * by_mm < -TOLERANCE_MM * abs(by_mm)


def _direction(segment: Segment, *, at_end: bool) -> Point:
    """The way a segment runs, at its start or its end."""
    if isinstance(segment, Line):
        across, up = segment.end[0] - segment.start[0], segment.end[1] - segment.start[1]
        long = hypot(across, up)
        return across / long, up / long
    point = segment.end if at_end else segment.start
    x, y = (point[0] - segment.centre[0]) / segment.radius_mm, (point[1] - segment.centre[1]) / segment.radius_mm
    return (-y, x) if segment.turns_left else (y, -x)


def _meeting(one: Segment, other: Segment, near: Point) -> Point:
    """Where two shifted neighbours cross, the place nearest to the corner that they come from."""
    if isinstance(one, Line) and isinstance(other, Line):
        places = _of_lines(one, other)
    elif isinstance(one, Arc) and isinstance(other, Arc):
        places = _of_circles(one, other)
    else:
        line, arc = (one, other) if isinstance(one, Line) else (other, one)
        assert isinstance(line, Line) and isinstance(arc, Arc)
        places = _of_line_and_circle(line, arc)
    if not places:
        raise _too_narrow()
    return min(places, key=lambda place: _apart_mm(place, near))


def _of_lines(one: Line, other: Line) -> list[Point]:
    first, second = _direction(one, at_end=False), _direction(other, at_end=False)
    turn = first[0] * second[1] - first[1] * second[0]
    gap = (other.start[0] - one.start[0], other.start[1] - one.start[1])
    along = (gap[0] * second[1] - gap[1] * second[0]) / turn
    return [(one.start[0] + along * first[0], one.start[1] + along * first[1])]


def _of_line_and_circle(line: Line, arc: Arc) -> list[Point]:
    along = _direction(line, at_end=False)
    gap = (arc.centre[0] - line.start[0], arc.centre[1] - line.start[1])
    foot, off = gap[0] * along[0] + gap[1] * along[1], gap[0] * along[1] - gap[1] * along[0]
    if abs(off) > arc.radius_mm:
        return []
    half = sqrt(arc.radius_mm**2 - off**2)
    return [(line.start[0] + way * along[0], line.start[1] + way * along[1]) for way in (foot - half, foot + half)]


def _of_circles(one: Arc, other: Arc) -> list[Point]:
    across, up = other.centre[0] - one.centre[0], other.centre[1] - one.centre[1]
    apart = hypot(across, up)
    if not abs(one.radius_mm - other.radius_mm) <= apart <= one.radius_mm + other.radius_mm or not apart:
        return []
    foot = (apart**2 + one.radius_mm**2 - other.radius_mm**2) / (2 * apart)
    half = sqrt(max(one.radius_mm**2 - foot**2, 0.0))
    x, y = across / apart, up / apart
    return [(one.centre[0] + foot * x - side * y, one.centre[1] + foot * y + side * x) for side in (half, -half)]


def _require_true(outline: Outline, shifted: Sequence[Segment], closed: Outline, by_mm: float) -> None:
    """Refuse a result that has turned back on itself, or that is nearer to the outline than the distance.

    Raises:
        ImpossibleSize: so it is.
    """
    keeps_its_way = all(_keeps_its_way(*pair) for pair in zip(outline.segments, shifted, strict=True))
    if not keeps_its_way or area_mm2(closed) <= TOLERANCE_MM:
        raise _too_narrow()
    points = (point for segment in closed.segments for point in _along(segment))
    if any(distance_mm(outline.segments, point) < abs(by_mm) - TOLERANCE_MM for point in points):
        raise _too_narrow()


def _keeps_its_way(before: Segment, after: Segment) -> bool:
    if isinstance(before, Arc) and isinstance(after, Arc):
        return abs(sweep_rad(after)) < abs(sweep_rad(before)) + pi / 2
    if _apart_mm(after.start, after.end) <= TOLERANCE_MM:
        return False
    one, other = _direction(before, at_end=False), _direction(after, at_end=False)
    return one[0] * other[0] + one[1] * other[1] > 0


def _along(segment: Segment) -> list[Point]:
    shares = [number / _SAMPLES for number in range(_SAMPLES)]
    if isinstance(segment, Line):
        (x, y), (to_x, to_y) = segment.start, segment.end
        return [(x + share * (to_x - x), y + share * (to_y - y)) for share in shares]
    start_rad = atan2(segment.start[1] - segment.centre[1], segment.start[0] - segment.centre[0])
    sweep = sweep_rad(segment)
    return [_on(segment, (start_rad + share * sweep) % tau) for share in shares]


def _on(arc: Arc, angle_rad: float) -> Point:
    return arc.centre[0] + arc.radius_mm * cos(angle_rad), arc.centre[1] + arc.radius_mm * sin(angle_rad)


def _from(centre: Point, point: Point, radius_mm: float) -> Point:
    """The place in the direction of a point, at a radius from the centre."""
    across, up = point[0] - centre[0], point[1] - centre[1]
    ratio = radius_mm / hypot(across, up)
    return centre[0] + across * ratio, centre[1] + up * ratio


def _sum(one: Point, other: Point) -> Point:
    return one[0] + other[0], one[1] + other[1]


def _apart_mm(one: Point, other: Point) -> float:
    return hypot(one[0] - other[0], one[1] - other[1])
