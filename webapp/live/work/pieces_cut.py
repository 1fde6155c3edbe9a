"""Pieces ticked off as cut: each is kept with its stick and its place, so that it stays when sizes change later."""

import re
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from contextlib import suppress

from framecalc.errors import FrameCalcError
from framecalc.plan.timber.as_cut import cut_elsewhere, group_as_cut, plan_as_cut
from framecalc.plan.timber.begun import entry_of, name_of_cut, part_of_run
from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.timber.machine_work import MachineWork
from framecalc.project import items_at, texts_at, with_value
from framecalc.project.document import Document
from framecalc.project.pieces_cut import MOST_CUT
from framecalc.project.timber import MOST_TICKS
from framecalc.records import Record, replace
from framecalc.timber.sticks.answer import CutStick, PlacedPiece
from framecalc.timber.sticks.problem import Piece, PieceName, Purpose, name_of
from webapp.jobs.timber import GroupWork, work_of
from webapp.live.desk import Desk, ProjectAtRevision, new_id

CUT = "timber.cut"

_LINE = re.compile(r"([0-9a-f]{10})-(pieces|stops|tests)-([0-9]{1,5})")


class TickedPieces(Record):
    """The pieces of a line: those of which group, and the keys of their own lines."""

    group: TimberGroup
    work: MachineWork
    pieces: tuple[Piece, ...]

    @property
    def keys(self) -> tuple[str, ...]:
        """The keys of the pieces in the list of every piece."""
        names = {name_of(piece) for piece in self.pieces}
        numbered = enumerate((piece for *_, piece in self.work.pieces), start=1)
        return tuple(self.work.key("pieces", number) for number, piece in numbered if name_of(piece) in names)

    @property
    def stops(self) -> tuple[str, ...]:
        """The keys of the stops at which they are cut."""
        names = {name_of(piece) for piece in self.pieces}
        stops = enumerate(self.work.stops, start=1)
        return tuple(
            self.work.key("stops", number) for number, stop in stops if not names.isdisjoint(map(name_of, stop.pieces))
        )


def with_pieces_of(desk: Desk, head: ProjectAtRevision, document: Document, key: str, is_done: bool) -> Document:
    """The document with the pieces of a line that is ticked off, or without them once it is not.

    That of a stop ticks off its pieces too; a piece that is not cut after all leaves its stop open.
    """
    found = None
    with suppress(FrameCalcError):
        found = pieces_of_line(desk, head, key)
    if found is None:
        return document
    done = texts_at(document, "timber.done")
    also = [one for one in found.keys if one not in done] if is_done else [*found.keys, *found.stops]
    kept = [*done, *also] if is_done else [one for one in done if one not in also]
    return _with_pieces(head, with_value(document, "timber.done", kept[-MOST_TICKS:]), found, is_done=is_done)


def with_all_away(
    desk: Desk, head: ProjectAtRevision, *, marked: ProjectAtRevision, problem: str, cut_id: str
) -> Document:
    """The document once a plan is marked as cut: all its pieces are, and what is left of its sticks is on the rack.

    `marked` is the project as it was marked: what was changed since changes nothing of what was cut.
    """
    work = next((one for one in work_of(desk.jobs, marked.plan) if one.group.key == problem and one.plan), None)
    if work is None or any(one.away == cut_id for one in head.project.timber.cut):
        return head.document
    found = _all_of(marked, work)
    known = {name_of_cut(one, found.group.runs) for one in head.project.timber.cut if not one.spoiled}
    new = replace(found, pieces=tuple(piece for piece in found.pieces if name_of(piece) not in known))
    done = dict.fromkeys((*texts_at(head.document, "timber.done"), *found.keys))
    ticked = with_value(head.document, "timber.done", [*done][-MOST_TICKS:])
    document = _with_pieces(head, ticked, new, is_done=True, marked=marked)
    own = {(run.frame.frame.id, part_of_run(run)) for run in found.group.runs}
    return _put_away(document, lambda one: cut_id if (one["frame"], one["part"]) in own else "", away="")


def with_none_away(document: Document, cut_id: str) -> Document:
    """The document once a cut is undone: what is left of its sticks is no longer on the rack."""
    return _put_away(document, lambda one: "", away=cut_id)


def _put_away(document: Document, where: Callable[[Document], str], *, away: str) -> Document:
    cut = [one | {"away": where(one)} if one.get("away", "") == away else one for one in items_at(document, CUT)]
    return with_value(document, CUT, cut) if cut else document


def pieces_of_line(desk: Desk, head: ProjectAtRevision, key: str) -> TickedPieces | None:
    """The pieces that a line of a list or card is about: itself one, or all at a stop; None for any other line."""
    line = _LINE.fullmatch(key)
    if line is None:
        return None
    plan, name, number = line.groups()
    for work in work_of(desk.jobs, head.plan):
        if work.plan and work.plan.problem_hash.startswith(plan):
            return _of_work(head, work, name, int(number))
    return None


def _with_pieces(
    head: ProjectAtRevision,
    document: Document,
    found: TickedPieces,
    *,
    is_done: bool,
    marked: ProjectAtRevision | None = None,
) -> Document:
    names = {name_of(piece) for piece in found.pieces}
    kept = [one for one in items_at(document, CUT) if one["id"] not in _known(head, found, names)]
    new = list(_cut(marked or head, found)) if is_done else []
    return with_value(document, CUT, [*kept, *new][-MOST_CUT:])


def _of_work(head: ProjectAtRevision, work: GroupWork, name: str, number: int) -> TickedPieces | None:
    found = _all_of(head, work)
    tests = tuple(piece for piece in found.pieces if piece.purpose is Purpose.TEST)
    of_list = tests if name == "tests" else tuple(piece for *_, piece in found.work.pieces)
    lines: Sequence[tuple[Piece, ...]] = [(piece,) for piece in of_list]
    if name == "stops":
        lines = [stop.pieces for stop in found.work.stops]
    if not 1 <= number <= len(lines):
        return None
    return replace(found, pieces=tuple(piece for piece in lines[number - 1] if piece in found.pieces))


def _all_of(head: ProjectAtRevision, work: GroupWork) -> TickedPieces:
    """All pieces of a plan as it is cut, but those that are cut from other wood."""
    assert work.plan is not None
    group, project = work.group, head.project
    plan = plan_as_cut(work.plan, group=group, project=project)
    machine = MachineWork(project=project, group=group_as_cut(group), plan=plan)
    gone = cut_elsewhere(work.plan, group=group, project=project)
    own = (piece for *_, piece in machine.pieces if (piece.frame, piece.copy, piece.side) not in gone)
    return TickedPieces(group=group, work=machine, pieces=tuple(own))


def _known(head: ProjectAtRevision, found: TickedPieces, names: Collection[PieceName]) -> frozenset[str]:
    """The ids of these pieces among those that are cut, but not of spoiled ones."""
    cut = (one for one in head.project.timber.cut if not one.spoiled)
    return frozenset(one.id for one in cut if name_of_cut(one, found.group.runs) in names)


def _cut(head: ProjectAtRevision, found: TickedPieces) -> Iterator[Document]:
    """These pieces as the project keeps them."""
    asked = head.plan.timber.asked(found.group)
    entries = next(one for one in head.plan.timber.groups if one.section == found.group.section)
    typed = list(entries.begun_offers or entries.offers)
    for stick, strip, placed in _placed(found.work.plan.sticks, {name_of(piece) for piece in found.pieces}):
        yield {
            "id": new_id(),
            **_said_of(placed.piece, found.group),
            "length": _text(placed.piece.length_mm),
            "start": _text(placed.start_mm),
            "stock": entry_of(stick.stock.id, typed),
            "stick": stick.stock.name,
            "number": stick.number,
            "strip": strip,
            "strips": [one.number for one in stick.strips if one.pieces],
            "stick_length": _text(stick.stock.length_mm),
            "asked": asked,
        }


def _said_of(piece: Piece, group: TimberGroup) -> Document:
    """Which piece it is, and of which section."""
    run = next((one for one in group.runs if one.name == piece.frame), group.runs[0])
    return {
        "frame": run.frame.frame.id,
        "name": piece.frame,
        "part": part_of_run(run),
        "copy_number": piece.copy,
        "side": piece.side,
        "purpose": piece.purpose.value,
        "width": _text(group.section.width_mm),
        "thickness": _text(group.section.thickness_mm),
        "corners": group.section.sides,
    }


def _placed(sticks: Iterable[CutStick], names: Collection[PieceName]) -> Iterator[tuple[CutStick, int, PlacedPiece]]:
    for stick in sticks:
        for strip in stick.strips:
            for placed in strip.pieces:
                if name_of(placed.piece) in names:
                    yield stick, strip.number, placed


def _text(length_mm: float) -> str:
    return f"{length_mm:.4f} mm"
