"""The corners of one frame: settings, the saw, the sides as cut, the clamps, the joint, the seasons.

Each group is computed on first use, and is None while its measurements are missing. A number of
sides other than four makes the whole page one about a regular frame of this frame's members.
"""

from functools import cached_property

from framecalc.corners.angles import (
    GaugeReadings,
    Settings,
    flat_on_the_table,
    gauge_readings,
    propped_at_its_slope,
    settings_findings,
)
from framecalc.corners.joints.corner_stock import CornerStock, corner_stock
from framecalc.corners.polygons import PolygonSizes, SlopedSide, package_flats_mm, polygon_around, sloped_side
from framecalc.corners.saw import blade_gap_mm
from framecalc.findings import Finding
from framecalc.geometry.outline import flatten
from framecalc.plan.corners.clamping import ClampsPlan
from framecalc.plan.corners.joint import JointPlan
from framecalc.plan.corners.saw import SawPlan
from framecalc.plan.corners.seasons import SeasonsPlan
from framecalc.plan.corners.sides_as_cut import PartsPlan
from framecalc.project.corners import Corner
from framecalc.project.form import paths_of_arguments
from framecalc.section.rabbeted import Section
from framecalc.section.tray import TraySection
from framecalc.sizes.chain import Sizes
from framecalc.sizes.members import RECTANGLE_SIDES, half_turn_deg, mitre_length_mm

OUTLINE_TOLERANCE_MM = 0.02
"""How closely arcs are followed where a joint is held against the true section."""

_FIELD_OF_ARGUMENT = paths_of_arguments(Corner)


def corner_field(argument: str) -> str:
    """The field, within a frame, that an argument of one of the corners' topics stands for."""
    field = _FIELD_OF_ARGUMENT.get(argument, "")
    return f"corner.{field}" if field else argument


class CornerPlan:
    """The plan of the corners of one frame."""

    def __init__(self, corner: Corner, sizes: Sizes, section: Section | TraySection) -> None:
        self._corner = corner
        self._sizes = sizes
        self._section = section

    @property
    def sides(self) -> int:
        """The number of sides: four, or those of the typed polygon."""
        return self._corner.polygon

    @property
    def is_polygon(self) -> bool:
        """Whether it is a polygon other than a rectangle."""
        return self.sides != len(RECTANGLE_SIDES)

    @property
    def gap_mm(self) -> float:
        """The gap that may be seen [mm]."""
        return self._corner.gap.mm

    @property
    def outside_mm(self) -> tuple[float, float]:
        """The rectangle's outside size, across and up [mm]."""
        return self._sizes.outside_across_mm, self._sizes.outside_up_mm

    @property
    def mitre_length_mm(self) -> float:
        """The joint line seen from the front [mm]."""
        return mitre_length_mm(self._sizes.face_width_mm, sides=self.sides)

    @cached_property
    def flat(self) -> Settings:
        """Gauge and tilt for stock flat on the table."""
        return flat_on_the_table(half_turn_deg=half_turn_deg(self.sides), slope_deg=self._slope_deg)

    @cached_property
    def propped(self) -> Settings | None:
        """Gauge and tilt for stock propped at its slope; None if it lies flat anyway."""
        if not self._slope_deg:
            return None
        return propped_at_its_slope(half_turn_deg=half_turn_deg(self.sides), slope_deg=self._slope_deg)

    def gauge(self, settings: Settings) -> GaugeReadings:
        """How a setting reads on a gauge that counts from a square cut, and on one that counts from 90."""
        return gauge_readings(settings.mitre_deg)

    @cached_property
    def polygon(self) -> PolygonSizes | None:
        """The frame as a regular polygon around the measured artwork, with this frame's members."""
        measured = self._corner.polygon_flats
        if measured is None or not self.is_polygon:
            return None
        clearance_mm = max(self._sizes.clearance_across_mm, self._sizes.clearance_up_mm)
        return polygon_around(
            sides=self.sides,
            package_flats_mm=package_flats_mm(
                measured.mm, given=self._corner.polygon_given, sides=self.sides, clearance_mm=clearance_mm
            ),
            clearance_mm=clearance_mm,
            rabbet_width_mm=self._sizes.rabbet_width_mm,
            face_width_mm=self._sizes.face_width_mm,
        )

    @cached_property
    def sloped_sides(self) -> tuple[SlopedSide, ...]:
        """Sloping sides laid flat: top and bottom, left and right; or the one side of a measured polygon.

        The outside is taken to be the wide edge.
        """
        if not self._slope_deg:
            return ()
        if self.is_polygon:
            return (self._sloped(self.polygon.outside_flats_mm),) if self.polygon else ()
        return tuple(map(self._sloped, self.outside_mm))

    @cached_property
    def blade_gap_mm(self) -> float:
        """The gap that a blade out of upright opens between front and back [mm]."""
        return blade_gap_mm(
            self._section.thickness_mm if isinstance(self._section, Section) else self._section.height_mm,
            lean_deg=float(self._corner.lean),
            ends=self._corner.blade_ends,
        )

    @cached_property
    def saw(self) -> SawPlan:
        """The tolerance of the saw, and its test cuts."""
        return SawPlan(self._corner, mitre_length_mm=self.mitre_length_mm)

    @cached_property
    def parts(self) -> PartsPlan:
        """The sides as cut, put together."""
        return PartsPlan(self._corner, self._sizes, self.saw, mitre_length_mm=self.mitre_length_mm)

    @cached_property
    def clamps(self) -> ClampsPlan:
        """The frame in its clamps."""
        return ClampsPlan(self._corner, self._sizes, self.stock, mitre_length_mm=self.mitre_length_mm)

    @cached_property
    def stock(self) -> CornerStock | None:
        """The stock at a corner, by its true section; a tray is jointed as the box that it is."""
        section = self._section
        if not isinstance(section, Section):
            return None
        return corner_stock(
            face_width_mm=section.face_width_mm,
            thickness_mm=section.thickness_mm,
            rabbet_width_mm=section.rabbet_width_mm,
            rabbet_depth_mm=section.rabbet_depth_mm,
            sides=self.sides,
            shape=flatten(section.outline, tolerance_mm=OUTLINE_TOLERANCE_MM),
        )

    @cached_property
    def joint(self) -> JointPlan:
        """The joint, placed in the true section; in a tray in its wall alone."""
        is_tray = isinstance(self._section, TraySection)
        return JointPlan(self.stock or self._tray_wall, self._corner.joint, outside_mm=self.outside_mm, is_tray=is_tray)

    @cached_property
    def seasons(self) -> SeasonsPlan:
        """The wood through the year."""
        return SeasonsPlan(
            self._corner.seasons,
            face_width_mm=self._sizes.face_width_mm,
            gap_mm=self.gap_mm,
            spline_depth_mm=self._holding_spline_mm,
            sides=self.sides,
            is_jointed=self._corner.joint.kind != "none",
        )

    @cached_property
    def findings_of_settings(self) -> tuple[Finding, ...]:
        """Which settings the saw cannot reach, unless the stock can be propped."""
        return settings_findings(self.flat)

    @property
    def _tray_wall(self) -> CornerStock:
        """The wall of a tray, as a member without a rabbet."""
        thickness_mm = self._section.thickness_mm if isinstance(self._section, Section) else self._section.height_mm
        return corner_stock(
            face_width_mm=self._sizes.face_width_mm,
            thickness_mm=thickness_mm,
            rabbet_width_mm=0.0,
            rabbet_depth_mm=0.0,
            sides=self.sides,
        )

    @property
    def _holding_spline_mm(self) -> float:
        """The spline chosen, else the deepest that fits: the depth that can hold. A refused spline holds nothing."""
        depth_mm = self.joint.spline_depth_mm or self.joint.deepest_spline_mm or 0.0
        return depth_mm if depth_mm <= self.mitre_length_mm else 0.0

    def _sloped(self, wide_flats_mm: float) -> SlopedSide:
        """A side of a rectangle is as long as that of a square as wide."""
        return sloped_side(
            sides=self.sides,
            wide_flats_mm=wide_flats_mm,
            face_width_mm=self._sizes.face_width_mm,
            slope_deg=self._slope_deg,
        )

    @property
    def _slope_deg(self) -> float:
        return float(self._corner.slope)
