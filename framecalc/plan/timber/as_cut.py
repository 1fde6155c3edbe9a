"""A cutting plan as it is cut: long points that follow what came out, and off-cuts by what is still there of them.

The plan and its ticks stay; only its lengths follow. A side that is *cut again* takes its wood from the off-cut of a
stick of the plan, from the rack, or from a stick that is bought for it. A stick has no room any more for sides that
are *over*; one of them that is cut again leaves its stick free.
"""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from functools import partial

from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.timber.machine_work import MachineWork
from framecalc.plan.timber.profiles import milled_of
from framecalc.plan.timber.runs import FrameRun, long_edges_mm
from framecalc.project import Project
from framecalc.project.bench import CutAgain
from framecalc.records import Record, replace
from framecalc.timber.sticks.answer import CutStick, CutStretch, PlacedPiece, StickPlan
from framecalc.timber.sticks.problem import Piece, Purpose
from framecalc.units import TOLERANCE_MM
from framecalc.words import Wording, worded

TOO_SHORT = "{stick} is {short} short now: its last piece needs other wood."
"""What is said of a stick that no longer holds its pieces."""


class Again(Record):
    """A side that is cut again, and what it is cut from, in words; `stick` is the one whose off-cut that is."""

    piece: Piece
    says: Wording
    stick: str = ""


class TooShort(Record):
    """A stick that no longer holds its pieces as they came out, and by how much."""

    label: str
    by_mm: float


PieceKey = tuple[str, int, str]
"""Of which frame a side is, by what is chalked on it, of which copy, and which side."""


def longer_mm(run: FrameRun, piece: Piece) -> float:
    """By how much a long point is longer than in the cutting plan, by what came out.

    Nothing once long points are measured, and where the cutting plan follows what came out.

    Source: derived.
    """
    return 0.0 if run.frame.project.timber.as_cut else lengths_as_cut_mm(run)[piece.side] - run.lengths_mm[piece.side]


def lengths_as_cut_mm(run: FrameRun) -> Mapping[str, float]:
    """The long points of a run as they follow from what came out; as planned once long points are measured.

    Source: derived.
    """
    as_cut = run.frame.as_cut
    if as_cut.is_as_planned or as_cut.outside_mm:
        return run.lengths_mm
    cut = as_cut.for_the_saw
    return long_edges_mm(cut, inset_mm=cut.settled.face_width_mm if run.is_ledge and not run.is_strip else 0.0)


def group_as_cut(group: TimberGroup) -> TimberGroup:
    """A group whose members are as wide, as thick and milled as they came out, where all of them came out alike.

    Source: derived.
    """
    cut = [(run, run.frame.as_cut.for_the_saw) for run in group.runs]
    if group.is_ledge or all(run.frame.as_cut.is_as_planned for run, _ in cut):
        return group
    sizes_mm = {(one.blank_width_mm, one.blank_thickness_mm) for run, one in cut if not run.is_ledge}
    milled = {run.name: milled_of(one, is_ledge=run.is_ledge, unit=one.unit) for run, one in cut}
    if len(sizes_mm) != 1:
        return replace(group, milled=milled)
    ((width_mm, thickness_mm),) = sizes_mm
    return replace(group, milled=milled, section=replace(group.section, width_mm=width_mm, thickness_mm=thickness_mm))


def plan_as_cut(plan: StickPlan, *, group: TimberGroup, project: Project) -> StickPlan:
    """A cutting plan with the lengths that came out, and with the sides that are cut again from its off-cuts.

    What is left over is below 0 where a stick no longer holds its pieces. Nothing changes where all came out as
    planned.

    Source: derived (pieces, saw cuts and what is left over add up to the stretch).
    """
    longer, again, cut_mm = _longer(group), cut_again(group, project), group.problem.cut_mm
    if not longer and not again:
        return plan
    elsewhere = {_key(one.piece) for one in again}
    longest = (_lengthened(stick, longer) for stick in plan.sticks)
    free = (_each_stretch(stick, partial(_freed, elsewhere=elsewhere, cut_mm=cut_mm)) for stick in longest)
    return replace(plan, sticks=tuple(_with_again(stick, again, cut_mm=cut_mm) for stick in free))


def sides_over(plan: StickPlan, *, group: TimberGroup) -> tuple[Piece, ...]:
    """The sides of a plan for which their sticks have no room as they came out, the last of a stick first.

    Source: derived (pieces, saw cuts and what is left over add up to the stretch).
    """
    longer, cut_mm = _longer(group), group.problem.cut_mm
    sticks = (_lengthened(stick, longer) for stick in plan.sticks) if longer else ()
    stretches = (stretch for stick in sticks for strip in stick.strips for stretch in strip.stretches)
    return tuple(piece for stretch in stretches for piece in _over(stretch, cut_mm=cut_mm))


def sides_to_place(plan: StickPlan, *, group: TimberGroup, project: Project) -> tuple[Piece, ...]:
    """The sides that are over, are not ticked off, and are not cut from other wood yet.

    Source: derived.
    """
    over, work = sides_over(plan, group=group), MachineWork(project=project, group=group, plan=plan)
    if not over:
        return ()
    numbered = enumerate((piece for *_, piece in work.pieces), start=1)
    ticked = {_key(piece) for number, piece in numbered if work.key("pieces", number) in project.timber.done}
    settled = ticked | {_key(one.piece) for one in cut_again(group, project)}
    return tuple(piece for piece in over if _key(piece) not in settled)


def cut_elsewhere(plan: StickPlan, *, group: TimberGroup, project: Project) -> frozenset[PieceKey]:
    """The sides that are over and are cut from other wood: nothing is cut for them from their own sticks.

    Source: derived.
    """
    again = {_key(one.piece) for one in cut_again(group, project)}
    return frozenset(key for piece in sides_over(plan, group=group) if (key := _key(piece)) in again)


def too_short(plan: StickPlan) -> tuple[TooShort, ...]:
    """The sticks of a plan as cut that no longer hold their pieces.

    Source: derived.
    """
    return tuple(
        TooShort(label=stick.label, by_mm=-stretch.left_over_mm)
        for stick, _, stretch in plan.stretches()
        if stretch.left_over_mm < -TOLERANCE_MM
    )


def shortest_left(stick: CutStick, *, needed_mm: float) -> CutStretch:
    """The stretch of a stick with the shortest off-cut that is long enough; the longest where none is.

    Source: derived.
    """
    stretches = [stretch for strip in stick.strips for stretch in strip.stretches]
    enough = [one for one in stretches if one.left_over_mm >= needed_mm - TOLERANCE_MM]
    return min(enough or stretches, key=lambda one: one.left_over_mm if enough else -one.left_over_mm)


def cut_again(group: TimberGroup, project: Project) -> tuple[Again, ...]:
    """The sides of a group that are cut again, in the order in which that was decided.

    Source: derived.
    """
    names = {run.frame.frame.id: run.name for run in group.runs if not run.is_ledge}
    return tuple(_again(one, names[one.frame]) for one in project.bench.cut_again if one.frame in names)


def _again(one: CutAgain, name: str) -> Again:
    piece = Piece(frame=name, copy=one.copy_number, side=one.side, length_mm=one.length.mm, purpose=Purpose.AGAIN)
    return Again(piece=piece, says=cut_from(one), stick="" if one.on_rack else one.source)


def cut_from(one: CutAgain) -> Wording:
    """What a side is cut again from, in words."""
    where = worded("{tag} on the rack" if one.on_rack else "the off-cut of {tag}", tag=one.source)
    return where if one.source else worded("wood bought for it")


def _key(piece: Piece) -> PieceKey:
    return piece.frame, piece.copy, piece.side


def _longer(group: TimberGroup) -> dict[tuple[str, str], float]:
    """By how much each long point is longer than planned, where it is."""
    return {
        (run.name, side): more_mm
        for run in group.runs
        for side in run.lengths_mm
        if abs(more_mm := longer_mm(run, Piece(frame=run.name, side=side, length_mm=1.0))) > TOLERANCE_MM
    }


def _over(stretch: CutStretch, *, cut_mm: float) -> Iterator[Piece]:
    """The last members of a stretch that have no room on it."""
    left_mm = stretch.left_over_mm
    for placed in reversed(stretch.pieces):
        if left_mm >= -TOLERANCE_MM:
            return
        if placed.piece.purpose is Purpose.MEMBER:
            left_mm += placed.piece.length_mm + cut_mm
            yield placed.piece


def _freed(stretch: CutStretch, *, elsewhere: Collection[PieceKey], cut_mm: float) -> CutStretch:
    """A stretch that has room again, by its sides that are over and cut elsewhere; they stay named in their place."""
    gone_mm = sum(piece.length_mm + cut_mm for piece in _over(stretch, cut_mm=cut_mm) if _key(piece) in elsewhere)
    return replace(stretch, left_over_mm=stretch.left_over_mm + gone_mm)


def _lengthened(stick: CutStick, longer: Mapping[tuple[str, str], float]) -> CutStick:
    return _each_stretch(stick, lambda stretch: _moved(stretch, longer))


def _moved(stretch: CutStretch, longer: Mapping[tuple[str, str], float]) -> CutStretch:
    """A stretch with its pieces as long as they came out, each moved on by those before it."""
    pieces, on_mm = [], 0.0
    for placed in stretch.pieces:
        if placed.is_cut:
            return stretch
        more_mm = longer.get((placed.piece.frame, placed.piece.side), 0.0)
        piece = replace(placed.piece, length_mm=placed.piece.length_mm + more_mm)
        pieces.append(PlacedPiece(piece=piece, start_mm=placed.start_mm + on_mm, turned=placed.turned))
        on_mm += more_mm
    return replace(stretch, pieces=tuple(pieces), left_over_mm=stretch.left_over_mm - on_mm)


def _with_again(stick: CutStick, again: Iterable[Again], *, cut_mm: float) -> CutStick:
    """A stick whose off-cuts give each side that is cut from it again: the shortest that is long enough."""
    for piece in (one.piece for one in again if one.stick == stick.label):
        shortest = shortest_left(stick, needed_mm=piece.length_mm + cut_mm)
        stick = _each_stretch(stick, partial(_given, piece=piece, of=shortest, cut_mm=cut_mm))
    return stick


def _given(stretch: CutStretch, *, piece: Piece, of: CutStretch, cut_mm: float) -> CutStretch:
    if stretch is not of:
        return stretch
    placed = PlacedPiece(piece=piece, start_mm=stretch.end_mm - stretch.left_over_mm)
    left_mm = stretch.left_over_mm - piece.length_mm - cut_mm
    return replace(stretch, pieces=(*stretch.pieces, placed), left_over_mm=left_mm)


def _each_stretch(stick: CutStick, changed: Callable[[CutStretch], CutStretch]) -> CutStick:
    strips = (replace(strip, stretches=tuple(map(changed, strip.stretches))) for strip in stick.strips)
    return replace(stick, strips=tuple(strips))
