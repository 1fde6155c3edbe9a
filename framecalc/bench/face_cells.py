"""A face in narrow cells, each with its height: what a cutter of a shape would take of it, and what stays.

Across runs from the outer side (x = 0) to the sight edge, as in every section.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from math import sqrt

from framecalc.bench.cutters import SAME_SIZE_MM, CutPlace
from framecalc.geometry.outline import Arc, Line, Point, Segment
from framecalc.records import replace
from framecalc.section.rabbeted import Section
from framecalc.units import TOLERANCE_MM

CELLS = 400

Floor = Callable[[float], float]
"""How low a cutter comes at a place across; infinite where it does not reach."""


class FaceInCells:
    """The face of a section: its height in every cell, and the lines that are milled."""

    def __init__(self, section: Section) -> None:
        self.section = section
        self.width_mm, self.thickness_mm = section.face_width_mm, section.thickness_mm
        each_mm = self.width_mm / CELLS
        self.middles_mm = [(number + 0.5) * each_mm for number in range(CELLS)]
        self.heights_mm = [_height_mm(section.outline.segments, x_mm) for x_mm in self.middles_mm]

    @property
    def shaped(self) -> list[Segment]:
        """The lines that a cutter makes: no walls, which other cuts leave, and nothing of the face that stays."""
        found = [part for one in self.section.outline.segments for part in _parts(one)]
        return [one for one in found if not _is_wall(one) and self._lowest_mm(one) > 0 and not self._stays(one)]

    def points(self, heights_mm: Sequence[float]) -> tuple[Point, ...]:
        """A face of these heights as points from the sight edge to the outer side."""
        cells = list(zip(self.middles_mm, heights_mm, strict=True))[::-1]
        inner = [
            here
            for before, here, after in zip(cells, cells[1:], cells[2:], strict=False)
            if not before[1] == here[1] == after[1]
        ]
        return (self.width_mm, heights_mm[-1]), *inner, (0.0, heights_mm[0])

    def is_open(self, place: CutPlace, *, from_mm: float, low_mm: float) -> bool:
        """Whether nothing between a place across and a side stands higher than this."""
        beyond = [
            height_mm
            for x_mm, height_mm in zip(self.middles_mm, self.heights_mm, strict=True)
            if (x_mm > from_mm if place is CutPlace.SIGHT else x_mm < from_mm)
        ]
        return all(height_mm <= low_mm + SAME_SIZE_MM for height_mm in beyond)

    def out_mm(self, place: CutPlace, x_mm: float) -> float:
        """How far a place across is from a side."""
        return self.width_mm - x_mm if place is CutPlace.SIGHT else x_mm

    def takes_nothing_that_stays(self, floor: Floor) -> bool:
        """Whether a cutter that comes so low leaves all of the section."""
        return all(
            height_mm <= floor(x_mm) + SAME_SIZE_MM
            for x_mm, height_mm in zip(self.middles_mm, self.heights_mm, strict=True)
        )

    def _stays(self, segment: Segment) -> bool:
        """Whether it is the level face of the blank."""
        level_mm = max(segment.start[1], segment.end[1]), self._lowest_mm(segment)
        return isinstance(segment, Line) and all(abs(one - self.thickness_mm) <= TOLERANCE_MM for one in level_mm)

    def _lowest_mm(self, segment: Segment) -> float:
        """The lowest end of a line of the face; 0 for the back, the rabbet and the sides."""
        low_mm = min(segment.start[1], segment.end[1])
        middle_mm = (segment.start[0] + segment.end[0]) / 2
        is_of_back = segment.start[0] < segment.end[0]
        return 0.0 if is_of_back or not 0 <= middle_mm <= self.width_mm else low_mm


def rise_mm(radius_mm: float, across_mm: float) -> float:
    """How far an arc stands over its middle, so far across from it.

    Source: derived (plane geometry).

    >>> rise_mm(5, 3)
    4.0
    """
    return sqrt(max(0.0, radius_mm**2 - across_mm**2))


def _is_wall(segment: Segment) -> bool:
    return isinstance(segment, Line) and abs(segment.start[0] - segment.end[0]) <= TOLERANCE_MM


def _parts(segment: Segment) -> Iterator[Segment]:
    """A round that stands over its middle falls to both sides; all else is one line."""
    if not (isinstance(segment, Arc) and segment.turns_left):
        yield segment
        return
    top = (segment.centre[0], segment.centre[1] + segment.radius_mm)
    if segment.end[0] < top[0] - TOLERANCE_MM and segment.start[0] > top[0] + TOLERANCE_MM:
        yield replace(segment, end=top)
        yield replace(segment, start=top)
    else:
        yield segment


def _height_mm(segments: Iterable[Segment], x_mm: float) -> float:
    """The height of a face at a place."""
    there = (one for one in segments if min(one.start[0], one.end[0]) <= x_mm <= max(one.start[0], one.end[0]))
    return max(_at_mm(one, x_mm) for one in there)


def _at_mm(segment: Segment, x_mm: float) -> float:
    if isinstance(segment, Arc):
        over_mm = rise_mm(segment.radius_mm, x_mm - segment.centre[0])
        return segment.centre[1] + (over_mm if segment.turns_left else -over_mm)
    (from_mm, start_mm), (to_mm, end_mm) = segment.start, segment.end
    across_mm = to_mm - from_mm
    return start_mm + (end_mm - start_mm) * (x_mm - from_mm) / across_mm if across_mm else max(start_mm, end_mm)
