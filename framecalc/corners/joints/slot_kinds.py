"""The slots that corner joints need in a mitre face: for loose tenons, biscuits and dowels; and the tenon's length.

The *mouth* is the slot's width along the mitre, its *depth* is square to the mitre face, into each member, its
*thickness* is measured up from the back. A slot cut by a *disc* is deepest in the middle.
"""

from collections.abc import Iterable
from math import cos, sin, sqrt

from framecalc.errors import ImpossibleJoint
from framecalc.limits import require_between, require_not_negative, require_positive
from framecalc.records import Record
from framecalc.tables.wood import Biscuit, Dowel, TenonThickness

USUAL_DISC_MM = 100.0
"""The usual disc of a biscuit cutter (from memory, not re-read; see tables/joinery.csv)."""

USUAL_GLUE_ROOM_MM = 1.0
"""Left at the bottom of each slot, for glue and dust (common practice, no source: 1 mm, 1/32 to 1/16 in)."""

USUAL_TENON_MM = 30.0
"""The length of a loose tenon, to offer thicknesses by where none is typed (common practice, no source)."""

TENON_SHARE_RATIO = 1 / 3
"""Of the thickness of the stock, for a tenon (common practice, no source)."""


class Slot(Record):
    """A slot to be cut alike in both members. A disc radius of 0 means a square bottom."""

    name: str
    mouth_mm: float
    depth_mm: float
    thickness_mm: float
    disc_radius_mm: float = 0.0


class TenonLength(Record):
    """The longest tenon for two slots, and what to trim from the one available (negative: it is short by so much)."""

    longest_mm: float
    trim_mm: float


def mortise(*, width_mm: float, depth_mm: float, thickness_mm: float) -> Slot:
    """Describe a square-bottomed slot for a loose tenon.

    Args:
        width_mm, depth_mm, thickness_mm: along the mitre, into each member, up from the back [mm], > 0.
    Raises:
        OutOfRange: a length is none.
    Source: derived.

    >>> mortise(width_mm=20, depth_mm=12, thickness_mm=5).mouth_mm
    20
    """
    require_positive(width_mm=width_mm, depth_mm=depth_mm, thickness_mm=thickness_mm)
    return Slot(name="mortise", mouth_mm=width_mm, depth_mm=depth_mm, thickness_mm=thickness_mm)


def dowel_hole(dowel: Dowel) -> Slot:
    """Describe the hole for a dowel, flat-bottomed; the drill's point goes a little deeper.

    Source: derived.

    >>> from framecalc.tables.wood import dowels
    >>> dowel_hole(dowels()[0]).mouth_mm
    6.0
    """
    return Slot(
        name=f"dowel {dowel.size}",
        mouth_mm=dowel.diameter_mm,
        depth_mm=dowel.hole_depth_mm,
        thickness_mm=dowel.diameter_mm,
    )


def biscuit_slot(biscuit: Biscuit, *, disc_mm: float = USUAL_DISC_MM) -> Slot:
    """Describe the slot for a biscuit, as its disc cuts it.

    Source: derived.

    >>> from framecalc.tables.wood import biscuits
    >>> round(biscuit_slot(biscuits()[0]).mouth_mm, 1)
    54.3
    """
    return disc_slot(
        f"biscuit {biscuit.size}", depth_mm=biscuit.slot_depth_mm, thickness_mm=biscuit.thickness_mm, disc_mm=disc_mm
    )


def disc_slot(name: str, *, depth_mm: float, thickness_mm: float, disc_mm: float) -> Slot:
    """Describe a slot cut by a disc that is sunk square into the mitre.

    The mouth is the chord: ``2 · √(D·d − d²)``.

    Args:
        name: what it is for.
        depth_mm: how deep the disc is sunk, d [mm], > 0, at most half the disc.
        thickness_mm: of the disc's cut [mm], > 0.
        disc_mm: diameter D [mm], > 0.
    Raises:
        OutOfRange: a length is none, or the disc cannot sink so deep.
    Source: chord of a circle.

    >>> round(disc_slot("key", depth_mm=10, thickness_mm=4, disc_mm=100).mouth_mm, 3)
    60.0
    """
    require_positive(depth_mm=depth_mm, thickness_mm=thickness_mm, disc_mm=disc_mm)
    require_between(0, disc_mm / 2, depth_mm=depth_mm)
    return Slot(
        name=name,
        mouth_mm=2 * sqrt(disc_mm * depth_mm - depth_mm**2),
        depth_mm=depth_mm,
        thickness_mm=thickness_mm,
        disc_radius_mm=disc_mm / 2,
    )


def outward_reach_mm(slot: Slot, *, half_turn_rad: float) -> float:
    """Find how far a slot reaches from its middle toward the outer edge, across the member.

    Square bottom: ``mouth/2 · cos t + depth · sin t``. Disc of radius R: ``mouth/2 · cos t`` while
    ``depth ≤ R(1 − sin t)``, past it ``R + (depth − R) · sin t``, by the true arc.

    Source: derived.

    >>> from math import pi
    >>> round(outward_reach_mm(mortise(width_mm=20, depth_mm=12, thickness_mm=5), half_turn_rad=pi / 4), 3)
    15.556
    """
    mouth_mm, sine = slot.mouth_mm / 2 * cos(half_turn_rad), sin(half_turn_rad)
    if not slot.disc_radius_mm:
        return mouth_mm + slot.depth_mm * sine
    if slot.depth_mm <= slot.disc_radius_mm * (1 - sine):
        return mouth_mm
    return slot.disc_radius_mm + (slot.depth_mm - slot.disc_radius_mm) * sine


def slot_area_mm2(slot: Slot) -> float:
    """Find the glue area on both broad sides of a slot, in one member.

    ``2 · mouth · depth``; under a disc two thirds of it, the area under a flat arc.

    Source: derived (a flat arc is near a parabola).

    >>> slot_area_mm2(mortise(width_mm=20, depth_mm=12, thickness_mm=5))
    480
    """
    return 2 * slot.mouth_mm * slot.depth_mm * (2 / 3 if slot.disc_radius_mm else 1)


def longest_tenon(
    *,
    depth_mm: float,
    other_depth_mm: float,
    tenon_mm: float,
    glue_room_mm: float = USUAL_GLUE_ROOM_MM,
) -> TenonLength:
    """Find the longest tenon for two slots, and what to trim from the one available.

    ``depth + other depth − 2 · room``

    Args:
        depth_mm, other_depth_mm: of the two slots [mm], > 0.
        tenon_mm: length of the tenon available [mm], > 0.
        glue_room_mm: left at each end [mm], ≥ 0.
    Raises:
        OutOfRange: a length is out of range.
        ImpossibleJoint: the glue room takes all of it.
    Source: derived; the glue room is common practice, no source.

    >>> longest_tenon(depth_mm=15, other_depth_mm=21, tenon_mm=40)
    TenonLength(longest_mm=34.0, trim_mm=6.0)
    """
    require_positive(depth_mm=depth_mm, other_depth_mm=other_depth_mm, tenon_mm=tenon_mm)
    require_not_negative(glue_room_mm=glue_room_mm)
    longest_mm = depth_mm + other_depth_mm - 2 * glue_room_mm
    if longest_mm <= 0:
        raise ImpossibleJoint(
            "A glue room of {room} at each end leaves no tenon.", field="glue_room_mm", lengths={"room": glue_room_mm}
        )
    return TenonLength(longest_mm=longest_mm, trim_mm=tenon_mm - longest_mm)


def usual_tenons(tenons: Iterable[TenonThickness], *, thickness_mm: float) -> tuple[TenonThickness, ...]:
    """Pick the tenons that are no thicker than a third of the stock, the thickest first.

    Args:
        tenons: what is available.
        thickness_mm: of the stock [mm], > 0.
    Raises:
        OutOfRange: thickness out of range.
    Source: common practice, no source (a third).

    >>> from framecalc.tables.wood import tenon_thicknesses
    >>> [tenon.size for tenon in usual_tenons(tenon_thicknesses(), thickness_mm=19)]
    ['6 mm', '5 mm', '3/16 in', '4 mm']
    """
    require_positive(thickness_mm=thickness_mm)
    thin = (tenon for tenon in tenons if tenon.thickness_mm <= TENON_SHARE_RATIO * thickness_mm)
    return tuple(sorted(thin, key=lambda tenon: -tenon.thickness_mm))
