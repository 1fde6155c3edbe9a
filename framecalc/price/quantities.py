"""Quantities of a job, estimated before a cutting plan or a sheet layout counts them.

A *measure* says by what a thing is paid for: by the frame, the length of stick, the whole sheet, the hour. What one
frame *needs* is measured from its plan; a *quantity* is what the whole job takes, and how much of it each batch of
frames takes. Lengths and areas are *net*: what is cut off beside them is waste, and is charged as such. Whole sticks
and sheets have it in them. Whole pieces that no plan has counted are *estimated* by a simple rule, which is named.
"""

from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction
from functools import lru_cache
from math import ceil

from framecalc.errors import ImpossibleSize
from framecalc.limits import require_positive
from framecalc.records import Record
from framecalc.units import TOLERANCE_MM

MM3_PER_BOARD_FOOT = Fraction(144) * Fraction(254, 10) ** 3
"""A board foot is 144 cubic inches. Source: American Softwood Lumber Standard PS 20, from memory, not re-read."""

MM2_PER_SQUARE_FOOT = Fraction(144) * Fraction(254, 10) ** 2
"""A foot is 12 inches, an inch 25.4 mm. Source: NIST SP 811 (2008 ed.), Appendix B.8, from memory, not re-read."""

MM_PER_FOOT = Fraction(3048, 10)


class Measure(StrEnum):
    """By what a thing is paid for."""

    FRAME = "each frame"
    RETAINER = "each retainer"
    JOB = "the job"
    HOUR = "hour, each frame"
    HOUR_JOB = "hour, the job"
    STICK_M = "metre of stick"
    STICK_FT = "foot of stick"
    STICK = "whole stick"
    BOARD_FT = "board foot"
    BOARD_M3 = "cubic metre of wood"
    AREA_M2 = "square metre"
    AREA_FT2 = "square foot"
    SHEET = "whole sheet"
    FACE_M2 = "square metre of face"
    FACE_FT2 = "square foot of face"


UNIT_WORDS = {
    Measure.FRAME: "pcs",
    Measure.RETAINER: "pcs",
    Measure.JOB: "pcs",
    Measure.HOUR: "h",
    Measure.HOUR_JOB: "h",
    Measure.STICK_M: "m",
    Measure.STICK_FT: "ft",
    Measure.STICK: "sticks",
    Measure.BOARD_FT: "bd ft",
    Measure.BOARD_M3: "m³",
    Measure.AREA_M2: "m²",
    Measure.AREA_FT2: "ft²",
    Measure.SHEET: "sheets",
    Measure.FACE_M2: "m²",
    Measure.FACE_FT2: "ft²",
}
"""What a quantity of each measure is counted in."""

NET = frozenset(
    {Measure.STICK_M, Measure.STICK_FT, Measure.BOARD_FT, Measure.BOARD_M3, Measure.AREA_M2, Measure.AREA_FT2}
)
"""Measures that hold no waste yet."""

DECIMALS = {Measure.BOARD_M3: 6, Measure.AREA_M2: 4, Measure.FACE_M2: 4}
USUAL_DECIMALS = 3
"""Quantities are written this finely, so that what is printed is what is charged. Common practice, no source."""

HOURS = frozenset({Measure.HOUR, Measure.HOUR_JOB})
"""Measures of work."""

_WHOLE_JOB = frozenset({Measure.JOB, Measure.HOUR_JOB})


class Needs(Record):
    """What one frame of a batch takes, and how many frames the batch has.

    `long_points_mm` are its members; `stick_mm` is the length of stick for all of them, kerfs and end trims included;
    `section_mm2` is the blank's; the package is the upright rectangle round it; `layers` is how many layers of the
    thing in question its package has, and `retainers` how many hold that package.
    """

    count: int
    long_points_mm: tuple[float, ...]
    stick_mm: float
    section_mm2: float
    package_across_mm: float
    package_up_mm: float
    face_mm2: float
    layers: int = 1
    retainers: int = 0


class SoldAs(Record):
    """What whole pieces are sold as: a stick of a length, a sheet of a size; nothing where none are bought whole."""

    stick_mm: float = 0
    sheet_across_mm: float = 0
    sheet_up_mm: float = 0
    kerf_mm: float = 0
    trim_mm: float = 0


class JobQuantity(Record):
    """What a job takes of a thing, how much of it goes into each batch, and what that is estimated from, if it is.

    `counted_by` says which plan has counted it; blank if it is worked out from the frames.
    """

    total: Decimal
    weights: tuple[Decimal, ...]
    estimate: str = ""
    counted_by: str = ""


def quantity_of(measure: Measure, *, needs: Sequence[Needs], amount: Decimal, stock: SoldAs) -> JobQuantity:
    """Find the quantity of an item in a job.

    Args:
        measure: by what it is paid for.
        needs: one for each batch.
        amount: how many of it (pieces, hours, coats) where the measure asks for one.
        stock: what whole pieces are sold as.
    Raises:
        ImpossibleSize: a member is longer than the stick, or a package larger than the sheet.
        OutOfRange: whole pieces are wanted and their size is not typed.
    Source: derived; the estimates are common practice, no source.

    >>> frame = Needs(count=2, long_points_mm=(400, 400, 300, 300), stick_mm=1440, section_mm2=600,
    ...     package_across_mm=360, package_up_mm=260, face_mm2=50_000)
    >>> quantity_of(Measure.STICK_M, needs=[frame], amount=Decimal(1), stock=SoldAs()).total
    Decimal('2.880')
    """
    if measure in (Measure.STICK, Measure.SHEET):
        return _whole_pieces(measure, needs, amount, stock)
    if measure in _WHOLE_JOB:
        return JobQuantity(total=amount, weights=tuple(Decimal(one.count) for one in needs))
    weights = tuple(_of_batch(measure, one) * amount for one in needs)
    return JobQuantity(total=sum(weights, Decimal(0)), weights=weights, estimate=_BASES.get(measure, ""))


def sticks_for(pieces_mm: Sequence[float], *, stick_mm: float, kerf_mm: float, trim_mm: float) -> int:
    """How many sticks a simple cutter opens: the longest piece first, into the first stick that still has room.

    Args:
        pieces_mm: what is cut, without kerfs [mm], > 0.
        stick_mm: length of a stick [mm], > 0.
        kerf_mm: taken by each cut [mm], ≥ 0.
        trim_mm: cut off each end [mm], ≥ 0.
    Raises:
        ImpossibleSize: a piece is longer than a stick.
    Source: first fit decreasing, common knowledge; it never opens more than 11/9 of the fewest + 1.

    >>> sticks_for([900, 800, 300, 200], stick_mm=1200, kerf_mm=3, trim_mm=0)
    2
    """
    require_positive(stick_mm=stick_mm)
    rooms_mm: list[float] = []
    for piece_mm in sorted(pieces_mm, reverse=True):
        if piece_mm > stick_mm - 2 * trim_mm + TOLERANCE_MM:
            raise ImpossibleSize(
                "A member of {piece} does not fit into a stick of {stick}",
                field="stick_length",
                lengths={"piece": piece_mm, "stick": stick_mm},
            )
        fits = next((at for at, room_mm in enumerate(rooms_mm) if piece_mm <= room_mm + TOLERANCE_MM), None)
        if fits is None:
            rooms_mm.append(stick_mm - 2 * trim_mm)
            fits = -1
        rooms_mm[fits] -= piece_mm + kerf_mm
    return len(rooms_mm)


def parts_on_a_sheet(
    *, across_mm: float, up_mm: float, sheet_across_mm: float, sheet_up_mm: float, kerf_mm: float = 0
) -> int:
    """How many equal parts a sheet gives in plain rows and columns, turned one way or the other.

    Args:
        across_mm, up_mm, sheet_across_mm, sheet_up_mm: sizes [mm], > 0.
        kerf_mm: taken by each cut [mm], ≥ 0; a knife takes nothing.
    Source: derived.

    >>> parts_on_a_sheet(across_mm=400, up_mm=300, sheet_across_mm=1220, sheet_up_mm=915)
    9
    """
    require_positive(across_mm=across_mm, up_mm=up_mm, sheet_across_mm=sheet_across_mm, sheet_up_mm=sheet_up_mm)

    def rows(part_mm: float, sheet_mm: float) -> int:
        return int((sheet_mm + kerf_mm + TOLERANCE_MM) // (part_mm + kerf_mm))

    upright = rows(across_mm, sheet_across_mm) * rows(up_mm, sheet_up_mm)
    return max(upright, rows(across_mm, sheet_up_mm) * rows(up_mm, sheet_across_mm))


def in_measure(number: Fraction, measure: Measure) -> Decimal:
    """A quantity as it is printed and charged.

    Source: common practice, no source.

    >>> in_measure(Fraction(2, 3), Measure.STICK_M)
    Decimal('0.667')
    """
    decimals = DECIMALS.get(measure, USUAL_DECIMALS)
    return Decimal(round(number * 10**decimals)).scaleb(-decimals)


_BASES = {
    Measure.STICK_M: "the members with their kerfs and end trims",
    Measure.STICK_FT: "the members with their kerfs and end trims",
    Measure.BOARD_FT: "the members' blanks, as thick and wide as the finished member",
    Measure.BOARD_M3: "the members' blanks, as thick and wide as the finished member",
    Measure.AREA_M2: "the size of the package",
    Measure.AREA_FT2: "the size of the package",
    Measure.STICK: "putting the longest member first into the first stick with room",
    Measure.SHEET: "plain rows on each sheet, one size of part to a sheet",
}


@lru_cache(maxsize=2048)
def _of_batch(measure: Measure, needs: Needs) -> Decimal:
    """What one batch takes; kept, since most frames of a job stay while one is typed."""
    return in_measure(_OF_ONE[measure](needs) * needs.count, measure)


def _wood_mm3(needs: Needs) -> Fraction:
    return Fraction(needs.stick_mm) * Fraction(needs.section_mm2)


def _area_mm2(needs: Needs) -> Fraction:
    return Fraction(needs.package_across_mm) * Fraction(needs.package_up_mm) * needs.layers


_OF_ONE: Mapping[Measure, Callable[[Needs], Fraction]] = {
    Measure.FRAME: lambda needs: Fraction(1),
    Measure.HOUR: lambda needs: Fraction(1),
    Measure.RETAINER: lambda needs: Fraction(needs.retainers),
    Measure.STICK_M: lambda needs: Fraction(needs.stick_mm) / 1000,
    Measure.STICK_FT: lambda needs: Fraction(needs.stick_mm) / MM_PER_FOOT,
    Measure.BOARD_FT: lambda needs: _wood_mm3(needs) / MM3_PER_BOARD_FOOT,
    Measure.BOARD_M3: lambda needs: _wood_mm3(needs) / 10**9,
    Measure.AREA_M2: lambda needs: _area_mm2(needs) / 10**6,
    Measure.AREA_FT2: lambda needs: _area_mm2(needs) / MM2_PER_SQUARE_FOOT,
    Measure.FACE_M2: lambda needs: Fraction(needs.face_mm2) / 10**6,
    Measure.FACE_FT2: lambda needs: Fraction(needs.face_mm2) / MM2_PER_SQUARE_FOOT,
}
"""How much of each measure one frame takes."""


def _whole_pieces(measure: Measure, needs: Sequence[Needs], amount: Decimal, stock: SoldAs) -> JobQuantity:
    count = _whole_sticks(needs, stock) if measure is Measure.STICK else _whole_sheets(needs, stock)
    by = (Fraction(one.stick_mm) if measure is Measure.STICK else _area_mm2(one) for one in needs)
    weights = tuple(in_measure(each * one.count, measure) for each, one in zip(by, needs, strict=True))
    return JobQuantity(total=count * amount, weights=weights, estimate=_BASES[measure])


def _whole_sticks(needs: Sequence[Needs], stock: SoldAs) -> int:
    pieces_mm = [length_mm for one in needs for length_mm in one.long_points_mm * one.count]
    return sticks_for(pieces_mm, stick_mm=stock.stick_mm, kerf_mm=stock.kerf_mm, trim_mm=stock.trim_mm)


def _whole_sheets(needs: Sequence[Needs], stock: SoldAs) -> int:
    """Sheets for each size of part on their own; what is left of one sheet is not counted on for another size."""
    return sum(_sheets_of(one, stock) for one in needs if one.layers)


def _sheets_of(needs: Needs, stock: SoldAs) -> int:
    on_one = parts_on_a_sheet(
        across_mm=needs.package_across_mm,
        up_mm=needs.package_up_mm,
        sheet_across_mm=stock.sheet_across_mm,
        sheet_up_mm=stock.sheet_up_mm,
    )
    if not on_one:
        raise ImpossibleSize(
            "Enter a larger sheet than {sheet_across} × {sheet_up} for {across} × {up}",
            field="sheet_across",
            lengths={
                "across": needs.package_across_mm,
                "up": needs.package_up_mm,
                "sheet_across": stock.sheet_across_mm,
                "sheet_up": stock.sheet_up_mm,
            },
        )
    return ceil(needs.count * needs.layers / on_one)
