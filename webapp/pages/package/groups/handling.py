"""The pane, the sag of the bottom member under the package, and the weight to lift."""

from collections.abc import Iterator

from framecalc.package.pane import Pane
from framecalc.plan.package.handling import HandlingPlan
from framecalc.plan.package.stiffener_words import NAMES, stiffener_size
from framecalc.units import describe_size
from framecalc.words import joined, worded
from webapp.live.answers import AnswerGroup, Big, Table
from webapp.pages.package.groups.context import PackageContext

SOURCES = (
    "Largest panes, the limit of the sag (1/360 of the span) and when two lift: usual practice.",
    "Sag: a beam on two supports; the stiffness of the wood: Wood Handbook FPL-GTR-282, tables 5-3b and 5-5b.",
)


def handling(context: PackageContext) -> AnswerGroup:
    """Whether the pane is thick enough, the bottom member stiff enough, and who lifts it."""
    plan = context.plan.package.handling
    if plan is None:
        return AnswerGroup(
            name="handling",
            answer="Carried by its screws",
            applies=False,
            does=("In a tray the artwork carries itself on its screws: no member bends under it.",),
        )
    return AnswerGroup(
        name="handling",
        answer=f"{context.mass(plan.whole_kg)}; sags {_sag(context, plan.sag_mm)}",
        bigs=tuple(_bigs(context, plan)),
        does=tuple(_does(context, plan)),
        findings=context.advice((*plan.findings, *plan.lift_findings)),
        tables=tuple(_ways(context, plan)),
        sources=SOURCES,
    )


def _bigs(context: PackageContext, plan: HandlingPlan) -> Iterator[Big]:
    if plan.pane:
        yield Big(
            label=f"Pane of {plan.pane.glazing.value}", text=_weight(context, plan), says=_largest(context, plan.pane)
        )
    yield Big(
        label="Bottom member sags",
        text=_sag(context, plan.sag_mm),
        says=f"up to {context.say(plan.beam.limit_mm)} is usual",
    )
    yield Big(label="Each lower corner carries", text=context.mass(plan.beam.corner_kg), says=_without(context))
    yield Big(label="Frame and package weigh", text=context.mass(plan.whole_kg), says=_without(context))


def _ways(context: PackageContext, plan: HandlingPlan) -> Iterator[Table]:
    """What brings the sag within its limit, where it is beyond; what was chosen, always."""
    chosen, too_far = plan.stiffened, plan.beam.sag_mm > plan.beam.limit_mm
    shown = (chosen,) if chosen else plan.ways_to_stiffen if too_far else ()
    if shown:
        rows = tuple((NAMES[one.kind], stiffener_size(context.plan, one), _sag(context, one.sag_mm)) for one in shown)
        caption = "Stiffened by" if chosen else "What stiffens the bottom member enough"
        yield Table(caption=caption, heads=("Screwed on behind", "Thick × wide × long", "Sags"), rows=rows)


def _sag(context: PackageContext, sag_mm: float) -> str:
    """The sag as its finding says it; one that no tape reads is less than its step."""
    step_mm = float(context.plan.step.size_mm)
    return context.say(sag_mm) if sag_mm >= step_mm else f"under {context.tape(step_mm)}"


def _weight(context: PackageContext, plan: HandlingPlan) -> str:
    return context.mass(plan.pane_kg) if plan.pane_kg else "weight not known"


def _largest(context: PackageContext, pane: Pane) -> str:
    if pane.limit is None:
        return "thinner than any in use"
    return f"usual up to {describe_size(pane.limit.long_mm, pane.limit.short_mm, unit=context.plan.unit)}"


def _without(context: PackageContext) -> str:
    return "known parts only" if context.plan.package.mass.is_partly_known else ""


def _does(context: PackageContext, plan: HandlingPlan) -> Iterator[str]:
    if not plan.findings:
        yield "The bottom member is stiff enough." if plan.pane is None else "Pane and bottom member are stiff enough."
    if not plan.is_wood_known:
        name = context.plan.frame.species
        which = worded("“{name}” is not one wood of the table", name=name) if name else "The wood is not chosen"
        yield joined("", [which, ": counted as a light softwood, which sags most."])
    if context.plan.package.mass.is_partly_known:
        yield "Weigh what is not known: the sag is worked out without it."
