"""Hours by step: what work really took in past jobs, for one frame of about this size.

A *job* counts once for each step, with all that was written down of it. One job is no experience: nothing is said
before two stand behind it.
"""

from collections.abc import Iterable
from enum import StrEnum
from statistics import median

from framecalc.records import Record

FEWEST_JOBS = 2
"""Fewer are no experience. Source: derived: a range needs two."""


class WorkStep(StrEnum):
    """The steps that a shop keeps its hours by, as they stand in a quote."""

    MILLING = "Milling and cutting"
    GLUING = "Gluing up"
    FINISHING = "Sanding and finishing"
    FITTING = "Fitting and hanging hardware"


class FrameSize(StrEnum):
    """How large the frames of a job are, by what runs round one."""

    SMALL = "small"
    MEDIUM = "medium"
    LARGE = "large"


SMALL_MM, MEDIUM_MM = 1500.0, 3000.0
"""As much runs round a frame at most that is small, or medium. Source: common practice, no source."""


def size_of_run(run_mm: float) -> FrameSize:
    """How large a frame is by the length that runs round it.

    Source: common practice, no source.

    >>> size_of_run(1400).value, size_of_run(3500).value
    ('small', 'large')
    """
    return FrameSize.SMALL if run_mm <= SMALL_MM else FrameSize.MEDIUM if run_mm <= MEDIUM_MM else FrameSize.LARGE


class Spell(Record):
    """Work written down: of which job, which step, how long, for how many frames of which size."""

    job: str
    step: WorkStep
    minutes: int
    frames: int
    size: FrameSize


class Experience(Record):
    """What a step took for one frame: the median and the range [min], and how many jobs stand behind it."""

    step: WorkStep
    jobs: int
    median_min: float
    least_min: float
    greatest_min: float


def experience(spells: Iterable[Spell], *, step: WorkStep, size: FrameSize) -> Experience | None:
    """What a step took for one frame of this size in past jobs; None before two jobs.

    Source: derived.

    >>> past = [Spell(job=job, step=WorkStep.GLUING, minutes=m, frames=2, size=FrameSize.SMALL) for job, m in
    ...         (("a", 40), ("a", 20), ("b", 80), ("c", 50))]
    >>> found = experience(past, step=WorkStep.GLUING, size=FrameSize.SMALL)
    >>> found.jobs, found.median_min, found.least_min, found.greatest_min
    (3, 30.0, 25.0, 40.0)
    """
    minutes: dict[str, int] = {}
    frames: dict[str, int] = {}
    for spell in spells:
        if spell.step is step and spell.size is size:
            minutes[spell.job] = minutes.get(spell.job, 0) + spell.minutes
            frames[spell.job] = max(frames.get(spell.job, 1), spell.frames)
    each_min = [minutes[job] / frames[job] for job in minutes]
    if len(each_min) < FEWEST_JOBS:
        return None
    return Experience(
        step=step,
        jobs=len(each_min),
        median_min=median(each_min),
        least_min=min(each_min),
        greatest_min=max(each_min),
    )
