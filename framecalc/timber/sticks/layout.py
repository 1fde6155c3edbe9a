"""From counts to wood: which piece lies where on which stick.

Equal pieces are handed out frame by frame, so that a frame's sides lie near each other. In a stretch test pieces come
first, so that the saw is right before good wood is cut; then the longest, so that a spoiled long piece can still become
a short one.
"""

from collections.abc import Iterator, Sequence

from framecalc.timber.sticks.answer import CutStick, CutStretch, CutStrip, PlacedPiece
from framecalc.timber.sticks.problem import Bundle, Purpose, StickProblem, Stock, Stretch, clear_stretches
from framecalc.timber.sticks.whole_numbers import OpenedStick, Pattern, WholeNumbers, room_um


def lay_out(
    problem: StickProblem, *, whole_numbers: WholeNumbers, opened: Sequence[OpenedStick]
) -> tuple[CutStick, ...]:
    """Lay the pieces of a plan on sticks of the stock: what is in hand first, fuller sticks before emptier ones.

    Source: derived.
    """
    waiting = [iter(sorted(bundles, key=_handing_out)) for bundles in whole_numbers.bundles]
    there = {kind: _sticks_of(problem, whole_numbers.kinds[kind].members) for kind in {stick.kind for stick in opened}}
    fullest = sorted(opened, key=lambda stick: (stick.kind, -sum(map(whole_numbers.length_um, stick.patterns))))
    named = [(next(there[stick.kind]), stick.patterns) for stick in fullest]
    named.sort(key=lambda each: (each[0][0], each[0][1]))
    return tuple(
        _cut(problem, whole_numbers, (problem.stock[which], number), patterns, waiting)
        for (which, number), patterns in named
    )


def _handing_out(bundle: Bundle) -> tuple[str, str, int, str]:
    first = bundle.pieces[0]
    return first.purpose, first.frame, first.copy, first.side


def _sticks_of(problem: StickProblem, members: Sequence[int]) -> Iterator[tuple[int, int]]:
    """The sticks of one kind in the order in which they are taken: which stock, and the number within it."""
    for member in members:
        stock = problem.stock[member]
        count = len(problem.pieces) if stock.count is None else stock.count
        for number in range(stock.first, stock.first + count):
            yield member, number


def _cut(
    problem: StickProblem,
    whole_numbers: WholeNumbers,
    stick: tuple[Stock, int],
    patterns: Sequence[Pattern],
    waiting: Sequence[Iterator[Bundle]],
) -> CutStick:
    stock, number = stick
    clear = clear_stretches(stock, cut_mm=problem.cut_mm)
    bays = [
        (strip, index)
        for index, stretch in enumerate(clear)
        for strip in range(stock.strips)
        if room_um(stretch, problem=problem) >= whole_numbers.lengths_um[-1]
    ]
    bays.sort(key=lambda bay: -room_um(clear[bay[1]], problem=problem))
    held = dict(zip(bays, patterns, strict=True))
    strips = []
    for strip in range(stock.strips):
        stretches = (
            _fill(problem, stretch, [next(waiting[kind]) for kind in _kinds(held.get((strip, index), ()))])
            for index, stretch in enumerate(clear)
        )
        strips.append(CutStrip(number=strip + 1, stretches=tuple(stretches)))
    return CutStick(stock=stock, number=number, strips=tuple(strips))


def _kinds(pattern: Pattern) -> Iterator[int]:
    """The kinds of a pattern, each as often as it is cut, the longest first."""
    for kind, times in enumerate(pattern):
        yield from [kind] * times


def _fill(problem: StickProblem, stretch: Stretch, bundles: Sequence[Bundle]) -> CutStretch:
    at_mm, placed = stretch.start_mm, []
    in_order = sorted(bundles, key=lambda bundle: bundle.pieces[0].purpose is not Purpose.TEST)
    for index, piece in enumerate(piece for bundle in in_order for piece in bundle.pieces):
        placed.append(PlacedPiece(piece=piece, start_mm=at_mm, turned=problem.turned and index % 2 == 1))
        at_mm += piece.length_mm + problem.cut_mm - problem.nested_mm
    used_mm = at_mm + problem.nested_mm if placed else stretch.start_mm
    return CutStretch(
        start_mm=stretch.start_mm,
        end_mm=stretch.end_mm,
        pieces=tuple(placed),
        left_over_mm=max(0.0, stretch.end_mm - used_mm),
    )
