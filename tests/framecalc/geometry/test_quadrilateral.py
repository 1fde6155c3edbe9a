"""The quadrilateral behind measured distances; SciPy and Shapely check what is best and what is largest."""

from itertools import combinations
from math import atan2, cos, dist, pi, sin

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import least_squares
from shapely.geometry import Polygon

from framecalc.errors import ImpossibleArtwork
from framecalc.geometry.quadrilateral import SIDES, Corners, Span, fit_quadrilateral, rectangle, residuals, scaled

EXACT_MM = 1e-7

sides_mm = st.floats(min_value=60, max_value=2000)
nudges_mm = st.floats(min_value=-8, max_value=8)
errors_mm = st.floats(min_value=-4, max_value=4)


@st.composite
def crooked(draw: st.DrawFn) -> Corners:
    """A piece meant as a rectangle, each corner a little off; the bottom left in the origin, the bottom level."""
    across_mm, up_mm = draw(sides_mm), draw(sides_mm)
    right_mm = across_mm + draw(nudges_mm)
    top_right = across_mm + draw(nudges_mm), up_mm + draw(nudges_mm)
    top_left = draw(nudges_mm), up_mm + draw(nudges_mm)
    return (0.0, 0.0), (right_mm, 0.0), top_right, top_left


def measured(corners: Corners, *spans: Span) -> dict[Span, float]:
    return {span: dist(corners[span.value[0]], corners[span.value[1]]) for span in (*SIDES, *spans)}


def same(one: Corners, other: Corners, *, tolerance_mm: float = EXACT_MM) -> bool:
    return max(map(dist, one, other)) <= tolerance_mm


@pytest.mark.parametrize("spans", [(Span.RISING,), (Span.FALLING,), (Span.RISING, Span.FALLING)], ids=str)
@given(corners=crooked())
def test_consistent_distances_give_the_shape_back(corners: Corners, spans: tuple[Span, ...]) -> None:
    distances = measured(corners, *spans)
    fitted = fit_quadrilateral(distances)
    assert same(fitted, corners)
    assert max(map(abs, residuals(fitted, distances).values())) <= EXACT_MM


@pytest.mark.parametrize("lean_deg", [-40, -15, 5, 30])
def test_a_shape_far_from_a_rectangle_is_found_as_well(lean_deg: float) -> None:
    shift_mm, up_mm = 400 * sin(lean_deg * pi / 180), 400 * cos(lean_deg * pi / 180)
    corners: Corners = ((0.0, 0.0), (300.0, 0.0), (330.0 + shift_mm, up_mm), (shift_mm, up_mm))
    assert same(fit_quadrilateral(measured(corners, Span.RISING, Span.FALLING)), corners)


@given(corners=crooked(), errors=st.tuples(*(errors_mm,) * 6))
def test_no_other_shape_agrees_better_with_distances_that_contradict_each_other(
    corners: Corners, errors: tuple[float, ...]
) -> None:
    true = measured(corners, Span.RISING, Span.FALLING)
    distances = {span: length_mm + error_mm for (span, length_mm), error_mm in zip(true.items(), errors, strict=True)}
    fitted = residuals(fit_quadrilateral(distances), distances)

    def misses(free: list[float]) -> list[float]:
        x1, x2, y2, x3, y3 = free
        return list(residuals(((0, 0), (x1, 0), (x2, y2), (x3, y3)), distances).values())

    start = [corners[1][0], *corners[2], *corners[3]]
    oracle = least_squares(misses, start, xtol=1e-14, ftol=1e-14, gtol=1e-14)
    best_mm2 = 2 * oracle.cost
    assert sum(miss_mm**2 for miss_mm in fitted.values()) == pytest.approx(best_mm2, abs=1e-6)


@given(corners=crooked(), error_mm=errors_mm)
def test_one_wrong_diagonal_leaves_about_a_quarter_of_its_error(corners: Corners, error_mm: float) -> None:
    distances = measured(corners, Span.RISING, Span.FALLING)
    distances[Span.RISING] += error_mm
    misfit_mm = max(map(abs, residuals(fit_quadrilateral(distances), distances).values()))
    assert misfit_mm == pytest.approx(abs(error_mm) / 4, rel=0.25, abs=1e-6)


@given(corners=crooked())
def test_without_diagonals_the_shape_has_those_sides_and_opposite_corners_add_to_half_a_turn(corners: Corners) -> None:
    distances = measured(corners)
    fitted = fit_quadrilateral(distances)
    assert max(map(abs, residuals(fitted, distances).values())) <= EXACT_MM
    angles = [_angle(fitted, corner) for corner in range(4)]
    assert angles[0] + angles[2] == pytest.approx(pi, abs=1e-9)


def _angle(corners: Corners, corner: int) -> float:
    (x, y), (ax, ay), (bx, by) = corners[corner], corners[(corner + 1) % 4], corners[corner - 1]
    return (atan2(by - y, bx - x) - atan2(ay - y, ax - x)) % (2 * pi)


@given(corners=crooked(), flex_mm=st.floats(min_value=-20, max_value=20))
def test_without_diagonals_no_shape_of_those_sides_is_larger(corners: Corners, flex_mm: float) -> None:
    distances = measured(corners)
    fitted = fit_quadrilateral(distances)
    rising_mm = dist(fitted[0], fitted[2]) + flex_mm
    try:
        other = fit_quadrilateral(distances | {Span.RISING: rising_mm})
    except ImpossibleArtwork:
        assume(False)
    assert Polygon(other).area <= Polygon(fitted).area + 1e-3


@given(across_mm=sides_mm, up_mm=sides_mm)
def test_two_numbers_alone_make_a_true_rectangle(across_mm: float, up_mm: float) -> None:
    true = rectangle(across_mm=across_mm, up_mm=up_mm)
    assert same(fit_quadrilateral(measured(true)), true)


@given(corners=crooked(), errors=st.tuples(*(errors_mm,) * 6))
def test_a_piece_seen_in_a_mirror_is_fitted_in_the_mirror(corners: Corners, errors: tuple[float, ...]) -> None:
    true = measured(corners, Span.RISING, Span.FALLING)
    distances = {span: length_mm + error_mm for (span, length_mm), error_mm in zip(true.items(), errors, strict=True)}
    swap = {Span.LEFT: Span.RIGHT, Span.RIGHT: Span.LEFT, Span.RISING: Span.FALLING, Span.FALLING: Span.RISING}
    fitted = fit_quadrilateral(distances)
    mirrored = fit_quadrilateral({swap.get(span, span): length_mm for span, length_mm in distances.items()})
    for one, other in combinations(range(4), 2):
        twin = dist(mirrored[(1, 0, 3, 2)[one]], mirrored[(1, 0, 3, 2)[other]])
        assert dist(fitted[one], fitted[other]) == pytest.approx(twin, abs=1e-5)


def test_a_shape_keeps_its_angles_at_another_scale() -> None:
    assert scaled(rectangle(across_mm=3, up_mm=4), by_ratio=0.5) == rectangle(across_mm=1.5, up_mm=2)


SQUARE = {Span.BOTTOM: 300.0, Span.RIGHT: 400.0, Span.TOP: 300.0, Span.LEFT: 400.0}


@pytest.mark.parametrize(
    ("changed", "field", "says"),
    [
        ({Span.TOP: 1100.0}, "artwork_across_mm", "enter less than 1100 mm"),
        ({Span.BOTTOM: 1100.0}, "across_bottom_mm", "enter less than 1100 mm"),
        ({Span.LEFT: 1001.0}, "artwork_up_mm", "enter less than 1000 mm"),
        ({Span.RIGHT: 1001.0}, "up_right_mm", "enter less than 1000 mm"),
        ({Span.RISING: 700.0}, "diagonal_rising_mm", "enter between 100 mm and 700 mm"),
        ({Span.FALLING: 100.0}, "diagonal_falling_mm", "enter between 100 mm and 700 mm"),
    ],
)
def test_distances_that_no_piece_has_are_refused(changed: dict[Span, float], field: str, says: str) -> None:
    with pytest.raises(ImpossibleArtwork) as refusal:
        fit_quadrilateral(SQUARE | changed)
    assert refusal.value.field == field
    assert says in refusal.value.sentence


def test_a_diagonal_has_to_close_the_more_unlike_of_its_two_triangles() -> None:
    """Sides of 300 and 400 leave 100 to 700, those of 310 and 330 leave 20 to 640."""
    sides = {Span.BOTTOM: 300.0, Span.RIGHT: 400.0, Span.TOP: 310.0, Span.LEFT: 330.0}
    for rising_mm in (90.0, 650.0):
        with pytest.raises(ImpossibleArtwork, match="enter between 100 mm and 640 mm"):
            fit_quadrilateral(sides | {Span.RISING: rising_mm})


def test_six_distances_that_fit_nothing_together_are_refused() -> None:
    numbers_mm = zip(Span, (507.0, 760.0, 293.0, 854.0, 618.0, 971.0), strict=True)
    with pytest.raises(ImpossibleArtwork, match="read both diagonals again") as refusal:
        fit_quadrilateral(dict(numbers_mm))
    assert refusal.value.field == "diagonal_rising_mm"


@given(
    distances=st.fixed_dictionaries({side: st.floats(min_value=1, max_value=5000) for side in SIDES}),
    diagonals=st.fixed_dictionaries(
        {}, optional={span: st.floats(min_value=1, max_value=9000) for span in (Span.RISING, Span.FALLING)}
    ),
)
def test_any_distances_are_fitted_or_refused(distances: dict[Span, float], diagonals: dict[Span, float]) -> None:
    try:
        corners = fit_quadrilateral(distances | diagonals)
    except ImpossibleArtwork as refusal:
        assert refusal.sentence
    else:
        assert Polygon(corners).is_valid
