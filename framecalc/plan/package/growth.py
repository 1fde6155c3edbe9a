"""How the layers of one frame grow and shrink with the air, and how a solid panel is held."""

from collections.abc import Iterator

from framecalc.findings import Finding, Severity
from framecalc.measures import Measurement
from framecalc.package.growth import (
    Growth,
    PanelHold,
    Room,
    along_the_grain,
    growth_findings,
    hold_panel,
    panel_growth,
    sheet_growth,
)
from framecalc.package.layers import LayerKind
from framecalc.plan.corners.seasons import driest_and_dampest
from framecalc.plan.inputs import has_solid_panel, is_solid_panel, is_tray, layers_of, material_of
from framecalc.project import Frame, Layer
from framecalc.project.package import EarlierAir
from framecalc.records import Record, cached_property
from framecalc.sizes.starting_points import SolvedChain
from framecalc.tables.sheets import SheetMaterial, sheet_material
from framecalc.tables.wood import Species
from framecalc.wood.movement import Coefficients, coefficients_of
from framecalc.wood.naming import species_by_id
from framecalc.wood.seasons import Air


class GrownLayer(Record):
    """The movement of a layer: its growth in both directions, and its material; a solid panel has no sheet material."""

    name: str
    across: Growth
    up: Growth
    material: SheetMaterial | None


_NO_WOOD = Finding(
    code="growth.no-wood",
    severity=Severity.WARN,
    sentence="Choose the wood of the solid panel: how far it moves is not known.",
    why="Across its grain it may outgrow its clearance, and split or burst the frame.",
    source="derived",
    argument="panel_species",
)


class GrowthPlan:
    """The plan of the layers in the air of the room."""

    def __init__(self, frame: Frame, *, settled: SolvedChain) -> None:
        self._frame = frame
        self._sizes = settled.sizes
        self._has_mat = settled.mat is not None
        self._artwork_mm = settled.artwork_across_mm, settled.artwork_up_mm

    @cached_property
    def room(self) -> Room:
        """The air at fitting, at its driest and at its dampest."""
        return room_of(self._frame)

    @cached_property
    def layers(self) -> tuple[GrownLayer, ...]:
        """Every layer with a known movement, from the lip to the back."""
        return tuple(grown for layer in self._moving if (grown := self._grown(layer)))

    @cached_property
    def unknown(self) -> tuple[str, ...]:
        """Layers as large as the package without a known figure."""
        return tuple(layer.name for layer in self._moving if self._grown(layer) is None)

    @cached_property
    def species(self) -> Species | None:
        """The wood of a solid panel."""
        return species_by_id(self._frame.fitting.panel.species)

    @property
    def has_panel(self) -> bool:
        """Whether a layer is a panel of solid wood."""
        return has_solid_panel(self._frame)

    @cached_property
    def across_grain(self) -> Growth | None:
        """How the solid panel moves across its grain, once its wood is chosen."""
        panel = next((one for one in self.layers if one.material is None), None)
        if panel is None:
            return None
        return panel.across if self.grain_runs_up else panel.up

    @property
    def grain_runs_up(self) -> bool:
        """Whether the panel's grain stands upright, so that it moves across."""
        return self._frame.fitting.panel.grain == "up"

    @cached_property
    def hold(self) -> PanelHold | None:
        """Where the solid panel is fixed and where it slides."""
        panel = self._frame.fitting.panel
        if self.across_grain is None:
            return None
        return hold_panel(
            self.across_grain,
            grain_runs_up=self.grain_runs_up,
            screw_mm=panel.screw.mm,
            from_edge_mm=panel.from_edge.mm,
        )

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """Which layers outgrow their clearance, or shrink out from under the lip."""
        found = (
            growth_findings(
                layer.across,
                layer.up,
                name=layer.name,
                clearance_across_mm=self._sizes.clearance_across_mm,
                clearance_up_mm=self._sizes.clearance_up_mm,
                rabbet_width_mm=self._sizes.rabbet_width_mm,
                is_tray=is_tray(self._frame),
            )
            for layer in self.layers
        )
        grown = tuple(finding for findings in found for finding in findings)
        unknown = (_NO_WOOD,) if self.has_panel and self.species is None else ()
        return (*unknown, *grown, *earlier_air_findings(self._frame.fitting.earlier_air))

    @property
    def _moving(self) -> Iterator[Layer]:
        """Layers as large as the package: not strips, and not an artwork that lies behind a mat."""
        for layer in layers_of(self._frame):
            is_loose = layer.kind is LayerKind.ARTWORK and self._has_mat
            if layer.kind.is_sheet or (layer.kind is LayerKind.ARTWORK and not is_loose):
                yield layer

    def _grown(self, layer: Layer) -> GrownLayer | None:
        if is_solid_panel(self._frame, layer):
            return self._grown_panel(layer)
        material = sheet_material(material_of(layer))
        if material is None or not (material.grows_with_heat or material.grows_with_damp):
            return None
        across_mm, up_mm = self._size(layer)
        across, up = (sheet_growth(size_mm, material=material, room=self.room) for size_mm in (across_mm, up_mm))
        return GrownLayer(name=layer.name, across=across, up=up, material=material)

    def _grown_panel(self, layer: Layer) -> GrownLayer | None:
        coefficients = coefficients_of(self.species) if self.species else None
        if coefficients is None:
            return None
        across_mm, up_mm = self._size(layer)
        if self.grain_runs_up:
            across, up = self._across_grain(across_mm, coefficients), along_the_grain(up_mm)
        else:
            across, up = along_the_grain(across_mm), self._across_grain(up_mm, coefficients)
        return GrownLayer(name=layer.name, across=across, up=up, material=None)

    def _across_grain(self, width_mm: float, coefficients: Coefficients) -> Growth:
        ring_deg = float(self._frame.fitting.panel.ring)
        return panel_growth(width_mm, coefficients=coefficients, ring_deg=ring_deg, room=self.room)

    def _size(self, layer: Layer) -> tuple[float, float]:
        """An artwork has its own size, all others that of the package."""
        if layer.kind is LayerKind.ARTWORK:
            return self._artwork_mm
        return self._sizes.package_across_mm, self._sizes.package_up_mm


def earlier_air_findings(earlier: EarlierAir | None) -> tuple[Finding, ...]:
    """What an older file said of the air on its Package page, where its Corners page said something else."""
    if earlier is None:
        return ()
    said = [
        f"{value.full if isinstance(value, Measurement) else f'{value}%'} {when}"
        for value, when in (
            (earlier.driest_humidity, "at its driest"),
            (earlier.driest_temperature, "at its driest"),
            (earlier.dampest_humidity, "at its dampest"),
            (earlier.dampest_temperature, "at its dampest"),
        )
        if value is not None
    ]
    return (
        Finding(
            code="growth.earlier-air",
            severity=Severity.WARN,
            sentence=f"This page once said {', '.join(said)}. The Corners page says otherwise, and counts.",
            why="A room has one air: use the earlier one for both, or drop it.",
            source="derived",
            argument="humidity_pct",
        ),
    )


def room_of(frame: Frame) -> Room:
    """The air as typed: at fitting, and in the driest and the dampest month of the year."""
    fitted = frame.fitting.room
    driest, dampest = driest_and_dampest(frame.corner.seasons)
    return Room(
        fitted=Air(temperature_c=float(fitted.fitted_temperature), humidity_pct=float(fitted.fitted_humidity)),
        driest=driest,
        dampest=dampest,
    )
