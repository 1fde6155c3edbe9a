"""Costs: worked by hand, and the identities that every quote must keep."""

from collections.abc import Sequence
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.errors import OutOfRange
from framecalc.findings import Severity
from framecalc.money import Currency, PriceStep, to_coin
from framecalc.price.costs import (
    CostGroup,
    CostLine,
    Terms,
    cost_findings,
    cost_of,
    days_old,
    markup_of,
    offer,
    offer_findings,
    price_before_rounding,
)
from framecalc.records import replace

ONE = (Decimal(1),)
PLAIN = Terms(currency=Currency())
TODAY = date(2026, 3, 1)


def line(quantity: str = "1", price: str | None = "10", **more: Any) -> CostLine:
    usual: dict[str, Any] = {"name": "ash", "group": CostGroup.WOOD, "unit": "m", "weights": ONE, "priced_on": TODAY}
    return CostLine(quantity=Decimal(quantity), price=Decimal(price) if price is not None else None, **usual | more)


# --- by hand


def test_a_whole_quote_by_hand() -> None:
    """Worked on paper: two frames.

    ash        3.80 m  × 12.50 = 47.50 (net)      glass 0.36 m² × 45.00 = 16.20 (net)      hangers 4 × 0.85 = 3.40
    work       2.5 h   × 48.00 = 120.00           lines 187.10
    waste      15 % of 63.70 = 9.555 → 9.56       overhead 20 % of 196.66 = 39.332 → 39.33        cost 235.99
    each       235.99 / 2 / 0.6 = 196.6583… → up to a whole 5: 200.00                             two: 400.00
    tax 8.25 % 33.00     total 433.00     deposit 50 % 216.50     balance 216.50
    margin     (400 − 235.99) / 400 = 41.0 %      mark-up 164.01 / 235.99 = 69.5 %
    """
    lines = [
        line("3.80", "12.50", is_net=True),
        line("0.36", "45.00", name="glass", group=CostGroup.SHEETS, is_net=True),
        line("4", "0.85", name="hangers", group=CostGroup.HARDWARE),
        line("2.5", "48.00", name="work", group=CostGroup.WORK),
    ]
    terms = Terms(
        currency=Currency(),
        waste_pct=Decimal(15),
        overhead_pct=Decimal(20),
        margin_pct=Decimal(40),
        tax_pct=Decimal("8.25"),
        deposit_pct=Decimal(50),
        price_step=PriceStep.FIVE,
        rounds_up=True,
    )
    cost = cost_of(lines, batches=1, terms=terms)
    assert [cost.lines, cost.waste, cost.overhead, cost.whole] == [*map(Decimal, ("187.10", "9.56", "39.33", "235.99"))]
    asked = offer(cost, counts=[2], terms=terms)
    assert asked.each == (Decimal(200),)
    assert [asked.net, asked.tax, asked.total, asked.deposit, asked.balance] == [
        *map(Decimal, ("400", "33", "433", "216.50", "216.50"))
    ]
    assert (asked.margin_pct, asked.markup_pct) == (Decimal("41.0"), Decimal("69.5"))


def test_a_price_with_its_tax_inside_by_hand() -> None:
    """cost 60, margin 40 %: net 100; with 19 % tax 119.00, to the nearest 10: 120; net 120/1.19 = 100.84, tax 19.16."""
    terms = replace(PLAIN, margin_pct=Decimal(40), tax_pct=Decimal(19), tax_is_inside=True, price_step=PriceStep.TEN)
    asked = offer(cost_of([line("6", "10")], batches=1, terms=terms), counts=[1], terms=terms)
    assert (asked.total, asked.net, asked.tax) == (Decimal("120.00"), Decimal("100.84"), Decimal("19.16"))


@pytest.mark.parametrize(("margin", "markup"), [("0", "0"), ("20", "25"), ("50", "100"), ("75", "300")])
def test_margin_and_mark_up_by_hand(margin: str, markup: str) -> None:
    assert markup_of(Decimal(margin)) == Decimal(markup)


def test_the_same_margin_is_not_the_same_as_adding_it_to_the_cost() -> None:
    assert price_before_rounding(Decimal(100), margin_pct=Decimal(20)) == Decimal(125)


# --- identities

percent = st.decimals(0, 99, places=2)
LINES = st.lists(
    st.builds(
        CostLine,
        name=st.just("x"),
        group=st.sampled_from(CostGroup),
        quantity=st.decimals(0, 500, places=3),
        unit=st.just("m"),
        price=st.none() | st.decimals(0, 2000, places=2),
        weights=st.tuples(*[st.decimals(0, 50, places=1)] * 3),
        is_net=st.booleans(),
    ),
    max_size=8,
)
TERMS = st.builds(
    Terms,
    currency=st.sampled_from([Currency(), Currency(mark="¥", decimals=0)]),
    waste_pct=percent,
    overhead_pct=percent,
    margin_pct=percent,
    tax_pct=percent,
    tax_is_inside=st.booleans(),
    deposit_pct=percent,
    price_step=st.sampled_from(PriceStep),
    rounds_up=st.booleans(),
)
COUNTS = st.tuples(*[st.integers(1, 60)] * 3)


@given(LINES, TERMS)
def test_groups_waste_and_overhead_add_up_to_the_cost_and_batches_too(lines: Sequence[CostLine], terms: Terms) -> None:
    cost = cost_of(lines, batches=3, terms=terms)
    assert cost.lines == sum(amount for _, amount in cost.groups)
    assert cost.lines == sum(line.amount(terms.currency) for line in lines)
    assert cost.whole == cost.lines + cost.waste + cost.overhead == sum(cost.batches)


@given(LINES, TERMS, COUNTS)
def test_an_offer_adds_up_to_the_coin(lines: Sequence[CostLine], terms: Terms, counts: Sequence[int]) -> None:
    asked = offer(cost_of(lines, batches=3, terms=terms), counts=counts, terms=terms)
    assert asked.net + asked.tax == asked.total
    assert asked.deposit + asked.balance == asked.total
    assert asked.batches == tuple(each * count for each, count in zip(asked.each, counts, strict=True))
    assert sum(asked.batches) == (asked.total if terms.tax_is_inside else asked.net)
    assert 0 <= asked.deposit <= asked.total


@given(LINES, TERMS, COUNTS)
def test_rounding_up_never_leaves_less_than_the_margin(
    lines: Sequence[CostLine], terms: Terms, counts: Sequence[int]
) -> None:
    terms = replace(terms, rounds_up=True, tax_is_inside=False)
    cost = cost_of(lines, batches=3, terms=terms)
    asked = offer(cost, counts=counts, terms=terms)
    meant = price_before_rounding(cost.whole, margin_pct=terms.margin_pct)
    assert asked.net >= meant - terms.currency.coin * sum(counts) / 2


@given(st.decimals(1, 10000, places=2), percent)
def test_the_price_leaves_exactly_the_margin_before_rounding(cost: Decimal, margin: Decimal) -> None:
    price = price_before_rounding(cost, margin_pct=margin)
    assert (price - cost) / price * 100 == pytest.approx(margin, abs=Decimal("1e-15"))
    assert (price - cost) / cost * 100 == pytest.approx(markup_of(margin), abs=Decimal("1e-15"))


@given(LINES, st.permutations(range(3)))
def test_batches_keep_their_cost_in_any_order_to_a_few_coins(lines: Sequence[CostLine], order: Sequence[int]) -> None:
    turned = [replace(line, weights=tuple(line.weights[at] for at in order)) for line in lines]
    first, second = (cost_of(some, batches=3, terms=PLAIN).batches for some in (lines, turned))
    for at, of in enumerate(order):
        assert abs(second[at] - first[of]) <= Decimal("0.01") * len(lines)


def test_twice_the_lines_is_twice_the_cost() -> None:
    lines = [line("2.37", "9.99"), line("1", "0.01", is_net=True)]
    once, twice = cost_of(lines, batches=1, terms=PLAIN), cost_of(lines * 2, batches=1, terms=PLAIN)
    assert twice.whole == 2 * once.whole


# --- lines


def test_whole_pieces_take_no_waste() -> None:
    terms = replace(PLAIN, waste_pct=Decimal(15))
    assert cost_of([line(is_net=False)], batches=1, terms=terms).waste == 0
    assert cost_of([line(is_net=True)], batches=1, terms=terms).waste == Decimal("1.50")


def test_what_a_batch_does_not_use_it_does_not_pay() -> None:
    lines = [line("1", "10", weights=(Decimal(1), Decimal(0))), line("1", "6", weights=(Decimal(1), Decimal(2)))]
    assert cost_of(lines, batches=2, terms=PLAIN).batches == (Decimal("12.00"), Decimal("4.00"))


def test_a_job_without_lines_costs_nothing() -> None:
    cost = cost_of([], batches=2, terms=PLAIN)
    assert cost.whole == 0
    asked = offer(cost, counts=[1, 4], terms=PLAIN)
    assert [asked.total, asked.margin_pct, asked.markup_pct] == [0, 0, 0]


# --- findings


def codes(*lines: CostLine, stale_after_days: int = 90) -> list[tuple[str, Severity]]:
    found = cost_findings(lines, today=TODAY, stale_after_days=stale_after_days)
    return [(finding.code, finding.severity) for finding in found]


def test_a_fresh_price_is_not_spoken_of() -> None:
    assert codes(line(priced_on=TODAY - timedelta(days=90))) == []


def test_an_old_price_is_said_with_its_age() -> None:
    old = line(priced_on=TODAY - timedelta(days=91))
    assert codes(old) == [("costs.stale", Severity.WARN)]
    (finding,) = cost_findings([old], today=TODAY, stale_after_days=90)
    assert "91 days old" in finding.sentence
    assert days_old(old, today=TODAY) == 91


def test_of_old_prices_all_are_named_and_the_oldest_is_dated() -> None:
    ages = {"Oak": 120, "Glass": 400, "Wax": 91, "Wire": 90}
    lines = [line(name=name, priced_on=TODAY - timedelta(days=days)) for name, days in ages.items()]
    (finding,) = cost_findings(lines, today=TODAY, stale_after_days=90)
    assert "up to 400 days old" in finding.sentence
    assert all(name in finding.sentence for name in ("Oak", "Glass", "Wax")) and "Wire" not in finding.sentence


def test_no_price_is_to_be_checked_unless_nothing_is_needed() -> None:
    assert codes(line(price=None)) == [("costs.unpriced", Severity.WARN)]
    assert codes(line("0", price=None)) == []


def test_an_undated_and_a_future_price_are_spoken_of() -> None:
    assert codes(line(priced_on=None)) == [("costs.undated", Severity.NOTE)]
    assert codes(line(priced_on=TODAY + timedelta(days=1))) == [("costs.ahead", Severity.WARN)]


def test_a_change_by_hand_wants_a_reason() -> None:
    assert codes(line(is_changed=True)) == [("costs.no-reason", Severity.NOTE)]
    assert codes(line(is_changed=True, reason="an off-cut does")) == []


def test_a_name_in_braces_stays_a_name() -> None:
    (finding,) = cost_findings([line(name="{odd}", price=None)], today=TODAY, stale_after_days=90)
    assert "{odd}" in finding.sentence.format_map({})


def test_rounding_below_the_cost_is_a_stop() -> None:
    terms = replace(PLAIN, price_step=PriceStep.TEN)
    cost = cost_of([line("1", "14")], batches=1, terms=terms)
    (finding,) = offer_findings(offer(cost, counts=[1], terms=terms), cost=cost, terms=terms)
    assert (finding.code, finding.severity) == ("costs.below-cost", Severity.STOP)
    assert "$4.00 less" in finding.sentence


def test_a_price_at_cost_loses_nothing() -> None:
    cost = cost_of([line("1", "20")], batches=1, terms=PLAIN)
    made = offer(cost, counts=[1], terms=PLAIN)
    assert list(offer_findings(replace(made, net=cost.whole), cost=cost, terms=PLAIN)) == []


@pytest.mark.parametrize(("price", "takes_off"), [(None, False), ("0", False), ("5", False), ("-5", True)])
def test_only_a_negative_price_makes_the_job_cheaper(price: str | None, takes_off: bool) -> None:
    assert line(price=price).takes_off is takes_off


# --- refusals


@pytest.mark.parametrize("margin", ["100", "150", "-1"])
def test_a_margin_that_leaves_no_price_is_refused(margin: str) -> None:
    with pytest.raises(OutOfRange, match="Enter a margin of 0 to under 100%, not") as refusal:
        replace(PLAIN, margin_pct=Decimal(margin))
    assert refusal.value.field == "margin_pct"


def with_pct(name: str, value: str) -> Terms:
    changed: dict[str, Any] = {name: Decimal(value)}
    return replace(PLAIN, **changed)


@pytest.mark.parametrize("name", ["waste_pct", "overhead_pct", "tax_pct", "deposit_pct"])
def test_absurd_percentages_are_refused(name: str) -> None:
    with pytest.raises(OutOfRange, match=r"^Enter ") as refusal:
        with_pct(name, "-1")
    assert refusal.value.field == name
    with pytest.raises(OutOfRange):
        with_pct(name, "5000")


def test_amounts_are_whole_coins() -> None:
    amount = line("0.333", "0.99").amount(Currency())
    assert amount == to_coin(amount, currency=Currency()) == Decimal("0.33")


def sentences(*lines: CostLine) -> list[str]:
    return [finding.sentence for finding in cost_findings(lines, today=TODAY, stale_after_days=90)]


def test_one_old_price_is_as_old_as_it_is_and_several_are_up_to_that() -> None:
    old, older = (line(priced_on=TODAY - timedelta(days=days)) for days in (91, 200))
    assert sentences(old) == ["The price of “ash” is 91 days old."]
    assert sentences(old, older) == ["The price of “ash”, “ash” is up to 200 days old."]


def test_one_item_without_a_price_is_named_and_several_are_counted() -> None:
    free, wanted = line(price="0", priced_on=None), line(price=None)
    assert sentences(wanted) == ["“ash” has no price yet. It counts as 0."]
    assert sentences(wanted, wanted, wanted) == ["3 items have no price yet. They count as 0."]
    assert sentences(free) == [], "what costs nothing needs neither price nor date"


@pytest.mark.parametrize(("group", "is_said"), [(CostGroup.WORK, False), (CostGroup.HARDWARE, True)])
def test_the_rate_of_an_hour_grows_no_older(group: CostGroup, is_said: bool) -> None:
    assert bool(codes(line(group=group, priced_on=None))) is is_said


@pytest.mark.parametrize(
    ("price", "listed", "differs"),
    [("10", "10", False), ("10", "10.01", True), ("10", None, False), (None, "10", False)],
)
def test_a_price_differs_from_the_list_where_both_are_there(
    price: str | None, listed: str | None, differs: bool
) -> None:
    one = line(price=price, listed=Decimal(listed) if listed else None)
    assert one.differs is differs
    assert ("costs.off-list" in [code for code, _ in codes(one)]) is differs


@pytest.mark.parametrize(
    ("name", "most"), [("waste_pct", 1000), ("overhead_pct", 1000), ("tax_pct", 1000), ("deposit_pct", 100)]
)
def test_percentages_are_taken_up_to_their_most(name: str, most: int) -> None:
    assert getattr(with_pct(name, str(most)), name) == most and getattr(with_pct(name, "0"), name) == 0
    for much in (str(most + Decimal("0.5")), "-0.5"):
        with pytest.raises(OutOfRange, match=f"0 to {most}%, not {much}%"):
            with_pct(name, much)


def test_a_margin_may_be_nothing_or_almost_all() -> None:
    assert [replace(PLAIN, margin_pct=Decimal(pct)).margin_pct for pct in ("0", "99.5")] == [0, Decimal("99.5")]


def test_a_price_below_its_cost_tells_by_how_much_for_each_coin() -> None:
    cost = cost_of([line("1", "20")], batches=1, terms=PLAIN)
    made = offer(cost, counts=[1], terms=PLAIN)
    (found,) = offer_findings(replace(made, net=Decimal("19.99")), cost=cost, terms=PLAIN)
    assert "$0.01 less than the cost" in found.sentence


def test_a_loss_too_small_to_be_said_is_none() -> None:
    terms = replace(PLAIN, price_step=PriceStep.TEN)
    cost = cost_of([line("1", "1000.01")], batches=1, terms=terms)
    made = offer(cost, counts=[1], terms=terms)
    assert made.net < cost.whole and (str(made.margin_pct), str(made.markup_pct)) == ("0.0", "0.0")
