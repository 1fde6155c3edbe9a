"""The way through a job: every step in the order of work, its state, and the one number or sentence that tells of it.

A step's state follows from the plan, from what is known beside it (searches that have ended, wood that was cut, what a
client was shown), and from what hands have ticked. While an earlier step is at a stop, nothing after it counts as done
by the plan: it may come out otherwise. What a person has ticked stays done.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from enum import StrEnum

from framecalc.errors import FrameCalcError
from framecalc.findings import Severity
from framecalc.plan.frame import FramePlan
from framecalc.plan.inputs import is_cut_here
from framecalc.plan.job_light import JobPage, Obstacle
from framecalc.plan.light import FindingPage
from framecalc.plan.way_words import SAYS
from framecalc.plan.whole import Plan
from framecalc.project.way import LEFT_OUT, JobStep
from framecalc.records import Record, replace

HAND_OVER_PAGE = "hand_over"
"""The page of a frame on which it is packed; nothing is found there that holds up the work."""

CLIENT_CHANGED = "client.changed"
"""What has changed since a client's yes: the yes is to be asked for again."""


class State(StrEnum):
    """The state of a step."""

    DONE = "done"
    OPEN = "open"
    CHECK = "check"
    STOP = "stop"
    NOT_NEEDED = "not-needed"


WAITING = (State.STOP, State.CHECK, State.OPEN)
"""The states in which a step still wants something done, the worst first."""


class Searched(Record):
    """How far the cutting plans or the layouts of a job are, and the one thing to say about them.

    `estimates` are those worked out with stock that nobody has typed.
    """

    groups: int = 0
    worked_out: int = 0
    estimates: int = 0
    says: str = ""

    @property
    def is_whole(self) -> bool:
        """Whether all of them are worked out."""
        return 0 < self.groups == self.worked_out


class BesidePlan(Record):
    """What is known of a job beside its plan: searches, cut records, the price, what its client was shown.

    `cut` counts the groups that are marked as cut as they stand now; `to_cut` is the key
    of the first of the others that has a plan.
    `was_cut`: wood was cut for the job before, by whichever plan.
    """

    obstacles: tuple[Obstacle, ...] = ()
    sticks: Searched = Searched()
    sheets: Searched = Searched()
    cut: int = 0
    was_cut: bool = False
    to_cut: str = ""
    price: str = ""
    is_priced: bool = False
    shown: str = ""
    approved: str = ""


class Lead(Record):
    """Where a step leads: a page, the frame that it is about, a field on it or a place on it."""

    page: str
    frame_id: str = ""
    field: str = ""
    anchor: str = ""


class StepState(Record):
    """One step as it stands. `by_hand`: somebody has said so, by a tick or by marking a plan as cut."""

    step: JobStep
    state: State
    says: str
    lead: Lead
    by_hand: bool = False

    @property
    def waits(self) -> bool:
        """Whether it still wants something done."""
        return self.state in WAITING


class WayThrough(Record):
    """Every step of a job, in the order of work."""

    steps: tuple[StepState, ...]

    @property
    def next(self) -> StepState | None:
        """The first step that wants something done; none once the job is handed over."""
        is_over = self.steps[-1].state is State.DONE
        return None if is_over else next((one for one in self.steps if one.waits), None)

    @property
    def done(self) -> int:
        """How many steps are done."""
        return sum(one.state is State.DONE for one in self.steps)

    def of(self, step: JobStep) -> StepState:
        """One step."""
        return next(one for one in self.steps if one.step is step)

    def worst_of(self, steps: Iterable[JobStep]) -> State:
        """The state that stands for several steps: the worst that waits, else done, unless none of them is needed."""
        states = {self.of(step).state for step in steps}
        return next((state for state in (*WAITING, State.DONE) if state in states), State.NOT_NEEDED)


class Hint(Record):
    """A stop, or an assumed value, at a step."""

    step: JobStep
    sentence: str
    lead: Lead


def way_of(plan: Plan, beside: BesidePlan) -> WayThrough:
    """The way through a job as it stands."""
    return WayThrough(steps=tuple(_in_order(_Job(plan, beside))))


def _in_order(job: "_Job") -> Iterator[StepState]:
    """Every step; behind a stop nothing is done by the plan alone."""
    is_held_up = False
    for step in JobStep:
        found = job.step(step)
        if is_held_up and found.state is State.DONE and not found.by_hand:
            found = replace(found, state=State.OPEN)
        is_held_up = is_held_up or found.state is State.STOP
        yield found


class _Job:
    """Everything that the steps of a job follow from."""

    def __init__(self, plan: Plan, beside: BesidePlan) -> None:
        self.plan, self.beside = plan, beside
        self.frames: Sequence[FramePlan] = tuple(plan.frames.values())
        self.way = plan.project.way
        self.stops = _first_of_each(_stops(self.frames, beside.obstacles))
        self.assumed = tuple(_assumed(self.frames))

    def step(self, step: JobStep) -> StepState:
        """One step by itself."""
        if step in self.way.done:
            return self._state(step, State.DONE, by_hand=True)
        if step in self.way.left_out and step in LEFT_OUT:
            return self._state(step, State.NOT_NEEDED, by_hand=True)
        if step is JobStep.CUT and self._is_cut:
            return self._state(step, State.DONE, by_hand=True)
        if stop := self.stops.get(step):
            return StepState(step=step, state=State.STOP, says=stop.sentence, lead=stop.lead)
        if first := next((one for one in self.assumed if one.step is step), None):
            return StepState(step=step, state=State.CHECK, says=self._counted(step), lead=first.lead)
        return self._state(step, self._derived(step))

    def _state(self, step: JobStep, state: State, *, by_hand: bool = False) -> StepState:
        return StepState(step=step, state=state, says=self._says(step), lead=self._lead(step), by_hand=by_hand)

    def _says(self, step: JobStep) -> str:
        """What tells of a step; nothing where that cannot be worked out."""
        try:
            return SAYS[step](self.frames) if step in SAYS else self._said_beside(step)
        except FrameCalcError:
            return ""

    def _said_beside(self, step: JobStep) -> str:
        beside = self.beside
        said = {
            JobStep.SHOW: self._changed or beside.approved or beside.shown,
            JobStep.PRICE: beside.price,
            JobStep.STOCK: beside.sticks.says if any(map(_takes_stock, self.frames)) else "Ordered cut to size",
            JobStep.SHEETS: beside.sheets.says,
        }
        return said.get(step, "")

    def _derived(self, step: JobStep) -> State:
        """What the plan and what is known beside it say of a step."""
        beside, before_cut = self.beside, (State.NOT_NEEDED if self._is_cut else State.OPEN)
        if step in (JobStep.MEASURE, JobStep.SET_OUT, JobStep.PACKAGE, JobStep.JOINT):
            return State.DONE
        if step is JobStep.SHOW:
            return State.CHECK if self._changed else State.DONE if beside.approved else State.OPEN
        if step is JobStep.PRICE:
            return State.DONE if beside.is_priced else State.OPEN
        if step is JobStep.STOCK:
            return State.DONE if self._is_cut else _searched(beside.sticks)
        if step is JobStep.SHEETS:
            return State.NOT_NEEDED if not beside.sheets.groups else _searched(beside.sheets)
        if step in self._done_elsewhere:
            return State.NOT_NEEDED
        if step is JobStep.TEST_CUT:
            return State.DONE if _is_tested(self.frames) else before_cut
        if step is JobStep.CUT:
            return State.CHECK if beside.was_cut else State.OPEN
        return State.OPEN

    @property
    def _is_cut(self) -> bool:
        return JobStep.CUT in self.way.done or 0 < self.beside.sticks.groups == self.beside.cut

    @property
    def _done_elsewhere(self) -> frozenset[JobStep]:
        """The steps that are no work of this shop: sticks come milled, or the supplier cuts or joins all frames."""
        found: set[JobStep] = set()
        if self.plan.project.timber.milled or all(frame.is_bought for frame in self.frames):
            found.add(JobStep.MILL)
        if not any(is_cut_here(frame.frame) for frame in self.frames):
            found |= {JobStep.TEST_CUT, JobStep.CUT}
        if all(frame.is_bought and frame.frame.section.moulding.sale.is_joined for frame in self.frames):
            found.add(JobStep.JOIN)
        return frozenset(found)

    @property
    def _changed(self) -> str:
        """What has changed since the client's yes."""
        found = (one.sentence for one in self.beside.obstacles if one.code == CLIENT_CHANGED)
        return next(found, "")

    def _counted(self, step: JobStep) -> str:
        count = sum(one.step is step for one in self.assumed)
        return "1 value assumed" if count == 1 else f"{count} values assumed"

    def _lead(self, step: JobStep) -> Lead:
        page, anchor = _LEADS[step]
        frame_id = self._first_in_question(step) if page in {*FindingPage, "look", HAND_OVER_PAGE} else ""
        if step is JobStep.CUT and self.beside.to_cut:
            return Lead(page="cut", anchor=self.beside.to_cut)
        return Lead(page=page, frame_id=frame_id, anchor=anchor)

    def _first_in_question(self, step: JobStep) -> str:
        """The first frame at which a step wants something, else the first one."""
        untested = (one for one in self.frames if step is JobStep.TEST_CUT and not _is_tested([one]))
        return next(untested, self.frames[0]).frame.id


def _takes_stock(frame: FramePlan) -> bool:
    return is_cut_here(frame.frame)


_LEADS: Mapping[JobStep, tuple[str, str]] = {
    JobStep.MEASURE: (FindingPage.SETTING_OUT, ""),
    JobStep.SET_OUT: (FindingPage.SETTING_OUT, ""),
    JobStep.PACKAGE: (FindingPage.PACKAGE, ""),
    JobStep.JOINT: (FindingPage.CORNERS, "says-joint"),
    JobStep.SHOW: (JobPage.CLIENT, ""),
    JobStep.PRICE: (JobPage.COSTS, ""),
    JobStep.STOCK: (JobPage.TIMBER, ""),
    JobStep.SHEETS: (JobPage.SHEETS, ""),
    JobStep.MILL: (JobPage.BENCH, ""),
    JobStep.TEST_CUT: (FindingPage.CORNERS, "says-tests"),
    JobStep.CUT: (JobPage.BENCH, ""),
    JobStep.JOIN: (JobPage.BENCH, ""),
    JobStep.FINISH: ("look", ""),
    JobStep.FIT: (FindingPage.PACKAGE, "says-steps"),
    JobStep.HANG: (FindingPage.WALL, "says-hangers"),
    JobStep.HAND_OVER: (HAND_OVER_PAGE, "says-packing"),
}
"""The page of each step, and the place on it."""

_STEP_OF_GROUP: Mapping[tuple[str, str], JobStep] = {
    (FindingPage.CORNERS, "parts"): JobStep.JOIN,
    (FindingPage.CORNERS, "clamps"): JobStep.JOIN,
    (FindingPage.PACKAGE, "layers"): JobStep.HANG,
    (FindingPage.PACKAGE, "held"): JobStep.FIT,
}
_STEP_OF_PAGE: Mapping[str, JobStep] = {
    FindingPage.CORNERS: JobStep.JOINT,
    FindingPage.PACKAGE: JobStep.PACKAGE,
    FindingPage.WALL: JobStep.HANG,
    JobPage.TIMBER: JobStep.STOCK,
    JobPage.SHEETS: JobStep.SHEETS,
    JobPage.COSTS: JobStep.PRICE,
    JobPage.CLIENT: JobStep.SHOW,
    JobPage.BENCH: JobStep.JOIN,
}
_STEP_OF_FIELD = (
    ("artwork.", JobStep.MEASURE),
    ("package.", JobStep.PACKAGE),
    ("fitting.", JobStep.PACKAGE),
    ("corner.", JobStep.JOINT),
)
"""What is found, and what is assumed, belongs to the first of these; all else is set out."""


def _stops(frames: Sequence[FramePlan], obstacles: Iterable[Obstacle]) -> Iterator[Hint]:
    """Whatever stops the work, at its step."""
    for plan in frames:
        for concern in plan.concerns:
            if concern.severity is Severity.STOP:
                field, page = plan.field_of(concern), concern.page
                step = _STEP_OF_GROUP.get((page, concern.group)) or _STEP_OF_PAGE.get(page) or _step_of(field)
                anchor = concern.group if page is FindingPage.SETTING_OUT else f"says-{concern.group}"
                yield Hint(
                    step=step,
                    sentence=plan.sentence_of(concern),
                    lead=Lead(page=page, frame_id=plan.frame.id, field=field, anchor=anchor),
                )
    for one in obstacles:
        if one.severity is Severity.STOP:
            frame_id = frames[0].frame.id if one.page is JobPage.WALL else ""
            lead = Lead(page=one.page, frame_id=frame_id, field=one.field, anchor=one.anchor)
            yield Hint(step=_STEP_OF_PAGE[one.page], sentence=one.sentence, lead=lead)


def _assumed(frames: Iterable[FramePlan]) -> Iterator[Hint]:
    """Every value that counts and that nobody has confirmed, at its step; one of the whole job counts once."""
    seen: set[str] = set()
    for plan in frames:
        for path in plan.unconfirmed:
            if path not in seen:
                seen.add(path)
                lead = Lead(page=FindingPage.SETTING_OUT, frame_id=plan.frame.id, field=path)
                yield Hint(step=_step_of(path), sentence="", lead=lead)


def _step_of(path: str) -> JobStep:
    field = path.split(".", 2)[2] if path.startswith("frames.") else path
    return next((step for start, step in _STEP_OF_FIELD if field.startswith(start)), JobStep.SET_OUT)


def _first_of_each(hints: Iterable[Hint]) -> dict[JobStep, Hint]:
    found: dict[JobStep, Hint] = {}
    for hint in hints:
        found.setdefault(hint.step, hint)
    return found


def _searched(found: Searched) -> State:
    if not found.is_whole:
        return State.OPEN
    return State.CHECK if found.estimates else State.DONE


def _is_tested(frames: Iterable[FramePlan]) -> bool:
    """Whether a joint was tried for every frame at the present setting of its saw."""
    try:
        return all(plan.corners.saw.current_deg for plan in frames)
    except FrameCalcError:
        return False
