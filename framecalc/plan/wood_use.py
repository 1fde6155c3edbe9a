"""How much wood a cutting plan takes, how much of it ends up in members, what goes to the rack, and what is lost."""

from dataclasses import dataclass
from fractions import Fraction

from framecalc.boards import Timber, timber_in, waste_pct
from framecalc.lists import Fate, off_cuts
from framecalc.plan.timber import TimberGroup
from framecalc.sticks.answer import CutStick, StickPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class WoodUse:
    """The wood of all sticks and boards taken, of the blanks of all pieces before rabbet and profile, and of what is
    kept: off-cuts that are long enough, and strips that are not needed.
    """

    stock: Timber
    parts: Timber
    kept: Timber

    @property
    def waste_pct(self) -> float:
        """The share that is neither in a piece nor kept: saw cuts, chips, trims, edges, short ends."""
        return waste_pct(stock=self.stock, parts=Timber(mm3=self.parts.mm3 + self.kept.mm3))


def wood_use(plan: StickPlan, group: TimberGroup) -> WoodUse:
    """Measure what a plan takes, what it yields and what it leaves.

    Source: derived.
    """
    section = group.section
    parts = timber_in(thickness_mm=section.thickness_mm, width_mm=section.width_mm, length_mm=group.total_mm)
    return WoodUse(
        stock=Timber(mm3=sum((_wood_of(stick, group).mm3 for stick in plan.sticks), Fraction(0))),
        parts=parts,
        kept=Timber(mm3=sum(map(Fraction, _kept_mm3(plan, group)), Fraction(0))),
    )


def _wood_of(stick: CutStick, group: TimberGroup) -> Timber:
    offer, section, length_mm = group.offer_of(stick), group.section, stick.stock.length_mm
    if offer is None or offer.board is None:
        return timber_in(thickness_mm=section.thickness_mm, width_mm=section.width_mm, length_mm=length_mm)
    board = offer.board
    return timber_in(thickness_mm=board.thickness_mm, width_mm=board.width_mm, length_mm=length_mm)


def _kept_mm3(plan: StickPlan, group: TimberGroup) -> list[float]:
    """The wood of every off-cut that goes to the rack, as wide and thick as it lies there."""
    section_mm2 = {stick.label: _section_mm2(stick, group) for stick in plan.sticks}
    found = off_cuts(plan, shortest_useful_mm=group.problem.shortest_useful_mm)
    return [section_mm2[one.stick] * one.length_mm for one in found if one.fate is Fate.RACK]


def _section_mm2(stick: CutStick, group: TimberGroup) -> float:
    offer, section = group.offer_of(stick), group.section
    if offer is None or offer.board is None:
        return section.width_mm * section.thickness_mm
    return offer.strip_mm * offer.board.thickness_mm
