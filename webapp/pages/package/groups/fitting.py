"""The steps of fitting in their order, and the hazards. The card to print has them with the places of the retainers."""

from framecalc.evidence import PRACTICE
from framecalc.package.fitting import FittedLayer, FittingStep, fitting_cautions, fitting_steps
from framecalc.plan import FramePlan
from framecalc.plan.package.stiffener_words import stiffener_how, stiffener_says
from framecalc.plan.sheets.covers import cover_of
from framecalc.units import describe_size
from framecalc.words import joined
from webapp.live.answers import AnswerGroup, Table, plural
from webapp.pages.package.groups.context import PackageContext, source_words


def fitting(context: PackageContext) -> AnswerGroup:
    """The steps of fitting one frame."""
    steps = steps_of(context.plan)
    does = tuple(joined(". ", [str(number), step.does]) for number, step in enumerate(steps, start=1))
    rows = tuple((str(number), step.does, step.says) for number, step in enumerate(steps, start=1))
    return AnswerGroup(
        name="steps",
        answer=f"{plural(len(steps), 'step')} at the bench",
        is_open=True,
        does=does,
        tables=(Table(caption="In this order", heads=("No.", "Step", "How"), rows=rows, is_folded=True),),
        cautions=cautions_of(context.plan),
        sources=(source_words(PRACTICE),),
    )


def steps_of(plan: FramePlan) -> tuple[FittingStep, ...]:
    """The steps of fitting one frame; retainers that cannot hold are left out: their own group says so."""
    return fitting_steps(
        tuple(FittedLayer(kind=layer.kind, name=layer.name) for layer in plan.layers),
        kind=plan.frame.artwork.kind,
        glazing=plan.package.glazing,
        retainer=plan.package.retainer,
        is_tray=plan.is_tray,
        stiffener=_stiffener(plan),
        cover_size=_cover(plan),
    )


def _cover(plan: FramePlan) -> str:
    """The size of its dust cover; of a polygon only what is set out on its template."""
    cover = cover_of(plan) if plan.shape.is_rectangle else None
    return describe_size(cover.across_mm, cover.up_mm, unit=plan.unit) if cover else ""


def _stiffener(plan: FramePlan) -> FittingStep | None:
    """How the bottom member is stiffened, if it is."""
    found = plan.package.stiffener
    return FittingStep(does=stiffener_says(plan, found), says=stiffener_how(plan, found)) if found else None


def cautions_of(plan: FramePlan) -> tuple[str, ...]:
    """What can hurt in the fitting of one frame."""
    handling = plan.package.handling
    return fitting_cautions(
        glazing=plan.package.glazing,
        retainer=plan.package.retainer,
        is_for_two=bool(handling and handling.lift_findings),
    )
