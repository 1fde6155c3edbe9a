"""Stiffeners of a bottom member: against beams solved by finite differences, and the least height that is enough."""

import numpy as np
import pytest

from framecalc.errors import OutOfRange
from framecalc.package.sag import GRAVITY_N_PER_KG, Beam
from framecalc.package.stiffening import (
    STEEL_MPA,
    Back,
    Stiffener,
    least_high_mm,
    stiffened,
    stiffened_findings,
)
from framecalc.records import replace

BEAM = Beam(
    span_mm=1300.0,
    package_kg=8.0,
    elasticity_mpa=8550.0,
    second_moment_mm4=30_000.0,
    area_mm2=450.0,
    density_kg_m3=400.0,
    face_width_mm=30.0,
    thickness_mm=20.0,
    rabbet_width_mm=6.0,
    rabbet_depth_mm=12.0,
)
BACK = Back(most_high_mm=100.0, up_mm=900.0, density_kg_m3=400.0, top_kg=BEAM.own_kg)
NODES = 401


def bent_mm(stiff: float, load_n_mm: np.ndarray) -> np.ndarray:
    """The deflection of a beam on two supports, by finite differences: M'' = −q, then EI y'' = −M."""
    step = BEAM.span_mm / (NODES - 1)
    second = (np.diag(np.full(NODES - 2, -2.0)) + np.eye(NODES - 2, k=1) + np.eye(NODES - 2, k=-1)) / step**2
    moment = np.linalg.solve(second, -load_n_mm[1:-1])
    return np.concatenate(([0.0], np.linalg.solve(second, -moment / stiff), [0.0]))


@pytest.mark.parametrize(("kind", "elasticity_mpa"), [(Stiffener.STRIP, 8550.0), (Stiffener.BAR, STEEL_MPA)])
def test_a_strip_and_the_member_bend_as_two_beams_side_by_side(kind: Stiffener, elasticity_mpa: float) -> None:
    found = stiffened(BEAM, BACK, kind=kind, out_mm=10, wide_mm=30)
    stiff = 8550.0 * 30_000 + elasticity_mpa * 10 * 30**3 / 12
    load = (BEAM.package_kg + BEAM.own_kg + found.mass_kg) * GRAVITY_N_PER_KG / BEAM.span_mm
    assert found.sag_mm == pytest.approx(bent_mm(stiff, np.full(NODES, load)).max(), rel=1e-3)


def test_a_strut_lets_both_members_sag_alike_and_their_middles_most() -> None:
    """The pull in the strut is found so that both middles sag alike; the sag beside the middle is not larger."""
    found = stiffened(BEAM, BACK, kind=Stiffener.STRUT, out_mm=12, wide_mm=38)
    stiff, step, middle = 8550.0 * 30_000, BEAM.span_mm / (NODES - 1), NODES // 2
    bottom = np.full(NODES, (BEAM.package_kg + BEAM.own_kg) * GRAVITY_N_PER_KG / BEAM.span_mm)
    top = np.full(NODES, BACK.top_kg * GRAVITY_N_PER_KG / BEAM.span_mm)
    unit = np.zeros(NODES)
    unit[middle] = 1 / step
    alone, above, each = bent_mm(stiff, bottom), bent_mm(stiff, top), bent_mm(stiff, unit)
    weight_n = found.mass_kg * GRAVITY_N_PER_KG
    pull_n = (alone[middle] - above[middle] - weight_n * each[middle]) / (2 * each[middle])
    sagged = alone - pull_n * each
    assert sagged[middle] == pytest.approx(above[middle] + (pull_n + weight_n) * each[middle])
    assert found.sag_mm == pytest.approx(sagged.max(), rel=1e-3)


@pytest.mark.parametrize("kind", [Stiffener.STRIP, Stiffener.BAR])
def test_the_least_height_is_just_enough(kind: Stiffener) -> None:
    high_mm = least_high_mm(BEAM, BACK, kind=kind, out_mm=6)
    enough = stiffened(BEAM, BACK, kind=kind, out_mm=6, wide_mm=high_mm)
    assert enough.is_enough and not stiffened_findings(enough)
    lower = stiffened(BEAM, BACK, kind=kind, out_mm=6, wide_mm=high_mm - 0.1)
    assert [one.code for one in stiffened_findings(lower)] == ["sag.bottom"]


def test_where_none_is_enough_there_is_no_height() -> None:
    low = replace(BACK, most_high_mm=10.0)
    assert least_high_mm(BEAM, low, kind=Stiffener.STRIP, out_mm=6) == 0


def test_a_stiffener_of_no_thickness_is_refused() -> None:
    with pytest.raises(OutOfRange):
        stiffened(BEAM, BACK, kind=Stiffener.BAR, out_mm=0, wide_mm=20)
