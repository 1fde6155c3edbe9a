"""Whether a frame lies flat: the rock of its fourth corner into a twist and a likely cause.

A frame in *wind* rocks on a flat table: three corners lie, the fourth stands up by the *rock*.
"""

from enum import StrEnum
from math import atan, degrees, sqrt

from framecalc.corners.squareness import TAPE_MM
from framecalc.limits import require_between, require_not_negative, require_positive
from framecalc.records import Record


class WindCause(StrEnum):
    """What most likely holds a corner up."""

    FLAT = "it lies flat"
    MEMBER = "a member is twisted: sight along its edges"
    MITRE = "a mitre is not square to the face: check the blade"
    CLAMPS = "the clamps or the table: slacken, press flat, tighten"


class Wind(Record):
    """How far a frame is twisted, and what each possible cause could lift at most."""

    twist_across_deg: float
    twist_up_deg: float
    by_member_mm: float
    by_mitre_mm: float
    cause: WindCause


def find_wind(
    *,
    rock_mm: float,
    outside_across_mm: float,
    outside_up_mm: float,
    face_width_mm: float,
    thickness_mm: float,
    member_wind_mm: float,
    front_to_back_gap_mm: float,
    least_rock_mm: float = TAPE_MM,
) -> Wind:
    """Turn the rock of a frame into a twist, and say what most likely causes it.

    The left side is twisted against the right by ``atan(h/H)``, the bottom against the top by ``atan(h/W)``. A member
    in wind by ψ over its width can lift the corner by ``ψ/w · L`` with L the longer side; a mitre that gapes by g at
    the back, pulled tight, by ``g/t · L/√2``. The larger of the two is the cause, if it explains half of the rock.

    Args:
        rock_mm: h, how far the fourth corner stands up [mm], ≥ 0, less than either side.
        outside_across_mm, outside_up_mm: W and H [mm], > 0.
        face_width_mm, thickness_mm: w and t [mm], > 0.
        member_wind_mm: ψ, the worst member's wind read across its width with winding sticks, 0 if straight [mm], ≥ 0.
        front_to_back_gap_mm: g, the worst joint's gap at back or face before it was clamped [mm], ≥ 0.
        least_rock_mm: what still counts as flat [mm], > 0.
    Raises:
        OutOfRange: a length is out of range.
    Source: derived (rotation of one side about the joint line); which cause is likely is common practice, no source.

    >>> find_wind(rock_mm=3, outside_across_mm=348, outside_up_mm=471, face_width_mm=30, thickness_mm=20,
    ...           member_wind_mm=0.2, front_to_back_gap_mm=0).cause.value
    'a member is twisted: sight along its edges'
    """
    sides = {"outside_across_mm": outside_across_mm, "outside_up_mm": outside_up_mm}
    require_positive(**sides, face_width_mm=face_width_mm, thickness_mm=thickness_mm, least_rock_mm=least_rock_mm)
    require_between(0, min(sides.values()), rock_mm=rock_mm)
    require_not_negative(member_wind_mm=member_wind_mm, front_to_back_gap_mm=front_to_back_gap_mm)
    longer_mm = max(sides.values())
    by_member_mm = member_wind_mm / face_width_mm * longer_mm
    by_mitre_mm = front_to_back_gap_mm / thickness_mm * longer_mm / sqrt(2)
    return Wind(
        twist_across_deg=degrees(atan(rock_mm / outside_up_mm)),
        twist_up_deg=degrees(atan(rock_mm / outside_across_mm)),
        by_member_mm=by_member_mm,
        by_mitre_mm=by_mitre_mm,
        cause=_cause(rock_mm, by_member_mm, by_mitre_mm, least_rock_mm),
    )


def _cause(rock_mm: float, by_member_mm: float, by_mitre_mm: float, least_rock_mm: float) -> WindCause:
    if rock_mm <= least_rock_mm:
        return WindCause.FLAT
    if max(by_member_mm, by_mitre_mm) < rock_mm / 2:
        return WindCause.CLAMPS
    return WindCause.MEMBER if by_member_mm >= by_mitre_mm else WindCause.MITRE
