"""How a frame leans: by a worked example, by least energy, and where it tips over."""

from math import asin, atan, cos, degrees, radians, sin

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from framecalc.errors import FrameCalcError
from framecalc.hanging.lean import Hang, lean_of


def test_the_pull_out_of_the_wall_is_weight_by_depth_over_height() -> None:
    """Source: worked by hand, W 49.033 N, e 25 mm, k 300 mm."""
    hang = Hang(hanger_up_mm=300, centre_up_mm=200, centre_out_mm=25, bumper_mm=0, hook_out_mm=0)
    assert 49.033 * lean_of(hang, up_mm=400).pull_ratio == pytest.approx(4.086, abs=5e-4)


def test_a_plate_that_cannot_turn_leans_by_its_hook_and_its_bumper() -> None:
    hang = Hang(hanger_up_mm=400, centre_up_mm=250, centre_out_mm=12, bumper_mm=3, hook_out_mm=10)
    lean = lean_of(hang, up_mm=500)
    assert lean.lean_deg == pytest.approx(degrees(asin(7 / 400)))
    assert lean.top_out_mm == pytest.approx(3 + 500 * 7 / 400)


@given(
    st.floats(200, 900),
    st.floats(0.55, 0.9),
    st.floats(0.3, 0.5),
    st.floats(4, 60),
    st.floats(0, 12),
    st.floats(0, 12),
    st.floats(10, 150),
)
@settings(max_examples=150)
def test_a_frame_rests_where_its_weight_is_lowest(
    up_mm: float, hanger: float, centre: float, out_mm: float, bumper_mm: float, hook_mm: float, reach_mm: float
) -> None:
    """The link turns, the lower edge slides on the wall: of all such figures the lowest centre of gravity wins."""
    hang = Hang(
        hanger_up_mm=hanger * up_mm,
        centre_up_mm=centre * up_mm,
        centre_out_mm=out_mm,
        bumper_mm=bumper_mm,
        hook_out_mm=hook_mm,
        reach_mm=reach_mm,
    )
    lean = lean_of(hang, up_mm=up_mm)
    assume(abs(lean.lean_deg) < 20)

    def height(lean_rad: float) -> float:
        """The centre of gravity over the hook, with the frame so far from the wall that its lower edge touches."""
        pivot_out = bumper_mm + hang.hanger_up_mm * sin(lean_rad)
        slant = (pivot_out - hook_mm) / reach_mm
        if abs(slant) >= 1:
            return 1e6 * (1 + abs(slant))
        pivot_up = -reach_mm * cos(asin(slant))
        return pivot_up + (hang.centre_up_mm - hang.hanger_up_mm) * cos(lean_rad) - hang.centre_out_mm * sin(lean_rad)

    near = radians(lean.lean_deg)
    aside_mm = bumper_mm + hang.hanger_up_mm * sin(near) - hook_mm
    assert reach_mm * sin(atan(lean.pull_ratio)) == pytest.approx(aside_mm, abs=1e-6), "the link closes the figure"
    found = minimize_scalar(height, bounds=(near - 0.01, near + 0.01), method="bounded", options={"xatol": 1e-9})
    assert degrees(found.x) == pytest.approx(lean.lean_deg, abs=0.02)


def test_the_lower_the_hangers_the_more_it_leans_until_it_tips() -> None:
    def lean_deg(down: float) -> float:
        hang = Hang(
            hanger_up_mm=500 - down,
            centre_up_mm=250,
            centre_out_mm=15,
            bumper_mm=6,
            hook_out_mm=6,
            reach_mm=120,
        )
        return lean_of(hang, up_mm=500).lean_deg

    leans = [lean_deg(down) for down in (125, 165, 240, 300)]
    assert leans == sorted(leans) and leans[0] < 1.5
    with pytest.raises(FrameCalcError) as refused:
        lean_deg(440)
    assert refused.value.field == "hangers_down_mm"
