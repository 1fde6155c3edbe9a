"""The pane of one frame, the sag of its bottom member under the package, and the lift of the whole."""

from functools import cached_property

from framecalc.findings import Finding
from framecalc.geometry.outline import second_moment_mm4
from framecalc.package.glazing import Glazing
from framecalc.package.layers import LayerKind
from framecalc.package.pane import Pane, measure_pane, pane_findings
from framecalc.package.sag import Beam, lift_findings, sag_findings
from framecalc.plan.inputs import glazing_of, layers_of
from framecalc.plan.package.mass import MassPlan
from framecalc.plan.package.weight import WeightsPlan
from framecalc.project import Frame, Layer
from framecalc.section.rabbeted import Section
from framecalc.sizes.starting_points import SolvedChain
from framecalc.tables.wood import Species, wood_stiffness


class HandlingPlan:
    """The plan of pane, sag and lift, of a frame with a rabbet.

    A canvas rests on the bottom member as any package does. A tray has no such beam: its artwork is screwed through the
    ledge on all sides, and is itself the stiff part.
    """

    def __init__(
        self, frame: Frame, *, settled: SolvedChain, section: Section, weights: WeightsPlan, mass: MassPlan
    ) -> None:
        self._frame = frame
        self._settled = settled
        self._section = section
        self._weights = weights
        self._mass = mass

    @cached_property
    def pane(self) -> Pane | None:
        """The pane of glass or acrylic, where there is one."""
        layer = self._glazing
        if layer is None:
            return None
        sizes = self._settled.sizes
        return measure_pane(
            glazing_of(self._frame),
            across_mm=sizes.package_across_mm,
            up_mm=sizes.package_up_mm,
            thickness_mm=layer.thickness.mm,
        )

    @cached_property
    def pane_kg(self) -> float | None:
        """What the pane weighs, where its material is known."""
        weighed = self._weights.by_layer.get(self._glazing.id) if self._glazing else None
        return weighed.mass_kg if weighed else None

    @property
    def is_wood_known(self) -> bool:
        """Whether the wood is one of the table, so that its own stiffness counts."""
        return self._mass.chosen is not None

    @property
    def species(self) -> Species:
        """The wood that is reckoned with."""
        return self._mass.species

    @cached_property
    def beam(self) -> Beam:
        """The bottom member, with all of the package that has a weight."""
        section, sizes = self._section, self._settled.sizes
        return Beam(
            span_mm=sizes.shape.edges_mm(sizes.rabbet_across_mm, sizes.rabbet_up_mm)[0],
            package_kg=self._weights.weighed.mass_kg,
            elasticity_mpa=wood_stiffness()[self.species.species_id].elasticity_mpa,
            second_moment_mm4=second_moment_mm4(section.outline),
            area_mm2=section.area_mm2,
            density_kg_m3=self.species.density_kg_m3,
            face_width_mm=section.face_width_mm,
            thickness_mm=section.thickness_mm,
            rabbet_width_mm=section.rabbet_width_mm,
            rabbet_depth_mm=section.rabbet_depth_mm,
        )

    @property
    def timber_kg(self) -> float:
        """What the members weigh."""
        return self._mass.timber_kg

    @property
    def whole_kg(self) -> float:
        """What frame and package weigh together, without what is not known."""
        return self._mass.whole_kg

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What must be known before the wood is cut: a pane too large, a member that sags."""
        pane = pane_findings(self.pane, argument=self._thickness_field) if self.pane else ()
        return (*pane, *sag_findings(self.beam))

    @cached_property
    def lift_findings(self) -> tuple[Finding, ...]:
        """What must be known before the frame is fitted: whether two lift it."""
        sizes = self._settled.sizes
        return lift_findings(
            mass_kg=self.whole_kg,
            longest_mm=max(sizes.outside_across_mm, sizes.outside_up_mm),
            is_glazed=glazing_of(self._frame) is not Glazing.NONE,
        )

    @cached_property
    def _glazing(self) -> Layer | None:
        return next((layer for layer in layers_of(self._frame) if layer.kind is LayerKind.GLAZING), None)

    @property
    def _thickness_field(self) -> str:
        return f"package.layers.{self._glazing.id}.thickness" if self._glazing else "layer"
