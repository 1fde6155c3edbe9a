"""Compound settings: against published ones, against planes built here, and against a table.

`mitre_angles.csv` was derived from vectors outside this project (n = 3 to 12, slope 0° to 90° by 5°), to four places.
"""

import csv
import tomllib
from itertools import pairwise
from math import acos, cos, degrees, radians, sin, sqrt
from pathlib import Path
from typing import Any

import pytest

from framecalc.corners.angles import (
    flat_on_the_table,
    gauge_readings,
    propped_at_its_slope,
    settings_findings,
    spring_angle_deg,
)
from framecalc.errors import FrameCalcError

VALUES = Path(__file__).parents[2] / "check_values"
CHECKS = tomllib.loads((VALUES / "angles.toml").read_text("utf-8"))["check"]
ROWS = list(csv.DictReader((VALUES / "mitre_angles.csv").read_text("utf-8").splitlines()))

Vector = tuple[float, float, float]


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check["name"])
def test_published_setting(check: dict[str, Any]) -> None:
    settings = flat_on_the_table(half_turn_deg=180 / check["sides"], slope_deg=check["slope_deg"])
    found = (settings.mitre_deg, settings.tilt_deg)
    assert found == pytest.approx(tuple(check["expect_deg"]), abs=check["tolerance_deg"])


def test_the_table_has_all_its_rows() -> None:
    assert len(ROWS) == 133


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['n_sides']} sides at {row['slope_deg']}")
def test_row_of_the_table(row: dict[str, str]) -> None:
    half_turn = 180 / int(row["n_sides"])
    flat = flat_on_the_table(half_turn_deg=half_turn, slope_deg=float(row["slope_deg"]))
    propped = propped_at_its_slope(half_turn_deg=half_turn, slope_deg=float(row["slope_deg"]))
    found = (flat.mitre_deg, gauge_readings(flat.mitre_deg).below_ninety_deg, flat.tilt_deg, flat.dihedral_deg)
    columns = ("mitre_gauge_deg", "mitre_gauge_complement_deg", "blade_tilt_deg", "dihedral_deg")
    assert found == pytest.approx([float(row[column]) for column in columns], abs=0.00005001)
    assert (propped.mitre_deg, propped.tilt_deg) == pytest.approx(
        (float(row["propped_mitre_deg"]), float(row["propped_tilt_deg"])), abs=0.00005001
    )


@pytest.mark.parametrize("corner_deg", [60, 90, 100, 120, 150])
@pytest.mark.parametrize("slope_deg", [0, 10, 38, 45, 52, 75, 90])
def test_the_settings_are_those_of_planes_that_meet(corner_deg: float, slope_deg: float) -> None:
    """Build two sloping sides from their normals, cut them by the plane through the corner, and measure."""
    turn = radians(180 - corner_deg)
    faces = [_turned(_face_normal(radians(slope_deg)), by) for by in (0.0, turn)]
    joint = _unit(_turned((0.0, 1.0, 0.0), turn / 2))
    along, face = (0.0, 1.0, 0.0), faces[0]
    cut_line = _unit(_cross(joint, face))
    square_line = _unit(_cross(along, face))
    settings = flat_on_the_table(half_turn_deg=(180 - corner_deg) / 2, slope_deg=slope_deg)
    assert settings.mitre_deg == pytest.approx(_between(cut_line, square_line), abs=1e-5)
    assert settings.tilt_deg == pytest.approx(90 - _between(joint, face), abs=1e-5)
    assert settings.dihedral_deg == pytest.approx(180 - degrees(acos(_clip(_dot(faces[0], faces[1])))), abs=1e-5)


@pytest.mark.parametrize("half_turn", [15.0, 45.0, 60.0])
def test_a_flat_frame_needs_no_tilt_and_a_box_no_mitre(half_turn: float) -> None:
    flat = flat_on_the_table(half_turn_deg=half_turn, slope_deg=0)
    box = flat_on_the_table(half_turn_deg=half_turn, slope_deg=90)
    assert (flat.mitre_deg, flat.tilt_deg, flat.dihedral_deg) == pytest.approx((half_turn, 0, 180))
    assert (box.mitre_deg, box.tilt_deg, box.dihedral_deg) == pytest.approx((0, half_turn, 180 - 2 * half_turn))


def test_steeper_sides_tilt_the_blade_more_and_swing_the_gauge_less() -> None:
    steps = [flat_on_the_table(half_turn_deg=45, slope_deg=slope) for slope in range(0, 91, 5)]
    assert all(low.tilt_deg < high.tilt_deg for low, high in pairwise(steps))
    assert all(low.mitre_deg > high.mitre_deg for low, high in pairwise(steps))


def test_a_saw_that_tilts_to_45_cannot_cut_a_steep_triangle() -> None:
    steep = flat_on_the_table(half_turn_deg=60, slope_deg=55)
    assert [finding.code for finding in settings_findings(steep)] == ["angles.tilt-out-of-reach"]
    assert settings_findings(flat_on_the_table(half_turn_deg=60, slope_deg=54)) == ()


def test_a_gauge_that_stops_at_50_cannot_reach_a_flat_triangle() -> None:
    flat = flat_on_the_table(half_turn_deg=60, slope_deg=0)
    found = settings_findings(flat, most_gauge_deg=50)
    assert [finding.code for finding in found] == ["angles.gauge-out-of-reach"]
    assert "swing 60.00°" in found[0].sentence


def test_propping_the_side_is_within_reach_where_the_tilt_is_not() -> None:
    propped = propped_at_its_slope(half_turn_deg=60, slope_deg=80)
    assert settings_findings(propped) == ()


def test_the_spring_angle_of_a_crown_is_measured_from_the_other_wall() -> None:
    assert spring_angle_deg(52) == 38
    assert spring_angle_deg(45) == 45


@pytest.mark.parametrize(
    ("half_turn", "slope", "field"),
    [(0, 45, "half_turn_deg"), (90, 45, "half_turn_deg"), (45, -1, "slope_deg"), (45, 91, "slope_deg")],
)
def test_angles_that_are_no_angle_are_refused(half_turn: float, slope: float, field: str) -> None:
    with pytest.raises(FrameCalcError, match=r"^Enter ") as refusal:
        flat_on_the_table(half_turn_deg=half_turn, slope_deg=slope)
    assert refusal.value.field == field


@pytest.mark.parametrize("mitre", [float("nan"), -0.1, 90.1])
def test_a_gauge_reads_no_angle_past_a_right_angle(mitre: float) -> None:
    with pytest.raises(FrameCalcError, match="Enter 0° to 90°"):
        gauge_readings(mitre)


def _face_normal(slope_rad: float) -> Vector:
    """A side that runs along y; its face rises by the slope, from the inside at low x to the outside at high x."""
    return (sin(slope_rad), 0.0, -cos(slope_rad))


def _turned(vector: Vector, by_rad: float) -> Vector:
    x, y, z = vector
    return (x * cos(by_rad) - y * sin(by_rad), x * sin(by_rad) + y * cos(by_rad), z)


def _cross(a: Vector, b: Vector) -> Vector:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def _dot(a: Vector, b: Vector) -> float:
    return sum(p * q for p, q in zip(a, b, strict=True))


def _unit(vector: Vector) -> Vector:
    length = sqrt(_dot(vector, vector))
    return (vector[0] / length, vector[1] / length, vector[2] / length)


def _between(a: Vector, b: Vector) -> float:
    """The angle between two lines, 0° to 90°."""
    return degrees(acos(_clip(abs(_dot(a, b)))))


def _clip(cosine: float) -> float:
    return max(-1.0, min(1.0, cosine))
