"""The wood that a cutting plan takes, the parts of it in members and on the rack, and the waste."""

from collections.abc import Iterator
from fractions import Fraction

from framecalc.plan.timber.group import TimberGroup
from framecalc.records import Record
from framecalc.timber.boards import WoodAmount, timber_in, waste_pct
from framecalc.timber.lists import Fate, OffCut, off_cuts
from framecalc.timber.rack import Ripping
from framecalc.timber.sticks.answer import CutStick, StickPlan


class WoodUse(Record):
    """The wood of all sticks and boards taken, of the blanks of all pieces before rabbet and profile, and of what is
    kept: off-cuts that are long enough, and what is not ripped of a board.
    """

    stock: WoodAmount
    parts: WoodAmount
    kept: WoodAmount

    @property
    def waste_pct(self) -> float:
        """The share that is neither in a piece nor kept: saw cuts, mitred ends, chips, trims, edges, short."""
        return waste_pct(stock=self.stock, parts=WoodAmount(mm3=self.parts.mm3 + self.kept.mm3))


def wood_use(plan: StickPlan, group: TimberGroup) -> WoodUse:
    """Measure the wood that a plan takes, yields and leaves.

    Source: derived.
    """
    return WoodUse(
        stock=WoodAmount(mm3=sum((_wood_of(stick, group).mm3 for stick in plan.sticks), Fraction(0))),
        parts=_wood_in_pieces(group),
        kept=WoodAmount(mm3=sum(map(Fraction, _kept_mm3(plan, group)), Fraction(0))),
    )


def _wood_in_pieces(group: TimberGroup) -> WoodAmount:
    """``Σ (long + short) / 2 · w · t``: what falls off at the mitred ends is not in the pieces."""
    section, slope_mm = group.section, group.problem.slope_mm
    middle_mm = sum(piece.length_mm - slope_mm for piece in group.problem.pieces)
    return timber_in(thickness_mm=section.thickness_mm, width_mm=section.width_mm, length_mm=middle_mm)


def _wood_of(stick: CutStick, group: TimberGroup) -> WoodAmount:
    offer, section, length_mm = group.offer_of(stick), group.section, stick.stock.length_mm
    if offer is None or offer.board is None:
        return timber_in(thickness_mm=section.thickness_mm, width_mm=section.width_mm, length_mm=length_mm)
    board = offer.board
    width_mm = board.width_mm - offer.passes_mm
    return timber_in(thickness_mm=board.thickness_mm, width_mm=width_mm, length_mm=length_mm)


def rippings_of(group: TimberGroup) -> dict[str, Ripping]:
    """The boards of which strips that nothing is cut from stay together.

    One that is crosscut first leaves parts, and of one that goes on to other members they have the rest.

    Source: derived.
    """
    return {
        key: Ripping(board=offer.board, strip_mm=offer.strip_mm, kerf_mm=group.problem.kerf_mm)
        for key, offer in {**group.begun_offers, **group.offers}.items()
        if offer.board and not offer.crosscuts and not offer.passes_mm
    }


def left_of(plan: StickPlan, group: TimberGroup) -> tuple[OffCut, ...]:
    """The off-cuts of a plan, as they go to the rack or into the bin.

    Source: derived.
    """
    return off_cuts(plan, shortest_useful_mm=group.problem.shortest_useful_mm, rippings=rippings_of(group))


def _kept_mm3(plan: StickPlan, group: TimberGroup) -> Iterator[float]:
    """The wood of all that goes to the rack, as wide and thick as it lies there: a rest is rough, a strip is milled."""
    section_mm2 = group.section.width_mm * group.section.thickness_mm
    thickness_mm = {stick.label: _thickness_mm(stick, group) for stick in plan.sticks}
    for one in left_of(plan, group):
        if one.fate is Fate.RACK:
            across_mm2 = section_mm2 if one.rest_mm is None else one.rest_mm * thickness_mm[one.stick]
            yield one.length_mm * across_mm2


def _thickness_mm(stick: CutStick, group: TimberGroup) -> float:
    offer = group.offer_of(stick)
    return offer.board.thickness_mm if offer and offer.board else group.section.thickness_mm
