"""The shape of a frame through its whole plan: a polygon's parts against Shapely, and what no page plans is refused."""

from math import cos, pi, radians, tan
from typing import Any

import pytest
from panel import PANEL_IN_INCHES
from shapely import Polygon

from framecalc.errors import FrameCalcError
from framecalc.findings import Severity
from framecalc.plan.client import client_facts
from framecalc.plan.frame import FramePlan
from framecalc.plan.templates.templates import templates_of
from framecalc.plan.whole import Plan
from framecalc.project import read_project

INCH = 25.4
GLASS = {"id": "gl", "name": "glass", "kind": "glazing", "thickness": "2 mm", "tolerance": "0 mm", "material": "glass"}
COVER = {"id": "dc", "name": "dust cover", "kind": "dust cover", "thickness": "0.1 mm", "tolerance": "0 mm"}
SHAPES = {"polygon": {"sides": 6, "size": "12.99 in"}, "slope": {"slope": "20"}}


def document(shape: dict[str, Any], **frame: Any) -> dict[str, Any]:
    return PANEL_IN_INCHES | {"schema": 2, "frames": [PANEL_IN_INCHES["frames"][0] | {"shape": shape} | frame]}


def whole(shape: dict[str, Any], **frame: Any) -> Plan:
    return Plan(read_project(document(shape, **frame)))


def planned(shape: dict[str, Any], **frame: Any) -> FramePlan:
    return whole(shape, **frame).frames["f1"]


def packed(*layers: dict[str, Any]) -> dict[str, Any]:
    package = PANEL_IN_INCHES["frames"][0]["package"]
    return package | {"layers": [*layers, *package["layers"]]}


def test_a_hexagon_needs_its_package_across_corners_and_flats() -> None:
    """Fault: glass was cut 12 × 12 in for a hexagon of 12.99 in across its flats, 15 in across its corners."""
    plan = planned(SHAPES["polygon"])
    figures = plan.figures
    assert figures["package_flats"].exact_mm / INCH == pytest.approx(12.99)
    assert figures["package_across"].exact_mm / INCH == pytest.approx(15.0, abs=5e-4)
    assert figures["package_up"].exact_mm == pytest.approx(figures["package_flats"].exact_mm)
    assert figures["package_corners"].exact_mm == pytest.approx(figures["package_across"].exact_mm)


@pytest.mark.parametrize("sides", [3, 5, 6, 7, 8, 12])
def test_parts_hold_the_polygon_and_the_marks_are_its_corners(sides: int) -> None:
    project = whole({"sides": sides, "size": "300 mm"}, package=packed(GLASS))
    group = next(group for group in project.sheets.groups if group.material.name == "glass")
    (part,), (polygon,) = group.parts, group.polygons
    outline = Polygon(polygon.corners)
    left, bottom, right, top = outline.bounds
    flats_mm = project.frames["f1"].sizes.package_across_mm
    step_mm = float(project.frames["f1"].step.size_mm)
    assert left >= -1e-6 and bottom == pytest.approx(0, abs=1e-6)
    assert right <= part.across_mm + 1e-6 and top <= part.up_mm + 1e-6
    assert part.across_mm - (right - left) < step_mm and part.up_mm - (top - bottom) < step_mm
    assert flats_mm - step_mm < polygon.flats_mm <= flats_mm + 1e-6
    assert outline.area == pytest.approx(sides / 4 * polygon.flats_mm**2 * tan(pi / sides))


@pytest.mark.parametrize("sides", [3, 5, 6, 8])
def test_glass_and_dust_cover_weigh_by_their_true_area(sides: int) -> None:
    many = planned({"sides": sides, "size": "300 mm"}, package=packed(GLASS))
    square = planned({}, package=packed(GLASS), artwork={"kind": "panel", "across": "300 mm", "up": "300 mm"})
    flats_mm = many.sizes.package_across_mm
    outline = Polygon(many.shape.corners(flats_mm, flats_mm))
    masses = [plan.package.weights.by_layer["gl"].mass_kg for plan in (many, square)]
    assert masses[0] / masses[1] == pytest.approx(outline.area / flats_mm**2)


@pytest.mark.parametrize("sides", [3, 5, 6, 8])
def test_the_wood_of_many_sides_weighs_by_its_rings(sides: int) -> None:
    """Fault: a hexagon was weighed, and its bottom member bent, as four sides of its measure across the flats."""
    plan = planned({"sides": sides, "size": "300 mm"})
    handling, sizes = plan.package.handling, plan.sizes
    assert handling is not None
    outside, rabbet, sight = (
        Polygon(plan.shape.corners(flats_mm, flats_mm)).area
        for flats_mm in (sizes.outside_across_mm, sizes.rabbet_across_mm, sizes.sight_across_mm)
    )
    volume_mm3 = (outside - sight) * 0.75 * INCH - (rabbet - sight) * 0.375 * INCH
    assert handling.timber_kg == pytest.approx(volume_mm3 * handling.species.density_kg_m3 / 1e9)
    assert handling.beam.span_mm == pytest.approx(sizes.rabbet_across_mm * tan(pi / sides))


def test_four_equal_sides_are_planned_like_a_square() -> None:
    """The chain across the flats is that of a square: with four sides both give the same figures."""
    square = planned({}, artwork={"kind": "panel", "across": "300 mm", "up": "300 mm"})
    many = planned({"sides": 5, "size": "300 mm"})
    for name in ("outside", "sight", "rabbet", "package"):
        assert many.figures[f"{name}_flats"].exact_mm == pytest.approx(square.figures[f"{name}_across"].exact_mm)


def test_the_stick_and_its_kerfs_go_round_all_sides() -> None:
    plan = planned(SHAPES["polygon"])
    (member,) = plan.members
    kerf_mm, trim_mm = INCH / 8, INCH
    assert plan.figures["slant_kerf"].exact_mm == pytest.approx(kerf_mm / cos(pi / 6))
    needed_mm = 6 * member.long_mm + 5 * kerf_mm / cos(pi / 6) + 2 * trim_mm
    assert plan.figures["stick_needed"].exact_mm == pytest.approx(needed_mm)


def test_retainers_stand_along_every_side() -> None:
    plan = planned(SHAPES["polygon"])
    assert plan.package.retainers is not None
    spacing, same = plan.package.retainers.spacings
    assert spacing == same and plan.package.retainers.count == 6 * spacing.count


def test_a_sloping_frame_keeps_the_clearance_and_covers_less() -> None:
    """Fault: 3 mm of play became 7.9 mm, and the cover was that of flat sides."""
    flat, sloping = planned({}), planned(SHAPES["slope"])
    assert sloping.figures["play_across"].exact_mm == pytest.approx(flat.figures["play_across"].exact_mm)
    lap_mm = INCH / 2 * cos(radians(20))
    assert sloping.figures["cover_centred_across"].exact_mm == pytest.approx(lap_mm - INCH / 16)
    assert sloping.figures["sight_across"].exact_mm == pytest.approx(sloping.sizes.rabbet_across_mm - 2 * lap_mm)
    assert [member.short_mm for member in sloping.members] == pytest.approx(
        [sloping.figures[f"sight_{way}"].exact_mm for way in ("across", "up")]
    )


@pytest.mark.parametrize(
    ("sides", "size", "says"),
    [
        ({"top": {"start": "55"}}, {}, "Enter 40° to 50° for an end that is right at 45°"),
        ({"top": {"start": "45"}}, {"slope": "60"}, "right at 63.43°"),
    ],
)
def test_an_end_far_from_right_is_no_end_of_these_sides(sides: dict[str, Any], size: dict[str, Any], says: str) -> None:
    plan = planned(size, corner={"sides": sides})
    with pytest.raises(FrameCalcError, match=says) as refusal:
        _ = plan.corners.parts.closing
    assert refusal.value.field == "corner.sides.top.start"


def test_ends_of_sloping_sides_are_right_at_their_own_angle() -> None:
    """Fault: an end of 46.78° was read as 1.78° off, where the sides slope by 20°."""
    ends = {side: {"start": "46.78", "finish": "46.78"} for side in ("top", "right", "bottom", "left")}
    closing = planned(SHAPES["slope"], corner={"sides": ends}).corners.parts.closing
    assert closing is not None and closing.worst_gap_mm < 0.01


def test_a_hexagon_is_as_wide_on_every_page_and_its_members_are_never_too_short() -> None:
    """Fault: of one package Setting-out said 13 13/16 from corner to corner, and Sheets cut it from 13 7/8."""
    plan = planned({"sides": 6, "size": "12 in"}, package=packed(GLASS))
    assert plan.figures["package_corners"].text == "13 7/8"
    (material,) = Plan(plan.project).sheets.groups
    assert material.parts[0].across_mm == pytest.approx(13.875 * INCH)
    long = plan.figures["member_long"]
    assert -INCH / 16 < long.written.remainder_mm <= 0


MAT = {"overlap": "1/4 in", "border": "2 in", "bottom": "2 in"}
CANVAS = {"kind": "canvas", "across": "12 in", "up": "12 in"}
WALL = {"given": "wall", "wall_across": "20 in", "wall_up": "20 in"}
REFUSED: dict[str, tuple[dict[str, Any], dict[str, Any], str]] = {
    "no measure": ({"sides": 6}, {}, "shape.size"),
    "wall": (
        SHAPES["polygon"],
        {"start": WALL},
        "start.given",
    ),
    "a clearance as large as the rabbet": (
        {"sides": 6, "size": "1/8 in", "given": "the rabbet size, across the flats"},
        {},
        "shape.size",
    ),
    "a tray that slopes": (
        SHAPES["slope"],
        {"section": PANEL_IN_INCHES["frames"][0]["section"] | {"kind": "tray"}},
        "shape.slope",
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_a_shape_that_is_not_planned_is_refused_beside_its_field(case: str) -> None:
    shape, frame, field = REFUSED[case]
    plan = planned(shape, **frame)
    with pytest.raises(FrameCalcError) as refusal:
        plan.compute_all()
    assert refusal.value.field == f"frames.f1.{field}"
    assert [concern.severity for concern in plan.concerns] == [Severity.STOP]


BOARD = {
    "id": "mb",
    "name": "mat",
    "kind": "mat",
    "thickness": "1.5 mm",
    "tolerance": "0 mm",
    "material": "matboard_4ply",
}


@pytest.mark.parametrize("sides", [3, 5, 6, 7, 8, 12])
def test_a_mat_of_many_sides_has_a_window_parallel_to_its_outside(sides: int) -> None:
    """Fault: the mat of a polygon was a whole board, its window to be marked by hand."""
    plan = planned({"sides": sides, "size": "16 in"}, package=packed(BOARD) | {"mat": MAT})
    outside, window, sheet = (
        Polygon(plan.shape.corners(flats_mm, flats_mm))
        for flats_mm in (plan.sizes.package_across_mm, *(plan.figures[f"{n}_flats"].exact_mm for n in FLATS))
    )
    assert _are_one(outside, window.buffer(2 * INCH, join_style="mitre", mitre_limit=9))
    assert _are_one(sheet, window.buffer(INCH / 4, join_style="mitre", mitre_limit=9))
    left, bottom, right, top = window.bounds
    assert plan.figures["window_across"].exact_mm == pytest.approx(right - left)
    assert plan.figures["window_up"].exact_mm == pytest.approx(top - bottom)
    whole_board = planned({"sides": sides, "size": "16 in"}, package=packed(BOARD | {"kind": "backing"}))
    masses = [one.package.weights.by_layer["mb"].mass_kg for one in (plan, whole_board)]
    assert masses[0] / masses[1] == pytest.approx(1 - window.area / outside.area)


FLATS = ("window", "artwork")


def _are_one(one: Polygon, other: Polygon) -> bool:
    return float(one.symmetric_difference(other).area) < 1e-6 * float(one.area)


def test_a_mat_of_six_sides_is_cut_and_drawn_as_one() -> None:
    plan = planned(SHAPES["polygon"], package=packed(BOARD) | {"mat": MAT | {"reveal": "1/4 in"}})
    mats = plan.package.mats
    assert mats is not None
    (lower,) = mats.cut[-1].settings
    assert (lower.left_mm, lower.top_mm, lower.bottom_mm) == pytest.approx((2 * INCH,) * 3)
    (upper,) = mats.cut[0].settings
    assert upper.bottom_mm == pytest.approx(1.75 * INCH)
    template = templates_of(plan).named("lower-mat")
    assert template is not None
    (outside,), (hole,) = template.outlines, template.holes
    assert len(outside.segments) == len(hole.segments) == 6
    assert template.across_mm == pytest.approx(plan.figures["package_across"].exact_mm)


def test_a_border_that_leaves_no_window_in_a_polygon_is_refused_beside_its_field() -> None:
    plan = planned(SHAPES["polygon"], package=packed(BOARD) | {"mat": MAT | {"border": "7 in"}})
    with pytest.raises(FrameCalcError, match="No window left") as refusal:
        plan.compute_all()
    assert refusal.value.field == "frames.f1.package.mat.border"


def test_further_windows_in_a_polygon_stop_the_light() -> None:
    picture = {"id": "w2", "across": "4 in", "up": "4 in"}
    plan = planned(SHAPES["polygon"], package=packed(BOARD) | {"mat": MAT | {"windows": [picture]}})
    assert "mat.one-window" in plan.stops and not plan.is_ready


def test_the_borders_of_a_polygon_are_one() -> None:
    """The bottom is what the others are, and nobody is asked to confirm it."""
    plan = planned(SHAPES["polygon"], package=packed(BOARD) | {"mat": MAT | {"bottom": "3 in"}})
    assert plan.figures["border_bottom"].exact_mm == pytest.approx(2 * INCH)
    assert "mat_bottom_mm" in plan.settled.solved


def test_a_stretcher_of_six_sides_stops_the_light() -> None:
    plan = planned(SHAPES["polygon"], artwork=CANVAS)
    refused = next(concern for concern in plan.concerns if concern.group == "canvas")
    assert refused.is_refusal and plan.field_of(refused) == "frames.f1.shape.sides" and not plan.is_ready


def test_a_joint_in_sloping_sides_is_refused() -> None:
    plan = planned(SHAPES["slope"], corner={"joint": {"kind": "spline"}})
    refused = next(concern for concern in plan.concerns if concern.group == "joint")
    assert refused.is_refusal and plan.field_of(refused) == "frames.f1.corner.joint.kind"


@pytest.mark.parametrize("shape", SHAPES.values(), ids=SHAPES)
def test_a_stick_in_hand_is_for_flat_rectangles(shape: dict[str, Any]) -> None:
    with pytest.raises(FrameCalcError, match="flat frames of four sides"):
        _ = whole(shape).frames_from_a_stick.frame


@pytest.mark.parametrize("sides", [3, 6, 8])
def test_a_tray_of_many_sides_has_an_even_gap(sides: int) -> None:
    section = PANEL_IN_INCHES["frames"][0]["section"] | {"kind": "tray"}
    plan = planned({"sides": sides, "size": "12 in"}, section=section)
    assert plan.tray is not None
    assert plan.tray.inside_across_mm == plan.tray.inside_up_mm == pytest.approx(12.5 * INCH)
    assert plan.figures["member_short"].exact_mm == pytest.approx(12.5 * INCH * tan(pi / sides))


def test_the_plan_file_states_the_shape() -> None:
    (frame,) = whole(SHAPES["polygon"]).record()["frames"]
    assert frame["shape"] == {"sides": 6, "slope_deg": 0.0}
    assert frame["figures"]["outside_flats"]["exact_mm"] == pytest.approx((12.99 + 0.125 - 1 + 3) * INCH)


@pytest.mark.parametrize(
    ("shape", "says"), [(SHAPES["polygon"], "6 sides, flat face"), (SHAPES["slope"], "sloping 20°")]
)
def test_a_client_approves_the_shape_too(shape: dict[str, Any], says: str) -> None:
    facts = {fact.name: fact.text for fact in client_facts(planned(shape)).seen}
    assert facts["shape"].startswith(says)
