"""Tray sections: area and outline against Shapely, refusals, findings."""

from typing import Any

import pytest
from shapely import Polygon, box

from framecalc.errors import FrameCalcError
from framecalc.findings import Finding, Severity
from framecalc.geometry.outline import flatten, height_at
from framecalc.section.profile import Edge, EdgeShape
from framecalc.section.tray import TraySection, tray_section, tray_section_findings

SQUARE = Edge(shape=EdgeShape.SQUARE, size_mm=1)
USUAL: dict[str, Any] = {
    "wall_mm": 12.0,
    "height_mm": 40.0,
    "ledge_width_mm": 20.0,
    "ledge_thickness_mm": 8.0,
    "sight_edge": SQUARE,
    "back_edge": SQUARE,
}


def mill(**changed: Any) -> TraySection:
    return tray_section(**USUAL | changed)


@pytest.mark.parametrize("unit_mm", [1.0, 25.4])
def test_a_square_tray_is_two_rectangles(unit_mm: float) -> None:
    tray = mill(**{name: value * unit_mm for name, value in USUAL.items() if isinstance(value, float)})
    assert tray.area_mm2 == pytest.approx((12 * 40 + 20 * 8) * unit_mm**2)
    assert tray.depth_mm == pytest.approx(32 * unit_mm)


@pytest.mark.parametrize("sight", EdgeShape)
@pytest.mark.parametrize("back", EdgeShape)
def test_every_combination_is_one_closed_counter_clockwise_outline(sight: EdgeShape, back: EdgeShape) -> None:
    tray = mill(sight_edge=Edge(shape=sight, size_mm=2), back_edge=Edge(shape=back, size_mm=2.5))
    milled = Polygon(flatten(tray.outline, tolerance_mm=1e-5))
    whole = box(0, 0, 12, 40).union(box(12, 0, 32, 8))
    assert milled.is_valid and milled.exterior.is_ccw
    assert milled.area == pytest.approx(tray.area_mm2, abs=1e-3)
    assert milled.difference(whole.buffer(1e-9)).is_empty
    assert milled.intersection(box(0, 0, 32, 37)).area == pytest.approx(whole.intersection(box(0, 0, 32, 37)).area)


def test_the_sight_edge_is_the_inner_edge_of_the_wall() -> None:
    tray = mill(sight_edge=Edge(shape=EdgeShape.STEP, size_mm=3))
    assert [height_at(tray.outline, x_mm) for x_mm in (1, 8, 10, 20)] == pytest.approx([40, 40, 37, 8])


@pytest.mark.parametrize(
    ("changed", "field", "says"),
    [
        ({"ledge_thickness_mm": 40.0}, "tray_ledge_thickness_mm", "No side left above the ledge: enter under 40 mm"),
        ({"ledge_width_mm": 0.0}, "tray_ledge_width_mm", "Enter more than 0 mm"),
        ({"wall_mm": float("nan")}, "tray_wall_mm", "Enter "),
        ({"height_mm": -1.0}, "tray_height_mm", "Enter more than 0 mm"),
        (
            {"sight_edge": Edge(shape=EdgeShape.CHAMFER, size_mm=13)},
            "sight_edge_mm",
            "A chamfer of 13 mm on the sight edge takes the face, 12 mm: enter under 12 mm",
        ),
        (
            {"sight_edge": Edge(shape=EdgeShape.ROUND, size_mm=9), "ledge_thickness_mm": 32.0},
            "sight_edge_mm",
            "No inner side left of 8 mm: enter",
        ),
        ({"back_edge": Edge(shape=EdgeShape.BEAD, size_mm=5)}, "back_edge_mm", "enter under 4.8 mm"),
    ],
)
def test_what_cannot_be_milled_is_refused(changed: dict[str, Any], field: str, says: str) -> None:
    with pytest.raises(FrameCalcError, match=says) as refusal:
        mill(**changed)
    assert refusal.value.field == field


def found(tray: TraySection) -> dict[str, Finding]:
    return {finding.code: finding for finding in tray_section_findings(tray)}


def test_a_sound_tray_has_no_findings() -> None:
    assert tray_section_findings(mill()) == ()


@pytest.mark.parametrize(
    ("name", "code", "argument"),
    [
        ("wall_mm", "tray.wall-thin", "tray_wall_mm"),
        ("ledge_thickness_mm", "tray.ledge-thin", "tray_ledge_thickness_mm"),
    ],
)
def test_thin_parts_are_warned_of_and_the_way_out_mends_them(name: str, code: str, argument: str) -> None:
    finding = found(mill(**{name: 5.9}))[code]
    assert (finding.severity, finding.argument) == (Severity.WARN, argument)
    (way,) = finding.ways
    assert found(mill(**{name: way.value_mm})) == {}


def test_no_ledge_is_offered_that_leaves_no_wall() -> None:
    assert found(mill(ledge_thickness_mm=3.0, height_mm=6.0))["tray.ledge-thin"].ways == ()
