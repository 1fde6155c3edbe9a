"""All cards of a job, in the order of the work."""

from collections.abc import Iterable, Mapping

from framecalc.bench.as_cut import Quantity
from framecalc.bench.cards import Card, Machine
from framecalc.bench.cutters import Cutter
from framecalc.plan.bench.assembling import dry_fit_card, glue_card, slots_card, splines_card
from framecalc.plan.bench.milling import milling_cards
from framecalc.plan.bench.rabbets import inside_card, section_cards
from framecalc.plan.bench.sawing import saw_card
from framecalc.plan.bench.writing import BenchJob, CutsElsewhere, GroupAtBench
from framecalc.plan.timber.group import TimberGroup
from framecalc.plan.whole import Plan
from framecalc.records import replace
from framecalc.timber.sticks.answer import StickPlan


def bench_job(
    plan: Plan,
    cut: Iterable[tuple[TimberGroup, StickPlan | None]],
    *,
    cutters: Iterable[Cutter] = (),
    cuts_elsewhere: Mapping[str, CutsElsewhere] = {},
) -> BenchJob:
    """A job at the bench.

    Args:
        cut: every group with its cutting plan, where there is one.
        cutters: that the shop owns.
        cuts_elsewhere: by frame, the errors of each setting of its saw that other frames tell of [°].
    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    project = plan.project
    groups = tuple(GroupAtBench(project=project, group=group, plan=answer) for group, answer in cut)
    return BenchJob(
        project=project,
        frames=tuple(plan.frames.values()),
        groups=groups,
        cutters=tuple(cutters),
        cuts_elsewhere=cuts_elsewhere,
    )


def cards_of(job: BenchJob) -> tuple[Card, ...]:
    """The cards of a job, in the order of the work; only those that have something to set.

    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    cards = (
        *milling_cards(job),
        *section_cards(job),
        *saw_card(job),
        *dry_fit_card(job),
        *slots_card(job),
        *glue_card(job),
        *splines_card(job),
        *inside_card(job),
    )
    asked = {quantity for card in cards for quantity in card.measured}
    rest = tuple(quantity for quantity in Quantity if quantity not in asked)
    return tuple(
        replace(card, measured=(*card.measured, *rest)) if card.machine is Machine.MITRE else card for card in cards
    )
