"""The section: the true profile, layers in their order and thickness, what is spare or proud."""

import re

import pytest
from drawn_plans import plan_of
from svg_reading import Drawn, path_runs

from framecalc.drawing.package.layers import THIN_MM, thickness_text
from framecalc.drawing.pen import outline_path
from framecalc.drawing.registry import draw_panel, draw_paper
from framecalc.drawing.style import PATTERNS
from framecalc.plan import FramePlan
from framecalc.units import Unit, parse_length


def section(plan: FramePlan) -> Drawn:
    return Drawn(draw_panel("section", plan))


def outline(drawn: Drawn) -> str:
    """The path of the member's outline."""
    return next(path for path in drawn.elements("path") if path.get("class") == "outline").attrib["d"]


def layers(drawn: Drawn) -> list[tuple[str, float, float]]:
    """The fill, the upper and the lower edge of each layer, as drawn."""
    paths = [
        path for path in drawn.elements("path") if path.get("class") in ("layer", "thin") and path.get("clip-path")
    ]
    found = []
    for path in paths:
        heights = [y for _, y in path_runs(path.attrib["d"])[0]]
        found.append((path.attrib["fill"], min(heights), max(heights)))
    return found


@pytest.mark.parametrize(
    "edges",
    [("square", "square"), ("chamfer", "round-over"), ("cove", "arris"), ("bead", "step"), ("round-over", "cove")],
)
def test_the_profile_is_the_plans_own_with_its_arcs(edges: tuple[str, str]) -> None:
    changes = {
        "section.face_width": "30 mm",
        "section.sight_edge.shape": edges[0],
        "section.sight_edge.size": "3 mm",
        "section.back_edge.shape": edges[1],
        "section.back_edge.size": "4 mm",
    }
    plan = plan_of("cafe-prints", "oak5", changes)
    drawn = section(plan)
    data = outline(drawn)
    points = path_runs(data)[0]
    left, right, base = min(x for x, _ in points), max(x for x, _ in points), max(y for _, y in points)
    scale = (right - left) / 30
    wanted = outline_path(plan.section.outline, scale=scale, left_mm=left, base_mm=base)
    assert re.sub(r"[-\d.]+", "", data) == re.sub(r"[-\d.]+", "", wanted)
    assert _numbers(data) == pytest.approx(_numbers(wanted), abs=0.003)


def _numbers(data: str) -> list[float]:
    return [float(number) for number in re.findall(r"-?[\d.]+", data)]


def test_layers_lie_in_order_under_the_lip_in_true_thickness() -> None:
    plan = plan_of("cafe-prints", "oak5")
    drawn = section(plan)
    points = path_runs(outline(drawn))[0]
    scale = (max(x for x, _ in points) - min(x for x, _ in points)) / plan.figures["face_width"].exact_mm
    drawn_layers = layers(drawn)
    top = max(y for _, y in points) - plan.figures["rabbet_depth"].exact_mm * scale
    for layer, (_, upper, lower) in zip(plan.stack.layers, drawn_layers, strict=True):
        assert upper == pytest.approx(top, abs=0.002)
        assert lower - upper == pytest.approx(layer.thickness_mm * scale, abs=0.003)
        top = lower


def test_a_thin_layer_is_filled_and_a_thick_one_hatched() -> None:
    drawn = section(plan_of("cafe-prints", "oak5"))
    solids = {pattern.solid for pattern in PATTERNS.values()}
    for fill, upper, lower in layers(drawn):
        assert (fill in solids) is (lower - upper <= THIN_MM)
    assert {fill in solids for fill, _, _ in layers(drawn)} == {True, False}


def test_each_layer_is_named_with_its_thickness_in_order() -> None:
    plan = plan_of("cafe-prints", "oak5")
    names = ["glass 2", "mat 1.5", "linocut 0.3", "backing board 1.5", "plywood back 3"]
    texts = sorted((text for text in section(plan).texts if text.text in names), key=lambda text: text.top)
    assert [text.text for text in texts] == names


@pytest.mark.parametrize(
    ("name", "frame_id"), [("cafe-prints", "oak5"), ("ash-relief", "box1"), ("ash-relief", "tray1")]
)
def test_leaders_do_not_cross(name: str, frame_id: str) -> None:
    segments = section(plan_of(name, frame_id)).segments("leader")
    upright = [(x, *sorted((y, end_y))) for (x, y), (end_x, end_y) in segments if x == end_x]
    level = [(y, *sorted((x, end_x))) for (x, y), (end_x, end_y) in segments if y == end_y]
    assert len(upright) + len(level) == len(segments)
    for x, top, bottom in upright:
        for y, left, right in level:
            assert not (left < x < right and top < y < bottom)


def test_a_layer_keeps_the_unit_it_was_typed_in() -> None:
    plywood = parse_length("6 mm")
    assert thickness_text(plywood, unit=Unit.INCH) == "6 mm"
    assert thickness_text(parse_length("13/16 in"), unit=Unit.INCH) == "13/16"


def test_a_long_name_is_cut_short_but_never_its_thickness() -> None:
    document = [
        {"id": "a1", "name": "a name that goes on " * 5, "kind": "artwork", "thickness": "3 mm", "tolerance": "0 mm"}
    ]
    texts = [text.text for text in section(plan_of("cafe-prints", "oak5", {"package.layers": document})).texts]
    assert [text for text in texts if re.fullmatch(r"a name.*… 3", text)]


@pytest.mark.parametrize(("depth", "figure"), [("12.5 mm", "left_over"), ("6 mm", "proud")])
def test_what_is_spare_or_proud_is_dimensioned(depth: str, figure: str) -> None:
    plan = plan_of("cafe-prints", "oak5", {"section.rabbet_depth": depth})
    words = ("room behind", "room") if figure == "left_over" else ("proud",)
    (found,) = section(plan).figures()[figure]
    assert found in [f"{word} {plan.figures[figure].text}" for word in words]


def test_a_package_without_clearance_says_so() -> None:
    plan = plan_of("cafe-prints", "oak5", {"package.clearance_across": "0 mm"})
    assert [text for text in section(plan).texts if text.text == "no clearance"]


def test_half_the_clearance_is_the_gap_at_the_rabbet_wall() -> None:
    plan = plan_of("cafe-prints", "oak5", {"package.clearance_across": "4 mm"})
    drawn = section(plan)
    points = path_runs(outline(drawn))[0]
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    scale = (right - left) / 22
    glass = next(path for path in drawn.elements("path") if path.get("clip-path"))
    edge = min(x for x, _ in path_runs(glass.attrib["d"])[0])
    assert edge - (left + 15 * scale) == pytest.approx(2 * scale, abs=0.002)


def test_a_very_wide_member_is_broken_and_keeps_its_figure() -> None:
    drawn = section(plan_of("cafe-prints", "oak5", {"section.face_width": "140 mm"}))
    assert len(drawn.runs("break")) == 3
    assert drawn.figures()["face_width"] == ["face width 140"]
    assert len(section(plan_of("cafe-prints", "oak5")).runs("break")) == 1


def test_many_layers_make_the_panel_taller() -> None:
    document = [
        {"id": f"a{row}", "name": "board", "kind": "backing", "thickness": "0.5 mm", "tolerance": "0 mm"}
        for row in range(12)
    ]
    tall = section(plan_of("cafe-prints", "oak5", {"package.layers": document}))
    assert tall.up_mm > section(plan_of("cafe-prints", "oak5")).up_mm == 76


def test_a_tray_gives_its_own_sizes() -> None:
    figures = section(plan_of("ash-relief", "tray1")).figures()
    assert set(figures) == {"face_width", "thickness", "tray_gap", "ledge_width", "ledge_thickness", "left_over"}


def test_a_ledge_that_is_glued_on_is_parted_from_the_wall_by_a_seam() -> None:
    solid = section(plan_of("ash-relief", "tray1", {"section.ledge": "solid"}))
    plan = plan_of("ash-relief", "tray1", {"section.ledge": "strip"})
    glued = section(plan)
    assert outline(glued).startswith(outline(solid))
    (seam,) = glued.runs("outline")[len(solid.runs("outline")) :]
    (left, top), (right, base) = sorted(seam, key=lambda point: point[1])
    member = glued.runs("outline")[0]
    scale = (base - top) / plan.figures["ledge_thickness"].exact_mm
    assert left == right and base == pytest.approx(max(y for _, y in member), abs=0.01)
    assert left - min(x for x, _ in member) == pytest.approx(plan.figures["face_width"].exact_mm * scale, abs=0.05)


@pytest.mark.parametrize(
    ("depth", "says"),
    [("12.5 mm", "points"), ("8.3 mm", "turn buttons"), ("4.9 mm", "offset clips"), ("5.9 mm", "a build-up strip")],
)
def test_the_retainer_that_was_chosen_lies_against_the_package(depth: str, says: str) -> None:
    """Fault: the section showed no retainer."""
    plan = plan_of("cafe-prints", "oak5", {"section.rabbet_depth": depth})
    drawn = section(plan)
    back = max(lower for _, _, lower in layers(drawn))
    metal = [path.attrib["d"] for path in drawn.elements("path") if path.get("class") == "metal"]
    edges = [[y for _, y in path_runs(data)[0]] for data in metal]
    assert min(edges[-1]) == pytest.approx(back, abs=0.003)
    assert f"held by {says}" in drawn.title


@pytest.mark.parametrize(
    ("unit", "clearance", "each"), [("mm", "3 mm", "1.5"), ("in", "1/8 in", "1/16"), ("in", "1/16 in", "1/32")]
)
def test_the_clearance_is_given_for_each_side(unit: str, clearance: str, each: str) -> None:
    """Fault: “clearance ½ × 1/8” was left to the reader to reckon."""
    plan = plan_of("cafe-prints", "oak5", {"package.clearance_across": clearance}, unit=unit)
    assert f"clearance {each} each side" in [text.text for text in Drawn(draw_paper("section", plan, "a4")).texts]
