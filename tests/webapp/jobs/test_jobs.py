"""Solver runs: asked for once, stoppable, remembered, never mistaken for another problem's answer."""

from collections.abc import Callable, Iterator
from decimal import Decimal
from pathlib import Path
from secrets import token_hex
from threading import Event

import pytest

from framecalc.errors import ImpossibleSize
from framecalc.records import Record
from webapp.jobs.running import Job, Jobs, JobState


class Answer(Record):
    sticks: tuple[str, ...]
    price: Decimal


FOUND = Answer(sticks=("oak 1", "oak 2"), price=Decimal("12.50"))


@pytest.fixture
def jobs(tmp_path: Path) -> Iterator[Jobs]:
    jobs = Jobs(tmp_path / "answers")
    yield jobs
    jobs.close()


def settled(jobs: Jobs, key: str) -> Job:
    """Wait until a job is over: the worker takes one at a time, so the next one starts after it."""
    after = Event()
    jobs.start(f"after-{key}-{token_hex(4)}", Answer, lambda stopped: after.set() or FOUND)
    assert after.wait(timeout=30)
    job = jobs.find(key, Answer)
    assert job is not None and not job.is_going
    return job


def test_nobody_has_asked_yet(jobs: Jobs) -> None:
    assert jobs.find("k1", Answer) is None


def test_an_answer_is_there_for_its_own_problem_only(jobs: Jobs) -> None:
    jobs.start("k1", Answer, lambda stopped: FOUND)
    assert settled(jobs, "k1").answer == FOUND
    assert jobs.find("k2", Answer) is None


def test_an_answer_that_no_file_can_hold_is_there_all_the_same(jobs: Jobs) -> None:
    half = Answer(sticks=("half a letter: \ud800",), price=Decimal(1))
    jobs.start("k1", Answer, lambda stopped: half)
    assert settled(jobs, "k1").answer == half


def test_asking_twice_works_it_out_once(jobs: Jobs) -> None:
    runs: list[str] = []

    def work(stopped: Callable[[], bool]) -> Answer:
        runs.append("run")
        return FOUND

    jobs.start("k1", Answer, work)
    jobs.start("k1", Answer, work)
    settled(jobs, "k1")
    jobs.start("k1", Answer, work)
    settled(jobs, "k1")
    assert runs == ["run"]


def test_an_answer_outlives_a_restart(jobs: Jobs, tmp_path: Path) -> None:
    jobs.start("k1", Answer, lambda stopped: FOUND)
    settled(jobs, "k1")
    again = Jobs(tmp_path / "answers")
    job = again.find("k1", Answer)
    assert job is not None and job.state is JobState.DONE and job.answer == FOUND
    again.close()


def test_a_job_that_is_called_off_hands_over_what_it_has_and_can_be_asked_again(jobs: Jobs) -> None:
    running = Event()

    def work(stopped: Callable[[], bool]) -> Answer:
        running.set()
        while not stopped():
            pass
        return FOUND

    jobs.start("k1", Answer, work)
    assert running.wait(timeout=30)
    jobs.stop("k1")
    job = settled(jobs, "k1")
    assert job.state is JobState.STOPPED and job.answer == FOUND
    jobs.start("k1", Answer, lambda stopped: FOUND)
    assert settled(jobs, "k1").state is JobState.DONE


def test_a_refusal_is_a_sentence(jobs: Jobs) -> None:
    def work(stopped: Callable[[], bool]) -> Answer:
        raise ImpossibleSize("a piece of 900 mm is longer than any stick")

    jobs.start("k1", Answer, work)
    job = settled(jobs, "k1")
    assert job.state is JobState.FAILED and "longer than any stick" in job.sentence


def test_a_file_that_cannot_be_read_counts_as_not_worked_out(jobs: Jobs, tmp_path: Path) -> None:
    (tmp_path / "answers").mkdir()
    (tmp_path / "answers/k1.json").write_text('{"sticks": 3', encoding="utf-8")
    assert jobs.find("k1", Answer) is None


def test_a_search_says_how_far_it_is_while_it_goes_on(jobs: Jobs) -> None:
    told, seen = Event(), Event()

    def work(job: Job) -> Answer:
        job.report("12 sticks so far")
        told.set()
        seen.wait(timeout=30)
        return FOUND

    jobs.start("k1", Answer, work)
    assert told.wait(timeout=30)
    job = jobs.find("k1", Answer)
    assert job is not None and job.is_going and job.so_far == "12 sticks so far"
    seen.set()
    assert settled(jobs, "k1").answer == FOUND


def test_a_job_that_was_found_stays_as_it_stood(jobs: Jobs) -> None:
    """Fault: a page read the answer, then the state; a search that ended in between was over without its answer."""
    begun, goes_on = Event(), Event()

    def work(job: Job) -> Answer:
        begun.set()
        goes_on.wait(timeout=30)
        return FOUND

    jobs.start("k1", Answer, work)
    assert begun.wait(timeout=30)
    job = jobs.find("k1", Answer)
    goes_on.set()
    settled(jobs, "k1")
    assert job is not None and (job.is_going, job.answer) == (True, None)


@pytest.mark.parametrize("fails", [False, True])
def test_what_follows_a_job_finds_its_answer_while_it_is_still_going(jobs: Jobs, fails: bool) -> None:
    found: list[Job] = []

    def work(job: Job) -> Answer:
        if fails:
            raise ImpossibleSize("a piece of 900 mm is longer than any stick")
        return FOUND

    def then() -> None:
        job = jobs.find("k1", Answer)
        assert job is not None
        found.append(job)

    jobs.start("k1", Answer, work, then=then)
    settled(jobs, "k1")
    (job,) = found
    assert job.is_going and (job.refusal is not None if fails else job.answer == FOUND)


def test_nothing_is_started_after_closing(tmp_path: Path) -> None:
    jobs = Jobs(tmp_path / "answers")
    jobs.start("k1", Answer, lambda stopped: FOUND, then=lambda: None)
    jobs.close()
    assert jobs.start("k2", Answer, lambda stopped: FOUND).state is JobState.WAITING
