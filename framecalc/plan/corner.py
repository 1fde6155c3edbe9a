"""The corners of one frame: settings, tolerance, test cuts, whether the parts close, the joint, the seasons.

Each group is computed when it is first asked for, and is None while what it needs has not been measured.
"""

from functools import cached_property

from framecalc.angles import (
    GaugeReadings,
    Settings,
    flat_on_the_table,
    gauge_readings,
    propped_at_its_slope,
    settings_findings,
)
from framecalc.clamping import Pressure, Strap, press, pressure_findings, strap_around
from framecalc.closing import Closing, CutMember, Tips, close_frame, closing_findings
from framecalc.errors import OutOfRange
from framecalc.findings import Finding
from framecalc.joints.corner_stock import CornerStock, corner_stock
from framecalc.mitre import RECTANGLE_SIDES, half_turn_deg
from framecalc.outline import flatten
from framecalc.pairing import LooseMember, Pairing, pair_sides
from framecalc.plan.joint import JointPlan
from framecalc.plan.seasons import SeasonsPlan
from framecalc.polygons import PolygonSizes, polygon_around
from framecalc.project import Project
from framecalc.project.corner import Clamps, Corner, CutSide
from framecalc.saw import (
    MOST_ERROR_DEG,
    Correction,
    Tolerance,
    blade_gap_mm,
    correct,
    read_test_cut,
    saw_tolerance,
)
from framecalc.saw_record import Record, read_record
from framecalc.section import Section
from framecalc.shaving import Shave, best_shave
from framecalc.sizes import Sizes
from framecalc.squareness import (
    OutsideMeasures,
    Squareness,
    check_square,
    clearance_lost_mm,
    forced_gap_mm,
    squareness_findings,
)
from framecalc.tray import TraySection
from framecalc.wind import Wind, find_wind

FINEST_TURN_DEG = 0.02
"""The finest a fence is turned by hand with a shim of paper (common practice, no source)."""

OUTLINE_TOLERANCE_MM = 0.02
"""How closely arcs are followed where a joint is held against the true section."""


class CornerPlan:
    """What follows for the corners of one frame from what was typed about them."""

    def __init__(self, project: Project, corner: Corner, sizes: Sizes, section: Section | TraySection) -> None:
        self._project = project
        self._corner = corner
        self._sizes = sizes
        self._section = section

    @property
    def is_rabbeted(self) -> bool:
        """Joints are placed in a rabbeted member; a tray is jointed as the box that it is."""
        return isinstance(self._section, Section)

    @property
    def mitre_length_mm(self) -> float:
        """The joint line seen from the front [mm]."""
        return self._sizes.face_width_mm * 2**0.5

    @property
    def gauge(self) -> GaugeReadings:
        """The gauge for this frame, read from a square cut or from 90."""
        return gauge_readings(half_turn_deg(4))

    @cached_property
    def sloping(self) -> tuple[Settings, Settings]:
        """Gauge and tilt for the polygon and slope typed: stock flat on the table, and propped at its slope."""
        turn_deg, slope_deg = half_turn_deg(self._corner.polygon), float(self._corner.slope)
        return (
            flat_on_the_table(half_turn_deg=turn_deg, slope_deg=slope_deg),
            propped_at_its_slope(half_turn_deg=turn_deg, slope_deg=slope_deg),
        )

    @cached_property
    def tolerance(self) -> Tolerance:
        """How exact the saw must be for the gap that may be seen."""
        return saw_tolerance(
            cutting=self._corner.cutting,
            gap_mm=self._corner.gap.mm,
            mitre_length_mm=self.mitre_length_mm,
            fence_mm=self._project.shop.fence_length.mm,
        )

    @cached_property
    def errors_deg(self) -> tuple[float, ...]:
        """The error of an end that each test cut tells, in the order typed."""
        return tuple(
            read_test_cut(
                outside_gap_mm=test.outside_gap.mm,
                inside_gap_mm=test.inside_gap.mm,
                mitre_length_mm=self.mitre_length_mm,
                tried=test.tried,
            )
            for test in self._corner.tests
        )

    @cached_property
    def record(self) -> Record | None:
        """The test cuts together."""
        if not self.errors_deg:
            return None
        return read_record(self.errors_deg, tolerance_deg=self.tolerance.shared_deg, finest_deg=FINEST_TURN_DEG)

    @cached_property
    def correction(self) -> Correction | None:
        """What the mean of the test cuts asks of the fence."""
        if self.record is None:
            return None
        fence_mm = self._project.shop.fence_length.mm
        return correct(self.record.mean_deg, cutting=self._corner.cutting, fence_mm=fence_mm)

    @cached_property
    def members(self) -> tuple[CutMember, ...]:
        """The four sides in hand; what is not measured is taken as planned, lengths and angles alike."""
        planned_mm = {"top": self._sizes.outside_across_mm, "bottom": self._sizes.outside_across_mm}
        return tuple(
            _member(side, getattr(self._corner.sides, side), planned_mm.get(side, self._sizes.outside_up_mm))
            for side in RECTANGLE_SIDES
        )

    @property
    def has_parts(self) -> bool:
        """Whether anything was measured of the sides in hand."""
        return any(getattr(self._corner.sides, side) != CutSide() for side in RECTANGLE_SIDES)

    @cached_property
    def closing(self) -> Closing | None:
        """How well the sides in hand can close, tips free to slide."""
        return self._closed(Tips.FREE)

    @cached_property
    def closing_flush(self) -> Closing | None:
        """How well they close when the clamps hold the tips flush."""
        return self._closed(Tips.FLUSH)

    @cached_property
    def shave(self) -> Shave | None:
        """Which end to shave and by how much; nothing where no gap can be seen."""
        if self.closing is None or self.closing.worst_gap_mm <= self._corner.gap.mm:
            return None
        return best_shave(self.members, mitre_length_mm=self.mitre_length_mm)

    @cached_property
    def squareness(self) -> Squareness | None:
        """The verdict on the frame in the clamps, when all six measures are typed."""
        measures = _measures(self._corner.clamps)
        return check_square(measures) if measures else None

    @cached_property
    def clearance_lost_mm(self) -> float:
        """What the frame's being out of square takes of the package's clearance, in each direction [mm]."""
        if self.squareness is None:
            return 0.0
        return clearance_lost_mm(
            self.squareness.skew_deg,
            rabbet_across_mm=self._sizes.rabbet_across_mm,
            rabbet_up_mm=self._sizes.rabbet_up_mm,
        )

    @cached_property
    def strap(self) -> Strap | None:
        """The strap around the frame, with friction at the corners."""
        force = self._corner.clamps.strap_force
        if force is None:
            return None
        friction = float(self._corner.clamps.friction)
        return strap_around(float(force), friction_ratio=friction, ratchet=self._corner.clamps.ratchet)

    @cached_property
    def pressure(self) -> Pressure | None:
        """What the strap presses on the mitres."""
        return press(self.stock, self.strap) if self.strap and self.stock else None

    @cached_property
    def stock(self) -> CornerStock | None:
        """The stock at a corner, by its true section."""
        section = self._section
        if not isinstance(section, Section):
            return None
        return corner_stock(
            face_width_mm=section.face_width_mm,
            thickness_mm=section.thickness_mm,
            rabbet_width_mm=section.rabbet_width_mm,
            rabbet_depth_mm=section.rabbet_depth_mm,
            shape=flatten(section.outline, tolerance_mm=OUTLINE_TOLERANCE_MM),
        )

    @cached_property
    def joint(self) -> JointPlan | None:
        """The joint, placed in the true section; a tray is jointed as the box that it is."""
        if self.stock is None:
            return None
        return JointPlan(self.stock, self._corner.joint, outside_mm=self._sizes.outside_across_mm)

    @cached_property
    def seasons(self) -> SeasonsPlan:
        """The wood through the year."""
        spline = self.joint.spline if self.joint else None
        return SeasonsPlan(
            self._corner.seasons,
            face_width_mm=self._sizes.face_width_mm,
            gap_mm=self._corner.gap.mm,
            spline_depth_mm=spline.depth_mm if spline else 0,
        )

    @cached_property
    def polygon(self) -> PolygonSizes | None:
        """The frame as a regular polygon around a package of the flats typed, with this frame's members."""
        flats = self._corner.polygon_flats
        if flats is None:
            return None
        return polygon_around(
            sides=self._corner.polygon,
            package_flats_mm=flats.mm,
            clearance_mm=max(self._sizes.clearance_across_mm, self._sizes.clearance_up_mm),
            rabbet_width_mm=self._sizes.rabbet_width_mm,
            face_width_mm=self._sizes.face_width_mm,
        )

    @cached_property
    def blade_gap_mm(self) -> float:
        """What a blade out of upright opens between front and back [mm]."""
        thickness_mm = self.stock.thickness_mm if self.stock else 0.0
        return blade_gap_mm(thickness_mm, lean_deg=float(self._corner.lean), ends=self._corner.blade_ends)

    @cached_property
    def wind(self) -> Wind | None:
        """What a frame that rocks on a flat table tells, when the height is typed."""
        clamps = self._corner.clamps
        if clamps.rock is None or self.stock is None:
            return None
        return find_wind(
            rock_mm=clamps.rock.mm,
            outside_across_mm=self._sizes.outside_across_mm,
            outside_up_mm=self._sizes.outside_up_mm,
            face_width_mm=self.stock.face_width_mm,
            thickness_mm=self.stock.thickness_mm,
            member_wind_mm=clamps.member_wind.mm,
            front_to_back_gap_mm=clamps.front_gap.mm,
        )

    @cached_property
    def pairing(self) -> Pairing | None:
        """Which sides of a batch go together, when as many are typed of each kind.

        Raises:
            OutOfRange: what is typed are no angles, or not as many of each side.
        """
        kinds = [_loose(side, getattr(self._corner.batch, side)) for side in RECTANGLE_SIDES]
        if not any(kinds):
            return None
        counts = {len(kind) for kind in kinds}
        if len(counts) > 1:
            said = ", ".join(f"{len(kind)} {side}" for kind, side in zip(kinds, RECTANGLE_SIDES, strict=True))
            raise OutOfRange(f"as many of each side would do; typed are {said}", field="corner.batch")
        return pair_sides(kinds, frames=counts.pop())

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What the corners will make trouble with."""
        found: list[Finding] = []
        gap_mm = self._corner.gap.mm
        if self.closing:
            found += closing_findings(self.closing, gap_mm=gap_mm)
        if self.squareness:
            found += self._squareness_findings(self.squareness)
        if self.pressure:
            found += pressure_findings(self.pressure)
        if self.joint:
            found += self.joint.findings
        return (*found, *self.seasons.findings, *settings_findings(self.sloping[0]))

    def _squareness_findings(self, squareness: Squareness) -> tuple[Finding, ...]:
        return squareness_findings(
            squareness,
            forced_mm=forced_gap_mm(squareness.skew_deg, mitre_length_mm=self.mitre_length_mm),
            gap_mm=self._corner.gap.mm,
            lost_mm=self.clearance_lost_mm,
            clearance_mm=min(self._sizes.clearance_across_mm, self._sizes.clearance_up_mm),
        )

    def _closed(self, tips: Tips) -> Closing | None:
        return close_frame(self.members, mitre_length_mm=self.mitre_length_mm, tips=tips) if self.has_parts else None


def _member(side: str, cut: CutSide, planned_mm: float) -> CutMember:
    return CutMember(
        side=side,
        long_mm=cut.long.mm if cut.long else planned_mm,
        start_deg=float(cut.start) if cut.start is not None else 45.0,
        finish_deg=float(cut.finish) if cut.finish is not None else 45.0,
    )


def _measures(clamps: Clamps) -> OutsideMeasures | None:
    typed = (
        clamps.across_top,
        clamps.across_bottom,
        clamps.up_left,
        clamps.up_right,
        clamps.rising,
        clamps.falling,
    )
    known = [length.mm for length in typed if length is not None]
    if len(known) < len(typed):
        return None
    top_mm, bottom_mm, left_mm, right_mm, rising_mm, falling_mm = known
    return OutsideMeasures(
        across_top_mm=top_mm,
        across_bottom_mm=bottom_mm,
        up_left_mm=left_mm,
        up_right_mm=right_mm,
        diagonal_rising_mm=rising_mm,
        diagonal_falling_mm=falling_mm,
    )


def _loose(side: str, typed: str) -> tuple[LooseMember, ...]:
    return tuple(
        LooseMember(name=f"{side} {number}", error_deg=_error(word))
        for number, word in enumerate(typed.split(), start=1)
    )


def _error(word: str) -> float:
    try:
        error_deg = float(word.replace(",", ".").replace("−", "-").removesuffix("°"))
    except ValueError:
        error_deg = 99.0
    if not abs(error_deg) <= 2 * MOST_ERROR_DEG:
        raise OutOfRange(f"“{word[:20]}” is no error of two ends: −10 to 10 degrees would do", field="corner.batch")
    return error_deg
