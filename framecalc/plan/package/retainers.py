"""The retainers of one frame: their kind, number and places, and their screws."""

from framecalc.artwork.measuring import ArtworkKind
from framecalc.findings import Finding
from framecalc.package.retainer_places import (
    LIMITS_MM,
    STOCK_SCREWS_MM,
    RetainerSpacing,
    Screw,
    choose_screw,
    space_on_stretcher,
    space_retainers,
)
from framecalc.package.retainers import (
    PLATE_MM,
    Retainer,
    Retention,
    choose_retainer,
    hold_with,
    retainer_findings,
)
from framecalc.package.seat import Seat
from framecalc.project import Frame
from framecalc.records import Record, cached_property
from framecalc.section.rabbeted import Section, local_thickness_mm
from framecalc.sizes.chain import Sizes
from framecalc.units import Step


class Screwing(Record):
    """The screw of a retainer: its distance outward from the rabbet wall, the thickness of the wood there, its size."""

    from_wall_mm: float
    wood_mm: float
    screw: Screw


class RetainersPlan:
    """The plan of the retainers, from the rabbet, the layers and the wishes."""

    def __init__(self, frame: Frame, *, sizes: Sizes, section: Section, seat: Seat, step: Step) -> None:
        self._held = frame.fitting.held
        self._kind = frame.artwork.kind
        self._step = step
        self._sizes = sizes
        self._section = section
        self._seat = seat

    @cached_property
    def retention(self) -> Retention:
        """The retainer: the wished one, or the one that suits the depth."""
        left_over_mm = self._seat.left_over_mm
        if self._held.by:
            return hold_with(Retainer(self._held.by), left_over_mm=left_over_mm, kind=self._kind)
        return choose_retainer(left_over_mm=left_over_mm, kind=self._kind)

    @property
    def limit_mm(self) -> float:
        """The largest spacing, as typed or as usual."""
        return self._held.apart.mm if self._held.apart else LIMITS_MM[self.retention.retainer]

    @cached_property
    def spacings(self) -> tuple[RetainerSpacing, RetainerSpacing]:
        """Their places along the top and the bottom, and along the left and the right; on a polygon both are alike."""
        across_mm, up_mm, *_ = self._edges_mm
        return self._along(across_mm), self._along(up_mm)

    @property
    def count(self) -> int:
        """The number on one frame."""
        return len(self._edges_mm) * sum(spacing.count for spacing in self.spacings) // 2

    @property
    def _edges_mm(self) -> tuple[float, ...]:
        """The rabbet wall along every side, round the frame."""
        return self._sizes.shape.edges_mm(self._sizes.rabbet_across_mm, self._sizes.rabbet_up_mm)

    @property
    def is_screwed(self) -> bool:
        """Whether screws hold it: points are driven into the rabbet wall."""
        return self.retention.retainer is not Retainer.POINTS

    @cached_property
    def screwing(self) -> Screwing | None:
        """The screw, as sold, that stays short of the face at its place of the profile.

        Raises:
            ImpossibleSize: no screw at hand is short enough and still bites.
        """
        if not self.is_screwed:
            return None
        from_wall_mm = self.from_wall_mm
        wood_mm = local_thickness_mm(self._section, x_mm=self._section.land_mm - from_wall_mm)
        strip_mm = self.retention.size_mm if self.retention.retainer is Retainer.STRIP else 0.0
        lengths_mm = STOCK_SCREWS_MM[self._step.unit]
        screw = choose_screw(wood_mm=wood_mm, through_mm=PLATE_MM + strip_mm, lengths_mm=lengths_mm)
        return Screwing(from_wall_mm=from_wall_mm, wood_mm=wood_mm, screw=screw)

    @property
    def from_wall_mm(self) -> float:
        """The place of the screw: as typed, or in the middle of the foot's part of the land."""
        typed = self._held.from_wall
        middle_mm = min(self.foot_mm, self._section.land_mm) / 2
        return min(typed.mm, self._section.land_mm) if typed else middle_mm

    @property
    def foot_mm(self) -> float:
        """The foot of a button or a clip, from the rabbet wall outward, as typed or as usual."""
        return self._held.foot.mm

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """Where retainers fail with thick or thin layers, or find no wood."""
        return retainer_findings(
            self.retention,
            kind=self._kind,
            least_left_over_mm=self._seat.left_over_worst_mm,
            most_left_over_mm=self._seat.left_over_best_mm,
            land_mm=self._section.land_mm,
            foot_mm=self.foot_mm,
        )

    @property
    def is_few(self) -> bool:
        """Whether few are enough, 2 to 4 a side: of a canvas, where no other spacing is typed."""
        return self._kind is ArtworkKind.CANVAS and self.is_screwed and self._held.apart is None

    def _along(self, side_mm: float) -> RetainerSpacing:
        """The places along one side, on whole steps of the tape."""
        from_corner_mm, step_mm = self._held.from_corner.mm, float(self._step.size_mm)
        if self.is_few:
            return space_on_stretcher(side_mm, from_corner_mm=from_corner_mm, step_mm=step_mm)
        return space_retainers(side_mm, limit_mm=self.limit_mm, from_corner_mm=from_corner_mm, step_mm=step_mm)
