"""What is handed over with real frames: one weight, a cover inside the edge, a label that says what is there."""

import io

import pdfplumber
import pytest
from drawn_plans import demo, plan_of

from framecalc.drawing.templates.labels import labels_a_leaf, lay_out_label
from framecalc.drawing.templates.pdf import labels_pdf
from framecalc.drawing.templates.tiles import paper_called
from framecalc.errors import ImpossibleSize
from framecalc.plan import FramePlan, Plan
from framecalc.plan.templates.templates import stamp_of, templates_of
from framecalc.project import read_project

MM_PER_POINT = 25.4 / 72


def with_cover() -> FramePlan:
    layers = demo("cafe-prints")["frames"][0]["package"]["layers"]
    cover = {"id": "dust", "name": "Dust cover", "kind": "dust cover", "thickness": "0.12 mm", "tolerance": "0 mm"}
    return plan_of("cafe-prints", "oak5", {"package.layers": [*layers, cover]})


def test_the_box_weighs_what_the_frame_weighs() -> None:
    plan = plan_of("cafe-prints", "oak5", {"hand_over.packing.per_box": 3})
    assert plan.hand_over.packed.mass_kg == pytest.approx(3 * plan.package.mass.whole_kg)
    assert plan.hand_over.boxes == 2


def test_the_weight_stands_in_the_record_of_the_plan() -> None:
    plan = Plan(read_project(demo("cafe-prints")))
    recorded = [one["whole_frame_kg"] for one in plan.record()["frames"]]
    assert recorded == [pytest.approx(one.package.mass.whole_kg, abs=5e-4) for one in plan.frames.values()]


def test_a_dust_cover_has_one_size_on_every_page() -> None:
    plan = with_cover()
    template = templates_of(plan).named("dust-cover")
    assert template is not None
    assert plan.hand_over.cover_mm == pytest.approx((template.across_mm, template.up_mm))
    assert "Cut the dust cover" in dict_of(plan)["To open"]


def dict_of(plan: FramePlan) -> dict[str, str]:
    return {line.name: str(line.says) for line in plan.hand_over.label(shop="Mill Lane")}


def test_without_a_cover_none_has_a_size() -> None:
    with pytest.raises(ImpossibleSize):
        _ = plan_of("cafe-prints", "oak5").hand_over.cover_mm


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_labels_are_printed_at_true_size_several_on_a_leaf(paper: str) -> None:
    plan, leaf = plan_of("cafe-prints", "oak5", {"hand_over.label.dedication": "For Anna"}), paper_called(paper)
    laid = lay_out_label(plan.hand_over.label(shop="Mill Lane"), across_mm=90, up_mm=60)
    assert not laid.is_full and labels_a_leaf(laid, leaf) == (2, 4)
    with pdfplumber.open(io.BytesIO(labels_pdf([laid] * 10, stamp=stamp_of(plan), paper=leaf))) as pdf:
        first, second = pdf.pages
        edges = {(round(line["x0"] * MM_PER_POINT, 2), round(line["x1"] * MM_PER_POINT, 2)) for line in first.lines}
        assert {(10.0, 100.0), (100.0, 190.0), (10.0, 110.0)} <= edges
        assert first.extract_text().count("Linocut, matted") == 8 and second.extract_text().count("For Anna") == 2


def test_a_label_larger_than_the_paper_is_refused() -> None:
    laid = lay_out_label((), across_mm=250, up_mm=60)
    with pytest.raises(ImpossibleSize):
        labels_a_leaf(laid, paper_called("a4"))
