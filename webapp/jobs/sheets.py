"""The sheet layouts of a project as jobs, one for each material; each belongs to the hash of its problem."""

from functools import partial
from time import monotonic

from framecalc.errors import FrameCalcError
from framecalc.plan import Plan
from framecalc.plan.sheets.sheets import SheetGroup
from framecalc.records import Record
from framecalc.search.watch import start_watch
from framecalc.sheets.answer import SheetLayout
from framecalc.sheets.plan import lay_out_sheets
from framecalc.sheets.problem import SheetProblem
from webapp.jobs.running import TIME_LIMIT_S, Job, Jobs

PAGE = "sheets"


class SheetWork(Record):
    """One material and how far its layout is."""

    group: SheetGroup
    job: Job | None = None

    @property
    def is_going(self) -> bool:
        """Whether there is something to wait for."""
        return self.job is not None and self.job.is_going

    @property
    def layout(self) -> SheetLayout | None:
        """Its layout, when there is one and an independent look at it finds no fault."""
        job = self.job
        if job is None or job.answer is None:
            return None
        layout: SheetLayout = job.answer
        if job.looked_at is not layout:
            if self.group.faults(layout):
                return None
            job.looked_at = layout
        return layout

    @property
    def so_far(self) -> SheetLayout | None:
        """The best layout found by now, while the search goes on."""
        so_far: SheetLayout | None = self.job.so_far if self.job and self.is_going else None
        return so_far

    @property
    def refusal(self) -> FrameCalcError | None:
        """Why the search gave nothing."""
        return self.job.refusal if self.job else None


def work_of(jobs: Jobs, plan: Plan) -> tuple[SheetWork, ...]:
    """How far the layouts of all materials are.

    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    return tuple(
        SheetWork(group=group, job=jobs.find(group.key, SheetLayout) if group.key else None)
        for group in plan.sheets.groups
    )


def start_jobs(jobs: Jobs, plan: Plan, *, project: str = "") -> None:
    """Ask for the layout of every material that has a problem; anew for those that were stopped.

    What the page has asked for earlier, and is not wanted now, is called off.

    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    groups = [group for group in plan.sheets.groups if group.problem]
    search = jobs.search(project, page=PAGE, keys=[group.key for group in groups])
    for group in groups:
        if group.problem:
            jobs.start(group.key, SheetLayout, partial(_search, group.problem), search=search)


def stop_jobs(jobs: Jobs, plan: Plan, *, project: str = "") -> None:
    """Call every search of a project off; the best layout of each is kept.

    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    jobs.stop_search(project, page=PAGE)
    for group in plan.sheets.groups:
        if group.key:
            jobs.stop(group.key)


def _search(problem: SheetProblem, job: Job) -> SheetLayout:
    watch = start_watch(TIME_LIMIT_S, clock=monotonic, cancelled=job)
    return lay_out_sheets(problem, watch=watch, report=job.report)
