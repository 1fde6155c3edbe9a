"""Without a mat, and in a tray, the plan is that of a frame in which the left-out layers were never typed."""

from typing import Any

import pytest
from drawn_plans import demo, plan_of

from framecalc.drawing.registry import draw_panel
from framecalc.plan import FramePlan
from framecalc.plan.client import client_facts
from framecalc.plan.sheets.parts import sheet_parts

TRAY = {"section.kind": "tray", "section.thickness": "30 mm"}


def typed_layers() -> list[dict[str, Any]]:
    layers: list[dict[str, Any]] = demo("cafe-prints")["frames"][0]["package"]["layers"]
    return layers


def without(*kinds: str) -> list[dict[str, Any]]:
    return [layer for layer in typed_layers() if layer["kind"] not in kinds]


PAIRS = {
    "no mat": ({"package.mat.is_planned": False}, {"package.mat": None, "package.layers": without("mat")}),
    "a board without a mat": ({"package.mat": None}, {"package.mat": None, "package.layers": without("mat")}),
    "tray": (TRAY, TRAY | {"package.mat": None, "package.layers": without("mat", "glazing")}),
}


def linocut(changes: dict[str, Any]) -> FramePlan:
    return plan_of("cafe-prints", "oak5", changes)


@pytest.mark.parametrize("name", PAIRS)
def test_layers_left_out_are_nowhere_in_the_plan(name: str) -> None:
    left_out, never_typed = (linocut(changes) for changes in PAIRS[name])
    assert len(left_out.frame.package.layers) > len(never_typed.frame.package.layers)
    assert left_out.figures == never_typed.figures
    assert left_out.concerns == never_typed.concerns
    assert left_out.package.weights.weighed == never_typed.package.weights.weighed
    assert left_out.package.glazing == never_typed.package.glazing
    assert client_facts(left_out) == client_facts(never_typed)
    assert sheet_parts([left_out], upright=()) == sheet_parts([never_typed], upright=())
    for drawing in ("front", "section", "exploded", "corner"):
        assert draw_panel(drawing, left_out) == draw_panel(drawing, never_typed)


def test_a_mat_that_is_planned_again_is_planned_as_typed() -> None:
    assert linocut({"package.mat.is_planned": True}).figures == linocut({}).figures


def test_a_mat_without_a_board_is_said() -> None:
    found = [finding.code for finding in linocut({"package.layers": without("mat")}).findings]
    assert "mat.no-layer" in found


def test_assumed_values_of_a_mat_that_is_not_planned_keep_nobody_waiting() -> None:
    document = ["frames.oak5.package.mat.border", "frames.oak5.package.layers.m1.thickness"]
    board = next(layer for layer in typed_layers() if layer["kind"] == "mat")
    document[1] = f"frames.oak5.package.layers.{board['id']}.thickness"
    matted = plan_of("cafe-prints", "oak5", {}, assumed=document)
    bare = plan_of("cafe-prints", "oak5", {"package.mat.is_planned": False}, assumed=document)
    assert set(matted.unconfirmed) == set(document) and bare.unconfirmed == ()
