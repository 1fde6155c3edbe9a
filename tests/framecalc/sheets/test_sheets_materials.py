"""Materials of sheets against the tables: none is cut in no way, and no size in the table is offered for nothing."""

import pytest

from framecalc.package.layers import LayerKind
from framecalc.package.shelf import ready_made, usual_material
from framecalc.sheets.materials import SheetCutting, cautions_for, cutting_of, name_as_sold, size_as_sold, sizes_sold
from framecalc.tables.sheets import sheet_materials, sold_sheets
from framecalc.units import TOLERANCE_MM, Unit, parse_length

MATERIALS = [material.material_id for material in sheet_materials() if material.role != "art"]


def test_glass_alone_is_broken_and_only_plastic_and_panels_lose_a_kerf() -> None:
    ways = {material: cutting_of(material) for material in MATERIALS}
    assert {material for material, way in ways.items() if way is SheetCutting.GLASS} == {"glass", "glass_laminated"}
    assert [way.value for way in SheetCutting if way.is_sawn] == ["plastic", "panel"]
    assert {cutting_of(material) for material in ("mdf", "hardboard", "plywood_birch")} == {SheetCutting.PANEL}


def test_every_size_of_the_table_is_offered_for_some_material() -> None:
    offered = {sheet for material in MATERIALS for sheet in sizes_sold(material, unit=Unit.MM)}
    assert offered == set(sold_sheets())


@pytest.mark.parametrize("unit", Unit)
@pytest.mark.parametrize("material", MATERIALS)
def test_a_size_as_sold_is_typed_exactly_and_the_units_own_come_first(material: str, unit: Unit) -> None:
    sold = sizes_sold(material, unit=unit)
    own = [name_as_sold(sheet).endswith(f" {unit}") for sheet in sold]
    assert own == sorted(own, reverse=True)
    for sheet in sold:
        across, up = (parse_length(text).mm for text in size_as_sold(sheet))
        assert (across, up) == pytest.approx((sheet.across_mm, sheet.up_mm), abs=TOLERANCE_MM)


def test_whatever_layer_comes_from_the_shelf_is_cut_in_a_known_way() -> None:
    """Of what a sheet from the shelf is has a row in the table, so its way of cutting is no guess."""
    for layer in ready_made().values():
        if layer.kind.is_sheet:
            assert (layer.material or usual_material(layer.kind, name=layer.name)) in MATERIALS, layer.name
    assert cutting_of(usual_material(LayerKind.GLAZING, name="glass")) is SheetCutting.GLASS


def test_each_way_of_cutting_has_its_cautions() -> None:
    assert all(cautions_for(cutting) for cutting in SheetCutting)
    assert "manual" in cautions_for(SheetCutting.PANEL)[0] and "gloves" in cautions_for(SheetCutting.GLASS)[0]
