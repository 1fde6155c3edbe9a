"""Footage: by the trade rule, and with saw cuts."""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from framecalc.errors import OutOfRange
from framecalc.sizes.chain import sizes_around
from framecalc.sizes.from_one_stick import stick_round_mm
from framecalc.timber.footage import footage_with_cuts_mm, rule_footage_mm

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/boards.toml").read_text("utf-8"))
INCH_MM = 25.4


@pytest.mark.parametrize("check", CHECKS["footage"], ids=lambda check: check["name"])
def test_worked_footage(check: dict[str, Any]) -> None:
    package_across_mm, package_up_mm = (INCH_MM * size for size in check["package_in"])
    rule_mm = rule_footage_mm(
        package_across_mm=package_across_mm,
        package_up_mm=package_up_mm,
        face_width_mm=INCH_MM * check["face_width_in"],
    )
    cut_mm = footage_with_cuts_mm(2 * INCH_MM * sum(check["outside_in"]), kerf_mm=INCH_MM * check["kerf_in"], cuts=8)
    expected = (check["expect_rule_in"], check["expect_eight_cuts_in"])
    tolerance_mm = INCH_MM * check["tolerance_in"]
    assert (rule_mm, cut_mm) == pytest.approx([INCH_MM * inches for inches in expected], abs=tolerance_mm)


@pytest.mark.parametrize("clearance_mm", [0.0, 3.0])
@pytest.mark.parametrize("rabbet_width_mm", [5.0, 6.35])
def test_the_rule_is_longer_by_the_rabbets_less_the_clearance(rabbet_width_mm: float, clearance_mm: float) -> None:
    sizes = sizes_around(
        package_across_mm=297,
        package_up_mm=420,
        clearance_across_mm=clearance_mm,
        clearance_up_mm=clearance_mm,
        rabbet_width_mm=rabbet_width_mm,
        face_width_mm=30,
    )
    edges_mm = sizes.shape.edges_mm(sizes.outside_across_mm, sizes.outside_up_mm)
    rule_mm = rule_footage_mm(package_across_mm=297, package_up_mm=420, face_width_mm=30)
    assert rule_mm - sizes.perimeter_mm == pytest.approx(8 * rabbet_width_mm - 4 * clearance_mm)
    assert footage_with_cuts_mm(sizes.perimeter_mm, kerf_mm=3, cuts=3) == pytest.approx(
        stick_round_mm(edges_mm, kerf_mm=3, trim_mm=0)
    )


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(OutOfRange):
        rule_footage_mm(package_across_mm=0, package_up_mm=1, face_width_mm=1)
    with pytest.raises(OutOfRange):
        footage_with_cuts_mm(100, kerf_mm=3, cuts=-1)
