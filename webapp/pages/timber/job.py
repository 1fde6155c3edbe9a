"""The shopping list of a whole job: what to buy and take for all its members, what is left, how good that is."""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal

from framecalc.errors import quoted
from framecalc.money import tag_text
from framecalc.plan.price.price import currency_of
from framecalc.plan.timber.wood_use import left_of
from framecalc.project import Project
from framecalc.timber.lists import Fate
from framecalc.timber.sticks.answer import CutStick, ProofStatus
from framecalc.units import describe_length
from framecalc.words import joined, typed, worded
from webapp.jobs.timber import GroupWork
from webapp.live.answers import plural

LISTED = 6
"""Off-cuts that are named one by one; the list of each group has them all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JobShopping:
    """One line for the whole job, and the lines under it."""

    verdict: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bought:
    """Sticks or boards to get of one entry of the stock."""

    name: str
    length_mm: float
    width_mm: float
    price: Decimal
    is_board: bool


def job_shopping(works: tuple[GroupWork, ...], project: Project) -> JobShopping | None:
    """The shopping list of a job; None until all its groups have a plan, or where nothing is typed to cut from."""
    if not works or any(work.plan is None or work.refusal or work.group.is_estimate for work in works):
        return None
    bought = Counter(_bought(work, stick) for work, stick in _taken(works) if not stick.stock.in_hand)
    at_hand = Counter(_bought(work, stick) for work, stick in _taken(works) if stick.stock.in_hand)
    money = sum((one.price * count for one, count in bought.items()), Decimal(0))
    buy = joined("; ", (_named(one, count, project) for one, count in bought.items()))
    cost = f": {tag_text(money, currency=currency_of(project))}" if money else ""
    verdict = joined("", ("Buy ", buy, f"{cost}.")) if bought else "Nothing to buy."
    taken = joined("; ", (_named(one, count, project) for one, count in at_hand.items()))
    lines = (
        joined("", ("From stock at hand: ", taken, ".")) if at_hand else "",
        _left(works, project),
        *_proofs(works),
    )
    return JobShopping(verdict=verdict, lines=tuple(filter(None, lines)))


def _taken(works: Iterable[GroupWork]) -> Iterator[tuple[GroupWork, CutStick]]:
    """Every stick and board once: the rest of one was taken by the members before."""
    for work in works:
        for stick in work.plan.sticks if work.plan else ():
            offer = work.group.offer_of(stick)
            if offer is None or not offer.is_rest:
                yield work, stick


def _bought(work: GroupWork, stick: CutStick) -> _Bought:
    offer, stock = work.group.offer_of(stick), stick.stock
    board = offer.board if offer else None
    return _Bought(
        name=stock.name,
        length_mm=stock.length_mm,
        width_mm=board.width_mm if board else work.group.section.width_mm,
        price=stock.price,
        is_board=board is not None,
    )


def _named(one: _Bought, count: int, project: Project) -> str:
    sizes = " × ".join(describe_length(length, unit=project.unit) for length in (one.width_mm, one.length_mm))
    what = joined(" ", (plural(count, "board" if one.is_board else "stick"), quoted(one.name)))
    return joined(", ", (what, sizes))


def _left(works: Iterable[GroupWork], project: Project) -> str:
    """What goes to the rack, the longest first."""
    left = [
        (one.length_mm, work.group.section.width_mm if one.rest_mm is None else one.rest_mm)
        for work in works
        if work.plan
        for one in left_of(work.plan, work.group)
        if one.fate is Fate.RACK
    ]
    left.sort(reverse=True)
    if not left:
        return "Nothing is left that is worth keeping."
    sizes = (" × ".join(describe_length(length, unit=project.unit) for length in (wide, long)) for long, wide in left)
    more = f" and {len(left) - LISTED} more" if len(left) > LISTED else ""
    return f"Left for the rack: {', '.join(list(sizes)[:LISTED])}{more}."


def _proofs(works: Iterable[GroupWork]) -> Iterator[str]:
    """How good the plans are that share boards."""
    for key, plan in {work.common_plan.key: work.common_plan for work in works if work.common_plan}.items():
        sharing = [work for work in works if work.common_plan and work.common_plan.key == key]
        names = sorted({name for work in sharing for name in work.group.names})
        shared = worded("Boards are shared ({names}). ", names=joined(", ", map(typed, names)))
        yield joined("", (shared, _PROVED[plan.proof_status]))


_PROVED = {
    ProofStatus.PROVED: "Proved: no way to rip and cut does with less.",
    ProofStatus.RULED_OUT: "Searched: every cheaper way was tried and ruled out.",
    ProofStatus.OPEN: "Not proved: a cheaper way may exist.",
}
