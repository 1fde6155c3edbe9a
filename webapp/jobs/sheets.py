"""How far the sheet layouts of a project are, one for each material; each belongs to the hash of its problem."""

from framecalc.errors import FrameCalcError
from framecalc.plan import Plan
from framecalc.plan.sheets.sheets import SheetGroup
from framecalc.records import Record
from framecalc.sheets.answer import SheetLayout
from webapp.jobs.running import Job, Jobs


class SheetWork(Record):
    """One material and how far its layout is."""

    group: SheetGroup
    job: Job | None = None

    @property
    def is_going(self) -> bool:
        """Whether there is something to wait for."""
        return self.job is not None and self.job.is_going

    @property
    def layout(self) -> SheetLayout | None:
        """Its layout, when there is one and an independent look at it finds no fault."""
        job = self.job
        if job is None or job.answer is None:
            return None
        layout: SheetLayout = job.answer
        if job.last_look.at is not layout:
            if self.group.faults(layout):
                return None
            job.last_look.at = layout
        return layout

    @property
    def so_far(self) -> SheetLayout | None:
        """The best layout found by now, while the search goes on."""
        so_far: SheetLayout | None = self.job.so_far if self.job and self.is_going else None
        return so_far

    @property
    def refusal(self) -> FrameCalcError | None:
        """Why the search gave nothing."""
        return self.job.refusal if self.job else None


def work_of(jobs: Jobs, plan: Plan) -> tuple[SheetWork, ...]:
    """How far the layouts of all materials are.

    Raises:
        FrameCalcError: a frame cannot be computed.
    """
    return tuple(
        SheetWork(group=group, job=jobs.find(group.key, SheetLayout) if group.key else None)
        for group in plan.sheets.groups
    )
