"""Sides for which their sticks have no room as they came out: the rest of the job is planned again by what came out."""

from collections.abc import Iterator

from framecalc.plan import Plan
from framecalc.plan.timber.as_cut import sides_to_place
from framecalc.timber.sticks.problem import Piece
from webapp.jobs.timber import work_of
from webapp.live.desk import Desk
from webapp.live.work.other_wood import rack_of


def sides_without_room(desk: Desk, plan: Plan, project_id: str) -> Iterator[Piece]:
    """Every side that waits for other wood; nothing of sticks that are marked as cut."""
    cut = {one.problem for one in rack_of(desk).cuts_of(project_id)}
    for work in work_of(desk.jobs, plan):
        if work.plan is not None and work.group.key not in cut:
            yield from sides_to_place(work.plan, group=work.group, project=plan.project)
