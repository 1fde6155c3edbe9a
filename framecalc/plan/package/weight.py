"""The weight of one frame's package, layer by layer."""

from collections.abc import Iterator, Sequence

from framecalc.findings import Finding, Severity
from framecalc.package.layers import LayerKind
from framecalc.package.shelf import SOLID_WOOD
from framecalc.package.weight import LayerMass, PackageMass, layer_mass, package_mass, panel_mass
from framecalc.plan.inputs import is_solid_panel, layers_of, material_of
from framecalc.plan.package.mats import CutMat
from framecalc.project import Frame, Layer
from framecalc.records import cached_property
from framecalc.sizes.starting_points import SolvedChain
from framecalc.tables.sheets import SheetMaterial, sheet_material, sheet_materials
from framecalc.tables.wood import Species
from framecalc.wood.naming import species_by_id
from framecalc.words import worded

STRIPS = (LayerKind.SPACER, LayerKind.FILLET)
"""Layers that are strips along the edge: too light, and too different, to be reckoned."""

_MATERIALS = {"", SOLID_WOOD, *(one.material_id for one in sheet_materials())}


class WeightsPlan:
    """The weights that follow from the layers and their materials."""

    def __init__(self, frame: Frame, *, settled: SolvedChain, mats: Sequence[CutMat]) -> None:
        self._frame = frame
        self._settled = settled
        self.mats = mats

    @cached_property
    def weighed(self) -> PackageMass:
        """The layers with a known weight, and their total."""
        return package_mass(self.by_layer.values())

    @cached_property
    def by_layer(self) -> dict[str, LayerMass]:
        """The weight of each layer by its id; only known weights."""
        return dict(self._weighed())

    @cached_property
    def unknown(self) -> tuple[str, ...]:
        """The layers without a weight in the tables."""
        return tuple(layer.name for layer in self._unknown)

    @cached_property
    def _unknown(self) -> tuple[Layer, ...]:
        return tuple(layer for layer in layers_of(self._frame) if not self._is_known(layer))

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What is not known before the frame hangs: hangers are chosen by the weight."""
        if not self._unknown or self._frame.hanging.weighed is not None:
            return ()
        first = self._unknown[0]
        is_artwork = first.kind is LayerKind.ARTWORK
        return (
            Finding(
                code="weight.unknown",
                severity=Severity.NOTE,
                sentence=worded(
                    "The weight is not known: {names}. Weigh the finished frame before choosing its hangers.",
                    names=", ".join(self.unknown),
                ),
                why="",
                source="usual practice",
                argument="fitting.artwork_weight" if is_artwork else f"package.layers.{first.id}.material",
            ),
        )

    @property
    def no_material(self) -> Iterator[Finding]:
        """A material that the table does not have says nothing about weight or growth: a file may name one."""
        for layer in layers_of(self._frame):
            if layer.material not in _MATERIALS:
                yield Finding(
                    code="package.no-material",
                    severity=Severity.WARN,
                    sentence=worded(
                        "Choose the material of {layer}: “{material}” is not in the table.",
                        layer=layer.name,
                        material=layer.material,
                    ),
                    why="How it grows and what it weighs is not known.",
                    source="derived",
                    argument=f"package.layers.{layer.id}.material",
                )

    def material(self, layer: Layer) -> SheetMaterial | None:
        """The material of a layer as the table of sheets knows it."""
        return sheet_material(material_of(layer))

    def _weighed(self) -> Iterator[tuple[str, LayerMass]]:
        mats = iter(self.mats)
        for layer in layers_of(self._frame):
            cut = next(mats, None) if layer.kind is LayerKind.MAT else None
            if self._is_known(layer):
                yield layer.id, self._mass(layer, cut)

    def _is_known(self, layer: Layer) -> bool:
        if layer.kind is LayerKind.ARTWORK and self._frame.fitting.artwork_weight is not None:
            return True
        return layer.kind not in STRIPS and (self.material(layer) is not None or self._wood(layer) is not None)

    def _wood(self, layer: Layer) -> Species | None:
        """The wood of a layer that is a solid panel, if it is chosen."""
        return species_by_id(self._frame.fitting.panel.species) if is_solid_panel(self._frame, layer) else None

    def _mass(self, layer: Layer, cut: CutMat | None) -> LayerMass:
        weight, material, wood = self._frame.fitting.artwork_weight, self.material(layer), self._wood(layer)
        if layer.kind is LayerKind.ARTWORK and weight is not None:
            return LayerMass(name=layer.name, mass_kg=weight.kg, lightest_kg=weight.kg, heaviest_kg=weight.kg)
        area_mm2 = self._settled.sizes.shape.area_mm2(*self._size(layer.kind))
        if wood is not None:
            thickness_mm, density_kg_m3 = layer.thickness.mm, wood.density_kg_m3
            return panel_mass(layer.name, area_mm2=area_mm2, thickness_mm=thickness_mm, density_kg_m3=density_kg_m3)
        assert material is not None
        return layer_mass(
            layer.name,
            area_mm2=area_mm2,
            thickness_mm=layer.thickness.mm,
            material=material,
            open_mm2=self._open_mm2(cut) if cut else 0.0,
        )

    def _open_mm2(self, cut: CutMat) -> float:
        """The area of the windows of a mat."""
        shape = self._settled.sizes.shape
        return sum(shape.area_mm2(window.across_mm, window.up_mm) for window in cut.windows.windows)

    def _size(self, kind: LayerKind) -> tuple[float, float]:
        """The size of a layer: the artwork has its own, a dust cover that of the frame, all others the package's."""
        sizes = self._settled.sizes
        if kind is LayerKind.ARTWORK:
            return self._settled.artwork_across_mm, self._settled.artwork_up_mm
        if kind is LayerKind.DUST_COVER:
            return sizes.outside_across_mm, sizes.outside_up_mm
        return sizes.package_across_mm, sizes.package_up_mm
