"""A wire over one hook and over two: worked examples, the parallelogram of forces, and the least energy."""

from math import cos, degrees, hypot, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from framecalc.errors import FrameCalcError
from framecalc.hanging.wire import crooked_findings, loaded_wire, rise_for_mm, wire_findings

FACTORS = {5: (5.737, 5.715), 10: (2.879, 2.836), 15: (1.932, 1.866), 20: (1.462, 1.374), 30: (1.0, 0.866)} | {
    45: (0.707, 0.5),
    60: (0.577, 0.289),
}
"""Pull and inward pull to the weight, by the angle. Source: worked by hand, T/W = 1/(2 sin a), 1/(2 tan a)."""

SPANS, RISES, APARTS = st.floats(150, 1500), st.floats(20, 600), st.floats(0, 0.8)


def test_a_flat_wire_pulls_with_twice_the_weight() -> None:
    """Source: worked by hand, 5 kg, rings 500 mm apart, rise 60 mm."""
    wire = loaded_wire(weight_n=5 * 9.80665, span_mm=500, rise_mm=60)
    assert (wire.angle_deg, wire.pull_n) == (pytest.approx(13.496, abs=5e-4), pytest.approx(105.05, abs=5e-3))
    assert wire.between_mm == pytest.approx(514.20, abs=5e-3) and wire.cut_mm == pytest.approx(714.20, abs=5e-3)


@pytest.mark.parametrize("angle_deg", FACTORS)
def test_pull_follows_from_the_angle(angle_deg: int) -> None:
    rise_mm = rise_for_mm(span_mm=500, angle_deg=angle_deg)
    wire = loaded_wire(weight_n=1, span_mm=500, rise_mm=rise_mm)
    assert (wire.pull_n, wire.inward_n) == pytest.approx(FACTORS[angle_deg], abs=6e-4)


@given(SPANS, RISES, APARTS)
@settings(max_examples=250)
def test_the_forces_at_hooks_and_rings_close(span_mm: float, rise_mm: float, part: float) -> None:
    """At a ring the wire pulls up and in; at a hook its two ends and the nail are in balance."""
    wire = loaded_wire(weight_n=60, span_mm=span_mm, rise_mm=rise_mm, apart_mm=part * span_mm)
    leg = radians(wire.angle_deg)
    assert 2 * wire.pull_n * sin(leg) == pytest.approx(60)
    assert wire.inward_n == pytest.approx(wire.pull_n * cos(leg))
    if part:
        pull = (wire.pull_n * (1 - cos(leg)), -wire.pull_n * sin(leg))
        assert (wire.hook_inward_n, -wire.hook_n) == pytest.approx(pull)


@given(SPANS, RISES, APARTS)
@settings(max_examples=250)
def test_a_wire_of_that_length_hangs_at_that_rise(span_mm: float, rise_mm: float, part: float) -> None:
    """The frame sinks until its wire is tight: of all rises with a wire no longer than this the lowest frame wins."""
    wire = loaded_wire(weight_n=1, span_mm=span_mm, rise_mm=rise_mm, apart_mm=part * span_mm)

    def energy(rise: float) -> float:
        long_mm = 2 * hypot((span_mm - wire.apart_mm) / 2, rise) + wire.apart_mm
        return -rise + 1e4 * max(long_mm - wire.between_mm, 0.0) ** 2

    found = minimize_scalar(energy, bounds=(0, 3 * rise_mm), method="bounded", options={"xatol": 1e-6})
    assert found.x == pytest.approx(rise_mm, rel=2e-3, abs=0.05)


@pytest.mark.parametrize(("angle_deg", "severity"), [(31, None), (29, "warn"), (16, "warn"), (14, "stop")])
def test_a_wire_under_30_is_warned_of_and_under_15_stopped(angle_deg: float, severity: str | None) -> None:
    wire = loaded_wire(weight_n=50, span_mm=400, rise_mm=rise_for_mm(span_mm=400, angle_deg=angle_deg))
    found = wire_findings(wire, down_mm=300)
    assert [one.severity.value for one in found] == ([severity] if severity else [])
    assert all(one.ways[0].value_mm == pytest.approx(rise_for_mm(span_mm=400, angle_deg=30)) for one in found)


def test_a_wire_that_comes_near_the_top_edge_shows() -> None:
    wire = loaded_wire(weight_n=50, span_mm=400, rise_mm=200)
    assert [one.code for one in wire_findings(wire, down_mm=240)] == ["wire.shows"]


@pytest.mark.parametrize("down_mm", range(120, 240, 10))
def test_a_steeper_wire_is_offered_wherever_it_then_raises_no_finding(down_mm: float) -> None:
    flat, *_ = wire_findings(loaded_wire(weight_n=50, span_mm=400, rise_mm=40), down_mm=down_mm)
    steeper = loaded_wire(weight_n=50, span_mm=400, rise_mm=rise_for_mm(span_mm=400, angle_deg=30))
    assert bool(flat.ways) is (wire_findings(steeper, down_mm=down_mm) == ())


def test_hooks_stand_between_the_rings() -> None:
    with pytest.raises(FrameCalcError) as refused:
        loaded_wire(weight_n=50, span_mm=400, rise_mm=100, apart_mm=400)
    assert refused.value.field == "hooks_apart_mm"


@pytest.mark.parametrize("off_mm", [-30.0, 8.0, 45.0])
def test_on_one_hook_the_frame_turns_until_its_weight_hangs_lowest(off_mm: float) -> None:
    """The tilt against the angle of least height of the centre of gravity, found numerically."""
    turned = minimize_scalar(
        lambda turn_rad: -180 * cos(turn_rad) - off_mm * sin(turn_rad), bounds=(-1.5, 1.5), method="bounded"
    )
    (found,) = crooked_findings(off_mm=off_mm, below_mm=180, across_mm=600)
    assert f"tilts by {degrees(abs(turned.x)):.1f}°" in found.sentence
    assert not crooked_findings(off_mm=0.5, below_mm=180, across_mm=600)
    assert not crooked_findings(off_mm=off_mm, below_mm=0, across_mm=600)


@pytest.mark.parametrize("apart_mm", [0.0, 150.0])
def test_the_sentence_tells_the_pull_of_a_flat_wire_by_the_weight_of_the_frame(apart_mm: float) -> None:
    wire = loaded_wire(weight_n=50, span_mm=400, rise_mm=20, apart_mm=apart_mm)
    flat, *_ = wire_findings(wire, down_mm=300)
    assert f" {wire.pull_n / 50:.1f} times the weight" in flat.sentence and wire.pull_n > 50


@pytest.mark.parametrize("apart_mm", [0.0, 100.0, 399.0])
def test_the_rise_for_an_angle_makes_that_angle_and_only_between_the_rings(apart_mm: float) -> None:
    rise_mm = rise_for_mm(span_mm=400, angle_deg=20, apart_mm=apart_mm)
    assert loaded_wire(weight_n=50, span_mm=400, rise_mm=rise_mm, apart_mm=apart_mm).angle_deg == pytest.approx(20)


def test_a_wire_that_shows_tells_how_near_the_edge_it_comes() -> None:
    (found,) = wire_findings(loaded_wire(weight_n=50, span_mm=400, rise_mm=200), down_mm=240)
    assert found.lengths == {"under": 40, "hidden": 50}


@pytest.mark.parametrize(("off_mm", "is_crooked"), [(0.99, False), (1.01, True)])
@pytest.mark.parametrize("side", [-1, 1])
def test_the_eye_sees_an_edge_three_millimetres_higher(off_mm: float, side: int, is_crooked: bool) -> None:
    """600 wide and 200 under its hook: a millimetre beside the middle lifts one end by three."""
    assert bool(crooked_findings(off_mm=side * off_mm, below_mm=200, across_mm=600)) is is_crooked


@pytest.mark.parametrize(("below_mm", "is_said"), [(0.5, True), (0.0, False), (-0.5, False)])
def test_only_a_centre_under_the_hook_hangs_crooked(below_mm: float, is_said: bool) -> None:
    found = crooked_findings(off_mm=5, below_mm=below_mm, across_mm=600)
    assert [one.lengths for one in found] == ([{"off": 5}] if is_said else [])


def test_one_hook_bears_all_of_the_weight_and_is_pulled_to_no_side() -> None:
    one, two = (loaded_wire(weight_n=50, span_mm=400, rise_mm=90, apart_mm=apart) for apart in (0.0, 100.0))
    assert (one.hook_n, one.hook_inward_n, two.hook_n) == (50, 0, 25)
    assert [wire.cut_mm - wire.between_mm for wire in (one, two)] == pytest.approx([200, 200])
