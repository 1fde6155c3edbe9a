"""The cutting problem in whole numbers: micrometres, coins, counts.

Pieces round up to the micrometre and stock rounds down, so a plan that fits here fits the wood. A *part* is a bundle
with the one saw cut that follows it; a *bay* is a clear stretch with room for one cut more than its length, so parts
fit a bay exactly when their lengths add up to no more than its room. Of parts of one length only the count matters.

The *cost* of a stick is one whole number that puts money first and the number of sticks second.
"""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from fractions import Fraction
from itertools import groupby
from math import ceil, floor, gcd, lcm

from framecalc.records import Record
from framecalc.timber.sticks.problem import Bundle, StickProblem, Stock, Stretch, bundles_of, clear_stretches
from framecalc.units import TOLERANCE_MM

UM_PER_MM = 1000

Pattern = tuple[int, ...]
"""How many parts of each length one bay holds."""


class Bay(Record):
    """Equal clear stretches on every stick of one kind."""

    room_um: int
    count: int


class StickKind(Record):
    """Equal sticks: the cost of one, how many there are, its bays, and their stock in the problem."""

    cost: int
    coins: int
    limit: int
    bays: tuple[Bay, ...]
    members: tuple[int, ...]

    @property
    def rooms_um(self) -> tuple[int, ...]:
        """The room of each bay of one stick, the widest first."""
        return tuple(bay.room_um for bay in self.bays for _ in range(bay.count))


class WholeNumbers(Record):
    """The problem in whole numbers, the longest parts first.

    `coin` is the money that one coin stands for. `by_money`: prices differ, and a coin costs `weight`, more than the
    sticks of any plan; otherwise every stick costs 1.
    """

    lengths_um: tuple[int, ...]
    counts: tuple[int, ...]
    bundles: tuple[tuple[Bundle, ...], ...]
    kinds: tuple[StickKind, ...]
    coin: Fraction
    weight: int
    by_money: bool
    cut_um: int

    @property
    def total_um(self) -> int:
        """All parts laid end to end."""
        return sum(length * count for length, count in zip(self.lengths_um, self.counts, strict=True))

    def length_um(self, pattern: Sequence[int]) -> int:
        """The room that a pattern takes."""
        return sum(length * count for length, count in zip(self.lengths_um, pattern, strict=True))


class OpenedStick(Record):
    """One stick of a plan: its kind, and the pattern of each of its bays, in the order of `StickKind.rooms_um`."""

    kind: int
    patterns: tuple[Pattern, ...]


def in_whole_numbers(problem: StickProblem) -> WholeNumbers:
    """Write a problem in whole numbers.

    Source: derived.

    >>> from framecalc.timber.sticks.problem import Piece
    >>> pieces = tuple(Piece(frame="hall", side=side, length_mm=348) for side in ("top", "bottom"))
    >>> stock = (Stock(name="ash", length_mm=800),)
    >>> whole_numbers = in_whole_numbers(StickProblem(pieces=pieces, stock=stock, kerf_mm=3, width_mm=30))
    >>> whole_numbers.lengths_um, whole_numbers.counts, whole_numbers.kinds[0].rooms_um
    ((352243,), (2,), (804243,))
    """
    cut_um = _up(problem.cut_mm)
    bundles = sorted(bundles_of(problem), key=lambda bundle: -_part_um(bundle, problem, cut_um))
    groups = [(length, tuple(same)) for length, same in groupby(bundles, lambda each: _part_um(each, problem, cut_um))]
    coin = coin_of(stock.price for stock in problem.stock)
    usable = _usable(problem, shortest_um=groups[-1][0])
    by_money = len({problem.stock[number].price for number in usable}) > 1
    return WholeNumbers(
        lengths_um=tuple(length for length, _ in groups),
        counts=tuple(len(same) for _, same in groups),
        bundles=tuple(same for _, same in groups),
        kinds=_kinds(problem, usable, coin=coin, by_money=by_money, parts=len(bundles)),
        coin=coin,
        weight=weight_over(len(bundles)) if by_money else 1,
        by_money=by_money,
        cut_um=cut_um,
    )


def room_um(stretch: Stretch, *, problem: StickProblem) -> int:
    """The room of a clear stretch: its length and one saw cut, less the one slant that nests into no neighbour.

    Source: derived.
    """
    return _down(stretch.end_mm) - _up(stretch.start_mm) + _up(problem.cut_mm) - _up(problem.nested_mm)


def cost_of(opened: Iterable[OpenedStick], *, whole_numbers: WholeNumbers) -> int:
    """Add up what the sticks of a plan cost.

    Source: derived.
    """
    return sum(whole_numbers.kinds[stick.kind].cost for stick in opened)


def money_of(cost: int, *, whole_numbers: WholeNumbers) -> tuple[Decimal, int]:
    """Split a cost into money and sticks, exactly.

    Source: derived (⌊cost / weight⌋ coins, the rest sticks; where all sticks cost alike, the cost counts sticks).
    """
    coins, sticks = (
        divmod(cost, whole_numbers.weight) if whole_numbers.by_money else (cost * whole_numbers.kinds[0].coins, cost)
    )
    money = coins * whole_numbers.coin
    return Decimal(money.numerator) / Decimal(money.denominator), sticks


def most_left_mm(problem: StickProblem, *, sticks: int) -> float:
    """Find what so many sticks could leave in all, were every piece cut from them; below 0 where they are too few.

    Args:
        sticks: of the one kind that there is, ≥ 0.
    Returns:
        Nothing where sticks are of several kinds.
    Source: derived.
    """
    whole_numbers = in_whole_numbers(problem)
    kind, *others = whole_numbers.kinds
    return 0.0 if others else (sticks * sum(kind.rooms_um) - whole_numbers.total_um) / UM_PER_MM


def coin_of(prices: Iterable[Decimal]) -> Fraction:
    """Find the largest amount of which every price is a whole multiple; 1 where all is free.

    Source: derived.
    """
    exact = [Fraction(price) for price in prices if price]
    if not exact:
        return Fraction(1)
    denominator = lcm(*(price.denominator for price in exact))
    return Fraction(gcd(*(int(price * denominator) for price in exact)), denominator)


def weight_over(sticks: int) -> int:
    """Find what a coin costs where a stick costs 1: more than so many sticks, so that money counts first.

    Source: derived.
    """
    return sticks + 1


def _up(length_mm: float) -> int:
    return ceil((length_mm - TOLERANCE_MM) * UM_PER_MM)


def _down(length_mm: float) -> int:
    return floor((length_mm + TOLERANCE_MM) * UM_PER_MM)


def _part_um(bundle: Bundle, problem: StickProblem, cut_um: int) -> int:
    pieces_um = sum(_up(piece.length_mm) for piece in bundle.pieces)
    return pieces_um + len(bundle.pieces) * cut_um - _down(problem.nested_mm)


def _usable(problem: StickProblem, *, shortest_um: int) -> dict[int, tuple[Bay, ...]]:
    """The available stock that is long enough for some part, with its bays."""
    bays = {
        number: _bays(stock, problem, shortest_um=shortest_um)
        for number, stock in enumerate(problem.stock)
        if stock.count != 0
    }
    return {number: each for number, each in bays.items() if each}


def _kinds(
    problem: StickProblem, usable: Mapping[int, tuple[Bay, ...]], *, coin: Fraction, by_money: bool, parts: int
) -> tuple[StickKind, ...]:
    """Sticks with equal price and bays are one kind."""
    alike: dict[tuple[int, tuple[Bay, ...]], list[int]] = {}
    for number, bays in usable.items():
        alike.setdefault((int(Fraction(problem.stock[number].price) / coin), bays), []).append(number)
    weight = weight_over(parts)
    kinds = (
        StickKind(
            cost=coins * weight + 1 if by_money else 1,
            coins=coins,
            limit=_limit([problem.stock[number] for number in members], most=parts),
            bays=bays,
            members=tuple(sorted(members, key=lambda number: not problem.stock[number].in_hand)),
        )
        for (coins, bays), members in alike.items()
    )
    return tuple(sorted(kinds, key=lambda kind: (kind.cost, [-room for room in kind.rooms_um], -kind.limit)))


def _bays(stock: Stock, problem: StickProblem, *, shortest_um: int) -> tuple[Bay, ...]:
    rooms = Counter(room_um(part, problem=problem) for part in clear_stretches(stock, cut_mm=problem.cut_mm))
    usable = {room: count * stock.strips for room, count in rooms.items() if room >= shortest_um}
    return tuple(Bay(room_um=room, count=usable[room]) for room in sorted(usable, reverse=True))


def _limit(stocks: list[Stock], *, most: int) -> int:
    counts = [stock.count for stock in stocks]
    return most if None in counts else min(most, sum(count for count in counts if count is not None))
