"""The layers: total thickness, room behind them in the rabbet, weights, sizes to cut."""

from collections.abc import Iterator

from framecalc.evidence import Evidence
from framecalc.findings import Rounding
from framecalc.package.glazing import Glazing
from framecalc.package.layers import LayerKind
from framecalc.package.shelf import SOLID_WOOD
from framecalc.plan import FramePlan
from framecalc.plan.inputs import material_of
from framecalc.project import Layer
from framecalc.tables.sheets import sheet_materials
from framecalc.words import uncapitalised, worded
from webapp.live.answers import AnswerGroup, Big, Table
from webapp.pages.package.groups.context import PackageContext

BANDS = "Bands of glass: ASTM C1036 and EN 572-2. Boards and sheets: usual practice, measure yours."


def layers(context: PackageContext) -> AnswerGroup:
    """The layers in their order."""
    return AnswerGroup(
        name="layers",
        answer=_answer(context),
        does=tuple(_does(context)),
        bigs=_bigs(context),
        lines=tuple(_lines(context)),
        tables=(_table(context),),
        drawings=context.drawn("exploded", "section"),
        findings=(*context.found("package", "rabbet"), *context.advice(context.plan.package.weights.findings)),
        sources=(*((BANDS,) if context.plan.package.glazing is not Glazing.NONE else ()), _densities(context)),
    )


MOST_UNKNOWN = 52
"""As many letters of names as there is room for under a figure."""


def _bigs(context: PackageContext) -> tuple[Big, ...]:
    plan = context.plan
    stack, (weight, known) = plan.stack, weight_words(context)
    left_mm = plan.seat.left_over_mm
    return (
        Big(
            label="Package, thickness",
            text=_figure(plan, "stack"),
            says=f"at most {context.say(stack.worst_mm)}",
        ),
        Big(
            label=_spare(plan),
            text=_figure(plan, _SPARE[left_mm >= 0]),
            says=_spare_says(plan),
        ),
        Big(label="Weight", text=weight, says=known or "without the frame"),
    )


def weight_words(context: PackageContext) -> tuple[str, str]:
    """What the package weighs, and what of it is not known; nothing is reckoned as 0 where nothing is known."""
    weights = context.plan.package.weights
    names = ", ".join(weights.unknown)
    names = f"{names[: MOST_UNKNOWN - 1]}…" if len(names) > MOST_UNKNOWN else names
    if names and not weights.by_layer:
        return "not known", worded("{names}", names=names)
    return context.mass(weights.weighed.mass_kg), worded("without {names}", names=names) if names else ""


_SPARE = {True: "left_over", False: "proud"}
"""The figure of the room behind the package, or of how far it stands out."""


def _figure(plan: FramePlan, name: str) -> str:
    return f"{plan.figures[name].text} {plan.unit}"


def _answer(context: PackageContext) -> str:
    plan = context.plan
    spare = _spare(plan)
    return (
        f"{_figure(plan, 'stack')} thick; {uncapitalised(spare)} {_figure(plan, _SPARE[plan.seat.left_over_mm >= 0])}"
    )


def _does(context: PackageContext) -> Iterator[str]:
    """The size to cut the sheets to, and what is left to weigh."""
    sheets = [layer for layer in context.plan.layers if layer.kind.is_sheet]
    if sheets:
        yield f"Cut every sheet to {_size(context, sheets[0])}."


def _spare(plan: FramePlan) -> str:
    if plan.is_tray:
        return "Below the top of the wall" if plan.seat.left_over_mm >= 0 else "Above the top of the wall"
    return "Room behind" if plan.seat.left_over_mm >= 0 else "Proud of the back"


def _spare_says(plan: FramePlan) -> str:
    if plan.is_tray:
        return "the artwork, face up on the ledge"
    return "of the rabbet's depth" if plan.seat.left_over_mm >= 0 else "stands out behind the frame"


def _span(least: str, most: str) -> str:
    """From one to the other; equal ends are said once."""
    return least if least == most else f"from {least} to {most}"


def _lines(context: PackageContext) -> Iterator[str]:
    stack, seat = context.plan.stack, context.plan.seat
    least, worst = context.say(stack.least_mm), context.say(stack.worst_mm)
    if least == worst:
        yield f"{worst} thick, {_depth(context, seat.left_over_worst_mm).lower()}."
        return
    likely = (context.say(stack.likely_least_mm), context.say(stack.likely_worst_mm))
    yield f"From {least} to {worst} thick, if every layer is at its end; likely {_span(*likely)}."
    yield (
        f"{_depth(context, seat.left_over_worst_mm)} with the layers at their thickest,"
        f" {_depth(context, seat.left_over_best_mm).lower()} at their thinnest."
    )
    guessed = [layer.name for layer in context.plan.layers if not layer.material and material_of(layer)]
    if guessed:
        yield worded("Material guessed from the name: {names}.", names=", ".join(guessed))
    figures = context.plan.figures
    if "in_view_across" in figures:
        yield (
            f"In view inside the fillet: {figures['in_view_across'].text} × {figures['in_view_up'].text}"
            f" {context.plan.unit}."
        )


def _depth(context: PackageContext, left_over_mm: float) -> str:
    if context.plan.is_tray:
        return f"{context.say(abs(left_over_mm))} {'below' if left_over_mm >= 0 else 'above'} the top of the wall"
    return f"{context.say(abs(left_over_mm))} {'of room behind' if left_over_mm >= 0 else 'proud'}"


def _table(context: PackageContext) -> Table:
    masses = {name: context.mass(mass.mass_kg) for name, mass in context.plan.package.weights.by_layer.items()}
    return Table(
        caption="From the front to the back" if context.plan.is_tray else "From the lip to the back",
        heads=("Layer", "Thickness", "Material", "Cut to", "Weight"),
        rows=tuple(
            (
                layer.name,
                _band(layer),
                _material(layer),
                _size(context, layer),
                masses.get(layer.id, "not known"),
            )
            for layer in context.plan.layers
        ),
        is_folded=True,
    )


def _band(layer: Layer) -> str:
    """The thickness as typed, with its tolerance up and down."""
    tolerance, thinner = layer.tolerance, layer.thinner or layer.tolerance
    if tolerance.mm == thinner.mm:
        return f"{layer.thickness.text} ±{tolerance.text}" if tolerance.mm else layer.thickness.text
    return f"{layer.thickness.text} +{tolerance.text} −{thinner.text}"


def _material(layer: Layer) -> str:
    name = material_of(layer)
    if name == SOLID_WOOD:
        return "solid wood"
    known = next((material.name for material in sheet_materials() if material.material_id == name), "")
    return known


def _size(context: PackageContext, layer: Layer) -> str:
    """Sheets are cut to the rabbet size less the clearance, never larger."""
    sizes = context.plan.sizes
    if layer.kind is LayerKind.ARTWORK:
        figures = context.plan.figures
        flats = f"{figures['artwork_flats'].written.full} across the flats" if "artwork_flats" in figures else ""
        return f"as it is, {flats or context.plan.size('artwork')}"
    if layer.kind.is_sheet:
        return context.outline(sizes.package_across_mm, sizes.package_up_mm, rounding=Rounding.DOWN)
    return "over the back, trimmed" if layer.kind is LayerKind.DUST_COVER else "strips along the edge"


def _densities(context: PackageContext) -> str:
    materials = {material_of(layer) for layer in context.plan.layers}
    doubtful = [
        material.name
        for material in sheet_materials()
        if material.material_id in materials and material.evidence is Evidence.PRACTICE
    ]
    said = f" For {', '.join(doubtful)}: usual practice, weigh a sheet." if doubtful else ""
    return f"Weights by thickness and density, published.{said}"
