"""A frame put on the wall by a tap: it snaps to the lines that matter, and lies over no other frame.

A *candidate* is a place that the middle of a frame may snap to, in one direction: the line of the group, the middle or
an edge of another frame, a gap beside it, the middle of the wall.
"""

from collections.abc import Iterator, Sequence
from math import dist, inf

from framecalc.errors import ImpossibleSize
from framecalc.hanging.groups import OnWall, meet
from framecalc.limits import require_not_negative
from framecalc.records import Record, replace
from framecalc.units import TOLERANCE_MM


class Lines(Record):
    """What a frame snaps to besides other frames: the line of the group, the gap, the size of the wall, how near."""

    line_mm: float
    gap_mm: float
    wall_mm: float
    reach_mm: float
    ceiling_mm: float = inf


def put(frame: OnWall, *, others: Sequence[OnWall], lines: Lines) -> OnWall:
    """Put a frame where it was tapped: snapped, inside the wall, and beside any frame that is there already.

    Args:
        frame: with its middle where the wall was tapped.
        others: the other frames.
        lines: what it snaps to.
    Raises:
        ImpossibleSize: there is no room for it near there.
        OutOfRange: the gap or the reach is less than nothing.
    Source: plane geometry; the rule is common practice, no source.

    >>> tapped = OnWall(key="b", across_mm=300, up_mm=400, x_mm=712, y_mm=1512)
    >>> there = OnWall(key="a", across_mm=300, up_mm=400, x_mm=350, y_mm=1500)
    >>> at = put(tapped, others=[there], lines=Lines(line_mm=1500, gap_mm=75, wall_mm=3000, reach_mm=40))
    >>> at.x_mm, at.y_mm
    (725.0, 1500)
    """
    require_not_negative(gap_mm=lines.gap_mm, reach_mm=lines.reach_mm)
    at = replace(frame, x_mm=_inside(frame, lines.wall_mm), y_mm=max(frame.y_mm, frame.up_mm / 2))
    across_mm, up_mm = list(_across(frame, others, lines)), list(_up(frame, others, lines))
    snapped = replace(
        at, x_mm=_nearest(at.x_mm, across_mm, lines.reach_mm), y_mm=_nearest(at.y_mm, up_mm, lines.reach_mm)
    )
    for start in (snapped, at):
        nearby = [start, *(replace(start, x_mm=x) for x in across_mm), *(replace(start, y_mm=y) for y in up_mm)]
        free = [one for one in nearby if _is_free(one, others, lines)]
        if free:
            return min(free, key=lambda one: dist((one.x_mm, one.y_mm), (start.x_mm, start.y_mm)))
    raise ImpossibleSize("There is no room for it there: tap elsewhere.", field="wall.arrangement")


def _nearest(at_mm: float, candidates_mm: Sequence[float], reach_mm: float) -> float:
    near = min(candidates_mm, key=lambda one: abs(one - at_mm), default=at_mm)
    return near if abs(near - at_mm) <= reach_mm else at_mm


def _inside(frame: OnWall, wall_mm: float) -> float:
    """Across, with both edges on the wall; in its middle where it is wider."""
    half_mm = frame.across_mm / 2
    if frame.across_mm >= wall_mm:
        return wall_mm / 2
    return min(max(frame.x_mm, half_mm), wall_mm - half_mm)


def _across(frame: OnWall, others: Sequence[OnWall], lines: Lines) -> Iterator[float]:
    half_mm = frame.across_mm / 2
    yield lines.wall_mm / 2
    for other in others:
        yield from (other.x_mm, other.left_mm + half_mm, other.right_mm - half_mm)
        yield from (other.right_mm + lines.gap_mm + half_mm, other.left_mm - lines.gap_mm - half_mm)


def _up(frame: OnWall, others: Sequence[OnWall], lines: Lines) -> Iterator[float]:
    half_mm = frame.up_mm / 2
    yield lines.line_mm
    for other in others:
        yield from (other.y_mm, other.high_mm - half_mm, other.low_mm + half_mm)
        yield from (other.high_mm + lines.gap_mm + half_mm, other.low_mm - lines.gap_mm - half_mm)


def _is_free(at: OnWall, others: Sequence[OnWall], lines: Lines) -> bool:
    """Whether it lies on the wall, and over no other frame."""
    is_across = at.left_mm >= -TOLERANCE_MM and at.right_mm <= lines.wall_mm + TOLERANCE_MM
    is_up = at.low_mm >= -TOLERANCE_MM and at.high_mm <= lines.ceiling_mm + TOLERANCE_MM
    return is_across and is_up and not any(meet(at, other) for other in others)
