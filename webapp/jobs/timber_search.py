"""The search for the cutting plans of a project: asked for as jobs, one group after another, and called off."""

from functools import partial
from time import monotonic

from framecalc.plan import Plan
from framecalc.search.watch import start_watch
from framecalc.timber.common.plan import CommonPlan, plan_common_boards
from framecalc.timber.common.problem import CommonProblem
from framecalc.timber.sticks.answer import StickPlan
from framecalc.timber.sticks.plan import plan_sticks
from framecalc.timber.sticks.problem import StickProblem
from webapp.jobs.running import TIME_LIMIT_S, Job, Jobs
from webapp.jobs.timber import work_of
from webapp.jobs.turns import Search

PAGE = "timber"


def start_jobs(jobs: Jobs, plan: Plan, *, project: str = "") -> None:
    """Ask for the plans that can be worked out now; each that ends asks for those that had to wait for it.

    What the page has asked for earlier, and is not wanted now, is called off.

    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    keys = [*(one.key for one in plan.timber.sharing), *(work.group.key for work in work_of(jobs, plan))]
    _start(jobs, plan, jobs.search(project, page=PAGE, keys=keys), again=True)


def stop_jobs(jobs: Jobs, plan: Plan, *, project: str = "") -> None:
    """Call the searches of a project off; the best plan of each is kept, and the others get theirs without searching.

    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    jobs.stop_search(project, page=PAGE)
    for sharing in plan.timber.sharing:
        jobs.stop(sharing.key)
    for work in work_of(jobs, plan):
        if work.is_going:
            jobs.stop(work.group.key)


def _start(jobs: Jobs, plan: Plan, search: Search, *, again: bool) -> None:
    """Start what can be started; anew what was stopped, if it was asked for `again`."""
    then = partial(_start, jobs, plan, search, again=False)
    for sharing in plan.timber.sharing:
        if again or jobs.find(sharing.key, CommonPlan) is None:
            work_out = partial(_search_common, sharing.problem)
            jobs.start(sharing.key, CommonPlan, work_out, then=then, search=search)
    for work in work_of(jobs, plan):
        if work.can_start and (again or work.job is None):
            plan_it = partial(_search, work.group.searched)
            jobs.start(work.group.key, StickPlan, plan_it, then=then, search=search)


def _search(problem: StickProblem, job: Job) -> StickPlan:
    watch = start_watch(TIME_LIMIT_S, clock=monotonic, cancelled=job, tell=job.report)
    return plan_sticks(problem, watch=watch)


def _search_common(problem: CommonProblem, job: Job) -> CommonPlan:
    watch = start_watch(TIME_LIMIT_S, clock=monotonic, cancelled=job, tell=job.report)
    return plan_common_boards(problem, watch=watch)
