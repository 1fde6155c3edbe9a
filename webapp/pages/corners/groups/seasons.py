"""The wood through the year: how far the corners would open month by month, and what reduces it."""

from collections.abc import Iterable

from framecalc.errors import quoted
from framecalc.plan.corners.seasons import SeasonsPlan
from framecalc.tables.wood import Species
from framecalc.weights import density_text
from framecalc.wood.naming import woods_called
from framecalc.wood.seasons import FREE_MOVEMENT, Levers, MonthGap, OpensAt, Year
from framecalc.words import worded
from webapp.pages.corners.groups.context import AnswerGroup, Big, CornersContext, Table

MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
EQUILIBRIUM = "Moisture from the air: Wood Handbook FPL-GTR-282, equation 4-5."
STATUS = {
    "C": "coefficients published, Wood Handbook, table 13-5",
    "D": "coefficients published, Wood Handbook, table 13-5",
    "F": "coefficients of the Wood Handbook",
    "M": "unchecked: measure yours",
    "none": "coefficients worked out from its shrinkage, since the handbook has none",
}
DENSITY = {
    "FIA": "USDA Forest Service research note NRS-38 (2009)",
    "FIA+5-3": "USDA Forest Service research note NRS-38 (2009)",
    "5-3": "Wood Handbook, table 5-3b",
    "5-5": "Wood Handbook, table 5-5b",
}


def seasons(context: CornersContext) -> AnswerGroup:
    """How the air of the room opens the corners in a year."""
    wood = context.plan.corners.seasons
    lines = tuple(_air_lines(context, wood))
    if wood.year is None or wood.levers is None or wood.species is None:
        return AnswerGroup(
            name="seasons",
            answer="Which wood?",
            is_open=True,
            does=(_which_wood(context),),
            lines=lines,
            findings=context.advice(wood.findings),
            sources=(EQUILIBRIUM,),
        )
    return AnswerGroup(
        name="seasons",
        answer=f"Opens {context.gap(max(wood.year.inside_mm, wood.year.outside_mm))} in a year",
        bigs=_bigs(context, wood, wood.year),
        does=(_quarter_sawn(context, wood.levers),),
        lines=(*_lines(context, wood), *lines),
        tables=(_levers_table(context, wood, wood.levers), _months_table(context, wood.year)),
        drawings=context.drawn("year"),
        findings=context.advice(wood.findings),
        sources=(_status(wood.species), EQUILIBRIUM),
    )


def _which_wood(context: CornersContext) -> str:
    """What is missing before the year can be worked out: the wood, or which of several."""
    name = context.plan.frame.species
    fitting = [wood.common_name for wood in woods_called(name)]
    if not name:
        return "Name the wood on Setting-out, and how far the corners open through the year is worked out."
    if not fitting:
        return worded("{name} is not in the table. Say on Setting-out which wood it moves as.", name=quoted(name))
    woods = " or ".join(fitting)
    return worded("{name} can be {woods}. Say on Setting-out which it moves as.", name=quoted(name), woods=woods)


def _bigs(context: CornersContext, wood: SeasonsPlan, year: Year) -> tuple[Big, ...]:
    inside = Big(label="Opens at the inside", text=context.gap(year.inside_mm), says=_when(year, OpensAt.INSIDE))
    outside = Big(label="Opens at the outside", text=context.gap(year.outside_mm), says=_when(year, OpensAt.OUTSIDE))
    return (
        *((outside, inside) if year.outside_mm > year.inside_mm else (inside, outside)),
        Big(
            label="Put together at",
            text=f"{wood.assembled_pct:.1f}%",
            says="by meter" if wood.is_metered else "the middle of the year",
        ),
    )


def _when(year: Year, where: OpensAt) -> str:
    months = [month for month in year.months if month.opens is where]
    if not months:
        return "not in this room"
    worst = max(months, key=lambda month: month.gap_mm)
    return f"in {MONTHS[worst.month - 1]}, when the wood is at {worst.moisture_pct:.1f}%"


def _lines(context: CornersContext, wood: SeasonsPlan) -> Iterable[str]:
    yield FREE_MOVEMENT
    coefficients, species = wood.coefficients, wood.species
    if coefficients and species:
        yield (
            f"{species.common_name} moves {coefficients.tangential_per_pct:.3%} of its width for each 1% of"
            " moisture when"
            f" flat-sawn, {coefficients.radial_per_pct:.3%} when quarter-sawn; it weighs"
            f" {density_text(species.density_kg_m3, unit=context.unit)}"
            f" and shrinks {species.tangential_shrinkage_pct:g} and {species.radial_shrinkage_pct:g}% from green"
            " to dry."
        )


def _quarter_sawn(context: CornersContext, levers: Levers) -> str:
    if levers.now_mm <= context.plan.corners.gap_mm:
        return f"That is within the {context.gap(context.plan.corners.gap_mm)} you allow."
    return (
        f"Quarter-sawn stock would open {context.gap(levers.quarter_sawn_mm)}. Stock dried to"
        f" {levers.best_moisture_pct:.1f}% before it is cut would open {context.gap(levers.settled_mm)}."
    )


def _levers_table(context: CornersContext, wood: SeasonsPlan, levers: Levers) -> Table:
    return Table(
        caption="What would make it less",
        heads=("With", "Worst gap of the year"),
        rows=(
            ("as it is", context.gap(levers.now_mm)),
            ("quarter-sawn stock", context.gap(levers.quarter_sawn_mm)),
            (f"stock settled to {levers.best_moisture_pct:.1f}% before it is cut", context.gap(levers.settled_mm)),
            _narrower(context, levers),
            *_splined(context, wood, levers),
        ),
        is_folded=True,
    )


def _narrower(context: CornersContext, levers: Levers) -> tuple[str, str]:
    if levers.now_mm <= context.plan.corners.gap_mm:
        return "narrower members", "not needed: it is within what you allow"
    return f"members of {context.say(levers.widest_mm)}", f"{context.gap(context.plan.corners.gap_mm)}, what you allow"


def _splined(context: CornersContext, wood: SeasonsPlan, levers: Levers) -> Iterable[tuple[str, str]]:
    if wood.spline_depth_mm:
        yield f"a spline {context.say(wood.spline_depth_mm)} deep", f"{context.gap(levers.splined_mm)}, past the spline"


def _months_table(context: CornersContext, year: Year) -> Table:
    return Table(
        caption="Month by month",
        heads=("Month", "Wood", "Gap", "Where"),
        rows=tuple(_month(context, month) for month in year.months),
        is_folded=True,
    )


def _month(context: CornersContext, month: MonthGap) -> tuple[str, ...]:
    return MONTHS[month.month - 1], f"{month.moisture_pct:.1f}%", context.gap(month.gap_mm), month.opens.value


def _air_lines(context: CornersContext, wood: SeasonsPlan) -> Iterable[str]:
    if wood.meter:
        meter = wood.meter
        yield (
            f"The meter says {meter.wood_pct:.1f}%; this room would bring the wood to {meter.room_pct:.1f}%"
            f" ({meter.difference_pct:+.1f}%). It is at rest at {meter.rests_at_humidity_pct:.0f}% humidity."
        )
    if wood.warmed_pct is not None:
        yield (
            f"Air from outdoors, only warmed to the room of the driest month, has {wood.warmed_pct:.0f}% humidity;"
            " cooking, plants and breath add to it."
        )


def _status(species: Species) -> str:
    """The evidence for the numbers of a wood, by the letters of its table."""
    density = DENSITY[species.density_source.split(",")[0]]
    status = STATUS[species.coefficient_status]
    return (
        f"{species.common_name} ({species.botanical_name}): {status}, good from 6 to 14% moisture; density: {density}."
    )
