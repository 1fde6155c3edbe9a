"""What the timetable shows: when the last clamps come off and why not sooner, the days, and every frame in its turn."""

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from typing import ClassVar

from markupsafe import Markup

from framecalc.bench.shop_day import DAY_MIN
from framecalc.drawing.bench.timetable import Bar, DrawnDay, draw_timetable
from framecalc.errors import FrameCalcError
from framecalc.plan.advice import sentence_of
from framecalc.plan.bench.timetable import GluePlan, GlueStep, conclusion, days_of, duration_said, time_said
from framecalc.project import Project
from framecalc.records import Record
from framecalc.words import day_said
from webapp.live.addresses import BENCH
from webapp.live.desk import Desk, ProjectAtRevision
from webapp.live.papers.calendar import Entry, calendar_file
from webapp.live.render import drawing
from webapp.live.shown import LiveShown
from webapp.live.typed.answer import Answer
from webapp.live.work.glued import first_day
from webapp.pages.timetable.actions import BEGUN_AT

MOST_DRAWN = 5
"""Days that are drawn; the list has them all."""

CLAMPS_OFF_MIN = 5
"""How long taking clamps off stands in a calendar."""


class FrameTurn(Record):
    """One frame in its turn; `rings` and `frees` are when its alarms ring, by the clock of the shop."""

    number: int
    name: str
    begins: str
    ends: str
    value: str
    is_begun: bool
    rings: str
    frees: str


class TimetableShown(LiveShown):
    """What the timetable shows; `refused` says why there is none."""

    ends: str = ""
    says: tuple[str, ...] = ()
    stops: tuple[str, ...] = ()
    drawings: tuple[Markup, ...] = ()
    turns: tuple[FrameTurn, ...] = ()
    day: str = ""
    refused: str = ""
    above: ClassVar[str] = ""

    @property
    def bench_at(self) -> str:
        """The bench."""
        return BENCH(project_id=self.answer.project_id)

    @property
    def wrong(self) -> str:
        """Why a time that was typed afterwards was not taken."""
        return self.messages.get(BEGUN_AT, "")

    @property
    def waits(self) -> tuple[str, ...]:
        """The fields of frames that must wait."""
        return tuple(path for path in self.fields if path.endswith(".glue_from"))


def timetable_shown(desk: Desk, opened: ProjectAtRevision, answer: Answer) -> TimetableShown:
    """What the timetable shows."""
    plan = GluePlan(answer.project, first=first_day(answer.project))
    try:
        return _shown(answer, plan)
    except FrameCalcError as error:
        return TimetableShown(answer=answer, refused=error.sentence)


def _shown(answer: Answer, plan: GluePlan) -> TimetableShown:
    project, first = answer.project, first_day(answer.project)
    step, words = project.shop.step(project.unit), project.shop.words
    return TimetableShown(
        answer=answer,
        ends=time_said(plan.timetable.ends_min),
        says=tuple(_says(plan)),
        stops=tuple(sentence_of(finding, step=step, words=words) for finding in plan.findings),
        drawings=tuple(_drawings(plan)),
        turns=tuple(_turn(one, first) for one in plan.steps),
        day=day_said(first, words),
    )


def calendar_of(project: Project, project_id: str) -> bytes:
    """The timetable as a calendar file.

    Raises:
        FrameCalcError: there is no timetable.
    """
    first = first_day(project)
    entries = (entry for one in GluePlan(project, first=first).steps for entry in _entries(one, first, project_id))
    return calendar_file(entries, name=project.name, written=datetime.now(UTC))


def _entries(one: GlueStep, first: date, project_id: str) -> Iterator[Entry]:
    placed, key = one.placed, f"{project_id}-{one.frame.id}-{one.copy_number}"
    if not placed.is_glued:
        begins, ends = (_when(first, at_min) for at_min in (placed.starts_min, placed.closed_min))
        yield Entry(key=f"glue-{key}", begins=begins, ends=ends, says=f"Glue {one.name}")
    off = _when(first, placed.ends_min)
    yield Entry(
        key=f"off-{key}", begins=off, ends=off + timedelta(minutes=CLAMPS_OFF_MIN), says=f"Clamps off {one.name}"
    )


def _when(first: date, at_min: int) -> datetime:
    return datetime.combine(first, time()) + timedelta(minutes=at_min)


def _says(plan: GluePlan) -> Iterator[str]:
    yield conclusion(plan.timetable)
    saved_min = plan.saved_by_a_set_min
    yield f"One clamp set more: {duration_said(saved_min)} sooner." if saved_min else "Another clamp set saves nothing."
    times = plan.times
    whose = "" if plan.own is None else ", by the Shop's own times"
    yield f"Open time {times.open_min:g} min, in the clamps {duration_said(round(times.clamped_min))}{whose}."


def _turn(one: GlueStep, first: date) -> FrameTurn:
    placed = one.placed
    return FrameTurn(
        number=one.number,
        name=one.name,
        begins=time_said(placed.starts_min),
        ends=time_said(placed.ends_min),
        value=f"{one.frame.id}:{one.copy_number}",
        is_begun=placed.is_glued,
        rings="" if placed.is_glued else _when(first, placed.starts_min).isoformat(),
        frees=_when(first, placed.ends_min).isoformat(),
    )


def _drawings(plan: GluePlan) -> Iterator[Markup]:
    bench = plan.project.bench
    hands = ["Hands"] if bench.workers == 1 else ["Hands 1", "Hands 2"]
    lanes = (*hands, *(f"Set {number}" for number in range(1, bench.clamp_sets + 1)))
    for day in days_of(plan.steps)[:MOST_DRAWN]:
        bars = tuple(
            bar for one in plan.steps if one.placed.starts_min // DAY_MIN == day for bar in _bars(one, bench.workers)
        )
        drawn = DrawnDay(day=day, lanes=lanes, hands=bench.workers, bars=bars)
        yield drawing(draw_timetable(drawn, name=f"glue-day-{day + 1}"))


def _bars(one: GlueStep, workers: int) -> Iterator[Bar]:
    placed = one.placed
    for lane, ends_min in ((placed.worker, placed.closed_min), (workers + placed.clamp, placed.ends_min)):
        yield Bar(
            lane=lane,
            begins_min=placed.starts_min,
            ends_min=ends_min,
            number=one.number,
            name=one.name,
            is_done=placed.is_glued,
        )
