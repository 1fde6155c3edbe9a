"""The stock at a corner: the mitre face, the room behind and within the lip, walls and findings."""

from math import sqrt
from typing import Any

import pytest
from shapely import Polygon

from framecalc.corners.joints.corner_stock import Walls, corner_stock, room_across_mm, walls_around
from framecalc.corners.joints.corner_stock import wall_findings as findings_of
from framecalc.errors import FrameCalcError
from framecalc.findings import Severity
from framecalc.geometry.plane import Rectangle

GOOD: dict[str, Any] = {"face_width_mm": 40.0, "thickness_mm": 20.0, "rabbet_width_mm": 6.0, "rabbet_depth_mm": 12.0}


def test_the_mitre_face_is_the_section_stretched_by_the_root_of_two() -> None:
    stock = corner_stock(**GOOD)
    assert stock.mitre_area_mm2 == pytest.approx(sqrt(2) * Polygon(stock.shape).area)
    assert stock.mitre_area_mm2 == pytest.approx(sqrt(2) * ((40 - 6) * 20 + 6 * (20 - 12)))
    assert stock.mitre_length_mm == pytest.approx(40 * sqrt(2))


def test_a_member_without_rabbet_is_its_blank() -> None:
    stock = corner_stock(**(GOOD | {"rabbet_width_mm": 0.0, "rabbet_depth_mm": 0.0}))
    assert Polygon(stock.shape).area == 800
    for none in ({"rabbet_width_mm": 0.0}, {"rabbet_depth_mm": 0.0}):
        assert corner_stock(**(GOOD | none)).shape == stock.shape


@pytest.mark.parametrize(
    ("low_mm", "high_mm", "room"), [(0, 5, (0, 34)), (10, 13, (0, 34)), (12, 20, (0, 40)), (15, 17, (0, 40))]
)
def test_behind_the_lip_the_land_is_the_room_and_within_it_the_width(
    low_mm: float, high_mm: float, room: tuple[float, float]
) -> None:
    assert room_across_mm(corner_stock(**GOOD), low_mm=low_mm, high_mm=high_mm) == room


def test_where_a_joint_breaks_out_only_that_is_said() -> None:
    walls = walls_around(corner_stock(**GOOD), Rectangle(left_mm=1, right_mm=35, low_mm=5, high_mm=10), wanted_mm=3)
    found = findings_of(walls, joint="slot", across="from_tip_mm", up="height_mm")
    assert [(finding.code, finding.severity) for finding in found] == [("joints.breaks-out", Severity.STOP)]
    assert found[0].lengths["wall"] == pytest.approx(1)
    assert found[0].argument == "from_tip_mm"


def test_every_thin_wall_is_found_with_its_measure() -> None:
    walls = walls_around(corner_stock(**GOOD), Rectangle(left_mm=1, right_mm=20, low_mm=2, high_mm=10), wanted_mm=3)
    found = findings_of(walls, joint="slot", across="from_tip_mm", up="height_mm")
    assert [(finding.code, finding.argument, finding.lengths["wall"]) for finding in found] == [
        ("joints.wall-thin", "from_tip_mm", 1),
        ("joints.wall-thin", "height_mm", 2),
    ]


@pytest.mark.parametrize("least_mm", [0.0, 0.5, 2.9])
def test_wood_that_is_hardly_there_is_a_thin_wall_and_no_hole(least_mm: float) -> None:
    walls = Walls(outer_mm=least_mm, inner_mm=3, back_mm=3, face_mm=3, nearest_mm=3, wanted_mm=3)
    (finding,) = findings_of(walls, joint="slot", across="x", up="y")
    assert (finding.code, finding.lengths) == ("joints.wall-thin", {"wall": least_mm, "wanted": 3})


def test_walls_just_as_wanted_are_sound() -> None:
    walls = Walls(outer_mm=3, inner_mm=3, back_mm=3, face_mm=3, nearest_mm=3, wanted_mm=3)
    assert walls.sound and findings_of(walls, joint="slot", across="x", up="y") == ()


@pytest.mark.parametrize(
    ("field", "value", "says"),
    [
        ("rabbet_width_mm", 40.0, "No land left: enter a rabbet width under 40 mm"),
        ("rabbet_depth_mm", 20.0, "leaves no lip"),
        ("thickness_mm", 0.0, "more than 0 mm"),
        ("sides", 2, "3 to 24"),
    ],
)
def test_stock_that_is_no_stock_is_refused(field: str, value: float, says: str) -> None:
    with pytest.raises(FrameCalcError, match=says) as refusal:
        corner_stock(**(GOOD | {field: value}))
    assert refusal.value.field == field
