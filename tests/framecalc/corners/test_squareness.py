"""Square or not: quadrilaterals built from corner points and measured, artworks turned in Shapely."""

import tomllib
from cmath import phase
from math import cos, degrees, dist, radians, sin
from pathlib import Path
from typing import Any

import pytest
from shapely import Polygon, box
from shapely.affinity import rotate

from framecalc.corners.squareness import (
    OutsideMeasures,
    SquarenessVerdict,
    Squeeze,
    check_square,
    clearance_lost_mm,
    diagonals_mm,
    forced_gap_mm,
    squareness_findings,
)
from framecalc.errors import FrameCalcError
from framecalc.records import replace

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/squareness.toml").read_text("utf-8"))["diagonal"]

Corner = tuple[float, float]


def _measured(bottom_left: Corner, bottom_right: Corner, top_right: Corner, top_left: Corner) -> OutsideMeasures:
    return OutsideMeasures(
        across_top_mm=dist(top_left, top_right),
        across_bottom_mm=dist(bottom_left, bottom_right),
        up_left_mm=dist(bottom_left, top_left),
        up_right_mm=dist(bottom_right, top_right),
        diagonal_rising_mm=dist(bottom_left, top_right),
        diagonal_falling_mm=dist(top_left, bottom_right),
    )


def _leaning(across_mm: float, up_mm: float, skew_deg: float) -> OutsideMeasures:
    lean = up_mm * sin(radians(skew_deg)), up_mm * cos(radians(skew_deg))
    return _measured((0, 0), (across_mm, 0), (across_mm + lean[0], lean[1]), lean)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check["name"])
def test_worked_diagonals(check: dict[str, Any]) -> None:
    found = diagonals_mm(check["across_mm"], check["up_mm"], skew_deg=check["skew_deg"])
    assert found == pytest.approx(tuple(check["expect_mm"]), abs=check["tolerance_mm"])


@pytest.mark.parametrize("skew_deg", [-3.0, -0.5, 0.2, 1.0])
def test_a_frame_that_leans_is_told_by_how_much_and_which_way_to_squeeze(skew_deg: float) -> None:
    found = check_square(_leaning(348, 471, skew_deg))
    assert found.verdict is SquarenessVerdict.OUT_OF_SQUARE
    assert found.skew_deg == pytest.approx(skew_deg)
    assert found.squeeze is (Squeeze.RISING if skew_deg > 0 else Squeeze.FALLING)
    assert found.angles.bottom_left_deg == pytest.approx(90 - skew_deg)
    assert found.angles.bottom_right_deg == pytest.approx(90 + skew_deg)


def test_equal_diagonals_of_a_trapezoid_do_not_make_it_square() -> None:
    found = check_square(_measured((0, 0), (400, 0), (402, 300), (-2, 300)))
    assert found.diagonal_difference_mm == pytest.approx(0)
    assert (found.verdict, found.squeeze) == (SquarenessVerdict.SIDES_DIFFER, Squeeze.NONE)
    assert found.across_difference_mm == pytest.approx(4)


def test_a_true_rectangle_is_square() -> None:
    found = check_square(_leaning(348, 471, 0))
    assert (found.verdict, found.squeeze) == (SquarenessVerdict.SQUARE, Squeeze.NONE)
    assert found.angles.top_left_deg == pytest.approx(90)


def test_what_the_tape_cannot_tell_is_square() -> None:
    assert check_square(_leaning(348, 471, 0.04)).verdict is SquarenessVerdict.SQUARE
    assert check_square(_leaning(348, 471, 0.04), tape_mm=0.1).verdict is SquarenessVerdict.OUT_OF_SQUARE


@pytest.mark.parametrize("misread_mm", [-10.0, 6.0])
def test_a_measure_misread_is_seen_because_five_give_the_sixth(misread_mm: float) -> None:
    true = _leaning(348, 471, 0.3)
    found = check_square(replace(true, diagonal_falling_mm=true.diagonal_falling_mm + misread_mm))
    assert found.verdict is SquarenessVerdict.MISREAD
    assert found.disagreement_mm == pytest.approx(misread_mm)


@pytest.mark.parametrize(
    "corners", [((0, 0), (400, 3), (398, 301), (-2, 300)), ((0, 0), (300, -1), (301, 500), (3, 497))]
)
def test_the_angles_of_any_quadrilateral_are_those_of_its_corners(
    corners: tuple[Corner, Corner, Corner, Corner],
) -> None:
    found = check_square(_measured(*corners))
    for corner, angle_deg in zip(
        range(4),
        (
            found.angles.bottom_left_deg,
            found.angles.bottom_right_deg,
            found.angles.top_right_deg,
            found.angles.top_left_deg,
        ),
        strict=True,
    ):
        assert angle_deg == pytest.approx(_angle_deg(corners, corner))
    assert found.disagreement_mm == pytest.approx(0, abs=1e-9)


def _angle_deg(corners: tuple[Corner, ...], at: int) -> float:
    here = complex(*corners[at])
    ratio = (complex(*corners[at - 1]) - here) / (complex(*corners[(at + 1) % 4]) - here)
    return abs(degrees(phase(ratio)))


@pytest.mark.parametrize(("across_mm", "up_mm"), [(300.0, 423.0), (300.0, 300.0), (200.0, 900.0)])
@pytest.mark.parametrize("skew_deg", [0.1, 0.5])
def test_the_clearance_lost_is_that_of_the_best_turned_artwork(across_mm: float, up_mm: float, skew_deg: float) -> None:
    lost_mm = clearance_lost_mm(skew_deg, rabbet_across_mm=across_mm, rabbet_up_mm=up_mm)
    lean = up_mm * sin(radians(skew_deg)), up_mm * cos(radians(skew_deg))
    rabbet = Polygon([(0, 0), (across_mm, 0), (across_mm + lean[0], lean[1]), lean])
    centre = (rabbet.centroid.x, rabbet.centroid.y)

    def enters(less_mm: float) -> bool:
        half = (across_mm - less_mm) / 2, (up_mm - less_mm) / 2
        artwork = box(centre[0] - half[0], centre[1] - half[1], centre[0] + half[0], centre[1] + half[1])
        turns = [-skew_deg * step / 400 for step in range(401)]
        return any(rabbet.covers(rotate(artwork, turn, origin=centre)) for turn in turns)

    assert enters(lost_mm * 1.01)
    assert not enters(lost_mm * 0.98)


def test_true_mitres_held_out_of_square_gape_by_the_whole_angle() -> None:
    assert forced_gap_mm(1.0, mitre_length_mm=50) == pytest.approx(50 * 0.0174551, rel=1e-5)
    assert forced_gap_mm(-1.0, mitre_length_mm=50) == forced_gap_mm(1.0, mitre_length_mm=50)


def _codes(measures: OutsideMeasures, *, clearance_mm: float = 3.0, gap_mm: float = 0.1) -> list[str]:
    found = check_square(measures)
    return [
        finding.code
        for finding in squareness_findings(
            found,
            forced_mm=forced_gap_mm(found.skew_deg, mitre_length_mm=42),
            gap_mm=gap_mm,
            lost_mm=clearance_lost_mm(found.skew_deg, rabbet_across_mm=300, rabbet_up_mm=423),
            clearance_mm=clearance_mm,
        )
    ]


def test_the_pair_of_sides_that_differs_more_is_told() -> None:
    for across_mm, up_mm in ((3.0, 7.0), (7.0, 3.0)):
        found = check_square(_measured((0, 0), (400, 0), (400 + across_mm, 300), (0, 300 + up_mm)))
        (finding,) = squareness_findings(found, forced_mm=0, gap_mm=0.1, lost_mm=0, clearance_mm=3)
        differ_mm = sorted((abs(found.across_difference_mm), abs(found.up_difference_mm)))
        assert finding.lengths == {"by": differ_mm[-1]} and differ_mm[-1] > differ_mm[0] + 1


def test_what_the_measures_mean_is_said_in_the_order_in_which_it_is_asked() -> None:
    leaning = _leaning(348, 471, 0.5)
    assert _codes(_leaning(348, 471, 0)) == []
    assert _codes(_measured((0, 0), (400, 0), (402, 300), (-2, 300))) == ["squareness.sides-differ"]
    assert _codes(replace(leaning, diagonal_falling_mm=leaning.diagonal_falling_mm + 9)) == ["squareness.misread"]
    assert _codes(leaning) == ["squareness.forced-gap"]
    assert _codes(leaning, clearance_mm=1.0) == ["squareness.artwork-binds", "squareness.forced-gap"]
    assert _codes(leaning, gap_mm=1.0) == []


def test_an_artwork_that_loses_all_its_clearance_and_a_gap_as_wide_as_allowed_still_pass() -> None:
    found = check_square(_leaning(348, 471, 0.5))
    assert squareness_findings(found, forced_mm=0.1, gap_mm=0.1, lost_mm=3.0, clearance_mm=3.0) == ()


@pytest.mark.parametrize(
    ("changed", "field", "says"),
    [
        ({"diagonal_rising_mm": 900.0}, "diagonal_rising_mm", "cannot reach a diagonal"),
        ({"diagonal_falling_mm": 40.0}, "diagonal_falling_mm", "cannot reach a diagonal"),
        ({"diagonal_rising_mm": 800.0}, "diagonal_rising_mm", "Measure again: diagonals of 800 mm and 585"),
        ({"up_left_mm": 0.0}, "up_left_mm", "more than 0 mm"),
        ({"across_top_mm": float("nan")}, "across_top_mm", "more than 0 mm"),
    ],
)
def test_sides_that_are_no_quadrilateral_are_refused(changed: dict[str, float], field: str, says: str) -> None:
    with pytest.raises(FrameCalcError, match=says) as refusal:
        check_square(replace(_leaning(348, 471, 0), **changed))
    assert refusal.value.field == field
