"""Bought moulding: how it is sold, and what an order of it is charged for.

*Sticks* are whole lengths that are mitred here. Sides *cut to size* come mitred from the supplier, and are charged from
long point to long point, by the side, or *joined* as whole frames. A pattern that must meet at the corners *repeats*
every so often: each side starts at the same place of it, so it may take up to one repeat more of the stick.
"""

from collections.abc import Sequence
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction

from framecalc.errors import ImpossibleSize
from framecalc.price.quantities import MM_PER_FOOT, JobQuantity, Measure, in_measure, sticks_for
from framecalc.records import Record


class Sale(StrEnum):
    """How a moulding is sold."""

    METRE = "sticks by the metre"
    FOOT = "sticks by the foot"
    STICK = "sticks, each"
    CUT_METRE = "cut to size by the metre"
    CUT_FOOT = "cut to size by the foot"
    CUT_SIDE = "cut to size by the side"
    JOINED = "joined by the frame"

    @property
    def is_in_sticks(self) -> bool:
        """Whether whole sticks come into the shop, and are cut there."""
        return self in (Sale.METRE, Sale.FOOT, Sale.STICK)

    @property
    def is_joined(self) -> bool:
        """Whether it comes as whole frames, joined."""
        return self is Sale.JOINED

    @property
    def measure(self) -> Measure:
        """By what it is paid for."""
        return _MEASURES[self]


_MEASURES = {
    Sale.METRE: Measure.STICK_M,
    Sale.FOOT: Measure.STICK_FT,
    Sale.STICK: Measure.STICK,
    Sale.CUT_METRE: Measure.STICK_M,
    Sale.CUT_FOOT: Measure.STICK_FT,
    Sale.CUT_SIDE: Measure.FRAME,
    Sale.JOINED: Measure.FRAME,
}

CUTTING_PLAN = "the cutting plan"
LONGEST_FIRST = "putting the longest side first into the first stick with room"
NET_LENGTH = "the sides with their kerfs and end trims, as no stick length is typed"
THE_LEAST = "the least that is sold"


class SidesToBuy(Record):
    """The sides of one frame of a batch, long point to long point, and how many frames the batch has."""

    count: int
    long_points_mm: tuple[float, ...]

    @property
    def length_mm(self) -> Fraction:
        """All sides of the batch together."""
        return sum(map(Fraction, self.long_points_mm), Fraction(0)) * self.count


class Sticks(Record):
    """The sticks that a moulding comes in: their length (0: not known), what the saw takes, the repeat of a pattern.

    `counted` is how many sticks a cutting plan takes, where it is finished.
    """

    length_mm: float
    kerf_mm: float
    trim_mm: float
    repeat_mm: float = 0.0
    counted: int | None = None


def moulding_ordered(sale: Sale, *, sides: Sequence[SidesToBuy], sticks: Sticks, least_mm: float = 0.0) -> JobQuantity:
    """Find how much of a moulding a job orders: whole sticks, or sides as they are cut; never less than is sold.

    Args:
        sides: one for each batch.
        sticks: what it comes in, where it comes in sticks.
        least_mm: the least length of an order [mm], ≥ 0; sides and frames by the piece know none.
    Raises:
        ImpossibleSize: a side is longer than a stick, or sticks are paid for each and their length is not known.
    Source: derived; the allowance of a pattern is common practice, no source.

    >>> frame = SidesToBuy(count=1, long_points_mm=(400, 300, 400, 300))
    >>> sticks = Sticks(length_mm=3000, kerf_mm=3, trim_mm=10)
    >>> moulding_ordered(Sale.METRE, sides=[frame], sticks=sticks).total
    Decimal('3.000')
    >>> moulding_ordered(Sale.CUT_METRE, sides=[frame], sticks=sticks, least_mm=2000).total
    Decimal('2.000')
    """
    total, estimate, counted_by = _in_sticks(sale, sides, sticks) if sale.is_in_sticks else (_cut(sale, sides), "", "")
    least = _least(sale, least_mm)
    if total < least:
        total, estimate, counted_by = least, THE_LEAST, ""
    weights = tuple(in_measure(one.length_mm / 1000, Measure.STICK_M) for one in sides)
    return JobQuantity(total=in_measure(total, sale.measure), weights=weights, estimate=estimate, counted_by=counted_by)


def price_of_stick(sale: Sale, *, price: Decimal, stick_mm: float) -> Decimal:
    """What one whole stick costs, to a thousandth; nothing where sides come cut to size, or no length is known.

    Args:
        price: of a metre, a foot or a stick, as it is sold.
        stick_mm: the length of a stick [mm], ≥ 0.
    Source: derived.

    >>> price_of_stick(Sale.METRE, price=Decimal("8.40"), stick_mm=2500)
    Decimal('21.00000')
    """
    if not sale.is_in_sticks or not stick_mm:
        return Decimal(0)
    return price if sale is Sale.STICK else price * in_measure(_measured(sale, Fraction(stick_mm)), sale.measure)


def is_net(sale: Sale, *, sticks: Sticks) -> bool:
    """Whether waste goes on top: on a length of stick alone that no whole sticks have been counted for.

    Source: common practice, no source.

    >>> is_net(Sale.FOOT, sticks=Sticks(length_mm=0, kerf_mm=3, trim_mm=10))
    True
    """
    return sale in (Sale.METRE, Sale.FOOT) and not sticks.length_mm and sticks.counted is None


def _cut(sale: Sale, sides: Sequence[SidesToBuy]) -> Fraction:
    if sale is Sale.CUT_SIDE:
        return Fraction(sum(one.count * len(one.long_points_mm) for one in sides))
    if sale is Sale.JOINED:
        return Fraction(sum(one.count for one in sides))
    return _measured(sale, sum((one.length_mm for one in sides), Fraction(0)))


def _in_sticks(sale: Sale, sides: Sequence[SidesToBuy], sticks: Sticks) -> tuple[Fraction, str, str]:
    """How much in sticks, what that is estimated from, and what has counted it."""
    count = sticks.counted
    if count is None and (sticks.length_mm or sale is Sale.STICK):
        count = _sticks(sides, sticks)
    if count is None:
        return _measured(sale, sum((_net_mm(one, sticks) for one in sides), Fraction(0))), NET_LENGTH, ""
    total = Fraction(count) if sale is Sale.STICK else _measured(sale, count * Fraction(sticks.length_mm))
    return (total, LONGEST_FIRST, "") if sticks.counted is None else (total, "", CUTTING_PLAN)


def _sticks(sides: Sequence[SidesToBuy], sticks: Sticks) -> int:
    if not sticks.length_mm:
        raise ImpossibleSize("Enter the length of a stick, to count them.", field="stick_length")
    pieces_mm = [length_mm + sticks.repeat_mm for one in sides for length_mm in one.long_points_mm * one.count]
    return sticks_for(pieces_mm, stick_mm=sticks.length_mm, kerf_mm=sticks.kerf_mm, trim_mm=sticks.trim_mm)


def _net_mm(sides: SidesToBuy, sticks: Sticks) -> Fraction:
    """One stick round each frame: its sides, the cuts between them, both ends, and the repeats of a pattern."""
    number = len(sides.long_points_mm)
    beside_mm = (number - 1) * sticks.kerf_mm + 2 * sticks.trim_mm + number * sticks.repeat_mm
    return sides.length_mm + Fraction(beside_mm) * sides.count


def _least(sale: Sale, least_mm: float) -> Fraction:
    return _measured(sale, Fraction(least_mm)) if sale.measure in (Measure.STICK_M, Measure.STICK_FT) else Fraction(0)


def _measured(sale: Sale, length_mm: Fraction) -> Fraction:
    return length_mm / MM_PER_FOOT if sale.measure is Measure.STICK_FT else length_mm / 1000


def up_to_least_order(amount: Decimal, *, least: Decimal) -> Decimal:
    """What an order still lacks of the least that the supplier takes.

    Source: derived.

    >>> up_to_least_order(Decimal(30), least=Decimal(50)), up_to_least_order(Decimal(60), least=Decimal(50))
    (Decimal('20'), Decimal('0'))
    """
    return max(least - amount, Decimal(0))
