"""Whether a frame lies flat: the twist of opposite sides, and the cause that could lift the corner."""

from math import acos, degrees, dist

import pytest

from framecalc.corners.twist import WindCause, find_wind
from framecalc.errors import FrameCalcError

Corner = tuple[float, float, float]

ROCKING: dict[str, float] = {
    "rock_mm": 3.0,
    "outside_across_mm": 348.0,
    "outside_up_mm": 471.0,
    "face_width_mm": 30.0,
    "thickness_mm": 20.0,
    "member_wind_mm": 0.0,
    "front_to_back_gap_mm": 0.0,
}


@pytest.mark.parametrize(
    ("changed", "cause"),
    [
        ({"rock_mm": 0.3}, WindCause.FLAT),
        ({}, WindCause.CLAMPS),
        ({"member_wind_mm": 0.2}, WindCause.MEMBER),
        ({"front_to_back_gap_mm": 0.2}, WindCause.MITRE),
        ({"front_to_back_gap_mm": 0.2, "member_wind_mm": 0.3}, WindCause.MEMBER),
        ({"member_wind_mm": 1.45 * 30 / 471}, WindCause.CLAMPS),
        ({"member_wind_mm": 1.55 * 30 / 471}, WindCause.MEMBER),
    ],
)
def test_the_likely_cause_is_the_one_that_can_lift_the_corner(changed: dict[str, float], cause: WindCause) -> None:
    assert find_wind(**(ROCKING | changed)).cause is cause


def test_the_twist_is_the_angle_between_opposite_sides() -> None:
    """Three corners on the table, the top right one up by the rock; directions of opposite sides from their corners."""
    bottom_left, bottom_right, top_left, top_right = (0, 0, 0), (348, 0, 0), (0, 471, 0), (348, 471, 3)
    wind = find_wind(**ROCKING)
    assert wind.twist_across_deg == pytest.approx(_between_deg(bottom_left, top_left, bottom_right, top_right))
    assert wind.twist_up_deg == pytest.approx(_between_deg(bottom_left, bottom_right, top_left, top_right))


def _between_deg(start: Corner, end: Corner, other_start: Corner, other_end: Corner) -> float:
    one = [b - a for a, b in zip(start, end, strict=True)]
    other = [b - a for a, b in zip(other_start, other_end, strict=True)]
    cosine = sum(a * b for a, b in zip(one, other, strict=True)) / dist(start, end) / dist(other_start, other_end)
    return degrees(acos(cosine))


def test_a_corner_higher_than_the_frame_is_wide_is_refused() -> None:
    with pytest.raises(FrameCalcError, match="Enter 0 mm to 348 mm"):
        find_wind(**(ROCKING | {"rock_mm": 400.0}))


def test_what_a_cause_could_lift_is_the_rise_of_a_side_turned_about_its_line() -> None:
    """Winding turns the far end about the side itself, a mitre out of square the far corner about the joint line."""
    wind = find_wind(**(ROCKING | {"member_wind_mm": 0.2, "front_to_back_gap_mm": 0.1}))
    assert wind.by_member_mm == pytest.approx(471 * 0.2 / 30)
    from_the_joint_line_mm = dist((471.0, 0.0), (471 / 2, 471 / 2))
    assert wind.by_mitre_mm == pytest.approx(from_the_joint_line_mm * 0.1 / 20)
