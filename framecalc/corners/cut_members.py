"""The sides in hand: each as long as it was measured, with the angles at its two long points.

Sides go clockwise from the top as seen from the front, those of a polygon by number from the bottom; each has a *start*
and a *finish* in that direction. The angle of an end is that at the long point, between outer edge and cut: 45° when it
is right, in a frame of any number of sides; an error counts by how it turns the joint as seen from the front.
"""

from collections.abc import Iterator, Mapping, Sequence
from math import atan, degrees

from framecalc.corners.saw import MOST_ERROR_DEG
from framecalc.errors import ImpossibleSize
from framecalc.limits import require_between, require_positive
from framecalc.records import Record
from framecalc.sizes.polygons import FEWEST_SIDES, MOST_SIDES, side_names
from framecalc.sizes.shape import RECTANGLE_SIDES

RIGHT_DEG = 45.0


class CutMember(Record):
    """One side as measured: its long edge, and the angles at its two long points."""

    side: str
    long_mm: float
    start_deg: float = RIGHT_DEG
    finish_deg: float = RIGHT_DEG

    @property
    def error_deg(self) -> float:
        """By how much its two angles together are too large."""
        return self.start_deg + self.finish_deg - 2 * RIGHT_DEG


def error_by_feeler_deg(gap_mm: float, *, mitre_length_mm: float) -> float:
    """Find by how much an end is too large from its gap against a true block, both against one straight fence.

    ``ε = atan(g / m)``: where the angle is too large the two touch at the sight edge, and the tip gapes.

    Args:
        gap_mm: at the tip, or at the sight edge below zero [mm].
        mitre_length_mm: m, of the mitre as it lies [mm], > 0.
    Raises:
        OutOfRange: the mitre length is not above zero.
    Source: derived.

    >>> round(error_by_feeler_deg(0.3, mitre_length_mm=50), 3), round(error_by_feeler_deg(-0.3, mitre_length_mm=50), 3)
    (0.344, -0.344)
    """
    require_positive(mitre_length_mm=mitre_length_mm)
    return degrees(atan(gap_mm / mitre_length_mm))


def members_from_the_saw(
    long_mm: Mapping[str, float], *, left_error_deg: float, right_error_deg: float
) -> tuple[CutMember, ...]:
    """Describe the sides as a saw with known errors will cut them, from its record of test cuts.

    Seen with the outer edge away from you the start of every side is its left end.

    Args:
        long_mm: the long edge of every side, by its name or number [mm], > 0.
        left_error_deg, right_error_deg: error of left and right ends, as seen from the front of a frame whose right
            ends are 45° [°], −5 to 5; alike from one setting.
    Raises:
        OutOfRange: length or angle out of range.
    Source: derived.

    >>> sides = members_from_the_saw(
    ...     {"top": 348, "right": 471, "bottom": 348, "left": 471}, left_error_deg=0.1, right_error_deg=-0.1)
    >>> sides[1].long_mm, sides[1].start_deg, round(sides[1].error_deg, 9)
    (471, 45.1, 0.0)
    """
    errors = {"left_error_deg": left_error_deg, "right_error_deg": right_error_deg}
    require_between(-MOST_ERROR_DEG, MOST_ERROR_DEG, **errors)
    for edge_mm in long_mm.values():
        require_positive(long_mm=edge_mm)
    return tuple(
        CutMember(
            side=side, long_mm=edge_mm, start_deg=RIGHT_DEG + left_error_deg, finish_deg=RIGHT_DEG + right_error_deg
        )
        for side, edge_mm in long_mm.items()
    )


def in_order(members: Sequence[CutMember], *, mitre_length_mm: float) -> tuple[CutMember, ...]:
    """Check that sides make a frame, and put them in order: clockwise from the top, or by their numbers.

    Args:
        members: top, right, bottom and left, or the numbered sides of a regular polygon, each once, in any order;
            angles 40° to 50°.
        mitre_length_mm: m [mm], > 0.
    Raises:
        OutOfRange: an angle or a length is out of range.
        ImpossibleSize: a side is missing, or sides that should be alike differ by more than half of m.
    Source: derived.
    """
    require_positive(mitre_length_mm=mitre_length_mm)
    by_side = {member.side: member for member in members}
    is_polygon = FEWEST_SIDES <= len(members) <= MOST_SIDES and set(by_side) == set(side_names(len(members)))
    if not is_polygon and (len(members) != len(RECTANGLE_SIDES) or set(by_side) != set(RECTANGLE_SIDES)):
        raise ImpossibleSize("Enter one top, one right, one bottom and one left side.", field="side")
    ordered = tuple(by_side[side] for side in (side_names(len(members)) if is_polygon else RECTANGLE_SIDES))
    for member in ordered:
        require_positive(long_mm=member.long_mm)
        ends = {"start_deg": member.start_deg, "finish_deg": member.finish_deg}
        require_between(RIGHT_DEG - MOST_ERROR_DEG, RIGHT_DEG + MOST_ERROR_DEG, **ends)
    for pair in opposite(ordered):
        one, other = sorted(pair, key=ordered.index)
        _refuse_unlike(one, other, mitre_length_mm)
    return ordered


def opposite(ordered: tuple[CutMember, ...]) -> Iterator[tuple[CutMember, CutMember]]:
    """The shorter and the longer of each pair of opposite sides; of a polygon the shortest and the longest.

    Source: derived.
    """
    for alike in (ordered[::2], ordered[1::2]) if are_named(ordered) else (ordered,):
        lengths = sorted(alike, key=lambda member: member.long_mm)
        yield lengths[0], lengths[-1]


def are_named(members: Sequence[CutMember]) -> bool:
    """Whether they are the four of a rectangle, which have names; those of a polygon have numbers.

    Source: derived.
    """
    return all(member.side in RECTANGLE_SIDES for member in members)


def _refuse_unlike(one: CutMember, other: CutMember, mitre_length_mm: float) -> None:
    if abs(one.long_mm - other.long_mm) > mitre_length_mm / 2:
        raise ImpossibleSize(
            f"Measure again: {_called(one)} {{one}}, {_called(other)} {{other}} make no frame.",
            field="long_mm",
            lengths={"one": one.long_mm, "other": other.long_mm},
        )


def _called(member: CutMember) -> str:
    return member.side if member.side in RECTANGLE_SIDES else f"side {member.side}"
