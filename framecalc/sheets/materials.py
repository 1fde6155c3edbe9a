"""What sheets are made of: how each material is cut, the sizes in which it is sold, what to mind while cutting it.

A *material* is one of the table of sheets. Glass is scored and broken; plastic and panels are sawn; boards are cut with
a knife.
"""

from enum import StrEnum
from fractions import Fraction

from framecalc.tables.sheets import SoldSheet, sold_sheets
from framecalc.units import MM_PER_INCH, Unit


class SheetCutting(StrEnum):
    """How a material is cut."""

    GLASS = "glass"
    PLASTIC = "plastic"
    BOARD = "board"
    PANEL = "panel"

    @property
    def is_sawn(self) -> bool:
        """Whether a blade takes a kerf."""
        return self in (SheetCutting.PLASTIC, SheetCutting.PANEL)


_CUTTING = {
    "glass": SheetCutting.GLASS,
    "glass_laminated": SheetCutting.GLASS,
    "acrylic": SheetCutting.PLASTIC,
    "polycarbonate": SheetCutting.PLASTIC,
    "petg": SheetCutting.PLASTIC,
    "matboard_4ply": SheetCutting.BOARD,
    "matboard_8ply": SheetCutting.BOARD,
    "foamboard_5": SheetCutting.BOARD,
    "fluted_pp_4": SheetCutting.BOARD,
    "fluted_board": SheetCutting.BOARD,
    "paper": SheetCutting.BOARD,
}

_SOLD_AS = {
    "glass": ("picture glass (boxed cut size)",),
    "acrylic": ("acrylic", "acrylic (metric)"),
    "matboard_4ply": ("mat and foam board", "mount board (metric)"),
    "matboard_8ply": ("mat and foam board", "mount board (metric)"),
    "foamboard_5": ("foam board", "mat and foam board"),
    "fluted_pp_4": ("fluted polypropylene",),
    "hardboard": ("plywood, MDF, hardboard",),
    "mdf": ("plywood, MDF, hardboard", "plywood, MDF (metric)"),
    "plywood_softwood": ("plywood, MDF, hardboard", "plywood, MDF (metric)"),
    "plywood_birch": ("plywood, all-birch", "plywood, all-birch (metric)"),
}
"""Under which names the table of sizes holds a material."""

_CAUTIONS = {
    SheetCutting.GLASS: (
        "Edges cut: wear cut-resistant gloves and eye protection, carry glass upright, and seam the edges before the "
        "glass goes into a frame.",
        "Run each score from edge to edge once, and break it at once. Pick splinters up with a brush, not by hand.",
    ),
    SheetCutting.PLASTIC: (
        "Leave the film on. Chips fly: wear eye protection, use a blade made for plastic, and follow the saw's manual "
        "for guard, feed and support.",
    ),
    SheetCutting.BOARD: (
        "Use a fresh blade and several light strokes along a ruler with a guard; keep the hand that holds it behind "
        "the edge, and never cut toward it.",
    ),
    SheetCutting.PANEL: (
        "Use guard, riving knife and push sticks, hold a large sheet up on both sides of the cut, and follow the saw's "
        "manual.",
        "The dust of panels is fine and unhealthy: use extraction, and a mask that fits.",
    ),
}
"""What to mind. Source: common practice, no source; gloves by ANSI/ISEA 105 or EN 388, from memory, not re-read."""


_PARTS_OF_MM = 100
"""A size of the table is read as a fraction of a millimetre with no larger denominator. Ours."""


def cutting_of(material: str) -> SheetCutting:
    """How a material is cut; what the table does not know is sawn.

    Source: common practice, no source.

    >>> cutting_of("matboard_4ply").value, cutting_of("solid wood").value
    ('board', 'panel')
    """
    return _CUTTING.get(material, SheetCutting.PANEL)


def cautions_for(cutting: SheetCutting) -> tuple[str, ...]:
    """What to mind while cutting, in plain sentences.

    Source: common practice, no source.
    """
    return _CAUTIONS[cutting]


def sizes_sold(material: str, *, unit: Unit) -> tuple[SoldSheet, ...]:
    """The sizes in which a material is sold, those made in the project's unit first, the smaller first.

    Source: tables/sheet_sizes.csv, common practice, no source.

    >>> [sheet.sold_as for sheet in sizes_sold("matboard_4ply", unit=Unit.MM)][:2]
    ['815 x 1120 mm', '32 x 40']
    """
    sold = [sheet for name in _SOLD_AS.get(material, ()) for sheet in sold_sheets() if sheet.material == name]
    return tuple(sorted(sold, key=lambda sheet: (sold_in(sheet) is not unit, sheet.across_mm * sheet.up_mm)))


def sold_in(sheet: SoldSheet) -> Unit:
    """The unit that a size is made in.

    Source: tables/sheet_sizes.csv.
    """
    return Unit.MM if "metric" in sheet.note else Unit.INCH


def size_as_sold(sheet: SoldSheet) -> tuple[str, str]:
    """Across and up of a size, as they are typed.

    Source: tables/sheet_sizes.csv.

    >>> [size_as_sold(sheet) for sheet in sizes_sold("matboard_4ply", unit=Unit.MM)][:2]
    [('815 mm', '1120 mm'), ('32 in', '40 in')]
    """
    unit = sold_in(sheet)
    scale = MM_PER_INCH if unit is Unit.INCH else Fraction(1)
    lengths = (
        float(Fraction(length_mm).limit_denominator(_PARTS_OF_MM) / scale)
        for length_mm in (sheet.across_mm, sheet.up_mm)
    )
    across, up = (f"{length:g} {unit.value}" for length in lengths)
    return across, up


def name_as_sold(sheet: SoldSheet) -> str:
    """What a size is called, with its unit once.

    Source: tables/sheet_sizes.csv.

    >>> [name_as_sold(sheet) for sheet in sizes_sold("matboard_4ply", unit=Unit.MM)][:2]
    ['815 × 1120 mm', '32 × 40 in']
    """
    across, up = size_as_sold(sheet)
    return f"{across.partition(' ')[0]} × {up}"
