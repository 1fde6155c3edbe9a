"""The hangers of one frame: where they go, what they carry, how the frame leans, how far it drops.

What nobody has chosen is a proposal: it is worked out and shown, and whatever is found about it is a note.
"""

from collections.abc import Iterator
from contextlib import suppress
from typing import TYPE_CHECKING

from framecalc.errors import FrameCalcError, ImpossibleSize
from framecalc.findings import Finding, Rounding, Severity, Way
from framecalc.geometry.outline import Point, height_at
from framecalc.hanging.balance import Balance, shares_ratio
from framecalc.hanging.cleat import HIGH_MM, OUT_MM, Cleat, cleat_for
from framecalc.hanging.hangers import (
    ON_TOP,
    PLATES_IN_RATIO,
    Hanger,
    PlacedHangers,
    clash_findings,
    clashing,
    crossings_mm,
    heavy_findings,
    place_findings,
    strength_findings,
    usual_down_mm,
)
from framecalc.hanging.lean import Hang, Lean, lean_of
from framecalc.hanging.wall import Levelled, front_out_mm, level_of
from framecalc.hanging.wire import (
    GOOD_DEG,
    HIDDEN_MM,
    HOOKS_OF_SPAN,
    LoadedWire,
    crooked_findings,
    loaded_wire,
    rise_for_mm,
    wire_findings,
)
from framecalc.package.retainer_places import STOCK_SCREWS_MM, Screw, choose_screw
from framecalc.package.sag import GRAVITY_N_PER_KG
from framecalc.plan.hanging.obstacles import beside, hanger_parts
from framecalc.records import cached_property, replace
from framecalc.section.rabbeted import Section
from framecalc.units import TOLERANCE_MM, format_length, whole_steps_mm

if TYPE_CHECKING:
    from framecalc.plan.frame import FramePlan

PLATE_MM = 1.5
"""What the screw of a hanger goes through (1/16 in). Source: common practice, no source."""


class HangersPlan:
    """The plan of the hangers of one frame."""

    def __init__(self, plan: "FramePlan") -> None:
        self._plan = plan
        self._typed = plan.frame.hanging
        self._extent = plan.shape.extent(plan.sizes.outside_across_mm, plan.sizes.outside_up_mm)

    @property
    def is_chosen(self) -> bool:
        """Whether somebody has chosen what it hangs by."""
        return self._typed.by != ""

    @property
    def kind(self) -> Hanger:
        """What it hangs by: as chosen, else two rings."""
        return Hanger(self._typed.by) if self._typed.by else Hanger.RINGS

    @property
    def across_mm(self) -> float:
        """The width of the upright rectangle round the frame."""
        return self._extent.across_mm

    @property
    def up_mm(self) -> float:
        """The height of that rectangle."""
        return self._extent.up_mm

    @property
    def top_mm(self) -> float:
        """From the middle of the frame to its top edge."""
        return self._extent.up_mm - self._extent.below_mm

    @property
    def balance(self) -> Balance:
        """The whole weight and the centre of gravity."""
        return self._plan.package.mass.balance

    @property
    def weight_n(self) -> float:
        """What the whole frame weighs."""
        return self.balance.mass_kg * GRAVITY_N_PER_KG

    @property
    def centre_down_mm(self) -> float:
        """The centre of gravity under the top edge."""
        return self.top_mm - self.balance.up_mm

    @property
    def land_mm(self) -> float:
        """What a hanger can be screwed to: the land, or the wall of a tray."""
        section = self._plan.section
        return section.land_mm if isinstance(section, Section) else section.wall_mm

    @property
    def from_edge_mm(self) -> float:
        """The screw from the outer edge: as typed, or in the middle of the land."""
        typed = self._typed.from_edge
        return typed.mm if typed else self.land_mm / 2

    @cached_property
    def down_mm(self) -> float:
        """The screws under the top edge: as typed, or as usual, to the tape."""
        if self.kind in ON_TOP:
            return self.from_edge_mm
        typed = self._typed.down
        usual_mm = usual_down_mm(self.kind, up_mm=self.up_mm)
        return typed.mm if typed else format_length(usual_mm, step=self._plan.step).written_mm

    @cached_property
    def placed(self) -> PlacedHangers:
        """The hangers in their places.

        Raises:
            ImpossibleSize: there is no wood for them there, or no flat back.
        """
        self._require_flat()
        places = self._on_top() if self.kind in ON_TOP else self._beside()
        return PlacedHangers(
            kind=self.kind, places=places, hooks_mm=self._hooks_mm(places), down_mm=self.down_mm, drop_mm=self.drop_mm
        )

    @property
    def hooks_mm(self) -> tuple[float, ...]:
        """The hooks across, from the middle of the frame; one in the middle where only a drop is known."""
        return (0.0,) if self._plan.shape.slopes else self.placed.hooks_mm

    @cached_property
    def wire(self) -> LoadedWire | None:
        """The wire while the frame hangs, if there is one."""
        if self.kind is not Hanger.WIRE:
            return None
        (left, _), (right, _) = self._beside()
        span_mm, apart_mm = right - left, 0.0
        if self._typed.hooks == "2":
            apart_mm = self._typed.hooks_apart.mm if self._typed.hooks_apart else span_mm * HOOKS_OF_SPAN
        return loaded_wire(
            weight_n=self.weight_n, span_mm=span_mm, rise_mm=self._rise_mm(span_mm, apart_mm), apart_mm=apart_mm
        )

    @cached_property
    def cleat(self) -> Cleat | None:
        """The cleat, if it hangs by one."""
        if self.kind is not Hanger.CLEAT:
            return None
        sizes = self._plan.sizes
        side_mm = self._plan.shape.edges_mm(sizes.outside_across_mm, sizes.outside_up_mm)[0]
        step_mm = float(self._plan.step.size_mm)
        out_mm, high_mm = (whole_steps_mm(one, step_mm=step_mm, rounding=Rounding.UP) for one in (OUT_MM, HIGH_MM))
        return cleat_for(side_mm=side_mm, out_mm=out_mm, high_mm=high_mm)

    @cached_property
    def drop_mm(self) -> float:
        """From the top edge to what rests on the hook, as loaded: as measured, else worked out.

        Raises:
            ImpossibleSize: the wire cannot be worked out, or there is no flat back.
        """
        if self._typed.drop:
            return self._typed.drop.mm
        self._require_flat()
        if self.wire:
            return self.down_mm - self.wire.rise_mm
        if self.cleat:
            return self.cleat.drop_mm
        return max(self.down_mm - self._typed.reach.mm, 0.0) if self.kind is Hanger.RINGS else self.down_mm

    @property
    def shares(self) -> tuple[float, float]:
        """How the weight falls on the left and on the right hanger.

        Raises:
            ImpossibleSize: it does not hang between them.
        """
        if len(self.placed.places) == 1:
            return 1.0, 0.0
        (left, _), (right, _) = self.placed.places
        at_mm = self.balance.across_mm
        if not left <= at_mm <= right:
            raise ImpossibleSize("The frame balances outside its hangers: place one on either side.", field="by")
        return shares_ratio(left_mm=at_mm - left, right_mm=right - at_mm)

    @property
    def load_kg(self) -> float:
        """What the hanger that carries most is pulled with, as a weight."""
        if self.wire:
            return self.wire.pull_n / GRAVITY_N_PER_KG
        return self.balance.mass_kg * max(self.shares)

    @property
    def hook_kg(self) -> float:
        """What the hook that carries most is pulled with, as a weight: down, and inward by a wire on two hooks."""
        if self.wire:
            return float((self.wire.hook_n**2 + self.wire.hook_inward_n**2) ** 0.5) / GRAVITY_N_PER_KG
        return self.balance.mass_kg * max(self.shares)

    @cached_property
    def lean(self) -> Lean:
        """How it leans on the wall.

        Raises:
            ImpossibleSize: it tips over, or has no flat back.
        """
        self._require_flat()
        reach_mm = {Hanger.RINGS: self._typed.reach.mm, Hanger.WIRE: self.wire.rise_mm if self.wire else 0.0}
        hang = Hang(
            hanger_up_mm=self.up_mm - (self.cleat.drop_mm if self.cleat else self.down_mm),
            centre_up_mm=self.up_mm - self.centre_down_mm,
            centre_out_mm=self.balance.out_mm,
            bumper_mm=self._typed.bumper.mm,
            hook_out_mm=self.cleat.out_mm if self.cleat else self._typed.hook_out.mm,
            reach_mm=reach_mm.get(self.kind, 0.0),
        )
        return lean_of(hang, up_mm=self.up_mm)

    @property
    def pull_n(self) -> float:
        """What pulls straight out of the wall, at all hooks together."""
        return self.lean.pull_ratio * self.weight_n

    @property
    def out_mm(self) -> float:
        """How far its front stands out from the wall at most."""
        section = self._plan.section
        thick_mm = section.thickness_mm if isinstance(section, Section) else section.height_mm
        bumper_mm = self._typed.bumper.mm
        if self._plan.shape.slopes:
            return bumper_mm + thick_mm + self._plan.shape.rise_mm(self._plan.sizes.face_width_mm)
        return front_out_mm(thickness_mm=thick_mm, up_mm=self.up_mm, bumper_mm=bumper_mm, lean_deg=self.lean.lean_deg)

    @cached_property
    def screw(self) -> Screw | None:
        """The screw of a hanger that bites and stays short of the face at its place of the profile, if there is one."""
        outline, at_mm = self._plan.section.outline, self.from_edge_mm
        with suppress(FrameCalcError):
            wood_mm = height_at(outline, at_mm)
            return choose_screw(wood_mm=wood_mm, through_mm=PLATE_MM, lengths_mm=STOCK_SCREWS_MM[self._plan.unit])
        return None

    @property
    def level(self) -> Levelled | None:
        """What an uneven pair of hooks does, if it was measured."""
        typed, hooks_mm = self._typed.higher_right, self.placed.hooks_mm
        if typed is None or len(hooks_mm) < 2 or not typed.mm:
            return None
        return level_of(higher_right_mm=typed.mm, apart_mm=hooks_mm[1] - hooks_mm[0], across_mm=self.across_mm)

    @cached_property
    def in_the_way(self) -> tuple[str, ...]:
        """What stands where a hanger is to be."""
        parts = hanger_parts(self._typed, screw_mm=self.screw.bite_mm if self.screw else 0.0)
        names = (clashing(beside(self._plan, place), hanger=parts(self._plan, place)) for place in self.placed.places)
        return tuple(dict.fromkeys(name for found in names for name in found))

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What is to be known before it hangs; about a mere proposal only notes.

        Raises:
            FrameCalcError: what was chosen cannot hang it.
        """
        if self.is_chosen:
            return tuple(self._found())
        with suppress(FrameCalcError):
            return tuple(replace(finding, severity=Severity.NOTE, ways=()) for finding in self._found())
        return ()

    def _found(self) -> Iterator[Finding]:
        if self._plan.shape.slopes and self._typed.drop:
            return
        placed = self.placed
        yield from place_findings(self.kind, down_mm=self.down_mm, up_mm=self.up_mm, centre_down_mm=self.centre_down_mm)
        if self.wire:
            yield from wire_findings(self.wire, down_mm=self.down_mm)
            yield from self._crooked(placed)
        rating = self._typed.rating
        yield from strength_findings(
            self.kind,
            load_kg=self.load_kg,
            rating_kg=rating.kg if rating else None,
            factor_ratio=float(self._typed.factor),
        )
        yield from heavy_findings(
            self.kind, hooks=len(placed.hooks_mm), mass_kg=self.balance.mass_kg, across_mm=self.across_mm
        )
        if self.screw is None:
            yield no_screw_finding()
        yield from clash_findings(self.in_the_way)
        for name, out_mm in self._standing_out:
            if out_mm > self._typed.bumper.mm + TOLERANCE_MM:
                yield _bumpers_finding(name, out_mm)
        _ = self.lean

    @property
    def _standing_out(self) -> Iterator[tuple[str, float]]:
        """What stands out behind, and how far."""
        if stiffener := self._plan.package.stiffener:
            yield "stiffener", stiffener.out_mm
        if self.cleat:
            yield "cleat", self.cleat.out_mm

    @property
    def out_behind_mm(self) -> tuple[float, ...]:
        """How far stiffener and cleat stand out behind."""
        return tuple(out_mm for _, out_mm in self._standing_out)

    def _crooked(self, placed: PlacedHangers) -> tuple[Finding, ...]:
        """What is found about a wire on one hook and a weight beside the middle."""
        if len(placed.hooks_mm) > 1:
            return ()
        below_mm = self.centre_down_mm - placed.drop_mm
        return crooked_findings(off_mm=self.balance.across_mm, below_mm=below_mm, across_mm=self.across_mm)

    def _require_flat(self) -> None:
        if self._plan.shape.slopes:
            raise ImpossibleSize(
                "Sloping sides have no flat back: measure the drop and type it.",
                field="drop_mm",
            )

    def _beside(self) -> tuple[Point, ...]:
        """Two places at one height, on the sides that stand there."""
        up_mm, inset_mm = self.top_mm - self.down_mm, 2 * self.from_edge_mm
        sizes = self._plan.sizes
        inner = self._plan.shape.corners(sizes.outside_across_mm - inset_mm, sizes.outside_up_mm - inset_mm)
        left, right = crossings_mm(inner, up_mm=up_mm)
        return (left, up_mm), (right, up_mm)

    def _on_top(self) -> tuple[Point, ...]:
        """The middle of the top side, or two places on it."""
        if self._plan.shape.sides % 2:
            raise ImpossibleSize("A corner is at the top: hang it by two rings.", field="hung_by")
        up_mm = self.top_mm - self.down_mm
        if self.kind is not Hanger.PLATES:
            return ((0.0, up_mm),)
        sizes = self._plan.sizes
        edges_mm = self._plan.shape.edges_mm(sizes.outside_across_mm, sizes.outside_up_mm)
        half_mm = edges_mm[0] * (0.5 - PLATES_IN_RATIO)
        return (-half_mm, up_mm), (half_mm, up_mm)

    def _hooks_mm(self, places: tuple[Point, ...]) -> tuple[float, ...]:
        if self.wire:
            half_mm = self.wire.apart_mm / 2
            return (-half_mm, half_mm) if half_mm else (0.0,)
        return tuple(across_mm for across_mm, _ in places)

    def _rise_mm(self, span_mm: float, apart_mm: float) -> float:
        """As typed, or for a good angle where the top of the wire then stays out of sight."""
        if self._typed.rise:
            return self._typed.rise.mm
        good_mm = rise_for_mm(span_mm=span_mm, angle_deg=GOOD_DEG, apart_mm=apart_mm)
        return min(good_mm, max(self.down_mm - HIDDEN_MM, self.down_mm / 2))


def _bumpers_finding(name: str, out_mm: float) -> Finding:
    """What is screwed on behind stands out further than the bumpers."""
    return Finding(
        code="hangers.bumpers",
        severity=Severity.WARN,
        sentence=f"The {name} stands out {{out}}: take bumpers of that.",
        why="Else the frame leans in at its foot, or rubs on the wall.",
        source="plane geometry",
        argument="bumper_mm",
        lengths={"out": out_mm},
        ways=(Way(argument="bumper_mm", value_mm=out_mm, says="take bumpers", rounding=Rounding.UP),),
    )


def no_screw_finding() -> Finding:
    """No screw both bites and stays short of the face."""
    return Finding(
        code="hangers.screw",
        severity=Severity.WARN,
        sentence="No screw bites there and stays 3 mm (1/8 in) short of the face: move it to thicker wood.",
        why="A tip that bulges or breaks the face spoils the frame; one that does not bite drops it.",
        source="usual practice",
        argument="screw_from_edge_mm",
    )
