"""What was counted is kept while prices are typed, and is what counting all of it anew gives, whatever else changes."""

import json
from collections.abc import Mapping
from itertools import accumulate
from pathlib import Path
from time import monotonic
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.plan import Plan
from framecalc.plan.price.counts import LaidOut
from framecalc.plan.price.price import JobPrice, price_job
from framecalc.project import Project, Quote, project_with, read_project
from framecalc.search.watch import start_watch
from framecalc.timber.sticks.plan import plan_sticks

DEMO = Path(__file__).parents[4] / "framecalc/demos/cafe-prints.demo.json"
ITEMS: tuple[dict[str, Any], ...] = (
    {"id": "wood", "name": "Oak", "group": "wood", "measure": "metre of stick"},
    {"id": "stick", "name": "Sticks", "group": "wood", "measure": "whole stick", "stick_length": "2400 mm"},
    {"id": "glass", "name": "Glass", "measure": "square metre", "layer": "glazing"},
    {"id": "sheet", "name": "Backs", "measure": "whole sheet", "layer": "backing", "sheet_across": "900 mm"},
    {"id": "cover", "name": "Paper", "measure": "square metre", "layer": "dust cover"},
    {"id": "face", "name": "Oil", "measure": "square metre of face", "amount": "2"},
    {"id": "work", "name": "Joinery", "measure": "hour, each frame", "price": "50"},
)
CHANGES: tuple[Mapping[str, str], ...] = (
    {"quote.items.wood.price": "9"},
    {"quote.items.wood.price": "11", "quote.terms.margin": "40"},
    {"quote.items.glass.layer": "backing"},
    {"quote.items.glass.frame": "bb"},
    {"quote.items.wood.measure": "board foot"},
    {"quote.items.sheet.sheet_up": "1200 mm"},
    {"quote.items.stick.stick_length": "300 mm"},
    {"quote.items.face.amount": "3"},
    {"frames.bb.artwork.across": "400 mm"},
    {"frames.aa.count": "3"},
    {"shop.kerf": "2 mm"},
    {"shop.end_trim": "40 mm"},
    {"bench.rabbet_way": "strip"},
    {"sheets.roll_width": "700 mm"},
    {"note": "for the hall"},
)


def two_frames() -> Project:
    document = json.loads(DEMO.read_text("utf-8"))
    first = document["frames"][0]
    frames = [first | {"id": "aa"}, first | {"id": "bb", "name": "Another", "count": 2}]
    return read_project(document | {"frames": frames, "assumed": [], "quote": {"items": ITEMS, "terms": {}}})


def priced(plan: Plan, laid_out: LaidOut) -> JobPrice:
    return price_job(plan.project, quote=plan.project.quote or Quote(), plan=plan, find=lambda _: laid_out)


def require_fresh(plan: Plan, laid_out: LaidOut) -> None:
    """Require that a price is what a plan without anything kept gives."""
    kept, fresh = priced(plan, laid_out), priced(Plan(plan.project), laid_out)
    assert (kept.lines, kept.problems, kept.cost) == (fresh.lines, fresh.problems, fresh.cost)


@given(st.lists(st.sampled_from(CHANGES), min_size=1, max_size=5), st.booleans())
def test_a_price_after_changes_is_that_of_a_job_counted_anew(changes: list[Mapping[str, str]], is_listed: bool) -> None:
    first = Plan(two_frames())
    require_fresh(first, LaidOut())
    for plan in accumulate(changes, after, initial=first):
        listed = LaidOut(sheets=tuple((group, None) for group in plan.sheets.groups)) if is_listed else LaidOut()
        require_fresh(plan, listed)


def after(plan: Plan, change: Mapping[str, str]) -> Plan:
    return Plan(project_with(plan.project, change), before=plan)


def test_another_price_counts_nothing_anew() -> None:
    plan = Plan(two_frames())
    again = after(plan, {"quote.items.wood.price": "9", "quote.items.glass.name": "Glass, clear"})
    before, now = (priced(one, LaidOut()).of_items for one in (plan, again))
    assert all(one.weights is other.weights for one, other in zip(before, now, strict=True))


@pytest.mark.parametrize("change", [{"quote.items.face.amount": "3"}, {"bench.rabbet_way": "strip"}])
def test_what_is_counted_otherwise_is_counted_anew(change: Mapping[str, str]) -> None:
    plan = Plan(two_frames())
    assert priced(plan, LaidOut()).lines != priced(after(plan, change), LaidOut()).lines


def test_a_plan_that_is_finished_is_counted_at_once() -> None:
    plan = Plan(two_frames())
    (group,) = plan.timber.groups
    finished = plan_sticks(group.problem, watch=start_watch(2, clock=monotonic))
    for laid_out in (LaidOut(), LaidOut(wood=((group, None),)), LaidOut(wood=((group, finished),)), LaidOut()):
        require_fresh(plan, laid_out)
    assert priced(plan, LaidOut(wood=((group, finished),))).of_items[0].counted_by == "the cutting plan"
