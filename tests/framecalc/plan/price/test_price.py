"""The price of a job: its items measured in its plans, by hand and by laws."""

import json
from collections.abc import Callable
from datetime import date
from decimal import Decimal
from itertools import count
from pathlib import Path
from typing import Any

import pytest

from framecalc.errors import FrameCalcError
from framecalc.money import Currency, money_text
from framecalc.plan.price.items import missing_items, usual_items
from framecalc.plan.price.price import JobPrice, currency_of, price_job, terms_of
from framecalc.price.costs import CostGroup
from framecalc.price.quantities import Measure
from framecalc.project import Item, Project, Quote, Terms, read_project, set_value

DEMOS = {path.name.split(".")[0]: path for path in (Path(__file__).parents[4] / "framecalc/demos").glob("*.demo.json")}
TODAY = date(2026, 3, 1)


def demo(name: str, **changes: object) -> Project:
    document = json.loads(DEMOS[name].read_text("utf-8"))
    for path, value in changes.items():
        set_value(document, path.replace("__", "."), value)
    return read_project(document)


def ids() -> Callable[[], str]:
    numbers = count(10)
    return lambda: f"i{next(numbers)}"


def item(**fields: Any) -> Item:
    return Item(**{"id": "it", "name": "thing", "price": "10", "priced_on": TODAY.isoformat()} | fields)


def priced(project: Project, *items: Item, terms: Terms | None = None) -> JobPrice:
    return price_job(project, quote=Quote(items=items, terms=terms or Terms()))


def test_the_wood_of_a_job_is_what_its_sticks_take() -> None:
    """Five frames: each takes its perimeter, three kerfs at 45° and two end trims, to the thousandth of a metre."""
    project = demo("cafe-prints")
    job = priced(project, item(measure=Measure.STICK_M, group=CostGroup.WOOD))
    (plan,) = job.plans
    each_mm = 2 * (plan.sizes.outside_across_mm + plan.sizes.outside_up_mm)
    each_mm += 3 * project.shop.kerf.mm * 2**0.5 + 2 * project.shop.end_trim.mm
    (line,) = job.lines
    assert float(line.quantity) == pytest.approx(5 * each_mm / 1000, abs=0.0026)
    assert line.is_net and "kerfs" in line.estimate and job.is_estimate


def test_glass_is_paid_for_where_there_is_glass() -> None:
    """The demo has a tray without glass and a box with it: its square metres are the box's package alone."""
    project = demo("ash-relief")
    job = priced(project, item(measure=Measure.AREA_M2, layer="glazing"))
    box = job.plans[1].sizes
    (line,) = job.lines
    assert float(line.quantity) == pytest.approx(box.package_across_mm * box.package_up_mm / 1e6, abs=5.1e-5)
    assert line.weights[0] == 0


@pytest.mark.parametrize(("name", "frame_id", "count"), [("maple-canvas", "map1", 14), ("ash-relief", "box1", None)])
def test_retainers_are_paid_for_as_they_are_planned(name: str, frame_id: str, count: int | None) -> None:
    """The relief's tray has none, the box beside it has."""
    job = priced(demo(name), item(measure=Measure.RETAINER))
    plan = next(plan for plan in job.plans if plan.frame.id == frame_id)
    assert plan.package.retainers is not None
    planned = sum(one.package.retainers.count * one.frame.count for one in job.plans if one.package.retainers)
    assert job.lines[0].quantity == planned > 0 and job.lines[0].unit == "pcs"
    assert count is None or plan.package.retainers.count == count


def test_an_item_for_one_frame_is_paid_by_that_frame_alone() -> None:
    project = demo("ash-relief")
    job = priced(project, item(frame=project.frames[1].id, price="7"))
    assert job.cost.batches == (Decimal(0), Decimal("7.00"))


def test_a_quantity_typed_by_hand_counts_without_waste_and_is_no_estimate() -> None:
    job = priced(demo("cafe-prints"), item(measure=Measure.STICK_M, quantity="9", reason="two long sticks"))
    (line,) = job.lines
    assert (line.quantity, line.is_net, line.estimate, line.is_changed) == (Decimal(9), False, "", True)
    assert job.cost.waste == 0 and job.cost.whole == Decimal("90.00")


def test_a_stick_too_short_is_a_problem_beside_its_field_and_costs_nothing() -> None:
    job = priced(demo("cafe-prints"), item(measure=Measure.STICK, stick_length="300 mm"))
    assert "does not fit into a stick" in job.problems["quote.items.it.stick_length"]
    assert job.cost.whole == 0 and not job.is_complete


@pytest.mark.parametrize(("measure", "field"), [(Measure.STICK, "stick_length"), (Measure.SHEET, "sheet_across")])
def test_a_whole_piece_wants_its_size(measure: Measure, field: str) -> None:
    job = priced(demo("cafe-prints"), item(measure=measure))
    assert "Enter the size that it is sold in" in job.problems[f"quote.items.it.{field}"]


def test_whole_sticks_are_never_less_wood_than_the_members() -> None:
    project = demo("cafe-prints")
    net, whole = (
        priced(project, item(measure=measure, stick_length="2400 mm")).lines[0].quantity
        for measure in (Measure.STICK_M, Measure.STICK)
    )
    assert whole * Decimal("2.4") >= net - Decimal("0.3")


def test_a_frame_that_cannot_be_built_has_no_price() -> None:
    frame = demo("cafe-prints").frames[0].id
    broken = demo("cafe-prints", **{f"frames__{frame}__section__rabbet_depth": "200 mm"})
    with pytest.raises(FrameCalcError) as refusal:
        priced(broken, item())
    assert refusal.value.field.startswith(f"frames.{frame}.")


def test_terms_are_the_typed_ones_in_the_shops_way_of_writing() -> None:
    currency = Currency(decimals=0, mark="kr", decimal_comma=True)
    terms = terms_of(Terms(decimals="0", mark="kr", margin=Decimal(30)), currency=currency)
    assert (terms.currency.decimals, terms.currency.decimal_comma, terms.margin_pct) == (0, True, Decimal(30))


def test_the_batches_of_a_whole_quote_add_up() -> None:
    project = demo("ash-relief")
    items = [one.model_copy(update={"price": Decimal("11.11")}) for one in usual_items(project, new_id=ids())]
    job = priced(project, *items, terms=Terms(margin=Decimal(35), overhead=Decimal(12), tax=Decimal(19)))
    assert sum(job.cost.batches) == job.cost.whole == job.cost.lines + job.cost.waste + job.cost.overhead
    assert job.offer.net + job.offer.tax == job.offer.total
    assert job.is_complete


# --- usual items


@pytest.mark.parametrize("name", DEMOS)
def test_the_usual_items_have_no_price_and_cover_every_bought_layer(name: str) -> None:
    project = demo(name)
    items = usual_items(project, new_id=ids())
    bought = {layer.kind for frame in project.frames for layer in frame.package.layers if layer.kind != "artwork"}
    assert {one.layer for one in items if one.layer} == bought
    assert all(one.price is None for one in items)
    found = [finding.code for finding in priced(project, *items).findings(today=TODAY)]
    assert set(found) == {"costs.unpriced"}
    assert len({one.id for one in items}) == len(items)


@pytest.mark.parametrize("name", DEMOS)
def test_what_is_there_is_not_missing(name: str) -> None:
    project = demo(name)
    items = usual_items(project, new_id=ids())
    assert missing_items(project, Quote(items=items), new_id=ids()) == ()
    assert len(missing_items(project, Quote(items=items[1:]), new_id=ids())) == 1


def test_two_woods_are_two_items() -> None:
    project = demo("ash-relief", frames__tray1__species="walnut")
    woods = [one for one in usual_items(project, new_id=ids()) if one.group is CostGroup.WOOD]
    assert [(one.name, one.frame) for one in woods] == [("Walnut", "tray1"), ("Ash", project.frames[1].id)]


@pytest.mark.parametrize(
    ("words", "in_shop", "in_quote", "says"),
    [
        ("US", "", "", "$5.00"),
        ("UK", "", "", "£5.00"),
        ("UK", "€", "", "€5.00"),
        ("UK", "€", "kr", "kr\u00a05.00"),
        ("US", "", "£", "£5.00"),
    ],
)
def test_money_is_marked_as_the_shop_has_chosen_or_by_its_words(
    words: str, in_shop: str, in_quote: str, says: str
) -> None:
    """Fault: a British shop was quoted in dollars until it had found the field."""
    project = demo("ash-relief", shop__words=words, shop__mark=in_shop, quote__terms={"mark": in_quote})
    assert money_text(Decimal(5), currency=currency_of(project)) == says
    assert priced(project, terms=project.quote.terms if project.quote else None).terms.currency.mark in says
