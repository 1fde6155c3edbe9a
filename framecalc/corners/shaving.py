"""Which end to shave, and by how much, so that the sides close.

Shaving takes a *taper* off one mitre: nothing at one end of it, its full amount at the other. Where the joints stand
open at the outside the wood comes off at the *inside*; where they stand open at the inside it comes off at the tip, and
the member's long edge gets shorter by the taper / cos(180°/n): by √2 of it where there are four sides.
"""

from collections.abc import Iterator, Sequence
from enum import StrEnum
from math import cos, pi, radians

from framecalc.corners.closing import Closing, Tips, close_frame
from framecalc.corners.cut_members import RIGHT_DEG, CutMember
from framecalc.limits import require_positive
from framecalc.records import Record, replace
from framecalc.sizes.shape import RECTANGLE_SIDES

MICRON_MM = 0.001
"""Steps closer than this are one; the solver's noise is far below it, any plane far above."""


class MitreEnd(StrEnum):
    """Which end of a mitre the wood comes off; it runs out to nothing at the other."""

    OUTSIDE = "at the tip"
    INSIDE = "at the sight edge"


class MemberEnd(StrEnum):
    """Which end of a member, clockwise from the top as seen from the front."""

    START = "start"
    FINISH = "finish"


class Shave(Record):
    """One end shaved: where, how much, the sides as they then are, and how they close."""

    side: str
    end: MemberEnd
    taper_mm: float
    at: MitreEnd
    members: tuple[CutMember, ...]
    after: Closing


class Recut(Record):
    """Ends cut again true, and how the sides then close; those that should be alike are as long as the shortest."""

    ends: tuple[tuple[str, MemberEnd], ...]
    members: tuple[CutMember, ...]
    after: Closing


def recut_ends(
    members: Sequence[CutMember], *, within_deg: float, within_mm: float, mitre_length_mm: float
) -> Recut | None:
    """Cut every end again that is further off than may be, true, with a stop that makes opposite sides alike.

    An end that is cut true from a smaller angle loses ``m · |δ| / cos(180°/n)`` of its long edge; the longer of a pair,
    or of all sides of a polygon, is then trimmed at one end to the shortest. None where no end is off, and none unlike.

    Args:
        members: as for `close_frame`.
        within_deg: what an end may be off by [°], > 0.
        within_mm: by how much opposite sides may differ [mm], > 0.
        mitre_length_mm: m [mm], > 0.
    Raises:
        OutOfRange, ImpossibleSize: as `close_frame`.
    Source: derived.

    >>> sides = [CutMember(side="top", long_mm=400, start_deg=45.4),
    ...          *(CutMember(side=side, long_mm=400) for side in ("right", "bottom", "left"))]
    >>> again = recut_ends(sides, within_deg=0.05, within_mm=0.2, mitre_length_mm=50)
    >>> [(side, end.value) for side, end in again.ends], round(again.after.worst_gap_mm, 6)
    ([('top', 'start')], 0.0)
    """
    require_positive(within_deg=within_deg, within_mm=within_mm)
    off = [(member.side, end) for member in members for end in MemberEnd if abs(_error_deg(member, end)) > within_deg]
    sides = len(members)
    true = {member.side: _cut_true(member, off, mitre_length_mm, sides) for member in members}
    cut = {side for side, _ in off}
    ends = (*off, *(one for one in tuple(_made_alike(true, within_mm)) if one[0] not in cut))
    if not ends:
        return None
    after = close_frame(tuple(true.values()), mitre_length_mm=mitre_length_mm, tips=Tips.FREE)
    return Recut(ends=ends, members=tuple(true.values()), after=after)


def _cut_true(member: CutMember, off: Sequence[tuple[str, MemberEnd]], mitre_length_mm: float, sides: int) -> CutMember:
    for end in (end for side, end in off if side == member.side):
        by_deg = _error_deg(member, end)
        member = shave_end(member, end=end, by_deg=by_deg, mitre_length_mm=mitre_length_mm, sides=sides)
    return member


def _made_alike(true: dict[str, CutMember], within_mm: float) -> Iterator[tuple[str, MemberEnd]]:
    """Trim the longer of sides that should be alike, in place, and say at which end, even where one is cut anyway."""
    is_rectangle = RECTANGLE_SIDES[0] in true
    for alike in (RECTANGLE_SIDES[::2], RECTANGLE_SIDES[1::2]) if is_rectangle else (tuple(true),):
        shortest_mm = min(true[side].long_mm for side in alike)
        for side in alike:
            if true[side].long_mm - shortest_mm > within_mm:
                true[side] = replace(true[side], long_mm=shortest_mm)
                yield side, MemberEnd.FINISH


def taper_mm(total_error_deg: float, *, mitre_length_mm: float) -> float:
    """Find the taper at one end that takes the whole error of a frame away.

    ``m · |Σ|``

    Args:
        total_error_deg: Σ, of all ends together [°].
        mitre_length_mm: m [mm], > 0.
    Raises:
        OutOfRange: no length.
    Source: derived.

    >>> round(taper_mm(0.8, mitre_length_mm=50), 3)
    0.698
    """
    require_positive(mitre_length_mm=mitre_length_mm)
    return mitre_length_mm * abs(radians(total_error_deg))


def best_shave(members: Sequence[CutMember], *, mitre_length_mm: float) -> Shave:
    """Try the taper on each end, close the frame again, and keep the best.

    The taper takes the whole error away, so the frame closes without a gap at whichever end it comes off. Best is the
    least step at the tips; of those within a micron of it, the end that was itself furthest off as the whole frame is.

    Args:
        members: as for `close_frame`.
        mitre_length_mm: m [mm], > 0.
    Raises:
        OutOfRange, ImpossibleSize: as `close_frame`.
    Source: derived.

    >>> sides = [CutMember(side="top", long_mm=400, start_deg=45.4),
    ...          *(CutMember(side=side, long_mm=400) for side in ("right", "bottom", "left"))]
    >>> shave = best_shave(sides, mitre_length_mm=50)
    >>> shave.side, shave.end.value, shave.at.value, round(shave.after.worst_gap_mm, 6)
    ('top', 'start', 'at the sight edge', 0.0)
    """
    before = close_frame(members, mitre_length_mm=mitre_length_mm, tips=Tips.FREE)
    tried = [
        _shave(tuple(members), member, end, before.total_error_deg, mitre_length_mm)
        for member in members
        for end in MemberEnd
    ]
    least_mm = min(shave.after.worst_step_mm for shave in tried)
    best = [shave for shave in tried if shave.after.worst_step_mm <= least_mm + MICRON_MM]
    cut = {member.side: member for member in members}
    return max(best, key=lambda shave: _error_deg(cut[shave.side], shave.end) * before.total_error_deg)


def shave_end(member: CutMember, *, end: MemberEnd, by_deg: float, mitre_length_mm: float, sides: int = 4) -> CutMember:
    """Shave one end so that its angle falls by an amount, or grows by it where it is negative.

    A smaller angle comes off at the inside and leaves the long edge; a larger one comes off at the tip, which takes
    ``m · |Σ| / cos(180°/n)`` from the long edge.

    Args:
        by_deg: how much smaller the angle becomes [°].
        mitre_length_mm: m [mm], > 0.
        sides: n, of the frame.
    Raises:
        OutOfRange: no length.
    Source: derived.

    >>> top = CutMember(side="top", long_mm=400)
    >>> round(shave_end(top, end=MemberEnd.START, by_deg=-0.8, mitre_length_mm=50).long_mm, 2)
    399.01
    """
    slant = cos(pi / sides)
    lost_mm = taper_mm(by_deg, mitre_length_mm=mitre_length_mm) / slant if by_deg < 0 else 0.0
    long_mm = member.long_mm - lost_mm
    if end is MemberEnd.START:
        return replace(member, long_mm=long_mm, start_deg=member.start_deg - by_deg)
    return replace(member, long_mm=long_mm, finish_deg=member.finish_deg - by_deg)


def _shave(
    members: tuple[CutMember, ...], shaved: CutMember, end: MemberEnd, total_deg: float, mitre_length_mm: float
) -> Shave:
    after = tuple(
        shave_end(member, end=end, by_deg=total_deg, mitre_length_mm=mitre_length_mm, sides=len(members))
        if member is shaved
        else member
        for member in members
    )
    return Shave(
        side=shaved.side,
        end=end,
        taper_mm=taper_mm(total_deg, mitre_length_mm=mitre_length_mm),
        at=MitreEnd.INSIDE if total_deg > 0 else MitreEnd.OUTSIDE,
        members=after,
        after=close_frame(after, mitre_length_mm=mitre_length_mm, tips=Tips.FREE),
    )


def _error_deg(member: CutMember, end: MemberEnd) -> float:
    return (member.start_deg if end is MemberEnd.START else member.finish_deg) - RIGHT_DEG
