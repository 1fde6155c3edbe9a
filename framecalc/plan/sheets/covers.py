"""The dust covers of a job: their sizes, how many, and how they come off the roll."""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from framecalc.findings import Rounding
from framecalc.records import Record
from framecalc.sheets.roll import RollCut, RollPiece, cut_from_roll
from framecalc.units import whole_steps_mm

if TYPE_CHECKING:
    from framecalc.plan.frame import FramePlan
    from framecalc.project import Project


class FrameCover(Record):
    """The dust cover of one frame, trimmed: the upright rectangle round it, and how many."""

    frame_id: str
    name: str
    across_mm: float
    up_mm: float
    count: int


def cover_of(plan: "FramePlan") -> FrameCover | None:
    """The dust cover of a frame; none where it has none, or where sloping sides have no flat back.

    Raises:
        FrameCalcError: the frame cannot be computed.
    """
    if not plan.hand_over.has_cover or plan.shape.slopes:
        return None
    extent, step_mm = plan.shape.extent(*plan.hand_over.cover_mm), float(plan.step.size_mm)
    across_mm, up_mm = (
        whole_steps_mm(size_mm, step_mm=step_mm, rounding=Rounding.NEAREST)
        for size_mm in (extent.across_mm, extent.up_mm)
    )
    frame = plan.frame
    return FrameCover(frame_id=frame.id, name=frame.name, across_mm=across_mm, up_mm=up_mm, count=frame.count)


def covers_of(plans: Iterable["FramePlan"]) -> tuple[FrameCover, ...]:
    """The dust covers of a job, frame by frame.

    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    return tuple(_covers(plans))


def _covers(plans: Iterable["FramePlan"]) -> Iterator[FrameCover]:
    for plan in plans:
        if cover := cover_of(plan):
            yield cover


def cut_covers(project: "Project", covers: Iterable[FrameCover]) -> RollCut | None:
    """How they come off the roll, where its width is typed and there are any.

    Raises:
        ImpossibleSize: one is wider than the roll.
    """
    width, pieces = project.sheets.roll_width, tuple(map(_piece, covers))
    return cut_from_roll(pieces, width_mm=width.mm, over_mm=project.sheets.roll_over.mm) if width and pieces else None


def _piece(cover: FrameCover) -> RollPiece:
    return RollPiece(name=cover.name, across_mm=cover.across_mm, up_mm=cover.up_mm, count=cover.count)
