"""What the page of woods shows: every wood of the table, how it moves, how far it would open this frame."""

from framecalc.errors import FrameCalcError
from framecalc.plan.corners.seasons import SeasonsPlan, WoodInRoom
from framecalc.units import describe_gap, write_gap
from framecalc.weights import density_text
from webapp.live.answers import Table, refusal
from webapp.live.shown import FrameShown
from webapp.live.typed.answer import FrameAnswer
from webapp.pages.corners.groups.seasons import DENSITY, EQUILIBRIUM, STATUS

SHRINKAGE = {
    "A": "Wood Handbook, table 4-3",
    "B": "Wood Handbook, table 4-3",
    "G": "Wood Handbook, table 4-4",
    "M": "unchecked: measure yours",
}
HEADS = (
    "Wood",
    "Opens, flat-sawn",
    "Opens, quarter-sawn",
    "Moves, flat-sawn",
    "Moves, quarter-sawn",
    "Shrinks, along rings",
    "Shrinks, across rings",
    "Weighs",
    "How far to trust it",
)


class WoodsShown(FrameShown):
    """What the page of woods shows."""

    says: str
    table: Table | None
    sources: tuple[str, ...]


def woods_shown(answer: FrameAnswer) -> WoodsShown:
    """What the page of woods shows."""
    sources = (EQUILIBRIUM, *(f"{letter}: {words}." for letter, words in _letters().items()))
    return WoodsShown(answer=answer, says=_says(answer), table=_table(answer), sources=sources)


def _says(answer: FrameAnswer) -> str:
    """The conditions of the gaps in the table; or why there are none."""
    try:
        return (
            "How far the mitres of this frame would open in a year at worst, with nothing to hold them: put together at"
            f" {_seasons(answer).assembled_pct:.1f}% moisture, in the air typed on the Corners page."
        )
    except FrameCalcError as error:
        return refusal(
            error, lambda length_mm: describe_gap(length_mm, unit=answer.project.unit), unit=answer.project.unit
        )


def _table(answer: FrameAnswer) -> Table | None:
    try:
        woods = _seasons(answer).woods
    except FrameCalcError:
        return None
    rows = tuple(_row(answer, wood) for wood in woods)
    return Table(caption=f"{len(rows)} woods, the one that opens least first", heads=HEADS, rows=rows)


def _seasons(answer: FrameAnswer) -> SeasonsPlan:
    return answer.plan.corners.seasons


def _row(answer: FrameAnswer, wood: WoodInRoom) -> tuple[str, ...]:
    species, moves, unit = wood.species, wood.coefficients, answer.project.unit
    return (
        f"{species.common_name} ({species.botanical_name})",
        f"{write_gap(wood.flat_sawn_mm, unit=unit)} {unit}",
        f"{write_gap(wood.quarter_sawn_mm, unit=unit)} {unit}",
        f"{moves.tangential_per_pct:.3%}",
        f"{moves.radial_per_pct:.3%}",
        f"{species.tangential_shrinkage_pct:g}%",
        f"{species.radial_shrinkage_pct:g}%",
        density_text(species.density_kg_m3, unit=unit),
        f"moves {_coefficient_letter(wood)}, shrinks {species.shrinkage_status}, weighs {_density_letter(wood)}",
    )


def _coefficient_letter(wood: WoodInRoom) -> str:
    status = wood.species.coefficient_status
    return "–" if status == "none" else status


def _density_letter(wood: WoodInRoom) -> str:
    return wood.species.density_source.split(",")[0]


def _letters() -> dict[str, str]:
    """The meaning of each letter in the last column."""
    moves = {f"moves {'–' if letter == 'none' else letter}": words for letter, words in STATUS.items()}
    shrinks = {f"shrinks {letter}": words for letter, words in SHRINKAGE.items()}
    return moves | shrinks | {f"weighs {letter}": words for letter, words in DENSITY.items()}
