"""Quantities of a job from its cutting plans and sheet layouts.

What is *taken* of one wood or one sheet material is shared out among the batches of frames that are made of it, by how
much each of them needs. Whole sticks and sheets are counted; a length is what a plan uses up of its sticks, with saw
cuts, trims and what is too short to keep; the volume is that of the whole sticks and boards. So there is no waste to
put on top of these. An area is that of the parts alone.
"""

from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal
from fractions import Fraction

from framecalc.price.quantities import (
    MM2_PER_SQUARE_FOOT,
    MM3_PER_BOARD_FOOT,
    MM_PER_FOOT,
    JobQuantity,
    Measure,
    in_measure,
)
from framecalc.records import Record

COUNTED_WOOD = frozenset({Measure.STICK, Measure.STICK_M, Measure.STICK_FT, Measure.BOARD_FT, Measure.BOARD_M3})
"""Measures that a cutting plan counts."""

COUNTED_SHEETS = frozenset({Measure.SHEET, Measure.AREA_M2, Measure.AREA_FT2})
"""Measures that a sheet layout counts."""


class MaterialUse(Record):
    """The use of one material in its plan: whole pieces, length, wood and area, and the share of each batch.

    `estimate` names what the plan assumes, such as a stick of the usual length.
    """

    pieces: int
    shares: tuple[Fraction, ...]
    length_mm: Fraction = Fraction(0)
    wood_mm3: Fraction = Fraction(0)
    area_mm2: Fraction = Fraction(0)
    estimate: str = ""


def quantity_taken(
    measure: Measure, *, taken: Sequence[MaterialUse], wanted: Sequence[bool], amount: Decimal, counted_by: str
) -> JobQuantity:
    """Find the quantity of an item in a job from its plans.

    Args:
        measure: one of `COUNTED_WOOD` or `COUNTED_SHEETS`.
        taken: one for each material that is paid for; each has one share for each batch, in any proportion.
        wanted: for each batch, whether it pays for the item.
        amount: how many times over.
        counted_by: the plans that counted it, in words.
    Source: derived.

    >>> oak = MaterialUse(pieces=3, shares=(Fraction(2), Fraction(1)))
    >>> found = quantity_taken(
    ...     Measure.STICK, taken=[oak], wanted=[True, False], amount=Decimal(1), counted_by="the cutting plan")
    >>> found.total, found.weights
    (Decimal('2.000'), (Decimal('2.000'), Decimal('0.000')))
    """
    rates = [(one.shares, _each_share(measure, one)) for one in taken]
    exact = [
        sum((shares[batch] * rate for shares, rate in rates), Fraction(0)) if pays else Fraction(0)
        for batch, pays in enumerate(wanted)
    ]
    return JobQuantity(
        total=in_measure(sum(exact, Fraction(0)), measure) * amount,
        weights=tuple(in_measure(part, measure) for part in exact),
        estimate="; ".join(dict.fromkeys(one.estimate for one in taken if one.estimate)),
        counted_by=counted_by,
    )


def _each_share(measure: Measure, taken: MaterialUse) -> Fraction:
    """What goes to one share of a material."""
    whole = _WHOLE[measure](taken)
    shares = sum(taken.shares, Fraction(0))
    return whole / shares if shares else Fraction(0)


_WHOLE: Mapping[Measure, Callable[[MaterialUse], Fraction]] = {
    Measure.STICK: lambda taken: Fraction(taken.pieces),
    Measure.SHEET: lambda taken: Fraction(taken.pieces),
    Measure.STICK_M: lambda taken: taken.length_mm / 1000,
    Measure.STICK_FT: lambda taken: taken.length_mm / MM_PER_FOOT,
    Measure.BOARD_FT: lambda taken: taken.wood_mm3 / MM3_PER_BOARD_FOOT,
    Measure.BOARD_M3: lambda taken: taken.wood_mm3 / 10**9,
    Measure.AREA_M2: lambda taken: taken.area_mm2 / 10**6,
    Measure.AREA_FT2: lambda taken: taken.area_mm2 / MM2_PER_SQUARE_FOOT,
}
"""How much of each measure a plan takes of a material."""
