"""The price reads finished plans: of wood and of sheets, for all frames and for one; and estimates without them."""

import json
from decimal import Decimal
from itertools import count
from pathlib import Path
from typing import Any

import pytest

from framecalc.plan import Plan
from framecalc.plan.price.counts import LaidOut
from framecalc.plan.price.price import JobPrice, price_job
from framecalc.price.costs import CostGroup
from framecalc.price.quantities import Measure
from framecalc.project import Item, Project, Quote, read_project
from framecalc.search.watch import Watch, start_watch
from framecalc.sheets.plan import lay_out_sheets
from framecalc.timber.sticks.plan import plan_sticks

DEMOS = Path(__file__).parents[4] / "framecalc/demos"


def two_frames(*stock: dict[str, Any], second_wood: str = "white oak") -> Project:
    """The café's five prints, and one more frame of twice the size in a wood of its own or the same."""
    document = json.loads((DEMOS / "cafe-prints.demo.json").read_text("utf-8"))
    first = document["frames"][0]
    first["count"] = 2
    second = {**first, "id": "big1", "name": "A big one", "count": 1, "species": second_wood}
    stock_of_sticks = [{"id": f"s{number}", "name": f"stick {number}", **one} for number, one in enumerate(stock, 1)]
    timber = {"stock": stock_of_sticks}
    return read_project(document | {"frames": [first, second], "timber": timber, "sheets": {}, "assumed": []})


def item(**fields: Any) -> Item:
    return Item(**{"id": "it", "name": "wood", "group": CostGroup.WOOD, "price": "10"} | fields)


def _watch() -> Watch:
    """Time that only passes while it is looked at, so that a search always goes equally far."""
    ticks = count()
    return start_watch(2, clock=lambda: next(ticks) / 1000)


def solved(plan: Plan) -> LaidOut:
    return LaidOut(wood=tuple((group, plan_sticks(group.problem, watch=_watch())) for group in plan.timber.groups))


def laid(plan: Plan) -> LaidOut:
    posed = [(group, group.problem) for group in plan.sheets.groups if group.problem]
    return LaidOut(sheets=tuple((group, lay_out_sheets(problem, watch=_watch())) for group, problem in posed))


STICK = {"length": "3000 mm", "price": "21"}


def priced(project: Project, *items: Item, **more: Any) -> JobPrice:
    return price_job(project, quote=Quote(items=items), **more)


def test_whole_sticks_are_those_of_the_cutting_plan() -> None:
    project = two_frames(STICK)
    (line,) = priced(project, item(measure=Measure.STICK), find=solved).lines
    (group,) = Plan(project).timber.groups
    assert line.quantity == len(plan_sticks(group.problem, watch=_watch()).sticks)
    assert (line.counted_by, line.estimate, line.is_net) == ("the cutting plan", "", False)


def test_by_length_is_paid_what_is_used_up_and_no_waste_on_top() -> None:
    """Sticks of 3 m: no more than all of them, no less than the members, and what goes back to the rack is not paid."""
    project = two_frames(STICK)
    (line,) = priced(project, item(measure=Measure.STICK_M), find=solved).lines
    ((group, plan),) = solved(Plan(project)).wood
    assert plan
    left_mm = [stretch.left_over_mm for _, _, stretch in plan.stretches()]
    kept_mm = sum(left for left in left_mm if left >= group.problem.shortest_useful_mm)
    assert float(line.quantity) == pytest.approx((3000 * plan.stick_count - kept_mm) / 1000, abs=0.0005)
    assert group.total_mm / 1000 < line.quantity <= 3 * plan.stick_count and not line.is_net
    whole = priced(project, item(measure=Measure.BOARD_M3), find=solved).lines[0]
    section_mm2 = group.section.width_mm * group.section.thickness_mm
    assert float(whole.quantity) == pytest.approx(plan.stick_count * 3000 * section_mm2 / 1e9, abs=5e-7)


def test_two_items_for_two_frames_pay_for_all_sticks_together() -> None:
    project = two_frames(STICK)
    ids = [frame.id for frame in project.frames]
    lines = priced(project, *(item(id=f"i{at}", measure=Measure.STICK, frame=at) for at in ids), find=solved).lines
    all_of_it = priced(project, item(measure=Measure.STICK), find=solved).lines[0]
    assert sum(line.quantity for line in lines) == pytest.approx(all_of_it.quantity, abs=Decimal("0.002"))
    assert [sum(1 for weight in line.weights if weight) for line in lines] == [1, 1]


def test_an_item_waits_only_for_the_plan_of_its_own_wood() -> None:
    project = two_frames(STICK, second_wood="walnut")
    first, second = (frame.id for frame in project.frames)

    def oak_alone(plan: Plan) -> LaidOut:
        wood = solved(plan).wood
        return LaidOut(
            wood=tuple((group, found if group.section.wood == "white oak" else None) for group, found in wood)
        )

    items = (
        item(id="oak", measure=Measure.STICK_M, frame=first),
        item(id="wal", measure=Measure.STICK_M, frame=second),
    )
    oak, walnut = priced(project, *items, find=oak_alone).lines
    assert oak.counted_by and not oak.estimate
    assert not walnut.counted_by and "kerfs" in walnut.estimate and walnut.is_net
    (both,) = priced(project, item(measure=Measure.STICK_M), find=oak_alone).lines
    assert not both.counted_by


def test_sticks_of_the_usual_length_stay_an_estimate() -> None:
    (line,) = priced(two_frames(), item(measure=Measure.STICK), find=solved).lines
    assert line.counted_by and "no stock is typed" in line.estimate


def test_whole_sheets_are_those_of_the_layout() -> None:
    project = two_frames(STICK)
    glass = item(
        group=CostGroup.SHEETS, measure=Measure.SHEET, layer="glazing", sheet_across="300 mm", sheet_up="300 mm"
    )
    (line,) = priced(project, glass, find=laid).lines
    layout = next(found for group, found in laid(Plan(project)).sheets if group.material.is_called("glass"))
    assert layout and line.quantity == len(layout.sheets)
    assert line.counted_by == "the sheet layout" and "no stock is typed" in line.estimate
    by_area = priced(project, item(group=CostGroup.SHEETS, measure=Measure.AREA_M2, layer="glazing"), find=laid).lines[
        0
    ]
    area_mm2 = sum(part.across_mm * part.up_mm for _, part in layout.parts())
    assert float(by_area.quantity) == pytest.approx(area_mm2 / 1e6, abs=5e-5) and by_area.is_net


def test_a_quantity_by_hand_goes_before_a_counted_one() -> None:
    by_hand = item(measure=Measure.STICK, quantity="9", reason="spares")
    (line,) = priced(two_frames(STICK), by_hand, find=solved).lines
    assert line.quantity == 9 and not line.counted_by and not line.estimate


def test_a_moulding_that_is_no_member_is_not_counted_as_one() -> None:
    fillet = item(name="fillet", group=CostGroup.OTHER, measure=Measure.STICK_M)
    assert not priced(two_frames(STICK), fillet, find=solved).lines[0].counted_by


def test_a_job_that_is_all_counted_is_no_estimate() -> None:
    """A finish by the face is measured in the plan of the frame: no other plan will ever count it."""
    finish = item(id="fin", name="oil", group=CostGroup.FINISH, measure=Measure.FACE_M2)
    job = priced(two_frames(STICK), item(measure=Measure.STICK), finish, find=solved)
    assert not job.is_estimate
    assert priced(two_frames(STICK), item(measure=Measure.STICK_M)).is_estimate
