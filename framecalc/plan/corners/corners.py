"""The corners of one frame: settings, the saw, the sides as cut, the clamps, the joint, the seasons.

Each group is computed on first use, and is None while its measurements are missing.
"""

from framecalc.corners.angles import (
    GaugeReadings,
    Settings,
    flat_on_the_table,
    gauge_readings,
    propped_at_its_slope,
    settings_findings,
)
from framecalc.corners.joints.corner_stock import CornerStock, corner_stock
from framecalc.corners.saw import blade_gap_mm
from framecalc.errors import ImpossibleJoint
from framecalc.findings import Finding
from framecalc.geometry.outline import flatten
from framecalc.plan.corners.clamping import ClampsPlan
from framecalc.plan.corners.joint import JointPlan
from framecalc.plan.corners.saw import SawPlan
from framecalc.plan.corners.seasons import SeasonsPlan
from framecalc.plan.corners.sides_as_cut import PartsPlan
from framecalc.project.corners import Corner
from framecalc.project.form import paths_of_arguments
from framecalc.project.strap import Strap
from framecalc.records import cached_property
from framecalc.section.rabbeted import Section
from framecalc.section.tray import TraySection
from framecalc.sizes.chain import Sizes
from framecalc.sizes.members import Member, mitre_length_mm
from framecalc.sizes.shape import Shape
from framecalc.tables.wood import Species
from framecalc.units import Unit

OUTLINE_TOLERANCE_MM = 0.02
"""How closely arcs are followed where a joint is held against the true section."""

_FIELD_OF_ARGUMENT = paths_of_arguments(Corner)


def corner_field(argument: str) -> str:
    """The field, within a frame, that an argument of one of the corners' topics stands for."""
    field = _FIELD_OF_ARGUMENT.get(argument, "")
    return f"corner.{field}" if field else argument


class CornerPlan:
    """The plan of the corners of one frame."""

    def __init__(
        self,
        corner: Corner,
        sizes: Sizes,
        section: Section | TraySection,
        members: tuple[Member, ...],
        *,
        strap: Strap,
        species: Species | None,
        unit: Unit,
    ) -> None:
        self._corner = corner
        self._unit = unit
        self._strap = strap
        self._species = species
        self._sizes = sizes
        self._section = section
        self.members = members

    @property
    def shape(self) -> Shape:
        """The shape of the frame."""
        return self._sizes.shape

    @property
    def sides(self) -> int:
        """The number of sides."""
        return self.shape.sides

    @property
    def is_polygon(self) -> bool:
        """Whether it is a polygon other than a rectangle."""
        return not self.shape.is_rectangle

    @property
    def gap_mm(self) -> float:
        """The gap that may be seen [mm]."""
        return self._corner.gap.mm

    @property
    def outside_mm(self) -> tuple[float, float]:
        """The outside size, across and up; of a polygon both are across its flats [mm]."""
        return self._sizes.outside_across_mm, self._sizes.outside_up_mm

    @property
    def mitre_length_mm(self) -> float:
        """The joint line on the face [mm]."""
        return mitre_length_mm(self._sizes.face_width_mm, shape=self.shape)

    @cached_property
    def flat(self) -> Settings:
        """Gauge and tilt for stock flat on the table."""
        return flat_on_the_table(half_turn_deg=self.shape.half_turn_deg, slope_deg=self.shape.slope_deg)

    @cached_property
    def propped(self) -> Settings | None:
        """Gauge and tilt for stock propped at its slope; None if it lies flat anyway."""
        if not self.shape.slopes:
            return None
        return propped_at_its_slope(half_turn_deg=self.shape.half_turn_deg, slope_deg=self.shape.slope_deg)

    def gauge(self, settings: Settings) -> GaugeReadings:
        """How a setting reads on a gauge that counts from a square cut, and on one that counts from 90."""
        return gauge_readings(settings.mitre_deg)

    @property
    def rise_mm(self) -> float:
        """How far the face of sides that slope stands out [mm]."""
        return self.shape.rise_mm(self._sizes.face_width_mm)

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
        return SawPlan(self._corner, sides=self.sides, mitre_length_mm=self.mitre_length_mm)

    @cached_property
    def parts(self) -> PartsPlan:
        """The sides as cut, put together."""
        return PartsPlan(self._corner, self._sizes, self.saw, mitre_length_mm=self.mitre_length_mm)

    @cached_property
    def clamps(self) -> ClampsPlan:
        """The frame in its clamps."""
        return ClampsPlan(self._corner, self._strap, self._sizes, self.stock, mitre_length_mm=self.mitre_length_mm)

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
        """The joint, placed in the true section; in a tray in its wall alone.

        Raises:
            ImpossibleJoint: one is chosen for sides that slope.
        """
        if self.shape.slopes and self._wants_joint:
            raise ImpossibleJoint(
                "Sloping sides have no joints here: choose no joint, or flat sides.",
                field="corner.joint.kind",
            )
        is_tray = isinstance(self._section, TraySection)
        return JointPlan(
            self.stock or self._tray_wall,
            self._corner.joint,
            unit=self._unit,
            outside_mm=self.outside_mm,
            is_tray=is_tray,
        )

    @cached_property
    def seasons(self) -> SeasonsPlan:
        """The wood through the year."""
        return SeasonsPlan(
            self._corner.seasons,
            species=self._species,
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
    def _wants_joint(self) -> bool:
        """Whether anything but glue is chosen to hold the mitre."""
        joint = self._corner.joint
        return joint.kind != "none" or joint.also_pin or joint.also_wedge

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
        if self.shape.slopes:
            return 0.0
        depth_mm = self.joint.spline_depth_mm or self.joint.deepest_spline_mm or 0.0
        return depth_mm if depth_mm <= self.mitre_length_mm else 0.0
