"""What the bench shows: its cards with how much of each is done, and what came out beside the plan."""

from collections.abc import Iterator
from contextlib import suppress
from typing import ClassVar
from urllib.parse import urlencode

from framecalc.bench.cards import Card, done_of
from framecalc.bench.rescue import Trouble
from framecalc.errors import FrameCalcError
from framecalc.plan import Plan
from framecalc.plan.advice import sentence_of
from framecalc.plan.bench.timetable import GluePlan, time_said
from framecalc.plan.timber.as_cut import cut_from
from framecalc.plan.timber.cut_fits import CutFit, Misfit, misfits
from framecalc.plan.timber.runs import runs_of
from framecalc.project import Project
from framecalc.records import Record
from framecalc.sizes.shape import RECTANGLE_SIDES
from framecalc.timber.labels import label_of
from framecalc.units import describe_length
from framecalc.words import joined, typed, worded
from webapp.live.addresses import BENCH_SETTING, FINISH, RESCUE, TIMETABLE
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.shown import LiveShown
from webapp.live.typed.answer import Answer
from webapp.live.work.glued import first_day
from webapp.pages.bench.actions import RECUT, TRIMMED
from webapp.pages.bench.came_out import CameOutView, came_out, effects_of
from webapp.pages.bench.cards import cards_or_trouble
from webapp.pages.bench.other_wood import sides_without_room


class CardEntry(Record):
    """A card in the list of cards: its title, its address, and how much of it is done."""

    title: str
    address: str
    settings: int
    done: int
    lines: int


class AgainView(Record):
    """A side that is cut again, in words, and its id."""

    id: str
    says: str


class MisfitView(Record):
    """A piece that is cut and does not fit now: that in words, whether it stops, and what can be done about it."""

    says: str
    is_stop: bool
    buttons: tuple[tuple[str, str], ...]
    ways_at: str


class GlueView(Record):
    """The glue-up on the bench: the glue and its times, when the last clamps come off, what stops it."""

    address: str
    finish_at: str
    glue: str
    ends: str
    stops: tuple[str, ...]


class BenchShown(LiveShown):
    """What the page of the bench shows."""

    cards: tuple[CardEntry, ...]
    came_out: tuple[CameOutView, ...]
    again: tuple[AgainView, ...]
    effects: tuple[str, ...]
    rescue_at: str
    over: tuple[str, ...]
    misfits: tuple[MisfitView, ...]
    glue: GlueView
    trouble: str
    needs_plan: bool
    above: ClassVar[str] = "bench."


def bench_shown(desk: Desk, opened: ProjectAtRevision, answer: Answer) -> BenchShown:
    """What the page of the bench shows."""
    cards, trouble, needs_plan = cards_or_trouble(desk, answer.whole, opened.project_id)
    return BenchShown(
        answer=answer,
        cards=tuple(_entry(card, answer.project, opened.project_id) for card in cards),
        came_out=tuple(one for plan in answer.whole.frames.values() for one in came_out(plan)),
        again=tuple(_again(answer.project)),
        effects=tuple(one for plan in answer.whole.frames.values() for one in effects_of(plan)),
        rescue_at=RESCUE(project_id=opened.project_id),
        over=tuple(_over(desk, answer.whole, opened.project_id)),
        misfits=tuple(_misfits(answer.whole, opened.project_id)),
        glue=_glue(answer.project, opened.project_id),
        trouble=trouble,
        needs_plan=needs_plan,
    )


def _over(desk: Desk, plan: Plan, project_id: str) -> Iterator[str]:
    """The sides that wait for other wood; none where a frame cannot be computed."""
    with suppress(FrameCalcError):
        for piece in sides_without_room(desk, plan, project_id):
            yield label_of(piece).text


_DOES = {
    CutFit.TRIM: ((TRIMMED, "It is trimmed"),),
    CutFit.SHORT: ((RECUT, "Cut it again"),),
    CutFit.SECTION: ((RECUT, "Cut it again"),),
    CutFit.SIDES: ((RECUT, "Cut it again"),),
    CutFit.UNWANTED: (),
}
"""What can be done about a cut piece that does not fit."""


def _misfits(plan: Plan, project_id: str) -> Iterator[MisfitView]:
    """The pieces that are cut and do not fit now; none where a frame cannot be computed."""
    with suppress(FrameCalcError):
        for one in misfits(plan.project, runs_of(plan.frames.values())) if plan.project.timber.cut else ():
            yield MisfitView(
                says=one.says,
                is_stop=one.fit in (CutFit.SHORT, CutFit.SECTION, CutFit.SIDES),
                buttons=tuple((f"{do}:{one.cut.id}", says) for do, says in _DOES[one.fit]),
                ways_at=_ways_at(one, plan.project, project_id),
            )


def _ways_at(one: Misfit, project: Project, project_id: str) -> str:
    """The page of ways out, with what is wrong filled in; nothing where it knows none."""
    frame = project.frame(one.cut.frame)
    is_known = frame is not None and frame.shape.sides == len(RECTANGLE_SIDES) and not frame.shape.slope
    if one.fit is not CutFit.SHORT or one.cut.part != "member" or not is_known:
        return ""
    asked = {
        "frame": one.cut.frame,
        "copy": str(one.cut.copy_number),
        "side": one.cut.side,
        "trouble": Trouble.SHORT.value,
        "by": describe_length(one.short_mm, unit=project.unit),
    }
    return f"{RESCUE(project_id=project_id)}?{urlencode(asked)}"


def _again(project: Project) -> Iterator[AgainView]:
    frames = {frame.id: frame for frame in project.frames}
    for one in project.bench.cut_again:
        if one.frame in frames:
            name = joined("/", [typed(frames[one.frame].name), str(one.copy_number)])
            says = worded("{name}, {side}: cut again from {wood}", name=name, side=one.side, wood=cut_from(one))
            yield AgainView(id=one.id, says=says)


def _glue(project: Project, project_id: str) -> GlueView:
    plan, step = GluePlan(project, first=first_day(project)), project.shop.step(project.unit)
    try:
        ends = time_said(plan.timetable.ends_min)
    except FrameCalcError as error:
        ends = error.sentence
    return GlueView(
        address=TIMETABLE(project_id=project_id),
        finish_at=FINISH(project_id=project_id),
        glue=f"{project.bench.glue.capitalize()}, open {plan.times.open_min:g} min",
        ends=ends,
        stops=tuple(sentence_of(finding, step=step, words=project.shop.words) for finding in plan.findings),
    )


def _entry(card: Card, project: Project, project_id: str) -> CardEntry:
    done, lines = done_of(card, project.timber.done)
    address = BENCH_SETTING(project_id=project_id, card=card.machine.value, number=1)
    return CardEntry(title=card.title, address=address, settings=len(card.settings), done=done, lines=lines)
