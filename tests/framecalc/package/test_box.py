from math import isclose

import pytest
from hypothesis import given
from hypothesis import strategies as some

from framecalc.errors import ImpossibleSize, OutOfRange
from framecalc.findings import Severity
from framecalc.package.box import box_around, box_depth_findings, box_findings, shadow_mm

ROOM = {"rabbet_across_mm": 300.0, "rabbet_up_mm": 400.0, "clearance_mm": 2.0}


@given(depth_mm=some.floats(1, 200), wall_mm=some.floats(1, 20), air_mm=some.floats(0, 30))
def test_walls_and_inside_make_up_the_room(depth_mm: float, wall_mm: float, air_mm: float) -> None:
    box = box_around(object_depth_mm=depth_mm, wall_mm=wall_mm, air_mm=air_mm, **ROOM)
    through, between = box.walls
    assert through.length_mm == 298 and between.length_mm + 2 * wall_mm == pytest.approx(398)
    assert box.inside_across_mm + 2 * wall_mm == pytest.approx(298) and box.inside_up_mm == between.length_mm
    assert through.height_mm == between.height_mm == box.inside_depth_mm == depth_mm + air_mm


@given(depth_mm=some.floats(0, 300), lamp_deg=some.floats(0, 80))
def test_a_steeper_lamp_and_a_deeper_box_throw_a_longer_shadow(depth_mm: float, lamp_deg: float) -> None:
    shadow = shadow_mm(depth_mm=depth_mm, lamp_deg=lamp_deg)
    assert shadow >= 0 and shadow_mm(depth_mm=depth_mm + 1, lamp_deg=lamp_deg) >= shadow
    assert shadow_mm(depth_mm=depth_mm, lamp_deg=min(80, lamp_deg + 1)) >= shadow
    assert isclose(shadow_mm(depth_mm=depth_mm, lamp_deg=45), depth_mm)


@pytest.mark.parametrize(
    ("margin_mm", "lamp_deg", "covered_mm", "codes"),
    [
        (60, 45, 9, []),
        (40, 45, 9, ["box.shadow"]),
        (40, 0, 9, []),
        (60, 45, 4, ["box.walls-in-view"]),
    ],
)
def test_what_is_said_of_a_box(margin_mm: float, lamp_deg: float, covered_mm: float, codes: list[str]) -> None:
    box = box_around(object_depth_mm=30, wall_mm=5, **ROOM)
    found = box_findings(box, lip_mm=6, glazing_mm=3, margin_mm=margin_mm, lamp_deg=lamp_deg, covered_mm=covered_mm)
    assert [finding.code for finding in found] == codes
    assert all(finding.sentence.format_map(finding.lengths) for finding in found)


def test_a_box_without_inside_is_refused() -> None:
    with pytest.raises(ImpossibleSize, match="Nothing left inside 298 mm: enter walls thinner than 149 mm"):
        box_around(object_depth_mm=30, wall_mm=149, **ROOM)
    with pytest.raises(OutOfRange):
        shadow_mm(depth_mm=10, lamp_deg=85)


def test_a_box_deeper_than_its_rabbet_is_a_stop_and_walls_that_no_layer_counts_are_a_note() -> None:
    box = box_around(object_depth_mm=30, rabbet_across_mm=300, rabbet_up_mm=400, clearance_mm=2, wall_mm=8)
    deep = {"around_mm": 5.0, "rabbet_depth_mm": 41.0}
    assert box_depth_findings(box, spacer_mm=36, **deep) == ()
    (layers,) = box_depth_findings(box, spacer_mm=6, **deep)
    assert (layers.code, layers.severity) == ("box.layers", Severity.NOTE)
    (shallow,) = box_depth_findings(box, spacer_mm=36, around_mm=5.0, rabbet_depth_mm=40.0)
    assert (shallow.code, shallow.severity) == ("box.shallow", Severity.STOP)
