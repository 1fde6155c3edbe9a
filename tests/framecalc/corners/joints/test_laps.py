"""Half-lap mitres and bridles: areas and lengths from plans drawn in Shapely."""

from math import sqrt

import pytest
from shapely import Polygon, box

from framecalc.corners.joints.corner_stock import CornerStock, corner_stock
from framecalc.corners.joints.laps import bridle_findings, cut_bridle, cut_half_lap, half_lap_findings, usual_split_mm
from framecalc.errors import FrameCalcError

BELOW_THE_MITRE = Polygon([(0, 0), (200, 0), (200, 200)])


def _stock(*, rabbet_depth_mm: float = 12, sides: int = 4) -> CornerStock:
    return corner_stock(
        face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=rabbet_depth_mm, sides=sides
    )


def test_the_lap_is_what_one_members_back_and_the_others_front_share() -> None:
    through_back = box(0, 0, 400, 34)
    other_front = Polygon([(0, 0), (40, 40), (40, 400), (0, 400)])
    lap = cut_half_lap(_stock(), outside_mm=400, split_mm=12)
    assert lap.lap_area_mm2 == pytest.approx(through_back.intersection(other_front).area)
    assert lap.cut_back_mm == 400 - 2 * 34


def test_what_is_left_of_the_mitre_is_the_front_of_it() -> None:
    assert cut_half_lap(_stock(), outside_mm=400, split_mm=12).mitre_area_mm2 == pytest.approx(sqrt(2) * 40 * 8)
    assert cut_half_lap(_stock(), outside_mm=400, split_mm=8).mitre_area_mm2 == pytest.approx(
        sqrt(2) * (40 * 8 + 34 * 4)
    )


def test_a_split_within_the_lip_still_laps_over_the_land_only() -> None:
    assert cut_half_lap(_stock(), outside_mm=400, split_mm=15).lap_mm == 34


@pytest.mark.parametrize(("rabbet_depth_mm", "split_mm"), [(12, 12), (8, 8), (15, 10), (3, 10)])
def test_the_usual_split_is_the_rabbet_floor_where_it_is_near_the_middle(
    rabbet_depth_mm: float, split_mm: float
) -> None:
    assert usual_split_mm(_stock(rabbet_depth_mm=rabbet_depth_mm)) == split_mm


@pytest.mark.parametrize(
    ("split_mm", "codes"),
    [
        (12.0, []),
        (4.0, ["joints.lap-weak"]),
        (13.0, ["joints.lap-stepped"]),
        (16.0, ["joints.lap-weak", "joints.lap-stepped"]),
    ],
)
def test_a_weak_or_stepped_split_is_found(split_mm: float, codes: list[str]) -> None:
    lap = cut_half_lap(_stock(), outside_mm=400, split_mm=split_mm)
    assert [finding.code for finding in half_lap_findings(_stock(), lap)] == codes


@pytest.mark.parametrize(("low_mm", "high_mm", "reach_mm"), [(6.0, 12.0, 34.0), (7.0, 13.0, 34.0), (13.0, 18.0, 40.0)])
def test_a_bridles_cheeks_are_the_tenon_beyond_the_mitre_twice(low_mm: float, high_mm: float, reach_mm: float) -> None:
    bridle = cut_bridle(_stock(), outside_mm=400, tenon_low_mm=low_mm, tenon_high_mm=high_mm)
    tenon = box(0, 0, 400, reach_mm)
    slotted = box(0, 0, reach_mm, 400).difference(BELOW_THE_MITRE)
    assert (bridle.tenon_mm, bridle.slot_depth_mm, bridle.long_mm) == (reach_mm, reach_mm, 400)
    assert bridle.cheek_area_mm2 == pytest.approx(2 * tenon.intersection(slotted).area)


def test_the_tenon_takes_its_heights_from_the_mitre() -> None:
    stock = _stock()
    bridle = cut_bridle(stock, outside_mm=400, tenon_low_mm=6, tenon_high_mm=13)
    assert stock.mitre_area_mm2 - bridle.mitre_area_mm2 == pytest.approx(sqrt(2) * (34 * 6 + 40 * 1))


def test_thin_cheeks_are_found_by_name() -> None:
    bridle = cut_bridle(_stock(), outside_mm=400, tenon_low_mm=7, tenon_high_mm=18)
    found = bridle_findings(_stock(), bridle)
    assert ["before the tenon" in finding.sentence for finding in found] == [True]
    assert bridle_findings(_stock(), cut_bridle(_stock(), outside_mm=400, tenon_low_mm=7, tenon_high_mm=14)) == ()


@pytest.mark.parametrize(("tenon_high_mm", "thin"), [(14.9, 0), (15.1, 1)])
def test_a_cheek_is_thin_under_a_quarter_of_the_stock(tenon_high_mm: float, thin: int) -> None:
    bridle = cut_bridle(_stock(), outside_mm=400, tenon_low_mm=7, tenon_high_mm=tenon_high_mm)
    found = bridle_findings(_stock(), bridle)
    assert [one.lengths["part"] for one in found] == pytest.approx(thin * [20 - tenon_high_mm])


def test_a_tenon_without_thickness_is_refused() -> None:
    with pytest.raises(FrameCalcError, match="has no thickness"):
        cut_bridle(_stock(), outside_mm=400, tenon_low_mm=9, tenon_high_mm=9)


@pytest.mark.parametrize(
    ("outside_mm", "split_mm", "sides", "says"),
    [
        (80.0, 12.0, 4, "not longer than two"),
        (400.0, 12.0, 6, "square corners only"),
        (400.0, 20.0, 4, "Enter a split height under 20 mm, the thickness, not 20 mm"),
        (400.0, 0.0, 4, "more than 0 mm"),
    ],
)
def test_laps_that_make_no_frame_are_refused(outside_mm: float, split_mm: float, sides: int, says: str) -> None:
    with pytest.raises(FrameCalcError, match=says):
        cut_half_lap(_stock(sides=sides), outside_mm=outside_mm, split_mm=split_mm)


def test_two_members_meet_in_laps_as_soon_as_they_are_longer_than_both_widths() -> None:
    assert cut_half_lap(_stock(), outside_mm=80.5, split_mm=12).lap_mm == 34
    with pytest.raises(FrameCalcError, match="not longer than two"):
        cut_half_lap(_stock(), outside_mm=80, split_mm=12)
