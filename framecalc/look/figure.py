"""The figure of a wood: how far apart its rings lie, how they differ in tone, its pores, rays and streaks.

A board is *flat-sawn* where the rings lie level with its face, *quartered* where they stand on it, *rift* between. The
*contrast* is how strongly late wood is tinted. Wood is *ring-porous* where large pores begin each ring, *diffuse* where
they are alike all through it, *semi* between; a *soft* wood has none, and its rings end dark.
"""

from enum import StrEnum
from functools import cache

from framecalc.records import Record
from framecalc.tables.reading import read_rows


class Porosity(StrEnum):
    """Where in a ring the pores lie."""

    RING = "ring"
    SEMI = "semi"
    DIFFUSE = "diffuse"
    SOFT = "soft"


class Sawn(StrEnum):
    """How the rings lie in the face of a board."""

    FLAT = "flat"
    RIFT = "rift"
    QUARTERED = "quartered"


class WoodFigure(Record):
    """The figure of one wood; ratios are strengths, 0 for none."""

    ring_mm: float
    contrast_ratio: float
    porosity: Porosity
    pores_ratio: float
    pore_mm: float
    rays_ratio: float
    fibre_ratio: float
    streak_ratio: float
    curl_ratio: float


USUAL_FIGURE = WoodFigure(
    ring_mm=2.8,
    contrast_ratio=0.32,
    porosity=Porosity.DIFFUSE,
    pores_ratio=0.1,
    pore_mm=1.6,
    rays_ratio=0,
    fibre_ratio=0.12,
    streak_ratio=0.08,
    curl_ratio=0,
)
"""A wood that the table does not know. Our own, set by eye, no source."""

RIFT_FROM_DEG, QUARTERED_FROM_DEG = 30.0, 60.0
"""From which angle of the rings a board counts as rift and as quartered. Common practice, no source."""

_SAWN = {"quarter": Sawn.QUARTERED, "rift": Sawn.RIFT, "flat": Sawn.FLAT, "plain": Sawn.FLAT, "crown": Sawn.FLAT}


def figure_of(species: str) -> WoodFigure:
    """The figure of a wood by its name: the entry with the longest name found in it.

    Source: tables/wood_figure.csv: our own, set by eye, no source.

    >>> figure_of("Quartersawn white oak").ring_mm, figure_of("something else") == USUAL_FIGURE
    (2.3, True)
    """
    words = species.casefold().replace(",", " ").split()
    said = f" {' '.join(words)} "
    found = [word for word in _figures() if f" {word} " in said]
    return _figures()[max(found, key=len)] if found else USUAL_FIGURE


def sawn_as(species: str, *, ring_deg: float) -> Sawn:
    """How a board is sawn: as its name says, else by the angle of its rings.

    Args:
        ring_deg: the angle of the rings to the face on the end grain, 0 flat-sawn to 90 quartered [°].
    Source: common practice, no source.

    >>> sawn_as("quartersawn oak", ring_deg=0).value, sawn_as("ash", ring_deg=45).value
    ('quartered', 'rift')
    """
    said = next((sawn for word, sawn in _SAWN.items() if word in species.casefold()), None)
    if said:
        return said
    return Sawn.QUARTERED if ring_deg >= QUARTERED_FROM_DEG else Sawn.RIFT if ring_deg >= RIFT_FROM_DEG else Sawn.FLAT


@cache
def _figures() -> dict[str, WoodFigure]:
    return {row["word"]: _figure(row) for row in read_rows("wood_figure.csv")}


def _figure(row: dict[str, str]) -> WoodFigure:
    numbers = {name: float(text) for name, text in row.items() if name not in ("word", "porosity")}
    return WoodFigure(porosity=Porosity(row["porosity"]), **numbers)
