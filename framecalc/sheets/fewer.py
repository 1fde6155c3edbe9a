"""Layouts that cost less: sheets of a lower price are filled as far as it goes, then taken apart in places and filled
again, until every part has found its place.

A *purchase* says how many sheets of each kind there are. What lies on them is only part of what is wanted; the area of
the parts that are *left* is what the search makes smaller. A state that is no worse than the one some rounds ago is
kept, which leads out of dead ends. Everything random comes from the generator handed in.
"""

from collections.abc import Iterator, Sequence
from itertools import islice
from math import exp
from random import Random

from framecalc.records import Record
from framecalc.search.watch import Watch
from framecalc.sheets.bounds import SheetCertificate
from framecalc.sheets.bundles import JoiningPlace, OpenSheet, Way
from framecalc.sheets.packing import FilledSheet, filled_sheet
from framecalc.sheets.whole_numbers import LayoutJob

ROUNDS = 12_000
"""Rounds on one purchase, some five seconds for sixty parts."""

MEMORY = 100
"""Rounds back to the state that a new one may not be worse than."""

MOST_PURCHASES = 12
"""Purchases that are filled, those with the most room first."""

MOST_LOOKED_AT = 2_000
"""Purchases looked at to find these."""

TAKEN_OUT = 6.0
"""How many parts are taken out of the sheets in a round, on average."""

OVERLOOKED_RATIO = 0.02
"""How often a way to place a part is overlooked, so that not always the same is done."""

LAST_OF_ALL = 10**12
"""What it counts to begin an empty sheet: more than any place on one that is begun."""

Purchase = tuple[int, ...]
"""How many sheets of each kind."""


class _Task(Record):
    """A job with what is asked often: how each piece may lie, its area, the shortest side of all."""

    job: LayoutJob
    ways: tuple[tuple[Way, ...], ...]
    areas: tuple[int, ...]
    shortest: int


class _State(Record):
    """Sheets with what lies on them, the pieces that are left, and the area of these."""

    sheets: tuple[OpenSheet, ...]
    left: tuple[int, ...]
    area: int


class _Habit(Record):
    """How places are judged: by a measure of what is free there, and what it counts against that to make more of it."""

    measure: int
    weight_ratio: float
    growth_ratio: float


_SHORT_REST, _LONG_REST, _AREA = range(3)


def cheaper_purchases(job: LayoutJob, *, certificate: SheetCertificate, below: int) -> Iterator[Purchase]:
    """Purchases with a price below one that may hold all parts by what is proved, and to which nothing can be added.

    Source: derived.
    """
    pieces = zip(certificate.shares.pieces, job.pieces, strict=True)
    wanted = sum(share * piece.count for share, piece in pieces)
    area = sum(piece.across * piece.up * piece.count for piece in job.pieces)
    found = islice(_purchases(job, len(job.sheets) - 1, below - 1), MOST_LOOKED_AT)
    holding = (one for one in found if _holds(one, certificate.shares.capacities, wanted) and _room(one, job) >= area)
    yield from sorted(holding, key=lambda one: -_room(one, job))[:MOST_PURCHASES]


def most_waste(job: LayoutJob, *, below: int) -> int | None:
    """The most that a layout with a price below one can waste; below 0 where none holds all parts, None if not known.

    Source: derived.
    """
    area = sum(piece.across * piece.up * piece.count for piece in job.pieces)
    found = list(islice(_purchases(job, len(job.sheets) - 1, below - 1), MOST_LOOKED_AT))
    if len(found) == MOST_LOOKED_AT:
        return None
    return max((_room(one, job) for one in found), default=0) - area


def filled_purchase(
    job: LayoutJob, purchase: Purchase, *, random: Random, watch: Watch, rounds: int = ROUNDS
) -> tuple[FilledSheet, ...]:
    """Fill the sheets of a purchase with all parts; nothing where that is not found.

    Args:
        rounds: how often something is taken out and filled in again.
    Source: Gardeyn and Wauters, "A goal-driven ruin and recreate heuristic for the 2D variable-sized bin packing
        problem with guillotine constraints", 2022, and late acceptance by Burke and Bykov, 2017, both from memory, not
        re-read; bundles that grow: derived.
    """
    task = _task(job)
    begun = _begun(task, purchase)
    state = _filled(begun, task, random, most=begun.area) or begun
    remembered = [state.area] * MEMORY
    for number in range(rounds):
        if not state.left or watch.over:
            break
        most = max(state.area, remembered[number % MEMORY])
        state = _filled(_taken_apart(state, random), task, random, most=most) or state
        remembered[number % MEMORY] = state.area
    return _layout(state) if not state.left else ()


def _purchases(job: LayoutJob, kind: int, money: int) -> Iterator[Purchase]:
    """Purchases for some money of the kinds up to one, the most of the last kind first."""
    if kind < 0:
        yield ()
        return
    sheet = job.sheets[kind]
    most = min(sheet.count, money // sheet.price)
    for number in range(most, -1, -1):
        for others in _purchases(job, kind - 1, money - number * sheet.price):
            spent = sum(one * other.price for one, other in zip(others, job.sheets, strict=False))
            if number == sheet.count or money - number * sheet.price - spent < sheet.price:
                yield (*others, number)


def _holds(purchase: Purchase, capacities: Sequence[int], wanted: int) -> bool:
    return sum(one * most for one, most in zip(purchase, capacities, strict=True)) >= wanted


def _room(purchase: Purchase, job: LayoutJob) -> int:
    return sum(number * sheet.size for number, sheet in zip(purchase, job.sheets, strict=True))


def _task(job: LayoutJob) -> _Task:
    return _Task(
        job=job,
        ways=tuple(piece.ways for piece in job.pieces),
        areas=tuple(piece.across * piece.up for piece in job.pieces),
        shortest=min(side for size in job.piece_sizes for side in size),
    )


def _begun(task: _Task, purchase: Purchase) -> _State:
    """Empty sheets, and all that is wanted left."""
    sheets = tuple(
        OpenSheet(task.job, kind, task.job.sizes[kind], task.shortest)
        for kind, number in enumerate(purchase)
        for _ in range(number)
    )
    left = tuple(number for number, piece in enumerate(task.job.pieces) for _ in range(piece.count))
    return _State(sheets=sheets, left=left, area=sum(task.areas[piece] for piece in left))


def _layout(state: _State) -> tuple[FilledSheet, ...]:
    """The sheets as they are cut; nothing where one leaves a strip that would not break off."""
    layout = []
    for sheet in state.sheets:
        node = sheet.node()
        if sheet.whole and not node:
            return ()
        if node:
            layout.append(filled_sheet(sheet.sheet, node, job=sheet.job))
    return tuple(layout)


def _taken_apart(state: _State, random: Random) -> _State:
    """Take a few bundles out of some sheets, none much larger than what is still to be taken out."""
    sheets, left = list(state.sheets), list(state.left)
    chosen = random.sample(range(len(sheets)), min(len(sheets), random.choice((1, 2, 2, 3))))
    for number in chosen:
        sheets[number] = sheets[number].copy()
    most = 1 + int(random.expovariate(1 / TAKEN_OUT))
    enough = len(left) + most
    while len(left) < enough and (begun := [sheets[number] for number in chosen if sheets[number].whole]):
        sheet = random.choice(begun)
        bundle = random.choice(sheet.bundles)
        pieces = bundle.pieces()
        if len(pieces) <= max(2, 2 * most):
            left += pieces
            sheet.take_out(bundle)
    return _State(sheets=tuple(sheets), left=tuple(left), area=state.area)


def _filled(state: _State, task: _Task, random: Random, *, most: int) -> _State | None:
    """Put what is left into the sheets again, one piece after another, each where it fits best; nothing where more
    than the most of it finds no place.
    """
    sheets, left = list(state.sheets), []
    order = random.sample(range(len(sheets)), len(sheets))
    habit = _Habit(
        measure=random.randrange(3), weight_ratio=random.choice((1, 1.5, 3)), growth_ratio=random.choice((0.3, 1, 2))
    )
    area, owned = 0, set[int]()
    for piece in _in_order(state.left, task, random):
        found = _best_place(sheets, order, task.ways[piece], habit, random)
        if found and found[0] not in owned:
            owned.add(found[0])
            sheets[found[0]] = sheets[found[0]].copy()
        if not (found and sheets[found[0]].join(found[1], piece, found[2])):
            left.append(piece)
            area += task.areas[piece]
            if area > most:
                return None
    return _State(sheets=tuple(sheets), left=tuple(left), area=area)


def _in_order(pieces: Sequence[int], task: _Task, random: Random) -> list[int]:
    """By area, by the long or the short side, the largest first, more or less strictly."""
    measure, noise = random.choice((_area, max, min)), random.choice((0.05, 0.2, 0.4))
    sizes = task.job.piece_sizes
    keys = {piece: measure(sizes[piece]) * exp(random.gauss(0, noise)) for piece in pieces}
    return sorted(pieces, key=lambda piece: -keys[piece])


def _area(size: tuple[int, int]) -> int:
    return size[0] * size[1]


def _best_place(
    sheets: Sequence[OpenSheet], order: Sequence[int], ways: Sequence[Way], habit: _Habit, random: Random
) -> tuple[int, JoiningPlace | None, Way] | None:
    """The place on any sheet that suits a piece best, and the way it lies there."""
    best: tuple[int, JoiningPlace | None, Way] | None = None
    least = float("inf")
    can_be_left = sheets[0].job.can_be_left if sheets and sheets[0].job.gap else None
    for number in order:
        sheet = sheets[number]
        if sheet.whole is None:
            for way in ways:
                rest = min(sheet.size[0] - way[0], sheet.size[1] - way[1])
                if rest >= 0 and LAST_OF_ALL + rest < least:
                    best, least = (number, None, way), LAST_OF_ALL + rest
            continue
        for place in sheet.places:
            _, along, most_along, most_beside, beside, _ = place
            for way in ways:
                length, width = way[along], way[1 - along]
                if length > most_along or width > most_beside or random.random() < OVERLOOKED_RATIO:
                    continue
                if can_be_left and not can_be_left(abs(width - beside)):
                    continue
                cost = _cost(place, length, width, habit)
                if cost < least:
                    best, least = (number, place, way), cost
    return best


def _cost(place: JoiningPlace, length: int, width: int, habit: _Habit) -> float:
    """How badly a part suits a place: by what stays free beside it, or by what has to grow for it."""
    free, beside = place.free, place.beside
    if length <= free and width <= beside:
        if habit.measure == _AREA:
            return (free * beside - length * width) / (free + beside)
        one, other = free - length, beside - width
        return min(one, other) if habit.measure == _SHORT_REST else max(one, other)
    wider = max(0, width - beside)
    if free < 0:
        rest = min(place.most_along - length, max(0, place.most_beside - max(beside, width)))
        return habit.weight_ratio * (abs(width - beside) + rest)
    return habit.weight_ratio * (habit.growth_ratio * (max(0, length - free) + wider) + abs(width - beside))
