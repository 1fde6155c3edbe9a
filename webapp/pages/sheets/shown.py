"""What the sheets page shows: the stock of each material, its parts, and each layout with its lists and its proof."""

from collections.abc import Iterator, Mapping
from contextlib import suppress
from functools import partial
from typing import ClassVar

from framecalc.errors import FrameCalcError
from framecalc.plan import Plan
from framecalc.plan.job_light import obstacles_of_covers
from framecalc.plan.price.price import currency_of
from framecalc.project import Project
from framecalc.records import Record, cached_property
from framecalc.sheets.answer import SheetLayout
from framecalc.sheets.materials import SheetCutting, cautions_for
from framecalc.units import Unit, describe_length
from framecalc.words import Wording, say
from webapp.jobs.running import JobState
from webapp.jobs.sheets import SheetWork, work_of
from webapp.live.addresses import SHEETS, Address
from webapp.live.answers import refusal
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.lists import JobList
from webapp.live.of_project import OfOpened
from webapp.live.papers.files import LEVEL_PAPERS, papers_first
from webapp.live.tabbed import STATE_SAYS, ListsShown, Tab
from webapp.live.typed.answer import Answer
from webapp.live.work.price_list import PriceNote, offers_of, sheet_prices
from webapp.pages.sheets.folds import fold_of, folds_of
from webapp.pages.sheets.job import SheetsOfJob, sheets_of_job
from webapp.pages.sheets.layouts import DRAWN, LayoutView, NoSuchLayout, SheetView, layout_view, sheet_paper, sheet_view
from webapp.pages.sheets.lists import COVERS, TABS, TITLES, SheetLister, cover_lists, covers_said
from webapp.pages.sheets.says import needs_of, so_far_words
from webapp.pages.sheets.stock import SheetStockView, StockOfMaterial, idle_stock, materials_of, ways_of


class MaterialView(Record):
    """One material: its parts, what of them fits no sheet, the progress of its search, and the layout."""

    number: int
    title: str
    parts: JobList
    left_out: tuple[str, ...]
    needs: tuple[str, ...]
    state: str
    so_far: str
    is_going: bool
    is_done: bool
    is_refused: bool
    layout: LayoutView | None
    cautions: tuple[str, ...]


class SheetsShown(ListsShown, dict=True):
    """What the sheets page shows."""

    materials: tuple[StockOfMaterial, ...]
    idle: tuple[SheetStockView, ...]
    ways: tuple[SheetCutting, ...]
    groups: tuple[MaterialView, ...]
    offers: tuple[PriceNote, ...]
    job: SheetsOfJob | None
    covers: tuple[Wording, ...]
    narrow_roll: str
    above: ClassVar[str] = "sheets."
    path: ClassVar[Address] = SHEETS
    tabs_of_page: ClassVar[tuple[Tab, ...]] = TABS

    @property
    def lists(self) -> Iterator[JobList]:
        """Every list on the page, but for the cuts, which stand with their sheets."""
        for group in self.groups:
            yield from lists_beside(group)

    @property
    def is_planned(self) -> bool:
        """Whether everything is laid out that can be."""
        return bool(self.groups) and all(group.layout and not group.is_going for group in self.groups)

    def beside(self, group: MaterialView) -> tuple[JobList, ...]:
        """The lists of a material in the open tab."""
        names = self.open_tab.tab.lists if self.open_tab else ()
        return tuple(one for one in lists_beside(group) if one.name in names and one.rows)

    def fold_in_error(self, name: str) -> bool:
        """Whether a field in a fold is at fault."""
        return any(fold_of(path) == name for path in self.messages)

    @cached_property
    def folds(self) -> Mapping[str, str]:
        """What is typed in each fold, in a line."""
        return folds_of(self.project)

    @property
    def papers(self) -> tuple[tuple[str, str], ...]:
        """The papers, the usual one first."""
        return papers_first(LEVEL_PAPERS, unit=self.project.unit)

    @property
    def going(self) -> bool:
        """Whether a search is running."""
        return any(group.is_going for group in self.groups)

    @property
    def kerf(self) -> str:
        """The kerf of the blade in use."""
        return describe_length(self.project.shop.kerf.mm, unit=self.project.unit)


def sheets_shown(desk: Desk, opened: ProjectAtRevision, answer: Answer) -> SheetsShown:
    """What the sheets page shows."""
    plan = answer.whole
    works, trouble = _works(desk, plan)
    return SheetsShown(
        answer=answer,
        materials=tuple(materials_of(answer, plan)),
        idle=tuple(idle_stock(answer)),
        ways=ways_of(plan),
        groups=_views(works, plan.project),
        job=sheets_of_job(works, answer.project),
        covers=_covers(plan),
        narrow_roll=_narrow_roll(plan),
        offers=offers_of(desk, answer.project, sheet_prices(answer.project)),
        trouble=trouble,
    )


def groups_of(desk: Desk, plan: Plan) -> tuple[tuple[MaterialView, ...], str]:
    """The materials of the page, or the sentence that says why there are none."""
    works, trouble = _works(desk, plan)
    return _views(works, plan.project), trouble


def _covers(plan: Plan) -> tuple[Wording, ...]:
    """The dust covers in words; nothing while a frame cannot be computed."""
    with suppress(FrameCalcError):
        return tuple(covers_said(plan))
    return ()


def _narrow_roll(plan: Plan) -> str:
    """That the roll is too narrow, as the light says it."""
    with suppress(FrameCalcError):
        said = obstacles_of_covers(plan.project, frames=plan.frames.values())
        return next((one.sentence for one in said), "")
    return ""


def _cover_lists(plan: Plan, name: str) -> Iterator[tuple[str, JobList]]:
    with suppress(FrameCalcError):
        yield from ((COVERS, one) for one in cover_lists(plan) if one.name == name and one.rows)


def _works(desk: Desk, plan: Plan) -> tuple[tuple[SheetWork, ...], str]:
    try:
        return tuple(work_of(desk.jobs, plan)), ""
    except FrameCalcError as error:
        return (), _in_words(error, plan.project)


def _views(works: tuple[SheetWork, ...], project: Project) -> tuple[MaterialView, ...]:
    views, room = [], DRAWN
    for number, work in enumerate(works, start=1):
        views.append(_group(work, project, number, room=room))
        room -= len(views[-1].layout.drawn) if views[-1].layout else 0
    return tuple(views)


def lists_of(desk: Desk, project: Project, name: str) -> list[tuple[str, JobList]]:
    """The lists of one name, each with its material.

    Raises:
        NoSuchLayout: there is no list of this name.
    """
    if name not in TITLES:
        raise NoSuchLayout(f"Choose a list: {', '.join(TITLES)}")
    plan = Plan(project)
    groups, _ = groups_of(desk, plan)
    found = [(group.title, one) for group in groups for one in _lists(group) if one.name == name and one.rows]
    return [*found, *_cover_lists(plan, name)]


class SheetShown(OfOpened):
    """One sheet of a layout on a page of its own: its drawing and its cuts."""

    group_number: int
    material: str
    sheet: SheetView
    cautions: tuple[str, ...]

    @property
    def papers(self) -> tuple[tuple[str, str], ...]:
        """The papers, the usual one first."""
        return papers_first(LEVEL_PAPERS, unit=self.project.unit)

    @property
    def address(self) -> str:
        """The page of all sheets."""
        return SHEETS(project_id=self.opened.project_id)

    @property
    def lists_at(self) -> str:
        """The start of the addresses of its ticks."""
        return self.address

    @property
    def name(self) -> str:
        """The name under which its ticks are kept."""
        return f"sheet-{self.group_number}-{self.sheet.number}"


def sheet_shown(desk: Desk, opened: ProjectAtRevision, group: int, number: int) -> SheetShown:
    """What the page of one sheet shows.

    Raises:
        NoSuchLayout: the material has no layout, or the layout no such sheet.
        FrameCalcError: a frame cannot be computed.
    """
    lister, layout = _laid_out(desk, opened.project, group)
    return SheetShown(
        opened=opened,
        group_number=group,
        material=lister.group.material.title,
        sheet=sheet_view(lister, layout, number, of_group=group),
        cautions=cautions_for(lister.group.material.cutting),
    )


class MaterialShown(OfOpened):
    """Every sheet of a material by its name, each with a page of its own."""

    group_number: int
    material: str
    sheets: tuple[SheetView, ...]

    @property
    def lists_at(self) -> str:
        """The page of all sheets, and the start of their addresses."""
        return SHEETS(project_id=self.opened.project_id)


def material_shown(desk: Desk, opened: ProjectAtRevision, group: int) -> MaterialShown:
    """What the page of one material shows.

    Raises:
        NoSuchLayout: the material has no layout.
        FrameCalcError: a frame cannot be computed.
    """
    lister, layout = _laid_out(desk, opened.project, group)
    sheets = layout_view(lister, layout, group, room=0).sheets
    return MaterialShown(opened=opened, group_number=group, material=lister.group.material.title, sheets=sheets)


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
        raise NoSuchLayout("No layout yet: plan the cuts first")
    return SheetLister(project=project, group=work.group), work.layout


def _group(work: SheetWork, project: Project, number: int, *, room: int) -> MaterialView:
    group = work.group
    lister = SheetLister(project=project, group=group)
    return MaterialView(
        number=number,
        title=group.material.title,
        parts=lister.parts(),
        left_out=tuple(group.left_out.values()),
        needs=tuple(needs_of(group)),
        state=_state(work, project.unit),
        so_far=so_far_words(work.so_far, currency_of(project)) if work.so_far else "",
        is_going=work.is_going,
        is_done=_is_done(work),
        is_refused=bool(group.refusal or work.refusal),
        layout=layout_view(lister, work.layout, number, room=room) if work.layout else None,
        cautions=cautions_for(group.material.cutting),
    )


def _is_done(work: SheetWork) -> bool:
    """Whether all of it is laid out."""
    ended = work.job is not None and work.job.state is JobState.DONE
    return ended and work.layout is not None and not work.group.left_out


def _state(work: SheetWork, unit: Unit) -> str:
    if work.group.refusal:
        return work.group.refusal
    if work.refusal:
        return refusal(work.refusal, partial(describe_length, unit=unit))
    if work.job and not work.is_going and work.layout is None:
        return "The layout kept for this does not stand up to its check: work it out again."
    if work.job is None:
        return "Not worked out yet."
    left_out = work.job.state is JobState.DONE and work.group.left_out
    return "Worked out, but for what is left out." if left_out else STATE_SAYS[work.job.state]


def _lists(group: MaterialView) -> Iterator[JobList]:
    yield from lists_beside(group)
    if group.layout:
        yield from (sheet.cuts for sheet in group.layout.sheets)


def lists_beside(group: MaterialView) -> Iterator[JobList]:
    """The lists of a material that do not belong to one sheet."""
    yield group.parts
    if group.layout:
        yield group.layout.buy
        yield group.layout.left


def _in_words(error: FrameCalcError, project: Project) -> str:
    """The sentence of an error in the project's unit and trade words."""
    return say(refusal(error, partial(describe_length, unit=project.unit)), project.shop.words)
