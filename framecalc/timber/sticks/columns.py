"""Plans made of patterns: a linear programme over all of them, or over those that pay, and whole-number plans of it.

Variables are the sticks opened of each kind, then how often each *column* is cut: a pattern in one bay of one kind.
Rows say that every part is cut, then that no more patterns are cut in a bay than the opened sticks have of it. The
price of a part's row is what one more such part would cost: the raw material of a proof. Columns may be *settled*: cut
at least so often, whatever else.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence

from framecalc.records import Record, replace
from framecalc.search.solver import Condition, Outcome, Programme, solve
from framecalc.search.watch import Watch
from framecalc.timber.sticks.column_lists import Column, PricedColumns, bays_of, plain_columns
from framecalc.timber.sticks.packing import without
from framecalc.timber.sticks.patterns import PRICING_STEPS, richer_patterns
from framecalc.timber.sticks.whole_numbers import OpenedStick, Pattern, WholeNumbers

FixedColumns = Mapping[Column, int]

EXACT_STEPS = 40_000
"""Steps spent on a richer pattern where a short search finds none: almost always enough to be sure. Measured."""

FILL_NODES = 100
"""Where the search in whole numbers for a filling stops. Measured: the root alone is too little, 20 nearly enough."""

_NOISE = 1e-7
"""A pattern must beat the price of its bay by this share of a part left uncut before it counts as richer."""


class Filling(Record):
    """Sticks, empty ones too, and how many parts of each length are left uncut."""

    sticks: tuple[OpenedStick, ...]
    uncut: Pattern


def price_columns(
    whole_numbers: WholeNumbers, *, columns: Iterable[Column], settled: FixedColumns, rounds: int, watch: Watch
) -> PricedColumns:
    """Price the parts, make patterns whose parts cost more than their bay, and price again, for some rounds.

    Args:
        columns: those to start from; a few plain ones are added, so that every part is in one.
        settled: columns that are cut at least so often; new patterns hold only parts that these leave.
    Source: P. C. Gilmore and R. E. Gomory, A linear programming approach to the cutting-stock problem, Operations
        Research 9 (1961) 849–859, from memory, not re-read.
    """
    known = dict.fromkeys([*columns, *plain_columns(whole_numbers)])
    left = left_by(settled, whole_numbers=whole_numbers)
    priced = PricedColumns(columns=tuple(known))
    for _ in range(rounds):
        priced = _price(whole_numbers, tuple(known), settled, watch)
        fresh = _unknown(known, _richer_columns(whole_numbers, priced, left))
        if not fresh and not settled and not watch.over:
            fresh = _unknown(known, _richer_columns(whole_numbers, priced, left, steps=EXACT_STEPS))
        if not fresh:
            break
        known |= dict.fromkeys(fresh)
    return priced


def plan_of_columns(
    whole_numbers: WholeNumbers,
    *,
    columns: Sequence[Column],
    settled: FixedColumns,
    least: int,
    below: int,
    watch: Watch,
) -> tuple[tuple[OpenedStick, ...] | None, Outcome]:
    """Find the cheapest plan made of these columns that costs less than the one in hand, and how the search ended.

    Args:
        least: a cost that no plan beats.
        below: the cost of the plan in hand.
    Source: derived.
    """
    programme = _programme(whole_numbers, columns, settled, missing=False)
    costs = [(index, kind.cost) for index, kind in enumerate(whole_numbers.kinds)]
    within = Condition(terms=costs, least=least, most=below - 1)
    bounded = Programme(
        costs=programme.costs, floors=programme.floors, limits=programme.limits, rows=(*programme.rows, within)
    )
    solution = solve(bounded, whole=True, watch=watch)
    return (_opened(whole_numbers, columns, solution.counts) if solution.values else None), solution.outcome


def fill_columns(
    given: WholeNumbers, *, columns: Sequence[Column], settled: FixedColumns, watch: Watch
) -> Filling | None:
    """Cut as much of the parts from given sticks as a short search finds; None where time ran out.

    Source: derived.
    """
    programme = _programme(given, columns, settled, missing=True)
    solution = solve(programme, whole=True, watch=watch, most_nodes=FILL_NODES)
    if not solution.values:
        return None
    taken, first = [kind.limit for kind in given.kinds], len(given.kinds)
    sticks = _sticks(given, columns, [*taken, *solution.counts[first : first + len(columns)]])
    uncut = list(given.counts)
    for stick in sticks:
        for pattern in stick.patterns:
            uncut = without(uncut, pattern)
    return Filling(sticks=sticks, uncut=tuple(uncut))


def emptiest_bay(
    whole_numbers: WholeNumbers,
    *,
    columns: Sequence[Column],
    purchase: Sequence[int],
    where: tuple[int, int],
    below_um: int,
    watch: Watch,
) -> tuple[tuple[OpenedStick, ...] | None, Outcome]:
    """Cut the parts from given sticks so that one bay holds as little as possible; and how the search ended.

    Args:
        purchase: the sticks of each kind.
        where: kind and bay of the one that shall hold little.
        below_um: it must hold less than this.
    Source: derived (the parts of that bay are counted one by one, those of all others by patterns).
    """
    plain = _programme(whole_numbers, columns, {}, missing=False)
    first, bays = len(plain.costs), [(kind, bay) for kind, bay, _ in bays_of(whole_numbers)]
    own = [(first + part, 1) for part in range(len(whole_numbers.counts))]
    held = [(variable, length) for (variable, _), length in zip(own, whole_numbers.lengths_um, strict=True)]
    part_rows = [replace(row, terms=[*row.terms, term]) for row, term in zip(plain.rows, own, strict=False)]
    bay_rows = [
        replace(row, most=-1 if bay == where else 0) for row, bay in zip(plain.rows[len(own) :], bays, strict=True)
    ]
    programme = Programme(
        costs=[*[0] * first, *whole_numbers.lengths_um],
        floors=[*purchase, *plain.floors[len(purchase) :], *[0] * len(own)],
        limits=[*purchase, *plain.limits[len(purchase) :], *whole_numbers.counts],
        rows=(*part_rows, *bay_rows, Condition(terms=held, most=below_um - 1)),
    )
    solution = solve(programme, whole=True, watch=watch)
    if not solution.values:
        return None, solution.outcome
    rest = Column(kind=where[0], bay=where[1], pattern=solution.counts[first:])
    return _opened(whole_numbers, [*columns, rest], [*solution.counts[:first], 1]), solution.outcome


def left_by(settled: FixedColumns, *, whole_numbers: WholeNumbers) -> list[int]:
    """The parts that settled columns leave to be cut.

    Source: derived.
    """
    left = list(whole_numbers.counts)
    for column, times in settled.items():
        left = [there - times * taken for there, taken in zip(left, column.pattern, strict=True)]
    return [max(0, there) for there in left]


def stick_prices(whole_numbers: WholeNumbers, *, priced: PricedColumns) -> list[float]:
    """The prices of all bays of one stick, for each kind.

    Source: derived.
    """
    prices = [0.0] * len(whole_numbers.kinds)
    for (kind, bay, _), price in zip(bays_of(whole_numbers), priced.bay_prices, strict=True):
        prices[kind] += price * whole_numbers.kinds[kind].bays[bay].count
    return prices


def least_by_prices(whole_numbers: WholeNumbers, *, priced: PricedColumns) -> float:
    """A bound for plans of these columns: the prices of all parts, less the prices of limited sticks above their cost.

    Source: derived (linear programming duality).
    """
    parts = sum(price * count for price, count in zip(priced.part_prices, whole_numbers.counts, strict=True))
    sticks = zip(whole_numbers.kinds, stick_prices(whole_numbers, priced=priced), strict=True)
    return parts - sum(kind.limit * max(0.0, price - kind.cost) for kind, price in sticks)


def _price(
    whole_numbers: WholeNumbers, columns: tuple[Column, ...], settled: FixedColumns, watch: Watch
) -> PricedColumns:
    programme = _programme(whole_numbers, columns, settled, missing=True)
    solution = solve(programme, whole=False, watch=watch)
    if solution.outcome is not Outcome.BEST:
        return PricedColumns(columns=columns)
    kinds, parts = len(whole_numbers.kinds), len(whole_numbers.counts)
    uncut = zip(whole_numbers.lengths_um, solution.values[kinds + len(columns) :], strict=True)
    return PricedColumns(
        columns=columns,
        times=solution.values[kinds : kinds + len(columns)],
        part_prices=solution.prices[:parts],
        bay_prices=tuple(-price for price in solution.prices[parts:]),
        uncut_um=sum(length * times for length, times in uncut),
    )


def _unknown(known: Collection[Column], columns: Iterable[Column]) -> list[Column]:
    return [column for column in columns if column not in known]


def _richer_columns(
    whole_numbers: WholeNumbers, priced: PricedColumns, left: Sequence[int], *, steps: int = PRICING_STEPS
) -> Iterable[Column]:
    noise = _NOISE * max(_uncut_costs(whole_numbers))
    for (kind, bay, room), bay_price in zip(bays_of(whole_numbers), priced.bay_prices, strict=False):
        if not whole_numbers.kinds[kind].limit:
            continue
        above = bay_price + noise
        richer = richer_patterns(
            whole_numbers, left=left, prices=priced.part_prices, room_um=room, above=above, steps=steps
        )
        yield from (Column(kind=kind, bay=bay, pattern=pattern) for pattern in richer)


def _programme(
    whole_numbers: WholeNumbers, columns: Sequence[Column], settled: FixedColumns, *, missing: bool
) -> Programme:
    """The rows of all parts, then of all bays. With `missing`, parts may be left uncut at more than their price."""
    first_missing = len(whole_numbers.kinds) + len(columns)
    uncut = _uncut_costs(whole_numbers) if missing else []
    rows = _part_rows(whole_numbers, columns)
    if missing:
        rows = [[*terms, (first_missing + part, 1)] for part, terms in enumerate(rows)]
    return Programme(
        costs=[*(kind.cost for kind in whole_numbers.kinds), *[0] * len(columns), *uncut],
        floors=[*[0] * len(whole_numbers.kinds), *(settled.get(column, 0) for column in columns), *[0] * len(uncut)],
        limits=[*(kind.limit for kind in whole_numbers.kinds), *[None] * (len(columns) + len(uncut))],
        rows=(
            *(Condition(terms=terms, least=count) for terms, count in zip(rows, whole_numbers.counts, strict=True)),
            *_bay_rows(whole_numbers, columns),
        ),
    )


def _uncut_costs(whole_numbers: WholeNumbers) -> list[int]:
    """What it costs to leave a part uncut: more than any stick, or its length where the sticks are given."""
    dear = 2 * max(kind.cost for kind in whole_numbers.kinds)
    return [dear or length for length in whole_numbers.lengths_um]


def _part_rows(whole_numbers: WholeNumbers, columns: Sequence[Column]) -> list[list[tuple[int, int]]]:
    terms: list[list[tuple[int, int]]] = [[] for _ in whole_numbers.counts]
    for variable, column in enumerate(columns, start=len(whole_numbers.kinds)):
        for part, times in enumerate(column.pattern):
            if times:
                terms[part].append((variable, times))
    return terms


def _bay_rows(whole_numbers: WholeNumbers, columns: Sequence[Column]) -> list[Condition]:
    terms = {
        (kind, bay): [(kind, -whole_numbers.kinds[kind].bays[bay].count)] for kind, bay, _ in bays_of(whole_numbers)
    }
    for variable, column in enumerate(columns, start=len(whole_numbers.kinds)):
        terms[column.kind, column.bay].append((variable, 1))
    return [Condition(terms=row, most=0) for row in terms.values()]


def _opened(whole_numbers: WholeNumbers, columns: Sequence[Column], counts: Sequence[int]) -> tuple[OpenedStick, ...]:
    """The sticks of a solution that hold anything."""
    return tuple(stick for stick in _sticks(whole_numbers, columns, counts) if any(map(any, stick.patterns)))


def _sticks(whole_numbers: WholeNumbers, columns: Sequence[Column], counts: Sequence[int]) -> tuple[OpenedStick, ...]:
    """The sticks of a solution, without the parts that it cuts beyond the counts asked for."""
    left: Sequence[int] = whole_numbers.counts
    cut: dict[tuple[int, int], list[Pattern]] = {(kind, bay): [] for kind, bay, _ in bays_of(whole_numbers)}
    for column, times in zip(columns, counts[len(whole_numbers.kinds) :], strict=True):
        for _ in range(times):
            pattern = tuple(min(there, taken) for there, taken in zip(left, column.pattern, strict=True))
            left = without(left, pattern)
            cut[column.kind, column.bay].append(pattern)
    taken = [kind for kind, times in enumerate(counts[: len(whole_numbers.kinds)]) for _ in range(times)]
    return tuple(_next_stick(whole_numbers, kind, cut) for kind in taken)


def _next_stick(whole_numbers: WholeNumbers, kind: int, cut: dict[tuple[int, int], list[Pattern]]) -> OpenedStick:
    """Take the patterns of one stick from those that are cut in its bays."""
    empty: Pattern = (0,) * len(whole_numbers.counts)
    patterns: list[Pattern] = []
    for number, bay in enumerate(whole_numbers.kinds[kind].bays):
        waiting = cut[kind, number]
        patterns.extend(waiting.pop() if waiting else empty for _ in range(bay.count))
    return OpenedStick(kind=kind, patterns=tuple(patterns))
