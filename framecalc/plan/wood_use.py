"""How much wood a cutting plan takes, and how much of it ends up in members."""

from dataclasses import dataclass
from fractions import Fraction

from framecalc.boards import Timber, timber_in, waste_pct
from framecalc.plan.timber import TimberGroup
from framecalc.sticks.answer import CutStick, StickPlan


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


def _wood_of(stick: CutStick, group: TimberGroup) -> Timber:
    offer, section, length_mm = group.offer_of(stick), group.section, stick.stock.length_mm
    if offer is None or offer.board is None:
        return timber_in(thickness_mm=section.thickness_mm, width_mm=section.width_mm, length_mm=length_mm)
    board = offer.board
    return timber_in(thickness_mm=board.thickness_mm, width_mm=board.width_mm, length_mm=length_mm)
