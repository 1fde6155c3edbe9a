"""The pane of one frame, the sag of its bottom member under the package, and the lift of the whole."""

from framecalc.findings import Finding, Rounding
from framecalc.geometry.outline import second_moment_mm4
from framecalc.package.glazing import Glazing
from framecalc.package.layers import LayerKind
from framecalc.package.pane import Pane, measure_pane, pane_findings
from framecalc.package.sag import Beam, lift_findings, sag_findings
from framecalc.package.stiffening import (
    MOST_HIGH_MM,
    STRUT_WIDE_MM,
    USUAL_OUT_MM,
    Back,
    Stiffened,
    Stiffener,
    least_high_mm,
    stiffened,
    stiffened_findings,
)
from framecalc.plan.inputs import glazing_of, layers_of
from framecalc.plan.package.mass import MassPlan
from framecalc.plan.package.weight import WeightsPlan
from framecalc.project import Frame, Layer
from framecalc.records import cached_property
from framecalc.section.rabbeted import Section
from framecalc.sizes.starting_points import SolvedChain
from framecalc.tables.wood import Species, wood_stiffness
from framecalc.units import Step, whole_steps_mm


class HandlingPlan:
    """The plan of pane, sag and lift, of a frame with a rabbet.

    A canvas rests on the bottom member as any package does. A tray has no such beam: its artwork is screwed through the
    ledge on all sides, and is itself the stiff part.
    """

    def __init__(
        self,
        frame: Frame,
        *,
        settled: SolvedChain,
        section: Section,
        weights: WeightsPlan,
        mass: MassPlan,
        step: Step,
        is_proud: bool,
    ) -> None:
        self._frame = frame
        self._settled = settled
        self._section = section
        self._weights = weights
        self._mass = mass
        self._step = step
        self._is_proud = is_proud

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

    @cached_property
    def stiffened(self) -> Stiffened | None:
        """The bottom member with the stiffener that was chosen, if one was."""
        typed = self._frame.fitting.stiffening
        if not typed.by:
            return None
        out_mm, wide_mm = (size.mm if size else 0.0 for size in (typed.out, typed.wide))
        return self._stiffened(Stiffener(typed.by), out_mm=out_mm, wide_mm=wide_mm)

    @cached_property
    def ways_to_stiffen(self) -> tuple[Stiffened, ...]:
        """Each stiffener that brings the sag within its limit, as high as it has to be."""
        found = (self._stiffened(kind) for kind in Stiffener)
        return tuple(one for one in found if one and one.is_enough)

    @property
    def sag_mm(self) -> float:
        """How far the middle of the bottom member sags, with its stiffener."""
        return self.stiffened.sag_mm if self.stiffened else self.beam.sag_mm

    def _stiffened(self, kind: Stiffener, *, out_mm: float = 0.0, wide_mm: float = 0.0) -> Stiffened | None:
        """With one of them, each size that is 0 as usual or as the sag needs; a strut is for a rectangle alone."""
        if kind is Stiffener.STRUT and not self._settled.sizes.shape.is_rectangle:
            return None
        out_mm = out_mm or self._whole_mm(USUAL_OUT_MM[kind])
        wide_mm = wide_mm or self._whole_mm(self._needed_mm(kind, out_mm))
        return stiffened(self.beam, self._back, kind=kind, out_mm=out_mm, wide_mm=wide_mm)

    def _needed_mm(self, kind: Stiffener, out_mm: float) -> float:
        if kind is Stiffener.STRUT:
            return STRUT_WIDE_MM
        return least_high_mm(self.beam, self._back, kind=kind, out_mm=out_mm) or self._back.most_high_mm

    def _whole_mm(self, size_mm: float) -> float:
        return whole_steps_mm(size_mm, step_mm=float(self._step.size_mm), rounding=Rounding.UP)

    @property
    def _back(self) -> Back:
        return Back(
            most_high_mm=self._section.land_mm if self._is_proud else MOST_HIGH_MM,
            up_mm=self._settled.sizes.outside_up_mm,
            density_kg_m3=self.species.density_kg_m3,
            top_kg=self.beam.own_kg,
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
        return (*pane, *(stiffened_findings(self.stiffened) if self.stiffened else sag_findings(self.beam)))

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
