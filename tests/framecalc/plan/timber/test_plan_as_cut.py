"""A cutting plan as it is cut: it follows what came out, gives sides that are cut again, and else stays as it is."""

from functools import cache
from typing import Any

import pytest
from drawn_plans import demo
from timber_plans import planned as plan_of

from framecalc.plan import Plan
from framecalc.plan.timber.as_cut import (
    cut_again,
    cut_elsewhere,
    group_as_cut,
    plan_as_cut,
    shortest_left,
    sides_to_place,
    too_short,
)
from framecalc.plan.timber.group import TimberGroup
from framecalc.project import Project, read_project
from framecalc.timber.sticks.answer import CutStick, StickPlan
from framecalc.timber.sticks.problem import Purpose


@cache
def planned(name: str) -> StickPlan:
    (group, *_) = Plan(read_project(demo(name))).timber.groups
    return plan_of(group)


def job(name: str, *measured: tuple[str, float], again: tuple[dict[str, Any], ...] = ()) -> tuple[Project, TimberGroup]:
    """A demo with as much more or less measured of each quantity, on all frames."""
    plain = Plan(read_project(demo(name)))
    document = demo(name)
    for frame in document["frames"]:
        planned_mm = {one.value: mm for one, mm in plain.frames[frame["id"]].as_cut.planned_mm.items()}
        frame["as_cut"] = [
            {"id": f"m{at:02}", "quantity": quantity, "size": f"{planned_mm[quantity] + more_mm:.6f} mm"}
            for at, (quantity, more_mm) in enumerate(measured)
        ]
    document["bench"]["cut_again"] = [{"id": f"a{at:02}", "frame": document["frames"][0]["id"], **one} for at, one in
                                      enumerate(again)]  # fmt: skip
    project = read_project(document)
    return project, Plan(project).timber.groups[0]


def assert_adds_up(stick: CutStick, *, cut_mm: float) -> None:
    """Pieces, saw cuts and what is left fill every stretch, one piece after another."""
    for strip in stick.strips:
        for stretch in strip.stretches:
            at_mm = stretch.start_mm
            for placed in stretch.pieces:
                assert placed.start_mm == pytest.approx(at_mm)
                at_mm += placed.piece.length_mm + cut_mm
            if stretch.left_over_mm > 0:
                assert at_mm + stretch.left_over_mm == pytest.approx(stretch.end_mm)


def test_a_plan_that_came_out_as_planned_is_the_plan() -> None:
    project, group = job("cafe-prints", ("face width", 0.0), ("rabbet depth", 0.0))
    plan = planned("cafe-prints")
    assert plan_as_cut(plan, group=group, project=project) is plan and group_as_cut(group) is group


@pytest.mark.parametrize("more_mm", [-0.6, 0.4, 1.0])
def test_off_cuts_lose_what_the_long_points_gain(more_mm: float) -> None:
    project, group = job("cafe-prints", ("face width", more_mm))
    plan = planned("cafe-prints")
    cut = plan_as_cut(plan, group=group, project=project)
    for before, after in zip(plan.sticks, cut.sticks, strict=True):
        assert_adds_up(after, cut_mm=group.problem.cut_mm)
        members = sum(placed.piece.purpose is Purpose.MEMBER for strip in before.strips for placed in strip.pieces)
        lost_mm = sum(one.left_over_mm for strip in before.strips for one in strip.stretches) - sum(
            one.left_over_mm for strip in after.strips for one in strip.stretches
        )
        assert lost_mm == pytest.approx(2 * more_mm * members, abs=0.01), "the face is wider on both sides"
    assert group_as_cut(group).section.width_mm == pytest.approx(group.section.width_mm + more_mm, abs=0.001)


def test_a_stick_that_holds_its_pieces_no_more_is_named() -> None:
    project, group = job("cafe-prints", ("face width", 60.0))
    cut = plan_as_cut(planned("cafe-prints"), group=group, project=project)
    short = too_short(cut)
    assert short and all(one.by_mm > 0 for one in short)


def test_a_side_that_has_no_room_leaves_its_stick_free_once_it_is_cut_from_other_wood() -> None:
    plan, wide = planned("cafe-prints"), ("face width", 60.0)
    project, group = job("cafe-prints", wide)
    over = sides_to_place(plan, group=group, project=project)
    assert over
    elsewhere = tuple({"side": one.side, "copy_number": one.copy, "length": f"{one.length_mm} mm"} for one in over)
    project, group = job("cafe-prints", wide, again=elsewhere)
    assert not too_short(plan_as_cut(plan, group=group, project=project))
    assert not sides_to_place(plan, group=group, project=project)
    assert cut_elsewhere(plan, group=group, project=project) == {(one.frame, one.copy, one.side) for one in over}


def test_a_side_cut_again_takes_its_wood_from_the_off_cut_of_its_stick() -> None:
    plan = planned("cafe-prints")
    stick = max(plan.sticks, key=lambda one: shortest_left(one, needed_mm=9e9).left_over_mm)
    again = {"side": "top", "length": "200 mm", "source": stick.label}
    project, group = job("cafe-prints", again=(again, again | {"source": "", "side": "left"}))
    cut = plan_as_cut(plan, group=group, project=project)
    (after,) = (one for one in cut.sticks if one.label == stick.label)
    left_mm, was_mm = (sum(one.left_over_mm for s in of.strips for one in s.stretches) for of in (after, stick))
    assert left_mm == pytest.approx(was_mm - 200 - group.problem.cut_mm)
    assert_adds_up(after, cut_mm=group.problem.cut_mm)
    assert [str(one.says) for one in cut_again(group, project)] == [
        f"the off-cut of {stick.label}",
        "wood bought for it",
    ]


def test_off_cuts_are_told_by_the_rabbet_that_came_out() -> None:
    project, group = job("cafe-prints", ("rabbet depth", 0.5))
    before, after = (
        set(m.words for m in group.milled.values()),
        set(m.words for m in group_as_cut(group).milled.values()),
    )
    assert before.isdisjoint(after) and project
