"""How the package is held from behind: by what, how many, how far apart, with which screws."""

from collections.abc import Iterator

from framecalc.errors import FrameCalcError
from framecalc.evidence import PRACTICE
from framecalc.package.retainer_places import RetainerSpacing
from framecalc.package.retainers import MOST_SPRING_MM, Retainer
from framecalc.plan.package.retainers import RetainersPlan, Screwing
from webapp.live.answers import AnswerGroup, Big, plural, refusal
from webapp.pages.package.groups.context import PackageContext, source_words

POINTS_CAUTION = "Points are pushed in with a driver, never hammered over glass."
SCREWS_CAUTION = "Drill for every screw, short of the face."


def retainers(context: PackageContext) -> AnswerGroup:
    """The retainers of the package."""
    plan = context.plan.package.retainers
    if plan is None:
        return AnswerGroup(
            name="held",
            answer="Screwed on from behind",
            applies=False,
            does=("In a tray the artwork is screwed on from behind, through the ledge.",),
        )
    screwing = _screwing(plan)
    screws = not isinstance(screwing, FrameCalcError)
    return AnswerGroup(
        name="held",
        answer=f"{plan.count} {_called(plan)}, {_apart(context, plan)} apart",
        bigs=_bigs(context, plan),
        does=tuple(_place_lines(context, plan) if screws else _screw_lines(context, screwing)),
        lines=(*_lines(context, plan), *(_screw_lines(context, screwing) if screws else _place_lines(context, plan))),
        drawings=context.drawn("held"),
        findings=context.advice(plan.findings),
        sources=(
            source_words(PRACTICE),
            *(["Screw lengths and steps of clips as usually sold."] if plan.is_screwed else []),
        ),
        cautions=(SCREWS_CAUTION if plan.is_screwed else POINTS_CAUTION,),
        refuses=not screws,
    )


def _called(plan: RetainersPlan) -> str:
    """What there are so many of: of turn buttons over a shim the buttons."""
    name = plan.retention.retainer.value
    return name.partition(", and ")[2].removesuffix(" over it") or name


def _bigs(context: PackageContext, plan: RetainersPlan) -> tuple[Big, ...]:
    retention, (across, up) = plan.retention, plan.spacings
    name = retention.retainer.value
    says = f"{across.count} along top and bottom, {up.count} at the sides"
    if not context.plan.shape.is_rectangle:
        says = f"{across.count} along each of {context.plan.shape.sides} sides"
    return (
        Big(label="Retainers", text=name[:1].upper() + name[1:], says=_size(context, plan)),
        Big(label="How many", text=str(plan.count), says=says),
        Big(
            label="Spacing",
            text=_apart(context, plan),
            says="2 to 4 a side" if plan.is_few else f"at most {context.say(plan.limit_mm)}",
        ),
    )


def _apart(context: PackageContext, plan: RetainersPlan) -> str:
    """The widest gap between two; one alone stands in the middle of its side."""
    apart_mm = max(spacing.apart_mm for spacing in plan.spacings)
    return context.tape(apart_mm) if apart_mm else "One in the middle"


def _size(context: PackageContext, plan: RetainersPlan) -> str:
    says = {
        Retainer.SHIM: "the shim is {size} thick",
        Retainer.CLIPS: "they step down {size}",
        Retainer.STRIP: "the strip is {size} thick",
    }
    return says.get(plan.retention.retainer, "").format(size=context.say(plan.retention.size_mm))


def _lines(context: PackageContext, plan: RetainersPlan) -> Iterator[str]:
    yield plan.retention.why
    if plan.retention.retainer is Retainer.CLIPS and plan.retention.spring_mm > 0:
        yield (
            f"Each clip bends by {context.say(plan.retention.spring_mm)}; more than {context.say(MOST_SPRING_MM)} is"
            " not asked of steel."
        )


def _place_lines(context: PackageContext, plan: RetainersPlan) -> Iterator[str]:
    across, up = plan.spacings
    if not context.plan.shape.is_rectangle:
        yield f"Along every side, from the rabbet's corner: {_places(context, across)}."
        return
    yield f"Along top and bottom, from the rabbet's corner: {_places(context, across)}."
    yield f"Along left and right: {_places(context, up)}."


def _places(context: PackageContext, spacing: RetainerSpacing) -> str:
    said = ", ".join(context.tape(place_mm) for place_mm in spacing.places_mm[:12])
    return said if spacing.count <= 12 else f"{said} … {plural(spacing.count, 'place')} in all"


def _screwing(plan: RetainersPlan) -> Screwing | FrameCalcError | None:
    """How it is screwed, or why it cannot be."""
    try:
        return plan.screwing
    except FrameCalcError as error:
        return error


def _screw_lines(context: PackageContext, screwing: Screwing | FrameCalcError | None) -> Iterator[str]:
    if isinstance(screwing, FrameCalcError):
        yield refusal(screwing, context.say)
    elif screwing:
        screw = screwing.screw
        yield (
            f"Screws of {context.say(screw.length_mm)}, {context.say(screwing.from_wall_mm)} from the rabbet wall:"
            f" {context.say(screw.bite_mm)} in the wood. Longer than {context.say(screw.longest_mm)} comes too near the"
            " face."
        )
