"""The way through a job as pages show it: each step with state, words and address; the marks of the menu."""

from collections.abc import Mapping

from starlette.requests import Request

from framecalc.plan.light import FindingPage
from framecalc.plan.way import Lead, State, StepState, WayThrough
from framecalc.plan.way_words import TITLES
from framecalc.project.document import Document
from framecalc.project.form import field_at
from framecalc.project.way import LEFT_OUT, TICKED, JobStep
from framecalc.records import Record
from framecalc.words import capitalised, uncapitalised, worded
from webapp.live.addresses import (
    BENCH,
    CLIENT,
    CORNERS,
    COSTS,
    CUT,
    HAND_OVER,
    LOOK,
    PACKAGE,
    PROJECT,
    SETTING_OUT,
    SHEETS,
    TIMBER,
    WALL,
    WAY_STEP,
    Address,
)
from webapp.live.desk import Desk, ProjectAtRevision, desk
from webapp.live.grouped import at_field, at_group
from webapp.live.page import Page, Pages
from webapp.live.render import html_id
from webapp.live.typed.answer import label_with_part
from webapp.live.typed.field import fields_in

WORDS: Mapping[State, str] = {
    State.DONE: "Done",
    State.OPEN: "Open",
    State.CHECK: "Check",
    State.STOP: "Stop",
    State.NOT_NEEDED: "Not needed",
}
"""What each state is called."""

_AT: Mapping[str, Address] = {
    "setting_out": SETTING_OUT,
    "package": PACKAGE,
    "corners": CORNERS,
    "timber": TIMBER,
    "sheets": SHEETS,
    "costs": COSTS,
    "client": CLIENT,
    "look": LOOK,
    "wall": WALL,
    "hand_over": HAND_OVER,
    "cut": CUT,
    "bench": BENCH,
    "job": PROJECT,
}
_TYPED_ON = {"timber": "timber.", "sheets": "sheets.", "costs": "quote.", "bench": "bench."}
"""How the paths of the fields begin that are typed on a page of the whole job."""

_STEPS_OF_PAGE: Mapping[str, tuple[JobStep, ...]] = {
    "setting_out": (JobStep.MEASURE, JobStep.SET_OUT),
    "package": (JobStep.PACKAGE,),
    "corners": (JobStep.JOINT, JobStep.TEST_CUT),
    "timber": (JobStep.STOCK, JobStep.CUT),
    "bench": (JobStep.MILL, JobStep.JOIN),
    "sheets": (JobStep.SHEETS,),
    "look": (JobStep.FINISH,),
    "costs": (JobStep.PRICE,),
    "client": (JobStep.SHOW,),
    "wall": (JobStep.HANG, JobStep.HAND_OVER),
}
"""The steps that the mark of a page in the menu stands for."""

PLANNED = tuple(JobStep)[: tuple(JobStep).index(JobStep.MILL)]
"""The steps before the wood is touched; the others are made."""


class StepView(Record):
    """One step as the page shows it. `ticks` says what its buttons can do: tick it, leave it out, take that back."""

    name: str
    title: str
    state: str
    word: str
    says: str
    goes_to: str
    tick_at: str
    can_tick: bool
    can_leave_out: bool
    is_ticked: bool


class NextView(Record):
    """The first thing that is open: what to do, and where. `step` can be ticked beside it, where hands alone know."""

    title: str
    says: str
    goes_to: str
    step: StepView


class WayView(Record):
    """The way through a job: its steps in two parts, what comes next, and how much is done."""

    planned: tuple[StepView, ...]
    made: tuple[StepView, ...]
    next: NextView | None
    done: int
    needed: int


class MenuEntry(Record):
    """An entry of the menu: its page, and the state of what is done there."""

    page: Page
    address: str
    state: str
    word: str
    says: str


class Menu(Record):
    """The menu of a job: its entries in groups, and how much of the way is done."""

    groups: tuple[tuple[str, tuple[MenuEntry, ...]], ...]
    done: int
    needed: int

    @property
    def entries(self) -> tuple[MenuEntry, ...]:
        """Every entry."""
        return tuple(entry for _, entries in self.groups for entry in entries)


def way_view(desk: Desk, opened: ProjectAtRevision) -> WayView:
    """The way through a job as it is saved."""
    way = desk.way(opened)
    views = {one.step: _step_view(one, opened) for one in way.steps}
    return WayView(
        planned=tuple(views[step] for step in PLANNED),
        made=tuple(view for step, view in views.items() if step not in PLANNED),
        next=_next_view(way.next, views[way.next.step], opened) if way.next else None,
        done=way.done,
        needed=_needed(way),
    )


def menu_for(request: Request, opened: ProjectAtRevision, frame_id: str) -> Menu:
    """The menu of the page that is asked for."""
    return _menu_of(desk(request), request.app.state.pages, opened, frame_id)


def _menu_of(desk: Desk, pages: Pages, opened: ProjectAtRevision, frame_id: str) -> Menu:
    """The menu of a job, those pages of a frame that have one leading to the frame given."""
    way = desk.way(opened)
    groups = tuple(
        (title, tuple(_entry(page, way, opened.project_id, frame_id) for page in group))
        for title, group in pages.groups
    )
    return Menu(groups=groups, done=way.done, needed=_needed(way))


def next_words(way: WayThrough, opened: ProjectAtRevision) -> str:
    """What comes next, in a few words."""
    return _title(way.next, opened) if way.next else "Handed over"


def _needed(way: WayThrough) -> int:
    return sum(one.state is not State.NOT_NEEDED for one in way.steps)


def _entry(page: Page, way: WayThrough, project_id: str, frame_id: str) -> MenuEntry:
    steps = _STEPS_OF_PAGE.get(page.name, ())
    state = way.worst_of(steps) if steps else None
    return MenuEntry(
        page=page,
        address=page.address(project_id=project_id, frame_id=frame_id),
        state=state.value if state else "",
        word=WORDS[state] if state else "",
        says=next((one.says for step in steps if (one := way.of(step)).state is state), ""),
    )


def _step_view(one: StepState, opened: ProjectAtRevision) -> StepView:
    step, way = one.step, opened.project.way
    return StepView(
        name=step.value,
        title=TITLES[step],
        state=one.state.value,
        word=WORDS[one.state],
        says=one.says,
        goes_to=address_of(one.lead, project_id=opened.project_id, document=opened.document),
        tick_at=WAY_STEP(project_id=opened.project_id, step=step.value),
        can_tick=step in TICKED and one.waits,
        can_leave_out=step in LEFT_OUT and one.waits,
        is_ticked=step in way.done or step in way.left_out,
    )


def _next_view(one: StepState, view: StepView, opened: ProjectAtRevision) -> NextView:
    return NextView(title=_title(one, opened), says=one.says, goes_to=view.goes_to, step=view)


def _title(one: StepState, opened: ProjectAtRevision) -> str:
    """What is to be done: an assumed value is named, else the step."""
    field = field_at(opened.document, one.lead.field) if one.state is State.CHECK and one.lead.field else None
    if field:
        label = label_with_part(field.label, one.lead.field, opened.project)
        return worded("Confirm: {label}", label=uncapitalised(label))
    return capitalised(TITLES[one.step])


def address_of(lead: Lead, *, project_id: str, document: Document) -> str:
    """Where a step leads: to its field, if its page has that one, else to its place."""
    page = lead.page if lead.anchor or not lead.field else _typed_on(lead, document)
    at = at_group(_AT[page], lead.anchor.removeprefix("says-")) if lead.anchor else at_field(_AT[page], lead.field)
    address = at(project_id=project_id, frame_id=lead.frame_id, key=lead.anchor)
    if _is_typed_there(page, lead, document):
        return f"{address}#field-{html_id(lead.field)}"
    return f"{address}#{lead.anchor}" if lead.anchor and page != "cut" else address


def _typed_on(lead: Lead, document: Document) -> str:
    """The page of a frame on which a value is typed."""
    if lead.field in fields_in(document, lead.frame_id):
        return FindingPage.SETTING_OUT
    return FindingPage.CORNERS if ".corner." in lead.field else FindingPage.PACKAGE


def _is_typed_there(page: str, lead: Lead, document: Document) -> bool:
    if not lead.field or field_at(document, lead.field) is None:
        return False
    if page == FindingPage.SETTING_OUT:
        return lead.field in fields_in(document, lead.frame_id)
    return not lead.anchor or lead.field.startswith(_TYPED_ON.get(page, "none"))
