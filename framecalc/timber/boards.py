"""Boards: how much wood is in one, what it costs, what thickness and how many strips it still yields.

*Rough* is as sawn; *finished* is as the member needs it. A *board foot* is a board one foot long, one foot wide and one
inch thick, 144 in³. *Bow* is the rise of a board laid hollow side down, *twist* the lift of its fourth corner; both go
before two faces are flat. *Snipe* is the hollow that a planer cuts near the ends. A *strip* is what one rip cut frees
from the width of a board.
"""

from decimal import ROUND_HALF_UP, Decimal
from enum import StrEnum
from fractions import Fraction
from math import floor

from framecalc.errors import ImpossibleTimber, quoted
from framecalc.limits import require_not_negative, require_positive
from framecalc.records import Record
from framecalc.timber.sticks.problem import Stock, Stretch
from framecalc.units import MM_PER_INCH, TOLERANCE_MM

MM3_PER_BOARD_FOOT = 144 * MM_PER_INCH**3
"""Exact. Source: 1 board foot = 144 in³, common definition, from memory; the inch, NIST SP 811."""

MM3_PER_M3 = 10**9

_CENT = Decimal("0.01")


class PricedBy(StrEnum):
    """What the price of a board is for."""

    BOARD_FOOT = "board foot"
    CUBIC_METRE = "m³"
    PIECE = "piece"


class Board(Record):
    """Equal rough boards, in hand or for sale. `count` None: as many as needed.

    `edge_mm` is lost on each edge (sapwood, wane, the first straight cut), `trim_mm` at each end (checks, snipe).
    """

    name: str
    species: str
    thickness_mm: float
    width_mm: float
    length_mm: float
    count: int | None = 1
    price: Decimal = Decimal(0)
    priced_by: PricedBy = PricedBy.PIECE
    in_hand: bool = False
    bow_mm: float = 0.0
    twist_mm: float = 0.0
    edge_mm: float = 0.0
    trim_mm: float = 0.0
    defects: tuple[Stretch, ...] = ()


class Allowances(Record):
    """What is added to a finished size to get the rough one. Usual values; every shop has its own.

    Source: common practice, no source: 1/8 in (3 mm) on the width for both edges; 1/16 to 1/8 in (1.5 to 3 mm) on the
    thickness; 1 to 2 in (25 to 50 mm) on the length; a little to sand away after the planer.
    """

    width_mm: float = 3.0
    thickness_mm: float = 3.0
    length_mm: float = 50.0
    sanding_mm: float = 0.3


class RoughSize(Record):
    """What is ripped and crosscut from the board, before it is milled."""

    thickness_mm: float
    width_mm: float
    length_mm: float


class WoodAmount(Record):
    """An amount of wood, exact."""

    mm3: Fraction

    @property
    def m3(self) -> float:
        """In cubic metres."""
        return float(self.mm3 / MM3_PER_M3)

    @property
    def board_feet_bf(self) -> float:
        """In board feet."""
        return float(self.mm3 / MM3_PER_BOARD_FOOT)


def timber_in(*, thickness_mm: float, width_mm: float, length_mm: float) -> WoodAmount:
    """Measure the wood of a board or a piece.

    ``V = t · w · l``

    Args:
        thickness_mm, width_mm, length_mm: > 0; the rough thickness where the trade counts board feet.
    Raises:
        OutOfRange: a length is not above zero.
    Source: derived.

    >>> timber_in(thickness_mm=25.4, width_mm=152.4, length_mm=2438.4).board_feet_bf
    4.0
    """
    require_positive(thickness_mm=thickness_mm, width_mm=width_mm, length_mm=length_mm)
    return WoodAmount(mm3=Fraction(thickness_mm) * Fraction(width_mm) * Fraction(length_mm))


def surface_measure_ft2(*, width_mm: float, length_mm: float) -> float:
    """Measure the face of a board as hardwood is tallied, before rounding.

    ``SM = width [in] · length [ft] / 12``

    Raises:
        OutOfRange: a length is not above zero.
    Source: NHLA rules, from memory, not re-read.

    >>> round(surface_measure_ft2(width_mm=165.1, length_mm=2438.4), 3)
    4.333
    """
    require_positive(width_mm=width_mm, length_mm=length_mm)
    return float(Fraction(width_mm) * Fraction(length_mm) / (144 * MM_PER_INCH**2))


def tallied_bf(*, thickness_mm: float, width_mm: float, length_mm: float) -> float:
    """Count the board feet of one board as a yard does: surface measure to the nearest whole foot, times the inches.

    Args:
        thickness_mm: the rough thickness that it is sold as, > 0; under an inch counts as an inch.
    Raises:
        OutOfRange: a length is not above zero.
    Source: NHLA rules, from memory, not re-read.

    >>> tallied_bf(thickness_mm=25.4, width_mm=165.1, length_mm=2438.4)
    4.0
    """
    require_positive(thickness_mm=thickness_mm)
    feet = floor(surface_measure_ft2(width_mm=width_mm, length_mm=length_mm) + 0.5)
    return feet * max(1.0, thickness_mm / float(MM_PER_INCH))


def price_of_board(board: Board) -> Decimal:
    """Find what one board costs, to the hundredth of the shop's coin.

    Source: derived.

    >>> board = Board(name="cherry", species="black_cherry", thickness_mm=25.4, width_mm=152.4, length_mm=2438.4,
    ...               price=Decimal("9.80"), priced_by=PricedBy.BOARD_FOOT)
    >>> price_of_board(board)
    Decimal('39.20')
    """
    if board.priced_by is PricedBy.PIECE:
        return board.price
    timber = timber_in(thickness_mm=board.thickness_mm, width_mm=board.width_mm, length_mm=board.length_mm)
    per_mm3 = MM3_PER_M3 if board.priced_by is PricedBy.CUBIC_METRE else MM3_PER_BOARD_FOOT
    amount = timber.mm3 * Fraction(board.price) / per_mm3
    return (Decimal(amount.numerator) / Decimal(amount.denominator)).quantize(_CENT, ROUND_HALF_UP)


def waste_pct(*, stock: WoodAmount, parts: WoodAmount) -> float:
    """The share of the stock that does not end up in a part.

    ``waste = 1 − parts / stock``

    Raises:
        OutOfRange: there is no stock.
    Source: derived.

    >>> waste_pct(stock=WoodAmount(mm3=Fraction(4)), parts=WoodAmount(mm3=Fraction(3)))
    25.0
    """
    require_positive(stock_m3=stock.m3)
    return float(100 * (1 - parts.mm3 / stock.mm3))


def rough_size(*, thickness_mm: float, width_mm: float, length_mm: float, allowances: Allowances) -> RoughSize:
    """Find the rough size for a finished one; the thickness includes what is sanded away after the planer.

    Args:
        thickness_mm, width_mm, length_mm: finished [mm], > 0.
    Raises:
        OutOfRange: a length is not above zero, or an allowance is negative.
    Source: derived.

    >>> rough_size(thickness_mm=19, width_mm=40, length_mm=2000, allowances=Allowances())
    RoughSize(thickness_mm=22.3, width_mm=43.0, length_mm=2050.0)
    """
    require_positive(thickness_mm=thickness_mm, width_mm=width_mm, length_mm=length_mm)
    require_not_negative(
        width_allowance_mm=allowances.width_mm,
        thickness_allowance_mm=allowances.thickness_mm,
        length_allowance_mm=allowances.length_mm,
        sanding_mm=allowances.sanding_mm,
    )
    return RoughSize(
        thickness_mm=thickness_mm + allowances.thickness_mm + allowances.sanding_mm,
        width_mm=width_mm + allowances.width_mm,
        length_mm=length_mm + allowances.length_mm,
    )


def strips_across(*, width_mm: float, edge_mm: float, strip_mm: float, kerf_mm: float) -> int:
    """Count the strips that a board's width yields.

    ``n = ⌊(W − 2·edge + k) / (strip + k)⌋``

    Args:
        width_mm: of the board [mm], > 0.
        edge_mm: what is lost on each edge [mm], ≥ 0.
        strip_mm: the rough width of a strip [mm], > 0.
        kerf_mm: the rip cut [mm], ≥ 0.
    Raises:
        OutOfRange: a length is out of its range.
    Source: derived.

    >>> strips_across(width_mm=139.7, edge_mm=0, strip_mm=41.275, kerf_mm=3.175)
    3
    """
    require_positive(width_mm=width_mm, strip_mm=strip_mm)
    require_not_negative(edge_mm=edge_mm, kerf_mm=kerf_mm)
    net_mm = width_mm - 2 * edge_mm
    return max(0, floor((net_mm + kerf_mm + TOLERANCE_MM) / (strip_mm + kerf_mm)))


def stock_of_board(board: Board, *, strip_mm: float, kerf_mm: float) -> Stock:
    """Write a board as the sticks that it can be ripped into.

    Raises:
        OutOfRange: a length is out of its range.
        ImpossibleTimber: the board is too narrow for one strip.
    Source: derived.
    """
    strips = strips_across(width_mm=board.width_mm, edge_mm=board.edge_mm, strip_mm=strip_mm, kerf_mm=kerf_mm)
    if not strips:
        raise ImpossibleTimber(
            quoted(board.name) + ", {width} less {edge} on each edge, makes no strip of {strip}.",
            field="board_width_mm",
            lengths={"width": board.width_mm, "edge": board.edge_mm, "strip": strip_mm},
        )
    return Stock(
        name=board.name,
        length_mm=board.length_mm,
        count=board.count,
        price=price_of_board(board),
        in_hand=board.in_hand,
        strips=strips,
        trim_mm=board.trim_mm,
        defects=board.defects,
    )
