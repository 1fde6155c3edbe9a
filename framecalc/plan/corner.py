"""The corners of one frame: settings, tolerance, test cuts, whether the parts close, the joint, the seasons.

Each group is computed when it is first asked for, and is None while what it needs has not been measured.
"""

from dataclasses import replace
from functools import cached_property

from framecalc.angles import GaugeReadings, Settings, flat_on_the_table, gauge_readings, propped_at_its_slope
from framecalc.clamping import Pressure, Ratchet, Strap, press, pressure_findings, strap_around
from framecalc.closing import Closing, CutMember, Tips, close_frame, closing_findings
from framecalc.findings import Finding
from framecalc.joints.corner_stock import CornerStock, corner_stock
from framecalc.joints.slot_kinds import (
    USUAL_GLUE_ROOM_MM,
    Slot,
    TenonLength,
    biscuit_slot,
    dowel_hole,
    longest_tenon,
    mortise,
)
from framecalc.joints.slots import SlotPlace, largest_that_fits, place_slot, slot_findings
from framecalc.joints.splines import Spline, place_spline, spline_findings
from framecalc.joints.strength import RelativeStrength, glue_of_slot, glue_of_spline, relative_strength
from framecalc.mitre import RECTANGLE_SIDES, half_turn_deg
from framecalc.moisture import equilibrium_pct
from framecalc.movement import Coefficients, coefficient_per_pct, coefficients_of, movement_findings
from framecalc.outline import flatten
from framecalc.project import Project
from framecalc.project.corner import Clamps, Corner, CutSide
from framecalc.saw import Correction, Tolerance, correct, read_test_cut, saw_tolerance
from framecalc.saw_record import Record, read_record
from framecalc.seasons import Air, Levers, Year, find_levers, through_the_year, two_seasons
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
from framecalc.tables_wood import Species, Tenon, biscuits, dowels, loose_tenons, wood_species
from framecalc.tray import TraySection

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
        return strap_around(float(force), friction_ratio=friction, ratchet=Ratchet.ON_A_SIDE)

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
    def slots(self) -> tuple[Slot, ...]:
        """The ready sizes of the kind of joint chosen, as deep as typed where that is typed."""
        joint = self._corner.joint
        ready = _tenon_slots(joint.width.mm) if joint.kind == "loose tenon" else _SLOTS.get(joint.kind, _no_slots)()
        return tuple(replace(slot, depth_mm=joint.depth.mm) for slot in ready) if joint.depth else ready

    @cached_property
    def tenon_length(self) -> TenonLength | None:
        """The longest tenon for two slots of this depth, and what to trim from the ready one."""
        tenon = next((tenon for tenon in loose_tenons() if _tenon_name(tenon) == self._corner.joint.size), None)
        if tenon is None or self.slot_place is None:
            return None
        depth_mm = self.slot_place.slot.depth_mm
        return longest_tenon(depth_mm=depth_mm, other_depth_mm=depth_mm, tenon_mm=tenon.length_mm)

    @cached_property
    def height_mm(self) -> float:
        """Of the middle of the slot or spline above the back: as typed, else the middle of the rabbet's depth."""
        typed = self._corner.joint.height
        return typed.mm if typed else self._section_depth_mm / 2

    @cached_property
    def slot_place(self) -> SlotPlace | None:
        """The slot chosen, in its place, with the walls it leaves."""
        slot = next((slot for slot in self.slots if slot.name == self._corner.joint.size), None)
        if slot is None or self.stock is None:
            return None
        joint = self._corner.joint
        return place_slot(
            self.stock,
            slot,
            height_mm=self.height_mm,
            wall_mm=joint.wall.mm,
            from_tip_mm=joint.from_tip.mm if joint.from_tip else None,
        )

    @cached_property
    def fitting_slots(self) -> tuple[SlotPlace, ...]:
        """The ready sizes that leave sound walls here, the largest first."""
        if self.stock is None or not self.slots:
            return ()
        wall_mm = self._corner.joint.wall.mm
        return largest_that_fits(self.stock, self.slots, height_mm=self.height_mm, wall_mm=wall_mm)

    @cached_property
    def spline(self) -> Spline | None:
        """The spline chosen, and what it leaves."""
        joint = self._corner.joint
        if joint.kind != "spline" or self.stock is None:
            return None
        return place_spline(
            self.stock,
            depth_mm=joint.spline_depth.mm,
            kerf_mm=joint.spline_kerf.mm,
            height_mm=self.height_mm,
            cradle_mm=joint.cradle.mm,
            wall_mm=joint.wall.mm,
        )

    @cached_property
    def strength(self) -> RelativeStrength | None:
        """The corner with its joint against the bare mitre: relative, from glue area and grain alone."""
        if self.stock is None:
            return None
        if self.slot_place:
            return relative_strength(self.stock, [glue_of_slot(self.slot_place.slot)])
        return relative_strength(self.stock, [glue_of_spline(self.spline)]) if self.spline else None

    @cached_property
    def species(self) -> Species | None:
        """The wood chosen, as the table knows it."""
        chosen = self._corner.seasons.species
        return next((species for species in wood_species() if species.species_id == chosen), None)

    @cached_property
    def coefficients(self) -> Coefficients | None:
        """How much that wood moves for each per cent of moisture."""
        return coefficients_of(self.species) if self.species else None

    @cached_property
    def assembled_pct(self) -> float:
        """The moisture content at glue-up: by meter, else what the year's middle air would bring it to."""
        seasons = self._corner.seasons
        if seasons.moisture is not None:
            return float(seasons.moisture)
        dry_pct, moist_pct = (equilibrium_pct(air.temperature_c, humidity_pct=air.humidity_pct) for air in self._airs)
        return (dry_pct + moist_pct) / 2

    @cached_property
    def year(self) -> Year | None:
        """How far the mitres open month by month if nothing held them: an upper bound."""
        if self.coefficients is None:
            return None
        return through_the_year(
            self._sizes.face_width_mm,
            coefficient_per_pct=coefficient_per_pct(self.coefficients, ring_deg=self._ring_deg),
            assembled_pct=self.assembled_pct,
            air=two_seasons(*self._airs),
        )

    @cached_property
    def levers(self) -> Levers | None:
        """What would make the worst gap of the year less."""
        if self.year is None or self.coefficients is None:
            return None
        return find_levers(
            self.year,
            face_width_mm=self._sizes.face_width_mm,
            coefficients=self.coefficients,
            ring_deg=self._ring_deg,
            gap_mm=self._corner.gap.mm,
            spline_depth_mm=self.spline.depth_mm if self.spline else 0,
        )

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
        if self.stock and self.slot_place:
            found += slot_findings(self.stock, self.slot_place)
        if self.stock and self.spline:
            found += spline_findings(self.stock, self.spline, wall_mm=self._corner.joint.wall.mm)
        if self.coefficients and self.year:
            moistures = [month.moisture_pct for month in self.year.months]
            found += movement_findings(self.coefficients, least_pct=min(moistures), most_pct=max(moistures))
        return tuple(found)

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

    @property
    def _section_depth_mm(self) -> float:
        section = self._section
        return section.rabbet_depth_mm if isinstance(section, Section) else section.height_mm

    @property
    def _ring_deg(self) -> float:
        return float(self._corner.seasons.ring)

    @property
    def _airs(self) -> tuple[Air, Air]:
        seasons = self._corner.seasons
        return (
            Air(temperature_c=float(seasons.winter_temperature), humidity_pct=float(seasons.winter_humidity)),
            Air(temperature_c=float(seasons.summer_temperature), humidity_pct=float(seasons.summer_humidity)),
        )


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


def _tenon_slots(width_mm: float) -> tuple[Slot, ...]:
    return tuple(
        replace(
            mortise(
                width_mm=width_mm,
                depth_mm=(tenon.length_mm + USUAL_GLUE_ROOM_MM) / 2,
                thickness_mm=tenon.thickness_mm,
            ),
            name=_tenon_name(tenon),
        )
        for tenon in loose_tenons()
    )


def _tenon_name(tenon: Tenon) -> str:
    return f"tenon {tenon.size}"


def _biscuit_slots() -> tuple[Slot, ...]:
    return tuple(biscuit_slot(biscuit) for biscuit in biscuits())


def _dowel_holes() -> tuple[Slot, ...]:
    return tuple(dowel_hole(dowel) for dowel in dowels())


def _no_slots() -> tuple[Slot, ...]:
    return ()


_SLOTS = {"biscuit": _biscuit_slots, "dowel": _dowel_holes}
