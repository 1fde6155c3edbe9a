"""What the costs page shows beside its fields: all of it as strings."""

from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from functools import partial

from framecalc.errors import FrameCalcError
from framecalc.findings import Severity
from framecalc.money import money_text, number_text, tag_text
from framecalc.plan.price.items import missing_items
from framecalc.plan.price.price import JobPrice
from framecalc.price.costs import CostLine, days_old, markup_of
from framecalc.price.quantities import HOURS, Measure
from framecalc.project import Item, Quote
from framecalc.records import Record, cached_property, replace
from framecalc.words import day_said
from webapp.issue.issuing import price_rows
from webapp.issue.offer import PriceRow
from webapp.live.desk import Desk, ProjectAtRevision, new_id
from webapp.live.shown import LiveShown
from webapp.live.slots import FieldView, FieldViews
from webapp.live.typed.answer import Answer
from webapp.live.work.hours import past_by_step
from webapp.live.work.price_list import PriceNote, cost_prices, offers_of
from webapp.pages.costs.actions import NEW_ITEM, today


class LineView(Record):
    """One item as worked out: its amount, the sum behind it, the basis of its estimate, the age of its price.

    `listed` is what the price list says, where the price is from there or another; `past` what hours took in past jobs.
    """

    item_id: str
    amount: str
    sum: str
    estimate: str
    age: str
    is_old: bool
    listed: str
    past: str


class MouldingView(Record):
    """One bought moulding: what it comes to, the sum behind it, and what that is estimated from or counted in.

    `listed` as in LineView.
    """

    name: str
    amount: str
    sum: str
    estimate: str
    listed: str


class SummaryRow(Record):
    """One line of a summary."""

    label: str
    text: str
    is_total: bool = False


class FindingWords(Record):
    """A finding in words."""

    severity: Severity
    sentence: str
    why: str
    source: str = ""


class CostsShown(LiveShown, dict=True):
    """What the costs page shows; `job` is the priced job, or `refused` says why there is none."""

    quote: Quote
    job: JobPrice | None
    refused: str
    missing: int
    offers: tuple[PriceNote, ...]
    past: Mapping[str, str]
    shop_damage: str

    @cached_property
    def fields(self) -> Mapping[str, FieldView]:
        """The fields of the page."""
        return _views(self.answer, self.quote, self.job)

    @property
    def items(self) -> tuple[Item, ...]:
        """The items of the quote."""
        return self.quote.items

    @property
    def open_items(self) -> frozenset[str]:
        """The items that are shown open: new, refused, or with a quantity by hand."""
        refused = {path.split(".")[2] for path, view in self.fields.items() if view.slot.error and ".items." in path}
        changed = {one.id for one in self.items if one.quantity is not None or one.reason or one.name == NEW_ITEM}
        return frozenset(refused | changed)

    @property
    def terms_open(self) -> bool:
        """Whether the way from cost to price is shown open: something in it is refused."""
        return any(view.slot.error for path, view in self.fields.items() if path.startswith("quote.terms."))

    @property
    def terms(self) -> str:
        """The way from cost to price in one line."""
        terms, number = self.quote.terms, number_text
        tax = f"{terms.tax_name} {number(terms.tax)}%" if terms.tax else "no tax"
        return f"Waste {number(terms.waste)}%, margin {number(terms.margin)}%, {tax}"

    @property
    def lines(self) -> Mapping[str, LineView]:
        """The line of each item, by its id."""
        return {view.item_id: view for view in _lines(self.job, self.quote, self.past)} if self.job else {}

    @property
    def mouldings(self) -> tuple[MouldingView, ...]:
        """The bought mouldings, with what they come to."""
        return tuple(_mouldings(self.job)) if self.job else ()

    @property
    def uncounted(self) -> tuple[str, ...]:
        """Why a bought moulding cannot be counted."""
        problems = self.job.problems if self.job else {}
        return tuple(sentence for path, sentence in problems.items() if path.startswith("frames."))

    @property
    def costs(self) -> tuple[SummaryRow, ...]:
        """The summary of the cost."""
        return tuple(_cost_rows(self.job)) if self.job else ()

    @property
    def prices(self) -> tuple[PriceRow, ...]:
        """The summary of the price."""
        return tuple(price_rows(self.job)) if self.job else ()

    @property
    def margin(self) -> str:
        """How the price follows from the cost."""
        return _margin(self.job) if self.job else ""

    @property
    def is_estimate(self) -> bool:
        """Whether wood or sheets are still only estimated."""
        return self.job is not None and self.job.is_estimate

    @property
    def findings(self) -> tuple[FindingWords, ...]:
        """The findings in words."""
        return tuple(_said(self.job)) if self.job else ()

    @property
    def kept(self) -> bool:
        """Whether the page keeps its earlier figures, because there are no new ones."""
        return self.job is None


def costs_shown(desk: Desk, opened: ProjectAtRevision, answer: Answer) -> CostsShown:
    """What the costs page shows."""
    quote = answer.project.quote or Quote()
    job, refused = _priced(desk, answer)
    missing = len(missing_items(answer.project, quote, new_id=new_id))
    offers = offers_of(desk, answer.project, cost_prices(answer.project))
    return CostsShown(
        answer=answer,
        quote=quote,
        job=job,
        refused=refused,
        missing=missing,
        offers=offers,
        past=past_by_step(desk, answer.whole, but=opened.project_id),
        shop_damage=desk.store.shop.damage(),
    )


def _priced(desk: Desk, answer: Answer) -> tuple[JobPrice | None, str]:
    try:
        return desk.price(answer.project_id, answer.whole), ""
    except FrameCalcError as error:
        return None, error.sentence


def _views(answer: Answer, quote: Quote, job: JobPrice | None) -> dict[str, FieldView]:
    """The fields of the page; an item that cannot be counted says why under the field at fault."""
    problems, unused = (job.problems if job else {}), set(_unused(quote))
    views = {path: view for path, view in FieldViews(answer).items() if path not in unused}
    for path in problems.keys() & views.keys():
        slot = views[path].slot
        views[path] = replace(views[path], slot=replace(slot, error=slot.error or problems[path]))
    return views


def _unused(quote: Quote) -> Iterator[str]:
    """Fields of an item that its measure does not use."""
    for item in quote.items:
        for name, measures in _ASKED_BY.items():
            if item.measure not in measures:
                yield f"quote.items.{item.id}.{name}"


_ASKED_BY = {
    "stick_length": {Measure.STICK},
    "sheet_across": {Measure.SHEET},
    "sheet_up": {Measure.SHEET},
    "layer": {Measure.AREA_M2, Measure.AREA_FT2, Measure.SHEET},
}


def _lines(job: JobPrice, quote: Quote, past: Mapping[str, str]) -> Iterator[LineView]:
    for item, line in zip(quote.items, job.of_items, strict=True):
        days = days_old(line, today=today())
        yield LineView(
            item_id=item.id,
            amount=_amount(job, line),
            sum=_sum(job, line),
            estimate=_basis(line),
            age=_age(line, days),
            is_old=days is not None and days > quote.terms.stale_after,
            listed=_listed(job, line),
            past=past.get(item.name, "") if item.measure in HOURS else "",
        )


def _mouldings(job: JobPrice) -> Iterator[MouldingView]:
    for line in job.mouldings:
        yield MouldingView(
            name=line.name,
            amount=_amount(job, line),
            sum=_sum(job, line),
            estimate=_basis(line),
            listed=_listed(job, line),
        )


def _basis(line: CostLine) -> str:
    """The source of a quantity that is neither typed nor obvious."""
    if line.estimate:
        return f"Estimate, from {line.estimate}."
    return f"Counted in {line.counted_by}." if line.counted_by else ""


def _amount(job: JobPrice, line: CostLine) -> str:
    if line.price is None:
        return "no price yet"
    return money_text(line.amount(job.terms.currency), currency=job.terms.currency)


def _sum(job: JobPrice, line: CostLine) -> str:
    price = "?" if line.price is None else _price(job, line.price)
    by_hand = " by hand" if line.is_changed else ""
    return f"{number_text(line.quantity)} {line.unit}{by_hand} × {price}"


def _price(job: JobPrice, price: Decimal) -> str:
    """A unit price, which may be finer than a coin."""
    exact = money_text(price, currency=job.terms.currency)
    return exact if price == price.quantize(job.terms.currency.coin) else tag_text(price, currency=job.terms.currency)


def _listed(job: JobPrice, line: CostLine) -> str:
    """What the price list says, where the price is from there or another."""
    if line.is_listed:
        return "From the price list."
    if not line.differs or line.listed is None:
        return ""
    on = f", {day_said(line.listed_on, job.project.shop.words)}" if line.listed_on else ""
    return f"{_price(job, line.listed)} in the price list{on}."


def _age(line: CostLine, days: int | None) -> str:
    if line.price is None or not line.is_bought:
        return ""
    if days is None:
        return "No day is given for this price."
    return "Asked today." if days == 0 else f"Asked {days} day{'s' if days != 1 else ''} ago."


def _cost_rows(job: JobPrice) -> Iterator[SummaryRow]:
    money, cost, terms = partial(money_text, currency=job.terms.currency), job.cost, job.quote.terms
    for group, amount in cost.groups:
        if amount:
            yield SummaryRow(label=group.capitalize(), text=money(amount))
    if cost.waste:
        yield SummaryRow(label=f"Waste, {number_text(terms.waste)}% of lengths and areas", text=money(cost.waste))
    if cost.overhead:
        yield SummaryRow(label=f"Overhead, {number_text(terms.overhead)}%", text=money(cost.overhead))
    yield SummaryRow(label="Cost of the job", text=money(cost.whole), is_total=True)


def _margin(job: JobPrice) -> str:
    margin, asked = job.quote.terms.margin, job.offer
    same = number_text(markup_of(margin).quantize(Decimal("0.1")))
    left, on_top = number_text(asked.margin_pct), number_text(asked.markup_pct)
    meant = f"Price = cost / (1 − margin): {number_text(margin)}% margin is {same}% mark-up."
    return f"{meant} After rounding the price leaves {left}% margin, {on_top}% mark-up."


def _said(job: JobPrice) -> Iterable[FindingWords]:
    order = list(Severity)
    found = sorted(job.findings(today=today()), key=lambda finding: order.index(finding.severity))
    return [
        FindingWords(
            severity=finding.severity,
            sentence=finding.sentence.format_map({}),
            why=finding.why,
        )
        for finding in found
    ]
