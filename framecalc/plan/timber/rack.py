"""Sticks of the rack that would serve some members: each as the entry of stock that it would be in the cutting plan.

So every offer is one that the plan can use: a board that loses its edges and still yields a strip, flat or on edge, and
an off-cut that holds at least one piece, or one run of pieces where the grain ties them together.
"""

from collections.abc import Sequence

from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.timber.stock import StockOffer, offers_for
from framecalc.plan.timber.timber import stretches_mm
from framecalc.project import Project
from framecalc.project.timber import Stock
from framecalc.records import replace
from framecalc.timber.sticks.problem import StickProblem, clear_stretches
from framecalc.units import TOLERANCE_MM


def offers_of(stock: Sequence[Stock], *, project: Project, group: TimberGroup, wood: str) -> dict[str, StockOffer]:
    """Find the sticks and boards that serve a group, by id, each as the plan would take it.

    Args:
        stock: as entries of the project's stock.
        wood: the wood that they must have; blank for any.
    Source: derived.
    """
    lengths_mm = stretches_mm(group.problem)
    timber = project.timber.model_copy(update={"stock": tuple(stock)})
    offers, _ = offers_for(
        replace(group.section, wood=wood),
        project=project.model_copy(update={"timber": timber}),
        lengths_mm=lengths_mm,
        milled_to=group.milled_to,
    )
    return {
        offer.stock.id: offer for offer in offers if _longest_mm(offer, group.problem) >= lengths_mm[-1] - TOLERANCE_MM
    }


def _longest_mm(offer: StockOffer, problem: StickProblem) -> float:
    return max((part.length_mm for part in clear_stretches(offer.stock, cut_mm=problem.cut_mm)), default=0.0)
