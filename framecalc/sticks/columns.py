"""Plans made of patterns: a linear programme over patterns, all of them or those that pay, and whole-number plans of it.

Variables are the sticks opened of each kind, then how often each *column* is cut: a pattern in one bay of one kind. Rows
say that every part is cut, then that no more patterns are cut in a bay than the opened sticks have of it. The price
of a part row is what one more such part would cost: the raw material of a proof.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from framecalc.sticks.counted import Counted, Opened, Pattern
from framecalc.sticks.packing import without
from framecalc.sticks.patterns import MOST_PATTERNS, all_patterns, richer_patterns
from framecalc.sticks.solver import Outcome, Programme, Row, Solution, solve
from framecalc.sticks.watch import Watch

_NOISE = 1e-7
"""A pattern must beat the price of its bay by this share of it before it counts as richer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A pattern cut in one bay of one kind of stick."""

    kind: int
    bay: int
    pattern: Pattern


def all_columns(counted: Counted) -> tuple[Column, ...] | None:
    """List every maximal pattern of every bay; None where they are too many.

    Source: derived.
    """
    listed: list[Column] = []
    for kind, bay, room in _bays(counted):
        patterns = all_patterns(counted, room_um=room)
        if patterns is None or len(listed) + len(patterns) > MOST_PATTERNS:
            return None
        listed.extend(Column(kind=kind, bay=bay, pattern=pattern) for pattern in patterns)
    return tuple(listed)


def columns_of(opened: Iterable[Opened], *, counted: Counted) -> tuple[Column, ...]:
    """Take the patterns of a plan as columns, each once.

    Source: derived.
    """
    found: dict[Column, None] = {}
    for stick in opened:
        bays = [index for index, bay in enumerate(counted.kinds[stick.kind].bays) for _ in range(bay.count)]
        for bay, pattern in zip(bays, stick.patterns, strict=True):
            if any(pattern):
                found[Column(kind=stick.kind, bay=bay, pattern=pattern)] = None
    return tuple(found)


def columns_that_pay(
    counted: Counted, *, start: Iterable[Column], watch: Watch
) -> tuple[tuple[Column, ...], tuple[float, ...]]:
    """Make patterns until none is worth more than its bay costs; give them with the last prices of the parts.

    Args:
        start: the columns of a plan in hand.
    Source: P. C. Gilmore and R. E. Gomory, A linear programming approach to the cutting-stock problem, Operations
        Research 9 (1961) 849–859, from memory, not re-read.
    """
    columns = list(dict.fromkeys([*start, *_plain_columns(counted)]))
    prices: tuple[float, ...] = ()
    while not watch.over:
        solution = solve(_programme(counted, columns, missing=True), whole=False, watch=watch)
        if solution.outcome is not Outcome.BEST:
            break
        prices = solution.prices[: len(counted.counts)]
        fresh = _richer_columns(counted, solution)
        known = set(columns)
        fresh = [column for column in fresh if column not in known]
        if not fresh:
            break
        columns.extend(fresh)
    return tuple(columns), prices


def prices_of(counted: Counted, *, columns: Sequence[Column], watch: Watch) -> tuple[float, ...]:
    """Find the price of a part of each length when the columns are all there are; empty where time ran out.

    Source: derived (the dual values of the linear programme).
    """
    solution = solve(_programme(counted, columns, missing=True), whole=False, watch=watch)
    return solution.prices[: len(counted.counts)] if solution.outcome is Outcome.BEST else ()


def plan_of_columns(
    counted: Counted, *, columns: Sequence[Column], least: int, below: int, watch: Watch
) -> tuple[tuple[Opened, ...] | None, Outcome]:
    """Find the cheapest plan made of these columns that costs less than the one in hand, and how the search ended.

    Args:
        least: a cost that no plan beats.
        below: the cost of the plan in hand.
    Source: derived.
    """
    programme = _programme(counted, columns, missing=False)
    costs = [(index, kind.cost) for index, kind in enumerate(counted.kinds)]
    within = Row(terms=costs, least=least, most=below - 1)
    solution = solve(
        Programme(costs=programme.costs, limits=programme.limits, rows=(*programme.rows, within)),
        whole=True,
        watch=watch,
    )
    if not solution.values:
        return None, solution.outcome
    return _opened(counted, columns, solution.counts), solution.outcome


def _bays(counted: Counted) -> list[tuple[int, int, int]]:
    """Kind, bay and room of every bay."""
    return [
        (index, number, bay.room_um) for index, kind in enumerate(counted.kinds) for number, bay in enumerate(kind.bays)
    ]


def _plain_columns(counted: Counted) -> Iterable[Column]:
    """One pattern for each part and bay: as many of that part as fit."""
    for kind, bay, room in _bays(counted):
        for part, (length, count) in enumerate(zip(counted.lengths_um, counted.counts, strict=True)):
            times = min(count, room // length)
            if times:
                pattern = tuple(times if index == part else 0 for index in range(len(counted.counts)))
                yield Column(kind=kind, bay=bay, pattern=pattern)


def _programme(counted: Counted, columns: Sequence[Column], *, missing: bool) -> Programme:
    """The rows of all parts, then of all bays. With `missing`, parts may be left uncut at more than they are worth."""
    kinds, parts = len(counted.kinds), len(counted.counts)
    dear = 2 * max(kind.cost for kind in counted.kinds)
    extra = parts if missing else 0
    return Programme(
        costs=[*(kind.cost for kind in counted.kinds), *[0] * len(columns), *[dear] * extra],
        limits=[*(kind.limit for kind in counted.kinds), *[None] * (len(columns) + extra)],
        rows=(
            *_part_rows(counted, columns, first_missing=kinds + len(columns) if missing else None),
            *_bay_rows(counted, columns),
        ),
    )


def _part_rows(counted: Counted, columns: Sequence[Column], *, first_missing: int | None) -> list[Row]:
    terms: list[list[tuple[int, int]]] = [[] for _ in counted.counts]
    for variable, column in enumerate(columns, start=len(counted.kinds)):
        for part, times in enumerate(column.pattern):
            if times:
                terms[part].append((variable, times))
    if first_missing is not None:
        for part, row in enumerate(terms):
            row.append((first_missing + part, 1))
    return [Row(terms=row, least=count) for row, count in zip(terms, counted.counts, strict=True)]


def _bay_rows(counted: Counted, columns: Sequence[Column]) -> list[Row]:
    terms = {(kind, bay): [(kind, -counted.kinds[kind].bays[bay].count)] for kind, bay, _ in _bays(counted)}
    for variable, column in enumerate(columns, start=len(counted.kinds)):
        terms[column.kind, column.bay].append((variable, 1))
    return [Row(terms=row, most=0) for row in terms.values()]


def _richer_columns(counted: Counted, solution: Solution) -> list[Column]:
    prices = solution.prices[: len(counted.counts)]
    found: list[Column] = []
    for (kind, bay, room), bay_price in zip(_bays(counted), solution.prices[len(prices) :], strict=True):
        above = -bay_price + _NOISE * counted.kinds[kind].cost
        richer, _ = richer_patterns(counted, prices=prices, room_um=room, above=above)
        found.extend(Column(kind=kind, bay=bay, pattern=pattern) for pattern in richer)
    return found


def _opened(counted: Counted, columns: Sequence[Column], counts: Sequence[int]) -> tuple[Opened, ...]:
    """The sticks of a solution, without the parts that it cuts beyond what is asked."""
    left: Sequence[int] = counted.counts
    cut: dict[tuple[int, int], list[Pattern]] = {(kind, bay): [] for kind, bay, _ in _bays(counted)}
    for column, times in zip(columns, counts[len(counted.kinds) :], strict=True):
        for _ in range(times):
            pattern = tuple(min(there, taken) for there, taken in zip(left, column.pattern, strict=True))
            left = without(left, pattern)
            cut[column.kind, column.bay].append(pattern)
    sticks = [
        _next_stick(counted, kind, cut) for kind, taken in enumerate(counts[: len(counted.kinds)]) for _ in range(taken)
    ]
    return tuple(stick for stick in sticks if any(map(any, stick.patterns)))


def _next_stick(counted: Counted, kind: int, cut: dict[tuple[int, int], list[Pattern]]) -> Opened:
    """Take the patterns of one stick from those that are cut in its bays."""
    empty: Pattern = (0,) * len(counted.counts)
    patterns: list[Pattern] = []
    for number, bay in enumerate(counted.kinds[kind].bays):
        waiting = cut[kind, number]
        patterns.extend(waiting.pop() if waiting else empty for _ in range(bay.count))
    return Opened(kind=kind, patterns=tuple(patterns))
