"""How the package is held from behind: by what, how many, how far apart, with which screws."""

from collections.abc import Iterator

from framecalc.errors import FrameCalcError
from framecalc.evidence import PRACTICE
from framecalc.package.retainers import Retainer, Spacing
from framecalc.plan.package.retainers import HeldPlan
from webapp.live.answers import AnswerGroup, Big, plural, refusal
from webapp.pages.package.groups.asked import PackageContext, source_words

CAUTIONS = ("Drill for every screw, short of the face; points are pushed in with a driver, never hammered over glass.",)


def held(asked: PackageContext) -> AnswerGroup:
    """What holds the package."""
    plan = asked.plan.package.held
    if plan is None:
        return AnswerGroup(name="held", lines=("In a tray the artwork is screwed on from behind, through the ledge.",))
    return AnswerGroup(
        name="held",
        bigs=_bigs(asked, plan),
        lines=tuple(_lines(asked, plan)),
        drawings=asked.drawn("held"),
        findings=asked.advice(plan.findings),
        sources=(source_words(PRACTICE), "Screw lengths and steps of clips as usually sold."),
        cautions=CAUTIONS,
    )


def _bigs(asked: PackageContext, plan: HeldPlan) -> tuple[Big, ...]:
    retention, (across, up) = plan.retention, plan.spacings
    name = retention.retainer.value
    return (
        Big(label="Held by", text=name[:1].upper() + name[1:], says=_size(asked, plan)),
        Big(
            label="How many", text=str(plan.count), says=f"{across.count} along top and bottom, {up.count} at the sides"
        ),
        Big(
            label="Apart",
            text=asked.tape(max(across.apart_mm, up.apart_mm)),
            says=f"at most {asked.say(plan.limit_mm)}",
        ),
    )


def _size(asked: PackageContext, plan: HeldPlan) -> str:
    says = {
        Retainer.SHIM: "the shim is {size} thick",
        Retainer.CLIPS: "they step down {size}",
        Retainer.STRIP: "the strip is {size} thick",
    }
    return says.get(plan.retention.retainer, "").format(size=asked.say(plan.retention.size_mm))


def _lines(asked: PackageContext, plan: HeldPlan) -> Iterator[str]:
    yield plan.retention.why
    if plan.retention.retainer is Retainer.CLIPS and plan.retention.spring_mm > 0:
        yield f"Each clip bends by {asked.say(plan.retention.spring_mm)}."
    across, up = plan.spacings
    yield f"Along top and bottom, from the rabbet's corner: {_places(asked, across)}."
    yield f"Along left and right: {_places(asked, up)}."
    yield from _screw_lines(asked, plan)


def _places(asked: PackageContext, spacing: Spacing) -> str:
    said = ", ".join(asked.tape(place_mm) for place_mm in spacing.places_mm[:12])
    return said if spacing.count <= 12 else f"{said} … {plural(spacing.count, 'place')} in all"


def _screw_lines(asked: PackageContext, plan: HeldPlan) -> Iterator[str]:
    try:
        screwing = plan.screwing
    except FrameCalcError as error:
        yield refusal(error, asked.say)
        return
    if screwing:
        screw = screwing.screw
        yield (
            f"Screws of {asked.say(screw.length_mm)}, {asked.say(screwing.from_wall_mm)} from the rabbet wall: the wood"
            f" is {asked.say(screwing.wood_mm)} thick there, so a screw may be {asked.say(screw.longest_mm)} long; this"
            f" one has {asked.say(screw.bite_mm)} in the wood."
        )
