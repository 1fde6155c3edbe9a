"""How far the cutting plans of a project are: one group after another, each with what the plans before it have left."""

from collections.abc import Iterator

from framecalc.errors import FrameCalcError, ImpossibleTimber
from framecalc.plan import Plan
from framecalc.plan.timber.common import SharingGroups
from framecalc.plan.timber.group import TimberGroup
from framecalc.records import Record, replace
from framecalc.search.watch import SoFar
from framecalc.timber.common.plan import CommonPlan
from framecalc.timber.sticks.answer import StickPlan
from webapp.jobs.running import Job, Jobs, JobState

_THROWN_AWAY = "The plans that share boards were thrown away, because their own check failed: "


class GroupWork(Record):
    """A group with what is left of the stock for it, and how far its plan is.

    `waits`: a group before it, which may take the same stock, has no plan yet, or nothing is allotted to it yet:
    `common` is the search that does so for all that share its boards, which are `sharing`, and `common_plan` its
    answer. `refusal`: why it can have none. `plan` is its cutting plan, with all that was cut of it, when there is one.
    """

    group: TimberGroup
    waits: bool = False
    sharing: SharingGroups | None = None
    common: Job | None = None
    refusal: FrameCalcError | None = None
    job: Job | None = None
    plan: StickPlan | None = None

    @property
    def is_shared(self) -> bool:
        """Whether its boards are allotted together with those of others, not one group after another."""
        return self.sharing is not None and not (self.common and self.common.refusal)

    @property
    def rest(self) -> StickPlan | None:
        """The answer to what is searched for: what is left to cut, when that is known."""
        rest: StickPlan | None = self.job.answer if self.job else None
        return rest

    @property
    def so_far(self) -> SoFar | None:
        """What its search, or that for common boards, knows by now; nothing of a rest, whose prices are no money."""
        job = self.job or self.common
        so_far: SoFar | None = job.so_far if job else None
        return None if self.group.left else so_far

    @property
    def is_done(self) -> bool:
        """Whether its plan is searched to the end, or nothing is left to search for."""
        return self.group.is_all_cut or (self.job is not None and self.job.state is JobState.DONE)

    @property
    def is_going(self) -> bool:
        """Whether there is something to wait for."""
        return any(job is not None and job.is_going for job in (self.job, self.common))

    @property
    def common_plan(self) -> CommonPlan | None:
        """What all that share its boards get, when that is known."""
        plan: CommonPlan | None = self.common.answer if self.common else None
        return plan

    @property
    def can_start(self) -> bool:
        """Whether a plan can be asked for: nothing before it is open, and it was not refused at sight."""
        return not self.waits and not self.group.is_all_cut and (self.refusal is None or self.job is not None)

    @property
    def is_open(self) -> bool:
        """Whether it has neither a plan nor a reason why there is none."""
        return self.plan is None and self.refusal is None


def work_of(jobs: Jobs, plan: Plan) -> tuple[GroupWork, ...]:
    """How far the plans of all groups are, in the order in which they are worked out.

    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    works: list[GroupWork] = []
    for group in plan.timber.groups:
        sharing = next((one for one in plan.timber.sharing if one.place_of(group) >= 0), None)
        common = jobs.find(sharing.key, CommonPlan) if sharing else None
        if sharing and (common is None or common.refusal is None):
            works.append(_shared_work(jobs, group, sharing, common, works))
        else:
            works.append(replace(_next_work(jobs, group, works), sharing=sharing, common=common))
    return tuple(works)


def _next_work(jobs: Jobs, group: TimberGroup, works: list[GroupWork]) -> GroupWork:
    """A group that takes what the ones before it leave."""
    before = [work for work in works if group.shares_stock_with(work.group)]
    waits = any(work.is_open for work in before)
    return GroupWork(group=group, waits=True) if waits else _work(jobs, group, before)


def _shared_work(
    jobs: Jobs, group: TimberGroup, sharing: SharingGroups, common: Job | None, works: list[GroupWork]
) -> GroupWork:
    """A group that takes what is allotted to it; the last one's plan stands only if all of them fit their boards."""
    if common is None or common.answer is None:
        return GroupWork(group=group, waits=True, sharing=sharing, common=common)
    place = sharing.place_of(group)
    work = replace(_work(jobs, sharing.allotted(place, common.answer), []), sharing=sharing, common=common)
    plans = [one.rest for one in (*works, work) if one.rest and sharing.place_of(one.group) >= 0]
    faults = sharing.faults(plans) if len(plans) == len(sharing.groups) else ()
    return replace(work, refusal=ImpossibleTimber(_THROWN_AWAY + f"{faults[0]}.", field="stock")) if faults else work


def _work(jobs: Jobs, group: TimberGroup, before: list[GroupWork]) -> GroupWork:
    left = group.after(_plans(before))
    if left.is_all_cut:
        return GroupWork(group=left, plan=left.whole(None))
    if refusal := left.refusal or left.refused_at_sight:
        return GroupWork(group=left, refusal=refusal)
    job = jobs.find(left.key, StickPlan)
    plan = left.whole(job.answer) if job else None
    return GroupWork(group=left, job=job, plan=plan, refusal=job.refusal if job else None)


def _plans(works: list[GroupWork]) -> Iterator[StickPlan]:
    for work in works:
        if work.rest is not None:
            yield work.rest
