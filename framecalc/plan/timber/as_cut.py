"""A cutting plan as it is cut: long points that follow what came out, and off-cuts by what is still there of them.

The plan and its ticks stay; only its lengths follow. A side that is *cut again* takes its wood from the off-cut of a
stick of the plan, from the rack, or from a stick that is bought for it.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from functools import partial

from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.timber.profiles import milled_of
from framecalc.plan.timber.runs import FrameRun, long_edges_mm
from framecalc.project import Project
from framecalc.project.bench import CutAgain
from framecalc.timber.sticks.answer import CutStick, CutStretch, PlacedPiece, StickPlan
from framecalc.timber.sticks.problem import Piece, Purpose
from framecalc.units import TOLERANCE_MM
from framecalc.words import Wording, worded

TOO_SHORT = "{stick} is {short} short now: cut its last piece from other wood."
"""What is said of a stick that no longer holds its pieces."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Again:
    """A side that is cut again, and what it is cut from, in words; `stick` is the one whose off-cut that is."""

    piece: Piece
    says: Wording
    stick: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TooShort:
    """A stick that no longer holds its pieces as they came out, and by how much."""

    label: str
    by_mm: float


def longer_mm(run: FrameRun, piece: Piece) -> float:
    """By how much a long point is longer than planned, by what came out; nothing once long points are measured.

    Source: derived.
    """
    as_cut = run.frame.as_cut
    if as_cut.is_as_planned or as_cut.outside_mm:
        return 0.0
    cut = as_cut.for_the_saw
    inset_mm = cut.settled.face_width_mm if run.is_ledge and not run.is_strip else 0.0
    return long_edges_mm(cut, inset_mm=inset_mm)[piece.side] - run.lengths_mm[piece.side]


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
    longer = {
        (run.name, side): more_mm
        for run in group.runs
        for side in run.lengths_mm
        if abs(more_mm := longer_mm(run, Piece(frame=run.name, side=side, length_mm=1.0))) > TOLERANCE_MM
    }
    again = [one for one in cut_again(group, project) if one.stick]
    if not longer and not again:
        return plan
    sticks = (_with_again(_lengthened(stick, longer), again, cut_mm=group.problem.cut_mm) for stick in plan.sticks)
    return replace(plan, sticks=tuple(sticks))


def too_short(plan: StickPlan) -> tuple[TooShort, ...]:
    """The sticks of a plan as cut that no longer hold their pieces.

    Source: derived.
    """
    return tuple(
        TooShort(label=stick.label, by_mm=-stretch.left_over_mm)
        for stick, _, stretch in plan.stretches()
        if stretch.left_over_mm < -TOLERANCE_MM
    )


def longest_left(stick: CutStick) -> CutStretch:
    """The stretch of a stick with the longest off-cut."""
    stretches = (stretch for strip in stick.strips for stretch in strip.stretches)
    return max(stretches, key=lambda stretch: stretch.left_over_mm)


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


def _lengthened(stick: CutStick, longer: Mapping[tuple[str, str], float]) -> CutStick:
    return _each_stretch(stick, lambda stretch: _moved(stretch, longer))


def _moved(stretch: CutStretch, longer: Mapping[tuple[str, str], float]) -> CutStretch:
    """A stretch with its pieces as long as they came out, each moved on by those before it."""
    pieces, on_mm = [], 0.0
    for placed in stretch.pieces:
        more_mm = longer.get((placed.piece.frame, placed.piece.side), 0.0)
        piece = replace(placed.piece, length_mm=placed.piece.length_mm + more_mm)
        pieces.append(PlacedPiece(piece=piece, start_mm=placed.start_mm + on_mm, turned=placed.turned))
        on_mm += more_mm
    return replace(stretch, pieces=tuple(pieces), left_over_mm=stretch.left_over_mm - on_mm)


def _with_again(stick: CutStick, again: Iterable[Again], *, cut_mm: float) -> CutStick:
    """A stick whose longest off-cut gives each side that is cut from it again."""
    for piece in (one.piece for one in again if one.stick == stick.label):
        longest = longest_left(stick)
        stick = _each_stretch(stick, partial(_given, piece=piece, of=longest, cut_mm=cut_mm))
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
