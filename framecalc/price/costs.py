"""The cost of a job and its price.

A *line* is one item to pay for: a quantity at a price. *Waste* is added to lines with a *net* quantity (a length of
stick, an area of glass); lines counted in whole sticks, sheets or pieces include it already. *Overhead* is the cost of
the shop while the job is made, as a part of materials and work. All of it together is the *cost*.

*Margin* is the part of the price that is not cost: price = cost / (1 − margin). *Mark-up* is the same money as a part
of the cost, and therefore a larger number: a margin of 40 % is a mark-up of 66.7 %.

A job makes *batches*: one kind of frame, so many times. What the batches share is shared out to the coin.
"""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from decimal import Decimal
from enum import StrEnum

from framecalc.errors import OutOfRange
from framecalc.findings import Finding, Severity
from framecalc.money import Currency, PriceStep, money_text, share_out, to_coin, to_price
from framecalc.records import Record
from framecalc.words import worded

HUNDRED, NOTHING = Decimal(100), Decimal(0)


class CostGroup(StrEnum):
    """What kind of thing is paid for, in the order of the list."""

    WOOD = "wood"
    SHEETS = "glass, boards and sheets"
    HARDWARE = "hardware"
    FINISH = "finish"
    WORK = "work"
    OTHER = "other"


class CostLine(Record):
    """One thing that is paid for. `weights` say how much of it each batch takes.

    `estimate` says from what the quantity is taken where nothing has been counted, `counted_by` what has counted it;
    `reason` why a person changed it. `listed` is what the shop's price list says; `is_listed`: `price` is that.
    """

    name: str
    group: CostGroup
    quantity: Decimal
    unit: str
    price: Decimal | None
    weights: tuple[Decimal, ...]
    is_net: bool = False
    estimate: str = ""
    counted_by: str = ""
    reason: str = ""
    is_changed: bool = False
    priced_on: date | None = None
    listed: Decimal | None = None
    listed_on: date | None = None
    is_listed: bool = False

    @property
    def differs(self) -> bool:
        """Whether its price is another than that of the price list."""
        return self.listed is not None and self.price is not None and self.price != self.listed

    @property
    def is_bought(self) -> bool:
        """Whether its price is somebody else's, which grows old; the shop's own hours have a rate."""
        return self.group is not CostGroup.WORK

    @property
    def takes_off(self) -> bool:
        """Whether it is no thing to pay for, and makes the job cheaper."""
        return self.price is not None and self.price < 0

    def amount(self, currency: Currency) -> Decimal:
        """Quantity × price, to the coin; nothing while there is no price."""
        return to_coin(self.quantity * (self.price or NOTHING), currency=currency)


class Terms(Record):
    """How a cost becomes a price. Percentages are numbers of per cent."""

    currency: Currency
    waste_pct: Decimal = NOTHING
    overhead_pct: Decimal = NOTHING
    margin_pct: Decimal = NOTHING
    tax_pct: Decimal = NOTHING
    tax_is_inside: bool = False
    deposit_pct: Decimal = NOTHING
    price_step: PriceStep = PriceStep.COIN
    rounds_up: bool = False

    def __post_init__(self) -> None:
        _require_pct(waste_pct=self.waste_pct, overhead_pct=self.overhead_pct, tax_pct=self.tax_pct)
        _require_pct(most=HUNDRED, deposit_pct=self.deposit_pct)
        if not 0 <= self.margin_pct < HUNDRED:
            raise OutOfRange(f"Enter a margin of 0 to under 100%, not {self.margin_pct}%.", field="margin_pct")


class Cost(Record):
    """What a job costs: the sum of its lines by group, waste, overhead, the whole, and the whole of each batch."""

    groups: tuple[tuple[CostGroup, Decimal], ...]
    lines: Decimal
    waste: Decimal
    overhead: Decimal
    whole: Decimal
    batches: tuple[Decimal, ...]


class PriceOffer(Record):
    """What a job is sold for: each frame of each batch, the batches, net, tax, total, deposit and balance.

    `each` and `batches` hold the tax where prices are quoted with it. `margin_pct` and `markup_pct` are what the
    rounded price really leaves.
    """

    each: tuple[Decimal, ...]
    batches: tuple[Decimal, ...]
    net: Decimal
    tax: Decimal
    total: Decimal
    deposit: Decimal
    balance: Decimal
    margin_pct: Decimal
    markup_pct: Decimal


def cost_of(lines: Sequence[CostLine], *, batches: int, terms: Terms) -> Cost:
    """Add up what a job costs.

    `waste = waste % × net lines`, `overhead = overhead % × (lines + waste)`, each to the coin; every line, the waste
    and the overhead are shared out among the batches, so that the batches add up to the whole.

    Args:
        batches: how many kinds of frame there are; each line has a weight for each of them.
    Source: common practice, no source.

    >>> wood = CostLine(name="ash", group=CostGroup.WOOD, quantity=Decimal("2.5"), unit="m", price=Decimal(8),
    ...     weights=(Decimal(1),), is_net=True)
    >>> terms = Terms(currency=Currency(), waste_pct=Decimal(10), overhead_pct=Decimal(20), margin_pct=Decimal(40))
    >>> cost = cost_of([wood], batches=1, terms=terms)
    >>> cost.lines, cost.waste, cost.overhead, cost.whole
    (Decimal('20.00'), Decimal('2.00'), Decimal('4.40'), Decimal('26.40'))
    """
    currency = terms.currency
    amounts = [line.amount(currency) for line in lines]
    shares = [
        share_out(amount, weights=line.weights, currency=currency) for line, amount in zip(lines, amounts, strict=True)
    ]
    own = _added(shares, batches)
    net = _added([share for line, share in zip(lines, shares, strict=True) if line.is_net], batches)
    waste = _per_cent(sum(net), terms.waste_pct, currency)
    with_waste = _added([own, share_out(waste, weights=net, currency=currency)], batches)
    overhead = _per_cent(sum(with_waste), terms.overhead_pct, currency)
    whole = _added([with_waste, share_out(overhead, weights=with_waste, currency=currency)], batches)
    return Cost(
        groups=_by_group(lines, amounts),
        lines=sum(own, NOTHING),
        waste=waste,
        overhead=overhead,
        whole=sum(whole, NOTHING),
        batches=whole,
    )


def price_before_rounding(cost: Decimal, *, margin_pct: Decimal) -> Decimal:
    """The price that leaves the margin: `cost / (1 − margin)`.

    Args:
        margin_pct: from 0 to under 100.
    Source: the definition of margin, common knowledge.

    >>> price_before_rounding(Decimal(60), margin_pct=Decimal(40))
    Decimal('100')
    """
    return cost * HUNDRED / (HUNDRED - margin_pct)


def markup_of(margin_pct: Decimal) -> Decimal:
    """The mark-up that is the same money as a margin: `margin / (1 − margin)`, in per cent.

    Source: the definitions of margin and mark-up, common knowledge.

    >>> markup_of(Decimal(50))
    Decimal('100')
    """
    return margin_pct * HUNDRED / (HUNDRED - margin_pct)


def offer(cost: Cost, *, counts: Sequence[int], terms: Terms) -> PriceOffer:
    """Make a price of a cost: one frame of each batch is priced and rounded, and the rest follows from that.

    Where prices are quoted with their tax, the rounded price holds it and the net is taken out of the total; where not,
    the tax is put on the sum. Either way `net + tax = total` and `deposit + balance = total`, to the coin.

    Args:
        counts: how many frames each batch has, > 0.
    Source: common practice, no source.
    """
    currency = terms.currency
    factor = 1 + terms.tax_pct / HUNDRED
    each = tuple(
        _price_each(batch, count=count, terms=terms) for batch, count in zip(cost.batches, counts, strict=True)
    )
    batches = tuple(price * count for price, count in zip(each, counts, strict=True))
    asked = sum(batches, NOTHING)
    total = asked if terms.tax_is_inside else to_coin(asked * factor, currency=currency)
    net = to_coin(asked / factor, currency=currency) if terms.tax_is_inside else asked
    deposit = _per_cent(total, terms.deposit_pct, currency)
    return PriceOffer(
        each=each,
        batches=batches,
        net=net,
        tax=total - net,
        total=total,
        deposit=deposit,
        balance=total - deposit,
        margin_pct=_part_pct(net - cost.whole, net),
        markup_pct=_part_pct(net - cost.whole, cost.whole),
    )


def days_old(line: CostLine, *, today: date) -> int | None:
    """How old the price of a line is, in days; None where it has no date.

    Source: the calendar.

    >>> glass = CostLine(name="glass", group=CostGroup.SHEETS, quantity=Decimal(1), unit="m²", price=Decimal(9),
    ...     weights=(Decimal(1),), priced_on=date(2026, 1, 31))
    >>> days_old(glass, today=date(2026, 3, 1))
    29
    """
    return (today - line.priced_on).days if line.priced_on else None


def cost_findings(lines: Iterable[CostLine], *, today: date, stale_after_days: int) -> Iterator[Finding]:
    """Report the lines that an offer should not use yet: no price, an old or undated price, a change without a reason.

    Args:
        today: the date of the quote.
        stale_after_days: how many days a price may be old.
    Source: common practice, no source.
    """
    lines = tuple(lines)
    unpriced = [line.name for line in lines if line.price is None and line.quantity]
    undated = [line.name for line in lines if line.price and line.is_bought and line.priced_on is None]
    differing = [line.name for line in lines if line.differs]
    if unpriced:
        yield _finding(
            "unpriced",
            Severity.WARN,
            _unpriced(unpriced),
            "",
        )
    yield from _age_findings(lines, today, stale_after_days)
    unexplained = [line.name for line in lines if line.is_changed and not line.reason]
    if unexplained:
        sentence = worded("The quantity of {names} was typed by hand.", names=_listed(unexplained))
        yield _finding("no-reason", Severity.NOTE, sentence, _NO_REASON)
    if differing:
        off_list = "The price list has another price of {names}. Take that, or keep yours."
        sentence = worded(off_list, names=_listed(differing))
        yield _finding("off-list", Severity.NOTE, sentence, "")
    if undated:
        sentence = worded("The price of {names} has no date.", names=_listed(undated))
        yield _finding("undated", Severity.NOTE, sentence, "Enter the day it was asked.")


_NO_REASON = "No reason is given: in a month nobody knows it."


def offer_findings(offer: PriceOffer, *, cost: Cost, terms: Terms) -> Iterator[Finding]:
    """Report when the rounded price does not leave what was meant to be left.

    Source: derived.
    """
    if offer.net < cost.whole:
        lost = money_text(cost.whole - offer.net, currency=terms.currency)
        yield _finding(
            "below-cost",
            Severity.STOP,
            worded("The price is {lost} less than the cost.", lost=lost),
            "Rounding took more than the margin left.",
        )


def _age_findings(lines: Iterable[CostLine], today: date, stale_after_days: int) -> Iterator[Finding]:
    aged = [(line.name, days) for line in lines if (days := days_old(line, today=today)) is not None]
    old = [(name, days) for name, days in aged if days > stale_after_days]
    ahead = [name for name, days in aged if days < 0]
    if old:
        names, oldest = _listed([name for name, _ in old]), max(days for _, days in old)
        yield _finding(
            "stale",
            Severity.WARN,
            worded("The price of {names} is ", names=names) + f"{'up to ' if len(old) > 1 else ''}{oldest} days old.",
            f"Prices count as fresh for {stale_after_days} days here: ask again, or give them today's date.",
        )
    if ahead:
        sentence = worded("The price of {names} is dated in the future.", names=_listed(ahead))
        yield _finding("ahead", Severity.WARN, sentence, "A slip in the date.")


def _unpriced(names: Sequence[str]) -> str:
    if len(names) == 1:
        return worded("{name} has no price yet. It counts as 0.", name=_listed(names))
    return f"{len(names)} items have no price yet. They count as 0."


def _listed(names: Sequence[str]) -> str:
    return ", ".join(f"“{name}”" for name in names)


def _finding(code: str, severity: Severity, sentence: str, why: str) -> Finding:
    return Finding(
        code=f"costs.{code}",
        severity=severity,
        sentence=sentence,
        why=why,
        source="usual practice",
        argument="quote",
    )


def _price_each(batch_cost: Decimal, *, count: int, terms: Terms) -> Decimal:
    price = price_before_rounding(batch_cost / count, margin_pct=terms.margin_pct)
    quoted = price * (1 + terms.tax_pct / HUNDRED) if terms.tax_is_inside else price
    return to_price(quoted, step=terms.price_step, rounds_up=terms.rounds_up, currency=terms.currency)


def _per_cent(amount: Decimal | int, pct: Decimal, currency: Currency) -> Decimal:
    return to_coin(amount * pct / HUNDRED, currency=currency)


def _part_pct(part: Decimal, whole: Decimal) -> Decimal:
    """One amount as per cent of another, to a tenth; nothing of nothing is nothing."""
    return (part / whole * HUNDRED).quantize(Decimal("0.1")) + NOTHING if whole else Decimal("0.0")


def _added(rows: Iterable[Sequence[Decimal]], batches: int) -> tuple[Decimal, ...]:
    sums = [NOTHING] * batches
    for row in rows:
        sums = [one + other for one, other in zip(sums, row, strict=True)]
    return tuple(sums)


def _by_group(lines: Iterable[CostLine], amounts: Iterable[Decimal]) -> tuple[tuple[CostGroup, Decimal], ...]:
    sums = dict.fromkeys(CostGroup, NOTHING)
    for line, amount in zip(lines, amounts, strict=True):
        sums[line.group] += amount
    return tuple(sums.items())


def _require_pct(*, most: Decimal = Decimal(1000), **percentages: Decimal) -> None:
    for name, value in percentages.items():
        if not 0 <= value <= most:
            words = name.removesuffix("_pct").replace("_", " ")
            raise OutOfRange(f"Enter a {words} of 0 to {most}%, not {value}%.", field=name)
