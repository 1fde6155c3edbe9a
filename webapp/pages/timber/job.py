"""The shopping list of a whole job: what to buy and take for all its members, what is left, how good that is."""

from collections import Counter
from collections.abc import Iterable, Iterator
from decimal import Decimal

from framecalc.errors import quoted
from framecalc.money import tag_text
from framecalc.plan.price.price import currency_of
from framecalc.plan.timber.as_cut import group_as_cut, plan_as_cut
from framecalc.plan.timber.wood_use import left_of
from framecalc.project import Project
from framecalc.records import Record
from framecalc.timber.lists import Fate, OffCut
from framecalc.timber.sticks.answer import CutStick
from framecalc.units import describe_size
from framecalc.words import joined
from webapp.jobs.timber import GroupWork
from webapp.live.answers import first_few, plural
from webapp.pages.timber.how_good import shared_words
from webapp.pages.timber.says import left_over_words


class JobShopping(Record):
    """What to buy for the whole job, what to take from stock at hand, what is left, and lines under these."""

    buy: str
    at_hand: str
    left: str
    lines: tuple[str, ...]


class _Bought(Record):
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
    bought = Counter(_bought(work, stick) for work, stick in _taken(works) if stick.is_to_buy)
    at_hand = Counter(_bought(work, stick) for work, stick in _taken(works) if stick.stock.in_hand)
    money = sum((one.price * count for one, count in bought.items()), Decimal(0))
    buy = joined("; ", (_named(one, count, project) for one, count in bought.items()))
    cost = f" · {tag_text(money, currency=currency_of(project))}" if money else ""
    return JobShopping(
        buy=joined("", (buy, cost)) if bought else "Nothing to buy.",
        at_hand=joined("; ", (_named(one, count, project) for one, count in at_hand.items())),
        left=_left(works, project),
        lines=tuple(shared_words(works, currency_of(project))),
    )


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
    size = describe_size(one.width_mm, one.length_mm, unit=project.unit)
    what = joined(" ", (plural(count, "board" if one.is_board else "stick"), quoted(one.name)))
    return joined(", ", (what, size))


def _left(works: Iterable[GroupWork], project: Project) -> str:
    """What goes to the rack, the longest first."""
    cut = [(plan_as_cut(work.plan, group=work.group, project=project), work.group) for work in works if work.plan]
    left = [
        one
        for plan, group in cut
        for one in left_of(group.still_here(plan), group_as_cut(group))
        if one.fate is Fate.RACK
    ]
    if not left:
        return "Nothing worth keeping."
    longest_first = sorted(left, key=lambda one: -one.length_mm)
    counted = Counter(_off_cut(one, project) for one in longest_first)
    sizes = [f"{count} of {size}" if count > 1 else size for size, count in counted.items()]
    return first_few(sizes)


def _off_cut(one: OffCut, project: Project) -> str:
    """The length of an off-cut, after its width if that was not ripped."""
    length = left_over_words(one.length_mm, project=project)
    if one.rest_mm is None:
        return length
    width = left_over_words(one.rest_mm, project=project)
    return f"{width.removesuffix(f' {project.unit.value}')} × {length}"
