"""How good a cutting plan is: what a search knows by now, what is proved, what a plan with one fewer would ask for."""

from collections.abc import Iterable, Iterator
from decimal import Decimal
from math import floor

from framecalc.money import Currency, tag_text
from framecalc.plan.timber.common import SharingGroups
from framecalc.plan.timber.group import TimberGroup
from framecalc.search.watch import SoFar
from framecalc.timber.common.plan import CommonPlan
from framecalc.timber.sticks.answer import ProofStatus, StickPlan
from framecalc.timber.sticks.whole_numbers import most_left_mm
from framecalc.units import Unit, describe_length
from framecalc.words import joined, typed, worded
from webapp.jobs.timber import GroupWork
from webapp.live.answers import plural

STICKS, BOARDS, BOTH = ("one stick", "sticks"), ("one board", "boards"), ("one stick or board", "sticks and boards")
"""What a search counts: one of it, and many."""


def counted(sharing: SharingGroups) -> tuple[str, str]:
    """What the groups take that share boards."""
    return BOARDS if sharing.is_of_boards else BOTH


def so_far_words(so_far: SoFar | None, currency: Currency, what: tuple[str, str] = STICKS) -> str:
    """The progress of a running search."""
    if so_far is None:
        return ""
    least = taken_words(so_far.least_sticks, so_far.least_money, currency, what)
    if so_far.sticks is None:
        return f"No plan yet. No plan takes fewer than {least}."
    return f"Best so far: {taken_words(so_far.sticks, so_far.money, currency, what)}. No plan does better than {least}."


def proved_words(plan: StickPlan, group: TimberGroup, currency: Currency) -> str:
    """How good a plan is proved to be."""
    if group.is_all_cut:
        return ""
    if group.is_allotted:
        return "Planned with the others on these boards."
    if group.left and plan.proof_status is not ProofStatus.OPEN:
        return f"What is cut stays. Of the rest no plan {'costs less' if plan.money else 'takes fewer new sticks'}."
    if plan.proof_status is not ProofStatus.OPEN:
        return f"Best possible: no plan {'costs less' if plan.money else 'uses fewer'}."
    if plan.saves_at_most:
        best, least = (tag_text(money, currency=currency) for money in (plan.money, plan.least_money))
        return f"Not proved: {best} is the best found; {least} might do, {plan.saves_at_most_pct:.1f}% less."
    best = taken_words(plan.stick_count, None, currency, STICKS)
    return f"Not proved: {best} is the best found; {plan.least_sticks} might do."


def one_fewer_words(plan: StickPlan, group: TimberGroup, unit: Unit) -> Iterator[str]:
    """What would have to be true to take one stick fewer, where a plan is open and all sticks are alike."""
    fewer = plan.stick_count - 1
    is_open = plan.proof_status is ProofStatus.OPEN and fewer >= plan.least_sticks
    left_mm = most_left_mm(group.problem, sticks=fewer) if is_open else 0.0
    if left_mm > 0:
        in_all, each = (describe_length(mm, unit=unit) for mm in (left_mm, left_mm / fewer))
        yield (
            f"To do with {plural(fewer, 'stick')}, no more than {in_all} may be left over in all, about {each} of a "
            "stick; no such plan was found."
        )


def shared_words(works: Iterable[GroupWork], currency: Currency) -> Iterator[str]:
    """How good the plans are of members that may share boards."""
    together: dict[str, list[GroupWork]] = {}
    for work in works:
        if work.sharing:
            together.setdefault(work.sharing.key, []).append(work)
    for sharing in together.values():
        names = sorted({name for work in sharing for name in work.group.names})
        yield worded(_how_good(sharing, currency), names=joined(", ", map(typed, names)))


def _how_good(works: list[GroupWork], currency: Currency) -> str:
    """How good a plan is for all that may share boards, in a pattern of their names."""
    sharing, plan = works[0].sharing, works[0].common_plan
    if sharing is None or plan is None:
        return (
            "{names} could share boards, but no plan for all of them together was found. They are planned one after"
            " another, and may take more boards than they need."
        )
    proved = _PROVED.get(plan.proof_status) or _open_words(sharing, _as_cut(works, plan), currency)
    return f"Boards are shared ({{names}}). {proved}"


_PROVED = {
    ProofStatus.PROVED: "Proved: no way to rip and cut needs less.",
    ProofStatus.RULED_OUT: "Searched: every cheaper way was tried and ruled out.",
}


def _as_cut(works: list[GroupWork], plan: CommonPlan) -> tuple[Decimal, int, CommonPlan]:
    """The money and the boards of the cutting plans, which may leave some of what is allotted untouched."""
    plans = [(work.group, work.plan) for work in works if work.plan]
    if len(plans) < len(works):
        return plan.money, plan.count, plan
    taken = [
        stick
        for group, one in plans
        for stick in one.sticks
        if not (found := group.offer_of(stick)) or not found.is_rest
    ]
    return sum((stick.stock.price for stick in taken), Decimal(0)), len(taken), plan


def _open_words(sharing: SharingGroups, found: tuple[Decimal, int, CommonPlan], currency: Currency) -> str:
    """The best way found, what no way does better than, and what one board fewer would ask for."""
    money, count, plan = found
    if (money, count) <= (plan.least_money, plan.least_count):
        return _PROVED[ProofStatus.PROVED]
    if not plan.least_count:
        return "Not proved: a cheaper way may exist."
    best = taken_words(count, money, currency, counted(sharing))
    least = taken_words(plan.least_count, plan.least_money, currency, counted(sharing))
    says = f"Not proved: the best way found takes {best}; no way takes less than {least}."
    filled = sharing.least_fill_ratio(count - 1) if count > plan.least_count else 0.0
    return says + _one_fewer(floor(100 * filled)) if filled else says


def _one_fewer(filled_pct: int) -> str:
    return f" With one board fewer, strips and saw cuts would have to fill at least {filled_pct}% of the wood."


def taken_words(count: int, money: Decimal | None, currency: Currency, what: tuple[str, str]) -> str:
    """What is taken, and what it costs."""
    one, many = what
    paid = f" for {tag_text(money, currency=currency)}" if money else ""
    return (one if count == 1 else f"{count} {many}") + paid
