"""Dust covers off a roll: in the price and on the shopping list alike, without waste on top."""

from typing import Any

import pytest
from frame_jobs import matted

from framecalc.findings import Severity
from framecalc.plan import Plan
from framecalc.plan.light import Stage
from framecalc.plan.price.counts import LaidOut
from framecalc.plan.price.price import price_job
from framecalc.plan.price.shopping import to_buy
from framecalc.price.costs import CostLine
from framecalc.project import read_project

COVER = {"id": "dust", "name": "Dust cover", "kind": "dust cover", "thickness": "0.12 mm", "tolerance": "0 mm"}
PAPER = {
    "id": "d1",
    "name": "Paper",
    "group": "glass, boards and sheets",
    "measure": "square metre",
    "layer": "dust cover",
    "price": "4",
}


def covered(roll_width: str | None) -> Plan:
    document: dict[str, Any] = matted(count=5)
    document["frames"][0]["package"]["layers"].append(COVER)
    sheets = {"roll_width": roll_width, "roll_over": "10 mm"}
    return Plan(read_project(document | {"quote": {"items": [PAPER]}, "sheets": sheets}))


def paid_for(plan: Plan) -> CostLine:
    assert plan.project.quote
    (line,) = price_job(plan.project, quote=plan.project.quote, plan=plan).of_items
    return line


def test_covers_are_paid_for_by_what_they_take_of_the_roll() -> None:
    """Fault: they were counted as large as the package, and a roll had no length."""
    plan = covered("900 mm")
    (frame,) = plan.frames.values()
    across, up = (size_mm + 20 for size_mm in frame.hand_over.cover_mm)
    long_mm = min(-(-5 // (900 // across)) * up, -(-5 // (900 // up)) * across)
    line = paid_for(plan)
    assert float(line.quantity) == pytest.approx(long_mm * 900 / 1e6, abs=1e-3) and not line.is_net
    assert plan.project.quote
    job = price_job(plan.project, quote=plan.project.quote, plan=plan)
    bought = next(one for one in to_buy(job, laid_out=LaidOut()) if "dust covers" in one.name)
    assert (bought.quantity, bought.price) == (line.quantity, 4)
    assert bought.sizes_mm == pytest.approx((900, long_mm), abs=1)


def test_without_a_roll_they_count_by_their_own_size() -> None:
    plan = covered(None)
    (frame,) = plan.frames.values()
    across, up = frame.hand_over.cover_mm
    line = paid_for(plan)
    assert float(line.quantity) == pytest.approx(5 * across * up / 1e6, rel=2e-3) and line.is_net


@pytest.mark.parametrize("roll_width, stops", [("900 mm", 0), ("100 mm", 1), (None, 0)])
def test_a_roll_narrower_than_a_cover_stops_the_job_before_fitting(roll_width: str | None, stops: int) -> None:
    """Fault: the page of the sheets said so, and the light did not."""
    found = [one for one in covered(roll_width).obstacles if one.field == "sheets.roll_width"]
    assert len(found) == stops
    assert all(one.severity is Severity.STOP and one.stage is Stage.FITTING for one in found)
