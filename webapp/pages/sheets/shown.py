"""What the sheets page shows: the stock of each material, its parts, and each layout with its lists and its proof."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from typing import Any

from framecalc.errors import FrameCalcError
from framecalc.plan import Plan
from framecalc.project import Project
from framecalc.sheets.answer import SheetLayout
from framecalc.sheets.materials import cautions_for
from framecalc.units import Unit, describe_length
from framecalc.words import say
from webapp.jobs.running import JobState
from webapp.jobs.sheets import SheetWork, work_of
from webapp.live.answer import Answer
from webapp.live.answers import refusal
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.slots import field_views
from webapp.pages.sheets.layouts import LayoutView, NoSuchLayout, layout_view, sheet_paper, sheet_view
from webapp.pages.sheets.lists import TITLES, SheetList, SheetLister
from webapp.pages.sheets.says import needs_of, so_far_words
from webapp.pages.sheets.stock import idle_stock, materials_of, ways_of

PAPERS = (("a4", "A4"), ("a3", "A3"), ("letter", "Letter"), ("tabloid", "Tabloid"))
"""The papers that a layout is offered on."""

LISTED = 40
"""Cuts of a sheet that stand on the page; the list in big type has them all."""

_STATES = {
    JobState.WAITING: "Waiting its turn.",
    JobState.RUNNING: "Being worked out.",
    JobState.DONE: "Worked out.",
    JobState.STOPPED: "Stopped; this is the best that was found.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class MaterialView:
    """One material: its parts, how far the layout is, and the layout."""

    number: int
    title: str
    parts: SheetList
    needs: tuple[str, ...]
    state: str
    so_far: str
    is_going: bool
    is_refused: bool
    layout: LayoutView | None
    cautions: tuple[str, ...]


def sheets_address(project_id: str, _: str = "") -> str:
    """The address of the sheets page of a project."""
    return f"/projects/{project_id}/sheets"


def sheets_shown(desk: Desk, opened: ProjectAtRevision, answer: Answer) -> dict[str, Any]:
    """Everything the sheets page shows."""
    project, views = answer.project, field_views(answer)
    plan = answer.whole
    groups, trouble = groups_of(desk, plan)
    return {
        "opened": opened,
        "answer": answer,
        "project": project,
        "frame": answer.frame,
        "base": opened.revision.number,
        "place": "sheets",
        "words": project.shop.words,
        "address": sheets_address(opened.project_id),
        "fields": {path.removeprefix("sheets."): view for path, view in views.items()},
        "slots": tuple(view.slot for view in views.values()),
        "materials": tuple(materials_of(answer, plan)),
        "idle": tuple(idle_stock(answer)),
        "ways": ways_of(plan),
        "groups": groups,
        "trouble": trouble,
        "going": any(group.is_going for group in groups),
        "astray": [text for path, text in answer.reading_messages.items() if path not in answer.fields],
        "papers": PAPERS,
        "listed": LISTED,
        "kerf": describe_length(project.shop.kerf.mm, unit=project.unit),
        "unit": project.unit.value,
        "where": lambda path: "",
    }


def groups_of(desk: Desk, plan: Plan) -> tuple[tuple[MaterialView, ...], str]:
    """The materials of the page, or the sentence that says why there are none."""
    try:
        works = work_of(desk.jobs, plan)
    except FrameCalcError as error:
        return (), _in_words(error, plan.project)
    return tuple(_group(work, plan.project, number) for number, work in enumerate(works, start=1)), ""


def list_shown(desk: Desk, opened: ProjectAtRevision, name: str) -> dict[str, Any]:
    """One list of all materials, in big type.

    Raises:
        NoSuchLayout: there is no list of this name.
    """
    return {
        "words": opened.project.shop.words,
        "project": opened.project,
        "opened": opened,
        "address": sheets_address(opened.project_id),
        "name": name,
        "title": _list_title(name),
        "titles": TITLES,
        "lists": lists_of(desk, opened.project, name),
    }


def lists_of(desk: Desk, project: Project, name: str) -> list[tuple[str, SheetList]]:
    """The lists of one name, each with the material it is for.

    Raises:
        NoSuchLayout: there is no list of this name.
    """
    _list_title(name)
    groups, _ = groups_of(desk, Plan(project))
    return [(group.title, one) for group in groups for one in _lists(group) if one.name == name and one.rows]


def sheet_shown(desk: Desk, opened: ProjectAtRevision, group: int, number: int) -> dict[str, Any]:
    """One sheet of a layout on a page of its own: its drawing and its cuts.

    Raises:
        NoSuchLayout: the material has no layout, or the layout no such sheet.
        FrameCalcError: a frame cannot be computed.
    """
    lister, layout = _laid_out(desk, opened.project, group)
    return {
        "words": opened.project.shop.words,
        "project": opened.project,
        "opened": opened,
        "address": sheets_address(opened.project_id),
        "name": f"sheet-{group}-{number}",
        "material": lister.group.material.title,
        "group_number": group,
        "sheet": sheet_view(lister, layout, number, of_group=group),
        "papers": PAPERS,
        "cautions": cautions_for(lister.group.material.cutting),
    }


def sheet_on_paper(desk: Desk, project: Project, group: int, number: int, paper: str) -> str:
    """One sheet of a layout with its cuts, on a paper of its own, as SVG.

    Raises:
        NoSuchLayout: the material has no layout, or the layout no such sheet.
        FrameCalcError: a frame cannot be computed.
    """
    lister, layout = _laid_out(desk, project, group)
    return sheet_paper(lister, layout, number, paper=paper)


def _laid_out(desk: Desk, project: Project, group: int) -> tuple[SheetLister, SheetLayout]:
    works = work_of(desk.jobs, Plan(project))
    work = works[group - 1] if 1 <= group <= len(works) else None
    if work is None or work.layout is None:
        raise NoSuchLayout("there is no layout here: it has to be worked out first")
    return SheetLister(project=project, group=work.group), work.layout


def _group(work: SheetWork, project: Project, number: int) -> MaterialView:
    group = work.group
    lister = SheetLister(project=project, group=group)
    return MaterialView(
        number=number,
        title=group.material.title,
        parts=lister.parts(),
        needs=tuple(needs_of(group)),
        state=_state(work, project.unit),
        so_far=so_far_words(work.so_far) if work.so_far else "",
        is_going=work.is_going,
        is_refused=bool(group.refusal or work.refusal),
        layout=layout_view(lister, work.layout, number) if work.layout else None,
        cautions=cautions_for(group.material.cutting),
    )


def _state(work: SheetWork, unit: Unit) -> str:
    if work.group.refusal:
        return work.group.refusal
    if work.refusal:
        return refusal(work.refusal, partial(describe_length, unit=unit))
    if work.job and not work.is_going and work.layout is None:
        return "The layout kept for this does not stand up to its check: work it out again."
    return _STATES[work.job.state] if work.job else "Not worked out yet for what is typed."


def _lists(group: MaterialView) -> Iterator[SheetList]:
    yield group.parts
    if group.layout:
        yield group.layout.buy
        yield from (sheet.cuts for sheet in group.layout.sheets)
        yield group.layout.left


def _list_title(name: str) -> str:
    if name not in TITLES:
        raise NoSuchLayout(f"there is no list of this name: {', '.join(TITLES)} would do")
    return TITLES[name]


def _in_words(error: FrameCalcError, project: Project) -> str:
    """A refusal in the project's unit and words."""
    return say(refusal(error, partial(describe_length, unit=project.unit)), project.shop.words)
