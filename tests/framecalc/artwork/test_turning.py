"""Turning a piece in an opening: Shapely turns the polygon and takes its bounds, on a fine grid of angles."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, box
from shapely.affinity import rotate

from framecalc.artwork.turning import TurnedPiece, best_turn, best_turn_behind, least_across_mm, on_its_side
from framecalc.geometry.quadrilateral import Corners, rectangle
from framecalc.units import TOLERANCE_MM

sides_mm = st.floats(min_value=60, max_value=1500)
slack_mm = st.floats(min_value=-5, max_value=12)


@st.composite
def pieces(draw: st.DrawFn) -> Corners:
    """From nearly true to badly crooked: each corner off by up to a tenth of the shorter side."""
    across_mm, up_mm = draw(sides_mm), draw(sides_mm)
    most_mm = draw(st.sampled_from([0.0, 2.0, min(across_mm, up_mm) / 10]))
    off = [draw(st.floats(min_value=-most_mm, max_value=most_mm)) for _ in range(5)]
    right, top_right, top_left = (
        (across_mm + off[0], 0.0),
        (across_mm + off[1], up_mm + off[2]),
        (off[3], up_mm + off[4]),
    )
    return (0.0, 0.0), right, top_right, top_left


def reach(corners: Corners, turn_deg: float) -> tuple[float, float]:
    """Across and up of the turned polygon, by Shapely."""
    left, bottom, right, top = rotate(Polygon(corners), turn_deg, origin=(0, 0)).bounds
    return right - left, top - bottom


def excess(corners: Corners, turn_deg: float, opening_mm: tuple[float, float]) -> float:
    across_mm, up_mm = reach(corners, turn_deg)
    return max(across_mm - opening_mm[0], up_mm - opening_mm[1])


@given(corners=pieces(), slack_across_mm=slack_mm, slack_up_mm=slack_mm)
def test_no_turn_on_a_fine_grid_does_better(corners: Corners, slack_across_mm: float, slack_up_mm: float) -> None:
    across_mm, up_mm = reach(corners, 0)
    opening_mm = across_mm + slack_across_mm, up_mm + slack_up_mm
    found = best_turn(corners, across_mm=opening_mm[0], up_mm=opening_mm[1])
    found_mm = excess(corners, found.turn_deg, opening_mm)
    coarse = [excess(corners, turn_deg, opening_mm) for turn_deg in range(-45, 46, 3)]
    fine = [excess(corners, found.turn_deg + step / 50, opening_mm) for step in range(-100, 101)]
    assert found_mm <= min(*coarse, *fine) + TOLERANCE_MM


@pytest.mark.parametrize("laid_deg", [-44, -20, 40, 44])
def test_a_square_laid_askew_is_turned_back(laid_deg: float) -> None:
    b, c, d, a = rotate(box(0, 0, 300, 300), laid_deg, origin=(0, 0)).exterior.coords[:4]
    found = best_turn((a, b, c, d), across_mm=302, up_mm=302)
    assert excess((a, b, c, d), found.turn_deg, (300, 300)) == pytest.approx(0, abs=TOLERANCE_MM)


def test_a_piece_that_would_go_in_on_its_side_alone_does_not() -> None:
    lying = rectangle(across_mm=400, up_mm=300)
    found = best_turn(lying, across_mm=303, up_mm=403)
    assert abs(found.turn_deg) <= 45 and excess(lying, found.turn_deg, (303, 403)) > 0
    behind = best_turn_behind(lying, across_mm=303, up_mm=403)
    assert abs(behind.turn_deg) <= 45


@given(corners=pieces())
def test_the_reach_is_what_shapely_measures_at_that_turn(corners: Corners) -> None:
    found = best_turn(corners, across_mm=300, up_mm=400)
    assert (found.across_mm, found.up_mm) == pytest.approx(reach(corners, found.turn_deg), abs=TOLERANCE_MM)


@given(across_mm=sides_mm, up_mm=sides_mm, slack_mm=slack_mm)
def test_a_true_rectangle_with_even_clearance_is_best_left_upright(
    across_mm: float, up_mm: float, slack_mm: float
) -> None:
    true = rectangle(across_mm=across_mm, up_mm=up_mm)
    found = best_turn(true, across_mm=across_mm + slack_mm, up_mm=up_mm + slack_mm)
    assert found == TurnedPiece(turn_deg=0.0, across_mm=across_mm, up_mm=up_mm)


@given(corners=pieces())
def test_a_piece_on_its_side_is_best_turned_the_other_way(corners: Corners) -> None:
    across_mm, up_mm = reach(corners, 0)
    upright = best_turn(corners, across_mm=across_mm, up_mm=up_mm + 1)
    lying = best_turn(on_its_side(corners), across_mm=up_mm + 1, up_mm=across_mm)
    upright_excess_mm = max(upright.across_mm - across_mm, upright.up_mm - up_mm - 1)
    lying_excess_mm = max(lying.up_mm - across_mm, lying.across_mm - up_mm - 1)
    assert lying_excess_mm == pytest.approx(upright_excess_mm, abs=TOLERANCE_MM)


@given(corners=pieces(), slack_up_mm=slack_mm)
def test_the_least_width_is_less_than_at_any_turn_of_a_grid_that_is_low_enough(
    corners: Corners, slack_up_mm: float
) -> None:
    up_mm = reach(corners, 0)[1] + slack_up_mm
    found_mm = least_across_mm(corners, up_mm=up_mm)
    turns = [reach(corners, step / 20) for step in range(-900, 901, 7)]
    low_enough_mm = [across_mm for across_mm, height_mm in turns if height_mm <= up_mm]
    assert not low_enough_mm or found_mm is not None
    assert found_mm is None or all(found_mm <= across_mm + TOLERANCE_MM for across_mm in low_enough_mm)


@given(corners=pieces(), slack_up_mm=slack_mm)
def test_an_opening_of_the_least_width_just_admits_the_piece(corners: Corners, slack_up_mm: float) -> None:
    up_mm = reach(corners, 0)[1] + slack_up_mm
    across_mm = least_across_mm(corners, up_mm=up_mm)
    if across_mm is not None:
        found = best_turn(corners, across_mm=across_mm, up_mm=up_mm)
        assert max(found.across_mm - across_mm, found.up_mm - up_mm) <= 2 * TOLERANCE_MM


def test_a_piece_higher_than_the_opening_at_every_turn_has_no_width() -> None:
    corners = rectangle(across_mm=300, up_mm=400)
    assert least_across_mm(corners, up_mm=299) is None


def test_waves_that_never_meet_give_no_turn() -> None:
    square = rectangle(across_mm=100, up_mm=100)
    sizes = [best_turn(square, across_mm=100, up_mm=up_mm) for up_mm in (100, 5000)]
    for one, other in combinations(sizes, 2):
        assert one.across_mm == pytest.approx(other.across_mm)


@given(corners=pieces(), overlap_mm=st.floats(0, 12))
def test_a_window_inside_the_rectangle_on_a_sheet_is_lapped_by_the_overlap_everywhere(
    corners: Corners, overlap_mm: float
) -> None:
    behind = best_turn_behind(corners, across_mm=300, up_mm=300)
    sheet = rotate(Polygon(corners), behind.turn_deg, origin=(0, 0))
    xs, ys = zip(*list(sheet.exterior.coords)[:4], strict=True)
    left_mm, low_mm = max(xs[0], xs[3]), max(ys[0], ys[1])
    window = box(
        left_mm + overlap_mm,
        low_mm + overlap_mm,
        left_mm + behind.across_mm - overlap_mm,
        low_mm + behind.up_mm - overlap_mm,
    )
    assert sheet.buffer(1e-6).contains(window)
    assert window.distance(sheet.exterior) >= overlap_mm - 1e-6


@given(corners=pieces(), across_mm=st.floats(80, 900), up_mm=st.floats(80, 900))
def test_no_other_turn_leaves_a_larger_rectangle_on_the_sheet(corners: Corners, across_mm: float, up_mm: float) -> None:
    behind = best_turn_behind(corners, across_mm=across_mm, up_mm=up_mm)
    missing_mm = max(across_mm - behind.across_mm, up_mm - behind.up_mm)
    for turn_deg in range(-45, 46):
        xs, ys = zip(*list(rotate(Polygon(corners), turn_deg / 4, origin=(0, 0)).exterior.coords)[:4], strict=True)
        other_across_mm, other_up_mm = min(xs[1], xs[2]) - max(xs[0], xs[3]), min(ys[2], ys[3]) - max(ys[0], ys[1])
        assert missing_mm <= max(across_mm - other_across_mm, up_mm - other_up_mm) + 1e-6
