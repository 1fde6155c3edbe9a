"""The drawings of the corners page: legible whatever is typed, true to scale or by the factor that they state."""

import re
from math import atan2, degrees, hypot, sqrt
from typing import Any

import pytest
from drawings import drawings_in
from drawn_plans import plan_of
from legible import require_legible
from svg_reading import Drawn, Point

import framecalc.drawing.corners
from framecalc.drawing.record import panel_svg
from framecalc.drawing.registry import draw_panel, draw_paper
from framecalc.errors import ImpossibleJoint
from framecalc.plan import FramePlan
from framecalc.units import Unit

OAK, MAPLE = ("cafe-prints", "oak5"), ("maple-canvas", "map1")
TENON = {
    "joint.kind": "loose tenon",
    "joint.size": "tenon 5 x 30",
    "joint.depth": "12 mm",
    "section.face_width": "45 mm",
}
JOINTS: dict[str, dict[str, Any]] = {
    "tenon": TENON,
    "tenon in a wide member": TENON | {"section.face_width": "101.6 mm"},
    "tenon that breaks out": TENON | {"section.face_width": "24 mm"},
    "tenon in an octagon": TENON | {"shape.sides": 8, "shape.size": "400 mm"},
    "tenon in a triangle": TENON | {"shape.sides": 3, "shape.size": "400 mm"},
    "tenon, pin and wedge": TENON | {"joint.also_pin": True, "joint.also_wedge": True},
    "tenon that begins at the tip": TENON | {"joint.from_tip": "10 mm"},
    "tenon past the tip": TENON | {"joint.from_tip": "4 mm"},
    "biscuit": {"joint.kind": "biscuit", "joint.size": "biscuit #20", "section.face_width": "60 mm"},
    "dowel": {"joint.kind": "dowel", "joint.size": "dowel 6 x 30"},
    "two dowels": {"joint.kind": "dowel", "joint.size": "dowel 6 x 30", "joint.dowel_count": 2},
    "spline": {"joint.kind": "spline"},
    "two splines": {"joint.kind": "spline", "joint.spline_count": 2, "joint.spline_kerf": "2 mm"},
    "pin alone": {"joint.kind": "none", "joint.also_pin": True},
}


LAPS: dict[str, dict[str, Any]] = {
    f"{kind}, {width} wide, {thickness} thick": {
        "joint.kind": kind,
        "section.face_width": width,
        "section.thickness": thickness,
    }
    for kind in ("half-lap", "bridle")
    for width, thickness in (("24 mm", "20 mm"), ("45 mm", "30 mm"), ("101.6 mm", "20 mm"))
}


def cut(outside: str, inside: str) -> list[dict[str, str]]:
    return [{"id": f"t{number}", "outside_gap": outside, "inside_gap": inside} for number in range(3)]


SAWS = {
    "no cut": {"tests": []},
    "open outside": {"tests": cut("0.3 mm", "0 mm")},
    "open inside": {"tests": cut("0 mm", "0.31 mm"), "cutting": "all ends from one setting"},
    "a wide gap": {"tests": cut("1.4 mm", "0.2 mm"), "cutting": "all ends from one setting"},
    "octagon": {"tests": cut("0.3 mm", "0 mm"), "shape.sides": 8, "shape.size": "400 mm"},
    "triangle": {"tests": cut("0.3 mm", "0 mm"), "shape.sides": 3, "shape.size": "400 mm"},
    "a box": {"tests": cut("0.3 mm", "0 mm"), "shape.slope": "90"},
    "24 sides": {"tests": cut("0.3 mm", "0 mm"), "shape.sides": 24, "shape.size": "400 mm"},
}
SIDES = {
    "one end": {"sides.top.start": "45.3"},
    "far off": {"sides.left.start": "40"},
    "a length": {"sides.top.long": "436 mm"},
    "many": {"sides.bottom.finish": "45.8", "sides.left.long": "366 mm", "sides.right.start": "44.9"},
    "foretold": {"tests": cut("0.3 mm", "0 mm")},
}
SIX = {"across_top": "433 mm", "across_bottom": "433 mm", "up_left": "365 mm", "up_right": "365 mm"}
CLAMPS: dict[str, dict[str, Any]] = {
    "planned": {"clamps": {}},
    "leaning right": {"clamps": SIX | {"rising": "567.5 mm", "falling": "565 mm"}},
    "leaning left": {"clamps": SIX | {"rising": "560 mm", "falling": "572 mm"}},
    "square": {"clamps": SIX | {"rising": "566.3 mm", "falling": "566.3 mm"}},
}
STRAPS: dict[str, dict[str, Any]] = {
    f"{pull} N, {ratchet}, {sides} sides": {
        "clamps.strap_force": pull,
        "clamps.ratchet": ratchet,
        "shape.sides": sides,
        "shape.size": "400 mm",
    }
    for pull in ("20", "4800")
    for ratchet in ("on a side", "at a corner")
    for sides in (3, 4, 8, 24)
}
POLYGONS: dict[str, dict[str, Any]] = {
    f"{sides} sides": {"shape.sides": sides, "shape.size": "300 mm"} for sides in (3, 5, 8, 24)
}
SLOPES: dict[str, dict[str, Any]] = {
    f"{sides} sides at {slope}": {"shape.slope": slope, "shape.sides": sides, "shape.size": "400 mm"}
    for sides in (3, 4, 8)
    for slope in ("1", "38", "52", "90")
}
YEARS = {moisture: {"seasons.species": "white_oak", "seasons.moisture": moisture} for moisture in ("5", "8", "14")}
CASES = [
    (name, case, changes)
    for names, cases in (
        (("face", "plan"), JOINTS),
        (("lap",), LAPS),
        (("gauge", "gaps"), SAWS),
        (("closing",), SIDES),
        (("lean",), CLAMPS),
        (("strap",), STRAPS),
        (("polygon", "gaps"), POLYGONS),
        (("slope",), SLOPES),
        (("year",), YEARS),
    )
    for name in names
    for case, changes in cases.items()
]


def planned(changes: dict[str, Any], *, of: tuple[str, str] = OAK, unit: str = "mm") -> FramePlan:
    """A demo's frame; what does not name its part of the file is of the corner."""
    elsewhere = ("section.", "shape.")
    paths = {path if path.startswith(elsewhere) else f"corner.{path}": value for path, value in changes.items()}
    return plan_of(*of, {"corner": {}} | paths, unit=unit)


def drawn(name: str, changes: dict[str, Any], **how: Any) -> Drawn:
    return Drawn(draw_panel(name, planned(changes, **how)))


@pytest.mark.parametrize("unit", list(Unit))
@pytest.mark.parametrize(("name", "case", "changes"), CASES, ids=lambda part: part if isinstance(part, str) else "")
def test_whatever_is_typed_the_drawing_is_legible(name: str, case: str, changes: dict[str, Any], unit: Unit) -> None:
    require_legible(drawn(name, changes, unit=unit.value))


def test_every_drawing_is_among_the_cases() -> None:
    assert {name for name, _, _ in CASES} == set(drawings_in(framecalc.drawing.corners))


@pytest.mark.parametrize("paper", ["a4-portrait", "letter-portrait", "a4", "a3"])
@pytest.mark.parametrize("case", JOINTS)
def test_the_joint_on_paper_is_legible(case: str, paper: str) -> None:
    require_legible(Drawn(draw_paper("joint", planned(JOINTS[case]), paper)))


@pytest.mark.parametrize("paper", ["a4-portrait", "letter-portrait", "a3"])
@pytest.mark.parametrize(
    ("name", "changes"),
    [*(("lap", changes) for changes in LAPS.values()), *(("polygon", changes) for changes in POLYGONS.values())],
)
def test_laps_and_polygons_on_paper_are_legible(name: str, changes: dict[str, Any], paper: str) -> None:
    require_legible(Drawn(draw_paper(name, planned(changes), paper)))


def _size(run: list[Point]) -> tuple[float, float]:
    across, up = [x for x, _ in run], [y for _, y in run]
    return max(across) - min(across), max(up) - min(up)


def test_on_paper_the_mitre_face_is_at_full_size() -> None:
    plan = planned(TENON)
    sheet = Drawn(draw_paper("joint", plan, "a4-portrait"))
    assert any("face 1:1, plan 1:1" in text.text for text in sheet.texts)
    sizes = [_size(run) for run in sheet.runs("outline")]
    assert any((round(across, 2), round(up, 2)) == (round(45 * sqrt(2), 2), 20.0) for across, up in sizes)
    holes = [_size(run) for run in sheet.runs("edge")]
    assert any((round(across, 2), round(up, 2)) == (20.0, 5.0) for across, up in holes)


def test_what_meets_another_is_picked_out_and_told_in_the_legend() -> None:
    clashing = TENON | {"joint.also_spline": True, "joint.spline_depth": "40 mm", "joint.height": "6 mm"}
    apart, meeting = (drawn("face", changes) for changes in (TENON, clashing))
    assert not apart.runs("trouble")
    assert len(meeting.runs("trouble")) == 3  # the slot, the spline, and the legend's sample
    assert [text.text for text in meeting.texts if text.text == "meets another"]


def test_the_walls_are_given_on_the_face_and_in_the_plan() -> None:
    plan = planned(TENON)
    assert plan.corners.joint is not None and plan.corners.joint.slot_place is not None
    walls = plan.corners.joint.slot_place.walls
    face, corner = (Drawn(draw_panel(name, plan)) for name in ("face", "plan"))
    assert {f"{walls.face_mm:g}", f"{walls.back_mm:g}"} <= {text.text for text in face.texts}
    assert f"{round(walls.outer_mm, 2):g}" in {text.text for text in corner.texts}


@pytest.mark.parametrize("kind", ["half-lap", "bridle"])
def test_what_is_cut_back_is_drawn_as_deep_as_the_other_member_runs_through(kind: str) -> None:
    """In the edge views the notch of one pair is as long as the layer that the other pair runs through with."""
    plan = planned({"joint.kind": kind})
    lap = Drawn(draw_panel("lap", plan))
    assert plan.corners.joint is not None and plan.corners.joint.lapped is not None
    lapped, stock = plan.corners.joint.lapped, plan.corners.stock
    assert stock is not None
    scale = min(13 / stock.face_width_mm, 10 / stock.thickness_mm)
    through = [_size(run) for run in lap.runs("covered")]
    reach, layer = lapped.reach_mm * scale, (lapped.high_mm - lapped.low_mm) * scale
    assert any((across, up) == pytest.approx((reach, layer), abs=2e-3) for across, up in through)
    assert {f"{lapped.between_mm:g}", f"{lapped.reach_mm:g}"} <= {text.text.split()[-1] for text in lap.texts}


@pytest.mark.parametrize(("slope", "blade"), [("38", 25.81), ("90", 45.0)])
def test_the_blade_is_drawn_at_its_tilt_and_the_stock_at_its_slope(slope: str, blade: float) -> None:
    shown = drawn("slope", {"shape.slope": slope})
    (foot, tip) = next(run for run in shown.runs("mitre"))
    assert degrees(atan2(tip[0] - foot[0], foot[1] - tip[1])) == pytest.approx(blade, abs=0.05)
    propped = next(run for run in shown.runs("wood") if run[0][0] > 45)
    rise, going = propped[0][1] - propped[1][1], propped[1][0] - propped[0][0]
    assert degrees(atan2(rise, going)) == pytest.approx(float(slope), abs=0.05)


@pytest.mark.parametrize("name", ["slope", "gauge"])
def test_a_gauge_set_square_reads_nothing_and_not_nearly_nothing(name: str) -> None:
    """Fault: the gauge of a box was written as 3.508e-15°."""
    texts = " ".join(text.text for text in drawn(name, {"shape.slope": "90"}).texts)
    assert "e-" not in texts and "0°" in texts


def _off_line(point: Point, start: Point, end: Point) -> float:
    """How far a point lies from the straight line through two others."""
    across, up = end[0] - start[0], end[1] - start[1]
    return abs(across * (point[1] - start[1]) - up * (point[0] - start[0])) / hypot(across, up)


@pytest.mark.parametrize("angle", ["45.05", "45.3", "46"])
def test_gaps_are_drawn_by_the_factor_that_is_stated(angle: str) -> None:
    """The distance from the level face's tip to the upright face, square to the joint, is the gap times its factor."""
    plan = planned({"sides.top.start": angle, "sides.top.finish": angle})
    shown = Drawn(draw_panel("closing", plan))
    (said,) = [text.text for text in shown.texts if "gaps shown" in text.text]
    gaps, steps = (float(factor) for factor in re.findall(r"×([\d.]+)", said))
    members = shown.runs("edge")
    assert plan.corners.parts.closing is not None
    for number, corner in enumerate(plan.corners.parts.closing.corners):
        level, upright = members[2 * number], members[2 * number + 1]
        assert _off_line(level[0], upright[0], upright[1]) == pytest.approx(corner.outside_gap_mm * gaps, abs=2e-3)
        assert _off_line(level[3], upright[0], upright[1]) == pytest.approx(corner.inside_gap_mm * gaps, abs=2e-3)
        assert abs(level[0][1] - upright[0][1]) == pytest.approx(abs(corner.step_mm) * steps, abs=2e-3)


@pytest.mark.parametrize("sides", [3, 4, 5, 6, 24])
def test_a_test_joint_is_drawn_with_the_angle_between_two_sides(sides: int) -> None:
    """The inside angle of a regular polygon is 180° − 360°/n; its gaps are square to the joint (plane geometry)."""
    cut = {"tests": [{"id": "t1", "outside_gap": "0.3 mm", "inside_gap": "0.1 mm"}]}
    shown = Drawn(draw_panel("gaps", planned(cut | {"shape.sides": sides, "shape.size": "300 mm"})))
    (factor,) = [float(text.text.split("×")[1]) for text in shown.texts if "gaps shown" in text.text]
    level, other = shown.runs("edge")[:2]
    along, leg = _turned(level[0], level[1]), _turned(other[0], other[3])
    assert abs(leg - along) == pytest.approx(180 - 360 / sides, abs=1e-2)
    assert _off_line(level[0], other[0], other[1]) == pytest.approx(0.3 * factor, abs=2e-3)
    assert _off_line(level[3], other[0], other[1]) == pytest.approx(0.1 * factor, abs=2e-3)


def _turned(start: Point, end: Point) -> float:
    """The direction from a point to another [°]."""
    return degrees(atan2(end[1] - start[1], end[0] - start[0]))


@pytest.mark.parametrize("case", ["open outside", "open inside"])
def test_the_shim_lies_at_the_end_that_turns_the_stock_the_right_way(case: str) -> None:
    """Open at the tips: further from square, so the stock is pushed away from the fence at the end near the blade."""
    shown = drawn("gauge", SAWS[case])
    wedge = next(run for run in shown.runs("given"))
    thin, thick = wedge[0], wedge[1]
    assert (thick[0] > thin[0]) is (case == "open outside")


def test_the_weakest_mitres_are_picked_out() -> None:
    plan = planned({"clamps.strap_force": "300"})
    shown = Drawn(draw_panel("strap", plan))
    assert plan.corners.clamps.strap is not None
    weakest = f"{plan.corners.clamps.strap.weakest_n:.0f}"
    assert len([text for text in shown.texts if text.text == weakest]) == 2


def test_a_drawing_is_kept_until_what_it_shows_changes() -> None:
    panel_svg.cache_clear()
    first = draw_panel("year", planned(YEARS["8"]))
    assert draw_panel("year", planned(YEARS["8"] | {"gap": "0.2 mm", "shape.slope": "10"})) is first
    assert draw_panel("year", planned(YEARS["8"] | {"gap": "0.3 mm"})) != first


@pytest.mark.parametrize("kind", ["dowel", "spline"])
def test_a_tray_is_jointed_in_its_wall(kind: str) -> None:
    """Fault: every joint of a tray was waved away."""
    joint = {"joint.kind": kind, "joint.size": "dowel 6 x 30", "joint.spline_depth": "8 mm", "joint.wall": "2 mm"}
    plan = planned(joint | {"section.face_width": "24 mm"}, of=("ash-relief", "tray1"))
    placed = plan.corners.joint
    assert placed.is_tray and placed.stock.face_width_mm == 24 and placed.stock.land_mm == 24
    for name in ("face", "plan"):
        require_legible(Drawn(draw_panel(name, plan)))


def test_no_joint_is_no_drawing() -> None:
    with pytest.raises(ImpossibleJoint, match="Choose a joint to draw: a slot, spline, pin or wedge"):
        draw_panel("face", planned({}))


def test_trade_words_are_the_shops() -> None:
    uk = draw_panel("strap", plan_of("ash-relief", "tray1", {"corner.clamps.strap_force": "300"}))
    us = draw_panel("strap", planned({"clamps.strap_force": "300"}))
    assert "on each mitre" in uk and "on each miter" in us
