"""The frame in its clamps: square or not, flat or not, how hard its mitres are pressed."""

from framecalc.corners.clamping import (
    USUAL_PRESSURE_RANGE_MPA,
    Pressure,
    Ratchet,
    Strap,
    eased_strap,
    mitre_force_n,
    press,
    pressure_findings,
    strap_around,
    tension_for_n,
)
from framecalc.corners.joints.corner_stock import CornerStock
from framecalc.corners.squareness import (
    OutsideMeasures,
    Squareness,
    check_square,
    clearance_lost_mm,
    diagonals_mm,
    forced_gap_mm,
    squareness_findings,
)
from framecalc.corners.twist import Wind, find_wind
from framecalc.findings import Finding
from framecalc.measures import Measurement
from framecalc.project.corners import Clamps, Corner
from framecalc.project.strap import Strap as TypedStrap
from framecalc.records import cached_property
from framecalc.sizes.chain import Sizes
from framecalc.sizes.shape import RECTANGLE_SIDES
from framecalc.units import Length


class ClampsPlan:
    """The plan of the frame in its clamps; a tray has no stock here, so neither pressure nor wind.

    Square and flat are judged of rectangles alone: six measures and a rock say nothing of another shape.
    """

    def __init__(
        self, corner: Corner, shop_strap: TypedStrap, sizes: Sizes, stock: CornerStock | None, *, mitre_length_mm: float
    ) -> None:
        self._clamps = corner.clamps
        self._shop_strap = shop_strap
        self._gap_mm = corner.gap.mm
        self._sides = sizes.shape.sides
        self._sizes = sizes
        self._stock = stock
        self._mitre_length_mm = mitre_length_mm

    @property
    def is_rectangle(self) -> bool:
        """Whether the frame has four sides."""
        return self._sides == len(RECTANGLE_SIDES)

    @property
    def ratchet(self) -> Ratchet:
        """Where the ratchet of the strap sits."""
        return Ratchet(self._clamps.ratchet or self._shop_strap.ratchet)

    @property
    def planned_diagonal_mm(self) -> float:
        """Both diagonals of the frame as planned [mm]."""
        return diagonals_mm(self._sizes.outside_across_mm, self._sizes.outside_up_mm)[0]

    @property
    def measured_count(self) -> int:
        """How many of the six measures are typed."""
        return sum(measure is not None for measure in _six(self._clamps))

    @cached_property
    def squareness(self) -> Squareness | None:
        """The verdict on the rectangle, when all six measures are typed."""
        if not self.is_rectangle:
            return None
        known_mm = [length.mm for length in _six(self._clamps) if length is not None]
        if len(known_mm) < len(_six(self._clamps)):
            return None
        top_mm, bottom_mm, left_mm, right_mm, rising_mm, falling_mm = known_mm
        return check_square(
            OutsideMeasures(
                across_top_mm=top_mm,
                across_bottom_mm=bottom_mm,
                up_left_mm=left_mm,
                up_right_mm=right_mm,
                diagonal_rising_mm=rising_mm,
                diagonal_falling_mm=falling_mm,
            )
        )

    @cached_property
    def forced_gap_mm(self) -> float:
        """The gap that the lean forces true mitres open to [mm]."""
        if self.squareness is None:
            return 0.0
        return forced_gap_mm(self.squareness.skew_deg, mitre_length_mm=self._mitre_length_mm)

    @cached_property
    def clearance_lost_mm(self) -> float:
        """The part of the package's clearance that the lean takes, in each direction [mm]."""
        if self.squareness is None:
            return 0.0
        return clearance_lost_mm(
            self.squareness.skew_deg,
            rabbet_across_mm=self._sizes.rabbet_across_mm,
            rabbet_up_mm=self._sizes.rabbet_up_mm,
        )

    @cached_property
    def wind(self) -> Wind | None:
        """The wind of a rectangle that rocks on a flat table, if the height is typed."""
        clamps = self._clamps
        if clamps.rock is None or self._stock is None or not self.is_rectangle:
            return None
        return find_wind(
            rock_mm=clamps.rock.mm,
            outside_across_mm=self._sizes.outside_across_mm,
            outside_up_mm=self._sizes.outside_up_mm,
            face_width_mm=self._stock.face_width_mm,
            thickness_mm=self._stock.thickness_mm,
            member_wind_mm=clamps.member_wind.mm,
            front_to_back_gap_mm=clamps.front_gap.mm,
        )

    @cached_property
    def strap(self) -> Strap | None:
        """The strap around the frame, with friction at the corners."""
        force = self._pull
        if force is None:
            return None
        return strap_around(float(force), friction_ratio=self._friction_ratio, ratchet=self.ratchet, sides=self._sides)

    @property
    def frictionless_n(self) -> float:
        """The force on every mitre without friction; 0 without a strap [N]."""
        force = self._pull
        return mitre_force_n(float(force), sides=self._sides) if force is not None else 0.0

    @cached_property
    def eased(self) -> Strap | None:
        """The strap with the ratchet eased to the typed pull, or by the friction of two corners.

        Raises:
            OutOfRange: the eased pull is more than the first pull.
        """
        force, eased_to = self._pull, self._clamps.eased_to
        if force is None or self.strap is None:
            return None
        return eased_strap(
            float(force),
            eased_to_n=float(eased_to) if eased_to is not None else min(self.strap.tensions_n),
            friction_ratio=self._friction_ratio,
            ratchet=self.ratchet,
            sides=self._sides,
        )

    @cached_property
    def pressure(self) -> Pressure | None:
        """The pressure of the strap on the mitres."""
        return press(self._stock, self.strap) if self.strap and self._stock else None

    @cached_property
    def usual_pulls_n(self) -> tuple[float, float] | None:
        """The pulls that press the weakest mitre with the least and the most that is usual [N]."""
        if self._stock is None:
            return None
        least, most = (
            tension_for_n(
                self._stock,
                pressure_mpa=pressure_mpa,
                friction_ratio=self._friction_ratio,
                ratchet=self.ratchet,
                sides=self._sides,
            )
            for pressure_mpa in USUAL_PRESSURE_RANGE_MPA
        )
        return least, most

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """The findings about the frame in its clamps."""
        found: list[Finding] = []
        if self.squareness:
            found += squareness_findings(
                self.squareness,
                forced_mm=self.forced_gap_mm,
                gap_mm=self._gap_mm,
                lost_mm=self.clearance_lost_mm,
                clearance_mm=min(self._sizes.clearance_across_mm, self._sizes.clearance_up_mm),
            )
        return (*found, *(pressure_findings(self.pressure) if self.pressure else ()))

    @property
    def _friction_ratio(self) -> float:
        return float(self._clamps.friction or self._shop_strap.friction)

    @property
    def _pull(self) -> Measurement | None:
        """The frame's own pull, or that of the strap."""
        return self._shop_strap.pull if self._clamps.strap_force is None else self._clamps.strap_force


def _six(clamps: Clamps) -> tuple[Length | None, ...]:
    return (
        clamps.across_top,
        clamps.across_bottom,
        clamps.up_left,
        clamps.up_right,
        clamps.rising,
        clamps.falling,
    )
