"""Bounds from a linear program over all ways to cut a sheet, the pieces taken too often counted one after another.

The *patterns* of the program may cut a piece any number of times, so its prices bound the price of any layout. Prices
alone swing from round to round; asking for the best pattern between them and the best shares so far settles sooner.
When that bound is found and says too little, the piece that its patterns take most beyond what is wanted is counted,
and the program goes on with what is left.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from math import ceil

from framecalc.records import Mutable, Record
from framecalc.search.solver import Solution, solve
from framecalc.search.watch import Watch
from framecalc.sheets.bounds import SheetCertificate, SheetShares, certified, least_price
from framecalc.sheets.columns import LEAST_GAIN, SHARE_STEPS, SheetYield, programme_of
from framecalc.sheets.layers import Layers, best_pieces, layered_values, layers_of, most_of
from framecalc.sheets.places import PlaceTable
from framecalc.sheets.whole_numbers import LayoutJob

NEARNESS = (0.7, 0.3, 0.0)
"""How near to the best shares so far the best pattern is asked for, until one pays at the program's own prices."""

MOST_ROUNDS = 300
"""Rounds of new patterns after which the search for a bound ends in any case."""

KEPT_RATIO = 0.05
"""How much more than its sheet costs a known filling may cost at the first prices, to be a pattern to begin with."""


class CutPattern(Record):
    """A kind of sheet, and what is cut from one; a piece may come more often than it is wanted."""

    sheet: int
    pieces: tuple[int, ...]


class _Programme(Mutable):
    """The program so far: its patterns, the best certificate, and what the last solution says."""

    job: LayoutJob
    layers: Layers
    known: int
    best: SheetCertificate
    patterns: dict[CutPattern, None]
    values: tuple[float, ...] = ()
    prices: tuple[int, ...] = ()
    rooms: tuple[float, ...] = ()
    hope: int = 0


def counted_certificates(
    table: PlaceTable,
    fillings: Iterable[SheetYield],
    *,
    job: LayoutJob,
    best: SheetCertificate,
    known: int,
    watch: Watch,
) -> Iterator[SheetCertificate]:
    """Bounds that patterns prove, each better than those before it.

    Args:
        table: of the job without a least strip.
        fillings: what is known to fill sheets of the job; it must cover all parts.
        best: the best bound known.
        known: the price of a layout that is known.
    Source: Gilmore and Gomory, 1965; smoothed prices after Wentges, "Weighted Dantzig-Wolfe decomposition for linear
        mixed-integer programming", 1997; both from memory, not re-read.
    """
    layers = layers_of(table, (), job=job)
    if not layers:
        return
    patterns = dict.fromkeys(CutPattern(sheet=one.sheet, pieces=tuple(sorted(one.pieces))) for one in fillings)
    state = _Programme(job=job, layers=layers, known=known, best=best, patterns=patterns)
    if not _is_solved(state, watch) or not _can_better(state):
        return
    state.patterns = dict.fromkeys(_useful(state))
    for _ in range(MOST_ROUNDS):
        if not _is_solved(state, watch):
            return
        before = len(state.patterns)
        for certificate in _added_patterns(state):
            if certificate.bound > state.best.bound:
                state.best = certificate
                yield certificate
        is_settled = len(state.patterns) == before or not _can_better(state)
        if is_settled and not _counts_another(state):
            return


def _is_solved(state: _Programme, watch: Watch) -> bool:
    """Solve the program over the patterns so far."""
    solution = solve(programme_of(state.job, tuple(state.patterns)), whole=False, watch=watch)
    if not solution.prices:
        return False
    _take(state, solution)
    return True


def _take(state: _Programme, solution: Solution) -> None:
    number, job = len(state.job.pieces), state.job
    limits = [*job.counts, *(sheet.count for sheet in job.sheets)]
    state.values = solution.values
    state.prices = tuple(max(0, int(price * SHARE_STEPS)) for price in solution.prices[:number])
    state.rooms = tuple(min(0.0, price) for price in solution.prices[number:])
    optimum = sum(price * limit for price, limit in zip(solution.prices, limits, strict=True))
    state.hope = ceil(optimum - LEAST_GAIN)


def _can_better(state: _Programme) -> bool:
    """Whether a bound as high as the program's optimum, which only falls, would say more than the best."""
    return state.hope > least_price(state.best, job=state.job, known=state.known)


def _useful(state: _Programme) -> Iterator[CutPattern]:
    """The patterns that the program uses or nearly uses."""
    for pattern, value in zip(state.patterns, state.values, strict=True):
        price = state.job.sheets[pattern.sheet].price
        if value > 0 or _saving(pattern, state) > -KEPT_RATIO * price:
            yield pattern


def _saving(pattern: CutPattern, state: _Programme) -> float:
    """What a pattern is worth at the program's prices, more than its sheet costs."""
    worth = sum(state.prices[piece] for piece in pattern.pieces) / SHARE_STEPS
    return worth + state.rooms[pattern.sheet] - state.job.sheets[pattern.sheet].price


def _added_patterns(state: _Programme) -> Iterator[SheetCertificate]:
    """Add the best patterns for shares near the best so far, else for the program's prices; what they prove."""
    least = LEAST_GAIN * max(sheet.price for sheet in state.job.sheets if not sheet.is_missing)
    for nearness in NEARNESS:
        shares = _between(state, nearness)
        values = layered_values(state.layers, shares)
        sheets = range(len(state.job.sheets))
        most = tuple(most_of(state.layers, values, sheet) for sheet in sheets)
        yield certified(SheetShares(pieces=shares, capacities=most), job=state.job)
        found = [CutPattern(sheet=sheet, pieces=best_pieces(state.layers, values, shares, sheet)) for sheet in sheets]
        paying = [pattern for pattern in found if _saving(pattern, state) > least]
        state.patterns |= dict.fromkeys(paying)
        if paying:
            return


def _between(state: _Programme, nearness: float) -> tuple[int, ...]:
    """Shares so near to the best so far, the others being the program's prices."""
    best = state.best.shares.pieces
    scale = sum(map(_product, state.prices, state.job.counts)) / (sum(map(_product, best, state.job.counts)) or 1)
    return tuple(
        int(nearness * scale * share + (1 - nearness) * price) for share, price in zip(best, state.prices, strict=True)
    )


def _product(one: int, other: int) -> int:
    return one * other


def _counts_another(state: _Programme) -> bool:
    """Count the piece that is taken most beyond what is wanted; whether there is one, and time for it."""
    beyond = Counter[int]()
    for pattern, value in zip(state.patterns, state.values, strict=False):
        for piece, number in Counter(pattern.pieces).items():
            if piece not in state.layers.counted and number > state.job.counts[piece]:
                beyond[piece] += round(value * (number - state.job.counts[piece]) * state.prices[piece])
    if not any(beyond.values()):
        return False
    counted = (*state.layers.counted, beyond.most_common(1)[0][0])
    layers = layers_of(state.layers.table, counted, job=state.job)
    if not layers:
        return False
    state.layers = layers
    state.patterns = dict.fromkeys(one for one in state.patterns if _heeds(one.pieces, counted, state.job))
    return True


def _heeds(pieces: Sequence[int], counted: Sequence[int], job: LayoutJob) -> bool:
    return all(pieces.count(piece) <= job.counts[piece] for piece in counted)
