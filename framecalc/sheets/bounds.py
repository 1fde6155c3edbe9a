"""Lower bounds on the price of a layout, each one a sum that a person can check.

Give every piece a *share*. If the pieces of a sheet cannot have more shares together than its *capacity*, the sheets of
any layout need capacities that add up to the shares of all pieces, and the cheapest purchase that has them is a lower
bound on the price. Everything is exact: whole numbers and fractions.

Shares come from functions f of a length with f(a) + f(b) ≤ f(a + b), never falling. With two of them a piece has the
share f(across)·g(up), and a sheet the capacity f(across)·g(up): each cut adds lengths in one direction.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction
from functools import partial
from itertools import count
from math import ceil

from framecalc.records import Record
from framecalc.search.watch import nobody, until_enough
from framecalc.sheets.whole_numbers import JobSheet, LayoutJob

MOST_TRIED = 5_000
"""Purchases tried for the cheapest one with enough capacity, before fractions of sheets are allowed."""

DIVISIONS = range(2, 9)
"""Into how many equal parts a side is divided to find lengths of which few fit side by side. Ours."""

MOST_SIDES = 12
"""Sides of pieces that are tried as steps. Ours."""

FEW_SIDES = 6
"""Sides that are tried where each takes a search. Ours."""

Growth = Callable[[int], int]


class SheetShares(Record):
    """A share for each piece and a capacity for each kind of sheet: a proof of a bound."""

    pieces: tuple[int, ...]
    capacities: tuple[int, ...]


class SheetCertificate(Record):
    """Shares and the bound that they prove."""

    shares: SheetShares
    bound: Fraction


class SheetKind(Record):
    """Sheets of one kind: the price and the capacity of one, and how many there are."""

    price: int
    capacity: int
    count: int


def kinds_of(shares: SheetShares, *, job: LayoutJob) -> tuple[SheetKind, ...]:
    """The kinds of sheets with any capacity, the cheapest for its capacity first.

    Source: derived.
    """
    pairs = zip(job.sheets, shares.capacities, strict=True)
    kinds = [SheetKind(price=sheet.price, capacity=most, count=sheet.count) for sheet, most in pairs if most > 0]
    return tuple(sorted(kinds, key=lambda kind: Fraction(kind.price, kind.capacity)))


def certified(shares: SheetShares, *, job: LayoutJob) -> SheetCertificate:
    """Find the lower bound that shares prove.

    ``max over θ ≥ 0 of θ·Σ share·wanted − Σ count·max(0, θ·capacity − price)``, which is greatest where θ is the price
    of a sheet over its capacity.

    Source: derived (linear programming duality of covering the shares with sheets of limited number).
    """
    wanted = _wanted(shares, job)
    sheets = tuple(zip(job.sheets, shares.capacities, strict=True))
    tops = {Fraction(sheet.price, capacity) for sheet, capacity in sheets if capacity > 0}
    bound = max((_dual(theta, wanted, sheets_of=sheets) for theta in tops), default=Fraction(0))
    return SheetCertificate(shares=shares, bound=bound)


def stronger(one: SheetCertificate, other: SheetCertificate) -> SheetCertificate:
    """The one of two certificates with the higher bound, of equals the first.

    Source: derived.
    """
    return other if other.bound > one.bound else one


def simple_certificate(job: LayoutJob, *, is_enough: Callable[[], bool] = nobody) -> SheetCertificate:
    """The best of the bounds that need no search: areas, halves, thirds, wide and long pieces.

    Args:
        is_enough: asked after each; once it says so, the best of those so far is taken.
    Source: superadditive ("dual feasible") functions after Fekete and Schepers, "New classes of fast lower bounds for
        bin packing problems", 2001, from memory, not re-read; validity as in the text above.
    """
    bounds = (certified(shares, job=job) for shares in _simple_shares(job))
    return max(until_enough(bounds, is_enough=is_enough), key=lambda found: found.bound)


def least_price(certificate: SheetCertificate, *, job: LayoutJob, known: int) -> int:
    """The least price of whole sheets whose capacities cover the shares of all pieces.

    Args:
        known: the price of a layout that is known: nothing dearer is looked for.
    Source: derived (branch and bound over the kinds of sheets, the cheapest for its capacity first).
    """
    shares = certificate.shares
    try:
        return _cheapest(kinds_of(shares, job=job), _wanted(shares, job), below=known, tried=count())
    except _TooMany:
        return min(known, ceil(certificate.bound))


def price_in_fractions(kinds: tuple[SheetKind, ...], wanted: int, *, enough: int) -> int:
    """The least price of a capacity if fractions of sheets may be bought, rounded up.

    Args:
        kinds: the cheapest for its capacity first.
        enough: the answer where even all sheets are too few.
    Source: derived.
    """
    price = 0
    for kind in kinds:
        if wanted <= kind.count * kind.capacity:
            return price - (-wanted * kind.price // kind.capacity)
        price, wanted = price + kind.count * kind.price, wanted - kind.count * kind.capacity
    return enough


class _TooMany(Exception):
    """There are more purchases than are tried."""


def _cheapest(kinds: tuple[SheetKind, ...], wanted: int, *, below: int, tried: Iterator[int]) -> int:
    """The least price of whole sheets with the capacity wanted, if it is below a price; else that price."""
    if wanted <= 0:
        return min(below, 0)
    if next(tried) >= MOST_TRIED:
        raise _TooMany
    if price_in_fractions(kinds, wanted, enough=below) >= below:
        return below
    first, others = kinds[0], kinds[1:]
    for number in range(min(first.count, -(-wanted // first.capacity)), -1, -1):
        paid = number * first.price
        rest = _cheapest(others, wanted - number * first.capacity, below=below - paid, tried=tried)
        below = min(below, paid + rest)
    return below


def is_mirrored(job: LayoutJob) -> bool:
    """Whether each layout of a sheet is one with every part turned as well: all sheets are square, all parts may turn.

    Source: derived: the mirror image at the diagonal.
    """
    return all(sheet.across == sheet.up for sheet in job.sheets) and all(piece.may_turn for piece in job.pieces)


def shares_of_ways(worths: Sequence[Sequence[int]], most: Sequence[int], *, job: LayoutJob) -> SheetShares:
    """The share of each piece from what each way that it may lie is worth, and the most that fits a sheet is.

    A piece has the least of its ways; where a layout can be mirrored, all its ways, for a layout and its mirror image
    together are worth twice the most.

    Args:
        worths: of each piece, of each of its ways.
        most: for each kind of sheet, whichever way each of its parts lies.
    Source: derived, as in the text above.
    """
    if is_mirrored(job):
        pieces = tuple(sum(ways) * (2 // len(ways)) for ways in worths)
        return SheetShares(pieces=pieces, capacities=tuple(2 * one for one in most))
    return SheetShares(pieces=tuple(map(min, worths)), capacities=tuple(most))


def _wanted(shares: SheetShares, job: LayoutJob) -> int:
    return sum(share * piece.count for share, piece in zip(shares.pieces, job.pieces, strict=True))


def _dual(theta: Fraction, wanted: int, *, sheets_of: Iterable[tuple[JobSheet, int]]) -> Fraction:
    spared = sum(
        (sheet.count * max(Fraction(0), theta * capacity - sheet.price) for sheet, capacity in sheets_of), Fraction(0)
    )
    return theta * wanted - spared


def growths(job: LayoutJob, axis: int) -> Iterator[Growth]:
    """A few functions of a length along an axis that prove bounds, the plain length first.

    Args:
        axis: 0 across, 1 up.
    Source: as for `simple_certificate`; steps from both ends after Carlier, Clautiaux and Moukrim, "New reduction
        procedures and lower bounds for the two-dimensional bin packing problem", 2007, from memory, not re-read.
    """
    longest = max((sheet.across, sheet.up)[axis] for sheet in job.sheets)
    sides = sorted({way[axis] for piece in job.pieces for way in piece.ways})
    yield partial(_whole_steps, step=1)
    for side in _spread([side for side in sides if 2 * side <= longest], most=FEW_SIDES):
        yield partial(_steps_from_both_ends, longest=longest, step=side)


def _simple_shares(job: LayoutJob) -> Iterator[SheetShares]:
    across = max(sheet.across for sheet in job.sheets)
    up = max(sheet.up for sheet in job.sheets)
    sides = sorted({side for piece in job.pieces for side in (piece.across, piece.up)})
    for grow_across in _growths(across, sides):
        for grow_up in _growths(up, sides):
            worths = [[grow_across(wide) * grow_up(high) for wide, high, _ in piece.ways] for piece in job.pieces]
            most = [grow_across(sheet.across) * grow_up(sheet.up) for sheet in job.sheets]
            yield shares_of_ways(worths, most, job=job)


def _growths(longest: int, sides: list[int]) -> Iterator[Growth]:
    """Superadditive functions on lengths from 0 to the longest."""
    yield partial(_whole_steps, step=1)
    for number in DIVISIONS:
        yield partial(_whole_steps, step=longest // number + 1)
        yield partial(_in_parts, longest=longest, number=number)
    for side in _spread(sides, most=MOST_SIDES):
        yield partial(_whole_steps, step=side)
        if side <= longest // 2:
            yield partial(_steps_from_both_ends, longest=longest, step=side)
            yield partial(_all_or_nothing, longest=longest, side=side)


def _whole_steps(length: int, *, step: int) -> int:
    """How many whole steps lie in a length."""
    return length // step


def _in_parts(length: int, *, longest: int, number: int) -> int:
    """A length that is a whole number of equal parts as it is; of any other, the whole parts, rounded the DFF way."""
    return length * (number - 1) if length * number % longest == 0 else length * number // longest * longest


def _all_or_nothing(length: int, *, longest: int, side: int) -> int:
    """Nothing for what is shorter than a side, all for what leaves less than a side."""
    if length < side:
        return 0
    return length if length <= longest - side else longest


def _steps_from_both_ends(length: int, *, longest: int, step: int) -> int:
    """Whole steps of what is shorter than half, twice; of a longer length, all but the whole steps that it leaves."""
    if 2 * length < longest:
        return 2 * (length // step)
    return longest // step if 2 * length == longest else 2 * (longest // step - (longest - length) // step)


def _spread(sides: list[int], *, most: int) -> list[int]:
    step = max(1, len(sides) // most)
    return sides[::step]
