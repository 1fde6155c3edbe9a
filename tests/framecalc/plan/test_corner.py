"""The corners of one frame: what was typed about them reaches the topics, and only what was typed."""

from typing import Any

import pytest
from test_plan import PANEL_IN_INCHES

from framecalc.errors import OutOfRange
from framecalc.plan import FramePlan, Plan
from framecalc.project import read_project


def planned(**corner: Any) -> FramePlan:
    frame = PANEL_IN_INCHES["frames"][0] | {"corner": corner}
    return Plan(read_project(PANEL_IN_INCHES | {"frames": [frame]})).frames["f1"]


def test_nothing_is_said_of_what_was_not_measured() -> None:
    corners = planned().corners
    assert corners.record is None and corners.closing is None and corners.squareness is None
    assert corners.polygon is None and corners.pairing is None and corners.wind is None
    assert corners.seasons.year is None and corners.joint is not None and corners.joint.slot_place is None


def test_the_worst_gap_is_an_equal_share_of_all_errors() -> None:
    """G* = (m/4)·|Σ| with the tips free to slide, and a length that differs opens no gap (derived in `closing`)."""
    corners = planned(sides={"top": {"start": "45.4", "long": "13 1/4 in"}, "left": {"finish": "45.4"}}).corners
    assert corners.closing is not None
    assert corners.closing.total_error_deg == pytest.approx(0.8)
    assert corners.closing.worst_gap_mm == pytest.approx(corners.mitre_length_mm / 4 * 0.8 * 3.14159265 / 180, abs=1e-3)


def test_a_shave_closes_the_frame() -> None:
    corners = planned(sides={"top": {"start": "47"}}).corners
    assert corners.shave is not None
    assert corners.shave.after.worst_gap_mm < corners.closing.worst_gap_mm / 10  # type: ignore[union-attr]


@pytest.mark.parametrize(("slope", "mitre_deg", "tilt_deg"), [("45", 35.264, 30.0), ("52", 31.619, 33.863)])
def test_published_settings_of_sloping_sides(slope: str, mitre_deg: float, tilt_deg: float) -> None:
    """Crown settings as published, 45 and 38 from the wall: see `tests/check_values`."""
    flat, propped = planned(slope=slope).corners.sloping
    assert (flat.mitre_deg, flat.tilt_deg) == pytest.approx((mitre_deg, tilt_deg), abs=5e-4)
    assert (propped.mitre_deg, propped.tilt_deg) == pytest.approx((45, 0))


def test_six_measures_make_a_verdict_and_five_do_not() -> None:
    six = dict(
        across_top="13 in",
        across_bottom="13 in",
        up_left="16 in",
        up_right="16 in",
        rising="20 3/4 in",
        falling="20 1/2 in",
    )
    assert planned(clamps=six).corners.squareness is not None
    assert planned(clamps=six | {"falling": None}).corners.squareness is None


@pytest.mark.parametrize("months", ["35 40", "a b c d e f g h i j k l", " ".join(["120"] * 12)])
def test_what_are_no_twelve_humidities_is_refused(months: str) -> None:
    with pytest.raises(OutOfRange):
        _ = planned(seasons={"species": "white_oak", "months": months}).corners.seasons.year


def test_twelve_equal_months_open_nothing_settled_to_them() -> None:
    year = planned(seasons={"species": "white_oak", "months": " ".join(["45"] * 12)}).corners.seasons.year
    assert year is not None and max(month.gap_mm for month in year.months) < 0.3


@pytest.mark.parametrize("batch", [{"top": "0.1"}, {"top": "x", "right": "0", "bottom": "0", "left": "0"}])
def test_a_batch_that_is_none_is_refused(batch: dict[str, str]) -> None:
    with pytest.raises(OutOfRange):
        _ = planned(batch=batch).corners.pairing


def test_two_things_in_one_place_clash() -> None:
    joint = {"kind": "loose tenon", "size": "tenon 5 x 30", "also_spline": True, "spline_depth": "40 mm"}
    plan = planned(joint=joint | {"height": "4 mm"})
    assert plan.corners.joint is not None and plan.corners.joint.clashes


def test_a_wedge_is_placed_and_its_walls_measured() -> None:
    joint = planned(joint={"also_wedge": True}).corners.joint
    assert joint is not None and joint.wedge is not None
    assert joint.wedge.walls.outer_mm == pytest.approx(12 / 2**0.5 - 6)  # its legs run square to the outer edges


def test_longest_tenon_in_two_slots_of_twelve() -> None:
    """Common practice, no source: a 30 mm tenon in two 12 mm slots is trimmed by 7 to 8 mm for its glue room."""
    joint = {"kind": "loose tenon", "size": "tenon 5 x 30", "depth": "12 mm"}
    length = planned(joint=joint).corners.joint.tenon_length  # type: ignore[union-attr]
    assert length is not None and 7 <= length.trim_mm <= 8
