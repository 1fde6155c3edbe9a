"""Searches in turn: one for each page of a project, the newer calls the older off, a stop does not wait its turn."""

from collections.abc import Iterator
from pathlib import Path
from threading import Event

import pytest

from framecalc.records import Record
from webapp.jobs.running import MOST_KEPT, Job, Jobs, JobState
from webapp.jobs.turns import Search, Turns

PATIENCE_S = 30


class Answer(Record):
    says: str


class Bench:
    """Jobs whose work goes on until it is called off, or let go; says which have begun, in their order."""

    def __init__(self, folder: Path) -> None:
        self.jobs = Jobs(folder)
        self.begun: list[str] = []
        self.running: dict[str, Event] = {}
        self.enough: dict[str, Event] = {}
        self.over: dict[str, Event] = {}

    def ask(self, project: str, *keys: str, page: str = "timber") -> Search:
        search = self.jobs.search(project, page=page, keys=keys)
        for key in keys:
            self.start(search, key)
        return search

    def start(self, search: Search, key: str) -> Job:
        for events in (self.running, self.enough, self.over):
            events.setdefault(key, Event())
        return self.jobs.start(key, Answer, lambda job: self._work(job, key), then=self.over[key].set, search=search)

    def _work(self, job: Job, key: str) -> Answer:
        self.begun.append(key)
        self.running[key].set()
        while not job() and not self.enough[key].wait(timeout=0.005):
            pass
        return Answer(says="stopped" if job() else "whole")

    def runs(self, key: str) -> bool:
        return self.running[key].wait(timeout=PATIENCE_S)

    def let_go(self, key: str) -> None:
        self.enough[key].set()
        assert self.over[key].wait(timeout=PATIENCE_S)

    def answer(self, key: str) -> str | None:
        job = self.jobs.find(key, Answer)
        return job.answer.says if job and job.answer else None


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Bench]:
    bench = Bench(tmp_path / "answers")
    yield bench
    bench.jobs.close()


def test_projects_take_turns(bench: Bench) -> None:
    bench.ask("a", "a1", "a2", "a3")
    assert bench.runs("a1")
    bench.ask("b", "b1", "b2")
    for key in ("a1", "a2", "b1", "a3", "b2"):
        bench.enough[key].set()
    assert all(event.wait(timeout=PATIENCE_S) for event in bench.over.values())
    assert bench.begun == ["a1", "a2", "b1", "a3", "b2"]


def test_a_newer_search_calls_the_older_one_off(bench: Bench) -> None:
    bench.ask("a", "old1", "old2")
    assert bench.runs("old1")
    bench.ask("a", "new")
    assert bench.runs("new")
    assert "old2" not in bench.begun and bench.jobs.find("old2", Answer) is None
    bench.let_go("new")
    assert bench.answer("new") == "whole"


def test_what_the_newer_search_asks_for_too_goes_on(bench: Bench) -> None:
    bench.ask("a", "same", "old")
    assert bench.runs("same")
    bench.ask("a", "same", "new")
    bench.let_go("same")
    assert bench.runs("new")
    assert bench.answer("same") == "whole" and "old" not in bench.begun


def test_another_page_and_another_project_search_on(bench: Bench) -> None:
    bench.ask("a", "wood")
    assert bench.runs("wood")
    bench.ask("a", "glass", page="sheets")
    bench.ask("b", "other")
    for key in ("wood", "glass", "other"):
        bench.let_go(key)
        assert bench.answer(key) == "whole"


def test_what_another_project_asks_for_too_goes_on(bench: Bench) -> None:
    bench.ask("a", "same")
    assert bench.runs("same")
    bench.ask("b", "same")
    bench.ask("a", "new")
    bench.enough["same"].set()
    assert bench.runs("new") and bench.answer("same") == "whole"


def test_two_projects_that_ask_for_the_same_are_both_told(bench: Bench) -> None:
    told = Event()
    bench.ask("a", "same")
    assert bench.runs("same")
    bench.jobs.start("same", Answer, bench.answer, then=told.set, search=bench.ask("b"))
    bench.let_go("same")
    assert told.wait(timeout=PATIENCE_S)


def test_nothing_follows_a_search_that_is_outdated(bench: Bench) -> None:
    old = bench.ask("a", "old")
    assert bench.runs("old")
    bench.ask("a", "new")
    assert bench.runs("new") and not bench.over["old"].is_set()
    assert bench.start(old, "old2").state is JobState.STOPPED
    bench.let_go("new")
    assert bench.begun == ["old", "new"]


def test_a_stop_does_not_wait_behind_another_project(bench: Bench) -> None:
    bench.ask("a", "long")
    assert bench.runs("long")
    bench.ask("b", "b1", "b2")
    bench.jobs.stop_search("b", page="timber")
    assert bench.over["b1"].wait(timeout=PATIENCE_S) and bench.over["b2"].wait(timeout=PATIENCE_S)
    assert bench.answer("b1") == bench.answer("b2") == "stopped"
    assert not bench.over["long"].is_set()


def test_a_stop_ends_what_runs_and_what_is_asked_for_after_it(bench: Bench) -> None:
    search = bench.ask("a", "first")
    assert bench.runs("first")
    bench.jobs.stop_search("a", page="timber")
    bench.start(search, "follows")
    assert bench.over["first"].wait(timeout=PATIENCE_S) and bench.over["follows"].wait(timeout=PATIENCE_S)
    assert bench.answer("first") == bench.answer("follows") == "stopped"


def test_what_was_stopped_can_be_asked_for_before_it_has_ended(bench: Bench) -> None:
    bench.ask("a", "long")
    assert bench.runs("long")
    bench.jobs.stop_search("a", page="timber")
    bench.ask("a", "long")
    bench.let_go("long")
    job = bench.jobs.find("long", Answer)
    while job and job.is_going:
        job = bench.jobs.find("long", Answer)
    assert job and job.state is JobState.DONE and job.answer.says == "whole"


def test_jobs_that_are_over_are_not_all_remembered(bench: Bench) -> None:
    for number in range(MOST_KEPT + 20):
        bench.enough[f"k{number}"] = Event()
        bench.enough[f"k{number}"].set()
    bench.ask("a", *bench.enough)
    assert bench.over[f"k{MOST_KEPT + 19}"].wait(timeout=PATIENCE_S)
    bench.ask("a", "one", "two", "three")
    assert bench.runs("one")
    assert bench.answer("k0") == "whole"  # from its file


def test_searches_that_are_over_are_not_all_remembered_and_one_that_goes_on_is(bench: Bench) -> None:
    """Fault: a search was kept for every project that there ever was, for as long as the server ran."""
    bench.ask("first", "goes on")
    assert bench.runs("goes on")
    for number in range(MOST_KEPT + 20):
        bench.ask(f"p{number}")
    assert len(bench.jobs._searches) == MOST_KEPT
    bench.ask("first", "newer")
    assert bench.runs("newer"), "the only lane is free: the one that went on was called off"


def test_turns_forget_nobody_and_nothing_twice() -> None:
    turns: Turns[str] = Turns()
    for thing in ("a1", "a2", "b1", "c1", "a3"):
        turns.put(thing, project=thing[0])
    assert turns.take_out("c1".__eq__) == "c1" and turns.take_out("c1".__eq__) is None
    assert [turns.next() for _ in range(5)] == ["a1", "b1", "a2", "a3", None]
