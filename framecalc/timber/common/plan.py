"""The search for common boards: least money first, then fewest boards and sticks, then the fewest strips.

All ways to fill a strip and all ways to rip a board go into one programme of whole numbers. What the solver says is not
taken on trust: the allotment is gone over strip by strip in `check`, each section then gets a cutting plan of its own
from it, and a bound is added up in exact fractions from what a piece is worth. The strips are made fewer for no longer
than the search for the least money took.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from decimal import Decimal
from fractions import Fraction
from math import ceil

from framecalc.errors import ImpossibleTimber
from framecalc.records import Record, replace
from framecalc.search.solver import Condition, Outcome, Programme, Solution, Values, solve, whole_of
from framecalc.search.watch import SoFar, Watch
from framecalc.timber.common.problem import CommonProblem, Rip
from framecalc.timber.sticks.answer import ProofStatus
from framecalc.timber.sticks.patterns import all_patterns
from framecalc.timber.sticks.problem import clear_stretches
from framecalc.timber.sticks.whole_numbers import (
    Pattern,
    WholeNumbers,
    coin_of,
    in_whole_numbers,
    room_um,
    weight_over,
)

FINE = 10**6
"""Prices of the solver are rounded to one in so many before they are added up exactly."""

NARROWER_S = 2.0
"""What fewer strips may take in any case [s]; they take no longer than the least money if that took more. Ours."""


class RippedStock(Record):
    """So many boards or sticks of one id, ripped alike."""

    id: str
    rip: Rip
    count: int


class CommonPlan(Record):
    """What every section gets of the stock: ways to rip it, how often each, and how good that is known to be.

    `least_money` and `least_count`: no allotment does better, money first, then boards and sticks; 0 in answers that
    were kept before this was told.
    """

    key: str
    ripped: tuple[RippedStock, ...]
    money: Decimal
    proof_status: ProofStatus
    least_money: Decimal = Decimal(0)
    least_count: int = 0

    @property
    def count(self) -> int:
        """How many boards and sticks are taken."""
        return sum(one.count for one in self.ripped)


def plan_common_boards(problem: CommonProblem, *, watch: Watch) -> CommonPlan:
    """Allot boards and sticks to sections that may share them.

    Raises:
        ImpossibleTimber: no allotment exists, none was found in the time, or there are too many ways to fill a strip.
    Source: derived (two-stage cutting, every pattern listed).
    """
    model, began_s = _model(problem), watch.clock()
    least = ceil(_bound(model, solve(model.programme(model.costs), whole=False, watch=watch)))
    cheapest = _cheapest(model, least, watch)
    cost = model.cost_of(cheapest.counts)
    last = watch.at_most(max(NARROWER_S, watch.clock() - began_s))
    narrowest = solve(model.programme(model.strips, at_most=cost), whole=True, watch=last)
    has_second = narrowest.outcome in (Outcome.BEST, Outcome.FOUND) and model.cost_of(narrowest.counts) <= cost
    chosen = narrowest if has_second else cheapest
    status = _status(least, cost, cheapest.outcome)
    least_money, least_count = model.split(least if status is ProofStatus.OPEN else cost)
    return CommonPlan(
        key=problem.key,
        ripped=model.ripped(chosen),
        money=model.money_of(chosen.counts),
        proof_status=status,
        least_money=least_money,
        least_count=least_count,
    )


def least_fill_ratio(problem: CommonProblem, *, strips_mm: Sequence[float], room_mm: float, count: int) -> float:
    """Find the least that all strips fill of so many boards of the one kind that there is.

    ``Σ width · length of the pieces with their cuts / (boards · room across · room along)``

    Args:
        strips_mm: the width of a strip of each section, with its saw cut [mm], > 0.
        room_mm: of a board across, between its edges and with one saw cut [mm], > 0.
        count: how many boards, > 0.
    Source: derived.
    """
    (stock,) = problem.stock
    long_um = (in_whole_numbers(section).total_um for section in problem.sections)
    filled = sum(strip_mm * long for strip_mm, long in zip(strips_mm, long_um, strict=True))
    clear_um = max(sum(_rooms_um(problem, section, stock.id)) for section in range(len(problem.sections)))
    return filled / (count * room_mm * clear_um)


def _cheapest(model: "_Model", least: int, watch: Watch) -> Solution:
    """The cheapest allotment that the time allows; each that is better than those before is told."""
    least_money, least_sticks = model.split(least)
    so_far = SoFar(money=None, sticks=None, least_money=least_money, least_sticks=least_sticks)
    watch.tell(so_far)

    def tell(values: Values) -> None:
        counts = whole_of(values)
        watch.tell(replace(so_far, money=model.money_of(counts), sticks=sum(counts[: len(model.taken)])))

    cheapest = solve(model.programme(model.costs), whole=True, watch=watch, better=tell)
    if cheapest.outcome in (Outcome.IMPOSSIBLE, Outcome.NOTHING):
        raise ImpossibleTimber("No way was found to cut all sections from common boards.", field="stock")
    return cheapest


def _status(least: int, cost: int, outcome: Outcome) -> ProofStatus:
    if least >= cost:
        return ProofStatus.PROVED
    return ProofStatus.RULED_OUT if outcome is Outcome.BEST else ProofStatus.OPEN


class _Fill(Record):
    """One way to fill a clear stretch of a strip of one section."""

    section: int
    room_um: int
    pattern: Pattern


class _Taken(Record):
    """One way to take one board or stick: its rip, its price, and the stretches that each section gets of it."""

    stock: int
    rip: Rip
    price: Decimal
    bays: Counter[tuple[int, int]]


class _Model(Record):
    """The programme: the ways to take stock first, then the ways to fill stretches."""

    problem: CommonProblem
    numbers: tuple[WholeNumbers, ...]
    taken: tuple[_Taken, ...]
    fills: tuple[_Fill, ...]

    @property
    def weight(self) -> int:
        """What a coin costs: more than the boards and sticks of any plan."""
        by_money = len({one.price for one in self.taken}) > 1
        return weight_over(sum(sum(each.counts) for each in self.numbers)) if by_money else 0

    @property
    def costs(self) -> tuple[int, ...]:
        """Money first, then one for each board or stick."""
        coin, weight = self.coin, self.weight
        return tuple(int(Fraction(one.price) / coin) * weight + 1 for one in self.taken)

    @property
    def coin(self) -> Fraction:
        """The money that one coin stands for."""
        return coin_of(one.price for one in self.taken)

    @property
    def strips(self) -> tuple[int, ...]:
        """How many strips each way rips."""
        return tuple(sum(one.rip) for one in self.taken)

    def programme(self, costs: Sequence[int], *, at_most: int | None = None) -> Programme:
        """The programme for some costs, with the true cost held where it is given."""
        count = len(self.taken) + len(self.fills)
        held = [] if at_most is None else [Condition(terms=tuple(enumerate(self.costs)), most=at_most)]
        return Programme(
            costs=[*costs, *([0] * len(self.fills))],
            floors=[0] * count,
            limits=[None] * count,
            rows=[*self._demands(), *self._rooms(), *self._counts(), *held],
        )

    def cost_of(self, counts: Sequence[int]) -> int:
        """What a solution costs, added up in whole numbers."""
        return sum(cost * count for cost, count in zip(self.costs, counts, strict=False))

    def split(self, cost: int) -> tuple[Decimal, int]:
        """The money and the number of boards and sticks of a cost; where all cost alike, it counts these."""
        coins, count = divmod(cost, self.weight) if self.weight else (cost * self._coins_of_one, cost)
        money = coins * self.coin
        return Decimal(money.numerator) / Decimal(money.denominator), count

    @property
    def _coins_of_one(self) -> int:
        return int(Fraction(self.taken[0].price) / self.coin) if self.taken else 0

    def money_of(self, counts: Sequence[int]) -> Decimal:
        """What a solution costs in money."""
        pairs = zip(self.taken, counts, strict=False)
        return sum((one.price * count for one, count in pairs), Decimal(0))

    def ripped(self, solution: Solution) -> tuple[RippedStock, ...]:
        """The stock of a solution."""
        return tuple(
            RippedStock(id=self.problem.stock[one.stock].id, rip=one.rip, count=count)
            for one, count in zip(self.taken, solution.counts, strict=False)
            if count
        )

    def _demands(self) -> Iterator[Condition]:
        """Every part is cut as often as it is wanted."""
        for section, numbers in enumerate(self.numbers):
            for kind, wanted in enumerate(numbers.counts):
                terms = [
                    (len(self.taken) + place, fill.pattern[kind])
                    for place, fill in enumerate(self.fills)
                    if fill.section == section and fill.pattern[kind]
                ]
                yield Condition(terms=terms, least=wanted)

    def _rooms(self) -> Iterator[Condition]:
        """No more stretches are filled than there are."""
        for bay in dict.fromkeys((fill.section, fill.room_um) for fill in self.fills):
            filled = [
                (len(self.taken) + place, 1)
                for place, fill in enumerate(self.fills)
                if (fill.section, fill.room_um) == bay
            ]
            there = [(place, -one.bays[bay]) for place, one in enumerate(self.taken) if one.bays[bay]]
            yield Condition(terms=[*there, *filled], most=0)

    def _counts(self) -> Iterator[Condition]:
        """No more is taken than there is."""
        for number, stock in enumerate(self.problem.stock):
            known = (self.problem.stock_of(section, stock.id) for section in range(len(self.problem.sections)))
            count = next(one.count for one in known if one is not None)
            if count is not None:
                yield Condition(
                    terms=[(place, 1) for place, one in enumerate(self.taken) if one.stock == number], most=count
                )


def _model(problem: CommonProblem) -> _Model:
    numbers = tuple(in_whole_numbers(section) for section in problem.sections)
    taken = tuple(
        _taken(problem, numbers, number, rip) for number, stock in enumerate(problem.stock) for rip in stock.rips
    )
    rooms = dict.fromkeys(bay for one in taken for bay in one.bays)
    fills = tuple(
        _Fill(section=section, room_um=room, pattern=pattern)
        for section, room in rooms
        for pattern in _patterns(numbers[section], room)
    )
    return _Model(problem=problem, numbers=numbers, taken=taken, fills=fills)


def _taken(problem: CommonProblem, numbers: Sequence[WholeNumbers], number: int, rip: Rip) -> _Taken:
    bays: Counter[tuple[int, int]] = Counter()
    price = Decimal(0)
    for section, strips in enumerate(rip):
        stock = problem.stock_of(section, problem.stock[number].id) if strips else None
        if stock is not None:
            price = stock.price
            for room in _rooms_um(problem, section, stock.id):
                if room >= numbers[section].lengths_um[-1]:
                    bays[section, room] += strips
    return _Taken(stock=number, rip=rip, price=price, bays=bays)


def _rooms_um(problem: CommonProblem, section: int, stock_id: str) -> list[int]:
    asked, stock = problem.sections[section], problem.stock_of(section, stock_id)
    assert stock is not None
    return [room_um(part, problem=asked) for part in clear_stretches(stock, cut_mm=asked.cut_mm)]


def _patterns(numbers: WholeNumbers, room: int) -> list[Pattern]:
    patterns = all_patterns(numbers, room_um=room)
    if patterns is None:
        raise ImpossibleTimber("Too many ways to fill a strip: plan the boards apart.", field="stock")
    return patterns


def _bound(model: _Model, relaxed: Solution) -> Fraction:
    """Add up, exactly, a cost that no plan is below: what all parts are worth, where no stock is worth over its cost.

    Parts get the solver's prices as fractions. A stretch is worth its richest fill, a board its richest rip; all is
    then scaled down until no stock holds more than it costs.
    """
    wanted = [(section, kind) for section, numbers in enumerate(model.numbers) for kind in range(len(numbers.counts))]
    if not relaxed.prices:
        return Fraction(0)
    prices = (Fraction(round(max(0.0, price) * FINE), FINE) for price in relaxed.prices)
    worth = dict(zip(wanted, prices, strict=False))
    richest: dict[tuple[int, int], Fraction] = {}
    for fill in model.fills:
        value = sum((count * worth[fill.section, kind] for kind, count in enumerate(fill.pattern)), Fraction(0))
        bay = fill.section, fill.room_um
        richest[bay] = max(richest.get(bay, Fraction(0)), value)
    held = [sum((count * richest[bay] for bay, count in one.bays.items()), Fraction(0)) for one in model.taken]
    most = max(value / cost for value, cost in zip(held, model.costs, strict=True))
    total = sum((model.numbers[section].counts[kind] * value for (section, kind), value in worth.items()), Fraction(0))
    return total / most if most else Fraction(0)
