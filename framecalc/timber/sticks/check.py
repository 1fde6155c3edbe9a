"""An independent look at a plan before anyone cuts: nothing of the search is used, only the problem and the plan.

Every piece is cut exactly once; pieces lie within clear stretches, in order and a saw cut apart; pieces, saw cuts,
trims, defects and left-overs add up to the stick; no stick is taken that is not there; grain and money are as promised;
the shares of the proof add up exactly, and the plan's own sticks can hold them.
"""

from collections import Counter
from collections.abc import Iterable, Iterator
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

from framecalc.timber.sticks.answer import CutStick, CutStretch, StickPlan
from framecalc.timber.sticks.problem import StickProblem, Stock, Stretch, bundles_of, hash_of
from framecalc.timber.sticks.proof import StickShares

SAME_MM = 0.001
"""Lengths closer than this are one length: a micrometre."""


def faults_of(plan: StickPlan, *, problem: StickProblem) -> tuple[str, ...]:
    """List what is wrong with a plan, in plain sentences; nothing where it can be cut as it stands.

    Source: derived.
    """
    return (
        *_wrong_problem(plan, problem),
        *_wrong_pieces(plan, problem),
        *_wrong_sticks(plan, problem),
        *(fault for stick in plan.sticks for fault in _wrong_cuts(stick, problem)),
        *_wrong_grain(plan, problem),
        *_wrong_money(plan),
        *(fault for shares in plan.proof.shares for fault in _wrong_shares(shares, plan)),
    )


def _wrong_problem(plan: StickPlan, problem: StickProblem) -> Iterator[str]:
    if plan.problem_hash != hash_of(problem):
        yield "the plan answers another problem"


def _wrong_pieces(plan: StickPlan, problem: StickProblem) -> Iterator[str]:
    asked = Counter(problem.pieces)
    cut = Counter(placed.piece for _, _, stretch in plan.stretches() for placed in stretch.pieces)
    yield from (
        f"{piece.label} is asked {count} times too often for what is cut" for piece, count in (asked - cut).items()
    )
    yield from (f"{piece.label} is cut {count} times more than asked" for piece, count in (cut - asked).items())


def _wrong_sticks(plan: StickPlan, problem: StickProblem) -> Iterator[str]:
    taken = Counter((stick.stock, stick.number) for stick in plan.sticks)
    yield from (
        f"{stock.name} #{number} is taken {times} times" for (stock, number), times in taken.items() if times > 1
    )
    for stick in plan.sticks:
        if stick.stock not in problem.stock:
            yield f"{stick.label} is not in the stock"
        elif not _is_there(stick):
            yield f"{stick.label} is not there: there are {stick.stock.count}"
        if len(stick.strips) != stick.stock.strips:
            yield f"{stick.label} yields {stick.stock.strips} strips, not {len(stick.strips)}"


def _is_there(stick: CutStick) -> bool:
    after_first = stick.number - stick.stock.first
    return after_first >= 0 and (stick.stock.count is None or after_first < stick.stock.count)


def _wrong_cuts(stick: CutStick, problem: StickProblem) -> Iterator[str]:
    for strip in stick.strips:
        yield from (f"{stick.label}: {fault}" for fault in _overlaps(strip.stretches, stick.stock, problem))
        for stretch in strip.stretches:
            yield from (f"{stick.label}: {fault}" for fault in _misplaced(stretch, problem))


def _overlaps(stretches: Iterable[CutStretch], stock: Stock, problem: StickProblem) -> Iterator[str]:
    """Stretches lie within the trims, apart from each other, and off every defect."""
    parts = sorted(stretches, key=lambda stretch: stretch.start_mm)
    whole = Stretch(start_mm=stock.trim_mm, end_mm=stock.length_mm - stock.trim_mm)
    for part in parts:
        if part.start_mm < whole.start_mm - SAME_MM or part.end_mm > whole.end_mm + SAME_MM:
            yield "a stretch runs into the trim"
        for defect in stock.defects:
            if part.start_mm < defect.end_mm - SAME_MM and defect.start_mm < part.end_mm - SAME_MM:
                yield f"a stretch runs over the defect at {defect.start_mm:g} mm"
    for left, right in pairwise(parts):
        if right.start_mm < left.end_mm + problem.cut_mm - SAME_MM:
            yield "two stretches lie less than a saw cut apart"


def _misplaced(stretch: CutStretch, problem: StickProblem) -> Iterator[str]:
    for placed in stretch.pieces:
        if placed.start_mm < stretch.start_mm - SAME_MM or placed.end_mm > stretch.end_mm + SAME_MM:
            yield f"{placed.piece.label} leaves its clear stretch"
        if placed.turned and not problem.turned:
            yield f"{placed.piece.label} is turned, which was not allowed"
    for left, right in pairwise(stretch.pieces):
        shared_mm = problem.slope_mm if left.turned != right.turned else 0.0
        if right.start_mm < left.end_mm + problem.cut_mm - shared_mm - SAME_MM:
            yield f"{left.piece.label} and {right.piece.label} lie less than a saw cut apart"
    yield from _wrong_sum(stretch, problem)


def _wrong_sum(stretch: CutStretch, problem: StickProblem) -> Iterator[str]:
    """Pieces + saw cuts + left-over = stretch. The last cut may run out of the end of the wood."""
    length_mm = stretch.end_mm - stretch.start_mm
    pieces_mm = sum(placed.piece.length_mm for placed in stretch.pieces)
    joints = max(0, len(stretch.pieces) - 1)
    sawn_mm = length_mm - pieces_mm - stretch.left_over_mm + joints * problem.nested_mm
    least_mm = joints * problem.cut_mm
    most_mm = len(stretch.pieces) * problem.cut_mm
    exact = stretch.left_over_mm > SAME_MM
    if not (most_mm if exact else least_mm) - SAME_MM <= sawn_mm <= most_mm + SAME_MM:
        yield f"pieces, saw cuts and left-over do not add up to {length_mm:g} mm: the saw would take {sawn_mm:g} mm"


def _wrong_grain(plan: StickPlan, problem: StickProblem) -> Iterator[str]:
    """Every bundle lies in one stretch, its pieces side by side and in order."""
    runs = [tuple(placed.piece for placed in stretch.pieces) for _, _, stretch in plan.stretches()]
    at = {piece: (number, place) for number, run in enumerate(runs) for place, piece in enumerate(run)}
    for bundle in bundles_of(problem):
        places = [at[piece] for piece in bundle.pieces if piece in at]
        if any(after != (before[0], before[1] + 1) for before, after in pairwise(places)):
            yield f"the pieces from {bundle.pieces[0].label} on do not follow each other on one stick"


def _wrong_money(plan: StickPlan) -> Iterator[str]:
    money = sum((stick.stock.price for stick in plan.sticks), start=Decimal(0))
    if money != plan.money:
        yield f"the sticks cost {money}, not {plan.money}"
    if plan.least_money > plan.money:
        yield f"the bound {plan.least_money} is above the plan's {plan.money}"


def _wrong_shares(shares: StickShares, plan: StickPlan) -> Iterator[str]:
    """The sticks of the plan must be able to hold the shares of its pieces; otherwise the proof rules out the plan."""
    total = sum((piece.count * piece.share for piece in shares.pieces), start=Fraction(0))
    if total != shares.total:
        yield f"the pieces are worth {total} together, not {shares.total}"
    most = {stick.stock: stick.most for stick in shares.sticks}
    held = sum((most.get(stick.stock, 0) for stick in plan.sticks), start=Fraction(0))
    if held < total:
        yield f"the sticks of the plan can hold {held} of the {total} that the pieces are worth"
