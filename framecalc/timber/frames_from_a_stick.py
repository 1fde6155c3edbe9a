"""Board in hand: which frames can it make?

A stick, or the strips of a board, leave *clear* stretches. Four sides must come from them: two as long as the frame is
wide, two as long as it is high. They can be shared out among the stretches in nine ways; each way allows all frames
below some straight lines, and the *frontier* is the outer edge of all that any way allows: for each outside size
across, the largest outside size up. With the grain running round, all four come from one stretch.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise, permutations
from math import hypot

from framecalc.errors import ImpossibleTimber
from framecalc.limits import require_not_negative, require_positive
from framecalc.records import Record
from framecalc.timber.sticks.problem import Stock, clear_stretches
from framecalc.units import TOLERANCE_MM

Share = tuple[int, int]
"""How many sides across and how many sides up come from one stretch."""

ROUND: tuple[tuple[Share, ...], ...] = (((2, 2),),)
"""All four sides from one stretch."""

ANY: tuple[tuple[Share, ...], ...] = (
    ((2, 2),),
    ((2, 1), (0, 1)),
    ((1, 2), (1, 0)),
    ((2, 0), (0, 2)),
    ((1, 1), (1, 1)),
    ((2, 0), (0, 1), (0, 1)),
    ((0, 2), (1, 0), (1, 0)),
    ((1, 1), (1, 0), (0, 1)),
    ((1, 0), (1, 0), (0, 1), (0, 1)),
)
"""All ways to share two sides across and two sides up among stretches."""

Shares = tuple[tuple[Share, ...], ...]
"""Ways to share the four sides: ANY or ROUND."""

Point = tuple[float, float]

WITHIN = (1 / 3, 2 / 3)
"""Where between two turns the edge is looked at, by two shares of the way; any two within would do. Ours."""

_DECIMALS = 9
"""Of a size in millimetres; past them there is only what sums leave. Ours."""


class _Line(Record):
    """What one stretch allows: across · a + up · b ≤ most."""

    across: int
    up: int
    most_mm: float

    def highest_mm(self, across_mm: float) -> float:
        """The largest size up at a size across; without a side up, any or none."""
        left_mm = self.most_mm - self.across * across_mm
        if self.up:
            return left_mm / self.up
        return float("inf") if left_mm >= -TOLERANCE_MM else float("-inf")


Way = tuple[_Line, ...]


def clear_lengths(stock: Stock, *, cut_mm: float, count: int = 1) -> tuple[float, ...]:
    """List the clear stretches of some sticks or boards, strip by strip, the longest first.

    Args:
        cut_mm: what a saw cut takes along the stick [mm], ≥ 0.
        count: how many sticks or boards are in hand.
    Source: derived.

    >>> clear_lengths(Stock(name="board", length_mm=1000, trim_mm=50, strips=2), cut_mm=4)
    (900, 900)
    """
    require_not_negative(cut_mm=cut_mm)
    lengths = [part.length_mm for part in clear_stretches(stock, cut_mm=cut_mm)]
    return tuple(sorted(lengths * stock.strips * count, reverse=True))


def most_up_mm(across_mm: float, *, clear_mm: Sequence[float], cut_mm: float, shares: Shares = ANY) -> float:
    """Find the largest outside size up of a frame of this outside size across; 0 where there is none.

    Args:
        across_mm: > 0 [mm].
        clear_mm: the clear stretches [mm], each > 0.
        cut_mm: what a saw cut takes along the stick [mm], ≥ 0.
        shares: ANY, or ROUND where the grain runs round the frame.
    Raises:
        OutOfRange: a length is out of its range.
    Source: derived.

    >>> most_up_mm(300, clear_mm=[1000, 700], cut_mm=0)
    500.0
    >>> most_up_mm(300, clear_mm=[1000, 700], cut_mm=0, shares=ROUND)
    200.0
    """
    require_positive(across_mm=across_mm)
    return max(0.0, _highest(across_mm, _ways(clear_mm, cut_mm, shares)))


def frontier(
    *,
    clear_mm: Sequence[float],
    cut_mm: float,
    least_mm: float,
    shares: Shares = ANY,
) -> tuple[Point, ...]:
    """Draw the outer edge of all frames that the stretches yield, as corner points (across, up), exact.

    Where the edge drops straight down, two points share the size across.

    Args:
        clear_mm: the clear stretches [mm], each > 0.
        cut_mm: what a saw cut takes along the stick [mm], ≥ 0.
        least_mm: the smallest outside size that makes sense: more than two face widths [mm], > 0.
        shares: ANY, or ROUND where the grain runs round the frame.
    Raises:
        OutOfRange: a length is out of its range.
        ImpossibleTimber: not even the smallest frame can be made.
    Source: derived.

    >>> frontier(clear_mm=[1000], cut_mm=0, least_mm=100)
    ((100.0, 400.0), (400.0, 100.0))
    """
    require_positive(least_mm=least_mm)
    ways = _ways(clear_mm, cut_mm, shares)
    if _highest(least_mm, ways) < least_mm - TOLERANCE_MM:
        raise ImpossibleTimber(
            "No frame fits {longest}: enter a longer stick, or narrower members.",
            field="stick_length_mm",
            lengths={"least": least_mm, "longest": max(clear_mm)},
        )
    return _simplified(_edge(ways, least_mm))


def largest_of_shape(points: Sequence[Point], *, shape_ratio: float) -> Point:
    """Find the largest frame of one shape on a frontier: where the line of all frames of this shape leaves it.

    Args:
        points: of a frontier, from left to right.
        shape_ratio: up to across, > 0.
    Raises:
        OutOfRange: the ratio is not above zero.
        ImpossibleTimber: the frontier has no frame of this shape.
    Source: derived.

    >>> largest_of_shape(((100.0, 400.0), (400.0, 100.0)), shape_ratio=1)
    (250.0, 250.0)
    """
    require_positive(shape_ratio=shape_ratio)
    over = [up - shape_ratio * across for across, up in points]
    if not points or over[0] < -TOLERANCE_MM:
        raise ImpossibleTimber("Too short for a frame of this shape: enter a longer stick.", field="shape_ratio")
    for (one, before), (other, after) in pairwise(zip(points, over, strict=True)):
        if after < 0:
            share = max(before, 0.0) / (max(before, 0.0) - after)
            across_mm = one[0] + share * (other[0] - one[0])
            return across_mm, shape_ratio * across_mm
    return points[-1][0], shape_ratio * points[-1][0]


def _ways(clear_mm: Sequence[float], cut_mm: float, shares: Shares) -> tuple[Way, ...]:
    """Every way to lay the shares on stretches; the four longest are enough."""
    require_not_negative(cut_mm=cut_mm)
    for length_mm in clear_mm:
        require_positive(clear_mm=length_mm)
    longest = sorted(clear_mm, reverse=True)[:4]
    found = {
        tuple(_line(share, length_mm, cut_mm) for share, length_mm in zip(each, lengths, strict=True))
        for each in shares
        for lengths in permutations(longest, len(each))
    }
    return tuple(found)


def _line(share: Share, length_mm: float, cut_mm: float) -> _Line:
    across, up = share
    return _Line(across=across, up=up, most_mm=length_mm - (across + up - 1) * cut_mm)


def _highest(across_mm: float, ways: Sequence[Way]) -> float:
    return max((min(line.highest_mm(across_mm) for line in way) for way in ways), default=0.0)


def _edge(ways: Sequence[Way], least_mm: float) -> Iterator[Point]:
    """Walk along the sizes across at which the edge may turn; between two of them it is straight."""
    turns = sorted({max(float(least_mm), at) for at in (least_mm, *_turns(ways, least_mm))})
    for left_mm, right_mm in pairwise(turns):
        near_mm, far_mm = (left_mm + share * (right_mm - left_mm) for share in WITHIN)
        near_up, far_up = _highest(near_mm, ways), _highest(far_mm, ways)
        if far_up < least_mm - TOLERANCE_MM:
            return
        slope = (far_up - near_up) / (far_mm - near_mm)
        yield left_mm, near_up - slope * (near_mm - left_mm)
        yield right_mm, far_up + slope * (right_mm - far_mm)


def _turns(ways: Sequence[Way], least_mm: float) -> Iterator[float]:
    """Sizes across at which a line ends, meets another, or comes down to the least size up."""
    lines = {line for way in ways for line in way}
    for line in lines:
        if line.across:
            yield (line.most_mm - line.up * least_mm) / line.across
    for one, other in combinations(lines, 2):
        cross = one.across * other.up - other.across * one.up
        if cross:
            yield (one.most_mm * other.up - other.most_mm * one.up) / cross


def _simplified(points: Iterator[Point]) -> tuple[Point, ...]:
    """Leave out points that repeat, or that lie on the line between their neighbours."""
    kept: list[Point] = []
    for point in points:
        if kept and _near(kept[-1], point):
            continue
        if len(kept) > 1 and _straight(kept[-2], kept[-1], point):
            kept.pop()
        kept.append(point)
    return tuple((round(across, _DECIMALS), round(up, _DECIMALS)) for across, up in kept)


def _near(one: Point, other: Point) -> bool:
    return max(abs(one[0] - other[0]), abs(one[1] - other[1])) <= TOLERANCE_MM


def _straight(one: Point, middle: Point, other: Point) -> bool:
    first = (middle[0] - one[0], middle[1] - one[1])
    whole = (other[0] - one[0], other[1] - one[1])
    return abs(first[0] * whole[1] - first[1] * whole[0]) <= TOLERANCE_MM * hypot(*whole)
