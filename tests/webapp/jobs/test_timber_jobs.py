"""Cutting plans one after another: each group with what is left, nothing waits without need, a stop keeps the best."""

import json
import time
from collections import Counter
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

import framecalc
from framecalc.money import Currency
from framecalc.plan import Plan
from framecalc.project import read_project
from framecalc.search.watch import SoFar
from webapp.jobs.running import Jobs, JobState
from webapp.jobs.timber import GroupWork, work_of
from webapp.jobs.timber_search import start_jobs, stop_jobs
from webapp.pages.timber.how_good import so_far_words

RELIEF = json.loads((Path(framecalc.__file__).parent / "demos/ash-relief.demo.json").read_text("utf-8"))
LONG = {"id": "s1", "name": "ash", "length": "2400 mm", "count": 3, "in_hand": True}
SOLD = {"id": "s2", "name": "ash, sold", "length": "3000 mm", "price": "12"}


@pytest.fixture
def jobs(tmp_path: Path) -> Iterator[Jobs]:
    jobs = Jobs(tmp_path / "answers")
    yield jobs
    jobs.close()


def plan(*stock: dict[str, Any], count: int = 1, **timber: Any) -> Plan:
    """Two frames of different members, the tray of one milled from solid."""
    solid = {"ledge": "solid"}
    frames = [frame | {"count": count, "section": frame["section"] | solid} for frame in RELIEF["frames"]]
    return Plan(read_project(RELIEF | {"frames": frames, "timber": {"stock": list(stock)} | timber}))


def settled(jobs: Jobs, plan: Plan) -> tuple[GroupWork, ...]:
    for _ in range(600):
        works = work_of(jobs, plan)
        if not any(work.is_going or work.waits for work in works):
            return works
        time.sleep(0.05)
    raise AssertionError(works)


def test_groups_that_share_stock_wait_for_each_other(jobs: Jobs) -> None:
    first, second = work_of(jobs, plan(LONG))
    assert first.can_start and second.waits and not second.can_start


def test_groups_that_share_nothing_wait_for_nothing(jobs: Jobs) -> None:
    assert [work.waits for work in work_of(jobs, plan())] == [False, False]


def test_no_stick_is_taken_twice(jobs: Jobs) -> None:
    batch = plan(LONG, SOLD, count=3)
    start_jobs(jobs, batch)
    works = settled(jobs, batch)
    labels = Counter(stick.label for work in works if work.plan for stick in work.plan.sticks)
    assert all(work.plan for work in works) and max(labels.values()) == 1
    assert sum(label.startswith("ash #") for label in labels) <= 3


def test_a_group_without_a_plan_takes_nothing_from_the_next(jobs: Jobs) -> None:
    short = plan(LONG | {"length": "300 mm", "count": 4})
    start_jobs(jobs, short)
    works = settled(jobs, short)
    assert sorted(work.refusal is not None for work in works) == [False, True]
    assert all(work.plan or work.refusal for work in works)


def test_a_stop_keeps_the_best_plan_so_far(jobs: Jobs) -> None:
    batch = plan(SOLD, count=20)
    start_jobs(jobs, batch)
    stop_jobs(jobs, batch)
    works = settled(jobs, batch)
    assert all(work.plan for work in works)
    assert works[0].job is not None and works[0].job.state in (JobState.STOPPED, JobState.DONE)


@pytest.mark.parametrize(
    ("so_far", "says"),
    [
        (None, ""),
        ((None, None, "0", 3), "No plan yet. No plan takes fewer than 3 sticks."),
        (("0", 4, "0", 3), "Best so far: 4 sticks. No plan does better than 3 sticks."),
        (("38", 1, "31.5", 1), "Best so far: one stick for $38. No plan does better than one stick for $31.50."),
    ],
)
def test_how_far_a_search_is_is_said_in_words(so_far: tuple[str, int, str, int] | None, says: str) -> None:
    assert so_far_words(so_far and _so_far(*so_far), Currency()) == says


def _so_far(money: str | None, sticks: int | None, least_money: str, least_sticks: int) -> SoFar:
    spent = None if money is None else Decimal(money)
    return SoFar(money=spent, sticks=sticks, least_money=Decimal(least_money), least_sticks=least_sticks)
