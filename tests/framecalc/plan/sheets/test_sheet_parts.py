"""What is cut from sheets: sizes never too large, counted over all frames, layers of one material together."""

import json
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest

import framecalc
from framecalc.errors import FrameCalcError
from framecalc.plan import Plan
from framecalc.plan.sheets.parts import MaterialParts, distinct, sheet_parts
from framecalc.project import read_project, set_value

DEMO = Path(framecalc.__file__).parent / "demos/cafe-prints.demo.json"
LAYERS = (
    ("glass", "glazing", "2 mm"),
    ("mat", "mat", "1.5 mm"),
    ("linocut", "artwork", "0.3 mm"),
    ("backing board", "backing", "1.5 mm"),
    ("plywood back", "back", "3 mm"),
)


def document(**changes: Any) -> dict[str, Any]:
    """The café's five linocuts with fields changed: a path's dots are written as double low lines."""
    found: dict[str, Any] = json.loads(DEMO.read_text("utf-8"))
    found["frames"] = found["frames"][:1]
    found["frames"][0]["package"]["layers"] = [layer(*one) for one in LAYERS]
    for path, value in changes.items():
        set_value(found["frames"][0], path.replace("__", "."), value)
    return found


def materials(found: dict[str, Any], *, upright: tuple[str, ...] = ()) -> tuple[MaterialParts, ...]:
    return sheet_parts(Plan(read_project(found)).frames.values(), upright=upright)


def layer(name: str, kind: str, thickness: str, **more: str) -> dict[str, str]:
    given = {"id": "".join(filter(str.isalnum, name.lower()))[:12], "name": name, "kind": kind, "thickness": thickness}
    return given | {"tolerance": "0 mm"} | more


def test_every_sheet_layer_is_cut_to_the_package_and_counted_over_the_batch() -> None:
    """280 × 200 mm behind a window that laps over it by 4 on each side: 272 × 192, and the borders 64, 64, 76."""
    found = materials(document())
    assert [one.material.name for one in found] == ["glass", "mat", "backing board", "plywood back"]
    for one in found:
        (part,) = one.parts
        assert (part.across_mm, part.up_mm, part.count) == (272 + 2 * 64, 192 + 64 + 76, 5)


@pytest.mark.parametrize("step", ["1/16 in", "1/64 in"])
def test_a_part_is_rounded_down_to_the_tape_and_never_larger_than_the_package(step: str) -> None:
    typed = document(artwork__across="281.3 mm", package__mat=None) | {"unit": "in"}
    typed["shop"]["inch_step"] = step
    plan = Plan(read_project(typed))
    step_mm = float(plan.frames["oak5"].step.size_mm)
    for one in sheet_parts(plan.frames.values(), upright=()):
        (part,) = one.parts
        assert 0 <= plan.frames["oak5"].sizes.package_across_mm - part.across_mm < step_mm
        assert part.across_mm / step_mm == pytest.approx(round(part.across_mm / step_mm))


def test_a_spacer_and_the_artwork_are_no_sheets() -> None:
    layers = [layer("Spacer", "spacer", "5 mm"), layer("Print", "artwork", "0.3 mm"), layer("Glass", "glazing", "2 mm")]
    assert [one.material.name for one in materials(document(package__layers=layers))] == ["Glass"]


def test_two_mats_of_one_board_are_cut_from_the_same_sheets() -> None:
    layers = [layer("Ivory", "mat", "1.5 mm"), layer("ivory", "mat", "1.5 mm") | {"id": "other"}]
    (one,) = materials(document(package__layers=layers))
    assert one.count == 10 and len(one.parts) == 1


def test_layers_of_another_thickness_or_substance_are_another_material() -> None:
    layers = [
        layer("Board", "back", "3 mm"),
        layer("Board", "back", "6 mm") | {"id": "b6"},
        layer("Board", "back", "3 mm", material="mdf") | {"id": "mdf"},
    ]
    assert len(materials(document(package__layers=layers))) == 3


def test_a_frame_of_the_same_name_is_told_apart() -> None:
    typed = document()
    second = deepcopy(typed["frames"][0]) | {"id": "twin", "count": 2}
    typed["frames"].append(second)
    glass = materials(typed)[0]
    assert [(part.name, part.count) for part in glass.parts] == [("Linocut, matted", 5), ("Linocut, matted (2)", 2)]


def test_names_stay_apart_whatever_they_are() -> None:
    names = ["a", "a", "a (2)", "a", "a (2)"]
    told = list(distinct(names))
    assert len(set(told)) == len(told) and told[0] == "a"


def test_parts_of_a_material_that_is_kept_upright_do_not_turn() -> None:
    turns = {one.material.name: one.parts[0].may_turn for one in materials(document(), upright=("MAT",))}
    assert turns == {"glass": True, "mat": False, "backing board": True, "plywood back": True}


def test_how_a_material_is_cut_follows_from_what_it_is() -> None:
    ways = {one.material.name: one.material.cutting.value for one in materials(document())}
    assert ways == {"glass": "glass", "mat": "board", "backing board": "board", "plywood back": "panel"}


def test_a_thickness_that_the_name_says_already_is_not_said_twice() -> None:
    layers = [layer("glass", "glazing", "2 mm"), layer("Foam board, 5 mm", "backing", "5 mm")]
    titles = [one.material.title for one in materials(document(package__layers=layers))]
    assert titles == ["Glass, 2 mm", "Foam board, 5 mm"]


@pytest.mark.parametrize(("clearance", "says"), [("-2 mm", "Enter 0 mm or more for the clearance across, not -2 mm")])
def test_a_clearance_that_is_none_is_refused_with_the_name_of_its_frame(clearance: str, says: str) -> None:
    typed = document(package__clearance_across=clearance, name="{hall}")
    with pytest.raises(FrameCalcError) as refusal:
        materials(typed)
    assert refusal.value.sentence.startswith("“{hall}”: ") and says in refusal.value.sentence
