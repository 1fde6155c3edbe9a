"""The search for the sheet layouts of a project: asked for as jobs, one for each material, and called off."""

from functools import partial
from time import monotonic

from framecalc.plan import Plan
from framecalc.search.watch import start_watch
from framecalc.sheets.answer import SheetLayout
from framecalc.sheets.plan import lay_out_sheets
from framecalc.sheets.problem import SheetProblem
from webapp.jobs.running import TIME_LIMIT_S, Job, Jobs

PAGE = "sheets"


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
