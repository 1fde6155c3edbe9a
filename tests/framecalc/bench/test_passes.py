"""Passes of a router table: the last is the depth, none is deeper than allowed, and the last is light."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.bench.passes import LIGHT_PASS_MM, deepest_pass_mm, pass_heights_mm
from framecalc.errors import OutOfRange

STEPS_MM = st.sampled_from((25.4 / 8, 25.4 / 16, 25.4 / 32, 25.4 / 64, 1.0, 0.5, 0.1))


@given(
    depth_mm=st.floats(min_value=0.2, max_value=60),
    deepest_mm=st.floats(min_value=1, max_value=8),
    step_mm=STEPS_MM,
)
def test_passes_reach_the_depth_and_none_is_too_deep(depth_mm: float, deepest_mm: float, step_mm: float) -> None:
    heights_mm = pass_heights_mm(depth_mm, deepest_mm=deepest_mm, step_mm=step_mm)
    taken_mm = [after - before for before, after in zip((0.0, *heights_mm), heights_mm, strict=False)]
    assert heights_mm[-1] == depth_mm
    assert all(0 < one_mm <= deepest_mm + 1e-3 for one_mm in taken_mm)
    if len(taken_mm) > 1:
        assert taken_mm[-1] >= LIGHT_PASS_MM - 1e-3


@pytest.mark.parametrize(
    ("depth_mm", "deepest_mm", "step_mm", "heights_mm"),
    [
        (12.8, 6, 0.5, (6, 12, 12.8)),
        (12.9, 6, 0.5, (6, 12, 12.9)),
        (13.4, 6, 0.5, (4.5, 8.5, 12.5, 13.4)),
        (4, 1, 3, (0.8, 1.6, 2.4, 3.2, 4)),
        (2, 6, 1.5, (1.2, 2)),
    ],
)
def test_there_are_as_few_passes_as_may_be_about_alike(
    depth_mm: float, deepest_mm: float, step_mm: float, heights_mm: tuple[float, ...]
) -> None:
    """By hand: the light pass off the depth, the rest in as few parts as are no deeper, on whole steps if they go."""
    found = pass_heights_mm(depth_mm, deepest_mm=deepest_mm, step_mm=step_mm)
    assert found == pytest.approx(heights_mm)


@given(depth_mm=st.floats(min_value=2, max_value=60))
def test_on_a_fine_tape_the_last_pass_is_light(depth_mm: float) -> None:
    heights_mm = pass_heights_mm(depth_mm, deepest_mm=3.2, step_mm=0.1)
    assert heights_mm[-1] - heights_mm[-2] <= LIGHT_PASS_MM + 0.1 + 1e-3


@pytest.mark.parametrize(("bit_mm", "density_kg_m3", "deepest_mm"), [(19, 380, 6.0), (19, 0, 3.2), (5, 380, 2.5)])
def test_a_pass_is_bounded_by_bit_and_wood(bit_mm: float, density_kg_m3: float, deepest_mm: float) -> None:
    assert deepest_pass_mm(bit_mm=bit_mm, density_kg_m3=density_kg_m3) == deepest_mm


def test_no_bit_is_refused() -> None:
    with pytest.raises(OutOfRange):
        deepest_pass_mm(bit_mm=0, density_kg_m3=500)
