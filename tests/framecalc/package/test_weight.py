import tomllib
from pathlib import Path
from typing import Any

import pytest

from framecalc.errors import ImpossibleSize, OutOfRange
from framecalc.package.weight import LayerMass, layer_mass, package_mass
from framecalc.tables.sheets import sheet_materials

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/masses.toml").read_text("utf-8"))
ORIGIN = CHECKS["origin"]


def weigh(check: dict[str, Any], **ways: Any) -> LayerMass:
    material = next(sheet for sheet in sheet_materials() if sheet.material_id == check["material"])
    size = {"area_mm2": ORIGIN["across_mm"] * ORIGIN["up_mm"]}
    return layer_mass(check["name"], thickness_mm=check["thickness_mm"], material=material, **(size | ways))


@pytest.mark.parametrize("check", CHECKS["layer"], ids=lambda check: check["name"])
def test_worked_layer(check: dict[str, Any]) -> None:
    assert weigh(check).mass_kg == pytest.approx(check["expect_kg"], abs=ORIGIN["tolerance_kg"])


def test_worked_package() -> None:
    check = CHECKS["package"]
    layers = [weigh(layer) for layer in CHECKS["layer"] if layer["name"] in check["layers"]]
    found = package_mass(layers)
    assert found.mass_kg + check["frame_kg"] == pytest.approx(check["expect_kg"], abs=4 * ORIGIN["tolerance_kg"])
    assert found.lightest_kg < found.mass_kg < found.heaviest_kg


@pytest.mark.parametrize("role", ["glazing", "mat", "backing"])
def test_the_areal_mass_of_a_board_agrees_with_its_density(role: str) -> None:
    """Where the table gives both, a usual thickness lies between them."""
    for material in (sheet for sheet in sheet_materials() if sheet.role == role):
        assert material.density_low_kg_m3 <= material.density_kg_m3 <= material.density_high_kg_m3
        if material.areal_mass_kg_m2:
            assert 1 < 1000 * material.areal_mass_kg_m2 / material.density_kg_m3 < 7


@pytest.mark.parametrize("check", CHECKS["layer"], ids=lambda check: check["name"])
def test_the_lightest_and_the_heaviest_are_to_the_mass_as_their_densities(check: dict[str, Any]) -> None:
    material = next(sheet for sheet in sheet_materials() if sheet.material_id == check["material"])
    found = weigh(check)
    assert found.lightest_kg / found.mass_kg == pytest.approx(material.density_low_kg_m3 / material.density_kg_m3)
    assert found.heaviest_kg / found.mass_kg == pytest.approx(material.density_high_kg_m3 / material.density_kg_m3)


def test_a_window_takes_its_mass_away() -> None:
    mat = CHECKS["layer"][3]
    area = ORIGIN["across_mm"] * ORIGIN["up_mm"]
    assert weigh(mat, open_mm2=area / 4).mass_kg == pytest.approx(weigh(mat).mass_kg * 3 / 4)


def test_a_window_as_large_as_the_mat_is_refused() -> None:
    mat = CHECKS["layer"][3]
    with pytest.raises(ImpossibleSize, match="make the windows smaller"):
        weigh(mat, open_mm2=ORIGIN["across_mm"] * ORIGIN["up_mm"])
    with pytest.raises(OutOfRange):
        weigh(mat, area_mm2=0)


def test_windows_may_leave_half_a_square_millimetre_and_not_less_than_none() -> None:
    board = next(sheet for sheet in sheet_materials() if sheet.material_id == "glass")
    whole, nearly = (
        layer_mass("mat", area_mm2=1000, thickness_mm=2, material=board, open_mm2=open_mm2) for open_mm2 in (0, 999.5)
    )
    assert nearly.mass_kg == pytest.approx(whole.mass_kg / 2000)
    with pytest.raises(ImpossibleSize, match="Nothing left of"):
        layer_mass("mat", area_mm2=1000, thickness_mm=2, material=board, open_mm2=1000)
