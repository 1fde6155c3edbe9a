"""The way from a problem to a plan: refuse, count, search, gather the off-cut, lay out, check."""

from framecalc.errors import ImpossibleTimber
from framecalc.search.watch import Watch
from framecalc.timber.sticks.answer import ProofStatus, StickPlan
from framecalc.timber.sticks.check import faults_of
from framecalc.timber.sticks.layout import lay_out
from framecalc.timber.sticks.offcut import OffCutPlan, gather_off_cut
from framecalc.timber.sticks.problem import StickProblem, hash_of
from framecalc.timber.sticks.proof import prove
from framecalc.timber.sticks.refusals import refuse_impossible
from framecalc.timber.sticks.search import FoundPlan, find_plan
from framecalc.timber.sticks.whole_numbers import UM_PER_MM, WholeNumbers, cost_of, in_whole_numbers, money_of

GATHER_S = 0.5
"""The time for a longer off-cut [s]. Ours."""


def plan_sticks(problem: StickProblem, *, watch: Watch) -> StickPlan:
    """Plan the cutting: least money, then fewest sticks, then the longest off-cut of these sticks.

    It runs until the plan is proved or the watch ends it, so call it in a thread of its own. When the time is up or the
    search is cancelled, it returns the best plan so far, with the most that a better plan could save.

    Args:
        problem: the pieces, the stock, the saw and the wishes.
        watch: how long it may take, and whether it is cancelled.
    Raises:
        OutOfRange: a length, a count or a price out of range.
        ImpossibleTimber: no plan exists, or none was found in the time.
    Source: derived.

    >>> from time import monotonic
    >>> from framecalc.timber.sticks.problem import Piece, Stock
    >>> from framecalc.search.watch import start_watch
    >>> sides = (("top", 348), ("right", 471), ("bottom", 348), ("left", 471))
    >>> pieces = tuple(Piece(frame="hall", side=side, length_mm=length) for side, length in sides)
    >>> stock = (Stock(name="ash", length_mm=1000),)
    >>> problem = StickProblem(pieces=pieces, stock=stock, kerf_mm=3, width_mm=30)
    >>> plan = plan_sticks(problem, watch=start_watch(1, clock=monotonic))
    >>> plan.stick_count, plan.proof_status.name, round(plan.longest_left_mm, 1)
    (2, 'PROVED', 295.5)
    """
    refuse_impossible(problem)
    whole_numbers = in_whole_numbers(problem)
    found = find_plan(whole_numbers, watch=watch)
    useful_um = whole_numbers.cut_um + round(problem.shortest_useful_mm * UM_PER_MM)
    limited = watch.at_most(GATHER_S)
    gathered = gather_off_cut(whole_numbers, opened=found.opened, useful_um=useful_um, watch=limited)
    plan = _plan(problem, whole_numbers, found, gathered)
    faults = faults_of(plan, problem=problem)
    if faults:
        raise ImpossibleTimber(f"The plan was thrown away, because its own check failed: {faults[0]}.", field="stock")
    return plan


def _plan(problem: StickProblem, whole_numbers: WholeNumbers, found: FoundPlan, gathered: OffCutPlan) -> StickPlan:
    least_money, least_sticks = money_of(found.least, whole_numbers=whole_numbers)
    money, _ = money_of(cost_of(gathered.opened, whole_numbers=whole_numbers), whole_numbers=whole_numbers)
    sticks = lay_out(problem, whole_numbers=whole_numbers, opened=gathered.opened)
    left = [stretch.left_over_mm for stick in sticks for strip in stick.strips for stretch in strip.stretches]
    longest_mm = max(left)
    status = _proof_status(found, whole_numbers)
    proof = prove(
        found.certificates,
        least=found.least,
        is_reached=status is ProofStatus.PROVED,
        whole_numbers=whole_numbers,
        problem=problem,
    )
    return StickPlan(
        problem_hash=hash_of(problem),
        sticks=sticks,
        money=money,
        proof_status=status,
        least_money=least_money,
        least_sticks=least_sticks,
        proof=proof,
        longest_left_mm=longest_mm,
        longest_possible_mm=max(longest_mm, (gathered.most_um - whole_numbers.cut_um) / UM_PER_MM),
    )


def _proof_status(found: FoundPlan, whole_numbers: WholeNumbers) -> ProofStatus:
    if cost_of(found.opened, whole_numbers=whole_numbers) <= found.least:
        return ProofStatus.PROVED
    return ProofStatus.RULED_OUT if found.ruled_out else ProofStatus.OPEN
