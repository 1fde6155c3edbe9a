"""The mitred corner: members of a rectangle, the joint line, the kerf along the stick."""

import tomllib
from math import sqrt
from pathlib import Path
from typing import Any

import pytest

from framecalc.errors import FrameCalcError
from framecalc.sizes.chain import sizes_within
from framecalc.sizes.members import Member, members_of, mitre_length_mm, slant_kerf_mm
from framecalc.sizes.polygons import half_turn_deg
from framecalc.sizes.shape import RECTANGLE_CORNERS, RECTANGLE_SIDES, Shape


def members_within(**outside: float) -> tuple[Member, ...]:
    """The members of a frame known by its outside."""
    return members_of(sizes_within(**outside, clearance_across_mm=0, clearance_up_mm=0))


CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/mitre.toml").read_text("utf-8"))


@pytest.mark.parametrize("check", CHECKS["members"], ids=lambda check: check["name"])
def test_worked_members(check: dict[str, Any]) -> None:
    across, up = members_within(**check["given"])
    found = (across.long_mm, up.long_mm, across.short_mm, up.short_mm, across.rabbet_wall_mm, up.rabbet_wall_mm)
    assert found == pytest.approx(tuple(check["expect_mm"]), abs=check["tolerance_mm"])


@pytest.mark.parametrize("check", CHECKS["mitre_length"], ids=lambda check: check["name"])
def test_worked_mitre_length(check: dict[str, Any]) -> None:
    found = mitre_length_mm(check["face_width_mm"])
    assert found == pytest.approx(check["expect_mm"], abs=check["tolerance_mm"])


def test_eight_slant_kerfs_of_an_eighth_take_the_worked_length_of_the_stick() -> None:
    assert 8 * slant_kerf_mm(0.125 * 25.4) == pytest.approx(1.414 * 25.4, abs=0.0005 * 25.4)


@pytest.mark.parametrize("outside_mm", [(200.0, 300.0), (120.0, 2000.0)])
def test_turning_the_frame_turns_its_members(outside_mm: tuple[float, float]) -> None:
    section = {"face_width_mm": 30.0, "rabbet_width_mm": 6.0}
    upright = members_within(outside_across_mm=outside_mm[0], outside_up_mm=outside_mm[1], **section)
    turned = members_within(outside_across_mm=outside_mm[1], outside_up_mm=outside_mm[0], **section)
    assert [member.long_mm for member in upright] == [member.long_mm for member in reversed(turned)]
    assert [member.rabbet_wall_mm for member in upright] == [member.rabbet_wall_mm for member in reversed(turned)]


def test_the_long_edges_add_up_to_the_outside_perimeter() -> None:
    members = members_within(outside_across_mm=348, outside_up_mm=471, face_width_mm=30, rabbet_width_mm=6)
    assert sum(member.count * member.long_mm for member in members) == 2 * (348 + 471)


def test_every_side_is_named_once_and_every_corner_joins_two_sides() -> None:
    across, up = members_within(outside_across_mm=348, outside_up_mm=471, face_width_mm=30, rabbet_width_mm=6)
    assert sorted(across.sides + up.sides) == sorted(RECTANGLE_SIDES)
    joined = [side for corner in RECTANGLE_CORNERS for side in corner.split("-")]
    assert sorted(joined) == sorted(2 * RECTANGLE_SIDES)


@pytest.mark.parametrize("sides", [3, 4, 5, 6, 8, 12, 24])
def test_the_mitre_is_never_shorter_than_the_member_is_wide(sides: int) -> None:
    assert mitre_length_mm(40, shape=Shape(sides=sides)) >= 40
    assert slant_kerf_mm(40, sides=sides) == mitre_length_mm(40, shape=Shape(sides=sides))


def test_a_square_corner_slants_by_the_root_of_two() -> None:
    assert mitre_length_mm(1) == pytest.approx(sqrt(2), rel=1e-15)
    assert half_turn_deg(4) == 45


GOOD = {"outside_across_mm": 348.0, "outside_up_mm": 471.0, "face_width_mm": 30.0, "rabbet_width_mm": 6.0}


@pytest.mark.parametrize(
    ("field", "value", "says"),
    [
        ("face_width_mm", 0.0, "Enter more than 0 mm for the face width, not 0 mm"),
        ("rabbet_width_mm", 30.0, "No land left: enter a rabbet width under 30 mm"),
        ("rabbet_width_mm", -1.0, "Enter 0 mm or more"),
    ],
)
def test_members_that_cannot_be_are_refused(field: str, value: float, says: str) -> None:
    with pytest.raises(FrameCalcError, match=says) as refusal:
        members_within(**(GOOD | {field: value}))
    assert refusal.value.field == field


@pytest.mark.parametrize("sides", [0, 2, 25, -4])
def test_polygons_that_are_not_mitred_are_refused(sides: int) -> None:
    with pytest.raises(FrameCalcError, match="Enter 3 to 24"):
        half_turn_deg(sides)
