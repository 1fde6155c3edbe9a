"""The retainers of one frame: their kind, number and places, and their screws."""

from dataclasses import dataclass
from functools import cached_property

from framecalc.findings import Finding
from framecalc.package.retainers import (
    LIMITS_MM,
    PLATE_MM,
    Retainer,
    Retention,
    Screw,
    Spacing,
    choose_retainer,
    choose_screw,
    hold_with,
    retainer_findings,
    space_retainers,
)
from framecalc.package.seat import Seat
from framecalc.project.package import Retainers
from framecalc.section.rabbeted import Section, local_thickness_mm
from framecalc.sizes.chain import Sizes


@dataclass(frozen=True, slots=True, kw_only=True)
class Screwing:
    """The screw of a retainer: its distance outward from the rabbet wall, the thickness of the wood there, its size."""

    from_wall_mm: float
    wood_mm: float
    screw: Screw


class RetainersPlan:
    """The plan of the retainers, from the rabbet, the layers and the wishes."""

    def __init__(self, held: Retainers, *, sizes: Sizes, section: Section, seat: Seat) -> None:
        self._held = held
        self._sizes = sizes
        self._section = section
        self._seat = seat

    @cached_property
    def retention(self) -> Retention:
        """The retainer: the wished one, or the one that suits the depth."""
        left_over_mm = self._seat.left_over_mm
        if self._held.by:
            return hold_with(Retainer(self._held.by), left_over_mm=left_over_mm)
        return choose_retainer(left_over_mm=left_over_mm)

    @property
    def limit_mm(self) -> float:
        """The largest spacing allowed."""
        return self._held.apart.mm if self._held.apart else LIMITS_MM[self.retention.retainer]

    @cached_property
    def spacings(self) -> tuple[Spacing, Spacing]:
        """Their places along the top and the bottom, and along the left and the right."""
        across, up = (
            space_retainers(side_mm, limit_mm=self.limit_mm, from_corner_mm=self._held.from_corner.mm)
            for side_mm in (self._sizes.rabbet_across_mm, self._sizes.rabbet_up_mm)
        )
        return across, up

    @property
    def count(self) -> int:
        """The number on one frame."""
        return 2 * sum(spacing.count for spacing in self.spacings)

    @property
    def is_screwed(self) -> bool:
        """Whether screws hold it: points are driven into the rabbet wall."""
        return self.retention.retainer is not Retainer.POINTS

    @cached_property
    def screwing(self) -> Screwing | None:
        """The longest screw that stays short of the face at its place of the profile.

        Raises:
            ImpossibleSize: no screw at hand is short enough and still bites.
        """
        if not self.is_screwed:
            return None
        from_wall_mm = self.from_wall_mm
        wood_mm = local_thickness_mm(self._section, x_mm=self._section.land_mm - from_wall_mm)
        strip_mm = self.retention.size_mm if self.retention.retainer is Retainer.STRIP else 0.0
        screw = choose_screw(wood_mm=wood_mm, through_mm=PLATE_MM + strip_mm)
        return Screwing(from_wall_mm=from_wall_mm, wood_mm=wood_mm, screw=screw)

    @property
    def from_wall_mm(self) -> float:
        """The place of the screw: as typed, or in the middle of the foot's part of the land."""
        typed = self._held.from_wall
        middle_mm = min(self._held.foot.mm, self._section.land_mm) / 2
        return min(typed.mm, self._section.land_mm) if typed else middle_mm

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """Where retainers fail with thick or thin layers, or find no wood."""
        return retainer_findings(
            self.retention,
            least_left_over_mm=self._seat.left_over_worst_mm,
            most_left_over_mm=self._seat.left_over_best_mm,
            land_mm=self._section.land_mm,
            foot_mm=self._held.foot.mm,
        )
