"""Whether the joints of one corner get in each other's way.

Everything cut or driven into a corner is a *prism*: a convex shape seen from the front, through some heights above the
back. The tip of the corner is the origin; the first member's outer edge runs along x, the mitre leaves the tip between
the two outer edges.
"""

from collections.abc import Sequence
from itertools import combinations
from math import cos, hypot, sin, sqrt

from framecalc.corners.joints.corner_stock import CornerStock
from framecalc.corners.joints.slots import SlotPlace
from framecalc.findings import Finding, Severity
from framecalc.geometry.plane import Point, distance_mm
from framecalc.limits import require_positive
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM

ARC_STEPS = 32
"""Straight pieces to a disc's arc; 0.02 mm off at most for a disc of 100 mm."""


class Prism(Record):
    """What a joint takes of the corner: its shape from the front, and from which height to which."""

    name: str
    plan: tuple[Point, ...]
    low_mm: float
    high_mm: float


class Clash(Record):
    """Two joints that come too near: how far they are apart, 0 where they meet."""

    one: str
    other: str
    apart_mm: float


def slot_prism(stock: CornerStock, place: SlotPlace) -> Prism:
    """Take a slot, in both members at once.

    Source: derived.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> from framecalc.corners.joints.slot_kinds import mortise
    >>> from framecalc.corners.joints.slots import place_slot
    >>> stock = corner_stock(face_width_mm=45, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> place = place_slot(stock, mortise(width_mm=20, depth_mm=12, thickness_mm=5), height_mm=8, wall_mm=3)
    >>> len(slot_prism(stock, place).plan), slot_prism(stock, place).low_mm
    (4, 5.5)
    """
    slot, centre_mm = place.slot, place.marks.centre_mm
    half_mm = slot.mouth_mm / 2
    if slot.disc_radius_mm:
        steps = [half_mm * (2 * step / ARC_STEPS - 1) for step in range(ARC_STEPS + 1)]
        sunk_mm = slot.disc_radius_mm - slot.depth_mm
        arc = [(along, sqrt(max(slot.disc_radius_mm**2 - along**2, 0.0)) - sunk_mm) for along in steps]
    else:
        arc = [(-half_mm, slot.depth_mm), (half_mm, slot.depth_mm)]
    around = [*arc, *((along, -square) for along, square in reversed(arc) if square or slot.disc_radius_mm == 0)]
    return Prism(
        name=slot.name,
        plan=tuple(on_the_mitre(stock, centre_mm + along, square) for along, square in around),
        low_mm=place.height_mm - slot.thickness_mm / 2,
        high_mm=place.height_mm + slot.thickness_mm / 2,
    )


def on_the_mitre(stock: CornerStock, along_mm: float, square_mm: float) -> Point:
    """Place a point that lies so far along the mitre from the tip, and so far square to it into the second member.

    ``(s·sin t − z·cos t, s·cos t + z·sin t)``

    Source: derived.

    >>> from framecalc.corners.joints.corner_stock import corner_stock
    >>> stock = corner_stock(face_width_mm=45, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    >>> [round(value, 3) for value in on_the_mitre(stock, 10, 0)]
    [7.071, 7.071]
    """
    sine, cosine = sin(stock.half_turn_rad), cos(stock.half_turn_rad)
    return along_mm * sine - square_mm * cosine, along_mm * cosine + square_mm * sine


def prism_distance_mm(one: Prism, other: Prism) -> float:
    """Measure how far two prisms stand apart; 0 where they meet.

    ``√(between the plans² + between the heights²)``

    Source: derived (both are upright, so the two ways apart are square to each other).

    >>> square = ((0, 0), (1, 0), (1, 1), (0, 1))
    >>> prism_distance_mm(Prism(name="a", plan=square, low_mm=0, high_mm=2),
    ...                   Prism(name="b", plan=square, low_mm=5, high_mm=6))
    3.0
    """
    between_mm = max(one.low_mm - other.high_mm, other.low_mm - one.high_mm, 0.0)
    return hypot(between_mm, distance_mm(one.plan, other.plan))


def stand_within(one: Prism, other: Prism, *, reach_mm: float) -> bool:
    """Find whether two prisms stand no farther apart than a reach; of most, the boxes round them tell that they do not.

    Source: derived (no box is larger than its prism needs, so the prisms stand at least as far apart).

    >>> square = ((0, 0), (1, 0), (1, 1), (0, 1))
    >>> stand_within(Prism(name="a", plan=square, low_mm=0, high_mm=2),
    ...              Prism(name="b", plan=square, low_mm=5, high_mm=6), reach_mm=2.5)
    False
    """
    if max(one.low_mm - other.high_mm, other.low_mm - one.high_mm) > reach_mm:
        return False
    if _box_gap_mm(one.plan, other.plan) > reach_mm:
        return False
    return prism_distance_mm(one, other) <= reach_mm


def find_clashes(prisms: Sequence[Prism], *, wanted_mm: float) -> tuple[Clash, ...]:
    """Find every two joints of a corner that meet or stand nearer than wanted, the nearest first.

    Args:
        prisms: all that is cut or driven into the corner.
        wanted_mm: the least wood between two joints [mm], > 0.
    Raises:
        OutOfRange: wall out of range.
    Source: derived.

    >>> square = ((0, 0), (1, 0), (1, 1), (0, 1))
    >>> find_clashes([Prism(name="slot", plan=square, low_mm=0, high_mm=2),
    ...               Prism(name="pin", plan=square, low_mm=1, high_mm=6)], wanted_mm=3)
    (Clash(one='slot', other='pin', apart_mm=0.0),)
    """
    require_positive(wanted_mm=wanted_mm)
    apart = [
        Clash(one=one.name, other=other.name, apart_mm=prism_distance_mm(one, other))
        for one, other in combinations(prisms, 2)
    ]
    near = (clash for clash in apart if clash.apart_mm < wanted_mm - TOLERANCE_MM)
    return tuple(sorted(near, key=lambda clash: clash.apart_mm))


def clash_findings(clashes: Sequence[Clash], *, wanted_mm: float) -> tuple[Finding, ...]:
    """Report which joints meet, and which leave too little wood between them.

    Args:
        wanted_mm: the least wood between two joints [mm].
    Source: common practice, no source.

    >>> [finding.code for finding in clash_findings([Clash(one="slot", other="pin", apart_mm=0)], wanted_mm=3)]
    ['joints.clash']
    """
    return tuple(_clash_finding(clash, wanted_mm) for clash in clashes)


def _clash_finding(clash: Clash, wanted_mm: float) -> Finding:
    meet = clash.apart_mm == 0
    return Finding(
        code="joints.clash" if meet else "joints.close",
        severity=Severity.STOP if meet else Severity.WARN,
        sentence=(
            f"The {clash.one} runs into the {clash.other}."
            if meet
            else f"Only {{apart}} of wood is left between the {clash.one} and the {clash.other}; {{wanted}} is usual."
        ),
        why="A cutter that meets glue or steel is dangerous, and what it cuts away no longer holds.",
        source="usual practice",
        argument="joint",
        lengths={"apart": clash.apart_mm, "wanted": wanted_mm},
    )


def _box_gap_mm(one: Sequence[Point], other: Sequence[Point]) -> float:
    """What lies between the shadows of two shapes, on the axis where that is more; negative where both overlap."""
    shadows = zip(zip(*one, strict=True), zip(*other, strict=True), strict=True)
    gap_mm: float = max(max(min(here) - max(there), min(there) - max(here)) for here, there in shadows)
    return gap_mm
