"""Pins and wedges: the wood they cross, the walls they leave, drawn in plan with Shapely."""

from math import sqrt

import pytest
from shapely import LineString, Polygon

from framecalc.corners.joints.clash import find_clashes, slot_prism
from framecalc.corners.joints.corner_stock import CornerStock, corner_stock
from framecalc.corners.joints.pins import (
    Pin,
    Wedge,
    pin_findings,
    pin_prism,
    place_pin,
    place_wedge,
    wedge_findings,
    wedge_prism,
)
from framecalc.corners.joints.slot_kinds import mortise
from framecalc.corners.joints.slots import place_slot
from framecalc.errors import FrameCalcError


def _stock(*, sides: int = 4) -> CornerStock:
    return corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12, sides=sides)


def _pin(**changed: float) -> Pin:
    usual = {"diameter_mm": 1.2, "length_mm": 32.0, "from_corner_mm": 12.0, "height_mm": 8.0, "wall_mm": 3.0}
    return place_pin(_stock(), **(usual | changed))


def _wedge(**changed: float) -> Wedge:
    return place_wedge(_stock(), **({"height_mm": 10.0, "leg_mm": 9.0, "from_tip_mm": 30.0, "wall_mm": 3.0} | changed))


@pytest.mark.parametrize("from_corner_mm", [6.0, 12.0, 25.0])
def test_what_holds_is_what_lies_past_the_mitre(from_corner_mm: float) -> None:
    """Draw the pin up from the outer edge; the other member is what lies above the mitre line."""
    other = Polygon([(0, 0), (100, 100), (0, 100)])
    drawn = LineString([(from_corner_mm, 0), (from_corner_mm, 32)])
    assert _pin(from_corner_mm=from_corner_mm).holds_mm == pytest.approx(drawn.intersection(other).length)


def test_a_pin_runs_as_far_from_one_outer_edge_as_it_went_in_from_the_corner() -> None:
    walls = _pin().walls
    assert walls.outer_mm == pytest.approx(12 - 0.6)
    assert walls.inner_mm == pytest.approx(40 - 6 - 12 - 0.6)
    assert (walls.back_mm, walls.face_mm) == pytest.approx((7.4, 11.4))


def test_a_pin_beside_the_rabbet_breaks_into_it() -> None:
    found = pin_findings(_pin(from_corner_mm=33.8, length_mm=70))
    assert [finding.code for finding in found] == ["joints.breaks-out"]


def test_a_pin_that_hardly_reaches_is_short_and_one_near_the_end_is_drilled_first() -> None:
    assert [finding.code for finding in pin_findings(_pin(length_mm=20))] == [
        "joints.pin-short",
        "joints.pin-predrill",
    ]
    assert pin_findings(_pin(from_corner_mm=20, length_mm=45)) == ()


def test_a_pin_that_is_driven_into_a_tenon_is_found() -> None:
    stock = _stock()
    slot = place_slot(stock, mortise(width_mm=16, depth_mm=9, thickness_mm=5), height_mm=8, wall_mm=3)
    prisms = [slot_prism(stock, slot), pin_prism(_pin(from_corner_mm=18))]
    assert find_clashes(prisms, wanted_mm=3)[0].apart_mm == 0
    aside = pin_prism(_pin(from_corner_mm=18, height_mm=16))
    assert find_clashes([prisms[0], aside], wanted_mm=3) == ()


def test_a_wedge_lies_outward_of_its_point_and_below_its_height() -> None:
    walls = _wedge().walls
    assert walls.inner_mm == pytest.approx(40 - 6 - 30 / sqrt(2))
    assert walls.outer_mm == pytest.approx(30 / sqrt(2) - 9)
    assert walls.face_mm == pytest.approx(10)


def test_the_wood_between_the_legs_is_half_in_each_member() -> None:
    prism = wedge_prism(_stock(), _wedge())
    assert (prism.low_mm, prism.high_mm) == (0, _wedge().height_mm)
    drawn = Polygon(prism.plan)
    below = Polygon([(0, 0), (100, 0), (100, 100)])
    assert drawn.area == pytest.approx(9 * 9 / 2)
    assert drawn.intersection(below).area == pytest.approx(drawn.area / 2)
    assert drawn.bounds[1] == pytest.approx(_wedge().walls.outer_mm)


def test_a_wedge_in_the_rabbet_has_nothing_to_go_into() -> None:
    found = wedge_findings(_stock(), _wedge(from_tip_mm=52))
    assert "joints.breaks-out" in [finding.code for finding in found]


def test_a_high_wedge_comes_near_the_face() -> None:
    assert [finding.code for finding in wedge_findings(_stock(), _wedge(height_mm=18))] == [
        "joints.wall-thin",
        "joints.wedge-high",
    ]
    assert wedge_findings(_stock(), _wedge()) == ()
    *_, high = wedge_findings(_stock(), _wedge(height_mm=18))
    assert list(high.lengths.values()) == pytest.approx([18, 20 * 2 / 3])


@pytest.mark.parametrize(
    ("changed", "field", "says"),
    [
        ({"length_mm": 10.0}, "pin_length_mm", "Pin too short at 10 mm: enter more than 12 mm, to reach through"),
        ({"diameter_mm": 25.0}, "pin_diameter_mm", "the member's thickness, not 2"),
        ({"from_corner_mm": 35.0}, "from_corner_mm", "Enter 0 mm to 34 mm"),
        ({"height_mm": 20.0}, "height_mm", "Enter 0.6 mm to 19.4 mm"),
    ],
)
def test_pins_that_cannot_be_driven_are_refused(changed: dict[str, float], field: str, says: str) -> None:
    with pytest.raises(FrameCalcError, match=says) as refusal:
        _pin(**changed)
    assert refusal.value.field == field


def test_a_wedge_as_high_as_the_frame_is_refused() -> None:
    with pytest.raises(FrameCalcError, match="the member's thickness, not 2"):
        _wedge(height_mm=20)


def test_corners_that_are_not_square_get_no_pins() -> None:
    with pytest.raises(FrameCalcError, match="square corners only"):
        place_pin(_stock(sides=6), diameter_mm=1.2, length_mm=32, from_corner_mm=12, height_mm=8, wall_mm=3)


def test_a_pin_is_as_high_as_it_is_wide_about_its_height_and_its_place() -> None:
    pin = _pin()
    prism = pin_prism(pin)
    assert (prism.low_mm, prism.high_mm) == pytest.approx((8 - 0.6, 8 + 0.6))
    assert Polygon(prism.plan).bounds == pytest.approx((12 - 0.6, 0, 12 + 0.6, 32))
