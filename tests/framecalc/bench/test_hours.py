"""Hours by step: one job is no experience, a job counts once, other steps and sizes are left out."""

import pytest

from framecalc.bench.hours import MEDIUM_MM, SMALL_MM, FrameSize, Spell, WorkStep, experience, size_of_run
from framecalc.records import replace

ONE = Spell(job="a", step=WorkStep.GLUING, minutes=30, frames=1, size=FrameSize.MEDIUM)


def found(*spells: Spell) -> tuple[float, ...]:
    known = experience(spells, step=WorkStep.GLUING, size=FrameSize.MEDIUM)
    return (known.jobs, known.median_min, known.least_min, known.greatest_min) if known else ()


def test_one_job_is_no_experience_however_often_it_was_written_down() -> None:
    assert found() == found(ONE) == found(ONE, ONE) == ()
    assert found(ONE, replace(ONE, job="b", minutes=50)) == (2, 40, 30, 50)


def test_other_steps_and_other_sizes_say_nothing() -> None:
    other = replace(ONE, job="b")
    assert found(ONE, replace(other, step=WorkStep.FITTING)) == found(ONE, replace(other, size=FrameSize.SMALL)) == ()
    aside = [replace(other, job=job, minutes=500, step=WorkStep.MILLING) for job in "cd"]
    assert found(ONE, other, *aside) == (2, 30, 30, 30)


def test_a_job_takes_all_its_minutes_for_the_most_frames_that_it_had() -> None:
    spells = (replace(ONE, frames=4), replace(ONE, minutes=50, frames=2), replace(ONE, job="b", minutes=10))
    assert found(*spells) == (2, 15, 10, 20)


@pytest.mark.parametrize(
    ("run_mm", "size"),
    [
        (SMALL_MM, FrameSize.SMALL),
        (SMALL_MM + 1, FrameSize.MEDIUM),
        (MEDIUM_MM, FrameSize.MEDIUM),
        (MEDIUM_MM + 1, FrameSize.LARGE),
    ],
)
def test_a_frame_is_as_large_as_what_runs_round_it(run_mm: float, size: FrameSize) -> None:
    assert size_of_run(run_mm) is size
