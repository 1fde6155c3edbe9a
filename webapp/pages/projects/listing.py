"""The list of projects as it is shown: each with a small drawing of its first frame, and when it was saved."""

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from framecalc.drawing import draw_panel
from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan, Plan
from framecalc.project import read_project
from webapp.data.errors import StoreError
from webapp.data.store import Summary
from webapp.live.days import written_when
from webapp.live.desk import Desk
from webapp.live.forms import Document
from webapp.live.render import drawing


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One project in the list."""

    project_id: str
    name: str
    number: int
    when: str
    problem: str
    frames: str
    sizes: str
    svg: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class DemoEntry:
    """One demo project on offer."""

    name: str
    title: str
    note: str
    svg: Markup


def entries(desk: Desk, summaries: Iterable[Summary]) -> tuple[Entry, ...]:
    """The projects on the desk, the one changed last first."""
    return tuple(_entry(desk, summary) for summary in summaries)


def demo_entries(documents: dict[str, Document]) -> tuple[DemoEntry, ...]:
    """The demo projects on offer."""
    return tuple(_demo_entry(name, document) for name, document in documents.items())


def _entry(desk: Desk, summary: Summary) -> Entry:
    plan, frames, problem = None, "", summary.problem
    try:
        opened = desk.open(summary.project_id)
        first, *_ = opened.plan.frames.values()
        plan, frames = first, _frames(opened.project.frames)
    except (FrameCalcError, StoreError) as error:
        problem = problem or error.sentence
    return Entry(
        project_id=summary.project_id,
        name=summary.name,
        number=summary.number,
        when=written_when(summary.when),
        problem=problem,
        frames=frames,
        sizes=_outside(plan),
        svg=_front(plan),
    )


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


def _outside(plan: FramePlan | None) -> str:
    try:
        figures = plan.figures if plan else {}
    except FrameCalcError:
        return ""
    if not figures:
        return ""
    across, up = figures["outside_across"], figures["outside_up"]
    return f"{across.text} × {up.text} {up.written.unit} outside"


def _front(plan: FramePlan | None) -> Markup:
    try:
        return drawing(draw_panel("front", plan)) if plan else Markup("")
    except FrameCalcError:
        return Markup("")
