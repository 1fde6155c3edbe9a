"""Whether pieces that are cut still fit the frames as they are planned now: to be trimmed, too short, or of no use."""

from collections.abc import Iterable, Iterator, Mapping
from enum import StrEnum

from framecalc.plan.figures import write_long_point
from framecalc.plan.timber.as_cut import lengths_as_cut_mm
from framecalc.plan.timber.begun import name_of_cut, run_of
from framecalc.plan.timber.runs import FrameRun
from framecalc.project import Project
from framecalc.project.pieces_cut import PieceCut
from framecalc.records import Record
from framecalc.timber.sticks.problem import Piece, Purpose
from framecalc.units import TOLERANCE_MM, describe_length, describe_size
from framecalc.words import Wording, typed, worded


class CutFit(StrEnum):
    """How a piece that is cut fits now, where it does not as it is."""

    TRIM = "trim"
    SHORT = "short"
    SECTION = "section"
    SIDES = "sides"
    UNWANTED = "unwanted"


class Misfit(Record):
    """A piece that is cut and does not fit as it is: how it fits, how long it has to be now, and that in words."""

    cut: PieceCut
    fit: CutFit
    needed_mm: float
    says: Wording

    @property
    def short_mm(self) -> float:
        """By how much it is too short."""
        return self.needed_mm - self.cut.length_now_mm


def misfits(project: Project, runs: Iterable[FrameRun]) -> tuple[Misfit, ...]:
    """The pieces that are cut and do not fit as they are; those that are cut again are left out.

    Source: derived.
    """
    known = tuple(runs)
    again = {(one.frame, one.copy_number, one.side) for one in project.bench.cut_again}
    members = (
        one
        for one in project.timber.cut
        if one.purpose == Purpose.MEMBER.value
        and not one.spoiled
        and (one.part != "member" or (one.frame, one.copy_number, one.side) not in again)
    )
    return tuple(found for one in members for found in _misfit(one, run_of(one, known), project))


def _misfit(one: PieceCut, run: FrameRun | None, project: Project) -> Iterator[Misfit]:
    needed_mm = _needed_mm(one, run)
    name = typed(_label(one, run))
    if run is None or not needed_mm:
        yield Misfit(
            cut=one, fit=CutFit.UNWANTED, needed_mm=0.0, says=worded("{piece} is cut and not needed now.", piece=name)
        )
        return
    was, now = _section(one.width.mm, one.thickness.mm, project), _section(*_sizes_mm(run), project)
    if not _is_same(one, run):
        says = worded("{piece} is {was} in section, now {now}: cut it again.", piece=name, was=was, now=now)
        yield Misfit(cut=one, fit=CutFit.SECTION, needed_mm=needed_mm, says=says)
        return
    if (one.corners or run.section.sides) != run.section.sides:
        pattern = "{piece} is mitred for {was} sides, now {now}: cut it again."
        says = worded(pattern, piece=name, was=one.corners, now=run.section.sides)
        yield Misfit(cut=one, fit=CutFit.SIDES, needed_mm=needed_mm, says=says)
        return
    was, now = (_long_point(mm, run) for mm in (one.length_now_mm, needed_mm))
    if was == now or abs(one.length_now_mm - needed_mm) <= TOLERANCE_MM:
        return
    if one.length_now_mm > needed_mm:
        says = worded("{piece} was cut {was}, now {now}: trim it.", piece=name, was=was, now=now)
        yield Misfit(cut=one, fit=CutFit.TRIM, needed_mm=needed_mm, says=says)
        return
    short = describe_length(needed_mm - one.length_now_mm, unit=project.unit)
    says = worded("{piece} was cut {was}, now {now}: {short} too short.", piece=name, was=was, now=now, short=short)
    yield Misfit(cut=one, fit=CutFit.SHORT, needed_mm=needed_mm, says=says)


def _needed_mm(one: PieceCut, run: FrameRun | None) -> float:
    """How long the piece has to be now; 0 where it is not needed."""
    lengths_mm: Mapping[str, float] = lengths_as_cut_mm(run) if run and one.copy_number <= run.frame.frame.count else {}
    return lengths_mm.get(one.side, 0.0)


def _label(one: PieceCut, run: FrameRun | None) -> str:
    purpose, frame, copy, side = name_of_cut(one, (run,) if run else ())
    return Piece(frame=frame, copy=copy, side=side, length_mm=one.length.mm, purpose=Purpose(purpose)).label


def _sizes_mm(run: FrameRun) -> tuple[float, float]:
    return run.section.width_mm, run.section.thickness_mm


def _is_same(one: PieceCut, run: FrameRun) -> bool:
    sizes = zip((one.width.mm, one.thickness.mm), _sizes_mm(run), strict=True)
    return all(abs(cut_mm - now_mm) <= 2 * TOLERANCE_MM for cut_mm, now_mm in sizes)


def _section(width_mm: float, thickness_mm: float, project: Project) -> str:
    return describe_size(width_mm, thickness_mm, unit=project.unit)


def _long_point(length_mm: float, run: FrameRun) -> str:
    is_fitted = run.is_ledge and not run.is_strip
    return write_long_point(length_mm, sides=run.section.sides, step=run.frame.step, is_ledge=is_fitted).full
