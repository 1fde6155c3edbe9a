"""The package of one frame: its mats, weight, gap to the glazing, pane and sag, growth, retainers and box.

Each part is computed on first use, and is None if the frame has no such thing.
"""

from contextlib import suppress

from framecalc.errors import FrameCalcError
from framecalc.findings import Finding
from framecalc.mats.openings import Opening, narrowed
from framecalc.mats.polygon_mat import one_window_finding
from framecalc.mats.wished_mat import NOTHING_COVERED, MatCover
from framecalc.package.glazing import (
    Gap,
    Glazing,
    Statement,
    gap_in_front_mm,
    gap_wanted,
    glazing_findings,
    materials_statements,
)
from framecalc.package.in_view import covered_image_findings
from framecalc.package.layers import LayerKind, Stack
from framecalc.package.retainers import Retainer
from framecalc.package.seat import Cover, Seat
from framecalc.package.stiffening import Stiffened
from framecalc.plan.inputs import fillet_mm, glazing_of, is_tray, mat_of, mat_wish_of
from framecalc.plan.package.canvas_and_box import BoxPlan, CanvasPlan
from framecalc.plan.package.growth import GrowthPlan
from framecalc.plan.package.handling import HandlingPlan
from framecalc.plan.package.mass import MassPlan
from framecalc.plan.package.mats import MatPlan
from framecalc.plan.package.retainers import RetainersPlan
from framecalc.plan.package.weight import WeightsPlan
from framecalc.project import Frame
from framecalc.records import cached_property
from framecalc.section.rabbeted import Section
from framecalc.section.tray import TraySection
from framecalc.sizes.starting_points import SolvedChain
from framecalc.units import Step


class PackagePlan:
    """The plan of the package of one frame."""

    def __init__(
        self,
        frame: Frame,
        *,
        settled: SolvedChain,
        section: Section | TraySection,
        stack: Stack,
        seat: Seat,
        cover: Cover | None,
        step: Step,
    ) -> None:
        self._frame = frame
        self._settled = settled
        self._section = section
        self._stack = stack
        self._seat = seat
        self._cover = cover
        self._step = step

    @cached_property
    def mats(self) -> MatPlan | None:
        """The mats, if there are any."""
        mat, wish = mat_of(self._frame), mat_wish_of(self._frame)
        if mat is None or wish is None:
            return None
        return MatPlan(
            mat,
            wish,
            settled=self._settled,
            layers=self._stack.layers,
            covered=self.covered,
            fillet_mm=self.fillet_mm,
        )

    @property
    def mat_findings(self) -> tuple[Finding, ...]:
        """The findings about the mats; one of other than four sides has one window."""
        shape, mat = self._settled.sizes.shape, mat_of(self._frame)
        if self.mats is None or mat is None:
            return ()
        if shape.is_rectangle or not mat.windows:
            return self.mats.findings
        return one_window_finding(shape.sides, further=len(mat.windows)), *self.mats.findings

    @property
    def covered(self) -> MatCover:
        """The cover of the lip over the centred package."""
        if self._cover is None:
            return NOTHING_COVERED
        return MatCover(across_mm=self._cover.centred_across_mm, up_mm=self._cover.centred_up_mm)

    @property
    def fillet_mm(self) -> float:
        """The visible width of a fillet beside the lip."""
        return fillet_mm(self._frame)

    @cached_property
    def in_view(self) -> Opening:
        """The size in view inside the lip and the fillet."""
        sizes = self._settled.sizes
        sight = Opening(across_mm=sizes.sight_across_mm, up_mm=sizes.sight_up_mm)
        return narrowed(sight, shows_mm=self.fillet_mm)

    @cached_property
    def image_findings(self) -> tuple[Finding, ...]:
        """The findings about an image that the lip or a fillet covers; behind a mat it is the mat's."""
        settled, sizes = self._settled, self._settled.sizes
        if settled.seen is None or self.mats:
            return ()
        return covered_image_findings(
            settled.seen,
            self.in_view,
            sheet_across_mm=settled.artwork_across_mm,
            sheet_up_mm=settled.artwork_up_mm,
            clearance_across_mm=sizes.clearance_across_mm,
            clearance_up_mm=sizes.clearance_up_mm,
            rabbet_width_mm=sizes.rabbet_width_mm,
            fillet_mm=self.fillet_mm,
        )

    @property
    def glazing(self) -> Glazing:
        """The glazing in front of the artwork."""
        return glazing_of(self._frame)

    @property
    def gap_mm(self) -> float:
        """The clear distance from the glazing to the artwork."""
        return gap_in_front_mm(self._stack.layers)

    @property
    def gap_wanted(self) -> Gap:
        """The gap that this kind of artwork wants."""
        return gap_wanted(self._frame.artwork.kind)

    @cached_property
    def gap_findings(self) -> tuple[Finding, ...]:
        """The findings about the artwork and its glazing; none where no layer is the artwork."""
        if all(layer.kind is not LayerKind.ARTWORK for layer in self._stack.layers):
            return ()
        return glazing_findings(self._frame.artwork.kind, glazing=self.glazing, gap_mm=self.gap_mm)

    @property
    def statements(self) -> tuple[Statement, ...]:
        """The statements of conservators about the materials."""
        return materials_statements(self._frame.artwork.kind)

    @cached_property
    def weights(self) -> WeightsPlan:
        """The weights of the layers."""
        windows = self.mats.cut if self.mats else ()
        return WeightsPlan(self._frame, settled=self._settled, mats=windows)

    @cached_property
    def mass(self) -> MassPlan:
        """The weight of the whole frame and its centre of gravity."""
        return MassPlan(
            self._frame,
            settled=self._settled,
            section=self._section,
            weights=self.weights,
            find_stiffener=lambda: self.stiffener,
        )

    @property
    def stiffener(self) -> Stiffened | None:
        """What stiffens the bottom member, if somebody chose it."""
        return self.handling.stiffened if self.handling else None

    @cached_property
    def growth(self) -> GrowthPlan:
        """The growth of the layers with the air."""
        return GrowthPlan(self._frame, settled=self._settled)

    @cached_property
    def handling(self) -> HandlingPlan | None:
        """The pane, the sag of the bottom member and the lift; None for a tray, whose artwork carries itself."""
        if not isinstance(self._section, Section):
            return None
        return HandlingPlan(
            self._frame,
            settled=self._settled,
            section=self._section,
            weights=self.weights,
            mass=self.mass,
            step=self._step,
            is_proud=self._seat.left_over_mm < 0,
        )

    @cached_property
    def retainers(self) -> RetainersPlan | None:
        """The retainers of the package; None for a tray, in which the artwork is screwed on."""
        if not isinstance(self._section, Section):
            return None
        return RetainersPlan(
            self._frame, sizes=self._settled.sizes, section=self._section, seat=self._seat, step=self._step
        )

    @cached_property
    def retainer(self) -> Retainer | None:
        """What holds the package; None in a tray, or where the wished one cannot hold it, which its group says."""
        with suppress(FrameCalcError):
            return self.retainers.retention.retainer if self.retainers else None
        return None

    @property
    def retainer_count(self) -> int:
        """How many retainers one frame takes; 0 where nothing holds its package from behind."""
        return self.retainers.count if self.retainers and self.retainer else 0

    @cached_property
    def canvas(self) -> CanvasPlan | None:
        """The canvas on its stretcher, where the artwork is one."""
        return CanvasPlan.of(self._frame, settled=self._settled)

    @cached_property
    def box(self) -> BoxPlan | None:
        """The box for an object, where one is typed and the section has a rabbet for it."""
        if is_tray(self._frame) or not isinstance(self._section, Section):
            return None
        return BoxPlan.of(self._frame, settled=self._settled, section=self._section, covered=self.covered)
