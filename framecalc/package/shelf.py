"""The shelf: layers ready-made, each with its thickness, how far that may be off, and of what it is.

The first ones are what a package usually starts with; behind them stands every glass, board and sheet of the tables.
Glass, boards and films are sold by the millimetre and keep that unit in an inch job.
"""

import re
from collections.abc import Mapping
from functools import cache, lru_cache
from types import MappingProxyType

from framecalc.evidence import Evidence, evidence_of_status
from framecalc.package.layers import LayerKind
from framecalc.records import Record
from framecalc.tables.reading import GlassThickness, SheetThickness, glass_thicknesses, sheet_thicknesses

GLASSES = ("glass", "glass_laminated")
"""Materials of the table of sheets that are glass: scored and broken, not sawn."""

THICKEST_GLASS_MM = 6.0
"""Thicker glass is no picture glass. Source: common practice, no source."""

SOLID_WOOD = "solid wood"
"""A material that is no sheet: it moves across its grain, by its species."""


class ReadyMade(Record):
    """A ready-made layer, as texts for the fields of the form.

    `thinner` is blank where the layer may be as much thinner as thicker. `standard` is blank where no standard gives
    the thickness.
    """

    name: str
    kind: LayerKind
    thickness: str
    tolerance: str
    material: str = ""
    thinner: str = ""
    evidence: Evidence = Evidence.PRACTICE
    standard: str = ""


_GLAZING, _ARTWORK = LayerKind.GLAZING, LayerKind.ARTWORK
_USUAL = {
    "glass": ReadyMade(name="Glass", kind=_GLAZING, thickness="2 mm", tolerance="0.1 mm", material="glass"),
    "acrylic": ReadyMade(name="Acrylic", kind=_GLAZING, thickness="3 mm", tolerance="0.2 mm", material="acrylic"),
    "mat": ReadyMade(
        name="Mat board, 4-ply",
        kind=LayerKind.MAT,
        thickness="1.45 mm",
        tolerance="0.15 mm",
        material="matboard_4ply",
    ),
    "mat8": ReadyMade(
        name="Mat board, 8-ply", kind=LayerKind.MAT, thickness="2.95 mm", tolerance="0.25 mm", material="matboard_8ply"
    ),
    "spacer": ReadyMade(name="Spacer", kind=LayerKind.SPACER, thickness="6 mm", tolerance="0.2 mm"),
    "fillet": ReadyMade(
        name="Fillet", kind=LayerKind.FILLET, thickness="4 mm", tolerance="0.2 mm", material=SOLID_WOOD
    ),
    "liner": ReadyMade(name="Liner", kind=LayerKind.FILLET, thickness="10 mm", tolerance="0.3 mm", material=SOLID_WOOD),
    "print": ReadyMade(name="Print on paper", kind=_ARTWORK, thickness="0.3 mm", tolerance="0 mm", material="paper"),
    "textile": ReadyMade(name="Textile", kind=_ARTWORK, thickness="1 mm", tolerance="0.5 mm"),
    "panel": ReadyMade(name="Panel", kind=_ARTWORK, thickness="3 mm", tolerance="0.2 mm", material="hardboard"),
    "board": ReadyMade(
        name="Solid-wood panel", kind=_ARTWORK, thickness="18 mm", tolerance="0.3 mm", material=SOLID_WOOD
    ),
    "canvas": ReadyMade(name="Canvas on its stretcher", kind=_ARTWORK, thickness="19 mm", tolerance="0.5 mm"),
    "object": ReadyMade(name="Object", kind=_ARTWORK, thickness="30 mm", tolerance="1 mm"),
    "backing": ReadyMade(
        name="Backing board",
        kind=LayerKind.BACKING,
        thickness="4.8 mm",
        tolerance="0.2 mm",
        material="foamboard_5",
    ),
    "mount": ReadyMade(
        name="Rag mount board",
        kind=LayerKind.BACKING,
        thickness="1.45 mm",
        tolerance="0.15 mm",
        material="matboard_4ply",
    ),
    "thin backing": ReadyMade(
        name="Thin backing board",
        kind=LayerKind.BACKING,
        thickness="3.2 mm",
        tolerance="0.1 mm",
        thinner="0.2 mm",
        material="foamboard_5",
    ),
    "back": ReadyMade(
        name="Hardboard back", kind=LayerKind.BACK, thickness="3.2 mm", tolerance="0.3 mm", material="hardboard"
    ),
    "plywood": ReadyMade(
        name="Plywood back", kind=LayerKind.BACK, thickness="6 mm", tolerance="0.4 mm", material="plywood_softwood"
    ),
    "dust": ReadyMade(
        name="Dust cover", kind=LayerKind.DUST_COVER, thickness="0.12 mm", tolerance="0 mm", material="paper"
    ),
}
_SOLD = {
    "matboard": ("Mat board", LayerKind.MAT, "matboard_4ply"),
    "foam board": ("Foam board", LayerKind.BACKING, "foamboard_5"),
    "fluted polypropylene": ("Fluted polypropylene", LayerKind.BACKING, "fluted_pp_4"),
    "corrugated paper board": ("Corrugated paper board", LayerKind.BACKING, "fluted_board"),
    "hardboard": ("Hardboard", LayerKind.BACK, "hardboard"),
    "MDF": ("MDF", LayerKind.BACK, "mdf"),
    "plywood": ("Plywood", LayerKind.BACK, "plywood_softwood"),
    "acrylic": ("Acrylic", LayerKind.GLAZING, "acrylic"),
}
"""How a material of the table of thicknesses is named on the shelf, what it is for, and what it weighs and grows as."""

_USUAL_MATERIALS = {
    LayerKind.FILLET: SOLID_WOOD,
    LayerKind.GLAZING: "glass",
    LayerKind.MAT: "matboard_4ply",
    LayerKind.BACKING: "foamboard_5",
    LayerKind.BACK: "hardboard",
    LayerKind.DUST_COVER: "paper",
}
_NAMED = (
    (r"acrylics?|pmma", "acrylic"),
    (r"laminated", "glass_laminated"),
    (r"polycarbonate", "polycarbonate"),
    (r"petg", "petg"),
    (r"mdf", "mdf"),
    (r"hardboard|hdf", "hardboard"),
    (r"foam[ -]?(?:board|core|centre|center)", "foamboard_5"),
    (r"fluted", "fluted_pp_4"),
    (r"(?<![\d/])8[ -]?ply", "matboard_8ply"),
    (r"(?<![\d/])4[ -]?ply|mat ?board|mount ?board", "matboard_4ply"),
)
_PLYWOODS = (
    (r"birch[ -]ply(?:wood)?", "plywood_birch"),
    (r"plywood|\d/\d+(?: ?in)?[ -]?ply|(?<!\d[ -])ply|[357][ -]ply", "plywood_softwood"),
)
"""The trade's short words, each a whole word or two, and what they mean; the first that is found counts. Mat board has
an even number of plies, plywood an odd one. Source: common practice, from memory, no source."""

_OF_PLYWOOD = (LayerKind.BACKING, LayerKind.BACK, LayerKind.FILLET)
"""What is made of plywood; a mat's or a paper's plies are no wood."""


@cache
def ready_made() -> Mapping[str, ReadyMade]:
    """Layers to choose from, by a short name.

    Source: tables/glass_thickness.csv (ASTM C1036, EN 572-2) and tables/sheet_thickness.csv; the usual ones are common
    practice, no source.

    >>> glass = ready_made()["astm2.5"]
    >>> glass.name, glass.tolerance, glass.thinner, glass.standard
    ('Glass, 2.5 mm, single', '0.07 mm', '0.34 mm', 'ASTM C1036')
    """
    shelf = dict(_USUAL)
    shelf |= _glasses()
    shelf |= _sheets()
    return MappingProxyType(shelf)


THIN_BACKING_MM = 2.5
"""A thinner backing is mat board: foam board is sold from 3 mm (1/8 in) on. Common practice, no source."""


@lru_cache(maxsize=1024)
def usual_material(kind: LayerKind, *, name: str, thickness_mm: float | None = None) -> str:
    """What a layer is usually of, where nobody has said: by its name, then by its kind; nothing for the artwork.

    Args:
        thickness_mm: of the layer, where it is known [mm]: a thin backing is no foam board.
    Source: common practice, no source.

    >>> usual_material(LayerKind.GLAZING, name="Acrylic, 3 mm"), usual_material(LayerKind.MAT, name="Ivory")
    ('acrylic', 'matboard_4ply')
    >>> usual_material(LayerKind.BACK, name="6 mm ply"), usual_material(LayerKind.BACK, name="Plum")
    ('plywood_softwood', 'hardboard')
    >>> usual_material(LayerKind.BACKING, name="Backing", thickness_mm=1.5)
    'matboard_4ply'
    """
    if kind not in _USUAL_MATERIALS:
        return ""
    words = _NAMED + (_PLYWOODS if kind in _OF_PLYWOOD else ())
    named = (material for word, material in words if re.search(rf"\b(?:{word})\b", name, re.IGNORECASE))
    is_thin = kind is LayerKind.BACKING and thickness_mm is not None and thickness_mm < THIN_BACKING_MM
    return next(named, _USUAL_MATERIALS[LayerKind.MAT if is_thin else kind])


def _glasses() -> dict[str, ReadyMade]:
    picture = (glass for glass in glass_thicknesses() if glass.nominal_mm <= THICKEST_GLASS_MM)
    return {f"{glass.standard.split()[0].lower()}{glass.nominal_mm:g}": _glass(glass) for glass in picture}


def _glass(glass: GlassThickness) -> ReadyMade:
    """A glass with its published band: how much thicker and how much thinner than it is called it may be."""
    called = f", {glass.traditional_name}" if glass.traditional_name else ""
    return ReadyMade(
        name=f"Glass, {glass.nominal_mm:g} mm{called}",
        kind=_GLAZING,
        thickness=f"{glass.nominal_mm:g} mm",
        tolerance=_mm(glass.most_mm - glass.nominal_mm),
        thinner=_mm(glass.nominal_mm - glass.least_mm),
        material="glass",
        evidence=_least_reliable(evidence_of_status(glass.least_status), evidence_of_status(glass.most_status)),
        standard=glass.standard,
    )


def _sheets() -> dict[str, ReadyMade]:
    usual = {layer.name for layer in _USUAL.values()}
    shelved = (_shelved(sheet) for sheet in sheet_thicknesses())
    return {key: layer for key, layer in shelved if layer.name not in usual}


def _shelved(sheet: SheetThickness) -> tuple[str, ReadyMade]:
    name, kind, material = _SOLD[sheet.material]
    ready = ReadyMade(
        name=f"{name}, {sheet.sold_as}",
        kind=kind,
        thickness=f"{sheet.typical_mm:g} mm",
        tolerance=_mm(sheet.high_mm - sheet.typical_mm),
        thinner=_mm(sheet.typical_mm - sheet.low_mm),
        material=material,
        evidence=evidence_of_status(sheet.status),
    )
    return f"{name}{sheet.typical_mm:g}".replace(" ", "").lower(), ready


def _least_reliable(*kinds: Evidence) -> Evidence:
    """The least reliable of several kinds of evidence."""
    return max(kinds, key=list(Evidence).index)


def _mm(length_mm: float) -> str:
    return f"{round(length_mm, 3):g} mm"
