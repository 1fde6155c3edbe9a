"""What the page shows: coats by the day, cautions, and the hours of this job beside those of past ones."""

from collections.abc import Iterator
from typing import ClassVar

from framecalc.bench.hours import FEWEST_JOBS, FrameSize, Spell, WorkStep, experience
from framecalc.plan.bench.finishing import FinishPlan
from framecalc.plan.bench.timetable import duration_said
from framecalc.records import Record
from webapp.live.addresses import BENCH
from webapp.live.days import written_when
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.shown import LiveShown
from webapp.live.typed.answer import Answer
from webapp.live.work.hours import past_said, past_spells, size_of
from webapp.pages.finish.actions import MINUTES


class StepHours(Record):
    """A step: what it took here for one frame, and in past jobs; `offers`: the costs can take that over."""

    step: str
    here: str
    past: str
    offers: bool


class SpellView(Record):
    """Work that was written down."""

    id: str
    step: str
    took: str
    when: str


class FinishShown(LiveShown):
    """What the page shows."""

    finish: FinishPlan
    size: str
    hours: tuple[StepHours, ...]
    spells: tuple[SpellView, ...]
    fewest: int = FEWEST_JOBS
    above: ClassVar[str] = "bench."

    @property
    def bench_at(self) -> str:
        """The bench."""
        return BENCH(project_id=self.answer.project_id)

    @property
    def wrong(self) -> str:
        """Why minutes were not taken."""
        return self.messages.get(MINUTES, "")


def finish_shown(desk: Desk, opened: ProjectAtRevision, answer: Answer) -> FinishShown:
    """What the page shows."""
    size, past = size_of(answer.whole), past_spells(desk, but=opened.project_id)
    return FinishShown(
        answer=answer,
        finish=FinishPlan(answer.project),
        size=size.value,
        hours=tuple(_hours(answer, past, size)),
        spells=tuple(
            SpellView(id=one.id, step=one.step.value, took=duration_said(one.minutes), when=written_when(one.when))
            for one in reversed(answer.project.bench.hours)
        ),
    )


def _hours(answer: Answer, past: tuple[Spell, ...], size: FrameSize) -> Iterator[StepHours]:
    frames = sum(frame.count for frame in answer.project.frames)
    for step in WorkStep:
        here_min = sum(one.minutes for one in answer.project.bench.hours if one.step is step)
        found = experience(past, step=step, size=size)
        here = duration_said(round(here_min / frames)) if here_min else ""
        yield StepHours(step=step.value, here=here, past=past_said(found) if found else "", offers=found is not None)
