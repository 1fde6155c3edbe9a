"""Photos set straight, and the proportion that their perspective implies; a synthetic camera and NumPy as oracles."""

from math import cos, radians, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.errors import ImpossibleArtwork, OutOfRange
from framecalc.findings import Severity
from framecalc.geometry.perspective import (
    Corners,
    FocalLength,
    ImpliedProportion,
    _doubt_pct,
    implied_ratio,
    proportion_difference_pct,
    proportion_findings,
    square_onto,
    straight_size_px,
    straightening,
    through,
)

PHOTO = {"photo_across_px": 4000, "photo_up_px": 3000}


def seen(
    *, across: float, up: float, tilt_deg: float, turn_deg: float, focal_px: float = 3250, roll_deg: float = 0
) -> Corners:
    """The corners of a rectangle before a pinhole camera, by rotation matrices: nothing of the code under test."""
    tilt, turn, roll = radians(tilt_deg), radians(turn_deg), radians(roll_deg)
    about_x = np.array([[1, 0, 0], [0, cos(tilt), -sin(tilt)], [0, sin(tilt), cos(tilt)]])
    about_y = np.array([[cos(turn), 0, sin(turn)], [0, 1, 0], [-sin(turn), 0, cos(turn)]])
    about_z = np.array([[cos(roll), -sin(roll), 0], [sin(roll), cos(roll), 0], [0, 0, 1]])
    corners = np.array([[-across, -up, 0], [across, -up, 0], [across, up, 0], [-across, up, 0]]) / 2
    turned = corners @ (about_z @ about_y @ about_x).T + np.array([20, -30, 2.0 * max(across, up)])
    x, y = focal_px * turned[:, 0] / turned[:, 2] + 2000, focal_px * turned[:, 1] / turned[:, 2] + 1500
    upper_left, upper_right, lower_right, lower_left = zip(x.tolist(), y.tolist(), strict=True)
    return upper_left, upper_right, lower_right, lower_left


offset = st.floats(-140, 140)
QUADRILATERALS = st.tuples(*[st.tuples(offset, offset)] * 4).map(
    lambda off: tuple(
        (x + dx, y + dy) for (x, y), (dx, dy) in zip(((0, 0), (900, 0), (900, 700), (0, 700)), off, strict=True)
    )
)


# --- against linear algebra


@given(corners=QUADRILATERALS)
def test_a_homography_is_the_one_a_linear_solve_finds(corners: Corners) -> None:
    unit = [(0, 0), (1, 0), (1, 1), (0, 1)]
    rows, right = [], []
    for (s, t), (x, y) in zip(unit, corners, strict=True):
        rows += [[s, t, 1, 0, 0, 0, -s * x, -t * x], [0, 0, 0, s, t, 1, -s * y, -t * y]]
        right += [x, y]
    a, b, c, d, e, f, g, h = np.linalg.solve(np.array(rows), np.array(right))
    found = square_onto(corners)
    assert found.across == pytest.approx((a, d, g), abs=1e-6)
    assert found.down == pytest.approx((b, e, h), abs=1e-6)
    assert found.origin == pytest.approx((c, f, 1), abs=1e-6)


@given(corners=QUADRILATERALS)
def test_the_corners_of_the_square_go_onto_the_corners(corners: Corners) -> None:
    onto = square_onto(corners)
    for unit, corner in zip(((0, 0), (1, 0), (1, 1), (0, 1)), corners, strict=True):
        assert through(onto, unit) == pytest.approx(corner, abs=1e-6)


@given(corners=QUADRILATERALS)
def test_the_diagonals_cross_where_the_middle_goes(corners: Corners) -> None:
    """A homography keeps straight lines straight, so the middle of the square goes to the crossing of the diagonals."""
    p, q, r, s = (np.array([*corner, 1.0]) for corner in corners)
    crossing = np.cross(np.cross(p, r), np.cross(q, s))
    assert through(square_onto(corners), (0.5, 0.5)) == pytest.approx(crossing[:2] / crossing[2], abs=1e-6)


@given(corners=QUADRILATERALS, across=st.integers(1, 3000), up=st.integers(1, 3000))
def test_the_numbers_for_a_raster_library_carry_its_corners(corners: Corners, across: int, up: int) -> None:
    k = straightening(corners, across_px=across, up_px=up)
    for (u, v), corner in zip(((0, 0), (across, 0), (across, up), (0, up)), corners, strict=True):
        depth = k[6] * u + k[7] * v + 1
        x, y = (k[0] * u + k[1] * v + k[2]) / depth, (k[3] * u + k[4] * v + k[5]) / depth
        assert (x, y) == pytest.approx(corner, abs=1e-5)


# --- the implied proportion, of synthetic photos whose proportion is known


@pytest.mark.parametrize("focal_px", [2600, 3250, 4500])
@pytest.mark.parametrize(("tilt_deg", "turn_deg"), [(25, 30), (-20, 15), (35, -25), (12, 12)])
@pytest.mark.parametrize(("across", "up"), [(297, 420), (400, 400), (900, 500)])
def test_a_photo_that_converges_both_ways_tells_its_proportion(
    across: float, up: float, tilt_deg: float, turn_deg: float, focal_px: float
) -> None:
    corners = seen(across=across, up=up, tilt_deg=tilt_deg, turn_deg=turn_deg, focal_px=focal_px)
    implied = implied_ratio(corners, **PHOTO)
    off_pct = abs(implied.aspect_ratio / (across / up) - 1) * 100
    assert off_pct < (0.001 if implied.focal_length is FocalLength.FROM_CORNERS else implied.doubt_pct)


def test_a_strongly_converging_photo_tells_the_focal_length_itself() -> None:
    corners = seen(across=300, up=400, tilt_deg=35, turn_deg=35, focal_px=4200)
    implied = implied_ratio(corners, **PHOTO)
    assert implied.focal_length is FocalLength.FROM_CORNERS
    assert implied.aspect_ratio == pytest.approx(0.75, rel=1e-6)


@pytest.mark.parametrize("tilt_deg", [0, 4, 8, 15, 25])
def test_a_photo_tilted_one_way_is_measured_with_a_usual_lens_and_owns_its_doubt(tilt_deg: float) -> None:
    corners = seen(across=300, up=400, tilt_deg=tilt_deg, turn_deg=0, focal_px=3600)
    implied = implied_ratio(corners, **PHOTO)
    assert implied.focal_length is FocalLength.USUAL
    assert abs(implied.aspect_ratio / 0.75 - 1) * 100 < implied.doubt_pct


def test_seen_straight_on_the_ratio_is_that_of_the_sides() -> None:
    implied = implied_ratio(((100, 100), (900, 100), (900, 500), (100, 500)), photo_across_px=1000, photo_up_px=600)
    assert implied.aspect_ratio == pytest.approx(2, rel=1e-9)
    assert implied.doubt_pct < 0.5


@pytest.mark.parametrize("roll_deg", [-90, -30, 90])
def test_turning_the_camera_changes_no_proportion(roll_deg: float) -> None:
    upright = implied_ratio(seen(across=300, up=400, tilt_deg=30, turn_deg=30), **PHOTO)
    turned = implied_ratio(seen(across=300, up=400, tilt_deg=30, turn_deg=30, roll_deg=roll_deg), **PHOTO)
    assert turned.aspect_ratio == pytest.approx(upright.aspect_ratio, rel=1e-6)


@given(
    tilt_deg=st.floats(-35, 35),
    turn_deg=st.floats(-35, 35),
    nudges=st.lists(st.floats(-3, 3), min_size=8, max_size=8),
    focal_px=st.floats(2800, 4200),
)
def test_corners_a_hand_may_place_stay_within_thrice_the_doubt(
    tilt_deg: float, turn_deg: float, nudges: list[float], focal_px: float
) -> None:
    corners = seen(across=297, up=420, tilt_deg=tilt_deg, turn_deg=turn_deg, focal_px=focal_px)
    p, q, r, s = ((x + nudges[2 * at], y + nudges[2 * at + 1]) for at, (x, y) in enumerate(corners))
    implied = implied_ratio((p, q, r, s), **PHOTO)
    assert abs(implied.aspect_ratio / (297 / 420) - 1) * 100 <= 3 * implied.doubt_pct


def test_doubling_photo_and_corners_changes_nothing() -> None:
    corners = seen(across=300, up=400, tilt_deg=20, turn_deg=10)
    p, q, r, s = ((2 * x, 2 * y) for x, y in corners)
    small, large = implied_ratio(corners, **PHOTO), implied_ratio((p, q, r, s), photo_across_px=8000, photo_up_px=6000)
    assert large.aspect_ratio == pytest.approx(small.aspect_ratio, rel=1e-9)
    assert large.doubt_pct == pytest.approx(small.doubt_pct, rel=1e-6)


def test_doubts_that_are_each_tried_both_ways_add_by_their_squares() -> None:
    """By hand: 3 % and 4 % either way are 5 % together."""
    assert _doubt_pct(2.0, [2.06, 1.94, 2.08, 1.92]) == pytest.approx(5)


# --- what is said of a difference


def implied(aspect_ratio: float, doubt_pct: float = 0.2) -> ImpliedProportion:
    return ImpliedProportion(aspect_ratio=aspect_ratio, doubt_pct=doubt_pct, focal_length=FocalLength.USUAL)


def test_one_per_cent_is_not_said_and_a_little_more_is() -> None:
    assert list(proportion_findings(implied(0.75 * 1.0099), across_mm=300, up_mm=400)) == []
    assert list(proportion_findings(implied(0.75 * 0.9901), across_mm=300, up_mm=400)) == []
    (finding,) = proportion_findings(implied(0.75 * 1.013), across_mm=300, up_mm=400)
    assert finding.severity is Severity.WARN
    assert "1.3% wider" in finding.sentence


def test_a_difference_within_its_doubt_is_only_noted() -> None:
    (finding,) = proportion_findings(implied(0.75 * 0.98, doubt_pct=2), across_mm=300, up_mm=400)
    assert finding.severity is Severity.NOTE
    assert "2.0% narrower" in finding.sentence


def test_the_difference_is_nothing_where_photo_and_tape_agree() -> None:
    assert proportion_difference_pct(implied(0.75), across_mm=300, up_mm=400) == pytest.approx(0)


# --- sizes of the straight picture


@given(corners=QUADRILATERALS, aspect_ratio=st.floats(0.2, 5), most_px=st.integers(50, 3000))
def test_a_straight_picture_has_its_proportion_and_no_more_pixels_than_wanted(
    corners: Corners, aspect_ratio: float, most_px: int
) -> None:
    across, up = straight_size_px(corners, aspect_ratio=aspect_ratio, most_px=most_px)
    assert max(across, up) <= most_px
    assert across == pytest.approx(up * aspect_ratio, abs=0.5 + 0.5 * aspect_ratio)


def test_of_opposite_sides_the_longer_tells_how_many_pixels_there_are() -> None:
    assert straight_size_px(((0, 0), (400, 0), (350, 100), (50, 100)), aspect_ratio=2, most_px=3000) == (400, 200)
    assert straight_size_px(((0, 0), (100, 50), (100, 350), (0, 400)), aspect_ratio=0.5, most_px=3000) == (200, 400)


# --- refusals


SQUARE = ((0, 0), (100, 0), (100, 100), (0, 100))
BAD = {
    "out of turn": ((0, 0), (100, 100), (100, 0), (0, 100)),
    "against the clock": ((0, 0), (0, 100), (100, 100), (100, 0)),
    "three in one line": ((0, 0), (50, 0), (100, 0), (0, 100)),
    "one inside the others": ((0, 0), (100, 0), (20, 20), (0, 100)),
    "all in one place": ((5, 5), (5, 5), (5, 5), (5, 5)),
    "not a number": ((0, 0), (float("nan"), 0), (100, 100), (0, 100)),
    "not finite": ((0, 0), (float("inf"), 0), (100, 100), (0, 100)),
}


@pytest.mark.parametrize("corners", BAD.values(), ids=BAD)
def test_marks_that_are_no_corners_are_refused(corners: Corners) -> None:
    with pytest.raises(ImpossibleArtwork, match="Mark the corners clockwise, from the upper left") as refusal:
        square_onto(corners)
    assert refusal.value.field == "photo_corners"


def test_corners_around_a_speck_are_refused() -> None:
    with pytest.raises(ImpossibleArtwork, match="Marks too close together: put them on the picture's corners"):
        implied_ratio(((0, 0), (9, 0), (9, 9), (0, 9)), **PHOTO)


def test_a_picture_of_no_pixels_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"across.* 0 px"):
        straightening(SQUARE, across_px=0, up_px=5)
