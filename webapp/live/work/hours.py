"""Hours written down at the bench: by a clock that is started and stopped at a card, or typed afterwards."""

from datetime import UTC, datetime
from statistics import mean

from framecalc.bench.hours import Experience, FrameSize, Spell, WorkStep, experience, size_of_run
from framecalc.errors import FrameCalcError, OutOfRange
from framecalc.plan import Plan
from framecalc.plan.bench.timetable import duration_said
from framecalc.plan.timber.runs import long_edges_mm
from framecalc.project import items_at, read_project, with_value
from framecalc.project.bench import MOST_HOURS
from framecalc.project.document import Document
from webapp.data.revisions import Revision
from webapp.data.times import is_time
from webapp.live.desk import Desk, ProjectAtRevision, new_id

LONGEST_MIN = 24 * 60
"""A clock that ran longer was forgotten."""


def started(head: ProjectAtRevision, step: WorkStep) -> Document:
    """The document with a step being timed from now on; one that is timed already is stopped first."""
    document = stopped(head) if head.project.bench.running else head.document
    document = with_value(document, "bench.running", step.value)
    return with_value(document, "bench.running_since", datetime.now(UTC).isoformat(timespec="seconds"))


def stopped(head: ProjectAtRevision) -> Document:
    """The document with what was timed written down; a clock that was forgotten for a day is only stopped."""
    bench = head.project.bench
    document = with_value(with_value(head.document, "bench.running", None), "bench.running_since", None)
    if bench.running is None:
        return head.document
    minutes = minutes_since(bench.running_since)
    return with_spell(document, head.plan, bench.running, minutes) if 1 <= minutes <= LONGEST_MIN else document


def minutes_since(when: str) -> int:
    """Whole minutes since a time of the store, rounded up; 0 where there is none.

    >>> minutes_since(""), minutes_since("0001-01-01T00:00:00+14:00")
    (0, 0)
    """
    if not is_time(when):
        return 0
    return max(0, -(-int((datetime.now(UTC) - datetime.fromisoformat(when)).total_seconds()) // 60))


def with_spell(document: Document, plan: Plan, step: WorkStep, minutes: int) -> Document:
    """The document with minutes of work written down, beside how many frames of which size they were for."""
    spell: Document = {
        "id": new_id(),
        "step": step.value,
        "minutes": minutes,
        "frames": sum(frame.count for frame in plan.project.frames),
        "size": size_of(plan).value,
        "when": datetime.now(UTC).isoformat(timespec="seconds"),
    }
    return with_value(document, "bench.hours", [*items_at(document, "bench.hours"), spell][-MOST_HOURS:])


def size_of(plan: Plan) -> FrameSize:
    """How large the frames of a job are on the whole; medium while none can be computed."""
    runs_mm = []
    for frame in plan.frames.values():
        try:
            runs_mm.append(sum(long_edges_mm(frame, inset_mm=0.0).values()))
        except FrameCalcError:
            continue
    return size_of_run(mean(runs_mm)) if runs_mm else FrameSize.MEDIUM


def read_minutes(text: str) -> int:
    """Minutes as typed.

    Raises:
        OutOfRange: it is no whole number of minutes of a day.

    >>> read_minutes(" 45 ")
    45
    """
    if text.strip().isdecimal() and 1 <= int(text) <= LONGEST_MIN:
        return int(text)
    raise OutOfRange(f"Enter whole minutes, 1 to {LONGEST_MIN}")


def past_spells(desk: Desk, *, but: str) -> tuple[Spell, ...]:
    """What was written down in all other jobs of the shop."""
    found = desk.store.of_each(_spells).items()
    return tuple(one for project_id, spells in found if project_id != but for one in spells)


def past_said(found: Experience) -> str:
    """What a step took for one frame in past jobs: the middle, the range, and how many jobs stand behind it."""
    middle, least, most = (
        duration_said(round(minutes)) for minutes in (found.median_min, found.least_min, found.greatest_min)
    )
    return f"{middle} ({least} to {most}, {found.jobs} jobs)"


def past_by_step(desk: Desk, plan: Plan, *, but: str) -> dict[str, str]:
    """What each step took for one frame of this size in past jobs, in words; only steps with enough of them."""
    past, size = past_spells(desk, but=but), size_of(plan)
    known = {step.value: experience(past, step=step, size=size) for step in WorkStep}
    return {name: f"Past jobs, one frame: {past_said(found)}." for name, found in known.items() if found}


def _spells(project_id: str, revision: Revision) -> tuple[Spell, ...]:
    """What was written down in a job; nothing where the file is no project."""
    if not items_at(revision.document, "bench.hours"):
        return ()
    try:
        bench = read_project(revision.document).bench
    except FrameCalcError:
        return ()
    return tuple(
        Spell(job=project_id, step=one.step, minutes=one.minutes, frames=one.frames, size=one.size)
        for one in bench.hours
    )
