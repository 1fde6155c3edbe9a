"""What is known of a job beside its plan, for the way through it: searches, cut records, its price, its client's yes.

Nothing is searched for here, and what cannot be read says nothing.
"""

from collections.abc import Collection
from contextlib import suppress

from framecalc.errors import FrameCalcError
from framecalc.money import Currency, money_text, tag_text
from framecalc.plan import Plan
from framecalc.plan.job_light import Obstacle
from framecalc.plan.price.price import currency_of
from framecalc.plan.way import BesidePlan, Searched
from framecalc.records import cached_property, replace
from framecalc.timber.sticks.answer import StickPlan
from framecalc.words import Words, worded
from webapp.data.errors import StoreError
from webapp.data.rack_file import CutEntry
from webapp.issue.issued import LinkTimes, Shelf, Yes
from webapp.issue.job_facts import JobFacts
from webapp.issue.job_light import Lights
from webapp.jobs.sheets import SheetWork
from webapp.jobs.timber import GroupWork
from webapp.live.answers import plural
from webapp.live.days import day_in
from webapp.live.desk import Desk, Known


class _Known(JobFacts, dict=True):
    """The facts of a job, and what light and way make of them."""

    lights: Lights

    @cached_property
    def obstacles(self) -> tuple[Obstacle, ...]:
        """Everything that the light says of the whole job."""
        return self.lights.of(self)

    @cached_property
    def along(self) -> BesidePlan:
        """Everything that the way through the job follows from."""
        found = BesidePlan(obstacles=self.obstacles)
        for learn in (_with_timber, _with_sheets, _with_price, _with_client):
            with suppress(FrameCalcError, StoreError):
                found = learn(found, self)
        return found


def known_beside(shelf: Shelf, lights: Lights, desk: Desk, project_id: str, plan: Plan) -> Known:
    """Everything that light and way say of a job beside its plan, each fact found once."""
    return _Known(shelf=shelf, lights=lights, desk=desk, project_id=project_id, plan=plan)


def _with_timber(found: BesidePlan, facts: JobFacts) -> BesidePlan:
    """How far the cutting plans are, and which of them are cut."""
    works, currency = facts.timber, currency_of(facts.plan.project)
    cuts: tuple[CutEntry, ...] = ()
    with suppress(StoreError):
        cuts = facts.desk.rack.read().cuts_of(facts.project_id)
    keys = {cut.problem for cut in cuts}
    to_cut = (work.group.key for work in works if work.plan and not _is_cut(work, work.plan, keys))
    return replace(
        found,
        sticks=_sticks(works, currency),
        cut=sum(work.group.key in keys for work in works),
        was_cut=bool(cuts),
        to_cut=next(to_cut, ""),
    )


def _is_cut(work: GroupWork, plan: StickPlan, keys: Collection[str]) -> bool:
    """Whether a plan is marked as cut, or all sticks of it were under plans before."""
    return work.group.key in keys or not work.group.still_here(plan).sticks


def _sticks(works: tuple[GroupWork, ...], currency: Currency) -> Searched:
    planned = [work for work in works if work.plan]
    is_whole = len(planned) == len(works)
    return Searched(
        groups=len(works),
        worked_out=len(planned),
        estimates=sum(work.group.is_estimate for work in works),
        says=_bought(works, currency) if is_whole else _so_far(len(planned), len(works), "plan", "planned"),
    )


def _so_far(done: int, of: int, what: str, word: str) -> str:
    return f"{done} of {of} {word}" if done else f"No {what} yet"


def _bought(works: tuple[GroupWork, ...], currency: Currency) -> str:
    """What is to be bought for all plans together."""
    sticks = [(stick, work.group) for work in works if work.plan for stick in work.plan.sticks]
    bought = [(stick, group.offer_of(stick)) for stick, group in sticks if stick.is_to_buy]
    if not bought:
        return f"All on hand: {plural(len(sticks), 'length')}"
    boards = sum(1 for _, offer in bought if offer and offer.board)
    counts = ((len(bought) - boards, "stick"), (boards, "board"))
    said = " and ".join(plural(count, what) for count, what in counts if count)
    if any(work.group.is_estimate for work in works):
        return f"Estimate: {said}. Enter your stock."
    money = sum(stick.stock.price for stick, _ in bought)
    return f"Buy {said}, {tag_text(money, currency=currency)}" if money else f"Buy {said}"


def _with_sheets(found: BesidePlan, facts: JobFacts) -> BesidePlan:
    return replace(found, sheets=_sheets(facts.sheets))


def _sheets(works: tuple[SheetWork, ...]) -> Searched:
    laid_out = [work.layout for work in works if work.layout]
    is_estimate = any(work.group.is_estimate for work in works)
    count = sum(layout.bought for layout in laid_out)
    bought = plural(count, "sheet")
    at_hand = f"Buy {bought}" if count else "All on hand" if works else "Nothing to cut"
    says = f"Estimate: {bought}. Enter your sheets." if is_estimate else at_hand
    return Searched(
        groups=len(works),
        worked_out=len(laid_out),
        estimates=sum(work.group.is_estimate for work in works),
        says=says if len(laid_out) == len(works) else _so_far(len(laid_out), len(works), "layout", "laid out"),
    )


def _with_price(found: BesidePlan, facts: JobFacts) -> BesidePlan:
    job = facts.price
    if not job.lines:
        return replace(found, price="No price yet")
    unpriced = sum(line.price is None and bool(line.quantity) for line in job.lines)
    if unpriced:
        return replace(found, price=f"{plural(unpriced, 'item')} without a price")
    price = money_text(job.offer.total, currency=job.terms.currency)
    return replace(found, price=price, is_priced=job.is_complete)


def _with_client(found: BesidePlan, facts: JobFacts) -> BesidePlan:
    """When the client said yes, else when they were last shown it."""
    shelf, words = facts.shelf, facts.plan.project.shop.words
    yes, link = shelf.yes_of(facts.project_id), shelf.shown_of(facts.project_id)
    return replace(
        found,
        approved=_approved(yes, words) if yes else "",
        shown=_shown(link, words) if link else "Not shown yet",
    )


def _approved(yes: Yes, words: Words) -> str:
    on = day_in(yes.when, words)
    return worded("Approved {day}: {choice}", day=on, choice=yes.choice) if yes.choice else f"Approved {on}"


def _shown(link: LinkTimes, words: Words) -> str:
    """How far a link has come that nobody has said yes to."""
    shown = f"Shown {day_in(link.made, words)}"
    if link.asked:
        return f"{shown}, change asked for {day_in(link.asked.when, words)}"
    return f"{shown}, opened {day_in(link.opened, words)}" if link.opened else f"{shown}, no answer yet"
