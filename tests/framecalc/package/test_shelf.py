"""The shelf: layers ready-made, with the bands of the tables and what stands behind them."""

import pytest

from framecalc.evidence import Evidence
from framecalc.package.layers import Layer, LayerKind, stack_layers
from framecalc.package.shelf import SOLID_WOOD, ReadyMade, ready_made, usual_material
from framecalc.tables.sheets import sheet_materials
from framecalc.units import parse_length

SHELF = ready_made()


def stacked(ready: ReadyMade) -> Layer:
    return Layer(
        name=ready.name,
        kind=ready.kind,
        thickness_mm=parse_length(ready.thickness).mm,
        tolerance_mm=parse_length(ready.tolerance).mm,
        thinner_mm=parse_length(ready.thinner).mm if ready.thinner else None,
    )


@pytest.mark.parametrize("name", SHELF)
def test_everything_on_the_shelf_can_be_stacked_and_is_of_a_known_material(name: str) -> None:
    known = {"", SOLID_WOOD, *(sheet.material_id for sheet in sheet_materials())}
    assert SHELF[name].material in known
    assert stack_layers((stacked(SHELF[name]),)).worst_mm >= 0


@pytest.mark.parametrize(
    ("name", "least_mm", "most_mm"),
    [("astm2.5", 2.16, 2.57), ("astm3", 2.92, 3.40), ("en3", 2.80, 3.20), ("en4", 3.80, 4.20)],
)
def test_glass_has_the_band_of_its_standard(name: str, least_mm: float, most_mm: float) -> None:
    """ASTM C1036 and EN 572-2, as in tables/glass_thickness.csv (the upper ends from memory, not re-read)."""
    stack = stack_layers((stacked(SHELF[name]),))
    assert (stack.least_mm, stack.worst_mm) == pytest.approx((least_mm, most_mm))
    assert SHELF[name].evidence is Evidence.UNCHECKED


@pytest.mark.parametrize(
    ("name", "least_mm", "most_mm", "material"),
    [
        ("matboard2.2", 2.0, 2.4, "matboard_4ply"),
        ("mat8", 2.7, 3.2, "matboard_8ply"),
        ("plywood5.2", 4.8, 6.4, "plywood_softwood"),
        ("hardboard6.4", 5.6, 6.7, "hardboard"),
        ("astm5", 4.57, 5.05, "glass"),
    ],
)
def test_a_sheet_has_the_band_of_the_table(name: str, least_mm: float, most_mm: float, material: str) -> None:
    """As in tables/sheet_thickness.csv and glass_thickness.csv, common practice but for the glass."""
    stack = stack_layers((stacked(SHELF[name]),))
    assert (stack.least_mm, stack.worst_mm) == pytest.approx((least_mm, most_mm))
    assert SHELF[name].material == material


def test_no_two_layers_on_the_shelf_read_alike() -> None:
    names = [(ready.name, ready.standard) for ready in SHELF.values()]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize(
    ("kind", "name", "material"),
    [
        (LayerKind.BACK, "ply", "plywood_softwood"),
        (LayerKind.BACK, "Ply, 6 mm", "plywood_softwood"),
        (LayerKind.BACK, "6 mm ply", "plywood_softwood"),
        (LayerKind.BACK, "6mm ply", "plywood_softwood"),
        (LayerKind.BACK, "1/4 ply", "plywood_softwood"),
        (LayerKind.BACK, "1/4 in ply", "plywood_softwood"),
        (LayerKind.BACK, "3-ply", "plywood_softwood"),
        (LayerKind.BACKING, "PLYWOOD", "plywood_softwood"),
        (LayerKind.BACK, "birch ply", "plywood_birch"),
        (LayerKind.BACK, "Birch plywood", "plywood_birch"),
        (LayerKind.BACK, "birch-faced ply", "plywood_softwood"),
        (LayerKind.BACK, "Plum", "hardboard"),
        (LayerKind.BACK, "Simply the back", "hardboard"),
        (LayerKind.BACK, "polymdfoam", "hardboard"),
        (LayerKind.BACK, "Thin HDF", "hardboard"),
        (LayerKind.BACKING, "4-ply board", "matboard_4ply"),
        (LayerKind.BACKING, "2 ply", "foamboard_5"),
        (LayerKind.BACKING, "Foam core", "foamboard_5"),
        (LayerKind.MAT, "two ply, ivory", "matboard_4ply"),
        (LayerKind.MAT, "8 ply, white", "matboard_8ply"),
        (LayerKind.DUST_COVER, "double-ply kraft", "paper"),
        (LayerKind.GLAZING, "Museum", "glass"),
        (LayerKind.GLAZING, "PMMA 3 mm", "acrylic"),
        (LayerKind.ARTWORK, "Acrylic on panel", ""),
    ],
)
def test_what_a_layer_is_of_is_told_from_its_name_first(kind: LayerKind, name: str, material: str) -> None:
    """The trade's short words, from memory."""
    assert usual_material(kind, name=name) == material
