"""The corners of a sheet or an artwork in a photo, found along its edges to a part of a pixel.

A mark put by hand is a pixel or two beside its corner. From there the two edges are followed for a third of each side:
at many *stations* the greys along a short line square to the edge are read, and the place where they change most is
found between pixels. A straight line through these places is each edge near its corner; where two of them cross the
corner is. An edge without contrast, or one that is no straight line, is not followed, and the mark stays as it is put.
"""

from collections.abc import Iterator, Sequence
from math import atan2, cos, dist, sin
from statistics import fmean

from framecalc.geometry.perspective import Corners, Pixel
from framecalc.records import Record

STATIONS = 25
"""So many places along a part of a side. Ours, no source."""

FOLLOWED = (0.03, 0.35)
"""Which part of a side is followed from its corner: a lens bends a whole side more than a third of it.
Ours, no source."""

REACH_RATIO, LEAST_REACH_PX, MOST_REACH_PX = 0.004, 6, 20
"""How far to either side of a hand's mark its edge is looked for: a share of the photo's longer side, within limits.
Ours, no source."""

MOST_CARRIED = 1.5
"""A corner further from its mark than so many reaches is another one. Ours, no source."""

SIDE_REACHES = 4
"""A side is followed where it is so many least reaches long, and looked for no further than that share of it.
Ours, no source."""

LEAST_CONTRAST = 12.0
"""A change of fewer greys, of 255, over two pixels is the paper's grain or noise. Common practice, no source."""

ABOUT_AS_STRONG = 0.5
"""A change of so much of the strongest one may be the edge that is meant. Common practice, no source."""

LEAST_SHARE = 0.6
"""So many of the stations must show an edge, near to one straight line. Ours, no source."""

MOST_OFF_PX = 1.5
"""A place further from the line is no part of the edge. Ours, no source."""

LEAST_CROSSING = 0.3
"""The sine of the angle between two edges whose corner is found along them. Ours, no source."""

FOUND_PX = 0.5
"""How far off a corner that was found along its edges is, as a standard deviation. Common practice, no source."""

PLACED_PX, PLACED_ACROSS_PX = 2.0, 4000
"""How far off a mark put by hand with a magnifier is, as a standard deviation, in a photo of so many pixels on its
longer side; in a smaller one less, but not under half of it. Common practice, no source."""

Line = tuple[Pixel, Pixel]
"""A point of a line, and its direction, of length 1."""


class Greys(Record):
    """A grey picture: a byte a pixel, row after row."""

    across_px: int
    up_px: int
    values: bytes

    def at(self, pixel: Pixel) -> float | None:
        """The grey at a place, between the four pixels around it; none outside of the picture.

        A pixel's own place is its middle: the first one's is (0.5, 0.5).
        """
        x, y = pixel[0] - 0.5, pixel[1] - 0.5
        left, top = int(x // 1), int(y // 1)
        if not (0 <= left < self.across_px - 1 and 0 <= top < self.up_px - 1):
            return None
        aside, below, first = x - left, y - top, top * self.across_px + left
        upper = self.values[first] * (1 - aside) + self.values[first + 1] * aside
        first += self.across_px
        lower = self.values[first] * (1 - aside) + self.values[first + 1] * aside
        return upper * (1 - below) + lower * below


def found_corners(greys: Greys, corners: Corners) -> tuple[Pixel | None, ...]:
    """Find each of four corners along its edges; none where an edge cannot be followed.

    Args:
        corners: where they were put, with the clock.
    Source: derived; the place between pixels from the parabola through the steepest change and its neighbours.

    >>> dark, lit = bytes([40] * 100), bytes([40] * 20 + [220] * 60 + [40] * 20)
    >>> greys = Greys(across_px=100, up_px=100, values=dark * 20 + lit * 60 + dark * 20)
    >>> found = found_corners(greys, ((19, 21), (81, 20), (80, 80), (20, 80)))
    >>> [(round(across, 2), round(down, 2)) for across, down in found]
    [(20.0, 20.0), (80.0, 20.0), (80.0, 80.0), (20.0, 80.0)]
    """
    reach_px = min(max(round(REACH_RATIO * max(greys.across_px, greys.up_px)), LEAST_REACH_PX), MOST_REACH_PX)
    found: list[Pixel | None] = []
    for number, corner in enumerate(corners):
        ends = corners[number - 1], corners[(number + 1) % 4]
        before, after = (_edge(greys, corner, end, reach_px) for end in ends)
        crossing = _crossing(before, after)
        found.append(crossing if crossing and dist(crossing, corner) <= MOST_CARRIED * reach_px else None)
    return tuple(found)


def placed_off_px(*, photo_across_px: int, photo_up_px: int) -> float:
    """How far off a mark put by hand is, as a standard deviation.

    Args:
        photo_across_px, photo_up_px: the whole photo [pixels].
    Source: common practice, no source.

    >>> placed_off_px(photo_across_px=4000, photo_up_px=3000), placed_off_px(photo_across_px=900, photo_up_px=1000)
    (2.0, 1.0)
    """
    return PLACED_PX * max(max(photo_across_px, photo_up_px) / PLACED_ACROSS_PX, 0.5)


def _edge(greys: Greys, corner: Pixel, end: Pixel, reach_px: int) -> Line | None:
    """The straight line of the edge from a corner toward the next one, near the corner; none where there is none."""
    length_px = dist(corner, end)
    if length_px < SIDE_REACHES * LEAST_REACH_PX:
        return None
    ahead = ((end[0] - corner[0]) / length_px, (end[1] - corner[1]) / length_px)
    places = list(_places(greys, corner, ahead, length_px, min(reach_px, int(length_px / SIDE_REACHES))))
    return _straight(places, needed=round(LEAST_SHARE * STATIONS))


def _places(greys: Greys, corner: Pixel, ahead: Pixel, length_px: float, reach_px: int) -> Iterator[Pixel]:
    """Where the edge is at each station that shows one."""
    aside = (-ahead[1], ahead[0])
    near, far = FOLLOWED
    for number in range(STATIONS):
        along_px = length_px * (near + (far - near) * number / (STATIONS - 1))
        middle = _moved(corner, ahead, along_px)
        read = [greys.at(_moved(middle, aside, off)) for off in range(-reach_px, reach_px + 1)]
        off_px = _edge_along([grey for grey in read if grey is not None]) if None not in read else None
        if off_px is not None:
            yield _moved(middle, aside, off_px - reach_px)


def _edge_along(greys: Sequence[float]) -> float | None:
    """Where along a line the greys change most, between pixels; none where they hardly change.

    Of several changes about as strong, such as both sides of a thick line, the one nearest to the middle counts: the
    hand that put the mark has chosen it.
    """
    changes = [abs(after - before) for before, after in zip(greys, greys[2:], strict=False)]
    least = max(LEAST_CONTRAST, ABOUT_AS_STRONG * max(changes))
    threes = enumerate(zip(changes, changes[1:], changes[2:], strict=False), 2)
    places = [at + _beside(*three) for at, three in threes if three[1] >= max(least, *three)]
    return min(places, key=lambda place: abs(place - (len(greys) - 1) / 2), default=None)


def _beside(before: float, here: float, after: float) -> float:
    """How far after the middle one of three changes their parabola is highest."""
    bend = before - 2 * here + after
    return (before - after) / 2 / bend if bend else 0.0


def _straight(places: Sequence[Pixel], *, needed: int) -> Line | None:
    """The line that most of the places lie on; outliers are left out, the furthest first."""
    kept = list(places)
    while len(kept) >= needed:
        line = _fitted(kept)
        offs = [abs(_off(line, place)) for place in kept]
        if max(offs) <= MOST_OFF_PX:
            return line
        kept.pop(max(range(len(kept)), key=offs.__getitem__))
    return None


def _fitted(places: Sequence[Pixel]) -> Line:
    """The line of least squares square to itself: through the middle, along the larger axis of the spread."""
    middle = (fmean(x for x, _ in places), fmean(y for _, y in places))
    away = [(x - middle[0], y - middle[1]) for x, y in places]
    xx, yy, xy = sum(x * x for x, _ in away), sum(y * y for _, y in away), sum(x * y for x, y in away)
    turn_rad = atan2(2 * xy, xx - yy) / 2
    return middle, (cos(turn_rad), sin(turn_rad))


def _off(line: Line, place: Pixel) -> float:
    """How far a place is from a line, to its left or its right."""
    (x, y), (ahead, down) = line
    return (place[0] - x) * down - (place[1] - y) * ahead


def _crossing(one: Line | None, other: Line | None) -> Pixel | None:
    """Where two edges cross; none where they hardly do."""
    if one is None or other is None:
        return None
    (point, ahead), (_, against) = one, other
    turn = ahead[0] * against[1] - ahead[1] * against[0]
    if abs(turn) < LEAST_CROSSING:
        return None
    return _moved(point, ahead, -_off(other, point) / turn)


def _moved(place: Pixel, direction: Pixel, by_px: float) -> Pixel:
    return place[0] + direction[0] * by_px, place[1] + direction[1] * by_px
