"""The cutting plans of a project as jobs: one group after another, each with what the plans before it have left."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from time import monotonic

from framecalc.errors import FrameCalcError
from framecalc.plan import Plan
from framecalc.plan.timber.timber import TimberGroup
from framecalc.search.watch import SoFar, start_watch
from framecalc.timber.sticks.answer import StickPlan
from framecalc.timber.sticks.plan import plan_sticks
from framecalc.timber.sticks.problem import StickProblem
from framecalc.timber.sticks.refusals import refuse_impossible
from webapp.jobs.running import Job, Jobs
from webapp.jobs.turns import Search

PAGE = "timber"
TIME_LIMIT_S = 20.0
"""How long a plan is searched for before the best one found is shown with what it could still be beaten by."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupWork:
    """A group with what is left of the stock for it, and how far its plan is.

    `waits`: a group before it, which may take the same stock, has no plan yet. `refusal`: why it can have none.
    """

    group: TimberGroup
    waits: bool = False
    refusal: FrameCalcError | None = None
    job: Job | None = None

    @property
    def plan(self) -> StickPlan | None:
        """Its cutting plan, when there is one."""
        plan: StickPlan | None = self.job.answer if self.job else None
        return plan

    @property
    def so_far(self) -> SoFar | None:
        """What the search knows while it goes on."""
        so_far: SoFar | None = self.job.so_far if self.job else None
        return so_far

    @property
    def is_going(self) -> bool:
        """Whether there is something to wait for."""
        return self.job is not None and self.job.is_going

    @property
    def can_start(self) -> bool:
        """Whether a plan can be asked for: nothing before it is open, and it was not refused at sight."""
        return not self.waits and (self.refusal is None or self.job is not None)

    @property
    def is_open(self) -> bool:
        """Whether it has neither a plan nor a reason why there is none."""
        return self.plan is None and self.refusal is None


def work_of(jobs: Jobs, plan: Plan) -> tuple[GroupWork, ...]:
    """How far the plans of all groups are, in the order in which they are worked out.

    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    works: list[GroupWork] = []
    for group in plan.timber.groups:
        before = [work for work in works if group.shares_stock_with(work.group)]
        waits = any(work.is_open for work in before)
        works.append(GroupWork(group=group, waits=True) if waits else _work(jobs, group, before))
    return tuple(works)


def start_jobs(jobs: Jobs, plan: Plan, *, project: str = "") -> None:
    """Ask for the plans that can be worked out now; each that ends asks for those that had to wait for it.

    What the page has asked for earlier, and is not wanted now, is called off.

    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    keys = [work.group.key for work in work_of(jobs, plan)]
    _start(jobs, plan, jobs.search(project, page=PAGE, keys=keys), again=True)


def stop_jobs(jobs: Jobs, plan: Plan, *, project: str = "") -> None:
    """Call the searches of a project off; the best plan of each is kept, and the others get theirs without searching.

    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    jobs.stop_search(project, page=PAGE)
    for work in work_of(jobs, plan):
        if work.is_going:
            jobs.stop(work.group.key)


def _start(jobs: Jobs, plan: Plan, search: Search, *, again: bool) -> None:
    """Start what can be started; anew what was stopped, if it was asked for `again`."""
    then = partial(_start, jobs, plan, search, again=False)
    for work in work_of(jobs, plan):
        if work.can_start and (again or work.job is None):
            work_out = partial(_search, work.group.problem)
            jobs.start(work.group.key, StickPlan, work_out, then=then, search=search)


def _work(jobs: Jobs, group: TimberGroup, before: list[GroupWork]) -> GroupWork:
    left = group.after(_plans(before))
    if left.refusal:
        return GroupWork(group=left, refusal=left.refusal)
    try:
        refuse_impossible(left.problem)
    except FrameCalcError as refusal:
        return GroupWork(group=left, refusal=refusal)
    job = jobs.find(left.key, StickPlan)
    return GroupWork(group=left, job=job, refusal=job.refusal if job else None)


def _plans(works: list[GroupWork]) -> Iterator[StickPlan]:
    for work in works:
        if work.plan is not None:
            yield work.plan


def _search(problem: StickProblem, job: Job) -> StickPlan:
    watch = start_watch(TIME_LIMIT_S, clock=monotonic, cancelled=job, tell=job.report)
    return plan_sticks(problem, watch=watch)
