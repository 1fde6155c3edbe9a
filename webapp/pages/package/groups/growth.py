"""How the layers grow and shrink with the air, the clearance that this needs, and how a solid panel is held."""

from collections.abc import Iterator

from framecalc.plan.package.growth import GrownLayer, GrowthPlan
from framecalc.words import worded
from webapp.live.answers import AnswerGroup, Big, Table
from webapp.pages.package.groups.context import PackageContext

ACRYLIC_DAMP = "How acrylic swells with damp: unchecked."


def growth(context: PackageContext) -> AnswerGroup:
    """How the air of the room moves the layers."""
    grown = context.plan.package.growth
    return AnswerGroup(
        name="growth",
        answer=_answer(context, grown),
        applies=bool(grown.layers or grown.unknown or grown.has_panel),
        is_open=grown.has_panel and grown.species is None,
        bigs=_bigs(context, grown),
        does=tuple(_does(context, grown)),
        lines=tuple(_lines(grown)),
        tables=(_table(context, grown),) if grown.layers else (),
        findings=context.advice(grown.findings),
        sources=tuple(_sources(grown)),
    )


def _needed_mm(context: PackageContext, grown: GrowthPlan) -> dict[str, tuple[float, float]]:
    """The clearance that is needed and the one that is typed, each way [mm]."""
    sizes = context.plan.sizes
    return {
        "across": (max(layer.across.clearance_mm for layer in grown.layers), sizes.clearance_across_mm),
        "up": (max(layer.up.clearance_mm for layer in grown.layers), sizes.clearance_up_mm),
    }


def _answer(context: PackageContext, grown: GrowthPlan) -> str:
    """The way with the least to spare."""
    if not grown.layers:
        return "Not known" if grown.unknown or grown.has_panel else "Nothing moves"
    needed_mm, typed_mm = min(_needed_mm(context, grown).values(), key=lambda pair: pair[1] - pair[0])
    return f"Needs {context.say(needed_mm)}; you have {context.say(typed_mm)}"


def _bigs(context: PackageContext, grown: GrowthPlan) -> tuple[Big, ...]:
    if not grown.layers:
        return ()
    most = _needed_mm(context, grown)
    room = "Gap on both sides" if context.plan.is_tray else "Clearance"
    return tuple(
        Big(label=f"{room} needed, {way}", text=context.say(wanted_mm), says=f"you have {context.say(typed_mm)}")
        for way, (wanted_mm, typed_mm) in most.items()
    )


def _lines(grown: GrowthPlan) -> Iterator[str]:
    if not grown.layers:
        yield "No layer as large as the package is known to grow."
    if grown.unknown:
        yield worded("No published figure for {names}: leave a little room.", names=", ".join(grown.unknown))


def _does(context: PackageContext, grown: GrowthPlan) -> Iterator[str]:
    if grown.layers and not grown.findings:
        yield "There is room for it the year round."
    hold = grown.hold
    if hold:
        panel = context.plan.frame.fitting.panel
        yield f"Fix the panel {hold.fixed}; let it slide {hold.slides}."
        yield (
            f"Screws {context.say(panel.from_edge.mm)} from its edges move by {context.say(hold.travel_mm)}: slots of"
            f" {context.say(hold.slot_mm)} for screws of {context.say(panel.screw.mm)}."
        )


def _table(context: PackageContext, grown: GrowthPlan) -> Table:
    return Table(
        caption="Against its size at fitting",
        heads=("Layer", "Grows across", "Shrinks across", "Grows up", "Shrinks up"),
        rows=tuple(_row(context, layer) for layer in grown.layers),
        is_folded=True,
    )


def _row(context: PackageContext, layer: GrownLayer) -> tuple[str, ...]:
    changes = (layer.across.swells_mm, layer.across.shrinks_mm, layer.up.swells_mm, layer.up.shrinks_mm)
    return layer.name, *(context.say(change_mm) for change_mm in changes)


def _sources(grown: GrowthPlan) -> Iterator[str]:
    for material in dict.fromkeys(layer.material for layer in grown.layers):
        if material:
            yield f"{material.name}: {material.evidence.value}."
            if material.material_id == "acrylic":
                yield ACRYLIC_DAMP
    if grown.species:
        yield (
            f"{grown.species.common_name}: Wood Handbook, equations 13-2 and 4-5; the most that can be,"
            " with a panel at rest with the air."
        )
