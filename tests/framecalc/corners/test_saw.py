"""How exact the saw must be: worked examples, the exact chain of sides, planes cut by a blade that leans."""

import cmath
import tomllib
from collections.abc import Callable
from math import pi, radians, tan
from pathlib import Path
from typing import Any

import pytest

from framecalc.corners.saw import (
    BladeEnds,
    CutMethod,
    MeasuredJoint,
    Turn,
    blade_gap_mm,
    correct,
    last_joint_shift_mm,
    read_test_cut,
    saw_tolerance,
    shim_mm,
    total_error_deg,
    wedge_gap_mm,
)
from framecalc.errors import FrameCalcError

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/saw.toml").read_text("utf-8"))["wedge"]
GOOD: dict[str, Any] = {"gap_mm": 0.1, "mitre_length_mm": 50.0, "fence_mm": 450.0}


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check["name"])
def test_worked_wedge(check: dict[str, Any]) -> None:
    wedge_deg = total_error_deg(left_deg=0.1, right_deg=0.1, sides=check["joints"]) if check["joints"] > 1 else 0.2
    found = wedge_gap_mm(check["mitre_length_mm"], wedge_deg=wedge_deg)
    assert found == pytest.approx(check["expect_mm"], abs=check["tolerance_mm"])


def test_left_and_right_cancel_when_they_add_up_to_the_corner() -> None:
    assert total_error_deg(left_deg=0.3, right_deg=-0.3) == 0
    assert total_error_deg(left_deg=0.3, right_deg=0.3) == pytest.approx(2.4)


@pytest.mark.parametrize("sides", [3, 4, 6, 12])
@pytest.mark.parametrize("gap_mm", [0.05, 0.2, 1.0])
def test_a_saw_at_its_tolerance_leaves_just_the_gap(sides: int, gap_mm: float) -> None:
    given: dict[str, Any] = {"gap_mm": gap_mm, "mitre_length_mm": 60.0, "fence_mm": 400.0, "sides": sides}
    one = saw_tolerance(cutting=CutMethod.ONE_SETTING, **given)
    assert wedge_gap_mm(60, wedge_deg=2 * one.shared_deg) == pytest.approx(gap_mm)
    assert wedge_gap_mm(60, wedge_deg=2 * sides * one.last_deg) == pytest.approx(gap_mm)
    assert one.last_shim_mm == pytest.approx(400 * tan(radians(one.last_deg)))


@pytest.mark.parametrize("cutting", [CutMethod.TWO_SETTINGS, CutMethod.SLED])
def test_with_two_settings_the_tolerance_is_on_their_sum_and_twice_as_wide(cutting: CutMethod) -> None:
    one = saw_tolerance(cutting=CutMethod.ONE_SETTING, **GOOD)
    two = saw_tolerance(cutting=cutting, **GOOD)
    assert (one.together, two.together) == (False, True)
    assert two.shared_deg == pytest.approx(2 * one.shared_deg)
    assert two.last_deg == pytest.approx(2 * one.last_deg)


def test_for_small_gaps_the_tolerance_is_the_rule_of_the_trade() -> None:
    one = saw_tolerance(cutting=CutMethod.ONE_SETTING, **GOOD)
    assert radians(one.shared_deg) == pytest.approx(0.1 / (2 * 50), rel=1e-5)
    assert radians(one.last_deg) == pytest.approx(0.1 / (8 * 50), rel=1e-5)


@pytest.mark.parametrize("error_deg", [-0.4, -0.05, 0.05, 0.4])
@pytest.mark.parametrize(("tried", "ends"), [(MeasuredJoint.ONE_JOINT, 2), (MeasuredJoint.LAST_JOINT, 8)])
def test_a_test_cut_gives_back_the_error_that_made_its_gaps(error_deg: float, tried: MeasuredJoint, ends: int) -> None:
    gap_mm = 70 * tan(radians(ends * error_deg))
    shift_mm = 1.25
    found = read_test_cut(
        outside_gap_mm=shift_mm + max(gap_mm, 0),
        inside_gap_mm=shift_mm + max(-gap_mm, 0),
        mitre_length_mm=70,
        tried=tried,
    )
    assert found == pytest.approx(error_deg)


@pytest.mark.parametrize("error_deg", [-0.1, -0.02, 0.02, 0.1])
@pytest.mark.parametrize(("across_mm", "up_mm"), [(300.0, 400.0), (100.0, 1200.0), (500.0, 500.0)])
def test_the_last_joint_stands_apart_as_the_chain_of_four_sides_does(
    error_deg: float, across_mm: float, up_mm: float
) -> None:
    """Lay four sides end to end, tips level, each corner closed at its two cuts, and look where the last one ends."""
    turn = cmath.exp(1j * (pi / 2 - 2 * radians(error_deg)))
    end = across_mm + up_mm * turn + across_mm * turn**2 + up_mm * turn**3
    square_to_the_joint = cmath.exp(0.75j * pi)
    apart_mm = (end * square_to_the_joint.conjugate()).real
    found = last_joint_shift_mm(error_deg, outside_across_mm=across_mm, outside_up_mm=up_mm)
    assert found == pytest.approx(apart_mm, rel=0.02)


def test_the_last_joint_is_shifted_far_more_than_it_is_wedged() -> None:
    shift_mm = last_joint_shift_mm(0.1, outside_across_mm=300, outside_up_mm=400)
    assert shift_mm > 4 * wedge_gap_mm(53.9, wedge_deg=0.8)


def test_a_joint_open_outside_wants_the_gauge_further_from_square() -> None:
    """Cut two ends at 44.9° from square, hold them at a right angle: they touch inside and stand open at the tips."""
    tip_deg = 90 - 44.9
    open_at_tips = 2 * tip_deg - 90
    assert open_at_tips > 0
    correction = correct(open_at_tips / 2, cutting=CutMethod.ONE_SETTING, fence_mm=450)
    assert correction.turn is Turn.FROM_SQUARE
    assert 44.9 + correction.turn_deg == pytest.approx(45)
    assert correction.shim_mm == pytest.approx(shim_mm(0.1, fence_mm=450))


def test_of_two_fences_one_takes_the_error_of_both() -> None:
    one = correct(-0.1, cutting=CutMethod.ONE_SETTING, fence_mm=450)
    sled = correct(-0.1, cutting=CutMethod.SLED, fence_mm=450)
    assert (one.turn, sled.turn) == (Turn.TO_SQUARE, Turn.TO_SQUARE)
    assert sled.turn_deg == pytest.approx(2 * one.turn_deg)


@pytest.mark.parametrize("cutting", list(CutMethod))
def test_what_each_end_may_be_off_makes_the_gap_that_may_be_seen(cutting: CutMethod) -> None:
    tolerance = saw_tolerance(cutting=cutting, gap_mm=0.2, mitre_length_mm=50, fence_mm=450)
    assert wedge_gap_mm(50, wedge_deg=2 * tolerance.each_end_deg) == pytest.approx(0.2)


def test_a_joint_without_a_wedge_leaves_the_fence_alone() -> None:
    assert correct(0.0, cutting=CutMethod.SLED, fence_mm=450).turn is Turn.NONE


def _overhang_mm(*, blade_at: Callable[[float], float], kept_on_the_left: bool, face_up: bool) -> float:
    """By how much an end stands out further at the face than at the back; blade_at gives the blade at a height."""
    outward = 1 if kept_on_the_left else -1
    face, back = (20.0, 0.0) if face_up else (0.0, 20.0)
    return outward * (blade_at(face) - blade_at(back))


@pytest.mark.parametrize("lean_deg", [-0.5, 0.2, 1.0])
@pytest.mark.parametrize(
    ("ends", "other_end"),
    [
        (BladeEnds.SAME_SIDE, {"kept_on_the_left": True, "face_up": True}),
        (BladeEnds.OPPOSITE_SIDES, {"kept_on_the_left": False, "face_up": True}),
        (BladeEnds.TURNED_OVER, {"kept_on_the_left": True, "face_up": False}),
    ],
)
def test_a_leaning_blade_gapes_only_where_both_ends_lean_alike(
    lean_deg: float, ends: BladeEnds, other_end: dict[str, bool]
) -> None:
    """Cut one end face up on the left of a leaning blade, the other as named, and bring the two together."""

    def blade_at(height_mm: float) -> float:
        return height_mm * tan(radians(lean_deg))

    one = _overhang_mm(blade_at=blade_at, kept_on_the_left=True, face_up=True)
    gap_mm = abs(one + _overhang_mm(blade_at=blade_at, **other_end))
    assert blade_gap_mm(20, lean_deg=lean_deg, ends=ends) == pytest.approx(gap_mm)


@pytest.mark.parametrize(
    ("field", "value", "says"),
    [
        ("gap_mm", 0.0, "more than 0 mm"),
        ("gap_mm", 50.0, "Enter a gap under"),
        ("mitre_length_mm", -1.0, "more than 0 mm"),
        ("fence_mm", float("nan"), "more than 0 mm"),
        ("sides", 2, "3 to 24"),
    ],
)
def test_tolerances_of_nothing_are_refused(field: str, value: float, says: str) -> None:
    with pytest.raises(FrameCalcError, match=says) as refusal:
        saw_tolerance(cutting=CutMethod.SLED, **(GOOD | {field: value}))
    assert refusal.value.field == field


def test_a_saw_that_was_set_wrong_is_no_test_cut() -> None:
    with pytest.raises(FrameCalcError, match="Set the gauge afresh"):
        read_test_cut(outside_gap_mm=20, inside_gap_mm=0, mitre_length_mm=50, tried=MeasuredJoint.ONE_JOINT)


def test_a_gap_below_nothing_is_refused() -> None:
    with pytest.raises(FrameCalcError, match="Enter 0 mm or more"):
        read_test_cut(outside_gap_mm=0.1, inside_gap_mm=-0.1, mitre_length_mm=50, tried=MeasuredJoint.ONE_JOINT)


@pytest.mark.parametrize("turn_deg", [-45, 45])
def test_a_fence_turned_by_half_a_right_angle_takes_a_shim_of_its_length_and_no_more(turn_deg: float) -> None:
    assert shim_mm(turn_deg, fence_mm=400) == pytest.approx(400)
    with pytest.raises(FrameCalcError):
        shim_mm(turn_deg * 1.01, fence_mm=400)
