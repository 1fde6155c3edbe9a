"""Ways out for a piece that went wrong: whatever is offered, the whole program lets it pass."""

from functools import cache

import pytest
from drawn_plans import demo
from hypothesis import given
from hypothesis import strategies as st

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


def test_two_sides_may_come_from_two_off_cuts_of_a_stick_or_from_two_sticks() -> None:
    plan = planned("cafe-prints")
    long_mm = rescue(plan, Trouble.SPOILED_PAIR, "top", 2.0).long_mm

    def again(*lengths_mm: tuple[str, float]) -> list[list[str]]:
        spares = tuple(Spare(name=f"the off-cut of {at}", source=at, length_mm=mm) for at, mm in lengths_mm)
        ways = rescue(plan, Trouble.SPOILED_PAIR, "top", 2.0, spares=spares).ways
        return [[one.source for one in way.again] for way in ways if way.again]

    each_mm = long_mm + 10
    assert again(("A", each_mm), ("A", each_mm), ("B", 3 * each_mm)) == [["A", "A"], ["B", "B"]]
    assert again(("A", each_mm + 1), ("B", each_mm)) == [["B", "A"]]
    assert again(("A", long_mm - 1)) == [["", ""]], "it is bought"


@given(
    lengths_mm=st.lists(st.floats(50, 1500), max_size=6), trouble=st.sampled_from((Trouble.SHORT, Trouble.SPOILED_PAIR))
)
def test_no_way_takes_more_of_a_stick_than_there_is(lengths_mm: list[float], trouble: Trouble) -> None:
    spares = tuple(Spare(name=f"{at}", source=f"{at // 2}", length_mm=mm) for at, mm in enumerate(lengths_mm))
    found = rescue(planned("cafe-prints"), trouble, "top", 2.0, spares=spares)
    for way in found.from_other_wood():
        for source in {one.source for one in way.again} - {""}:
            taken_mm = sum(one.wood_mm for one in way.again if one.source == source)
            assert taken_mm <= sum(one.length_mm for one in spares if one.source == source) + 0.01
    enough = [mm for mm in lengths_mm if mm >= found.long_mm + 5]
    if len(enough) >= 2:
        assert not any(way.says.startswith("Buy") for way in found.from_other_wood())


def test_a_polygon_is_refused_in_words() -> None:
    plan = planned("cafe-prints")
    frame_id = next(iter(plan.frames))
    path = f"frames.{frame_id}.shape"
    octagon = Plan(project_with(plan.project, {f"{path}.sides": "8", f"{path}.size": "300 mm"}))
    with pytest.raises(OutOfRange, match="flat rectangles"):
        rescue(octagon, Trouble.SHORT, "top", 1.0)
