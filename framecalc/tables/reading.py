"""The tables that ship with the program: stock sizes, sheet thicknesses, glass thicknesses.

Each row keeps where it comes from. This is the only module of the calculation that reads files; a table is read once.
"""

import csv
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from importlib.resources import files

from framecalc.records import Record
from framecalc.units import MM_PER_UNIT, Unit


class StockSize(Record):
    """A size of paper, photograph, mat or frame as it is sold, exact in the unit that defines it."""

    name: str
    family: str
    across: Fraction
    up: Fraction
    unit: Unit
    kind: str
    standard: str
    status: str
    note: str

    @property
    def across_mm(self) -> float:
        """The size across."""
        return float(self.across * MM_PER_UNIT[self.unit])

    @property
    def up_mm(self) -> float:
        """The size up."""
        return float(self.up * MM_PER_UNIT[self.unit])


class SheetThickness(Record):
    """What a sheet is sold as and what it usually measures."""

    material: str
    sold_as: str
    nominal_in: str
    typical_mm: float
    low_mm: float
    high_mm: float
    status: str


class GlassThickness(Record):
    """The band in which a glass of a nominal thickness may lie, and where its two ends come from."""

    standard: str
    nominal_mm: float
    nominal_in: str
    traditional_name: str
    least_mm: float
    most_mm: float
    least_status: str
    most_status: str
    note: str


class LetterWidth(Record):
    """The room that a letter takes in the widest of the measured faces, as a ratio to the type size."""

    letter: str
    regular: float
    bold: float


@cache
def stock_sizes() -> tuple[StockSize, ...]:
    """Sizes as they are sold, standards first; each is stored upright and can be turned.

    Source: tables/sizes.csv, each row with its own.

    >>> a3 = next(size for size in stock_sizes() if size.name == "A3")
    >>> a3.across_mm, a3.up_mm, a3.standard
    (297.0, 420.0, 'ISO 216')
    """
    return tuple(_stock_size(row) for row in read_rows("sizes.csv"))


@cache
def sheet_thicknesses() -> tuple[SheetThickness, ...]:
    """What sheets are sold as and what they usually measure.

    Source: tables/sheet_thickness.csv, common practice, no source.

    >>> [sheet.typical_mm for sheet in sheet_thicknesses() if sheet.sold_as == "4-ply"]
    [1.45]
    """
    return tuple(
        SheetThickness(
            material=row["material"],
            sold_as=row["sold_as"],
            nominal_in=row["nominal_in"],
            typical_mm=float(row["typical_mm"]),
            low_mm=float(row["low_mm"]),
            high_mm=float(row["high_mm"]),
            status=row["status"],
        )
        for row in read_rows("sheet_thickness.csv")
    )


@cache
def glass_thicknesses() -> tuple[GlassThickness, ...]:
    """The bands in which glass of a nominal thickness may lie.

    Source: tables/glass_thickness.csv: ASTM C1036 and EN 572-2, each row with its status.

    >>> [glass.most_mm for glass in glass_thicknesses() if glass.traditional_name == "single"]
    [2.57]
    """
    return tuple(
        GlassThickness(
            standard=row["standard"],
            nominal_mm=float(row["nominal_mm"]),
            nominal_in=row["nominal_in"],
            traditional_name=row["traditional_name"],
            least_mm=float(row["min_mm"]),
            most_mm=float(row["max_mm"]),
            least_status=row["min_status"],
            most_status=row["max_status"],
            note=row["note"],
        )
        for row in read_rows("glass_thickness.csv")
    )


@cache
def letter_widths() -> tuple[LetterWidth, ...]:
    """How wide letters are.

    Source: tables/letter_widths.csv, measured in the font files that tables/README.md names.

    >>> [(width.regular, width.bold) for width in letter_widths() if width.letter == "M"]
    [(0.907, 0.996)]
    """
    return tuple(width for row in read_rows("letter_widths.csv") if (width := _letter_width(row)))


def _letter_width(row: dict[str, str]) -> LetterWidth | None:
    """The widest of all faces; None for a letter that none of them has."""
    bold = [int(value) for face, value in row.items() if face.endswith("bold") and value]
    regular = [int(value) for face, value in row.items() if face != "code" and not face.endswith("bold") and value]
    if not regular or not bold:
        return None
    return LetterWidth(letter=chr(int(row["code"], 16)), regular=max(regular) / 1000, bold=max(bold) / 1000)


def _stock_size(row: dict[str, str]) -> StockSize:
    unit = Unit(row["exact_unit"])
    return StockSize(
        name=row["name"],
        family=row["family"],
        across=Fraction(row[f"width_{unit}"]),
        up=Fraction(row[f"height_{unit}"]),
        unit=unit,
        kind=row["kind"],
        standard=row["standard_or_name"],
        status=row["status"],
        note=row["note"],
    )


def read_rows(name: str) -> Iterator[dict[str, str]]:
    """Read a table that ships with the program, row by row.

    Source: derived.

    >>> next(read_rows("sizes.csv"))["standard_or_name"]
    'ISO 216'
    """
    with (files("framecalc") / "tables" / name).open("r", encoding="utf-8") as table:
        yield from csv.DictReader(table)
