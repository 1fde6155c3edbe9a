"""What the timber page shows: the stock, the pieces to cut, and for each plan its lists, drawings and proof."""

from collections.abc import Callable, Iterator, Mapping
from functools import partial
from typing import ClassVar

from markupsafe import Markup

from framecalc.drawing.sheet import TitleBlock
from framecalc.drawing.timber.cuts import DrawnCut, Written, alike, cuts_of
from framecalc.drawing.timber.stick_sheet import draw_stick_sheet, sheets_of
from framecalc.drawing.timber.sticks import draw_stick
from framecalc.errors import FrameCalcError
from framecalc.findings import Severity
from framecalc.money import Currency
from framecalc.plan import Plan
from framecalc.plan.advice import Advice
from framecalc.plan.package.stiffener_words import stiffeners_said
from framecalc.plan.price.price import currency_of
from framecalc.project import Project
from framecalc.records import Record, cached_property, replace
from framecalc.timber.labels import label_of
from framecalc.timber.sticks.answer import CutStick, StickPlan
from framecalc.units import Unit, describe_length
from framecalc.words import Wording, say
from webapp.data.errors import StoreError
from webapp.jobs.timber import GroupWork, work_of
from webapp.live.addresses import TIMBER, Address
from webapp.live.answers import Big, Table, refusal
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.lists import JobList
from webapp.live.papers.files import LEVEL_PAPERS, papers_first
from webapp.live.render import drawing
from webapp.live.slots import FieldSlot, FieldView, FieldViews
from webapp.live.tabbed import STATE_SAYS, ListsShown, Tab
from webapp.live.typed.answer import Answer
from webapp.live.work.price_list import PriceNote, offers_of, timber_prices
from webapp.pages.timber.folds import fold_of, folds_of
from webapp.pages.timber.how_good import STICKS, counted, proved_words, so_far_words
from webapp.pages.timber.job import JobShopping, job_shopping
from webapp.pages.timber.list_maker import TABS, TITLES
from webapp.pages.timber.lists import lister_of
from webapp.pages.timber.rack_beside import RackBeside, beside
from webapp.pages.timber.says import (
    TURNED,
    advice_of,
    boards_table,
    left_over_words,
    milling_table,
    needs_of,
    ordered_words,
    proof_words,
    section_words,
    share_tables,
    title_of,
    unsized_words,
    verdict_of,
    wood_bigs,
)
from webapp.pages.timber.sizes import footage_words, rough_table
from webapp.pages.timber.stock import TimberStockView, stock_of
from webapp.pages.timber.ways_out import WayButton, ways_out

_NOT_YET = "Not worked out yet."
_CUT_STAYS = "Not worked out yet. What is cut stays; the rest is planned over what is left."
_ALL_CUT = "All pieces are cut."
_SHARING = "Boards that several of these share are being allotted."


class NoSuchList(StoreError):
    """There is no list, or no sheet, of this name."""


class SticksAlike(Record):
    """Sticks cut alike: their drawing, lying and standing, and the pieces of each in order."""

    svg: Markup
    upright: Markup
    sticks: tuple[tuple[str, tuple[str, ...]], ...]


class PlanView(Record):
    """A cutting plan on the page; `papers` with the number of sheets of each."""

    verdict: str
    bigs: tuple[Big, ...]
    sticks: tuple[SticksAlike, ...]
    lists: tuple[JobList, ...]
    proved: str
    proof: tuple[str, ...]
    shares: tuple[Table, ...]
    papers: tuple[tuple[str, str, int], ...]
    cautions: tuple[str, ...]


class TimberGroupView(Record):
    """The members of one section: the pieces, the findings, the progress of the search, and the plan."""

    number: int
    key: str
    title: str
    needs: tuple[str, ...]
    findings: tuple[Advice, ...]
    milling: Table | None
    rough: Table | None
    footage: tuple[str, ...]
    boards: Table | None
    state: str
    so_far: str
    is_going: bool
    is_done: bool
    is_refused: bool
    is_put_away: bool
    plan: PlanView | None


class TimberShown(ListsShown, dict=True):
    """What the timber page shows."""

    stock: tuple[TimberStockView, ...]
    groups: tuple[TimberGroupView, ...]
    ordered: tuple[str, ...]
    rack: RackBeside
    offers: tuple[PriceNote, ...]
    ways: Mapping[str, tuple[WayButton, ...]]
    job: JobShopping | None
    stiffeners: tuple[Wording, ...]
    above: ClassVar[str] = "timber."
    path: ClassVar[Address] = TIMBER
    tabs_of_page: ClassVar[tuple[Tab, ...]] = TABS

    @property
    def lists(self) -> Iterator[JobList]:
        """Every list of every plan."""
        return (one for group in self.groups if group.plan for one in group.plan.lists)

    @property
    def is_planned(self) -> bool:
        """Whether everything is worked out for what is typed."""
        return bool(self.groups) and all(group.plan and group.is_done for group in self.groups)

    @property
    def lists_by_name(self) -> Mapping[str, str]:
        """The titles of the lists that have lines, blank for the others."""
        there = {one.name for one in self.lists}
        return {name: title if name in there else "" for name, title in TITLES.items()}

    def fold_in_error(self, name: str) -> bool:
        """Whether a field in a fold is at fault."""
        return any(fold_of(path) == name for path in self.messages)

    @cached_property
    def folds(self) -> Mapping[str, str]:
        """What is typed in each fold, in a line."""
        return folds_of(self.project, {path: view.text for path, view in self.fields.items()})

    @property
    def going(self) -> bool:
        """Whether a search is running."""
        return any(group.is_going for group in self.groups)

    @cached_property
    def fields(self) -> Mapping[str, FieldView]:
        """The fields, with the findings about the stock."""
        found = [advice for group in self.groups for advice in group.findings]
        views = FieldViews(self.answer, self.above)
        return {path: replace(view, slot=_with_findings(view.slot, found)) for path, view in views.items()}


def timber_shown(desk: Desk, opened: ProjectAtRevision, answer: Answer) -> TimberShown:
    """What the timber page shows."""
    plan = answer.whole
    works, trouble = _works(desk, plan)
    return TimberShown(
        answer=answer,
        stock=tuple(stock_of(answer)),
        groups=tuple(group_view(work, answer.project, number) for number, work in enumerate(works, start=1)),
        ordered=() if trouble else tuple(map(ordered_words, plan.timber.ordered)),
        job=job_shopping(works, answer.project),
        ways=ways_out(answer.document, plan, tuple(work.group for work in works)),
        rack=beside(desk, opened.project_id, answer.project, works),
        offers=offers_of(desk, answer.project, timber_prices(answer.project)),
        trouble=trouble,
        stiffeners=() if trouble else tuple(stiffeners_said(plan.frames.values())),
        unsized="" if trouble else unsized_words([one.frame.name for one in plan.timber.unsized]),
    )


def lists_of(desk: Desk, project: Project, name: str) -> list[tuple[str, JobList]]:
    """The lists of one name, each with its members.

    Raises:
        NoSuchList: there is none of this name.
    """
    if name not in TITLES:
        raise NoSuchList(f"Choose a list: {', '.join(TITLES)}")
    works, _ = _works(desk, Plan(project))
    return [
        (say(title_of(work.group, project.unit), project.shop.words), one)
        for work in works
        if work.plan
        for one in lister_of(work.group, work.plan, project).all()
        if one.name == name
    ]


def sheet_of(
    desk: Desk, project: Project, group: int, number: int, paper: str
) -> tuple[tuple[DrawnCut, ...], TitleBlock]:
    """The cuts of a group's plan and the title block of one of its sheets.

    Raises:
        NoSuchList: the group has no plan, or the plan no such sheet.
    """
    works, _ = _works(desk, Plan(project))
    if not 1 <= group <= len(works) or works[group - 1].plan is None:
        raise NoSuchList("No cutting plan yet: plan the cuts first")
    work = works[group - 1]
    cuts = _cuts(work, project)
    count = len(sheets_of(cuts, paper=paper))
    if not 1 <= number <= count:
        raise NoSuchList(f"this cutting plan has {count} sheets")
    return cuts, _title_block(work, project, f"Cutting plan, {number} of {count}")


def sheets_on_paper(work: GroupWork, project: Project, paper: str) -> Iterator[str]:
    """The sheets of a group's cutting plan, as SVG; none where it has no plan."""
    if work.plan is None:
        return
    cuts = _cuts(work, project)
    count = len(sheets_of(cuts, paper=paper))
    for number in range(1, count + 1):
        block = _title_block(work, project, f"Cutting plan, {number} of {count}")
        yield draw_stick_sheet(cuts, number=number, paper=paper, block=block)


def group_view(work: GroupWork, project: Project, number: int) -> TimberGroupView:
    """The view of a group."""
    group, unit = work.group, project.unit
    return TimberGroupView(
        number=number,
        key=group.key,
        title=title_of(group, unit),
        needs=tuple(needs_of(group, project)),
        findings=advice_of(group, project),
        milling=milling_table(group, unit),
        rough=rough_table(group, project),
        footage=tuple(footage_words(group, project)),
        boards=boards_table(group, unit, currency_of(project)),
        state=_state(work, unit),
        so_far=_so_far(work, currency_of(project)) if work.is_going else "",
        is_going=work.is_going,
        is_done=work.is_done,
        is_refused=work.refusal is not None and not group.is_unserved,
        is_put_away=work.plan is not None and not group.still_here(work.plan).sticks,
        plan=_plan_view(work, work.plan, project, number) if work.plan else None,
    )


def _works(desk: Desk, plan: Plan) -> tuple[tuple[GroupWork, ...], str]:
    """The groups with their plans, or the sentence that says why there are none."""
    try:
        return work_of(desk.jobs, plan), ""
    except FrameCalcError as error:
        return (), error.sentence


def _state(work: GroupWork, unit: Unit) -> str:
    if work.refusal:
        return refusal(work.refusal, lambda length_mm: describe_length(length_mm, unit=unit))
    if work.is_shared and work.waits:
        return _SHARING if work.is_going else _NOT_YET
    if work.waits:
        return "It waits for the plan above, and gets what that leaves of the stock."
    if work.group.is_all_cut:
        return _ALL_CUT
    return STATE_SAYS[work.job.state] if work.job else _CUT_STAYS if work.group.left else _NOT_YET


def _so_far(work: GroupWork, currency: Currency) -> str:
    """What the search knows by now: of its sticks, or of the boards of all that share them."""
    return so_far_words(work.so_far, currency, counted(work.sharing) if work.sharing and not work.job else STICKS)


def _plan_view(work: GroupWork, plan: StickPlan, project: Project, number: int) -> PlanView:
    unit, cuts, currency = project.unit, _cuts(work, project), currency_of(project)
    is_alone = not work.group.is_allotted
    return PlanView(
        verdict=verdict_of(plan, work.group, currency),
        bigs=wood_bigs(plan, work.group, unit, currency),
        sticks=tuple(_sticks(plan, cuts, f"cut-{number}", work.group.long_point)),
        lists=lister_of(work.group, plan, project).all(),
        proved=proved_words(plan, work.group, currency),
        proof=tuple(proof_words(plan, work.group, unit, currency)) if is_alone else (),
        shares=share_tables(plan.proof, work.group, unit, currency) if is_alone and not work.group.left else (),
        papers=tuple(
            (paper, says, len(sheets_of(cuts, paper=paper))) for paper, says in papers_first(LEVEL_PAPERS, unit=unit)
        ),
        cautions=(TURNED,) if work.group.problem.turned else (),
    )


def _cuts(work: GroupWork, project: Project) -> tuple[DrawnCut, ...]:
    assert work.plan is not None
    written = Written(
        long_point=work.group.long_point,
        left_over=partial(left_over_words, project=project),
        off_cut=say("off-cut", project.shop.words),
    )
    return cuts_of(work.plan, group=work.group, unit=project.unit, written=written)


def _sticks(
    plan: StickPlan, cuts: tuple[DrawnCut, ...], name: str, long_point: Callable[[float], str]
) -> Iterator[SticksAlike]:
    for number, (cut, sticks) in enumerate(zip(cuts, alike(plan.sticks).values(), strict=True), start=1):
        listed = tuple((stick.label, tuple(_pieces(stick, long_point))) for stick in sticks)
        here = f"{name}-{number}"
        yield SticksAlike(
            svg=drawing(draw_stick(cut, name=here)),
            upright=drawing(draw_stick(cut, name=f"{here}-upright", is_upright=True)),
            sticks=listed,
        )


def _pieces(stick: CutStick, long_point: Callable[[float], str]) -> Iterator[str]:
    for strip in stick.strips:
        for placed in strip.pieces:
            yield label_of(placed.piece).text + f", {long_point(placed.piece.length_mm)}"


def _title_block(work: GroupWork, project: Project, sheet: str) -> TitleBlock:
    saved = project.saved
    return TitleBlock(
        project=project.name,
        frame=section_words(work.group, project.unit),
        drawing=sheet,
        revision=f"revision {saved.revision}" if saved else "not saved",
        date=saved.when[:10] if saved else "no date",
        unit=project.unit,
    )


def _with_findings(slot: FieldSlot, found: list[Advice]) -> FieldSlot:
    said = {advice.sentence: advice.severity for advice in found if advice.path == slot.path}
    here = tuple((severity.value, sentence) for sentence, severity in said.items() if severity is not Severity.NOTE)
    return replace(slot, found=(*slot.found, *here))
