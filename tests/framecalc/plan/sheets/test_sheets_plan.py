"""The sheet problem of each material: stock, way of cutting, what is refused; layouts that belong to it."""

import json
from itertools import count
from pathlib import Path
from typing import Any

import pytest

import framecalc
from framecalc.errors import FrameCalcError
from framecalc.findings import Severity
from framecalc.plan import Plan
from framecalc.plan.job_light import obstacles_of_sheets
from framecalc.plan.sheets.sheets import SheetGroup, SheetsPlan
from framecalc.project import parse_project, project_document, project_text, read_project, set_value
from framecalc.search.watch import start_watch
from framecalc.sheets.answer import SheetLayout
from framecalc.sheets.plan import lay_out_sheets

DEMO = Path(framecalc.__file__).parent / "demos/cafe-prints.demo.json"
LAYERS = (
    ("glass", "glazing", "2 mm"),
    ("mat", "mat", "1.5 mm"),
    ("linocut", "artwork", "0.3 mm"),
    ("backing board", "backing", "1.5 mm"),
    ("plywood back", "back", "3 mm"),
)


def document(*stock: dict[str, Any], **ways: Any) -> dict[str, Any]:
    """The café's five linocuts behind glass and a mat, with sheets to cut from."""
    found: dict[str, Any] = json.loads(DEMO.read_text("utf-8"))
    found["frames"] = found["frames"][:1]
    found["frames"][0]["package"]["layers"] = [
        {"id": f"l{place}", "name": name, "kind": kind, "thickness": thickness, "tolerance": "0 mm"}
        for place, (name, kind, thickness) in enumerate(LAYERS)
    ]
    found["sheets"] = {"stock": [{"id": f"s{number}"} | one for number, one in enumerate(stock)]} | ways
    return found


def sheet(serves: str, across: str = "815 mm", up: str = "1120 mm", **more: Any) -> dict[str, Any]:
    return {"serves": serves, "name": f"{across} × {up}", "across": across, "up": up} | more


def plan(found: dict[str, Any]) -> SheetsPlan:
    return Plan(read_project(found)).sheets


def group(found: dict[str, Any], name: str = "glass") -> SheetGroup:
    return next(one for one in plan(found).groups if one.material.name == name)


def laid_out(one: SheetGroup) -> SheetLayout:
    assert one.problem
    ticks = count()
    return lay_out_sheets(one.problem, watch=start_watch(1.0, clock=lambda: next(ticks) * 0.0), most_beginnings=0)


def test_without_stock_the_smallest_usual_sheet_that_holds_every_part_stands_in() -> None:
    """400 × 332 mm: 14 × 18 in is the first boxed size of glass that holds it, turned."""
    one = group(document())
    assert one.is_estimate and one.problem
    assert [stock.name for stock in one.problem.stock] == ["14 × 18 in"]


def test_an_estimate_takes_sizes_made_in_the_unit_of_the_project_first() -> None:
    in_inches = document() | {"unit": "in"}
    names = [group(found, "mat").problem.stock[0].name for found in (document(), in_inches)]  # type: ignore[union-attr]
    assert names == ["815 × 1120 mm", "32 × 40 in"]


def test_each_material_is_cut_in_its_own_way() -> None:
    """Glass is scored and leaves no strip under 12 mm; a panel is sawn with the blade of the shop, 3.2 mm."""
    ways = {one.material.name: one.problem for one in plan(document()).groups}
    found = {name: (way.kerf_mm, way.least_strip_mm) for name, way in ways.items() if way}
    assert found == {"glass": (0, 12), "mat": (0, 0), "backing board": (0, 0), "plywood back": (3.2, 0)}


def test_a_kerf_and_a_trim_that_are_typed_are_taken() -> None:
    way = group(document(panel={"kerf": "2.6 mm", "trim": "1/2 in"}), "plywood back").problem
    assert way and (way.kerf_mm, way.trim_mm) == (2.6, 12.7)


def test_stock_serves_layers_of_its_name_whatever_the_capitals() -> None:
    one = group(document(sheet("Glass", count=2), sheet("mat")))
    assert not one.is_estimate and one.problem
    assert [(stock.name, stock.count) for stock in one.problem.stock] == [("815 mm × 1120 mm", 2)]


def test_a_thickness_narrows_down_what_stock_serves() -> None:
    assert not group(document(sheet("glass", thickness="2 mm"))).is_estimate
    found = plan(document(sheet("glass", thickness="3 mm")))
    assert found.groups[0].is_estimate and [one.serves for one in found.idle] == ["glass"]


def test_stock_counted_for_two_thicknesses_is_named() -> None:
    found = document(sheet("glass", count=1), sheet("glass"))
    layers = found["frames"][0]["package"]["layers"]
    layers.append(layers[0] | {"id": "gl2", "thickness": "3 mm"})
    assert [one.shared for one in plan(found).groups if one.material.name == "glass"] == [("815 mm × 1120 mm",)] * 2


def test_two_off_cuts_of_one_name_and_size_are_two() -> None:
    one = group(document(*[sheet("glass", "400 mm", "350 mm", count=1)] * 2))
    layout = laid_out(one)
    assert one.faults(layout) == () and len(layout.sheets) - len(layout.missing) == 2


@pytest.mark.parametrize(
    ("stock", "ways", "says"),
    [
        ((sheet("glass", "300 mm", "300 mm"),), {}, "No sheet holds “Linocut, matted”"),
        ((sheet("glass"),), {"glass": {"trim": "5 mm"}}, "Enter no trim, or 12 mm or more, not 5 mm"),
        (
            (sheet("glass", "150 mm", "900 mm"),),
            {"glass": {"trim": "80 mm"}},
            "a trim of 80 mm leaves nothing",
        ),
        ((sheet("glass"),), {"glass": {"least_strip": "100 mm", "trim": "0 mm"}, "upright": ["glass"]}, ""),
        ((sheet("glass", count=0),), {}, "Nothing to cut from: add a sheet"),
    ],
)
def test_what_cannot_be_laid_out_is_said_with_the_number_and_the_others_go_on(
    stock: tuple[dict[str, Any], ...], ways: dict[str, Any], says: str
) -> None:
    groups = plan(document(*stock, **ways)).groups
    assert (says in groups[0].refusal and bool(groups[0].refusal)) or (not says and groups[0].problem)
    assert all(one.problem for one in groups[1:])


def large_and_small(*stock: dict[str, Any]) -> dict[str, Any]:
    """The linocuts, and one of 2 m that fits no sheet."""
    found = document(*stock)
    large = json.loads(json.dumps(found["frames"][0]))
    found["frames"].append(large | {"id": "big", "name": "giant"})
    for side in ("across", "up"):
        set_value(found, f"frames.big.artwork.{side}", "2000 mm")
    return found


@pytest.mark.parametrize("stock", [(sheet("glass"),), ()], ids=["typed", "estimated"])
def test_one_part_that_fits_no_sheet_is_named_and_the_others_are_planned(stock: tuple[dict[str, Any], ...]) -> None:
    one, alone = group(large_and_small(*stock)), group(document(*stock))
    assert list(one.left_out) == ["giant"] and "No sheet holds" in one.left_out["giant"]
    assert one.problem == alone.problem and not one.refusal
    assert one.faults(laid_out(one)) == ()
    assert [part.name for part in one.parts] == [*(part.name for part in alone.parts), "giant"]


def test_a_part_that_is_left_out_stops_the_job_before_fitting() -> None:
    found = plan(large_and_small(sheet("glass"))).groups
    project = read_project(large_and_small(sheet("glass")))
    (said,) = [one for one in obstacles_of_sheets([(found[0], None)], project=project)]
    assert said.severity is Severity.STOP and "No sheet holds" in said.sentence


def test_where_no_part_fits_the_group_is_refused() -> None:
    one = group(large_and_small(sheet("glass", "300 mm", "300 mm")))
    assert one.problem is None and "No sheet holds" in one.refusal and not one.left_out


def test_ten_thousand_parts_are_refused_with_what_would_do() -> None:
    found = document()
    found["frames"] = [found["frames"][0] | {"id": f"f{number}", "count": 999} for number in range(10)]
    assert group(found).refusal == ("Lay out at most 500 parts at a time, not 9990.")


def test_a_refusal_is_written_in_the_unit_of_the_project() -> None:
    found = document(sheet("glass", "10 in", "10 in")) | {"unit": "in"}
    assert "10 in × 10 in" in group(found).refusal


def test_a_layout_of_another_problem_is_no_layout_of_this() -> None:
    glass, mat = (group(document(sheet("glass"), sheet("mat")), name) for name in ("glass", "mat"))
    assert glass.faults(laid_out(glass)) == () and glass.faults(laid_out(mat)) == ("it answers another question",)


@pytest.mark.parametrize("across", ["420 mm", "700 mm", "900 mm"])
def test_a_sheet_more_at_hand_never_asks_for_more_to_buy(across: str) -> None:
    without, richer = (group(document(sheet("glass"), *more)) for more in ((), (sheet("glass", across, count=1),)))
    layout, better = laid_out(without), laid_out(richer)
    assert layout.is_proved and better.is_proved and better.bought <= layout.bought


def test_turning_allowed_never_asks_for_more() -> None:
    turned, fixed = (laid_out(group(document(sheet("glass"), upright=names))) for names in ((), ("glass",)))
    assert turned.is_proved and fixed.is_proved and turned.bought <= fixed.bought


def test_a_file_keeps_what_was_typed_about_sheets() -> None:
    found = document(sheet("glass", "32 in", "40 in", price="12.50", count=2), plastic={"kerf": "2 mm"})
    project = read_project(found)
    again = parse_project(project_text(project_document(project)))
    assert again.sheets == project.sheets and again.sheets.plastic.kerf


def test_a_file_from_before_sheets_reads_as_it_was() -> None:
    found = document()
    del found["sheets"]
    assert read_project(found).sheets.glass.least_strip.text == "12 mm"


@pytest.mark.parametrize(
    ("path", "value", "says"),
    [
        ("sheets.stock.s0.price", "1.005", "Enter a price of two decimals, such as 1"),
        ("sheets.stock.s0.price", "900000", "Enter a price up to 100000"),
        ("sheets.stock.s0.across", "9000 mm", "to 5000 mm"),
        ("sheets.stock.s0.count", 1000, "Enter 999 or fewer"),
        ("sheets.glass.trim", "200 mm", "to 100 mm"),
        ("sheets.aim", "most", "is not one of"),
    ],
)
def test_what_a_sheet_cannot_be_is_refused_in_a_sentence(path: str, value: object, says: str) -> None:
    found = document(sheet("glass"))
    set_value(found, path, value)
    with pytest.raises(FrameCalcError) as refusal:
        read_project(found)
    assert says in str(getattr(refusal.value, "sentences", refusal.value))
