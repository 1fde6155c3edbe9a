"""What is milled first: decided by what the geometry leaves to run on."""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from framecalc.errors import OutOfRange
from framecalc.section.milling import CAUTIONS, MillingStep, milling_order, passes
from framecalc.section.profile import Edge, EdgeShape, FaceShape
from framecalc.section.rabbeted import milled_section

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/milling.toml").read_text("utf-8"))["passes"]
SQUARE = Edge(shape=EdgeShape.SQUARE, size_mm=1)
USUAL: dict[str, Any] = {
    "face_width_mm": 40.0,
    "thickness_mm": 24.0,
    "rabbet_width_mm": 7.0,
    "rabbet_depth_mm": 12.0,
    "sight_edge": SQUARE,
    "back_edge": SQUARE,
    "face": FaceShape.FLAT,
    "face_drop_mm": 4.0,
}


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check["name"])
def test_worked_passes(check: dict[str, Any]) -> None:
    taken = passes(check["depth_mm"], per_pass_mm=check["per_pass_mm"])
    assert taken.count == check["expect_count"]
    assert taken.each_mm == pytest.approx(check["expect_each_mm"])


@pytest.mark.parametrize("depth_mm", [0.1, 3.0, 4.0, 4.1, 19.05, 40.0])
@pytest.mark.parametrize("per_pass_mm", [1.0, 3.175, 4.0])
def test_passes_add_up_and_none_is_too_deep(depth_mm: float, per_pass_mm: float) -> None:
    taken = passes(depth_mm, per_pass_mm=per_pass_mm)
    assert taken.count * taken.each_mm == pytest.approx(depth_mm)
    assert taken.each_mm <= per_pass_mm + 1e-6
    assert depth_mm > (taken.count - 1) * per_pass_mm


@pytest.mark.parametrize("lengths", [(0, 4), (-1, 4), (4, 0), (4, float("nan"))])
def test_no_depth_and_no_pass_are_refused(lengths: tuple[float, float]) -> None:
    with pytest.raises(OutOfRange, match=r"^Enter "):
        passes(lengths[0], per_pass_mm=lengths[1])


@pytest.mark.parametrize(
    ("changed", "first", "why"),
    [
        ({}, MillingStep.RABBET, "sits flat"),
        ({"sight_edge": Edge(shape=EdgeShape.ARRIS, size_mm=0.5)}, MillingStep.RABBET, "broken last, by hand"),
        ({"sight_edge": Edge(shape=EdgeShape.ROUND, size_mm=6)}, MillingStep.RABBET, "enough to guide"),
        ({"sight_edge": Edge(shape=EdgeShape.ROUND, size_mm=6.5)}, MillingStep.PROFILE, "for a fence or a bearing"),
        ({"face": FaceShape.TOWARD, "face_drop_mm": 8.0}, MillingStep.PROFILE, "give under the cutter"),
        ({"face": FaceShape.TOWARD, "face_drop_mm": 3.0}, MillingStep.RABBET, "enough to guide"),
        ({"back_edge": Edge(shape=EdgeShape.COVE, size_mm=6)}, MillingStep.RABBET, "enough to guide"),
        ({"back_edge": Edge(shape=EdgeShape.COVE, size_mm=6), "face_width_mm": 15.0}, MillingStep.PROFILE, "tipping"),
        ({"back_edge": Edge(shape=EdgeShape.COVE, size_mm=6), "rabbet_depth_mm": 20.0}, MillingStep.RABBET, "enough"),
    ],
)
def test_what_comes_first_follows_from_the_geometry(changed: dict[str, Any], first: MillingStep, why: str) -> None:
    order = milling_order(milled_section(**USUAL | changed))
    assert order.first is first
    assert why in order.why


def test_every_reason_that_holds_is_given() -> None:
    edge = Edge(shape=EdgeShape.ROUND, size_mm=9)
    why = milling_order(milled_section(**USUAL | {"sight_edge": edge, "face_width_mm": 15.0})).why
    assert "bearing" in why and "chip" in why and "tipping" in why


def test_the_usual_cautions_of_a_router_table() -> None:
    said = " ".join(CAUTIONS)
    for caution in ("push blocks", "Guards", "Feed against", "More than one pass", "manual"):
        assert caution in said
