"""What a client is told: the plan's own figures, materials as typed, and nothing that is the shop's business."""

import json
from pathlib import Path
from typing import Any

import pytest

from framecalc.client.difference import differences
from framecalc.plan import FramePlan, Plan
from framecalc.plan.client import client_facts
from framecalc.project import read_project, set_value
from framecalc.units import Step

DEMOS = sorted((Path(__file__).parents[3] / "framecalc/demos").glob("*.demo.json"))


def plans(path: Path, **changes: object) -> list[FramePlan]:
    document: dict[str, Any] = json.loads(path.read_text("utf-8"))
    for name, value in changes.items():
        set_value(document, f"frames.{document['frames'][0]['id']}.{name.replace('__', '.')}", value)
    return list(Plan(read_project(document)).frames.values())


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_sizes_are_written_as_everywhere_else(path: Path) -> None:
    for plan in plans(path):
        facts = {fact.name: fact.text for fact in client_facts(plan).facts}
        figures = plan.figures
        outside = f"{figures['outside_across'].text} × {figures['outside_up'].text} {plan.unit}"
        assert facts["outside"] == outside
        assert facts["wood"] == plan.frame.species
        assert ("mat" in facts) is (plan.mat is not None)


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_a_client_hears_of_no_set_up(path: Path) -> None:
    for plan in plans(path):
        said = json.dumps([(fact.label, fact.text) for fact in client_facts(plan).facts])
        assert not {word for word in ("rabbet", "kerf", "clearance", "stick", "lip", plan.project.note) if word in said}


def test_a_change_is_read_as_a_client_would_see_it() -> None:
    (before,), (after,) = (
        plans(DEMOS[1]),
        plans(DEMOS[1], package__mat__border="70 mm", look__mat_name="black", species="ash"),
    )
    said = differences([client_facts(before)], [client_facts(after)], step=Step.HALF_MILLIMETRE)
    assert any(text.startswith("outside width +") for text in said)
    assert "wood: white oak → ash" in said
    assert "mat: antique white → black" in said


def test_another_shape_of_the_frame_is_told_in_plain_words() -> None:
    shapes = {"section__sight_edge__shape": "cove", "section__sight_edge__size": "4 mm"}
    bevel = {"section__face": "bevelled toward the picture", "section__face_drop": "3 mm"}
    (before,), (hollow,), (wide,), (falling,) = (
        plans(DEMOS[1], section__sight_edge__shape="arris", section__back_edge__shape="square"),
        plans(DEMOS[1], **shapes, section__back_edge__shape="square"),
        plans(DEMOS[1], **shapes, section__back_edge__shape="square", section__face_width="50 mm"),
        plans(DEMOS[1], **bevel, section__sight_edge__shape="arris", section__back_edge__shape="square"),
    )
    (said,) = differences([client_facts(before)], [client_facts(hollow)], step=Step.HALF_MILLIMETRE)
    assert said == (
        "shape of the frame: flat face, at the picture an edge just eased, outside a sharp edge → "
        "flat face, at the picture a hollow of 4 mm, outside a sharp edge"
    )
    wider = differences([client_facts(hollow)], [client_facts(wide)], step=Step.HALF_MILLIMETRE)
    assert any(text.startswith("width of the frame's face +") for text in wider)
    (said,) = differences([client_facts(before)], [client_facts(falling)], step=Step.HALF_MILLIMETRE)
    assert "face bevelled toward the picture, by 3 mm" in said


def test_a_change_that_no_client_sees_is_none() -> None:
    (before,), (after,) = (
        plans(DEMOS[1]),
        plans(DEMOS[1], package__clearance_across="3 mm", section__rabbet_width="6 mm"),
    )
    said = differences([client_facts(before)], [client_facts(after)], step=Step.HALF_MILLIMETRE)
    assert all("rabbet" not in text and "clearance" not in text for text in said)


def test_british_words_for_a_british_shop() -> None:
    document = json.loads(DEMOS[1].read_text("utf-8"))
    document["shop"]["words"] = "UK"
    (plan,) = Plan(read_project(document)).frames.values()
    assert "Mount" in {fact.label for fact in client_facts(plan).facts}


def test_a_mat_without_a_name_is_told_as_its_layer_is_called() -> None:
    """Fault: the quote told a client of a mat “#f7f2e6”."""
    (plan, *_) = plans(DEMOS[1], look__mat_name="")
    (mat,) = (fact.text for fact in client_facts(plan).facts if fact.name == "mat")
    assert mat in {layer.name for layer in plan.layers if layer.kind.value == "mat"}
