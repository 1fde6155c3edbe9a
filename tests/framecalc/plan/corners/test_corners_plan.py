"""The corners of one frame: what was typed about them reaches the topics, and only what was typed."""

from math import radians
from typing import Any

import pytest
from panel import PANEL_IN_INCHES

from framecalc.corners.saw import Turn
from framecalc.corners.saw_record import SawVerdict
from framecalc.errors import ImpossibleJoint, OutOfRange
from framecalc.findings import Severity
from framecalc.plan.corners.corners import CornerPlan, corner_field
from framecalc.plan.frame import FramePlan
from framecalc.plan.light import Stage
from framecalc.plan.whole import Plan
from framecalc.project import read_project

SIX = dict(
    across_top="13 in",
    across_bottom="13 in",
    up_left="16 in",
    up_right="16 in",
    rising="20 3/4 in",
    falling="20 1/2 in",
)


def corners(**corner: Any) -> CornerPlan:
    return corners_of({"corner": corner})


def corners_of(changes: dict[str, Any]) -> CornerPlan:
    return frame_of(changes).corners


def frame_of(changes: dict[str, Any]) -> FramePlan:
    frame = PANEL_IN_INCHES["frames"][0] | changes
    return Plan(read_project(PANEL_IN_INCHES | {"frames": [frame]})).frames["f1"]


def cuts(*outsides_mm: float, **more: Any) -> list[dict[str, Any]]:
    return [
        {"id": f"t{number}", "outside_gap": f"{gap_mm} mm", "inside_gap": "0 mm"} | more
        for number, gap_mm in enumerate(outsides_mm)
    ]


def test_nothing_is_said_of_what_was_not_measured() -> None:
    plan = corners()
    assert plan.saw.record() is None and plan.parts.closing is None and plan.clamps.squareness is None
    assert plan.parts.pairing is None and plan.clamps.wind is None
    assert plan.seasons.year is None and plan.joint is not None and not plan.joint.is_chosen


def test_the_worst_gap_is_an_equal_share_of_all_errors() -> None:
    """G* = (m/4)·|Σ| with the tips free to slide, and a length that differs opens no gap (derived in `closing`)."""
    plan = corners(sides={"top": {"start": "45.4", "long": "13 1/4 in"}, "left": {"finish": "45.4"}})
    assert plan.parts.closing is not None
    assert plan.parts.closing.total_error_deg == pytest.approx(0.8)
    assert plan.parts.closing.worst_gap_mm == pytest.approx(plan.mitre_length_mm / 4 * radians(0.8), abs=1e-3)


def test_a_shave_closes_the_frame() -> None:
    parts = corners(sides={"top": {"start": "47"}}).parts
    assert parts.shave is not None and parts.closing is not None
    assert parts.shave.after.worst_gap_mm < parts.closing.worst_gap_mm / 10


def test_sides_are_foretold_from_the_test_cuts() -> None:
    plan = corners(tests=cuts(0.3))
    assert plan.parts.are_foretold and plan.parts.closing is not None
    assert plan.parts.closing.total_error_deg == pytest.approx(8 * plan.saw.current_deg[0])


@pytest.mark.parametrize("sides", [3, 6, 8])
def test_the_closing_of_a_polygon_is_foretold_from_its_test_cuts(sides: int) -> None:
    """Every end is off by as much, so the last mitre takes them all; spread evenly, each gapes by its own two."""
    plan = corners(polygon=sides, polygon_flats="12 in", tests=cuts(0.3))
    (error_deg, *_), closing = plan.saw.current_deg, plan.parts.closing
    assert plan.parts.are_foretold and closing is not None and len(closing.corners) == sides
    assert closing.total_error_deg == pytest.approx(2 * sides * error_deg)
    assert closing.worst_gap_mm == pytest.approx(plan.mitre_length_mm * abs(radians(2 * error_deg)), rel=1e-3)


def test_of_two_settings_the_mean_may_be_off_by_half_of_what_both_may() -> None:
    """Fault: the mean error of an end was held against what left and right together may be off by."""
    gap_mm = 0.35  # each end off by 0.35/2m; the corners then gape by 0.35 mm, and 0.2 mm is allowed
    one, two = (corners(tests=cuts(gap_mm, gap_mm, gap_mm), cutting=cutting) for cutting in
                ("all ends from one setting", "a sled with two fences"))  # fmt: skip
    records = [plan.saw.record() for plan in (one, two)]
    assert [record.verdict for record in records if record] == [SawVerdict.TURN, SawVerdict.TURN]


def test_a_turned_fence_leaves_old_cuts_to_the_spread_alone() -> None:
    plan = corners(tests=[*cuts(0.3, 0.31), {"id": "n1", "outside_gap": "0 mm", "inside_gap": "0.05 mm", "setting": 1}],
                   settings=1)  # fmt: skip
    record = plan.saw.record()
    assert record is not None and record.count == 1 and record.earlier_count == 2
    assert plan.saw.correction(record).turn is Turn.TO_SQUARE


def test_cuts_before_the_saw_was_changed_say_nothing_of_it() -> None:
    new = {"id": "n1", "outside_gap": "0 mm", "inside_gap": "0.05 mm", "since": "new fence"}
    saw = corners(tests=[*cuts(0.3, 0.31), new], since="New fence").saw
    record = saw.record()
    assert record is not None and (record.count, record.earlier_count) == (1, 0)
    assert [read.is_current for read in saw.cuts] == [False, False, True]


def test_cuts_from_one_fence_are_no_part_of_the_mean() -> None:
    tests = [*cuts(0.2), {"id": "l1", "ends": "both ends from the left fence", "outside_gap": "0 mm",
                          "inside_gap": "0 mm"}]  # fmt: skip
    saw = corners(tests=tests, cutting="a sled with two fences").saw
    assert len(saw.current_deg) == 1
    assert saw.fences is not None and saw.fences.left_deg == pytest.approx(0)
    assert saw.fences.right_deg == pytest.approx(2 * saw.current_deg[0])


@pytest.mark.parametrize(("slope", "mitre_deg", "tilt_deg"), [("45", 35.264, 30.0), ("52", 31.619, 33.863)])
def test_published_settings_of_sloping_sides(slope: str, mitre_deg: float, tilt_deg: float) -> None:
    """Crown settings as published, 45 and 38 from the wall: see `tests/check_values`."""
    plan = corners(slope=slope)
    assert plan.propped is not None
    assert (plan.flat.mitre_deg, plan.flat.tilt_deg) == pytest.approx((mitre_deg, tilt_deg), abs=5e-4)
    assert (plan.propped.mitre_deg, plan.propped.tilt_deg) == pytest.approx((45, 0))


def test_a_rectangle_that_slopes_has_a_wide_and_a_narrow_edge_on_either_side() -> None:
    """On edge both are as long; at 60 the narrow one is shorter by the face width, half of what it is when flat."""
    width_mm = 38.1
    for slope, taken_mm in (("90", 0.0), ("60", width_mm)):
        plan = corners(slope=slope)
        assert [side.long_mm for side in plan.members] == pytest.approx(plan.outside_mm)
        assert [side.long_mm - side.short_mm for side in plan.members] == pytest.approx([taken_mm] * 2)


def test_a_polygon_makes_the_whole_page_one_about_it() -> None:
    square, octagon = corners(), corners(polygon=8, polygon_flats="12 in", tests=cuts(0.3))
    assert octagon.mitre_length_mm < square.mitre_length_mm
    assert octagon.saw.tolerance.last_deg < square.saw.tolerance.last_deg
    assert octagon.flat.mitre_deg == pytest.approx(22.5) and octagon.is_polygon
    measured = corners(polygon=8, polygon_flats="12 in", sides={"top": {"long": "6 in"}})
    with pytest.raises(OutOfRange, match="8 sides"):
        _ = measured.parts.closing


def test_a_measured_rabbet_size_holds_a_package_less_its_clearance() -> None:
    by_package = corners(polygon=6, polygon_flats="12 in").members
    by_rabbet = corners(polygon=6, polygon_flats="12 1/8 in", polygon_given="the rabbet size, across the flats").members
    assert by_package == by_rabbet


def test_six_measures_make_a_verdict_and_five_do_not() -> None:
    assert corners(clamps=SIX).clamps.squareness is not None
    assert corners(clamps=SIX | {"falling": None}).clamps.squareness is None


def test_six_measures_and_a_rock_say_nothing_of_an_octagon() -> None:
    """Fault: the six measures of a rectangle were judged on an octagon too."""
    held = corners(clamps=SIX | {"rock": "1/8 in"}, polygon=8, polygon_flats="12 in").clamps
    assert held.squareness is None and held.wind is None and not held.findings


def test_a_spline_is_a_lever_though_none_is_chosen() -> None:
    wood = {"species": "white_oak"}
    plain, splined = (corners(seasons=wood, joint=joint).seasons for joint in ({}, {"kind": "spline"}))
    assert plain.levers is not None and splined.levers is not None
    assert plain.spline_depth_mm > splined.spline_depth_mm > 0
    assert plain.levers.splined_mm < splined.levers.splined_mm < splined.levers.now_mm


def test_a_strap_let_down_presses_more_evenly() -> None:
    held = corners(clamps={"strap_force": "300"}).clamps
    assert held.strap is not None and held.eased is not None
    assert held.eased.evenness_ratio > held.strap.evenness_ratio


def test_the_usual_pull_presses_the_weakest_mitre_as_usual() -> None:
    held = corners(clamps={}).clamps
    assert held.usual_pulls_n is not None
    tight = corners(clamps={"strap_force": f"{held.usual_pulls_n[0]:.1f}"}).clamps
    assert tight.pressure is not None and tight.pressure.least_mpa == pytest.approx(0.7, abs=0.001)


@pytest.mark.parametrize("months", ["35 40", "a b c d e f g h i j k l", " ".join(["120"] * 12)])
def test_what_are_no_twelve_humidities_is_refused(months: str) -> None:
    with pytest.raises(OutOfRange):
        _ = corners(seasons={"species": "white_oak", "months": months}).seasons.year


def test_twelve_equal_months_open_nothing_settled_to_them() -> None:
    year = corners(seasons={"species": "white_oak", "months": " ".join(["45"] * 12)}).seasons.year
    assert year is not None and max(month.gap_mm for month in year.months) < 0.3


@pytest.mark.parametrize("batch", [{"top": "0.1"}, {"top": "x", "right": "0", "bottom": "0", "left": "0"}])
def test_a_batch_that_is_none_is_refused(batch: dict[str, str]) -> None:
    with pytest.raises(OutOfRange):
        _ = corners(batch=batch).parts.pairing


def test_two_things_in_one_place_clash() -> None:
    joint = {"kind": "loose tenon", "size": "tenon 5 x 30", "also_spline": True, "spline_depth": "40 mm"}
    placed = corners(joint=joint | {"height": "4 mm"}).joint
    assert placed is not None and placed.clashes and not placed.is_sound


def test_several_splines_are_spread_and_have_one_depth_that_does_for_all() -> None:
    joint = corners(joint={"kind": "spline", "spline_count": 2, "spline_depth": "10 mm"}).joint
    assert joint is not None and len(joint.splines) == 2
    assert joint.even_depth_mm == pytest.approx(min(spline.deepest_mm for spline in joint.splines))


def test_a_half_lap_is_cut_back_on_one_pair_only() -> None:
    plan = corners(joint={"kind": "half-lap"})
    assert plan.joint.half_laps is not None
    level, upright = plan.joint.half_laps
    assert upright.long_mm == plan.outside_mm[1]
    assert level.cut_back_mm == pytest.approx(plan.outside_mm[0] - 2 * level.lap_mm)


@pytest.mark.parametrize("kind", ["half-lap", "bridle"])
def test_members_of_a_tray_do_not_lap(kind: str) -> None:
    section = PANEL_IN_INCHES["frames"][0]["section"] | {"kind": "tray"}
    joint = corners_of({"section": section, "corner": {"joint": {"kind": kind}}}).joint
    with pytest.raises(ImpossibleJoint, match="Ledges are in the way: choose a slot or spline"):
        _ = joint.lapped


def test_a_wedge_is_placed_and_its_walls_measured() -> None:
    joint = corners(joint={"also_wedge": True}).joint
    assert joint is not None and joint.wedge is not None
    assert joint.wedge.walls.outer_mm == pytest.approx(12 / 2**0.5 - 6)  # its legs run square to the outer edges


def test_longest_tenon_in_two_slots_of_twelve() -> None:
    """Common practice, no source: a 30 mm tenon in two 12 mm slots is trimmed by 7 to 8 mm for its glue room."""
    joint = corners(joint={"kind": "loose tenon", "size": "tenon 5 x 30", "depth": "12 mm"}).joint
    assert joint is not None and joint.tenon_length is not None
    assert 7 <= joint.tenon_length.trim_mm <= 8


def test_a_tenon_is_as_thick_and_as_long_as_typed() -> None:
    """Fault: five sizes could be chosen, and a strip of 1/4 in could not be typed."""
    joint = corners(joint={"kind": "loose tenon", "tenon_thickness": "1/4 in", "tenon_length": "1 1/2 in"}).joint
    assert joint.slot_place is not None and joint.slot_place.slot.name == "tenon 1/4 × 1 1/2 in"
    assert joint.slot_place.slot.thickness_mm == pytest.approx(6.35)
    assert joint.slot_place.slot.depth_mm == pytest.approx((38.1 + 1) / 2)
    deep = corners(joint={"kind": "loose tenon", "tenon_thickness": "6 mm", "depth": "1/2 in"}).joint
    assert deep.tenon_length is not None and deep.tenon_length.longest_mm == pytest.approx(25.4 - 2)
    assert corners(joint={"kind": "loose tenon", "tenon_thickness": "6 mm"}).joint.slot_place is None


@pytest.mark.parametrize(
    ("kind", "field"), [("loose tenon", "corner.joint.tenon_thickness"), ("biscuit", "corner.joint.size")]
)
def test_a_joint_whose_size_nobody_measured_is_to_be_checked_before_cutting(kind: str, field: str) -> None:
    """Fault: the page said "Bare mitre", and the light was green."""
    frame = frame_of({"corner": {"joint": {"kind": kind}}})
    (found,) = [one for one in frame.concerns if one.code == "joints.no-size"]
    assert (found.severity, found.stage, found.field) == (Severity.WARN, Stage.CUTTING, field)
    assert not frame.corners.joint.is_sound


@pytest.mark.parametrize("size", ["5 x 30", "6 x 40", "8 x 40", "8 x 50", "10 x 50"])
def test_a_tenon_that_an_older_file_chose_by_its_size_is_cut_as_before(size: str) -> None:
    thickness_mm, length_mm = map(float, size.split(" x "))
    section = PANEL_IN_INCHES["frames"][0]["section"] | {"face_width": "4 in", "thickness": "2 in"}
    corner = {"joint": {"kind": "loose tenon", "size": f"tenon {size}"}}
    place = frame_of({"section": section, "corner": corner}).corners.joint.slot_place
    assert place is not None
    assert (place.slot.thickness_mm, place.slot.depth_mm) == (thickness_mm, (length_mm + 1) / 2)


def test_the_depth_of_a_tenons_slot_is_no_depth_of_a_biscuit() -> None:
    """Fault: a depth typed for a tenon, hidden by now, was taken for the biscuit, its chord left as it was."""
    biscuit = {"kind": "biscuit", "size": "biscuit #0"}
    wide = {"section": PANEL_IN_INCHES["frames"][0]["section"] | {"face_width": "4 in"}}
    plain, typed = (
        corners_of(wide | {"corner": {"joint": joint}}).joint for joint in (biscuit, biscuit | {"depth": "5 mm"})
    )
    assert plain is not None and typed is not None and typed.slots == plain.slots


def test_a_mitre_has_two_dowels_where_they_have_room_and_one_where_nobody_asked_for_two() -> None:
    wide = {"section": PANEL_IN_INCHES["frames"][0]["section"] | {"face_width": "3 in"}}
    dowel = {"kind": "dowel", "size": "dowel 6 x 30", "height": "9 mm"}
    one, two = (corners_of(wide | {"corner": {"joint": joint}}).joint for joint in (dowel, dowel | {"dowel_count": 2}))
    assert one is not None and len(one.slot_places) == 1
    assert two is not None and [prism.name for prism in two.prisms] == ["dowel 6 x 30, 1", "dowel 6 x 30, 2"]
    assert two.is_sound and not two.clashes
    assert two.strength and one.strength and two.strength.least_ratio > one.strength.least_ratio


def test_where_one_dowel_alone_has_room_it_is_said() -> None:
    narrow = {"section": PANEL_IN_INCHES["frames"][0]["section"] | {"face_width": "1 1/4 in"}}
    dowel = {"kind": "dowel", "size": "dowel 6 x 30", "height": "9 mm", "dowel_count": 2}
    joint = corners_of(narrow | {"corner": {"joint": dowel}}).joint
    assert joint is not None and len(joint.slot_places) == 1
    assert "joints.one-dowel" in [finding.code for finding in joint.findings]


def test_a_spline_that_meets_one_of_two_dowels_clashes_with_it() -> None:
    wide = {"section": PANEL_IN_INCHES["frames"][0]["section"] | {"face_width": "3 in"}}
    dowel = {"kind": "dowel", "size": "dowel 6 x 30", "height": "9 mm", "dowel_count": 2}
    splined = dowel | {"also_spline": True, "spline_depth": "50 mm"}
    joint = corners_of(wide | {"corner": {"joint": splined}}).joint
    assert joint is not None and {clash.one for clash in joint.clashes} >= {"dowel 6 x 30, 1"}


def test_what_fits_is_told_of_every_kind_and_is_sound() -> None:
    wide = {"section": PANEL_IN_INCHES["frames"][0]["section"] | {"face_width": "3 in"}}
    joint = corners_of(wide | {"corner": {"joint": {"kind": "none", "width": "10 mm"}}}).joint
    assert joint is not None and list(joint.best_slots) == ["loose tenon", "biscuit", "dowel"]
    placed = [place for place in joint.best_slots.values() if place]
    assert placed and all(place.walls.sound for place in placed)
    assert corners(joint={"height": "3 in"}).joint.best_slots["dowel"] is None


def test_every_finding_of_the_corners_names_a_field_of_the_file() -> None:
    sloping = frame_of({"corner": {"slope": "85", "polygon": 3, "polygon_flats": "12 in"}})
    jointed = frame_of(
        {
            "corner": {
                "clamps": {"strap_force": "5"},
                "seasons": {"species": "white_oak", "moisture": "14", "room_temperature": "20", "room_humidity": "30"},
                "joint": {"kind": "spline", "spline_depth": "50 mm", "spline_kerf": "6 mm"},
            }
        }
    )
    plan = jointed.corners
    found = (*plan.clamps.findings, *plan.seasons.findings, *plan.joint.findings)
    settings = sloping.corners.findings_of_settings
    assert settings and len({finding.code for finding in (*found, *settings)}) >= 4
    of_corners = {corner_field(finding.argument) for finding in found}
    assert all(field == "species" or field.startswith("corner.") for field in of_corners)
    fields = {sloping.path_of(corner_field(finding.argument)) for finding in settings}
    assert fields <= {"frames.f1.shape.sides", "frames.f1.shape.slope"}
