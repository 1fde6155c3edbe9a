"""The cards of a job, made of its plan, its cutting plans and what the shop owns."""

from framecalc.bench.cards import Card
from framecalc.errors import FrameCalcError
from framecalc.plan import Plan
from framecalc.plan.bench.job import bench_job, cards_of
from webapp.jobs.timber import work_of
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.work.saw_record import cuts_elsewhere_deg, record_of


def opened_cards(desk: Desk, opened: ProjectAtRevision) -> tuple[Card, ...]:
    """The cards of a job as it is saved.

    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    return _cards(desk, opened.plan, opened.project_id)[0]


def cards_or_trouble(desk: Desk, plan: Plan, project_id: str) -> tuple[tuple[Card, ...], str, bool]:
    """The cards, or the sentence that says why there are none, and whether a cutting plan is missing."""
    try:
        cards, is_planned = _cards(desk, plan, project_id)
    except FrameCalcError as error:
        return (), error.sentence, False
    return cards, "", not is_planned


def _cards(desk: Desk, plan: Plan, project_id: str) -> tuple[tuple[Card, ...], bool]:
    """The cards, and whether every group has its cutting plan."""
    works, record = work_of(desk.jobs, plan), record_of(desk.store, plan.project, project_id)
    job = bench_job(
        plan,
        [(work.group, work.plan) for work in works],
        cutters=(one.owned for one in desk.shop().cutters),
        cuts_elsewhere={
            frame.id: cuts_elsewhere_deg(record, of=frame) for frame in plan.project.frames if frame.corner.tests
        },
    )
    return cards_of(job), all(work.plan for work in works)
