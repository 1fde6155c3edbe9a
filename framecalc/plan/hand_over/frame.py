"""The label, the back and the box of one frame."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from framecalc.errors import ImpossibleSize
from framecalc.findings import Finding
from framecalc.hand_over.label import CARE, opening_of
from framecalc.hand_over.packing import FROM_FACE_MM, TAPE_SAYS, Packed, pack, packing_findings, tape_for
from framecalc.package.glazing import Glazing
from framecalc.package.layers import LayerKind
from framecalc.package.sag import takes_two
from framecalc.records import Record, cached_property
from framecalc.section.rabbeted import Section
from framecalc.templates.dust_cover import cover_size_mm
from framecalc.units import describe_length
from framecalc.words import Wording, day_said, joined, typed, worded

if TYPE_CHECKING:
    from framecalc.plan.frame import FramePlan


class LabelLine(Record):
    """One line of the label: what it is about, and what it says."""

    name: str
    says: Wording


class HandOverPlan:
    """What is handed over with one frame."""

    def __init__(self, plan: "FramePlan") -> None:
        self._plan = plan
        self._typed = plan.frame.hand_over

    @property
    def has_cover(self) -> bool:
        """Whether a dust cover lies over the back."""
        return any(layer.kind is LayerKind.DUST_COVER for layer in self._plan.layers)

    @property
    def cover_mm(self) -> tuple[float, float]:
        """The size of the dust cover, to cut: of a polygon both are across its flats.

        Raises:
            ImpossibleSize: there is none, or sloping sides have no flat back.
        """
        if not self.has_cover or self._plan.shape.slopes:
            raise ImpossibleSize("There is no dust cover on this back.", field="package.layers")
        sizes = self._plan.sizes
        return cover_size_mm(outside_across_mm=sizes.outside_across_mm, outside_up_mm=sizes.outside_up_mm)

    @property
    def deep_mm(self) -> float:
        """How deep the frame is, from its face to the furthest behind: the package, or the bumpers."""
        section, plan = self._plan.section, self._plan
        thick_mm = section.thickness_mm if isinstance(section, Section) else section.height_mm
        rise_mm = plan.shape.rise_mm(plan.sizes.face_width_mm) if plan.shape.slopes else 0.0
        behind_mm = max(plan.frame.hanging.bumper.mm, 0.0 - plan.seat.left_over_mm, *plan.hangers.out_behind_mm)
        return thick_mm + rise_mm + behind_mm

    @cached_property
    def packed(self) -> Packed:
        """The box.

        Raises:
            FrameCalcError: the frame cannot be computed.
        """
        packing, hangers = self._typed.packing, self._plan.hangers
        return pack(
            across_mm=hangers.across_mm,
            up_mm=hangers.up_mm,
            deep_mm=self.deep_mm,
            mass_kg=hangers.balance.mass_kg,
            block_mm=packing.block.mm,
            wall_mm=packing.wall.mm,
            frames=min(packing.per_box, self._plan.frame.count),
            between_mm=packing.between.mm,
            is_glazed=self._is_glazed,
        )

    @property
    def is_for_two(self) -> bool:
        """Whether two people lift the frame alone and hang it."""
        hangers = self._plan.hangers
        return takes_two(
            mass_kg=hangers.balance.mass_kg,
            longest_mm=max(hangers.across_mm, hangers.up_mm),
            is_glazed=self._is_glazed,
        )

    @property
    def _is_glazed(self) -> bool:
        return self._plan.package.glazing is not Glazing.NONE

    @property
    def boxes(self) -> int:
        """How many boxes it takes for all copies."""
        return -(-self._plan.frame.count // self._typed.packing.per_box)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What is found about the box."""
        return tuple(packing_findings(self.packed, block_mm=self._typed.packing.block.mm))

    @property
    def tape(self) -> str:
        """What to do about tape on the glazing."""
        tape = tape_for(self._plan.package.glazing, is_gilded=self._typed.packing.gilded == "yes")
        return TAPE_SAYS[tape].format(clear=describe_length(FROM_FACE_MM, unit=self._plan.unit))

    def label(self, *, shop: str) -> tuple[LabelLine, ...]:
        """What the label says, line by line."""
        return tuple(line for line in self._label(shop) if line.says)

    def _label(self, shop: str) -> Iterator[LabelLine]:
        plan, typed_label = self._plan, self._typed.label
        yield LabelLine(name="", says=typed(self._typed.intake.piece or plan.frame.name))
        yield LabelLine(name="Frame", says=joined(", ", filter(None, (typed(plan.frame.species), self._finish))))
        for kind, name in ((LayerKind.GLAZING, "Glazing"), (LayerKind.MAT, "Mat")):
            yield LabelLine(name=name, says=self._named(kind))
        yield LabelLine(name="Behind", says=joined(", ", filter(None, map(self._named, _BEHIND))))
        yield LabelLine(name="To open", says=worded(opening_of(plan.package.retainer, has_cover=self.has_cover)))
        yield LabelLine(name="Care", says=typed(typed_label.care) or worded(CARE[plan.package.glazing]))
        yield LabelLine(
            name="Made by", says=joined(", ", filter(None, (typed(typed_label.made_by or shop), self._day)))
        )
        yield LabelLine(name="", says=typed(typed_label.dedication))

    @property
    def _finish(self) -> Wording:
        return typed(self._plan.frame.look.finish)

    @property
    def _day(self) -> Wording:
        made_on = self._typed.label.made_on
        return typed(day_said(made_on, self._plan.project.shop.words)) if made_on else typed("")

    def _named(self, kind: LayerKind) -> Wording:
        return joined(", ", (typed(layer.name) for layer in self._plan.layers if layer.kind is kind))


_BEHIND = (LayerKind.SPACER, LayerKind.BACKING, LayerKind.BACK)
