"""Telling two fences apart from test joints."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.corners.fences import find_fences
from framecalc.errors import OutOfRange

ERRORS = st.lists(st.floats(-1, 1), max_size=4)


@given(each=ERRORS, left=ERRORS, right=ERRORS)
def test_it_is_the_least_squares_of_a_library(each: list[float], left: list[float], right: list[float]) -> None:
    if sum(map(bool, (each, left, right))) < 2:
        return
    rows = [[0.5, 0.5]] * len(each) + [[1.0, 0.0]] * len(left) + [[0.0, 1.0]] * len(right)
    expected, *_ = np.linalg.lstsq(np.array(rows), np.array([*each, *left, *right]), rcond=None)
    found = find_fences(each_deg=each, left_only_deg=left, right_only_deg=right)
    assert (found.left_deg, found.right_deg) == pytest.approx(tuple(expected), abs=1e-9)


@pytest.mark.parametrize(("left_deg", "right_deg", "further"), [(0.2, 0.05, "left"), (0.0, -0.3, "right")])
def test_the_fence_further_off_is_named(left_deg: float, right_deg: float, further: str) -> None:
    mean_deg = (left_deg + right_deg) / 2
    found = find_fences(each_deg=[mean_deg], left_only_deg=[], right_only_deg=[right_deg])
    assert (found.left_deg, found.right_deg) == pytest.approx((left_deg, right_deg))
    assert found.further_off == further


@pytest.mark.parametrize("kinds", [([0.1, 0.2], [], []), ([], [0.1], []), ([], [], [])])
def test_joints_of_one_kind_are_refused(kinds: tuple[list[float], list[float], list[float]]) -> None:
    each, left, right = kinds
    with pytest.raises(OutOfRange, match="Add a joint of another kind"):
        find_fences(each_deg=each, left_only_deg=left, right_only_deg=right)
