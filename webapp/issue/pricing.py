"""The price of a planned project by a quote, counted in the plans that are worked out by now."""

from collections.abc import Callable, Iterable
from contextlib import suppress
from functools import partial

from framecalc.errors import FrameCalcError
from framecalc.money import money_text
from framecalc.plan import Plan
from framecalc.plan.price.counts import LaidOut
from framecalc.plan.price.price import JobPrice, price_job
from framecalc.project import Quote
from framecalc.records import replace
from webapp.issue.offer import price_change
from webapp.jobs import sheets as sheets_jobs
from webapp.jobs import timber as timber_jobs
from webapp.jobs.running import Jobs
from webapp.jobs.sheets import SheetWork
from webapp.jobs.timber import GroupWork
from webapp.live.desk import Desk
from webapp.live.work.price_list import price_list_for


def price_of(desk: Desk, plan: Plan, quote: Quote) -> JobPrice:
    """The price of a planned project by a quote.

    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    entries = price_list_for(desk.shop(), plan.project)
    return price_job(plan.project, quote=quote, find=partial(laid_out, desk.jobs), plan=plan, price_list=entries)


def laid_out_of(wood: Callable[[], Iterable[GroupWork]], sheets: Callable[[], Iterable[SheetWork]]) -> LaidOut:
    """What is worked out by now; stock that nothing can be cut from leaves the price an estimate."""
    found = LaidOut()
    with suppress(FrameCalcError):
        found = LaidOut(wood=tuple((work.group, work.plan) for work in wood()))
        found = replace(found, sheets=tuple((work.group, work.layout) for work in sheets()))
    return found


def laid_out(jobs: Jobs, plan: Plan) -> LaidOut:
    """What is worked out by now in a data folder."""
    return laid_out_of(partial(timber_jobs.work_of, jobs, plan), partial(sheets_jobs.work_of, jobs, plan))


def price_changes(shown: str, *, before: JobPrice, after: JobPrice) -> tuple[str, ...]:
    """The total, where a client was shown one and an edit has changed it.

    What was issued is counted once more as the job is now, so that neither a cutting plan that was finished meanwhile
    nor the shop's own new rates look like a change of the frame.

    Args:
        shown: the total that they read; blank where they saw none.
    """
    now = total_of(after)
    is_changed = bool(shown) and shown != now and total_of(before) != now
    return (price_change(shown, now),) if is_changed else ()


def total_of(job: JobPrice) -> str:
    """The total as a client reads it."""
    return money_text(job.offer.total, currency=job.terms.currency) if job.is_complete else "not settled"
