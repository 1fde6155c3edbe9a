"""What is known of a job beside its plan, each fact found once: how far its searches are, its price.

Nothing is searched for here. The light and the way through a job are read from the same facts.
"""

from framecalc.plan import Plan
from framecalc.plan.price.counts import LaidOut
from framecalc.plan.price.price import JobPrice, price_job
from framecalc.records import Record, cached_property
from webapp.issue.issued import Shelf
from webapp.issue.pricing import laid_out_of
from webapp.jobs import sheets, timber
from webapp.jobs.sheets import SheetWork
from webapp.jobs.timber import GroupWork
from webapp.live.desk import Desk
from webapp.live.work.price_list import price_list_for


class JobFacts(Record, dict=True):
    """The facts of one job on its desk. Each raises FrameCalcError where a frame cannot be computed."""

    shelf: Shelf
    desk: Desk
    project_id: str
    plan: Plan

    @cached_property
    def timber(self) -> tuple[GroupWork, ...]:
        """How far the cutting plans are."""
        return timber.work_of(self.desk.jobs, self.plan)

    @cached_property
    def sheets(self) -> tuple[SheetWork, ...]:
        """How far the sheet layouts are."""
        return sheets.work_of(self.desk.jobs, self.plan)

    @cached_property
    def price(self) -> JobPrice:
        """The price by the project's own quote, or by the shop's where it has none yet."""
        shop, project = self.desk.shop(), self.plan.project
        entries = price_list_for(shop, project)
        quote = project.quote or shop.first_quote
        return price_job(project, quote=quote, find=self._laid_out, plan=self.plan, price_list=entries)

    def price_at(self, revision: int) -> JobPrice:
        """The price of an earlier revision, counted as the job is now.

        Raises:
            NoSuchRevision: there is none of this number that can be read.
        """
        return self.desk.price(self.project_id, self.desk.open_revision(self.project_id, revision).plan)

    def _laid_out(self, plan: Plan) -> LaidOut:
        return laid_out_of(lambda: self.timber, lambda: self.sheets)
