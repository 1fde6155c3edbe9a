"""The light: what any page of a frame finds or refuses counts, at its stage, and nothing stands green beside it."""

from copy import deepcopy
from typing import Any

import pytest
from panel import PANEL_IN_INCHES

from framecalc.findings import Severity
from framecalc.plan import FramePlan, Plan, plan_with
from framecalc.plan.light import Stage
from framecalc.project import read_project


def layer(kind: str, thickness: str, **more: Any) -> dict[str, Any]:
    return {"id": kind[:2], "name": kind, "kind": kind, "thickness": thickness, "tolerance": "0 mm"} | more


def panelled(changes: dict[str, Any], assumed: tuple[str, ...] = ()) -> FramePlan:
    """The panel with some fields of its frame changed."""
    frame = deepcopy(PANEL_IN_INCHES["frames"][0])
    for path, value in changes.items():
        *above, name = path.split(".")
        at = frame
        for part in above:
            at = at.setdefault(part, {})
        at[name] = value
    document = PANEL_IN_INCHES | {"frames": [frame], "assumed": [f"frames.f1.{path}" for path in assumed]}
    return Plan(read_project(document)).frames["f1"]


def stopping(plan: FramePlan) -> list[tuple[str, str, str]]:
    """What stops the work: its stage, its group, its code."""
    return [
        (concern.stage.value, concern.group, concern.code)
        for concern in plan.concerns
        if concern.severity is Severity.STOP
    ]


DEEP_BOX = {
    "artwork.kind": "object",
    "section.thickness": "50 mm",
    "section.rabbet_depth": "40 mm",
    "fitting.box.object_depth": "67 mm",
}
ACRYLIC = {
    "corner.seasons": {"summer_temperature": "26", "summer_humidity": "65"},
    "artwork.across": "40 in",
    "artwork.up": "50 in",
    "package.clearance_across": "1 mm",
    "package.clearance_up": "1 mm",
    "package.layers": [
        layer("glazing", "3 mm", material="acrylic"),
        layer("spacer", "3 mm"),
        layer("artwork", "2 mm"),
    ],
}
SOLID_PANEL = {
    "artwork.across": "24 in",
    "artwork.kind": "solid panel",
    "fitting.panel.species": "northern_red_oak",
    "package.layers": [layer("artwork", "6 mm", material="solid wood")],
}
FOLDS = {"artwork.kind": "canvas", "fitting.canvas.cloth": "1.5 mm"}
TENON = {"corner.joint": {"kind": "loose tenon", "size": "tenon 10 x 50"}}
DOWEL = {"kind": "dowel", "size": "dowel 6 x 30", "height": "9 mm"}
DOWEL_AND_SPLINE = {"corner.joint": DOWEL | {"also_spline": True, "spline_depth": "30 mm"}}
SPLINE = {"corner.joint": {"kind": "spline", "spline_depth": "40 mm", "spline_kerf": "1/8 in"}}
LARGE_PANE = {
    "artwork.kind": "paper",
    "artwork.across": "52 3/4 in",
    "artwork.up": "41 in",
    "section.face_width": "1 1/4 in",
    "package.layers": [
        layer("glazing", "2 mm", material="glass"),
        layer("spacer", "2 mm"),
        layer("artwork", "0.3 mm", material="paper"),
        layer("backing", "4.8 mm", material="foamboard_5"),
    ],
}
NO_SCREW = {"section.thickness": "10 mm", "section.rabbet_depth": "7 mm"}
THIN_BARS = {"section.kind": "tray", "artwork.kind": "canvas", "fitting.canvas.bar": "4 mm"}
LAP_IN_A_TRAY = {"section.kind": "tray", "corner.joint": {"kind": "half-lap"}}


@pytest.mark.parametrize(
    ("changes", "stop"),
    [
        (DEEP_BOX, ("cutting", "box", "box.shallow")),
        (ACRYLIC, ("cutting", "growth", "growth.binds-up")),
        (SOLID_PANEL, ("cutting", "growth", "growth.binds-across")),
        (FOLDS, ("cutting", "canvas", "canvas.folds-across")),
        (LARGE_PANE, ("cutting", "handling", "pane.too-large")),
        (LARGE_PANE, ("cutting", "handling", "sag.bottom")),
        (TENON, ("cutting", "joint", "joints.breaks-out")),
        (DOWEL_AND_SPLINE, ("cutting", "joint", "joints.clash")),
        (SPLINE, ("cutting", "joint", "joints.spline-through")),
        (LAP_IN_A_TRAY, ("cutting", "joint", "joint.refused")),
        (NO_SCREW, ("fitting", "held", "held.refused")),
        (THIN_BARS, ("cutting", "canvas", "canvas.refused")),
        ({"section.face_width": "1/4 in"}, ("cutting", "findings", "findings.refused")),
    ],
)
def test_no_page_is_left_out_of_the_light(changes: dict[str, Any], stop: tuple[str, str, str]) -> None:
    plan = panelled(changes)
    assert stop in stopping(plan)
    assert plan.stops == {code for _, _, code in stopping(plan)}
    assert not plan.is_ready
    assert panelled({}).is_ready


def test_a_tenon_that_breaks_out_three_times_counts_three_times() -> None:
    assert stopping(panelled(TENON)).count(("cutting", "joint", "joints.breaks-out")) == 3


def test_what_is_read_in_the_clamps_counts_before_gluing_and_keeps_no_saw_from_running() -> None:
    leaning = {"across_top": "13 in", "across_bottom": "13 in", "up_left": "16 in", "up_right": "16 in"}
    plan = panelled({"corner.clamps": leaning | {"rising": "533.4 mm", "falling": "513.7 mm"}})
    assert {stage for stage, _, _ in stopping(plan)} == {Stage.GLUING}
    assert plan.is_ready


def test_a_plan_that_refuses_at_a_later_stage_is_not_ready_either() -> None:
    pull = {"strap_force": "100", "eased_to": "200"}
    plan = panelled({"corner.clamps": pull})
    assert stopping(plan) == [("gluing", "clamps", "clamps.refused")]
    assert not plan.is_ready


@pytest.mark.parametrize(
    ("kind", "moisture", "is_asked"), [("biscuit", None, True), ("biscuit", "8", False), ("none", None, False)]
)
def test_a_joint_asks_for_the_moisture_of_its_wood(kind: str, moisture: str | None, is_asked: bool) -> None:
    seasons = {"species": "white_oak"} | ({"moisture": moisture} if moisture else {})
    plan = panelled({"corner.joint": {"kind": kind}, "corner.seasons": seasons})
    asked = [plan.field_of(concern) for concern in plan.concerns if concern.code == "moisture.not-measured"]
    assert asked == ["frames.f1.corner.seasons.moisture"] * is_asked


def test_the_record_of_a_plan_has_what_every_page_found() -> None:
    record = Plan(panelled(TENON).project).record()["frames"][0]
    found = [(one["stage"], one["page"], one["code"]) for one in record["findings"] if one["severity"] == "stop"]
    assert found == [("cutting", "corners", "joints.breaks-out")] * 3
    assert record["ready_to_cut"] is False
    assert all(one["sentence"] and one["field"] for one in record["findings"])


@pytest.mark.parametrize("path", ["package.clearance_across", "package.mat.border", "package.mat.overlap"])
def test_a_clearance_and_a_mat_that_are_only_assumed_are_asked_for(path: str) -> None:
    mat = {"package.mat": {"border": "2 in", "bottom": "2 in", "overlap": "1/4 in"}}
    assert panelled(mat, assumed=(path,)).unconfirmed == (f"frames.f1.{path}",)
    assert panelled(mat | {"section.kind": "tray"}, assumed=(path,)).unconfirmed == ()


def test_an_assumed_border_is_not_asked_for_where_it_is_worked_out() -> None:
    wall = {"given": "wall", "wall_across": "20 in", "wall_up": "24 in"}
    mat = {"package.mat": {"border": "2 in", "bottom": "2 in", "overlap": "1/4 in"}}
    plan = panelled(mat | {"start": wall}, assumed=("package.mat.border", "package.mat.overlap"))
    assert plan.unconfirmed == ("frames.f1.package.mat.overlap",)


SHALLOW_BOX_IN_A_DEEP_RABBET = DEEP_BOX | {"section.thickness": "60 mm", "fitting.box.object_depth": "20 mm"}
TENON_BESIDE_A_PROUD_PANEL = {
    "section.thickness": "1 1/4 in",
    "package.layers": [layer("artwork", "11 mm")],
    "corner.joint": {"kind": "loose tenon", "size": "tenon 8 x 50"},
}


@pytest.mark.parametrize(
    ("changes", "found", "text", "broken"),
    [
        (SHALLOW_BOX_IN_A_DEEP_RABBET, "rabbet.deep", "3/8 in", "box.shallow"),
        (TENON_BESIDE_A_PROUD_PANEL, "rabbet.proud", "9/16 in", "joints.breaks-out"),
    ],
)
def test_a_way_out_that_stops_another_page_is_not_offered(
    changes: dict[str, Any], found: str, text: str, broken: str
) -> None:
    plan = panelled(changes)
    after = plan_with(plan.project, {"frames.f1.section.rabbet_depth": text}).frames["f1"]
    assert broken in after.stops - plan.stops
    (advice,) = (advice for advice in plan.advice if advice.code == found)
    assert all(way.text != text for way in advice.ways)


@pytest.mark.parametrize("changes", [DEEP_BOX, ACRYLIC, SOLID_PANEL, FOLDS, TENON, SPLINE, TENON_BESIDE_A_PROUD_PANEL])
def test_a_way_out_that_is_offered_makes_no_stop_on_any_page(changes: dict[str, Any]) -> None:
    plan = panelled(changes | {"package.clearance_up": "0 in"})
    ways = [way for advice in plan.advice for way in advice.ways]
    assert ways
    for way in ways:
        assert plan_with(plan.project, {way.path: way.text}).frames["f1"].stops <= plan.stops
