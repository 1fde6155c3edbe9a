"""Slots for biscuits, dowels and tenons: worked chords and lengths, reaches against arcs sampled point by point."""

import tomllib
from math import cos, pi, radians, sin
from pathlib import Path
from typing import Any

import pytest

from framecalc.corners.joints.slot_kinds import (
    Slot,
    biscuit_slot,
    disc_slot,
    dowel_hole,
    longest_tenon,
    mortise,
    outward_reach_mm,
    slot_area_mm2,
    usual_tenons,
)
from framecalc.errors import FrameCalcError
from framecalc.tables.wood import biscuits, dowels, tenon_thicknesses

CHECKS = tomllib.loads((Path(__file__).parents[3] / "check_values/slots.toml").read_text("utf-8"))


@pytest.mark.parametrize("check", CHECKS["chord"], ids=lambda check: check["name"])
def test_worked_chord(check: dict[str, Any]) -> None:
    slot = disc_slot("biscuit", depth_mm=check["depth_mm"], thickness_mm=4, disc_mm=100)
    assert slot.mouth_mm == pytest.approx(check["expect_mm"], abs=check["tolerance_mm"])


@pytest.mark.parametrize("check", CHECKS["tenon"], ids=lambda check: check["name"])
def test_worked_tenon(check: dict[str, Any]) -> None:
    found = longest_tenon(
        depth_mm=check["depths_mm"][0],
        other_depth_mm=check["depths_mm"][1],
        tenon_mm=check["tenon_mm"],
        glue_room_mm=check["glue_room_mm"],
    )
    assert (found.longest_mm, found.trim_mm) == (check["expect_longest_mm"], check["expect_trim_mm"])


def _reach_by_sampling(slot: Slot, half_turn_rad: float) -> float:
    """The furthest that any point of the slot lies toward the outer edge, seen along the member."""
    radius, depth = slot.disc_radius_mm, slot.depth_mm
    if not radius:
        points = [(-slot.mouth_mm / 2, 0.0), (-slot.mouth_mm / 2, depth)]
    else:
        arc = [pi * step / 20000 for step in range(20001)]
        points = [(radius * cos(turn), depth - radius + radius * sin(turn)) for turn in arc]
    return max(-along * cos(half_turn_rad) + inward * sin(half_turn_rad) for along, inward in points if inward >= -1e-9)


@pytest.mark.parametrize("half_turn_deg", [15.0, 36.0, 45.0, 60.0])
@pytest.mark.parametrize("depth_mm", [3.0, 8.0, 12.3, 14.6, 20.0, 35.0, 50.0])
def test_a_disc_reaches_outward_as_its_true_arc_does(half_turn_deg: float, depth_mm: float) -> None:
    slot = disc_slot("key", depth_mm=depth_mm, thickness_mm=4, disc_mm=100)
    found = outward_reach_mm(slot, half_turn_rad=radians(half_turn_deg))
    assert found == pytest.approx(_reach_by_sampling(slot, radians(half_turn_deg)), abs=0.02)


@pytest.mark.parametrize("half_turn_deg", [15.0, 45.0, 60.0])
def test_a_square_bottom_reaches_outward_with_its_corner(half_turn_deg: float) -> None:
    slot = mortise(width_mm=22, depth_mm=13, thickness_mm=6)
    found = outward_reach_mm(slot, half_turn_rad=radians(half_turn_deg))
    assert found == pytest.approx(_reach_by_sampling(slot, radians(half_turn_deg)))


def test_a_flat_disc_slot_has_two_thirds_of_the_area_of_its_box() -> None:
    slot = disc_slot("biscuit", depth_mm=8, thickness_mm=4, disc_mm=100)
    half = slot.mouth_mm / 2
    steps = [-half + slot.mouth_mm * (step + 0.5) / 4000 for step in range(4000)]
    area_mm2 = sum(2 * (8 - 50 + (50**2 - along**2) ** 0.5) * slot.mouth_mm / 4000 for along in steps)
    assert slot_area_mm2(slot) == pytest.approx(area_mm2, rel=0.03)


def test_the_biscuits_of_the_table_have_play_in_their_slots() -> None:
    assert [biscuit_slot(biscuit).depth_mm - biscuit.width_mm / 2 for biscuit in biscuits()] == pytest.approx(
        [0.5, 0.5, 0.8]
    )


def test_a_dowel_wants_a_hole_of_its_own_diameter() -> None:
    hole = dowel_hole(dowels()[1])
    assert hole.mouth_mm == hole.thickness_mm == dowels()[1].diameter_mm


def test_a_third_of_nineteen_is_a_six_millimetre_tenon() -> None:
    metric = [one for one in tenon_thicknesses() if one.is_metric]
    assert usual_tenons(metric, thickness_mm=19)[0].thickness_mm == 6


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"depth_mm": 51.0, "thickness_mm": 4.0, "disc_mm": 100.0}, "depth_mm"),
        ({"depth_mm": 8.0, "thickness_mm": 0.0, "disc_mm": 100.0}, "thickness_mm"),
        ({"depth_mm": 8.0, "thickness_mm": 4.0, "disc_mm": float("nan")}, "disc_mm"),
    ],
)
def test_discs_that_cannot_sink_are_refused(given: dict[str, float], field: str) -> None:
    with pytest.raises(FrameCalcError, match=r"^Enter ") as refusal:
        disc_slot("biscuit", **given)
    assert refusal.value.field == field


def test_glue_room_that_takes_the_whole_tenon_is_refused() -> None:
    with pytest.raises(FrameCalcError, match="leaves no tenon"):
        longest_tenon(depth_mm=5, other_depth_mm=5, tenon_mm=30, glue_room_mm=5)


def test_a_tenon_is_longest_with_the_glue_room_at_both_ends_and_none_is_left_when_that_takes_all() -> None:
    assert longest_tenon(depth_mm=3, other_depth_mm=3, tenon_mm=4, glue_room_mm=2.75).longest_mm == 0.5
    with pytest.raises(FrameCalcError, match="leaves no tenon"):
        longest_tenon(depth_mm=3, other_depth_mm=3, tenon_mm=4, glue_room_mm=3)
