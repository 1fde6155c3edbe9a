"""Sides for which their sticks have no room as they came out: each is cut from other wood, the shortest that does."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from framecalc.bench.rescue import CutAgainOf, Trouble
from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan, Plan
from framecalc.plan.bench.rescue import RescuePlan, Spare
from framecalc.plan.timber.as_cut import sides_to_place
from framecalc.project import items_at, with_value
from framecalc.project.bench import MOST_AGAIN
from framecalc.project.document import Document
from framecalc.timber.sticks.problem import Piece
from webapp.jobs.timber import work_of
from webapp.live.desk import Desk, ProjectAtRevision, new_id
from webapp.live.other_wood import again_document, rack_of, spares_of


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedAnew:
    """A side of a frame and the wood that it is cut from now."""

    frame_id: str
    copy_number: int
    again: CutAgainOf


def sides_without_room(desk: Desk, plan: Plan, project_id: str) -> Iterator[tuple[FramePlan, Piece]]:
    """Every side that waits for other wood; nothing of sticks that are marked as cut."""
    cut = {one.problem for one in rack_of(desk).cuts_of(project_id)}
    for work in work_of(desk.jobs, plan):
        if work.plan is None or work.group.key in cut:
            continue
        frames = {run.name: run.frame for run in work.group.runs}
        for piece in sides_to_place(work.plan, group=work.group, project=plan.project):
            yield frames[piece.frame], piece


def placed_anew(desk: Desk, opened: ProjectAtRevision) -> Iterator[PlacedAnew]:
    """Each of these sides with other wood: off-cuts and the rack first, and what one takes the next has not."""
    left: dict[str, list[Spare]] = {}
    for frame, piece in sides_without_room(desk, opened.plan, opened.project_id):
        spares = left.setdefault(frame.frame.id, list(spares_of(desk, opened, frame)))
        try:
            rescue = RescuePlan(
                opened.plan, frame, trouble=Trouble.SHORT, side=piece.side, by_mm=1.0, spares=tuple(spares)
            )
            (again,) = next(rescue.from_other_wood()).again
        except FrameCalcError:
            continue
        for spares in left.values():
            _shorten(spares, again)
        yield PlacedAnew(frame_id=frame.frame.id, copy_number=piece.copy, again=again)


def with_placed(document: Document, placed: tuple[PlacedAnew, ...]) -> Document:
    """The document with these sides cut again."""
    new = [
        again_document(one.again, key=new_id(), frame_id=one.frame_id, copy_number=one.copy_number) for one in placed
    ]
    there = items_at(document, "bench.cut_again")
    return with_value(document, "bench.cut_again", [*there, *new][-MOST_AGAIN:])


def _shorten(spares: list[Spare], again: CutAgainOf) -> None:
    """Take the wood of a side from the shortest spare of its stick that has it."""
    of_stick = [
        (one.length_mm, at)
        for at, one in enumerate(spares)
        if (one.source, one.on_rack) == (again.source, again.on_rack) and one.length_mm >= again.wood_mm
    ]
    for length_mm, at in sorted(of_stick)[:1]:
        spares[at] = replace(spares[at], length_mm=length_mm - again.wood_mm)
