"""Ways out for a piece that went wrong: whatever is offered, the whole program lets it pass."""

from functools import cache

import pytest
from drawn_plans import demo

from framecalc.bench.rescue import Trouble
from framecalc.errors import OutOfRange
from framecalc.plan import Plan
from framecalc.plan.bench.rescue import RescuePlan, Spare, stops_in
from framecalc.project import project_with, read_project

SPARES = (Spare(name="A", length_mm=5000), Spare(name="B", length_mm=2500), Spare(name="C", length_mm=40))


@cache
def planned(name: str) -> Plan:
    return Plan(read_project(demo(name)))


def rescue(plan: Plan, trouble: Trouble, side: str, by_mm: float, spares: tuple[Spare, ...] = SPARES) -> RescuePlan:
    frame = next(iter(plan.frames.values()))
    return RescuePlan(plan, frame, trouble=trouble, side=side, by_mm=by_mm, spares=spares)


@pytest.mark.parametrize("by_mm", [0.5, 3.0, 20.0])
@pytest.mark.parametrize("side", ["top", "left"])
@pytest.mark.parametrize("trouble", Trouble)
@pytest.mark.parametrize("name", ["cafe-prints", "maple-canvas"])
def test_no_way_that_is_offered_brings_a_stop(name: str, trouble: Trouble, side: str, by_mm: float) -> None:
    plan = planned(name)
    ways = rescue(plan, trouble, side, by_mm).ways
    assert ways, "there is always other wood"
    for way in ways:
        assert not stops_in(Plan(project_with(plan.project, way.changes))) - stops_in(plan), way.says
        assert way.minutes_min > 0
    assert [(way.looks, way.wood_mm, way.minutes_min) for way in ways] == sorted(
        (way.looks, way.wood_mm, way.minutes_min) for way in ways
    )


def test_a_short_side_comes_out_short_in_what_is_planned_anew() -> None:
    plan = planned("cafe-prints")
    before = next(iter(plan.frames.values())).sizes
    ways = [way for way in rescue(plan, Trouble.SHORT, "top", 1.0).ways if way.changes and "new mat" not in way.says]
    assert ways
    for way in ways:
        after = next(iter(Plan(project_with(plan.project, way.changes)).frames.values())).sizes
        assert after.outside_across_mm == pytest.approx(before.outside_across_mm - 1.0, abs=0.001), way.says
        assert after.outside_up_mm == pytest.approx(before.outside_up_mm, abs=0.001), way.says


def test_more_than_the_frame_has_leaves_only_other_wood() -> None:
    ways = rescue(planned("cafe-prints"), Trouble.SHORT, "top", 250.0).ways
    assert ways and not any(way.changes for way in ways)


def test_the_shortest_spare_that_is_long_enough_comes_first_and_else_wood_is_bought() -> None:
    plan = planned("cafe-prints")
    again = [way.says for way in rescue(plan, Trouble.SHORT, "top", 2.0).ways if way.says.startswith("Cut the top")]
    assert [says.split(" from ")[1][0] for says in again] == ["B", "A"]
    none = rescue(plan, Trouble.SHORT, "top", 2.0, spares=SPARES[2:]).ways
    assert any(way.says.startswith("Buy wood") for way in none)


def test_a_polygon_is_refused_in_words() -> None:
    plan = planned("cafe-prints")
    frame_id = next(iter(plan.frames))
    path = f"frames.{frame_id}.shape"
    octagon = Plan(project_with(plan.project, {f"{path}.sides": "8", f"{path}.size": "300 mm"}))
    with pytest.raises(OutOfRange, match="flat rectangles"):
        rescue(octagon, Trouble.SHORT, "top", 1.0)
