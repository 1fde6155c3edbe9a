"""The list of projects as it is shown: each with its small fronts, the day it is due, and what comes next."""

from collections.abc import Iterable, Iterator
from contextlib import suppress
from datetime import date

from markupsafe import Markup

from framecalc.drawing.job.fronts import SmallFront, common_scale, draw_small_front, read_small_front
from framecalc.drawing.record import panel_svg
from framecalc.drawing.setting_out.front import FRONT
from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan, Plan
from framecalc.plan.way import State
from framecalc.plan.way_words import days_left_said
from framecalc.project import read_project
from framecalc.project.document import Document
from framecalc.records import Record
from framecalc.words import Words, day_said, joined, typed
from webapp.data.errors import StoreError
from webapp.data.summaries import Summary
from webapp.live.days import written_when
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.render import drawing
from webapp.live.way import WORDS, next_words

MOST_FRONTS = 4
"""As many fronts of a project stand in the list."""

ROW_MM = 90.0
"""How wide they may be together, on sheets of their height, beside the name of the project."""


class ProjectEntry(Record):
    """One project in the list: what it is, when it is due, and what comes next.

    `about` says who it is for, how many frames it has and of which wood.
    """

    project_id: str
    name: str
    number: int
    when: str
    problem: str
    about: str
    due: str
    due_in: str
    is_late: bool
    next: str
    state: str
    word: str
    fronts: tuple[Markup, ...]
    more_fronts: int


class DemoEntry(Record):
    """One demo project on offer."""

    name: str
    title: str
    note: str
    svg: Markup


def entries(desk: Desk, summaries: Iterable[Summary], *, today: date, words: Words) -> tuple[ProjectEntry, ...]:
    """The projects of one page of the list, in the order given; the fronts of each are true to each other."""
    return tuple(_entry(desk, summary, today=today, words=words) for summary in summaries)


def demo_entries(documents: dict[str, Document]) -> tuple[DemoEntry, ...]:
    """The demo projects on offer."""
    return tuple(_demo_entry(name, document) for name, document in documents.items())


def _entry(desk: Desk, summary: Summary, *, today: date, words: Words) -> ProjectEntry:
    opened, way, problem = None, None, summary.problem
    try:
        found = desk.open(summary.project_id)
        way, opened = desk.way(found), found
    except (FrameCalcError, StoreError) as error:
        problem = problem or error.sentence
    due, goes_on = summary.due, way is not None and way.next is not None
    step = way.next if way else None
    fronts = tuple(_small_fronts(opened))
    shown = fronts[:MOST_FRONTS]
    scale = common_scale(shown, row_mm=ROW_MM)
    return ProjectEntry(
        project_id=summary.project_id,
        name=summary.name,
        number=summary.number,
        when=written_when(summary.when),
        problem=problem,
        about=joined(", ", _about(summary, opened)),
        due=day_said(due, words) if due else "",
        due_in=days_left_said((due - today).days) if due and goes_on else "",
        is_late=due is not None and due < today and goes_on,
        next=next_words(way, opened) if way and opened else "",
        state=step.state.value if step else State.DONE.value if way else "",
        word=WORDS[step.state] if step else "",
        fronts=tuple(drawing(draw_small_front(front, scale=scale)) for front in shown),
        more_fronts=max(0, len(fronts) - MOST_FRONTS),
    )


def _about(summary: Summary, opened: ProjectAtRevision | None) -> Iterator[str]:
    if summary.client:
        yield typed(summary.client)
    if opened:
        yield _frames(opened.project.frames)
    yield from map(typed, summary.woods)


def _small_fronts(opened: ProjectAtRevision | None) -> Iterator[SmallFront]:
    """The small fronts of a project; those frames are left out that cannot be worked out, or the project cannot."""
    with suppress(FrameCalcError):
        for plan in opened.plan.frames.values() if opened else ():
            with suppress(FrameCalcError):
                yield read_small_front(plan)


def _demo_entry(name: str, document: Document) -> DemoEntry:
    project = read_project(document)
    plan = Plan(project).frames[project.frames[0].id]
    return DemoEntry(name=name, title=project.name, note=project.note, svg=_front(plan))


def _frames(frames: tuple[object, ...]) -> str:
    count = sum(getattr(frame, "count", 1) for frame in frames)
    kinds = len(frames)
    if kinds == 1:
        return "1 frame" if count == 1 else f"{count} frames, all alike"
    return f"{count} frames in {kinds} kinds"


def _front(plan: FramePlan) -> Markup:
    try:
        return drawing(panel_svg(FRONT.of(plan)))
    except FrameCalcError:
        return Markup("")
