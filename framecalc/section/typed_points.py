"""A face profile typed point by point, from the sight edge outward.

A *point* lies so far across the face from the sight edge, and so far down below the blank's face. The way to it from
the point before is a straight *line*, a *hollow* (an arc that bends into the wood) or a *round* (one that stands out of
it), each arc with its radius and at most half a turn. The first point lies on the sight side or on the face, the last
one on the face or on the outer side; beside them the blank stays as it is. Nothing is undercut.
"""

from collections.abc import Iterator, Sequence
from enum import StrEnum
from itertools import pairwise
from math import hypot, sqrt

from framecalc.errors import ImpossibleSection
from framecalc.geometry.outline import Arc, Line, Point, Segment, bounds
from framecalc.limits import require_not_negative, require_positive
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM

FIELD = "profile_points"
"""What a refusal calls the points; after a full stop follow the id of one of them and what of it is at fault."""


class WayToPoint(StrEnum):
    """The way to a point from the one before it."""

    LINE = "line"
    HOLLOW = "hollow"
    ROUND = "round"


class ProfilePoint(Record):
    """A point of a face profile, and the way to it; a line has no radius. `id` names it in a refusal."""

    across_mm: float
    down_mm: float
    way: WayToPoint = WayToPoint.LINE
    radius_mm: float | None = None
    id: str = ""


class _Placed(Record):
    """A point in the section, with its number."""

    typed: ProfilePoint
    number: int
    at: Point

    def refused(self, sentence: str, what: str, **lengths_mm: float) -> ImpossibleSection:
        """The refusal of this point."""
        return ImpossibleSection(sentence, field=f"{FIELD}.{self.typed.id}.{what}", lengths=lengths_mm)


def chain_of_points(
    points: Sequence[ProfilePoint], *, width_mm: float, height_mm: float, floor_mm: float
) -> tuple[Segment, ...]:
    """Run the typed profile over a blank that reaches from x = 0 to its width and up to its height.

    An arc of radius r over a chord c has its centre `√(r² − c²/4)` from the middle of the chord.

    Args:
        points: from the sight edge outward, two or more.
        width_mm, height_mm: of the blank [mm], > 0.
        floor_mm: where the sight side starts [mm], below the height.
    Raises:
        OutOfRange: a distance is below zero, or a radius is not above it.
        ImpossibleSection: a point leaves the blank, the profile turns back, rises above the face or comes down to the
            back, an arc does not reach; `field` names the point.
    Source: derived (plane geometry).

    >>> start = ProfilePoint(across_mm=4, down_mm=0)
    >>> end = ProfilePoint(across_mm=10, down_mm=0, way=WayToPoint.HOLLOW, radius_mm=5)
    >>> [arc] = chain_of_points([start, end], width_mm=30, height_mm=20, floor_mm=12)
    >>> arc.start, arc.end, arc.centre
    ((26, 20), (20, 20), (23.0, 24.0))
    """
    placed = tuple(_placed(points, width_mm, height_mm))
    _require_ends(placed, width_mm=width_mm, height_mm=height_mm, floor_mm=floor_mm)
    chain = tuple(_way(before, after) for before, after in pairwise(placed))
    for point, segment in zip(placed[1:], chain, strict=True):
        _require_open_above(point, segment, height_mm=height_mm)
    _require_no_slit(placed)
    return chain


def _placed(points: Sequence[ProfilePoint], width_mm: float, height_mm: float) -> Iterator[_Placed]:
    if len(points) < 2:
        raise ImpossibleSection("Add two or more points, from the sight edge outward.", field="face_shape")
    for number, point in enumerate(points, start=1):
        require_not_negative(across_mm=point.across_mm, down_mm=point.down_mm)
        placed = _Placed(typed=point, number=number, at=(width_mm - point.across_mm, height_mm - point.down_mm))
        _require_inside(placed, width_mm=width_mm, height_mm=height_mm)
        yield placed


def _require_inside(point: _Placed, *, width_mm: float, height_mm: float) -> None:
    if point.at[0] < -TOLERANCE_MM:
        says = f"Point {point.number} lies beyond the outer edge: enter {{width}} or less across."
        raise point.refused(says, "across", width=width_mm)
    if point.at[1] <= TOLERANCE_MM:
        says = f"Point {point.number} lies at the back of the member: enter less than {{height}} down."
        raise point.refused(says, "down", height=height_mm)


def _require_ends(placed: Sequence[_Placed], *, width_mm: float, height_mm: float, floor_mm: float) -> None:
    first, last = placed[0], placed[-1]
    if not _is_level(first.at[1], height_mm) and not _is_level(first.at[0], width_mm):
        raise first.refused("Point 1 starts in the air: enter 0 across (sight edge) or 0 down (face).", "across")
    if not _is_level(last.at[1], height_mm) and not _is_level(last.at[0], 0):
        says = f"Point {last.number} ends in the air: enter 0 down (face) or {{width}} across (outer edge)."
        raise last.refused(says, "down", width=width_mm)
    if _is_level(first.at[0], width_mm) and first.at[1] <= floor_mm + TOLERANCE_MM:
        says = "Point 1 comes down to the rabbet and leaves no lip: enter less than {lip} down."
        raise first.refused(says, "down", lip=height_mm - floor_mm)


def _is_level(one_mm: float, other_mm: float) -> bool:
    return abs(one_mm - other_mm) <= TOLERANCE_MM


def _way(before: _Placed, after: _Placed) -> Segment:
    (from_x, from_y), (to_x, to_y) = before.at, after.at
    chord_mm = hypot(to_x - from_x, to_y - from_y)
    if chord_mm <= TOLERANCE_MM:
        raise after.refused(f"Points {before.number} and {after.number} are the same: remove one of them.", "across")
    if to_x > from_x + TOLERANCE_MM:
        says = f"Point {after.number} turns back to the sight edge: enter {{least}} or more across."
        raise after.refused(says, "across", least=before.typed.across_mm)
    if after.typed.way is WayToPoint.LINE:
        return Line(start=before.at, end=after.at)
    return _arc(before, after, chord_mm)


def _arc(before: _Placed, after: _Placed, chord_mm: float) -> Arc:
    """The wood lies left of the way: a round turns left, about a centre in the wood."""
    radius_mm, turns_left = after.typed.radius_mm, after.typed.way is WayToPoint.ROUND
    if radius_mm is None:
        raise after.refused(f"Enter the radius of the {after.typed.way} to point {after.number}.", "radius")
    require_positive(radius_mm=radius_mm)
    if radius_mm < chord_mm / 2 - TOLERANCE_MM:
        says = f"A {after.typed.way} of {{radius}} does not reach point {after.number}: enter {{least}} or more."
        raise after.refused(says, "radius", radius=radius_mm, least=chord_mm / 2)
    (from_x, from_y), (to_x, to_y) = before.at, after.at
    aside = sqrt(max(radius_mm**2 - chord_mm**2 / 4, 0.0)) / chord_mm * (1 if turns_left else -1)
    centre = (from_x + to_x) / 2 - (to_y - from_y) * aside, (from_y + to_y) / 2 + (to_x - from_x) * aside
    return Arc(start=before.at, end=after.at, centre=centre, radius_mm=radius_mm, turns_left=turns_left)


def _require_open_above(after: _Placed, segment: Segment, *, height_mm: float) -> None:
    """A cutter comes from above: the way runs outward, under the face, and over the back."""
    around, way = bounds([segment]), after.typed.way
    if around.top_mm > height_mm + TOLERANCE_MM:
        raise after.refused(f"The {way} to point {after.number} rises above the face: enter more down.", "down")
    if around.bottom_mm <= TOLERANCE_MM:
        says = f"The {way} to point {after.number} cuts through to the back: enter a larger radius."
        raise after.refused(says, "radius")
    if around.left_mm < segment.end[0] - TOLERANCE_MM or around.right_mm > segment.start[0] + TOLERANCE_MM:
        says = f"The {way} to point {after.number} leans over and no cutter reaches under it: enter a larger radius."
        raise after.refused(says, "radius")


def _require_no_slit(placed: Sequence[_Placed]) -> None:
    """A way straight down and straight up again leaves a slit of no width."""
    for before, middle, after in zip(placed, placed[1:], placed[2:], strict=False):
        upright = _is_level(before.at[0], middle.at[0]) and _is_level(middle.at[0], after.at[0])
        if upright and (middle.at[1] - before.at[1]) * (after.at[1] - middle.at[1]) < 0:
            says = f"Point {after.number} goes back over point {before.number}: enter more across."
            raise after.refused(says, "across")
