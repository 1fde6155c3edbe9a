"""The artwork as measured: its shape, its verdict, and the play that is left of its clearance."""

import tomllib
from math import hypot
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon
from shapely.affinity import rotate

from framecalc.artwork.measuring import (
    TAPE_MM,
    ArtworkFit,
    ArtworkKind,
    Measurements,
    differs,
    fit_artwork,
    lapped_size,
    least_rabbet,
    play,
    usual_clearance,
)
from framecalc.errors import FrameCalcError, OutOfRange
from framecalc.geometry.quadrilateral import rectangle
from framecalc.units import TOLERANCE_MM

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/artwork.toml").read_text("utf-8"))

sides_mm = st.floats(min_value=60, max_value=1500)
tapers_mm = st.floats(min_value=-5, max_value=5)


def tape(
    top_mm: float,
    bottom_mm: float,
    left_mm: float,
    right_mm: float,
    rising_mm: float | None = None,
    falling_mm: float | None = None,
) -> Measurements:
    return Measurements(
        across_top_mm=top_mm,
        across_bottom_mm=bottom_mm,
        up_left_mm=left_mm,
        up_right_mm=right_mm,
        diagonal_rising_mm=rising_mm,
        diagonal_falling_mm=falling_mm,
    )


def fitted(*numbers_mm: float) -> ArtworkFit:
    return fit_artwork(tape(*numbers_mm))


@pytest.mark.parametrize("check", CHECKS["diagonal"], ids=lambda check: check["name"])
def test_worked_diagonals_give_the_skew(check: dict[str, Any]) -> None:
    across_mm, up_mm, rising_mm, falling_mm = (check[f"{name}_mm"] for name in ("across", "up", "rising", "falling"))
    fit = fitted(across_mm, across_mm, up_mm, up_mm, rising_mm, falling_mm)
    assert fit.skew_deg == pytest.approx(check["skew_deg"], abs=1e-4)
    assert fit.misfit_mm <= check["tolerance_mm"]


@pytest.mark.parametrize("check", CHECKS["diagonal"], ids=lambda check: check["name"])
def test_one_worked_diagonal_gives_the_other(check: dict[str, Any]) -> None:
    across_mm, up_mm = check["across_mm"], check["up_mm"]
    bottom_left, bottom_right, top_right, top_left = fitted(
        across_mm, across_mm, up_mm, up_mm, check["rising_mm"]
    ).corners
    falling_mm = hypot(top_left[0] - bottom_right[0], top_left[1] - bottom_right[1])
    assert falling_mm == pytest.approx(check["falling_mm"], abs=2 * check["tolerance_mm"])
    assert bottom_left == (0, 0) and top_right[1] > 0


@given(across_mm=sides_mm, up_mm=sides_mm, taper_across_mm=tapers_mm, taper_up_mm=tapers_mm)
def test_the_package_is_the_largest_measured_and_the_lip_must_cover_the_least(
    across_mm: float, up_mm: float, taper_across_mm: float, taper_up_mm: float
) -> None:
    fit = fitted(across_mm + taper_across_mm, across_mm, up_mm + taper_up_mm, up_mm)
    assert fit.across_mm == max(across_mm, across_mm + taper_across_mm)
    assert fit.up_mm == max(up_mm, up_mm + taper_up_mm)
    assert fit.least_across_mm == min(across_mm, across_mm + taper_across_mm)
    assert fit.least_up_mm == min(up_mm, up_mm + taper_up_mm)
    assert fit.taper_across_mm == pytest.approx(taper_across_mm, abs=TOLERANCE_MM)
    assert fit.taper_up_mm == pytest.approx(taper_up_mm, abs=TOLERANCE_MM)


def test_turning_the_artwork_swaps_across_and_up() -> None:
    upright, turned = fitted(300, 302, 400, 401, 502), fitted(400, 401, 302, 300, None, 502)  # type: ignore[arg-type]
    assert (turned.across_mm, turned.up_mm) == (upright.up_mm, upright.across_mm)
    assert Polygon(turned.corners).area == pytest.approx(Polygon(upright.corners).area)


@pytest.mark.parametrize(
    ("numbers_mm", "begins"),
    [
        ((300.0, 300.0, 400.0, 400.0), "Opposite sides agree; taken as square"),
        ((300.0, 300.0, 400.0, 400.0, 500.0), "Opposite sides agree; the other diagonal"),
        ((300.0, 300.0, 400.0, 400.0, 500.0, 500.0), "A rectangle"),
        ((300.0, 300.4, 400.0, 400.0, 500.0, 500.3), "A rectangle"),
        ((300.0, 300.0, 400.0, 400.0, 502.0, 498.0), "Out of square"),
        (
            (300.0, 310.0, 400.0, 400.0, 504.0, 504.0),
            "No rectangle: opposite sides differ, although the diagonals agree.",
        ),
        ((300.0, 310.0, 400.0, 400.0), "No rectangle: opposite sides differ."),
        ((300.0, 310.0, 400.0, 400.0, 506.0, 502.0), "No rectangle: opposite sides differ."),
    ],
)
def test_the_verdict_compares_opposite_sides_first(numbers_mm: tuple[float, ...], begins: str) -> None:
    verdict = fitted(*numbers_mm).verdict
    assert verdict.startswith(begins)
    assert verdict.endswith(".")
    assert not any(character.isdigit() for character in verdict)


def test_a_trapezoid_with_equal_diagonals_is_not_called_a_rectangle() -> None:
    diagonal_mm = hypot(305, 400)
    side_mm = hypot(5, 400)
    fit = fitted(300, 310, side_mm, side_mm, diagonal_mm, diagonal_mm)
    assert fit.misfit_mm == pytest.approx(0, abs=1e-6)
    assert fit.verdict.startswith("No rectangle")


@pytest.mark.parametrize(
    ("first_mm", "second_mm", "expect"),
    [(300, 300, False), (300, 300 + TAPE_MM, False), (300, 301, True), (301, 300, True), (None, 300, False)],
)
def test_two_readings_differ_when_a_tape_can_tell(first_mm: float | None, second_mm: float, expect: bool) -> None:
    assert differs(first_mm, second_mm) is expect


@given(lean_mm=st.floats(min_value=-20, max_value=20), across_mm=sides_mm, up_mm=sides_mm)
def test_the_least_rabbet_of_a_leaning_piece_is_the_least_of_shapelys_turned_bounds(
    lean_mm: float, across_mm: float, up_mm: float
) -> None:
    corners = ((0.0, 0.0), (across_mm, 0.0), (across_mm + lean_mm, up_mm), (lean_mm, up_mm))
    least = least_rabbet(corners, across_mm=across_mm, up_mm=up_mm)
    least_mm = max(least.across_mm - across_mm, least.up_mm - up_mm)
    for step in range(-60, 61):
        left, bottom, right, top = rotate(Polygon(corners), least.turn_deg + step / 10, origin=(0, 0)).bounds
        assert least_mm <= max(right - left - across_mm, top - bottom - up_mm) + TOLERANCE_MM


@given(across_mm=sides_mm, up_mm=sides_mm, more_mm=st.floats(min_value=-2, max_value=10))
def test_the_play_of_a_true_rectangle_is_its_clearance(across_mm: float, up_mm: float, more_mm: float) -> None:
    loose = play(
        rectangle(across_mm=across_mm, up_mm=up_mm), rabbet_across_mm=across_mm + more_mm, rabbet_up_mm=up_mm + more_mm
    )
    assert (loose.across_mm, loose.up_mm) == pytest.approx((more_mm, more_mm), abs=TOLERANCE_MM)
    assert loose.enters is (min(loose.across_mm, loose.up_mm) >= -TOLERANCE_MM)


@given(lean_mm=st.floats(min_value=-12, max_value=12), more_mm=st.floats(min_value=0, max_value=10))
def test_being_out_of_square_uses_up_clearance_and_never_gives_any(lean_mm: float, more_mm: float) -> None:
    up_mm = (400**2 - lean_mm**2) ** 0.5
    corners = ((0.0, 0.0), (300.0, 0.0), (300 + lean_mm, up_mm), (lean_mm, up_mm))
    loose = play(corners, rabbet_across_mm=300 + more_mm, rabbet_up_mm=400 + more_mm)
    assert min(loose.across_mm, loose.up_mm) <= more_mm + TOLERANCE_MM
    assert min(loose.across_mm, loose.up_mm) >= more_mm - abs(lean_mm) - TOLERANCE_MM


@pytest.mark.parametrize(
    ("across_mm", "up_mm", "enters"),
    [(300, 400, True), (305, 399, False), (299, 405, False), (299, 399, False), (305, 405, True)],
)
def test_a_piece_enters_only_where_it_fits_both_ways(across_mm: float, up_mm: float, enters: bool) -> None:
    found = play(rectangle(across_mm=300, up_mm=400), rabbet_across_mm=across_mm, rabbet_up_mm=up_mm)
    assert found.enters is enters


def test_a_mat_may_count_on_all_of_a_true_rectangle_and_on_less_of_any_other() -> None:
    assert lapped_size(fitted(300, 300, 400, 400)) is None
    for sides_mm in ((302, 300, 400, 400), (300, 300, 398, 400), (300, 303, 400, 402)):
        assert lapped_size(fitted(*sides_mm)) is not None


def test_the_least_rabbet_just_admits_its_piece() -> None:
    fit = fitted(300, 302, 400, 399, 503, 498)
    least = least_rabbet(fit.corners, across_mm=fit.across_mm, up_mm=fit.up_mm)
    snug = play(fit.corners, rabbet_across_mm=least.across_mm, rabbet_up_mm=least.up_mm)
    assert snug.enters
    assert min(snug.across_mm, snug.up_mm) == pytest.approx(0, abs=TOLERANCE_MM)
    short = play(fit.corners, rabbet_across_mm=least.across_mm - 0.1, rabbet_up_mm=least.up_mm - 0.1)
    assert not short.enters


@pytest.mark.parametrize(
    ("kind", "across_mm", "up_mm", "expect_mm"),
    [
        (ArtworkKind.PAPER, 300, 400, 3.0),
        (ArtworkKind.PHOTOGRAPH, 600, 900, 3.0),
        (ArtworkKind.PAPER, 601, 800, 4.6),
        (ArtworkKind.PAPER, 901, 300, 4.6),
        (ArtworkKind.CANVAS, 500, 700, 6.0),
        (ArtworkKind.CANVAS, 1000, 1200, 7.6),
        (ArtworkKind.SOLID_PANEL, 300, 400, 7.0),
        (ArtworkKind.PANEL, 300, 400, 3.0),
    ],
)
def test_the_usual_clearance_adds_up(kind: ArtworkKind, across_mm: float, up_mm: float, expect_mm: float) -> None:
    items = usual_clearance(kind, across_mm=across_mm, up_mm=up_mm)
    assert sum(item.amount_mm for item in items) == pytest.approx(expect_mm)
    assert all(item.reason and item.source for item in items)


@pytest.mark.parametrize("kind", ArtworkKind)
@given(across_mm=sides_mm, up_mm=sides_mm)
def test_every_kind_gets_the_same_clearance_turned_and_never_less_than_paper(
    kind: ArtworkKind, across_mm: float, up_mm: float
) -> None:
    items = usual_clearance(kind, across_mm=across_mm, up_mm=up_mm)
    assert items == usual_clearance(kind, across_mm=up_mm, up_mm=across_mm)
    assert items[: len(usual_clearance(ArtworkKind.PAPER, across_mm=across_mm, up_mm=up_mm))] == usual_clearance(
        ArtworkKind.PAPER, across_mm=across_mm, up_mm=up_mm
    )


@pytest.mark.parametrize(
    ("numbers_mm", "field"),
    [
        ((0.0, 300.0, 400.0, 400.0), "artwork_across_mm"),
        ((300.0, -1.0, 400.0, 400.0), "across_bottom_mm"),
        ((300.0, 300.0, float("nan"), 400.0), "artwork_up_mm"),
        ((300.0, 300.0, 400.0, float("inf")), "up_right_mm"),
        ((300.0, 300.0, 400.0, 400.0, 0.0), "diagonal_rising_mm"),
        ((300.0, 300.0, 400.0, 400.0, 500.0, 701.0), "diagonal_falling_mm"),
        ((300.0, 2000.0, 400.0, 400.0), "across_bottom_mm"),
    ],
)
def test_measurements_that_no_piece_has_are_refused_at_their_field(numbers_mm: tuple[float, ...], field: str) -> None:
    with pytest.raises(FrameCalcError) as refusal:
        fitted(*numbers_mm)
    assert refusal.value.field == field


def test_no_clearance_is_usual_for_no_artwork() -> None:
    with pytest.raises(OutOfRange):
        usual_clearance(ArtworkKind.PAPER, across_mm=0, up_mm=400)
