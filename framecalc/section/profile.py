"""The show side of a member: what is milled on its face and on the two edges of its face.

The *sight edge* is the edge of the face beside the picture (right in a section), the *back edge* the one beside the
wall (left). A face may be *bevelled*: it falls in a straight line, toward the picture or away from it. Or it runs
through typed points (`typed_points`), beside which it is level. Each edge shape has one *size*. Everything is cut by an
upright tool, so nothing is undercut; a shape sits on the edge of the face as the bevel leaves it:

- *arris*, *chamfer*: straight, from one size down the side to one size along the face (an arris is a small chamfer).
- *round-over*: an arc whose radius is the size, tangent to the side and to the face.
- *cove*: hollow, an arc whose radius is the size, its centre on the edge; where the face rises from the edge, the
  cove's wall goes straight up to it.
- *step*: a square rebate in the edge, the size wide and the size deep.
- *bead*: a half-round whose radius is the size, standing upright between two level quirks, its round just touching the
  face; each quirk is a quarter of the size wide, the inner one ends in a wall straight up to the face.
"""

from collections.abc import Callable, Sequence
from enum import StrEnum
from math import hypot

from framecalc.errors import ImpossibleSection
from framecalc.geometry.outline import Arc, Point, Segment, bounds, join, moved, turned_over
from framecalc.limits import require_positive
from framecalc.records import Record, replace
from framecalc.section.typed_points import ProfilePoint, chain_of_points
from framecalc.units import TOLERANCE_MM

QUIRK_RATIO = 0.25
"""Width of a bead's quirk to the bead's radius. Source: common practice, no source."""

OUTER_SIDE = "outer side"
"""What a sentence calls the side against the wall of the room."""


class EdgeShape(StrEnum):
    """What is milled on an edge of the face."""

    SQUARE = "square"
    ARRIS = "arris"
    CHAMFER = "chamfer"
    ROUND = "round-over"
    COVE = "cove"
    STEP = "step"
    BEAD = "bead"


class FaceShape(StrEnum):
    """How the face lies: level with the back, falling, or through typed points."""

    FLAT = "flat"
    TOWARD = "bevelled toward the picture"
    AWAY = "bevelled away from the picture"
    POINTS = "through typed points"


HOLLOW = frozenset({EdgeShape.COVE, EdgeShape.STEP, EdgeShape.BEAD})
"""Shapes that end in a wall: two of them need some face between them."""


class Edge(Record):
    """A shape on an edge, and its one size: leg, radius, or side of the step. A square edge has no size."""

    shape: EdgeShape
    size_mm: float


class Profile(Record):
    """The show side of a member: its chain from the foot of the sight side over the face to the foot of the back side.

    `shaped` is the part of it between the two sides; `sight_side_top_mm` and `back_side_top_mm` are the heights at
    which the sides end and the shapes begin.
    """

    chain: tuple[Segment, ...]
    shaped: tuple[Segment, ...]
    sight_side_top_mm: float
    back_side_top_mm: float


class _Cut(Record):
    """An edge shape set out about the origin, on a member that lies to the left of x = 0 and below the face."""

    edge: Edge
    place: str
    chain: tuple[Segment, ...]

    @property
    def field(self) -> str:
        return f"{self.place.replace(' ', '_')}_mm"

    @property
    def reach_down_mm(self) -> float:
        return -self.chain[0].start[1] if self.chain else 0.0

    @property
    def reach_across_mm(self) -> float:
        return -bounds(self.chain).left_mm if self.chain else 0.0


def milled_profile(
    *,
    width_mm: float,
    height_mm: float,
    floor_mm: float,
    sight_side: str,
    sight_edge: Edge,
    back_edge: Edge,
    face: FaceShape,
    face_drop_mm: float,
    points: Sequence[ProfilePoint] = (),
) -> Profile:
    """Mill the face and both its edges on a blank that reaches from x = 0 to its width and up to its height.

    Args:
        width_mm, height_mm: of the blank [mm], > 0.
        floor_mm: where the sight side starts [mm], below the height; the back side starts at 0.
        sight_side: the name of the sight side ("lip"), for the sentences.
        face_drop_mm: fall of a bevelled face over the whole width [mm], > 0 and less than the width (45°); a flat face
            ignores it.
        points: what a face through typed points runs through; any other face ignores them.
    Raises:
        OutOfRange: the size of a shape, or the fall of a bevel, is not above zero.
        ImpossibleSection: a shape takes all of a side or more than the face, or the points describe no profile.
    Source: derived; the shapes are common practice, no source.

    >>> square = Edge(shape=EdgeShape.SQUARE, size_mm=1)
    >>> profile = milled_profile(width_mm=30, height_mm=20, floor_mm=12, sight_side="lip", sight_edge=square,
    ...     back_edge=square, face=FaceShape.TOWARD, face_drop_mm=3)
    >>> profile.sight_side_top_mm, profile.back_side_top_mm
    (17, 20)
    """
    fall_mm = _fall_mm(face, face_drop_mm=face_drop_mm, width_mm=width_mm)
    sight_top_mm, back_top_mm = height_mm - max(fall_mm, 0), height_mm + min(fall_mm, 0)
    _require_room_to_fall(face_drop_mm, sight_side, height_mm - floor_mm, sight_top_mm - floor_mm)
    _require_room_to_fall(face_drop_mm, OUTER_SIDE, height_mm, back_top_mm)
    sight = _cut(sight_edge, place="sight edge", rise_ratio=fall_mm / width_mm)
    back = _cut(back_edge, place="back edge", rise_ratio=-fall_mm / width_mm)
    _require_room_down(sight, sight_side, sight_top_mm - floor_mm)
    _require_room_down(back, OUTER_SIDE, back_top_mm)
    _require_room_across(sight, back, width_mm)
    typed: tuple[Segment, ...] = ()
    if face is FaceShape.POINTS:
        typed = chain_of_points(points, width_mm=width_mm, height_mm=height_mm, floor_mm=floor_mm)
        _require_room_beside_points(typed, sight, back, width_mm)
    return _assembled(
        right=moved(sight.chain, by=(width_mm, sight_top_mm)),
        face=typed,
        left=moved(turned_over(back.chain), by=(0, back_top_mm)),
        sight_edge=_own_edge(typed[:1], (width_mm, sight_top_mm)),
        back_edge=_own_edge(typed[-1:], (0, back_top_mm)),
        floor_mm=floor_mm,
    )


def _own_edge(nearest: Sequence[Segment], edge: Point) -> Point:
    """Where a side ends: at its edge, or lower where a typed profile meets the side itself."""
    ends = (end for segment in nearest for end in (segment.start, segment.end))
    return next((end for end in ends if abs(end[0] - edge[0]) <= TOLERANCE_MM), edge)


def _assembled(
    *,
    right: tuple[Segment, ...],
    face: tuple[Segment, ...],
    left: tuple[Segment, ...],
    sight_edge: Point,
    back_edge: Point,
    floor_mm: float,
) -> Profile:
    """Join both sides and the face to the shapes on its edges; a square edge is its point."""
    sight_top, face_start = (right[0].start, right[-1].end) if right else (sight_edge, sight_edge)
    face_end, back_top = (left[0].start, left[-1].end) if left else (back_edge, back_edge)
    typed_start, typed_end = (face[0].start, face[-1].end) if face else (face_start, face_start)
    shaped = (*right, *join([face_start, typed_start]), *face, *join([typed_end, face_end]), *left)
    return Profile(
        chain=(*join([(sight_edge[0], floor_mm), sight_top]), *shaped, *join([back_top, (0, 0)])),
        shaped=shaped,
        sight_side_top_mm=sight_top[1],
        back_side_top_mm=back_top[1],
    )


def _cut(edge: Edge, *, place: str, rise_ratio: float) -> _Cut:
    """Set out an edge shape where the face rises by a ratio, per millimetre away from the edge; it may fall."""
    cut = _Cut(edge=edge, place=place, chain=())
    if edge.shape is EdgeShape.SQUARE:
        return cut
    require_positive(**{cut.field: edge.size_mm})
    return replace(cut, chain=_SHAPES[edge.shape](edge.size_mm, rise_ratio))


def _chamfer(leg_mm: float, rise_ratio: float) -> tuple[Segment, ...]:
    slope = hypot(1, rise_ratio)
    return join([(0, -leg_mm), (-leg_mm / slope, leg_mm * rise_ratio / slope)])


def _round_over(radius_mm: float, rise_ratio: float) -> tuple[Segment, ...]:
    """The tangents of a circle from a corner of angle θ are `r / tan(θ/2)` long; here `tan(θ/2) = slope + rise`."""
    slope = hypot(1, rise_ratio)
    tangent_mm = radius_mm / (slope + rise_ratio)
    arc = Arc(
        start=(0, -tangent_mm),
        end=(-tangent_mm / slope, tangent_mm * rise_ratio / slope),
        centre=(-radius_mm, -tangent_mm),
        radius_mm=radius_mm,
        turns_left=True,
    )
    return (arc,)


def _cove(radius_mm: float, rise_ratio: float) -> tuple[Segment, ...]:
    slope = hypot(1, rise_ratio)
    level = (-radius_mm, 0.0)
    end = level if rise_ratio >= 0 else (-radius_mm / slope, radius_mm * rise_ratio / slope)
    arc = Arc(start=(0, -radius_mm), end=end, centre=(0, 0), radius_mm=radius_mm, turns_left=False)
    wall = join([level, (-radius_mm, radius_mm * rise_ratio)]) if rise_ratio > 0 else ()
    return (arc, *wall)


def _step(side_mm: float, rise_ratio: float) -> tuple[Segment, ...]:
    return join([(0, -side_mm), (-side_mm, -side_mm), (-side_mm, side_mm * rise_ratio)])


def _bead(radius_mm: float, rise_ratio: float) -> tuple[Segment, ...]:
    """The round touches the face when its centre lies `r · slope` under it; the quirks lie level with the centre."""
    quirk_mm = radius_mm * QUIRK_RATIO
    middle_mm = quirk_mm + radius_mm
    floor_mm = middle_mm * rise_ratio - radius_mm * hypot(1, rise_ratio)
    half_round = Arc(
        start=(-quirk_mm, floor_mm),
        end=(-quirk_mm - 2 * radius_mm, floor_mm),
        centre=(-middle_mm, floor_mm),
        radius_mm=radius_mm,
        turns_left=True,
    )
    wall = [half_round.end, (-2 * middle_mm, floor_mm), (-2 * middle_mm, 2 * middle_mm * rise_ratio)]
    return (*join([(0, floor_mm), half_round.start]), half_round, *join(wall))


_SHAPES: dict[EdgeShape, Callable[[float, float], tuple[Segment, ...]]] = {
    EdgeShape.ARRIS: _chamfer,
    EdgeShape.CHAMFER: _chamfer,
    EdgeShape.ROUND: _round_over,
    EdgeShape.COVE: _cove,
    EdgeShape.STEP: _step,
    EdgeShape.BEAD: _bead,
}


def _fall_mm(face: FaceShape, *, face_drop_mm: float, width_mm: float) -> float:
    """How much lower the face ends at the sight edge than at the back edge."""
    if face in (FaceShape.FLAT, FaceShape.POINTS):
        return 0.0
    require_positive(face_drop_mm=face_drop_mm)
    if face_drop_mm > width_mm - TOLERANCE_MM:
        raise ImpossibleSection(
            "Face steeper than 45°: enter a fall under {width}, not {fall}.",
            field="face_drop_mm",
            lengths={"fall": face_drop_mm, "width": width_mm},
        )
    return face_drop_mm if face is FaceShape.TOWARD else -face_drop_mm


def _require_room_to_fall(face_drop_mm: float, side: str, side_mm: float, left_mm: float) -> None:
    if left_mm <= TOLERANCE_MM:
        raise ImpossibleSection(
            f"No {side} left: enter a fall under {{side}}, not {{fall}}.",
            field="face_drop_mm",
            lengths={"fall": face_drop_mm, "side": side_mm},
        )


def _require_room_down(cut: _Cut, side: str, side_mm: float) -> None:
    if cut.reach_down_mm >= side_mm - TOLERANCE_MM:
        limit_mm = side_mm * cut.edge.size_mm / cut.reach_down_mm
        raise ImpossibleSection(
            f"No {side} left of {{side}}: enter {_an(cut.edge.shape)} under {{limit}}, not {{size}}.",
            field=cut.field,
            lengths={"size": cut.edge.size_mm, "side": side_mm, "limit": limit_mm},
        )


def _require_room_across(sight: _Cut, back: _Cut, width_mm: float) -> None:
    """Hollow shapes must leave some face between them; others may meet in a ridge or a full round."""
    smaller, larger = sorted((sight, back), key=lambda cut: cut.reach_across_mm)
    least_face_mm = TOLERANCE_MM if HOLLOW & {smaller.edge.shape, larger.edge.shape} else -TOLERANCE_MM
    if larger.reach_across_mm > width_mm - least_face_mm:
        raise _no_face_left(larger, None, width_mm)
    if larger.reach_across_mm > width_mm - smaller.reach_across_mm - least_face_mm:
        raise _no_face_left(larger, smaller, width_mm)


def _require_room_beside_points(typed: Sequence[Segment], sight: _Cut, back: _Cut, width_mm: float) -> None:
    """A shape on an edge ends before the typed profile begins."""
    rooms = ((sight, width_mm - typed[0].start[0]), (back, typed[-1].end[0]))
    for cut, room_mm in rooms:
        if cut.chain and cut.reach_across_mm > room_mm + TOLERANCE_MM:
            raise ImpossibleSection(
                f"{_an(cut.edge.shape).capitalize()} of {{size}} meets the points: choose a square edge.",
                field=cut.field,
                lengths={"size": cut.edge.size_mm},
            )


def _no_face_left(larger: _Cut, smaller: _Cut | None, width_mm: float) -> ImpossibleSection:
    room_mm = width_mm - smaller.reach_across_mm if smaller else width_mm
    lengths = {"width": width_mm, "size": larger.edge.size_mm}
    lengths["limit"] = room_mm * larger.edge.size_mm / larger.reach_across_mm
    wording = f"{_an(larger.edge.shape).capitalize()} of {{size}} on the {larger.place}"
    if smaller:
        lengths["other"] = smaller.edge.size_mm
        wording += f" and {_an(smaller.edge.shape)} of {{other}} on the {smaller.place} take"
    else:
        wording += " takes"
    wording += " the face, {width}: enter under {limit}"
    return ImpossibleSection(
        f"{wording} on the {larger.place}." if smaller else f"{wording}.", field=larger.field, lengths=lengths
    )


def _an(noun: str) -> str:
    return f"{'an' if noun[0] in 'aeiou' else 'a'} {noun}"
