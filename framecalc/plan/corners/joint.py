"""The joint of one frame's corners: the slot or spline chosen, its walls, the sizes that fit, the clashes."""

from collections.abc import Callable, Iterable
from typing import TypeVar

from framecalc.corners.joints.clash import Clash, Prism, clash_findings, find_clashes, slot_prism
from framecalc.corners.joints.corner_stock import CornerStock
from framecalc.corners.joints.laps import (
    Bridle,
    HalfLap,
    LapLayer,
    bridle_findings,
    half_lap_findings,
)
from framecalc.corners.joints.pins import (
    Pin,
    Wedge,
    pin_findings,
    pin_prism,
    place_pin,
    place_wedge,
    wedge_findings,
    wedge_prism,
)
from framecalc.corners.joints.slot_kinds import Slot, TenonLength, longest_tenon
from framecalc.corners.joints.slots import (
    SlotPlace,
    deepest_mm,
    largest_that_fits,
    lone_dowel_finding,
    place_pair,
    place_slot,
    slot_findings,
    unmeasured_finding,
    widest_mm,
)
from framecalc.corners.joints.splines import (
    Spline,
    even_depth_mm,
    place_spline,
    spline_findings,
    spline_prism,
    spread_heights_mm,
)
from framecalc.corners.joints.strength import (
    GluedArea,
    RelativeStrength,
    glue_of_bridle,
    glue_of_half_lap,
    glue_of_slot,
    glue_of_spline,
    relative_strength,
)
from framecalc.errors import FrameCalcError, ImpossibleJoint
from framecalc.findings import Finding, Severity
from framecalc.plan.corners.ready_slots import SLOT_KINDS, chosen_slot, ready_slots, usual_tenon_names
from framecalc.plan.corners.usual_laps import layer_of, usual_bridle, usual_half_laps
from framecalc.project.joint import Joint
from framecalc.records import cached_property, replace
from framecalc.units import Unit

Lap = TypeVar("Lap")


class JointPlan:
    """The plan of the joint of a corner: of a rabbeted member, or of the wall of a tray.

    In a tray the ledge is ignored: it only makes the walls thicker.
    """

    def __init__(
        self, stock: CornerStock, joint: Joint, *, unit: Unit, outside_mm: tuple[float, float], is_tray: bool = False
    ) -> None:
        self._stock = stock
        self._joint = joint
        self._unit = unit
        self._outside_mm = outside_mm
        self._is_tray = is_tray

    @property
    def stock(self) -> CornerStock:
        """The stock that the joint is cut into."""
        return self._stock

    @property
    def is_tray(self) -> bool:
        """Whether it is cut into the wall of a tray."""
        return self._is_tray

    @property
    def kind(self) -> str:
        """The kind of joint that holds the mitre besides glue."""
        return self._joint.kind

    @property
    def is_chosen(self) -> bool:
        """Whether there is anything to place: a joint, a pin or a wedge."""
        placed = (self.slot_place, *self.splines, self.half_laps, self.bridle, self.pin, self.wedge)
        return any(part is not None for part in placed)

    @property
    def is_unmeasured(self) -> bool:
        """Whether a kind of slot is chosen whose size is not known, so that it cannot be placed."""
        return bool(self.slots) and not self.slot_places

    @property
    def is_sound(self) -> bool:
        """Whether no slot, spline, pin or wedge breaks out, leaves a wall too thin, or meets another."""
        return all(finding.severity is Severity.NOTE for finding in self.findings)

    @property
    def wall_mm(self) -> float:
        """The thinnest wall allowed [mm]."""
        return self._joint.wall.mm

    @cached_property
    def slots(self) -> tuple[Slot, ...]:
        """The sizes offered of the kind of joint chosen; none if it needs no slot."""
        return ready_slots(self.kind, self._joint, unit=self._unit)

    @cached_property
    def tenon_length(self) -> TenonLength | None:
        """The longest tenon for two slots of this depth, and what to trim from the one typed."""
        if self.kind != "loose tenon" or self.slot_place is None:
            return None
        depth_mm, typed = self.slot_place.slot.depth_mm, self._joint.tenon_length
        return longest_tenon(depth_mm=depth_mm, other_depth_mm=depth_mm, tenon_mm=typed.mm if typed else 2 * depth_mm)

    @property
    def has_tenon_length(self) -> bool:
        """Whether the length of its tenon is typed, and not what the slots ask for."""
        return self._joint.tenon_length is not None

    @cached_property
    def height_mm(self) -> float:
        """Of the middle of the slot or spline above the back: as typed, else the middle of the thickness."""
        typed = self._joint.height
        return typed.mm if typed else self._stock.thickness_mm / 2

    @property
    def slot_place(self) -> SlotPlace | None:
        """The slot chosen, in its place, with the walls it leaves; of two dowels the one nearer to the tip."""
        return next(iter(self.slot_places), None)

    @cached_property
    def slot_places(self) -> tuple[SlotPlace, ...]:
        """Every slot of one mitre, from the tip inward: two dowels where they are wanted and have room."""
        slot = chosen_slot(self.kind, self._joint, offered=self.slots)
        if slot is None:
            return ()
        from_tip_mm = self._joint.from_tip.mm if self._joint.from_tip else None
        if self._wants_two:
            return place_pair(
                self._stock, slot, height_mm=self.height_mm, wall_mm=self.wall_mm, from_tip_mm=from_tip_mm
            )
        return (place_slot(self._stock, slot, height_mm=self.height_mm, wall_mm=self.wall_mm, from_tip_mm=from_tip_mm),)

    @cached_property
    def fitting_slots(self) -> tuple[SlotPlace, ...]:
        """The ready sizes that leave sound walls here, the largest first."""
        return self._fitting(self.slots)

    @cached_property
    def best_slots(self) -> dict[str, SlotPlace | None]:
        """The largest size of every kind of slot that leaves sound walls here; None if none does."""
        offered = {kind: ready_slots(kind, self._joint, unit=self._unit) for kind in SLOT_KINDS}
        return {kind: self._best(self._fitting(slots)) for kind, slots in offered.items()}

    @cached_property
    def deepest_spline_mm(self) -> float | None:
        """How deep a spline of the kerf typed may go at this height; nothing where there is no room for any [mm]."""
        kerf_mm, height_mm = self._joint.spline_kerf.mm, self.height_mm
        try:
            return even_depth_mm(self._stock, [height_mm], kerf_mm=kerf_mm, wall_mm=self.wall_mm)
        except FrameCalcError:
            return None

    @cached_property
    def usual_names(self) -> frozenset[str]:
        """The plain tenons that are no thicker than a third of the stock."""
        return usual_tenon_names(thickness_mm=self._stock.thickness_mm)

    @cached_property
    def widest_mouth_mm(self) -> float | None:
        """How wide a mortise of this depth may be with both walls just as wanted; nothing for other slots [mm]."""
        return self._most(widest_mm)

    @cached_property
    def deepest_slot_mm(self) -> float | None:
        """How deep a mortise of this width may be with both walls just as wanted; nothing for other slots [mm]."""
        return self._most(deepest_mm)

    @property
    def has_spline(self) -> bool:
        """Whether there is a spline, alone or besides another joint."""
        return self.kind == "spline" or (self._joint.also_spline and self.kind != "none")

    @cached_property
    def splines(self) -> tuple[Spline, ...]:
        """The splines chosen, from the back up, and what each leaves; several are spread over the thickness."""
        joint = self._joint
        if not self.has_spline:
            return ()
        heights_mm: tuple[float, ...] = (self.height_mm,)
        if joint.spline_count > 1:
            heights_mm = spread_heights_mm(self._stock, count=joint.spline_count, kerf_mm=joint.spline_kerf.mm)
        return tuple(self._spline(height_mm) for height_mm in heights_mm)

    @property
    def spline_depth_mm(self) -> float:
        """How deep the splines go, from the tip; 0 where there is none [mm]."""
        return self._joint.spline_depth.mm if self.has_spline else 0.0

    @cached_property
    def even_depth_mm(self) -> float:
        """The depth that leaves every spline its wall with one setting of the blade [mm]."""
        return even_depth_mm(
            self._stock,
            [spline.height_mm for spline in self.splines],
            kerf_mm=self._joint.spline_kerf.mm,
            wall_mm=self.wall_mm,
        )

    @cached_property
    def strength(self) -> RelativeStrength | None:
        """The corner with its joint against the bare mitre: relative, from glue area and grain alone."""
        glues = list(self._glues())
        return relative_strength(self._stock, glues) if glues else None

    @cached_property
    def pin(self) -> Pin | None:
        """A pin driven through the corner, if one is wanted."""
        joint = self._joint
        if not joint.also_pin:
            return None
        return place_pin(
            self._stock,
            diameter_mm=joint.pin_diameter.mm,
            length_mm=joint.pin_length.mm,
            from_corner_mm=joint.pin_from.mm,
            height_mm=joint.pin_height.mm,
            wall_mm=joint.wall.mm,
        )

    @cached_property
    def wedge(self) -> Wedge | None:
        """A corner wedge driven across the mitre from behind, if one is wanted."""
        joint = self._joint
        if not joint.also_wedge:
            return None
        return place_wedge(
            self._stock,
            height_mm=joint.wedge_height.mm,
            leg_mm=joint.wedge_leg.mm,
            from_tip_mm=joint.wedge_from_tip.mm,
            wall_mm=joint.wall.mm,
        )

    @cached_property
    def half_laps(self) -> tuple[HalfLap, HalfLap] | None:
        """A half-lap mitre: as top and bottom are cut, and as left and right are.

        Raises:
            ImpossibleJoint: the members are those of a tray, whose ledges would be in the way.
        """
        return self._lapped_as("half-lap", usual_half_laps)

    @cached_property
    def bridle(self) -> Bridle | None:
        """A bridle joint.

        Raises:
            ImpossibleJoint: the members are those of a tray, whose ledges would be in the way.
        """
        return self._lapped_as("bridle", usual_bridle)

    @cached_property
    def lapped(self) -> LapLayer | None:
        """What a half-lap or a bridle cuts away and lets run through; nothing where there is neither."""
        return layer_of(self.half_laps, self.bridle, outside_mm=self._outside_mm)

    @cached_property
    def clashes(self) -> tuple[Clash, ...]:
        """The clashes within one corner."""
        return find_clashes(self.prisms, wanted_mm=self.wall_mm)

    @cached_property
    def prisms(self) -> tuple[Prism, ...]:
        """The slot, splines, pin and wedge of one corner as solids, in this order."""
        return tuple(self._prisms())

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """The findings about the joint."""
        found = [unmeasured_finding(self.kind)] if self.is_unmeasured else []
        for place in self.slot_places:
            found += map(self._of_its_field, slot_findings(self._stock, place))
        if self._wants_two and len(self.slot_places) == 1:
            found.append(lone_dowel_finding(self.slot_places[0].slot))
        for spline in self.splines:
            found += spline_findings(self._stock, spline, wall_mm=self.wall_mm)
        if self.pin:
            found += pin_findings(self.pin)
        if self.wedge:
            found += wedge_findings(self._stock, self.wedge)
        if self.half_laps:
            found += half_lap_findings(self._stock, self.half_laps[0])
        if self.bridle:
            found += bridle_findings(self._stock, self.bridle)
        return (*found, *clash_findings(self.clashes, wanted_mm=self.wall_mm))

    def _of_its_field(self, finding: Finding) -> Finding:
        """The thickness of a tenon is typed; that of anything else comes with its size."""
        is_thick = self.kind == "loose tenon" and finding.argument == "joint_thickness_mm"
        return replace(finding, argument="tenon_thickness_mm") if is_thick else finding

    def _lapped_as(self, kind: str, cut: Callable[..., Lap]) -> Lap | None:
        """The lap joint of a kind, where that is chosen; in a tray it is refused."""
        if self.kind != kind:
            return None
        if self._is_tray:
            raise ImpossibleJoint("Ledges are in the way: choose a slot or spline.", field="joint")
        return cut(self._stock, outside_mm=self._outside_mm)

    def _fitting(self, slots: tuple[Slot, ...]) -> tuple[SlotPlace, ...]:
        """Those that leave sound walls here, the largest first; none at a height outside the member."""
        if not 0 <= self.height_mm <= self._stock.thickness_mm:
            return ()
        return largest_that_fits(self._stock, slots, height_mm=self.height_mm, wall_mm=self.wall_mm)

    def _best(self, fitting: tuple[SlotPlace, ...]) -> SlotPlace | None:
        """The largest; of tenons the thickest that is no thicker than usual, if one is."""
        usual = (place for place in fitting if place.slot.name in self.usual_names)
        return next(usual, next(iter(fitting), None))

    def _prisms(self) -> Iterable[Prism]:
        for number, place in enumerate(self.slot_places, start=1):
            prism = slot_prism(self._stock, place)
            yield replace(prism, name=f"{prism.name}, {number}") if len(self.slot_places) > 1 else prism
        for number, spline in enumerate(self.splines, start=1):
            prism = spline_prism(self._stock, spline)
            yield replace(prism, name=f"spline {number}") if len(self.splines) > 1 else prism
        if self.pin:
            yield pin_prism(self.pin)
        if self.wedge:
            yield wedge_prism(self._stock, self.wedge)

    def _glues(self) -> Iterable[GluedArea]:
        yield from (glue_of_slot(place.slot) for place in self.slot_places)
        yield from map(glue_of_spline, self.splines)
        if self.half_laps:
            yield glue_of_half_lap(self._stock, self.half_laps[0])
        if self.bridle:
            yield glue_of_bridle(self._stock, self.bridle)

    @property
    def _wants_two(self) -> bool:
        return self.kind == "dowel" and self._joint.dowel_count > 1

    def _spline(self, height_mm: float) -> Spline:
        return place_spline(
            self._stock,
            depth_mm=self._joint.spline_depth.mm,
            kerf_mm=self._joint.spline_kerf.mm,
            height_mm=height_mm,
            cradle_mm=self._joint.cradle.mm,
            wall_mm=self.wall_mm,
        )

    def _most(self, find: Callable[..., float]) -> float | None:
        """The largest mouth or depth of the mortise chosen, where there is one with room for any."""
        if self.slot_place is None or self.kind != "loose tenon":
            return None
        try:
            return find(self._stock, self.slot_place.slot, height_mm=self.height_mm, wall_mm=self.wall_mm)
        except ImpossibleJoint:
            return None
