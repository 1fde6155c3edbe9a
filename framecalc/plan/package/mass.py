"""The weight of one whole frame and its centre of gravity: one number for every page.

A wood that is not chosen is reckoned as a light softwood: among the woods of frames hardly any is less stiff.
"""

from collections.abc import Callable, Iterator

from framecalc.hanging.balance import Balance, WeighedPart, balance_of, mitred_out_mm, plate_centre
from framecalc.package.layers import LayerKind
from framecalc.package.stiffening import Stiffened, Stiffener
from framecalc.plan.inputs import layers_of
from framecalc.plan.package.mats import CutMat
from framecalc.plan.package.weight import WeightsPlan
from framecalc.project import Frame
from framecalc.records import cached_property
from framecalc.section.rabbeted import Section, mitred_volume_mm3
from framecalc.section.tray import TraySection
from framecalc.sizes.starting_points import SolvedChain
from framecalc.tables.wood import Species
from framecalc.units import Unit
from framecalc.weights import MM3_PER_M3, mass_text
from framecalc.wood.naming import species_by_id, species_of

RECKONED_AS = "eastern_white_pine"
"""What a wood that is not chosen is reckoned as. Source: common practice, no source."""


class MassPlan:
    """What the timber, the layers and the hardware of a frame weigh, and where that is."""

    def __init__(
        self,
        frame: Frame,
        *,
        settled: SolvedChain,
        section: Section | TraySection,
        weights: WeightsPlan,
        find_stiffener: Callable[[], Stiffened | None],
    ) -> None:
        self._frame = frame
        self._settled = settled
        self._section = section
        self._weights = weights
        self._find_stiffener = find_stiffener

    @cached_property
    def chosen(self) -> Species | None:
        """The wood of the frame, where its name or its owner says which of the table it is."""
        return species_of(self._frame.species, reckoned_as=self._frame.reckoned_as)

    @cached_property
    def species(self) -> Species:
        """The wood that is reckoned with."""
        light = species_by_id(RECKONED_AS)
        assert light is not None
        return self.chosen or light

    @cached_property
    def timber_kg(self) -> float:
        """What the members weigh."""
        shape = self._settled.sizes.shape
        volume_mm3 = mitred_volume_mm3(self._section, long_edges_mm=self._edges_mm, mitre_deg=shape.mitre_deg)
        return volume_mm3 * self.species.density_kg_m3 / MM3_PER_M3

    @property
    def is_weighed(self) -> bool:
        """Whether the whole frame was on the scales: then nothing about its weight is unknown."""
        return self._frame.hanging.weighed is not None

    @property
    def is_partly_known(self) -> bool:
        """Whether it weighs more than is worked out."""
        return bool(self._weights.unknown) and not self.is_weighed

    def said(self, mass_kg: float, *, unit: Unit) -> str:
        """A weight of whole frames in words: over what is known, where not all is."""
        return ("over " if self.is_partly_known else "") + mass_text(mass_kg, unit=unit)

    @cached_property
    def whole_kg(self) -> float:
        """What all of it weighs: by scales, else worked out, without what is not known."""
        weighed = self._frame.hanging.weighed
        return weighed.kg if weighed else sum(part.mass_kg for part in self.parts)

    @cached_property
    def balance(self) -> Balance:
        """The whole weight and the centre of gravity, from the middle of the frame and from its back."""
        found, typed = balance_of(self.parts), self._frame.hanging.balances_at
        outside_mm = self._extent_across_mm
        across_mm = typed.mm - outside_mm / 2 if typed else found.across_mm
        return Balance(mass_kg=self.whole_kg, across_mm=across_mm, up_mm=found.up_mm, out_mm=found.out_mm)

    @cached_property
    def parts(self) -> tuple[WeighedPart, ...]:
        """Everything of the frame whose weight is known."""
        return tuple(self._parts())

    def _parts(self) -> Iterator[WeighedPart]:
        mitre_deg = self._settled.sizes.shape.mitre_deg
        out_mm = mitred_out_mm(self._section.outline, long_edges_mm=self._edges_mm, mitre_deg=mitre_deg)
        yield WeighedPart(name="timber", mass_kg=self.timber_kg, out_mm=out_mm)
        yield from self._layers()
        if stiffener := self._find_stiffener():
            yield self._stiffener(stiffener)
        if hardware := self._frame.hanging.hardware:
            yield WeighedPart(name="hardware", mass_kg=hardware.kg)

    def _stiffener(self, found: Stiffened) -> WeighedPart:
        """A strip or a bar on the land of the bottom member, or a strut in the middle; both behind the back."""
        extent = self._settled.sizes.shape.extent(
            self._settled.sizes.outside_across_mm, self._settled.sizes.outside_up_mm
        )
        up_mm = 0.0 if found.kind is Stiffener.STRUT else found.wide_mm / 2 - extent.below_mm
        return WeighedPart(name="stiffener", mass_kg=found.mass_kg, up_mm=up_mm, out_mm=-found.out_mm / 2)

    def _layers(self) -> Iterator[WeighedPart]:
        """Each layer in its place: from the lip back, or from the ledge of a tray out."""
        front_mm, mats = self._front_mm, iter(self._weights.mats)
        for layer in layers_of(self._frame):
            across_mm, up_mm = self._mat_centre(next(mats, None)) if layer.kind is LayerKind.MAT else (0.0, 0.0)
            out_mm = 0.0 if layer.kind is LayerKind.DUST_COVER else front_mm - layer.thickness.mm / 2
            front_mm -= 0.0 if layer.kind is LayerKind.DUST_COVER else layer.thickness.mm
            if weighed := self._weights.by_layer.get(layer.id):
                yield WeighedPart(
                    name=layer.name, mass_kg=weighed.mass_kg, across_mm=across_mm, up_mm=up_mm, out_mm=out_mm
                )

    @property
    def _front_mm(self) -> float:
        """Where the front of the package is, from the back of the frame."""
        if isinstance(self._section, Section):
            return self._section.rabbet_depth_mm
        layers = (layer for layer in layers_of(self._frame) if layer.kind is not LayerKind.DUST_COVER)
        return self._section.ledge_thickness_mm + sum(layer.thickness.mm for layer in layers)

    def _mat_centre(self, cut: CutMat | None) -> tuple[float, float]:
        """The centre of a mat: its windows are seldom in its middle."""
        sizes = self._settled.sizes
        if cut is None or not sizes.shape.is_rectangle:
            return 0.0, 0.0
        across_mm, up_mm = sizes.package_across_mm, sizes.package_up_mm
        openings = (
            (
                one.across_mm * one.up_mm,
                one.left_mm + one.across_mm / 2 - across_mm / 2,
                one.bottom_mm + one.up_mm / 2 - up_mm / 2,
            )
            for one in cut.windows.windows
        )
        return plate_centre(area_mm2=across_mm * up_mm, openings=openings)

    @property
    def _edges_mm(self) -> tuple[float, ...]:
        sizes = self._settled.sizes
        return sizes.shape.edges_mm(sizes.outside_across_mm, sizes.outside_up_mm)

    @property
    def _extent_across_mm(self) -> float:
        sizes = self._settled.sizes
        return sizes.shape.extent(sizes.outside_across_mm, sizes.outside_up_mm).across_mm
