"""A strap around a frame: equilibrium of members, belt friction step by step, pressure on the real mitre."""

from math import cos, exp, pi, sin, sqrt

import pytest

from framecalc.corners.clamping import (
    PressureLevel,
    Ratchet,
    eased_strap,
    mitre_force_n,
    press,
    pressure_findings,
    strap_around,
    tension_for_n,
)
from framecalc.corners.joints.corner_stock import CornerStock, corner_stock
from framecalc.errors import FrameCalcError


def _stock() -> CornerStock:
    return corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)


@pytest.mark.parametrize("sides", [3, 4, 5, 8])
def test_the_force_on_a_mitre_balances_the_strap_and_the_corner_block(sides: int) -> None:
    """At a corner the strap pulls along both sides; the block passes half of that, square to the edge, to a member.

    What is left for the mitre, with the member's own thrust, must point square to the mitre and be N.
    """
    turn = 2 * pi / sides
    strap = complex(1, 0) + complex(cos(pi - turn), sin(pi - turn))
    square_to_the_edge = 1j
    block = abs(strap) / 2 / cos(turn / 2) * square_to_the_edge
    mitre_force = -(block + complex(-1, 0))
    along_the_mitre = complex(cos((pi - turn) / 2), sin((pi - turn) / 2))
    assert (mitre_force * along_the_mitre.conjugate()).real == pytest.approx(0, abs=1e-12)
    assert mitre_force_n(250, sides=sides) == pytest.approx(250 * abs(mitre_force))


def test_a_rectangle_is_pressed_by_the_root_of_two() -> None:
    assert mitre_force_n(300) == pytest.approx(300 * sqrt(2))


@pytest.mark.parametrize("friction", [0.1, 0.25])
def test_belt_friction_takes_its_share_little_by_little(friction: float) -> None:
    """Go around a corner in a thousand small turns: each leaves the part of the tension that friction cannot hold."""
    tension = 300.0
    for _ in range(1000):
        tension *= 1 - friction * (pi / 2) / 1000
    strap = strap_around(300, friction_ratio=friction, ratchet=Ratchet.ON_A_SIDE)
    assert strap.tensions_n[1] == pytest.approx(tension, rel=1e-3)
    assert strap.tensions_n[1] == pytest.approx(300 * exp(-friction * pi / 2))


def test_without_friction_every_mitre_is_pressed_alike() -> None:
    strap = strap_around(300, friction_ratio=0, ratchet=Ratchet.AT_A_CORNER)
    assert strap.forces_n == pytest.approx(4 * (300 * sqrt(2),))
    assert strap.evenness_ratio == 1


def test_with_the_ratchet_on_a_side_the_two_corners_across_are_weakest() -> None:
    strap = strap_around(300, friction_ratio=0.25, ratchet=Ratchet.ON_A_SIDE)
    assert strap.forces_n[0] == pytest.approx(strap.forces_n[3])
    assert strap.forces_n[1] == pytest.approx(strap.forces_n[2]) == pytest.approx(strap.weakest_n)


def test_with_the_ratchet_at_a_corner_the_one_across_is_weakest() -> None:
    strap = strap_around(300, friction_ratio=0.25, ratchet=Ratchet.AT_A_CORNER)
    assert strap.forces_n[3] == max(strap.forces_n) == pytest.approx(300 * sqrt(2))
    assert strap.forces_n[1] == strap.weakest_n
    assert strap.tensions_n[0] == 300 and strap.tensions_n == pytest.approx(strap.tensions_n[::-1])


@pytest.mark.parametrize("ratchet", list(Ratchet))
@pytest.mark.parametrize("eased_to_n", [120.0, 180.0, 250.0, 300.0])
def test_easing_makes_the_corners_more_alike_and_never_presses_more(ratchet: Ratchet, eased_to_n: float) -> None:
    pulled = strap_around(300, friction_ratio=0.25, ratchet=ratchet)
    eased = eased_strap(300, eased_to_n=eased_to_n, friction_ratio=0.25, ratchet=ratchet)
    assert all(after <= before for after, before in zip(eased.tensions_n, pulled.tensions_n, strict=True))
    assert eased.evenness_ratio >= pulled.evenness_ratio - 1e-12
    for one, other in zip(eased.tensions_n, eased.tensions_n[1:] + eased.tensions_n[:1], strict=True):
        assert max(one, other) / min(one, other) <= exp(0.25 * pi / 2) + 1e-9


def test_easing_by_nothing_changes_nothing() -> None:
    pulled = strap_around(300, friction_ratio=0.25, ratchet=Ratchet.ON_A_SIDE)
    eased = eased_strap(300, eased_to_n=300, friction_ratio=0.25, ratchet=Ratchet.ON_A_SIDE)
    assert eased.tensions_n == pytest.approx(pulled.tensions_n)


def test_the_pressure_is_that_on_the_mitre_less_its_rabbet() -> None:
    pressure = press(_stock(), strap_around(500, friction_ratio=0, ratchet=Ratchet.ON_A_SIDE))
    area_mm2 = sqrt(2) * ((40 - 6) * 20 + 6 * (20 - 12))
    assert pressure.least_mpa == pytest.approx(500 * sqrt(2) / area_mm2)


def test_the_tension_for_a_pressure_gives_that_pressure_at_the_weakest_mitre() -> None:
    for ratchet in Ratchet:
        tension = tension_for_n(_stock(), pressure_mpa=0.9, friction_ratio=0.25, ratchet=ratchet)
        strap = strap_around(tension, friction_ratio=0.25, ratchet=ratchet)
        assert press(_stock(), strap).least_mpa == pytest.approx(0.9)


@pytest.mark.parametrize(
    ("tension_n", "pressing", "codes"),
    [
        (200, PressureLevel.LITTLE, ["clamping.little"]),
        (700, PressureLevel.ENOUGH, []),
        (2000, PressureLevel.MUCH, ["clamping.much"]),
    ],
)
def test_the_verdict_is_on_the_weakest_mitre(tension_n: float, pressing: PressureLevel, codes: list[str]) -> None:
    pressure = press(_stock(), strap_around(tension_n, friction_ratio=0, ratchet=Ratchet.ON_A_SIDE))
    assert pressure.pressing is pressing
    assert [finding.code for finding in pressure_findings(pressure)] == codes


@pytest.mark.parametrize(
    ("tension_n", "friction", "field"),
    [(0.0, 0.2, "tension_n"), (300.0, -0.1, "friction_ratio"), (300.0, float("nan"), "friction_ratio")],
)
def test_straps_that_pull_nothing_are_refused(tension_n: float, friction: float, field: str) -> None:
    with pytest.raises(FrameCalcError, match=r"^Enter ") as refusal:
        strap_around(tension_n, friction_ratio=friction, ratchet=Ratchet.ON_A_SIDE)
    assert refusal.value.field == field


def test_easing_to_more_than_was_pulled_is_refused() -> None:
    with pytest.raises(FrameCalcError, match="Enter 0 N to 300 N"):
        eased_strap(300, eased_to_n=301, friction_ratio=0.2, ratchet=Ratchet.ON_A_SIDE)
