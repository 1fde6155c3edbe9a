"""The weight of a package: each layer by its area and its thickness, or by the mass of its sheet per area.

The windows of a layer do not count. The weight of the timber comes from the section of its member; the plan adds it.
"""

from collections.abc import Iterable

from framecalc.errors import ImpossibleSize, quoted
from framecalc.limits import require_not_negative, require_positive
from framecalc.records import Record
from framecalc.tables.sheets import SheetMaterial
from framecalc.weights import MM3_PER_M3
from framecalc.words import worded

SAME_SHEET = 0.2
"""A layer whose thickness and density come this near to the areal mass of the table is of that sheet. Ours."""

_MM2_PER_M2, _MM_PER_M = 1e6, 1e3


class LayerMass(Record):
    """The mass of one layer, with what it could be at the lightest and the heaviest that such sheets are sold."""

    name: str
    mass_kg: float
    lightest_kg: float
    heaviest_kg: float


class PackageMass(Record):
    """The layers and what they weigh together."""

    layers: tuple[LayerMass, ...]
    mass_kg: float
    lightest_kg: float
    heaviest_kg: float


def layer_mass(
    name: str,
    *,
    area_mm2: float,
    thickness_mm: float,
    material: SheetMaterial,
    open_mm2: float = 0.0,
) -> LayerMass:
    """Weigh a layer.

    ``m = (area − open) · thickness · density``, or ``(area − open) · areal mass`` where the table has one and the layer
    is about as thick as the sheet that it is of. The lightest and the heaviest follow from the range of the density.

    Args:
        area_mm2: the layer's outline [mm²], > 0.
        thickness_mm: [mm], > 0.
        open_mm2: windows cut out of it [mm²], ≥ 0 and less than the layer.
    Raises:
        OutOfRange: a length is not above zero.
        ImpossibleSize: the windows are as large as the layer.
    Source: physics; densities as in tables/sheet_materials.csv.

    >>> from framecalc.tables.sheets import sheet_materials
    >>> glass = next(sheet for sheet in sheet_materials() if sheet.material_id == "glass")
    >>> round(layer_mass("glass", area_mm2=203.2 * 254, thickness_mm=2.5, material=glass).mass_kg, 4)
    0.3226
    """
    require_positive(area_mm2=area_mm2, layer_thickness_mm=thickness_mm)
    require_not_negative(open_mm2=open_mm2)
    left_mm2 = area_mm2 - open_mm2
    if left_mm2 <= 0:
        raise ImpossibleSize(
            worded("Nothing left of {name}: make the windows smaller.", name=quoted(name)), field="layer"
        )
    by_density_kg_m2 = thickness_mm / _MM_PER_M * material.density_kg_m3
    is_of_table = abs(by_density_kg_m2 - material.areal_mass_kg_m2) <= SAME_SHEET * material.areal_mass_kg_m2
    mass_kg = left_mm2 / _MM2_PER_M2 * (material.areal_mass_kg_m2 if is_of_table else by_density_kg_m2)
    return LayerMass(
        name=name,
        mass_kg=mass_kg,
        lightest_kg=mass_kg * material.density_low_kg_m3 / material.density_kg_m3,
        heaviest_kg=mass_kg * material.density_high_kg_m3 / material.density_kg_m3,
    )


def panel_mass(name: str, *, area_mm2: float, thickness_mm: float, density_kg_m3: float) -> LayerMass:
    """Weigh a panel of solid wood at 12 % moisture.

    ``m = area · thickness · density``.

    Args:
        area_mm2: the panel's outline [mm²], > 0.
        thickness_mm: [mm], > 0.
        density_kg_m3: of the wood [kg/m³], > 0.
    Raises:
        OutOfRange: a value is not above zero.
    Source: physics; densities as in tables/wood_species.csv.

    >>> round(panel_mass("panel", area_mm2=500 * 400, thickness_mm=20, density_kg_m3=560).mass_kg, 3)
    2.24
    """
    require_positive(area_mm2=area_mm2, layer_thickness_mm=thickness_mm, density_kg_m3=density_kg_m3)
    mass_kg = area_mm2 * thickness_mm / MM3_PER_M3 * density_kg_m3
    return LayerMass(name=name, mass_kg=mass_kg, lightest_kg=mass_kg, heaviest_kg=mass_kg)


def package_mass(layers: Iterable[LayerMass]) -> PackageMass:
    """Add up the layers of a package.

    Source: physics.

    >>> package_mass((LayerMass(name="glass", mass_kg=0.5, lightest_kg=0.4, heaviest_kg=0.6),) * 2).heaviest_kg
    1.2
    """
    layers = tuple(layers)
    return PackageMass(
        layers=layers,
        mass_kg=sum(layer.mass_kg for layer in layers),
        lightest_kg=sum(layer.lightest_kg for layer in layers),
        heaviest_kg=sum(layer.heaviest_kg for layer in layers),
    )
