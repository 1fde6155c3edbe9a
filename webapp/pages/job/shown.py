"""What the job page shows: its frames side by side, whom it is for and when, and the way through it."""

from collections.abc import Iterator
from datetime import date

from markupsafe import Markup

from framecalc.drawing.job.fronts import SmallFront, common_scale, draw_small_front, read_small_front
from framecalc.errors import FrameCalcError
from framecalc.plan import FramePlan
from framecalc.plan.way_words import days_left_said, woods_said
from framecalc.records import Record, cached_property
from framecalc.words import day_said
from webapp.live.addresses import SETTING_OUT
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.render import drawing
from webapp.live.shown import LiveShown
from webapp.live.typed.answer import Answer
from webapp.live.way import WayView, way_view


class FrontView(Record):
    """One frame as it stands in the row: its small front, if it can be worked out, and its outside size."""

    name: str
    address: str
    svg: Markup
    size: str
    count: int


class JobShown(LiveShown, dict=True):
    """What the job page shows. `due` is the day in the words of the shop, `due_in` how far off it is."""

    way: WayView
    fronts: tuple[FrontView, ...]
    today: date
    origin: str

    @cached_property
    def due(self) -> str:
        """The day the job is due, as the shop writes it."""
        due = self.project.way.due
        return day_said(due, self.words) if due else ""

    @cached_property
    def due_in(self) -> str:
        """How far off that day is; nothing once the job is handed over."""
        due = self.project.way.due
        return days_left_said((due - self.today).days) if due and self.way.next else ""

    @property
    def is_late(self) -> bool:
        """Whether that day has passed, and the job is not handed over."""
        due = self.project.way.due
        return due is not None and due < self.today and self.way.next is not None

    @property
    def woods(self) -> str:
        """The woods of the job."""
        return woods_said(self.answer.whole.frames.values())


def job_shown(desk: Desk, opened: ProjectAtRevision, answer: Answer) -> JobShown:
    """What the job page shows of a project as it is saved."""
    return JobShown(
        answer=answer,
        way=way_view(desk, opened),
        fronts=tuple(_fronts(opened)),
        today=date.today(),
        origin=desk.store.origin(opened.project_id),
    )


def _fronts(opened: ProjectAtRevision) -> Iterator[FrontView]:
    plans = tuple(opened.plan.frames.values())
    found = {plan.frame.id: front for plan in plans if (front := _front(plan))}
    scale = common_scale(tuple(found.values()))
    for plan in plans:
        front = found.get(plan.frame.id)
        yield FrontView(
            name=plan.frame.name,
            address=SETTING_OUT(project_id=opened.project_id, frame_id=plan.frame.id),
            svg=drawing(draw_small_front(front, scale=scale)) if front else Markup(),
            size=_size(plan) if front else "Cannot be worked out",
            count=plan.frame.count,
        )


def _front(plan: FramePlan) -> SmallFront | None:
    try:
        return read_small_front(plan)
    except FrameCalcError:
        return None


def _size(plan: FramePlan) -> str:
    across, up = plan.figures["outside_across"], plan.figures["outside_up"]
    return f"{across.text} × {up.text} {plan.unit}"
