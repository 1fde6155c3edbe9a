"""Whether the sides in hand will close: the least possible worst gap, and the steps at the tips.

The members count as rigid and straight, free to shift and turn a little in the plane, sliding on their mitres
without friction, and never into each other. The error of an end becomes a wedge; turning the members passes wedges from
corner to corner but never removes them. A length that does not match its opposite opens no gap, as long
as the *tips* may slide: one tip then stands *proud* of its neighbour's outer edge, by the *step*.
"""

from collections.abc import Sequence
from enum import StrEnum
from functools import lru_cache
from math import degrees, erf, inf, pi, radians, sqrt, tan
from statistics import fmean

from framecalc.corners.cut_members import RIGHT_DEG, CutMember, are_named, in_order, opposite
from framecalc.corners.saw import MOST_ERROR_DEG
from framecalc.corners.small_motions import GapsAndSteps, Ring, best_motions, gaps_and_steps
from framecalc.findings import Finding, Severity
from framecalc.limits import require_between, require_positive
from framecalc.records import Record
from framecalc.sizes.shape import RECTANGLE_CORNERS, RECTANGLE_SIDES
from framecalc.units import TOLERANCE_MM

ASSUMPTIONS = "Rigid, straight members that slide on their mitres without friction; glue and clamps do a little worse."
"""To be said beside every number of this module."""


class Tips(StrEnum):
    """What the clamps do with the tips."""

    FREE = "free to slide"
    FLUSH = "held flush"


class ClosedCorner(Record):
    """One corner at its best: the gap at both ends of the mitre, and how far one tip stands proud.

    A positive step is that of the side that the corner is named after first.
    """

    corner: str
    outside_gap_mm: float
    inside_gap_mm: float
    step_mm: float


class Placement(Record):
    """How a member leaves its nominal place: shifted, and turned counter-clockwise about the middle of its edge."""

    side: str
    across_mm: float
    up_mm: float
    turn_deg: float


class Closing(Record):
    """Sides put together so that the worst gap is least, then the worst step, then all gaps together.

    `unlike_mm` is by how much the less alike of the two pairs of opposite sides, or any two of a polygon, differ in
    length.
    """

    tips: Tips
    total_error_deg: float
    unlike_mm: float
    corners: tuple[ClosedCorner, ...]
    placements: tuple[Placement, ...]

    @property
    def worst_gap_mm(self) -> float:
        """The widest gap at any end of any mitre."""
        return max(max(corner.outside_gap_mm, corner.inside_gap_mm) for corner in self.corners)

    @property
    def worst_step_mm(self) -> float:
        """The largest step at any corner, whichever tip is proud."""
        return max(abs(corner.step_mm) for corner in self.corners)

    @property
    def out_of_square_deg(self) -> float:
        """By how much the corner furthest from square is off: how neighbours are turned against each other."""
        turns_deg = [placement.turn_deg for placement in self.placements]
        return max(abs(after - before) for before, after in zip(turns_deg, turns_deg[1:] + turns_deg[:1], strict=True))


def least_worst_gap_mm(total_error_deg: float, *, mitre_length_mm: float, sides: int = 4) -> float:
    """Find the least possible worst gap when the tips may slide, whatever the lengths.

    ``G* = (m/n) · |Σ|``: the wedges add up to Σ however the members turn, so one is at least Σ/n.

    Args:
        total_error_deg: Σ, of all ends together [°]; each is off by at most 5.
        mitre_length_mm: m [mm], > 0.
        sides: 3 to 24.
    Raises:
        OutOfRange: length or angle out of range.
    Source: derived (the linear programme of `close_frame` agrees in the tests).

    >>> round(least_worst_gap_mm(0.8, mitre_length_mm=50), 3)
    0.175
    """
    require_positive(mitre_length_mm=mitre_length_mm)
    require_between(-2 * sides * MOST_ERROR_DEG, 2 * sides * MOST_ERROR_DEG, total_error_deg=total_error_deg)
    return mitre_length_mm / sides * abs(radians(total_error_deg))


def chance_of_closing_ratio(
    *, mean_deg: float, spread_deg: float, mitre_length_mm: float, gap_mm: float, sides: int = 4
) -> float:
    """Find how many frames of a saw will close to within a gap, from the record of its test cuts.

    ``P(|Σ| ≤ n·g/m)`` for ``Σ`` normal with mean ``2n·δ`` and spread ``√(2n)·s``: every end strays on its own.

    Args:
        mean_deg: δ, the mean error of an end [°], −5 to 5; 0 for two settings that cancel.
        spread_deg: s, of one end [°], > 0.
        mitre_length_mm: m [mm], > 0.
        gap_mm: g, the gap allowed [mm], > 0.
        sides: 3 to 24.
    Raises:
        OutOfRange: length or angle out of range.
    Source: derived (simulated in the tests).

    >>> round(chance_of_closing_ratio(mean_deg=0, spread_deg=0.05, mitre_length_mm=50, gap_mm=0.1), 3)
    0.999
    """
    require_between(-MOST_ERROR_DEG, MOST_ERROR_DEG, mean_deg=mean_deg)
    require_positive(spread_deg=spread_deg, mitre_length_mm=mitre_length_mm, gap_mm=gap_mm)
    limit_deg = degrees(sides * gap_mm / mitre_length_mm)
    total_deg, scale_deg = 2 * sides * mean_deg, sqrt(2 * sides) * spread_deg * sqrt(2)
    return (erf((limit_deg - total_deg) / scale_deg) + erf((limit_deg + total_deg) / scale_deg)) / 2


def close_frame(members: Sequence[CutMember], *, mitre_length_mm: float, tips: Tips) -> Closing:
    """Put measured sides together so that the worst gap is as small as it can be.

    Minimise ``G`` over the small motions of rigid bodies, with ``0 ≤ gap ≤ G`` at both ends of every mitre; tips held
    flush have no step. Then the worst step, then the sum of the gaps, without giving up what is gained.

    Args:
        members: top, right, bottom and left, or the numbered sides of a regular polygon, each once, in any order;
            angles 40° to 50°.
        mitre_length_mm: m [mm], > 0.
        tips: free to slide, or held flush.
    Raises:
        OutOfRange: an angle or a length is out of range.
        ImpossibleSize: a side is missing, or sides that should be alike differ by more than the joint could take up.
    Source: derived (plane geometry to the first order in errors and motions).

    >>> sides = [CutMember(side=side, long_mm=400, start_deg=45.1, finish_deg=45.1)
    ...          for side in ("top", "right", "bottom", "left")]
    >>> round(close_frame(sides, mitre_length_mm=50, tips=Tips.FREE).worst_gap_mm, 3)
    0.175
    """
    return _close(tuple(members), mitre_length_mm, tips)


@lru_cache(maxsize=64)
def _close(members: tuple[CutMember, ...], mitre_length_mm: float, tips: Tips) -> Closing:
    """The same sides are asked for on every redraw: their programme is solved once."""
    ordered = in_order(members, mitre_length_mm=mitre_length_mm)
    ring = _ring(ordered, mitre_length_mm)
    lengths = gaps_and_steps(ring)
    motions = best_motions(lengths, step_mm=0.0 if tips is Tips.FLUSH else inf)
    return Closing(
        tips=tips,
        total_error_deg=sum(member.error_deg for member in ordered),
        unlike_mm=max(longer.long_mm - shorter.long_mm for shorter, longer in opposite(ordered)),
        corners=_corners(ordered, lengths, motions),
        placements=_placements(ordered, ring, motions),
    )


def require_closable(members: Sequence[CutMember], *, mitre_length_mm: float) -> None:
    """Refuse sides that no closing is worked out for, without working one out.

    Raises:
        OutOfRange, ImpossibleSize: as `close_frame`.
    Source: derived.

    >>> from framecalc.corners.cut_members import members_from_the_saw
    >>> edges_mm = {"top": 348, "right": 471, "bottom": 348, "left": 471}
    >>> sides = members_from_the_saw(edges_mm, left_error_deg=0.2, right_error_deg=0.2)
    >>> require_closable(sides, mitre_length_mm=42.4)
    """
    in_order(members, mitre_length_mm=mitre_length_mm)


def closing_findings(closing: Closing, *, gap_mm: float) -> tuple[Finding, ...]:
    """Report when the parts in hand cannot close well enough, or close with tips that stand proud.

    Args:
        gap_mm: the gap and the step allowed [mm], > 0.
    Raises:
        OutOfRange: gap out of range.
    Source: the limit is the user's; the least gap is derived.

    >>> from framecalc.corners.cut_members import members_from_the_saw
    >>> edges_mm = {"top": 348, "right": 471, "bottom": 348, "left": 471}
    >>> sides = members_from_the_saw(edges_mm, left_error_deg=0.2, right_error_deg=0.2)
    >>> closing = close_frame(sides, mitre_length_mm=42.4, tips=Tips.FREE)
    >>> [finding.code for finding in closing_findings(closing, gap_mm=0.1)]
    ['closing.gap']
    """
    require_positive(gap_mm=gap_mm)
    found = []
    if closing.worst_gap_mm > gap_mm + TOLERANCE_MM:
        found.append(_gap_finding(closing, gap_mm))
    if closing.worst_step_mm > gap_mm + TOLERANCE_MM:
        found.append(_step_finding(closing, gap_mm))
    return tuple(found)


def _ring(members: tuple[CutMember, ...], mitre_length_mm: float) -> Ring:
    lengths_mm = [member.long_mm for member in members]
    if are_named(members):
        across_mm, up_mm = fmean(lengths_mm[::2]), fmean(lengths_mm[1::2])
        mean_mm, half_across_mm, half_up_mm = [across_mm, up_mm] * 2, across_mm / 2, up_mm / 2
    else:
        side_mm = fmean(lengths_mm)
        mean_mm = [side_mm] * len(members)
        half_across_mm = half_up_mm = side_mm / 2 / tan(pi / len(members))
    return Ring(
        half_across_mm=half_across_mm,
        half_up_mm=half_up_mm,
        too_long_mm=tuple(long_mm - usual_mm for long_mm, usual_mm in zip(lengths_mm, mean_mm, strict=True)),
        wedges_rad=tuple(
            radians(before.finish_deg + after.start_deg - 2 * RIGHT_DEG)
            for before, after in zip(members, members[1:] + members[:1], strict=True)
        ),
        mitre_length_mm=mitre_length_mm,
    )


def _corner_names(members: tuple[CutMember, ...]) -> tuple[str, ...]:
    """What the corner is called in which each side ends."""
    if are_named(members):
        return RECTANGLE_CORNERS
    return tuple(f"{one.side}-{after.side}" for one, after in zip(members, members[1:] + members[:1], strict=True))


def _corners(
    members: tuple[CutMember, ...], lengths: GapsAndSteps, motions: tuple[float, ...]
) -> tuple[ClosedCorner, ...]:
    """Recompute every gap and step from the motions; the solver's own numbers are not passed on."""
    gaps = [gap.at(motions) for gap in lengths.gaps]
    steps = [step.at(motions) for step in lengths.steps]
    return tuple(
        ClosedCorner(corner=corner, outside_gap_mm=outside, inside_gap_mm=inside, step_mm=step)
        for corner, outside, inside, step in zip(_corner_names(members), gaps[::2], gaps[1::2], steps, strict=True)
    )


def _placements(members: tuple[CutMember, ...], ring: Ring, motions: tuple[float, ...]) -> tuple[Placement, ...]:
    return tuple(
        Placement(side=member.side, across_mm=across_mm, up_mm=up_mm, turn_deg=degrees(turned_mm / ring.reach_mm))
        for member, across_mm, up_mm, turned_mm in zip(members, motions[::3], motions[1::3], motions[2::3], strict=True)
    )


def _gap_finding(closing: Closing, gap_mm: float) -> Finding:
    where = "outside" if closing.total_error_deg > 0 else "inside"
    return Finding(
        code="closing.gap",
        severity=Severity.WARN,
        sentence=f"However they are put together one of these mitres will gape by {{gap}} at the {where}.",
        why="The angles of all ends together are not right: shave one end, or cut again.",
        source="derived; rigid members without friction",
        argument="angles",
        lengths={"gap": closing.worst_gap_mm, "limit": gap_mm},
    )


_UNLIKE = "Opposite sides are not of one length; the longer one can be trimmed at one end."
_UNLIKE_OF_POLYGON = "The sides are not of one length; the longer ones can be trimmed at one end."
_TURNED = "The wrong angles turn the sides, and their tips slide past one another; held flush, the mitres gape more."


def _step_finding(closing: Closing, gap_mm: float) -> Finding:
    unlike = _UNLIKE if len(closing.corners) == len(RECTANGLE_SIDES) else _UNLIKE_OF_POLYGON
    return Finding(
        code="closing.step",
        severity=Severity.WARN,
        sentence="Closed, one tip will stand proud of its neighbour by {step}.",
        why=unlike if closing.unlike_mm > gap_mm else _TURNED,
        source="derived; rigid members without friction",
        argument="long_mm",
        lengths={"step": closing.worst_step_mm, "limit": gap_mm},
    )
