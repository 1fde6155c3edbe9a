"""The printer check: what a printer stretches and leans is made up for, and lengths that cannot be are refused."""

from math import cos, hypot, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.errors import ImpossibleSize, OutOfRange
from framecalc.geometry.outline import Point
from framecalc.templates.printer import CHECK_MM, TRUE, correction_of, require_near


def printed(point: Point, across: float, up: float, skew: float) -> Point:
    """Where a simulated printer puts a place of the page."""
    x, y = point
    return across * x + up * sin(radians(skew)) * y, up * cos(radians(skew)) * y


def measured(across: float, up: float, skew: float) -> dict[str, float]:
    """The square of the check as that printer prints it."""
    corner = {at: printed(at, across, up, skew) for at in ((0, 0), (CHECK_MM, 0), (0, CHECK_MM), (CHECK_MM, CHECK_MM))}

    def apart(one: Point, other: Point) -> float:
        return hypot(corner[one][0] - corner[other][0], corner[one][1] - corner[other][1])

    return {
        "across_mm": apart((0, 0), (CHECK_MM, 0)),
        "up_mm": apart((0, 0), (0, CHECK_MM)),
        "rising_mm": apart((0, 0), (CHECK_MM, CHECK_MM)),
        "falling_mm": apart((0, CHECK_MM), (CHECK_MM, 0)),
    }


@given(across=st.floats(0.95, 1.05), up=st.floats(0.95, 1.05), skew=st.floats(-1, 1))
def test_a_corrected_page_comes_out_of_the_printer_true(across: float, up: float, skew: float) -> None:
    correction = correction_of(**measured(across, up, skew))
    for point in ((100.0, 0.0), (0.0, 100.0), (-70.0, 130.0)):
        sent = correction.at(point, about=(0, 0))
        assert printed(sent, across, up, skew) == pytest.approx(point, abs=1e-6)


def test_measured_to_a_tenth_it_is_true_to_two_tenths() -> None:
    """A printer of 0.994 across, 1.003 up and 0.2° skew, measured with a rule."""
    rule = {name: round(length, 1) for name, length in measured(0.994, 1.003, 0.2).items()}
    correction = correction_of(**rule)
    corners = [(0.0, 0.0), (100.0, 0.0), (0.0, 100.0)]
    origin, right, top = (printed(correction.at(one, about=(0, 0)), 0.994, 1.003, 0.2) for one in corners)
    assert hypot(right[0] - origin[0], right[1] - origin[1]) == pytest.approx(100, abs=0.2)
    assert hypot(top[0] - origin[0], top[1] - origin[1]) == pytest.approx(100, abs=0.2)
    assert top[0] - origin[0] == pytest.approx(0, abs=0.2)


def test_a_true_printer_is_left_alone() -> None:
    correction = correction_of(**measured(1, 1, 0))
    assert (correction.across_ratio, correction.up_ratio) == pytest.approx((1, 1))
    assert correction.lean_ratio == pytest.approx(0)
    assert TRUE.at((3.0, 4.0), about=(1, 1)) == (3, 4)


def test_the_middle_of_the_page_stays_where_it_is() -> None:
    correction = correction_of(**measured(0.98, 1.01, 0.3))
    assert correction.at((105.0, 148.5), about=(105.0, 148.5)) == (105.0, 148.5)


@pytest.mark.parametrize("field", ["across_mm", "up_mm", "rising_mm", "falling_mm"])
@pytest.mark.parametrize("ratio", [0.89, 1.11, 0.0])
def test_a_length_that_is_off_by_over_ten_per_cent_is_refused(field: str, ratio: float) -> None:
    lengths = measured(1, 1, 0)
    with pytest.raises(OutOfRange) as refusal:
        correction_of(**lengths | {field: lengths[field] * ratio})
    assert refusal.value.field == field


def test_diagonals_that_do_not_go_with_the_sides_are_refused() -> None:
    lengths = measured(1, 1, 0)
    with pytest.raises(ImpossibleSize, match="measure all four again"):
        correction_of(**lengths | {"rising_mm": 225, "falling_mm": 220})


@pytest.mark.parametrize(("measured_mm", "is_near"), [(134.9, False), (135.1, True), (164.9, True), (165.1, False)])
def test_ten_per_cent_either_way_is_a_page_that_was_fitted(measured_mm: float, is_near: bool) -> None:
    if is_near:
        require_near(150, across_mm=measured_mm)
        return
    with pytest.raises(OutOfRange) as refusal:
        require_near(150, across_mm=measured_mm)
    assert refusal.value.lengths == {"measured": measured_mm, "nominal": 150}


@pytest.mark.parametrize(("ratio", "is_taken"), [(1.008, True), (0.992, True), (1.012, False), (0.988, False)])
def test_diagonals_may_be_read_wrong_by_one_per_cent_against_the_sides(ratio: float, is_taken: bool) -> None:
    lengths = measured(1.02, 0.97, 0)
    lengths |= {name: lengths[name] * ratio for name in ("rising_mm", "falling_mm")}
    if is_taken:
        assert correction_of(**lengths).across_ratio == pytest.approx(1 / 1.02)
    else:
        with pytest.raises(ImpossibleSize):
            correction_of(**lengths)
