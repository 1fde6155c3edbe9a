"""What no layout can beat: lower bounds on the price, each one a sum that a person can check.

Give every piece a *worth*. If no sheet can yield more than its *capacity* in worth, then the sheets of any layout must
have capacities that add up to the worth of all that is wanted, and the cheapest purchase that does is a lower bound on
the price. All of it is exact: whole numbers and fractions.

Worths come from functions f of a length with f(a) + f(b) ≤ f(a + b), never falling. For two of them no sheet yields
more than f(across)·g(up) of the worth f(across)·g(up) of its pieces: each cut adds lengths in one direction.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from itertools import count
from math import ceil

from framecalc.sheets.whole_numbers import JobSheet, LayoutJob

MOST_TRIED = 5_000
"""Purchases tried for the cheapest one that is worth enough, before fractions of sheets are allowed."""

DIVISIONS = range(2, 9)
"""Into how many equal parts a side is divided to find lengths of which few fit side by side."""

MOST_SIDES = 12
"""Sides of pieces that are tried as steps."""

Growth = Callable[[int], int]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetWorths:
    """A worth for each piece, and for each kind of sheet the most worth it can yield: a proof of a bound."""

    pieces: tuple[int, ...]
    capacities: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetCertificate:
    """Worths and the bound that they prove."""

    worths: SheetWorths
    bound: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetKind:
    """Sheets of one kind: what one costs, the most worth it yields, how many there are."""

    price: int
    capacity: int
    count: int


def kinds_of(worths: SheetWorths, *, job: LayoutJob) -> tuple[SheetKind, ...]:
    """The kinds of sheets that yield any worth, the cheapest for its worth first.

    Source: derived.
    """
    pairs = zip(job.sheets, worths.capacities, strict=True)
    kinds = [SheetKind(price=sheet.price, capacity=most, count=sheet.count) for sheet, most in pairs if most > 0]
    return tuple(sorted(kinds, key=lambda kind: Fraction(kind.price, kind.capacity)))


def certified(worths: SheetWorths, *, job: LayoutJob) -> SheetCertificate:
    """Find the lower bound that worths prove.

    ``max over θ ≥ 0 of θ·Σ worth·wanted − Σ count·max(0, θ·capacity − price)``, which is greatest where θ is the price
    of a sheet over its capacity.

    Source: derived (linear programming duality of covering the worth with sheets of limited number).
    """
    wanted = _wanted(worths, job)
    sheets = tuple(zip(job.sheets, worths.capacities, strict=True))
    tops = {Fraction(sheet.price, capacity) for sheet, capacity in sheets if capacity > 0}
    bound = max((_dual(theta, wanted, sheets_of=sheets) for theta in tops), default=Fraction(0))
    return SheetCertificate(worths=worths, bound=bound)


def stronger(one: SheetCertificate, other: SheetCertificate) -> SheetCertificate:
    """The one of two certificates with the higher bound.

    Source: derived.
    """
    return other if other.bound > one.bound else one


def simple_certificate(job: LayoutJob) -> SheetCertificate:
    """The best of the bounds that need no search: areas, halves, thirds, wide and long pieces.

    Source: superadditive ("dual feasible") functions after Fekete and Schepers, "New classes of fast lower bounds for
        bin packing problems", 2001, from memory, not re-read; validity as in the text above.
    """
    return max((certified(worths, job=job) for worths in _simple_worths(job)), key=lambda found: found.bound)


def least_price(certificate: SheetCertificate, *, job: LayoutJob, known: int) -> int:
    """The least price of whole sheets that together yield the worth of all that is wanted.

    Args:
        known: the price of a layout that is known: nothing dearer is looked for.
    Source: derived (branch and bound over the kinds of sheets, the cheapest for its worth first).
    """
    worths = certificate.worths
    try:
        return _cheapest(kinds_of(worths, job=job), _wanted(worths, job), below=known, tried=count())
    except _TooMany:
        return min(known, ceil(certificate.bound))


def price_in_fractions(kinds: tuple[SheetKind, ...], wanted: int, *, enough: int) -> int:
    """The least price of a worth where fractions of sheets may be bought, rounded up.

    Args:
        kinds: the cheapest for its worth first.
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


def _wanted(worths: SheetWorths, job: LayoutJob) -> int:
    return sum(worth * piece.count for worth, piece in zip(worths.pieces, job.pieces, strict=True))


def _dual(theta: Fraction, wanted: int, *, sheets_of: Iterable[tuple[JobSheet, int]]) -> Fraction:
    spared = sum(
        (sheet.count * max(Fraction(0), theta * capacity - sheet.price) for sheet, capacity in sheets_of), Fraction(0)
    )
    return theta * wanted - spared


def _simple_worths(job: LayoutJob) -> Iterator[SheetWorths]:
    across = max(sheet.across for sheet in job.sheets)
    up = max(sheet.up for sheet in job.sheets)
    sides = sorted({side for piece in job.pieces for side in (piece.across, piece.up)})
    for grow_across in _growths(across, sides):
        for grow_up in _growths(up, sides):
            yield SheetWorths(
                pieces=tuple(
                    min(grow_across(wide) * grow_up(high) for wide, high, _ in piece.ways) for piece in job.pieces
                ),
                capacities=tuple(grow_across(sheet.across) * grow_up(sheet.up) for sheet in job.sheets),
            )


def _growths(longest: int, sides: list[int]) -> Iterator[Growth]:
    """Superadditive functions on lengths from 0 to the longest."""
    yield partial(_whole_steps, step=1)
    for number in DIVISIONS:
        yield partial(_whole_steps, step=longest // number + 1)
        yield partial(_in_parts, longest=longest, number=number)
    for side in _spread(sides, most=MOST_SIDES):
        yield partial(_whole_steps, step=side)
        if side <= longest // 2:
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


def _spread(sides: list[int], *, most: int) -> list[int]:
    step = max(1, len(sides) // most)
    return sides[::step]
