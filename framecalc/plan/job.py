"""What follows for a whole job from its frames together: timber, sheets, wall, what is found, what is counted."""

from collections.abc import Callable, Mapping
from weakref import ref

from framecalc.plan.frame import FramePlan
from framecalc.plan.hanging.wall import WallPlan
from framecalc.plan.job_light import Obstacle, known_obstacles
from framecalc.plan.price.job_counts import JobCounts
from framecalc.plan.sheets.sheets import SheetsPlan
from framecalc.plan.timber.frames_from_a_stick import FramesFromAStick
from framecalc.plan.timber.timber import TimberPlan
from framecalc.project import Project
from framecalc.records import cached_property


class JobPlan:
    """The frames of a project together, each topic when first asked for.

    Plans of which only the prices, a note or what is confirmed differ have the same one: nothing in it follows from
    these.
    """

    def __init__(self, project: Project, frames: Mapping[str, FramePlan], *, before: "JobPlan | None" = None) -> None:
        """Plan a job.

        Args:
            before: that of an earlier plan.
        """
        self._project, self._frames = project, frames
        self._before: Callable[[], JobPlan | None] = ref(before) if before else _none

    @cached_property
    def timber(self) -> TimberPlan:
        """The timber of the project."""
        return TimberPlan(self._project, self._frames)

    @cached_property
    def sheets(self) -> SheetsPlan:
        """The sheets of the project."""
        return SheetsPlan(self._project, self._frames, before=self._sheets_before)

    @cached_property
    def wall(self) -> WallPlan:
        """The wall of the project."""
        return WallPlan(self._project, self._frames)

    @cached_property
    def frames_from_a_stick(self) -> FramesFromAStick:
        """The frames that the stick or board in hand makes."""
        return FramesFromAStick(self._project, self._frames)

    @cached_property
    def obstacles(self) -> tuple[Obstacle, ...]:
        """Everything found or refused about the whole job, as far as it is known without a search."""
        frames = self._frames.values()
        return tuple(
            known_obstacles(self._project, frames=frames, timber=self.timber, sheets=self.sheets, wall=self.wall)
        )

    @cached_property
    def counts(self) -> JobCounts:
        """How much of what is paid for it takes."""
        return JobCounts(tuple(self._frames.values()))

    def _sheets_before(self) -> SheetsPlan | None:
        """The sheets of an earlier plan, if somebody still has it: none is kept for the one after it."""
        before = self._before()
        return before.sheets if before else None


def _none() -> None:
    """No earlier plan."""
