"""The price of a project on its desk: its own quote or the shop's, counted in the plans that are worked out by now."""

from contextlib import suppress
from dataclasses import replace
from functools import partial

from framecalc.errors import FrameCalcError
from framecalc.plan import Plan
from framecalc.plan.price.counts import LaidOut
from framecalc.plan.price.price import JobPrice, price_job
from framecalc.project import Quote
from webapp.jobs import sheets as sheets_jobs
from webapp.jobs import timber as timber_jobs
from webapp.jobs.running import Jobs
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.price_list import price_list_for


def quote_of(desk: Desk, opened: ProjectAtRevision) -> Quote:
    """The quote of a project; the shop's own where the project has none yet."""
    return opened.project.quote or desk.shop().first_quote


def job_of(desk: Desk, opened: ProjectAtRevision) -> JobPrice:
    """The price of a project as it stands.

    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    return price_of(desk, opened.plan, quote_of(desk, opened))


def price_of(desk: Desk, plan: Plan, quote: Quote) -> JobPrice:
    """The price of a planned project by a quote.

    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    entries = price_list_for(desk.shop(), plan.project)
    return price_job(plan.project, quote=quote, find=partial(laid_out, desk.jobs), plan=plan, price_list=entries)


def laid_out(jobs: Jobs, plan: Plan) -> LaidOut:
    """What is worked out by now; stock that nothing can be cut from leaves the price an estimate."""
    found = LaidOut()
    with suppress(FrameCalcError):
        wood = tuple((work.group, work.plan) for work in timber_jobs.work_of(jobs, plan))
        found = LaidOut(wood=wood)
        found = replace(found, sheets=tuple((work.group, work.layout) for work in sheets_jobs.work_of(jobs, plan)))
    return found
