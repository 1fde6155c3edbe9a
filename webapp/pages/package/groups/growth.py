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
        bigs=_bigs(context, grown),
        lines=tuple(_lines(context, grown)),
        tables=(_table(context, grown),) if grown.layers else (),
        findings=context.advice(grown.findings),
        sources=tuple(_sources(grown)),
    )


def _bigs(context: PackageContext, grown: GrowthPlan) -> tuple[Big, ...]:
    if not grown.layers:
        return ()
    sizes = context.plan.sizes
    most = {
        "across": (max(layer.across.clearance_mm for layer in grown.layers), sizes.clearance_across_mm),
        "up": (max(layer.up.clearance_mm for layer in grown.layers), sizes.clearance_up_mm),
    }
    room = "Gap on both sides" if context.plan.is_tray else "Clearance"
    return tuple(
        Big(label=f"{room} asked for, {way}", text=context.say(wanted_mm), says=f"typed is {context.say(typed_mm)}")
        for way, (wanted_mm, typed_mm) in most.items()
    )


def _lines(context: PackageContext, grown: GrowthPlan) -> Iterator[str]:
    if not grown.layers:
        yield "No layer as large as the package is known to grow."
    if grown.unknown:
        yield worded("Nobody publishes a figure for {names}: give it a little room.", names=", ".join(grown.unknown))
    if grown.has_panel and grown.species is None:
        yield "Choose the wood of the solid panel, and how far it moves is worked out."
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
