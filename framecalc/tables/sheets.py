"""The tables about sheets that ship with the program: what they weigh, how they grow, what sizes are sold and usual.

Each row keeps where it comes from; tables/README.md says what the letters of a status mean.
"""

from fractions import Fraction
from functools import cache

from framecalc.evidence import Evidence, evidence_of_status
from framecalc.records import Record
from framecalc.tables.reading import read_rows
from framecalc.units import MM_PER_INCH

_PER_MILLION = 1_000_000
_PER_TEN_PCT = 1000
"""From % of length per 10 % of humidity to a fraction of the length per 1 %."""


class SheetMaterial(Record):
    """A sheet material: its mass, and what fraction of its length it grows by per kelvin and per 1 % of humidity.

    0 stands for "not given": an areal mass that follows from the density, an expansion that nobody publishes.
    """

    material_id: str
    name: str
    role: str
    density_kg_m3: float
    density_low_kg_m3: float
    density_high_kg_m3: float
    areal_mass_kg_m2: float
    growth_per_k: float
    growth_per_pct: float
    grows_with_heat: bool
    grows_with_damp: bool
    evidence: Evidence
    confidence: str
    note: str


class SoldSheet(Record):
    """A size in which a material is sold, exact in the unit that defines it."""

    material: str
    sold_as: str
    across_mm: float
    up_mm: float
    evidence: Evidence
    note: str


class PaneLimit(Record):
    """The largest pane of a thickness that is usual, by its shorter and its longer side."""

    material: str
    thickness_mm: float
    short_mm: float
    long_mm: float
    note: str


@cache
def sheet_materials() -> tuple[SheetMaterial, ...]:
    """Glazing, boards and panels.

    Source: tables/sheet_materials.csv, each row with its own.

    >>> acrylic = next(sheet for sheet in sheet_materials() if sheet.material_id == "acrylic")
    >>> acrylic.density_kg_m3, acrylic.growth_per_k
    (1190.0, 7e-05)
    """
    return tuple(_material(row) for row in read_rows("sheet_materials.csv"))


def sheet_material(material_id: str) -> SheetMaterial | None:
    """The material of that name; None where the table has none.

    Source: tables/sheet_materials.csv, each row with its own.

    >>> sheet_material("acrylic").density_kg_m3, sheet_material("gold")
    (1190.0, None)
    """
    return _materials_by_id().get(material_id)


@cache
def _materials_by_id() -> dict[str, SheetMaterial]:
    return {one.material_id: one for one in sheet_materials()}


@cache
def sold_sheets() -> tuple[SoldSheet, ...]:
    """Sizes of sheets as they are sold.

    Source: tables/sheet_sizes.csv, common practice, no source.

    >>> next(sheet for sheet in sold_sheets() if sheet.sold_as == "32 x 40").across_mm
    812.8
    """
    return tuple(_sold(row) for row in read_rows("sheet_sizes.csv"))


@cache
def pane_limits() -> tuple[PaneLimit, ...]:
    """The largest panes of glass and acrylic, thinnest first.

    Source: tables/pane_limits.csv, common practice, no source.

    >>> [limit.long_mm for limit in pane_limits() if (limit.material, limit.thickness_mm) == ("glass", 2.0)]
    [812.8]
    """
    return tuple(_pane_limit(row) for row in read_rows("pane_limits.csv"))


def _pane_limit(row: dict[str, str]) -> PaneLimit:
    return PaneLimit(
        material=row["material"],
        thickness_mm=float(row["thickness_mm"]),
        short_mm=float(Fraction(row["short_in"]) * MM_PER_INCH),
        long_mm=float(Fraction(row["long_in"]) * MM_PER_INCH),
        note=row["note"],
    )


def _material(row: dict[str, str]) -> SheetMaterial:
    heat, damp = row["cte_1e-6_per_K"], row["moisture_expansion_pct_per_10pct_RH"]
    return SheetMaterial(
        material_id=row["material_id"],
        name=row["material"],
        role=row["role"],
        density_kg_m3=float(row["density_kg_m3"]),
        density_low_kg_m3=float(row["density_low"]),
        density_high_kg_m3=float(row["density_high"]),
        areal_mass_kg_m2=float(row["areal_mass_kg_m2"] or 0),
        growth_per_k=float(heat or 0) / _PER_MILLION,
        growth_per_pct=float(damp or 0) / _PER_TEN_PCT,
        grows_with_heat=bool(heat),
        grows_with_damp=bool(damp),
        evidence=evidence_of_status(row["status"]),
        confidence=row["confidence"],
        note=row["source_note"],
    )


def _sold(row: dict[str, str]) -> SoldSheet:
    is_metric = "metric" in row["note"]
    return SoldSheet(
        material=row["material"],
        sold_as=row["sold_as"],
        across_mm=float(row["width_mm"]) if is_metric else float(Fraction(row["width_in"]) * MM_PER_INCH),
        up_mm=float(row["height_mm"]) if is_metric else float(Fraction(row["height_in"]) * MM_PER_INCH),
        evidence=evidence_of_status(row["status"]),
        note=row["note"],
    )
