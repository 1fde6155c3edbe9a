"""The gap between glazing and artwork, and what conservators ask of the materials."""

from framecalc.artwork.measuring import ArtworkKind
from framecalc.package.glazing import Gap, Glazing
from framecalc.plan.package.package import PackagePlan
from webapp.live.answers import AnswerGroup, Big, Table
from webapp.pages.package.groups.context import PackageContext, source_words

ADD_A_SPACER = "The gap is made by mats, spacers and fillets: add one for more."
OFF_THE_GLAZING = "Spacers or a box keep an object off the glazing."


def gap(context: PackageContext) -> AnswerGroup:
    """The gap between the glazing and the artwork."""
    package = context.plan.package
    wanted = package.gap_wanted
    return AnswerGroup(
        name="gap",
        answer=_answer(context, package),
        applies=package.glazing is not Glazing.NONE,
        bigs=_bigs(context, package),
        does=_does(context, package),
        tables=(_asked_for(package),),
        findings=context.found("glazing"),
        sources=(f"How wide a gap: {source_words(wanted.source)[:1].lower()}{source_words(wanted.source)[1:]}",),
    )


def _is_object(context: PackageContext) -> bool:
    return context.plan.frame.artwork.kind is ArtworkKind.OBJECT


def _does(context: PackageContext, package: PackagePlan) -> tuple[str, ...]:
    if package.glazing is Glazing.NONE:
        return ("Nothing stands in front of the artwork.",)
    return (OFF_THE_GLAZING,) if _is_object(context) else (package.gap_wanted.why, ADD_A_SPACER)


def _answer(context: PackageContext, package: PackagePlan) -> str:
    if package.glazing is Glazing.NONE:
        return "No glazing"
    if _is_object(context):
        return context.say(package.gap_mm)
    return f"{context.say(package.gap_mm)}; needs at least {context.say(package.gap_wanted.least_mm)}"


def _bigs(context: PackageContext, package: PackagePlan) -> tuple[Big, ...]:
    if package.glazing is Glazing.NONE:
        return (Big(label="Glazing", text="none"),)
    gap = Big(label="Glazing to artwork", text=context.say(package.gap_mm))
    glazing = Big(label="Glazing", text=package.glazing.value)
    return (gap, glazing) if _is_object(context) else (gap, _needs(context, package.gap_wanted), glazing)


def _needs(context: PackageContext, wanted: Gap) -> Big:
    usual = f"{context.say(wanted.usual_mm)} is usual" if wanted.usual_mm > wanted.least_mm else ""
    return Big(label="Needs at least", text=context.say(wanted.least_mm), says=usual)


def _asked_for(package: PackagePlan) -> Table:
    return Table(
        caption="What conservators ask of the materials",
        heads=("For this kind of artwork", "Standing", "Source"),
        rows=tuple(
            (statement.says, statement.source.evidence.value, statement.source.name) for statement in package.statements
        ),
        is_folded=True,
    )
