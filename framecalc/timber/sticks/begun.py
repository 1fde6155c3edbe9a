"""Sticks that are begun: what was cut from them stays, and the rest of a job is planned over what they have left.

A *cut* piece keeps the length, the stick and the place that it was cut with. A begun stick has *left* the stretches
before, between and behind its cut pieces, a saw cut away from each. That wood is paid for, so a plan takes it before it
begins another stick: money counts first, then sticks that are begun anew, then all sticks. The prices of the whole
sticks say so to the search, and are turned back afterwards.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from decimal import Decimal
from fractions import Fraction

from framecalc.records import Record, replace
from framecalc.timber.sticks.answer import (
    CutStick,
    CutStretch,
    CutStrip,
    PlacedPiece,
    ProofStatus,
    StickPlan,
)
from framecalc.timber.sticks.problem import PieceName, StickProblem, Stock, Stretch, clear_stretches, hash_of, name_of
from framecalc.timber.sticks.proof import LengthSentence, StickProof
from framecalc.timber.sticks.whole_numbers import coin_of, weight_over
from framecalc.units import TOLERANCE_MM

_PROVED = StickProof(
    shares=(),
    least_money=Decimal(0),
    least_sticks=0,
    saying=LengthSentence(text="It was searched over whole sticks and over what begun sticks have left."),
)


class CutPiece(Record):
    """A piece that was cut, and from which strip, from 1 on."""

    strip: int
    placed: PlacedPiece


class BegunStick(Record):
    """A stick or board of which pieces were cut: its stock and number, and the strips that are there of it.

    `is_put_away`: nothing more is cut from it, as it lies on the rack by now, or `is_other`, no longer of the right
    section.
    """

    stock: Stock
    number: int
    cut: tuple[CutPiece, ...]
    strips: tuple[int, ...] = (1,)
    is_put_away: bool = False
    is_other: bool = False

    @property
    def is_part_ripped(self) -> bool:
        """Whether a part of the board is not ripped yet, and still to be had."""
        return self.stock.strips > len(self.strips) and not self.is_put_away

    def id_of(self, strip: int) -> str:
        """The id of what one of its strips has left."""
        return f"{self.stock.id}-{self.number}-{strip}"

    def left(self, strip: int, *, cut_mm: float) -> Stock:
        """What one of its strips has left, as a stick of its own: cut stretches are stretches to avoid."""
        stock, is_board = self.stock, self.stock.strips > 1
        gone = (
            Stretch(
                start_mm=max(0.0, one.placed.start_mm - cut_mm),
                end_mm=min(stock.length_mm, one.placed.end_mm + cut_mm),
            )
            for one in self.cut
            if one.strip == strip
        )
        return replace(
            stock,
            id=self.id_of(strip),
            name=stock.name + (f" #{self.number}, strip" if is_board else ""),
            first=strip if is_board else self.number,
            count=1,
            strips=1,
            price=Decimal(0),
            in_hand=True,
            defects=(*stock.defects, *gone),
        )


class LeftToCut(Record):
    """What is left to cut of a job, and the sticks that are begun.

    `problem` has the pieces that are not cut, whole sticks, and what begun ones have left. A price of it is so many
    *coins* times `weight`, and 1 for a stick begun anew; prices are as typed where the weight is 0.
    """

    problem: StickProblem
    begun: tuple[BegunStick, ...]
    coin: Fraction = Fraction(1)
    weight: int = 0

    @property
    def strips(self) -> frozenset[str]:
        """The ids of what begun sticks have left."""
        return frozenset(one.id_of(strip) for one in self.begun for strip in one.strips)

    @property
    def is_done(self) -> bool:
        """Whether all pieces are cut."""
        return not self.problem.pieces

    def money_of(self, price: Decimal) -> tuple[Decimal, int]:
        """The money of a price of the problem, and how many sticks are begun anew for it."""
        if not self.weight:
            return price, 0
        coins, sticks = divmod(int(price), self.weight)
        money = coins * self.coin
        return Decimal(money.numerator) / Decimal(money.denominator), sticks


def left_to_cut(
    problem: StickProblem,
    *,
    begun: Sequence[BegunStick],
    taken: Mapping[str, Collection[int]],
    done: Collection[PieceName],
) -> LeftToCut:
    """Take what was cut out of a problem, and put what begun sticks have left into its stock.

    Args:
        begun: the sticks that pieces of this problem were cut from.
        taken: the numbers of all sticks that are begun, those of other problems too, by the id of their stock.
        done: the pieces that are not to be cut any more.
    Source: derived.
    """
    pieces = tuple(piece for piece in problem.pieces if name_of(piece) not in done)
    whole = [one for stock in problem.stock for one in whole_sticks(stock, numbers=taken.get(stock.id, ()))]
    left = [
        stock
        for one in begun
        if not one.is_put_away
        for strip in one.strips
        if clear_stretches(stock := one.left(strip, cut_mm=problem.cut_mm), cut_mm=problem.cut_mm)
    ]
    return LeftToCut(problem=replace(problem, pieces=pieces, stock=(*left, *whole)), begun=tuple(begun))


def begun_first(jobs: Sequence[LeftToCut]) -> tuple[LeftToCut, ...]:
    """Price the whole sticks of jobs that share their stock, so that wood that is begun is taken before them.

    Nothing changes where no begun stick has anything left.

    Source: derived (coins · weight + 1, with a weight that no number of sticks reaches, compares money before sticks).
    """
    if not any(_is_left(stock, job) for job in jobs for stock in job.problem.stock):
        return tuple(jobs)
    coin = coin_of(stock.price for job in jobs for stock in job.problem.stock)
    weight = weight_over(sum(len(job.problem.pieces) for job in jobs))
    return tuple(_priced(job, coin=coin, weight=weight) for job in jobs)


def _priced(job: LeftToCut, *, coin: Fraction, weight: int) -> LeftToCut:
    stock = (
        one if _is_left(one, job) else replace(one, price=Decimal(int(Fraction(one.price) / coin) * weight + 1))
        for one in job.problem.stock
    )
    return replace(job, problem=replace(job.problem, stock=tuple(stock)), coin=coin, weight=weight)


def _is_left(stock: Stock, job: LeftToCut) -> bool:
    """Whether an entry of the stock is what a begun stick has left."""
    return stock.id in job.strips


def whole_sticks(stock: Stock, *, numbers: Collection[int]) -> tuple[Stock, ...]:
    """The sticks of an entry of the stock that are not begun, in runs of numbers; the first run keeps its id.

    Source: derived.

    >>> runs = whole_sticks(Stock(name="ash", length_mm=2400, count=5, id="s1"), numbers=(1, 3))
    >>> [(run.id, run.first, run.count) for run in runs]
    [('s1', 2, 1), ('s1.4', 4, 2)]
    """
    gone = sorted(number for number in set(numbers) if number >= stock.first)
    starts = [stock.first, *(number + 1 for number in gone)]
    last = None if stock.count is None else stock.first + stock.count
    ends = [*gone, last]
    runs = [(start, end) for start, end in zip(starts, ends, strict=True) if end is None or end > start]
    return tuple(
        replace(
            stock,
            id=stock.id if place == 0 else f"{stock.id}.{start}",
            first=start,
            count=None if end is None else end - start,
        )
        for place, (start, end) in enumerate(runs)
    )


def whole_plan(rest: StickPlan | None, *, left: LeftToCut) -> StickPlan:
    """The plan of a whole job: begun sticks with what was and what will be cut from them, then the others.

    Args:
        rest: the plan of what is left to cut; None where all is cut.
    Source: derived.
    """
    of_rest, strips = rest.sticks if rest else (), left.strips
    opened = {key: stick for stick in of_rest if (key := _begun_id(stick.stock.id, strips))}
    begun = tuple(_merged(one, opened, cut_mm=left.problem.cut_mm) for one in left.begun)
    new = tuple(_paid(stick, left) for stick in of_rest if not _begun_id(stick.stock.id, strips))
    paid = sum((stick.stock.price for stick in begun), Decimal(0))
    least_money, least_new = left.money_of(rest.least_money) if rest else (Decimal(0), 0)
    sticks = (*begun, *new)
    lengths_mm = [stretch.left_over_mm for one in sticks for strip in one.strips for stretch in strip.stretches]
    longest_mm = max(lengths_mm, default=0.0)
    return StickPlan(
        problem_hash=hash_of(left.problem),
        sticks=sticks,
        money=sum((stick.stock.price for stick in sticks), Decimal(0)),
        proof_status=rest.proof_status if rest else ProofStatus.PROVED,
        least_money=paid + least_money,
        least_sticks=len(begun) + (least_new if left.weight else rest.least_sticks if rest else 0),
        proof=rest.proof if rest and not left.weight else _PROVED,
        longest_left_mm=longest_mm,
        longest_possible_mm=max(longest_mm, rest.longest_possible_mm if rest else 0.0),
    )


def _begun_id(key: str, strips: Collection[str]) -> str:
    """The id of what a begun stick has left; what is allotted of it has more behind a point. Blank for another."""
    return next((one for one in (key, key.rpartition(".")[0]) if one in strips), "")


def _paid(stick: CutStick, left: LeftToCut) -> CutStick:
    """A whole stick at its own price."""
    price, _ = left.money_of(stick.stock.price)
    return replace(stick, stock=replace(stick.stock, price=price))


def _merged(one: BegunStick, opened: Mapping[str, CutStick], *, cut_mm: float) -> CutStick:
    """A begun stick with all pieces that were and will be cut from it."""
    strips = (
        CutStrip(number=number, stretches=tuple(_stretches(one, number, opened, cut_mm=cut_mm)))
        for number in range(1, one.stock.strips + 1)
    )
    return CutStick(stock=replace(one.stock, count=1, first=one.number), number=one.number, strips=tuple(strips))


def _stretches(one: BegunStick, strip: int, opened: Mapping[str, CutStick], *, cut_mm: float) -> Iterable[CutStretch]:
    """What was cut of a strip, what will be, and what stays over, from left to right."""
    left = one.left(strip, cut_mm=cut_mm)
    planned = opened.get(left.id)
    rest = [stretch for each in planned.strips for stretch in each.stretches] if planned else _uncut(left, cut_mm)
    cut = (_of_cut(each.placed) for each in one.cut if each.strip == strip)
    return sorted((*cut, *rest), key=lambda stretch: stretch.start_mm)


def _of_cut(placed: PlacedPiece) -> CutStretch:
    return CutStretch(
        start_mm=placed.start_mm, end_mm=placed.end_mm, pieces=(replace(placed, is_cut=True),), left_over_mm=0.0
    )


def _uncut(left: Stock, cut_mm: float) -> list[CutStretch]:
    """The stretches of which nothing is cut."""
    return [
        CutStretch(start_mm=part.start_mm, end_mm=part.end_mm, pieces=(), left_over_mm=part.length_mm)
        for part in clear_stretches(left, cut_mm=cut_mm)
        if part.length_mm > TOLERANCE_MM
    ]
