"""What the bought mouldings of a job cost: one line for each moulding, and one more up to the least order.

Their prices stand with the moulding on Setting-out, so that nobody types them twice.
"""

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal

from framecalc.errors import FrameCalcError
from framecalc.money import Currency
from framecalc.plan.frame import FramePlan
from framecalc.plan.inputs import is_bought, repeat_mm
from framecalc.plan.price.counts import LaidOut
from framecalc.plan.price.listed import beside_list, listed
from framecalc.plan.timber.runs import long_edges_mm
from framecalc.price.costs import CostGroup, CostLine
from framecalc.price.moulding import SidesToBuy, Sticks, is_net, moulding_ordered, up_to_least_order
from framecalc.price.quantities import UNIT_WORDS, JobQuantity
from framecalc.project import Item
from framecalc.project.moulding import Moulding
from framecalc.units import describe_length

USUAL_NAME = "Moulding"


def moulding_lines(
    plans: Sequence[FramePlan], *, laid_out: LaidOut, currency: Currency, price_list: Sequence[Item] = ()
) -> tuple[tuple[CostLine, ...], dict[str, str]]:
    """The lines of all bought mouldings, and why one of them cannot be counted, by the path of its stick length.

    Args:
        plans: of all frames.
        laid_out: the cutting plans that are finished.
        price_list: has the prices of mouldings without one.
    Source: derived.
    """
    lines: list[CostLine] = []
    problems: dict[str, str] = {}
    for moulding, own in _by_moulding(plans).items():
        try:
            ordered = _ordered(moulding, plans, own, laid_out)
        except FrameCalcError as error:
            lengths = {name: describe_length(length_mm, unit=own[0].unit) for name, length_mm in error.lengths.items()}
            problems[own[0].path_of("section.moulding.stick_length")] = error.wording.format_map(lengths)
            continue
        line = _line(moulding, ordered, is_net=is_net(moulding.sale, sticks=_sticks(moulding, own, laid_out)))
        line = beside_list(line, listed(price_list, line.name, sold_by=moulding.sale))
        lines += [line, *_up_to_least(moulding, line, currency)]
    return tuple(lines), problems


def _by_moulding(plans: Sequence[FramePlan]) -> Mapping[Moulding, list[FramePlan]]:
    """The frames of each moulding; what is sold alike under one name is one order."""
    found: dict[Moulding, list[FramePlan]] = {}
    for plan in plans:
        if is_bought(plan.frame):
            found.setdefault(plan.frame.section.moulding, []).append(plan)
    return found


def _ordered(
    moulding: Moulding, plans: Sequence[FramePlan], own: Sequence[FramePlan], laid_out: LaidOut
) -> JobQuantity:
    ids = {plan.frame.id for plan in own}
    sides = [
        SidesToBuy(
            count=plan.frame.count if plan.frame.id in ids else 0, long_points_mm=tuple(long_edges_mm(plan).values())
        )
        for plan in plans
    ]
    least = moulding.least_length
    return moulding_ordered(
        moulding.sale,
        sides=sides,
        sticks=_sticks(moulding, own, laid_out),
        least_mm=least.mm if least else 0.0,
    )


def _sticks(moulding: Moulding, own: Sequence[FramePlan], laid_out: LaidOut) -> Sticks:
    plan = own[0]
    return Sticks(
        length_mm=moulding.stick_length.mm if moulding.stick_length else 0.0,
        kerf_mm=plan.figures["slant_kerf"].exact_mm,
        trim_mm=plan.project.shop.end_trim.mm,
        repeat_mm=repeat_mm(plan.frame),
        counted=_counted(moulding, own, laid_out),
    )


def _counted(moulding: Moulding, own: Sequence[FramePlan], laid_out: LaidOut) -> int | None:
    """The sticks to buy by the finished cutting plans of these frames; None while one is missing, or shared."""
    ids = {plan.frame.id for plan in own}
    groups = [(group, plan) for group, plan in laid_out.wood if ids & {frame.frame.id for frame in group.frames}]
    finished = [plan for group, plan in groups if plan and {frame.frame.id for frame in group.frames} <= ids]
    if not moulding.stick_length or not groups or len(finished) < len(groups):
        return None
    return sum(not stick.stock.in_hand for plan in finished for stick in plan.sticks)


def _line(moulding: Moulding, ordered: JobQuantity, *, is_net: bool) -> CostLine:
    return CostLine(
        name=moulding.name or USUAL_NAME,
        group=CostGroup.WOOD,
        quantity=ordered.total,
        unit=UNIT_WORDS[moulding.sale.measure],
        price=moulding.price,
        weights=ordered.weights,
        is_net=is_net,
        estimate=ordered.estimate,
        counted_by=ordered.counted_by,
        priced_on=moulding.priced_on,
    )


def _up_to_least(moulding: Moulding, line: CostLine, currency: Currency) -> Iterator[CostLine]:
    """One more line where the order is smaller than the supplier takes."""
    lacking = up_to_least_order(line.amount(currency), least=moulding.least_order or Decimal(0))
    if lacking and line.quantity and line.price is not None:
        yield CostLine(
            name=f"{line.name}: up to the least order",
            group=CostGroup.WOOD,
            quantity=Decimal(1),
            unit="pcs",
            price=lacking,
            weights=line.weights,
            priced_on=line.priced_on,
        )
