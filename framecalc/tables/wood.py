"""The tables about wood that ship with the program: species, stiffness, and what corner joints are made with.

Each row keeps where it comes from; tables/README.md says what the letters of a status mean.
"""

from collections.abc import Iterator
from functools import cache

from framecalc.records import Record
from framecalc.tables.reading import read_rows


class Species(Record):
    """A wood: what it weighs, how it shrinks from green to dry, and how it moves in use, per 1 % of moisture content.

    The coefficients are those of the handbook's table of movement; the derived ones follow from the shrinkage and are
    the only ones where the handbook has none. A coefficient of 0 stands for "not in that table".
    """

    species_id: str
    common_name: str
    botanical_name: str
    group: str
    density_kg_m3: float
    density_source: str
    radial_shrinkage_pct: float
    tangential_shrinkage_pct: float
    shrinkage_status: str
    shrinks_below_pct: float
    table_radial_per_pct: float
    table_tangential_per_pct: float
    coefficient_status: str
    derived_radial_per_pct: float
    derived_tangential_per_pct: float
    note: str


class Stiffness(Record):
    """How stiff a wood is along its grain at 12 % moisture content, and the table of the handbook that says so."""

    species_id: str
    elasticity_mpa: float
    table: str
    note: str


class Biscuit(Record):
    """A pressed plate: its size, and the slot that it needs in each member."""

    size: str
    thickness_mm: float
    width_mm: float
    length_mm: float
    slot_depth_mm: float
    status: str


class TenonThickness(Record):
    """A plain thickness of loose tenons, as it is called; their length and width are typed."""

    size: str
    thickness_mm: float
    is_metric: bool
    status: str


class Dowel(Record):
    """A dowel, and the hole that it needs in each member."""

    size: str
    diameter_mm: float
    length_mm: float
    hole_depth_mm: float
    status: str


class PinGauge(Record):
    """A brad or pin by the gauge of its wire."""

    size: str
    diameter_mm: float
    status: str


class CornerWedge(Record):
    """A bent steel wedge driven across the mitre from behind, by its height."""

    size: str
    height_mm: float
    status: str


@cache
def wood_species() -> tuple[Species, ...]:
    """The woods of the table, hardwoods first.

    Source: tables/wood_species.csv: Wood Handbook FPL-GTR-190 and FPL-GTR-282, each row with its status.

    >>> cherry = next(species for species in wood_species() if species.species_id == "black_cherry")
    >>> cherry.table_tangential_per_pct, cherry.density_kg_m3
    (0.00248, 560.0)
    """
    return tuple(_species(row) for row in read_rows("wood_species.csv"))


@cache
def wood_stiffness() -> dict[str, Stiffness]:
    """How stiff the woods of the table are, by species.

    Source: tables/wood_stiffness.csv: Wood Handbook FPL-GTR-282, tables 5-3b and 5-5b, read in an open data package.

    >>> wood_stiffness()["white_oak"].elasticity_mpa
    12270.0
    """
    return {row["species_id"]: _stiffness(row) for row in read_rows("wood_stiffness.csv")}


@cache
def biscuits() -> tuple[Biscuit, ...]:
    """Pressed plates, smallest first.

    Source: tables/joinery.csv, each row with its status.

    >>> [(biscuit.size, biscuit.slot_depth_mm) for biscuit in biscuits()]
    [('#0', 8.0), ('#10', 10.0), ('#20', 12.3)]
    """
    return tuple(
        Biscuit(
            size=row["size"],
            thickness_mm=float(row["thickness_or_diameter_mm"]),
            width_mm=float(row["width_mm"]),
            length_mm=float(row["length_mm"]),
            slot_depth_mm=float(row["depth_per_side_mm"]),
            status=row["status"],
        )
        for row in _joinery("biscuit")
    )


@cache
def tenon_thicknesses() -> tuple[TenonThickness, ...]:
    """Plain thicknesses of loose tenons, in millimetres and in inches, the thinnest of each first.

    Source: tables/joinery.csv, common practice, no source.

    >>> [one.size for one in tenon_thicknesses() if not one.is_metric][:2]
    ['3/16 in', '1/4 in']
    """
    return tuple(
        TenonThickness(
            size=row["size"],
            thickness_mm=float(row["thickness_or_diameter_mm"]),
            is_metric=row["size"].endswith(" mm"),
            status=row["status"],
        )
        for row in _joinery("tenon_thickness")
    )


@cache
def dowels() -> tuple[Dowel, ...]:
    """Dowels in millimetres and in inches.

    Source: tables/joinery.csv, common practice, no source.

    >>> len(dowels()), dowels()[0].hole_depth_mm
    (11, 16.0)
    """
    return tuple(
        Dowel(
            size=row["size"],
            diameter_mm=float(row["thickness_or_diameter_mm"]),
            length_mm=float(row["length_mm"]),
            hole_depth_mm=float(row["depth_per_side_mm"]),
            status=row["status"],
        )
        for row in (*_joinery("dowel_metric"), *_joinery("dowel_inch"))
    )


@cache
def pin_gauges() -> tuple[PinGauge, ...]:
    """Brads and pins by gauge, thickest first.

    Source: tables/joinery.csv, steel wire gauge from memory.

    >>> pin_gauges()[-1].size, pin_gauges()[-1].diameter_mm
    ('23 gauge (steel wire gauge)', 0.655)
    """
    return tuple(
        PinGauge(size=row["size"], diameter_mm=float(row["thickness_or_diameter_mm"]), status=row["status"])
        for row in _joinery("brad_or_pin")
    )


@cache
def corner_wedges() -> tuple[CornerWedge, ...]:
    """Steel corner wedges by height.

    Source: tables/joinery.csv, common practice, no source.

    >>> [wedge.height_mm for wedge in corner_wedges()]
    [5.0, 7.0, 10.0, 12.0, 15.0]
    """
    return tuple(
        CornerWedge(size=row["size"], height_mm=float(row["length_mm"]), status=row["status"])
        for row in _joinery("v_nail")
    )


def _joinery(kind: str) -> Iterator[dict[str, str]]:
    return (row for row in read_rows("joinery.csv") if row["kind"] == kind)


def _stiffness(row: dict[str, str]) -> Stiffness:
    return Stiffness(
        species_id=row["species_id"],
        elasticity_mpa=float(row["moe_12_mpa"]),
        table=row["table"],
        note=row["note"],
    )


def _species(row: dict[str, str]) -> Species:
    return Species(
        species_id=row["species_id"],
        common_name=row["common_name"],
        botanical_name=row["botanical_name"],
        group=row["group"],
        density_kg_m3=float(row["density_12_kg_m3"]),
        density_source=f"{row['sg_source']}, {row['density_basis']}",
        radial_shrinkage_pct=float(row["shrink_radial_pct"]),
        tangential_shrinkage_pct=float(row["shrink_tangential_pct"]),
        shrinkage_status=row["shrink_status"],
        shrinks_below_pct=float(row["start_mc_pct"]),
        table_radial_per_pct=float(row["C_R"] or 0),
        table_tangential_per_pct=float(row["C_T"] or 0),
        coefficient_status=row["coef_status"],
        derived_radial_per_pct=float(row["C_R_calc"]),
        derived_tangential_per_pct=float(row["C_T_calc"]),
        note=row["note"],
    )
