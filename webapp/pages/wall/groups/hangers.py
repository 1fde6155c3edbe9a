"""How one frame hangs: its weight, where the hangers go, what they carry, how it leans, how far it drops."""

from collections.abc import Iterator

from framecalc.findings import Rounding
from framecalc.hanging.cleat import Cleat
from framecalc.hanging.hangers import Hanger
from framecalc.plan.hanging.hangers import HangersPlan
from framecalc.units import format_length
from framecalc.words import joined, worded
from webapp.live.answers import AnswerGroup, Big, degrees
from webapp.pages.wall.groups.context import WallContext

SOURCES = (
    "Weight: the section fibre by fibre, and the layers. Loads, wire and lean: statics, without friction.",
    "A quarter to a third down, 30° and 15°, the factor, 3 mm under the face: usual practice.",
    "Left out: how a wire stretches, the finish, the glue.",
)
CAUTIONS = (
    "No figure here approves a hanger or a fixing: check the load against its packet.",
    "Local codes come first. Over beds and seats and where children reach: plates that lock, into stud or masonry.",
)


def hangers(context: WallContext) -> AnswerGroup:
    """Where the hangers of a frame go, and what they carry."""
    plan = context.plan.hangers
    if context.plan.shape.slopes and context.plan.frame.hanging.drop:
        return _by_drop(context, plan)
    placed = plan.placed
    return AnswerGroup(
        name="hangers",
        answer=f"{context.mass(plan.balance.mass_kg)}; {_called(plan)}, drop {context.tape(placed.drop_mm)}",
        is_open=not plan.is_chosen or context.plan.frame.hanging.rating is None,
        bigs=tuple(_bigs(context, plan)),
        does=tuple(_does(context, plan)),
        lines=tuple(_lines(context, plan)),
        drawings=context.drawn("hangers"),
        findings=context.advice((*plan.findings, *context.plan.package.weights.findings)),
        cautions=CAUTIONS,
        sources=SOURCES,
    )


def _by_drop(context: WallContext, plan: HangersPlan) -> AnswerGroup:
    """Sloping sides, of which only the measured drop is known."""
    return AnswerGroup(
        name="hangers",
        answer=f"{context.mass(plan.balance.mass_kg)}; drop {context.tape(plan.drop_mm)}",
        bigs=(
            Big(label="Drop", text=context.tape(plan.drop_mm), says="as measured"),
            Big(label="Whole frame weighs", text=context.mass(plan.balance.mass_kg), says=_without(context)),
        ),
        does=("Sloping sides: what carries the hangers is yours to choose; places and lean are not worked out.",),
        cautions=CAUTIONS,
    )


def _bigs(context: WallContext, plan: HangersPlan) -> Iterator[Big]:
    to = "the strip on the wall" if plan.cleat else "the hook, as loaded"
    yield Big(label="Drop", text=context.tape(plan.drop_mm), says=f"top edge to {to}")
    yield Big(label="Whole frame weighs", text=context.mass(plan.balance.mass_kg), says=_without(context))
    yield Big(label="Most on one hanger", text=context.mass(plan.load_kg), says=_asked(context, plan))


def _without(context: WallContext) -> str:
    if context.plan.package.mass.is_weighed:
        return "on the scales"
    return "known parts only" if context.plan.package.mass.is_partly_known else ""


def _asked(context: WallContext, plan: HangersPlan) -> str:
    factor = float(context.plan.frame.hanging.factor)
    return f"look for {context.mass(plan.load_kg * factor)} on its packet"


def _does(context: WallContext, plan: HangersPlan) -> Iterator[str]:
    yield f"{_where(context, plan)} {_screwed(context, plan)}"
    if plan.wire:
        yield _wire(context, plan)
    if plan.cleat:
        yield _cleat(context, plan.cleat)


def _cleat(context: WallContext, cleat: Cleat) -> str:
    sizes = (cleat.out_mm, cleat.strip_mm, cleat.long_mm)
    size = " × ".join(format_length(one, step=context.plan.step, rounding=Rounding.UP).text for one in sizes)
    return (
        f"Rip a strip of {size} {context.plan.unit} at 45° along its middle: one half on the frame, bevel down,"
        f" the other on the wall, bevel up. Leave {context.tape(cleat.lift_mm)} over the frame to lift it off."
    )


def _where(context: WallContext, plan: HangersPlan) -> str:
    at_mm = plan.across_mm / 2 - abs(plan.placed.places[0][0])
    if len(plan.placed.places) == 1:
        return f"{_ONE[plan.kind]} in the middle of the top side, its screws {context.tape(plan.down_mm)} down."
    return f"Screws {context.tape(plan.down_mm)} down from the top, {context.tape(at_mm)} from each side."


_ONE = {Hanger.TOOTHED: "The toothed hanger", Hanger.CLEAT: "The cleat"}


def _screwed(context: WallContext, plan: HangersPlan) -> str:
    if plan.screw is None:
        return ""
    screw = plan.screw
    return (
        f"Screws of {context.say(screw.length_mm)} bite {context.say(screw.bite_mm)}. No longer than"
        f" {context.say(screw.longest_mm)}: it would come too near the face."
    )


def _wire(context: WallContext, plan: HangersPlan) -> str:
    assert plan.wire is not None
    wire = plan.wire
    return (
        f"Cut {context.tape(wire.cut_mm)} of wire: {context.tape(wire.between_mm)} ring to ring, the rest for knots."
        f" Loaded it rises {context.tape(wire.rise_mm)} and stands at {degrees(wire.angle_deg, places=0)}."
    )


def _called(plan: HangersPlan) -> str:
    return {
        Hanger.RINGS: "two rings",
        Hanger.WIRE: "rings and wire",
        Hanger.TOOTHED: "toothed hanger",
        Hanger.CLEAT: "cleat",
        Hanger.PLATES: "security plates",
    }[plan.kind]


def _lines(context: WallContext, plan: HangersPlan) -> Iterator[str]:
    balance, lean = plan.balance, plan.lean
    yield (
        f"Centre of gravity: {context.tape(plan.centre_down_mm)} down from the top,"
        f" {context.tape(plan.across_mm / 2 + balance.across_mm)} from the left,"
        f" {context.tape(balance.out_mm)} in front of the back."
    )
    yield (
        f"It leans {degrees(lean.lean_deg, places=1)}: its top edge stands {context.tape(lean.top_out_mm)} off the"
        f" wall. {context.force(plan.pull_n)} pull straight out of the wall."
    )
    if plan.wire:
        wire = plan.wire
        yield f"The wire pulls with {context.force(wire.pull_n)}, each ring inward with {context.force(wire.inward_n)}."
    elif len(plan.placed.places) == 2:
        left, right = plan.shares
        yield f"Left hanger {left:.0%} of the weight, right {right:.0%}."
    parts = context.plan.package.mass.parts
    said = (worded("{name} {mass}", name=part.name, mass=context.mass(part.mass_kg)) for part in parts)
    yield joined("", ["Weight: ", joined(", ", said), "."])
