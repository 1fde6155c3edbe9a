"""Wood movement: the handbook's example, its table from shrinkage, rings at an angle as a turned strain."""

import tomllib
from math import cos, hypot, radians, sin
from pathlib import Path
from typing import Any

import pytest

from framecalc.errors import FrameCalcError
from framecalc.tables.wood import Species, wood_species
from framecalc.wood.movement import (
    Coefficients,
    change_mm,
    coefficient_per_pct,
    coefficients_of,
    movement_findings,
)

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/movement.toml").read_text("utf-8"))
SPECIES = {species.species_id: species for species in wood_species()}
CHERRY = Coefficients(radial_per_pct=0.00126, tangential_per_pct=0.00248, from_table=True, agrees=True)


def from_shrinkage(shrinkage_pct: float, *, shrinks_below_pct: float) -> float:
    """The coefficient of a wood from its shrinkage: Wood Handbook FPL-GTR-190, chapter 13, from memory."""
    per_pct = shrinkage_pct / shrinks_below_pct
    return per_pct / (100 - per_pct * (shrinks_below_pct - 10))


@pytest.mark.parametrize("check", CHECKS["change"], ids=lambda check: check["name"])
def test_worked_change(check: dict[str, Any]) -> None:
    assert change_mm(**check["given"]) == pytest.approx(check["expect_mm"], abs=check["tolerance_mm"])


@pytest.mark.parametrize("check", CHECKS["coefficient"], ids=lambda check: check["name"])
def test_published_coefficient(check: dict[str, Any]) -> None:
    found = from_shrinkage(check["shrinkage_pct"], shrinks_below_pct=check["shrinks_below_pct"])
    assert found == pytest.approx(check["expect_per_pct"], abs=check["tolerance_per_pct"])


@pytest.mark.parametrize("species", SPECIES.values(), ids=lambda species: species.species_id)
def test_the_derived_columns_of_the_table_follow_from_its_shrinkage(species: Species) -> None:
    for shrinkage_pct, derived in (
        (species.radial_shrinkage_pct, species.derived_radial_per_pct),
        (species.tangential_shrinkage_pct, species.derived_tangential_per_pct),
    ):
        found = from_shrinkage(shrinkage_pct, shrinks_below_pct=species.shrinks_below_pct)
        assert found == pytest.approx(derived, abs=0.000006)


@pytest.mark.parametrize("ring_deg", [0, 15, 45, 70, 90])
def test_rings_at_an_angle_strain_the_width_as_a_turned_square_of_wood_does(ring_deg: float) -> None:
    """Lay a line across the width on wood whose rings stand at the angle, stretch both ring directions, measure it."""
    along, across = cos(radians(ring_deg)), sin(radians(ring_deg))
    stretched = hypot(along * (1 + CHERRY.tangential_per_pct), across * (1 + CHERRY.radial_per_pct))
    assert coefficient_per_pct(CHERRY, ring_deg=ring_deg) == pytest.approx(stretched - 1, abs=2e-6)


def test_flat_sawn_stock_moves_tangentially_and_quarter_sawn_radially() -> None:
    assert coefficient_per_pct(CHERRY, ring_deg=0) == 0.00248
    assert coefficient_per_pct(CHERRY, ring_deg=90) == pytest.approx(0.00126)


@pytest.mark.parametrize(
    ("species_id", "tangential", "agrees"),
    [
        ("black_walnut", 0.00274, True),
        ("white_oak", 0.00376, False),
        ("mahogany", 0.00238, False),
        ("sapele", 0.00259, True),
    ],
)
def test_the_larger_coefficient_is_taken_and_a_wood_without_any_uses_its_shrinkage(
    species_id: str, tangential: float, agrees: bool
) -> None:
    found = coefficients_of(SPECIES[species_id])
    assert (found.tangential_per_pct, found.agrees) == (tangential, agrees)


@pytest.mark.parametrize("species_id", SPECIES)
def test_no_wood_moves_less_than_its_table_or_its_shrinkage_says(species_id: str) -> None:
    wood = SPECIES[species_id]
    found = coefficients_of(wood)
    for taken, said in (
        (found.radial_per_pct, {wood.table_radial_per_pct, wood.derived_radial_per_pct}),
        (found.tangential_per_pct, {wood.table_tangential_per_pct, wood.derived_tangential_per_pct}),
    ):
        assert taken in said and all(taken >= other for other in said)


def test_drying_back_undoes_swelling() -> None:
    there = change_mm(100, coefficient_per_pct=0.003, from_pct=6, to_pct=10)
    back = change_mm(100, coefficient_per_pct=0.003, from_pct=10, to_pct=6)
    assert there == -back > 0


@pytest.mark.parametrize(
    ("coefficients", "least", "most", "codes"),
    [
        (CHERRY, 6.0, 14.0, []),
        (CHERRY, 5.9, 9.0, ["movement.outside-table"]),
        (CHERRY, 7.0, 14.5, ["movement.outside-table"]),
        (coefficients_of(SPECIES["white_oak"]), 7.0, 9.0, ["movement.tables-disagree"]),
    ],
)
def test_what_the_tables_do_not_cover_is_said(
    coefficients: Coefficients, least: float, most: float, codes: list[str]
) -> None:
    found = movement_findings(coefficients, least_pct=least, most_pct=most)
    assert [finding.code for finding in found] == codes


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"width_mm": 0.0}, "width_mm"),
        ({"to_pct": 31.0}, "to_pct"),
        ({"coefficient_per_pct": -0.001}, "coefficient_per_pct"),
    ],
)
def test_changes_of_nothing_are_refused(changed: dict[str, float], field: str) -> None:
    usual = {"width_mm": 60.0, "coefficient_per_pct": 0.0025, "from_pct": 8.0, "to_pct": 11.0}
    with pytest.raises(FrameCalcError, match=r"^Enter ") as refusal:
        change_mm(**(usual | changed))
    assert refusal.value.field == field
