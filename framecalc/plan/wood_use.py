"""How much wood a cutting plan takes, how much of it ends up in members, and what is taken twice."""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from framecalc.boards import Timber, timber_in, waste_pct
from framecalc.plan.timber import TimberGroup
from framecalc.sticks.answer import CutStick, StickPlan
from framecalc.sticks.problem import Stock


@dataclass(frozen=True, slots=True, kw_only=True)
class WoodUse:
    """The wood of all sticks and boards taken, and of the blanks of all pieces, before rabbet and profile."""

    stock: Timber
    parts: Timber

    @property
    def waste_pct(self) -> float:
        """The share that does not end up in a piece; useful off-cuts are part of it."""
        return waste_pct(stock=self.stock, parts=self.parts)


def wood_use(plan: StickPlan, group: TimberGroup) -> WoodUse:
    """Measure what a plan takes and what it yields.

    Source: derived.
    """
    stock = sum((_wood_of(stick, group).mm3 for stick in plan.sticks), Fraction(0))
    section = group.section
    parts = timber_in(thickness_mm=section.thickness_mm, width_mm=section.width_mm, length_mm=group.total_mm)
    return WoodUse(stock=Timber(mm3=stock), parts=parts)


def taken_too_often(plans: Iterable[StickPlan]) -> Iterator[tuple[Stock, int]]:
    """Name the stock of which several plans together take more than there is, and how much they take.

    Each section of member is planned by itself, so each plan may take the same stick.

    Source: derived.
    """
    taken: Counter[tuple[str, float]] = Counter()
    stocks: dict[tuple[str, float], Stock] = {}
    for plan in plans:
        for stick in plan.sticks:
            key = (stick.stock.name, stick.stock.length_mm)
            taken[key] += 1
            stocks[key] = stick.stock
    for key, count in taken.items():
        there = stocks[key].count
        if there is not None and count > there:
            yield stocks[key], count


def _wood_of(stick: CutStick, group: TimberGroup) -> Timber:
    board = group.boards.get(stick.stock.name)
    section, length_mm = group.section, stick.stock.length_mm
    if board is None or board.length_mm != length_mm:
        return timber_in(thickness_mm=section.thickness_mm, width_mm=section.width_mm, length_mm=length_mm)
    return timber_in(thickness_mm=board.thickness_mm, width_mm=board.width_mm, length_mm=length_mm)
