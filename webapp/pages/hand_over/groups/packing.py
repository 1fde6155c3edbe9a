"""The box: its sizes, what it weighs, what goes where."""

from collections.abc import Iterator

from framecalc.findings import Rounding
from webapp.live.answers import AnswerGroup, Big, plural
from webapp.pages.hand_over.groups.context import HandOverContext

CAUTIONS = ("Upright, never flat: a pane laid flat breaks under its own box.",)


def packing(context: HandOverContext) -> AnswerGroup:
    """The box of the frame."""
    plan = context.plan.hand_over
    inside = context.sizes(*plan.packed.inside_mm, rounding=Rounding.UP)
    outside = context.sizes(*plan.packed.outside_mm, rounding=Rounding.UP)
    return AnswerGroup(
        name="packing",
        answer=f"{plural(plan.boxes, 'box', 'boxes')}, inside {inside}",
        bigs=tuple(_bigs(context, inside)),
        does=tuple(steps_of(context)),
        lines=(f"Outside: {outside}. The box itself is not weighed.",),
        findings=context.advice(plan.findings),
        cautions=CAUTIONS,
        sources=("Blocks, tape and two people over 15 kg (33 lb): usual practice.",),
    )


def _bigs(context: HandOverContext, inside: str) -> Iterator[Big]:
    plan = context.plan.hand_over
    yield Big(label="Box, inside", text=inside, says=plural(plan.boxes, "box", "boxes"))
    partly = ", known parts only" if context.plan.package.mass.is_partly_known else ""
    yield Big(label="Weighs", text=context.mass(plan.packed.mass_kg), says=f"without the box{partly}")
    yield Big(label="Carried by", text="Two people" if plan.packed.is_for_two else "One person")


def steps_of(context: HandOverContext) -> Iterator[str]:
    """What is done, in its order."""
    packing = context.typed.packing
    yield context.plan.hand_over.tape
    yield f"Blocks of {context.say(packing.block.mm)} on all corners, card over face and back."
    if packing.per_box > 1 and context.plan.frame.count > 1:
        yield f"Face to face and back to back, {context.say(packing.between.mm)} of card between."
    yield (
        "Write on two sides: this side up, fragile, glass."
        if _is_glazed(context)
        else ("Write on two sides: this side up, fragile.")
    )


def _is_glazed(context: HandOverContext) -> bool:
    return context.plan.package.glazing.value == "glass"
