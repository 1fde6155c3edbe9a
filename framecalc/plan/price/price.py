"""The price of a job: its items measured in the plans of its frames, the sum, and the offer.

An item that cannot be counted (a member longer than its stick) is a *problem* beside its field; it counts as nothing
until it is put right, and the offer says so.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import date
from decimal import Decimal
from itertools import chain

from framecalc.errors import OutOfRange
from framecalc.findings import Finding
from framecalc.money import Currency
from framecalc.plan.frame import FramePlan
from framecalc.plan.inputs import is_bought
from framecalc.plan.price.counts import THE_ROLL, LaidOut
from framecalc.plan.price.job_counts import CountedItem
from framecalc.plan.price.listed import beside_list, listed
from framecalc.plan.price.mouldings import USUAL_NAME, moulding_lines
from framecalc.plan.whole import Plan
from framecalc.price.costs import (
    Cost,
    CostLine,
    PriceOffer,
    Terms,
    cost_findings,
    cost_of,
    offer,
    offer_findings,
)
from framecalc.price.counts import COUNTED_WOOD
from framecalc.price.quantities import HOURS, NET, UNIT_WORDS, JobQuantity
from framecalc.project import Item, Project, Quote
from framecalc.project import Terms as TypedTerms
from framecalc.records import Record, cached_property, replace
from framecalc.units import Comma
from framecalc.words import Words

USUAL_MARKS = {Words.US: "$", Words.UK: "£"}
"""The sign of money where nobody has chosen one."""

Find = Callable[[Plan], LaidOut]
"""Finds what is finished of a plan."""


def nothing_laid_out(plan: Plan) -> LaidOut:
    """No cutting plan and no layout yet."""
    return LaidOut()


class JobPrice(Record, dict=True):
    """The cost and the price of a job, line by line; bought mouldings have their price on Setting-out."""

    project: Project
    quote: Quote
    plans: tuple[FramePlan, ...]
    of_items: tuple[CostLine, ...]
    mouldings: tuple[CostLine, ...]
    problems: Mapping[str, str]

    @property
    def lines(self) -> tuple[CostLine, ...]:
        """Every line: one for each item of the quote, then the bought mouldings."""
        return (*self.of_items, *self.mouldings)

    @cached_property
    def terms(self) -> Terms:
        """How the cost becomes a price."""
        return terms_of(self.quote.terms, currency=currency_of(self.project, terms=self.quote.terms))

    @cached_property
    def cost(self) -> Cost:
        """The cost of the job."""
        return cost_of(self.lines, batches=len(self.plans), terms=self.terms)

    @cached_property
    def offer(self) -> PriceOffer:
        """The price of the job."""
        return offer(self.cost, counts=[plan.frame.count for plan in self.plans], terms=self.terms)

    @property
    def is_complete(self) -> bool:
        """Whether every item that is needed has been counted and has a price."""
        return (
            bool(self.lines)
            and not self.problems
            and all(line.price is not None or not line.quantity for line in self.lines)
        )

    @property
    def is_estimate(self) -> bool:
        """Whether any quantity is only estimated."""
        return any(line.estimate for line in self.lines)

    def findings(self, *, today: date) -> Iterator[Finding]:
        """The findings that make an offer premature.

        Args:
            today: the day of the offer; a plan has no clock.
        """
        for finding in cost_findings(self.lines, today=today, stale_after_days=self.quote.terms.stale_after):
            yield replace(finding, argument=self._first_unpriced) if finding.code == "costs.unpriced" else finding
        yield from offer_findings(self.offer, cost=self.cost, terms=self.terms)

    @property
    def _first_unpriced(self) -> str:
        """The path of the first price that is wanted and not there: of an item, else of a bought moulding."""
        return next(chain(self._unpriced_items, self._unpriced_mouldings))

    @property
    def _unpriced_items(self) -> Iterator[str]:
        for item, line in zip(self.quote.items, self.of_items, strict=True):
            if line.price is None and line.quantity:
                yield f"quote.items.{item.id}.price"

    @property
    def _unpriced_mouldings(self) -> Iterator[str]:
        unpriced = {line.name for line in self.mouldings if line.price is None}
        for plan in self.plans:
            moulding = plan.frame.section.moulding
            if is_bought(plan.frame) and moulding.price is None and (moulding.name or USUAL_NAME) in unpriced:
                yield plan.path_of("section.moulding.price")


def price_job(
    project: Project,
    *,
    quote: Quote,
    find: Find = nothing_laid_out,
    plan: Plan | None = None,
    price_list: Sequence[Item] = (),
) -> JobPrice:
    """Measure the items of a quote in the plans of a project; a blank price is that of the price list.

    Args:
        quote: the project's own, or the shop's where it has none yet.
        find: finds the cutting plans and sheet layouts that are finished.
        plan: of the project, where there is one already.
        price_list: the shop's, in the money of the project.
    Raises:
        FrameCalcError: a frame cannot be computed; `field` is the path at fault.
    """
    whole = plan or Plan(project)
    plans = tuple(whole.frames.values())
    for one in plans:
        one.compute_all()
    laid_out = find(whole)
    counted = whole.job.counts.of(quote.items, laid_out=laid_out)
    of_items = tuple(
        _line(item, one.quantity, hour=quote.terms.hour, price_list=price_list)
        for item, one in zip(quote.items, counted, strict=True)
    )
    currency = currency_of(project, terms=quote.terms)
    mouldings, uncounted = moulding_lines(plans, laid_out=laid_out, currency=currency, price_list=price_list)
    job = JobPrice(
        project=project,
        quote=quote,
        plans=plans,
        of_items=of_items,
        mouldings=mouldings,
        problems=_problems(quote.items, counted) | uncounted,
    )
    _require_a_cost(job)
    return job


def _require_a_cost(job: JobPrice) -> None:
    if min(job.cost.batches) < 0:
        off = next(item for item in job.quote.items if item.takes_off)
        raise OutOfRange("More is taken off than the job costs.", field=f"quote.items.{off.id}.price")


def currency_of(project: Project, *, terms: TypedTerms | None = None) -> Currency:
    """How a project writes money: as its costs say, else its shop, else by its words.

    Args:
        terms: those of its costs, or of the shop where it has none of its own yet.
    """
    shop = project.shop
    typed = terms or (project.quote.terms if project.quote else None)
    written = typed or shop
    return Currency(
        mark=(typed.mark if typed else "") or shop.mark or USUAL_MARKS[shop.words],
        mark_follows=written.mark_follows,
        decimals=int(written.decimals),
        decimal_comma=shop.comma is Comma.DECIMAL,
    )


def terms_of(typed: TypedTerms, *, currency: Currency) -> Terms:
    """The terms as arguments of the topic."""
    return Terms(
        currency=currency,
        waste_pct=typed.waste,
        overhead_pct=typed.overhead,
        margin_pct=typed.margin,
        tax_pct=typed.tax,
        tax_is_inside=typed.tax_is_inside,
        deposit_pct=typed.deposit,
        price_step=typed.price_step,
        rounds_up=typed.rounds_up,
    )


def _problems(items: Iterable[Item], counted: Iterable[CountedItem]) -> dict[str, str]:
    """Why items cannot be counted, by the path of the field at fault."""
    found = ((item.id, one.problem) for item, one in zip(items, counted, strict=True))
    return {f"quote.items.{item_id}.{problem.field}": problem.says for item_id, problem in found if problem}


def _line(item: Item, quantity: JobQuantity, *, hour: Decimal | None, price_list: Sequence[Item]) -> CostLine:
    """One line: a typed quantity goes before what is worked out.

    Without a price of its own it has that of the price list, and work the hourly rate.
    """
    typed, entry = item.quantity is not None, listed(price_list, item.name, sold_by=item.sold_by)
    line = CostLine(
        name=item.name,
        group=item.group,
        quantity=item.quantity if item.quantity is not None else quantity.total,
        unit=UNIT_WORDS[item.measure],
        price=item.price,
        weights=quantity.weights,
        is_net=_is_net(item, quantity) and not typed,
        estimate="" if typed else quantity.estimate,
        counted_by="" if typed else quantity.counted_by,
        reason=item.reason,
        is_changed=typed,
        priced_on=item.priced_on,
    )
    line = beside_list(line, entry)
    line = replace(line, price=hour) if line.price is None and item.measure in HOURS else line
    return replace(line, price=-line.price, listed=None) if item.takes_off and line.price is not None else line


def _is_net(item: Item, quantity: JobQuantity) -> bool:
    """Whether waste is added: not for wood counted in a cutting plan, nor for a roll, which have it in them."""
    has_waste = quantity.counted_by == THE_ROLL or (quantity.counted_by and item.measure in COUNTED_WOOD)
    return item.measure in NET and not has_waste
