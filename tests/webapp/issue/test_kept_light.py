"""What the light says of a job is kept, and found anew as soon as anything changes that it follows from."""

from collections.abc import Iterator
from copy import deepcopy
from functools import partial
from pathlib import Path
from typing import Any

import pytest
from panel import PANEL_IN_INCHES

from framecalc.plan import Plan
from framecalc.project import project_with, read_project
from framecalc.records import replace
from webapp.data.rack import RackFolder
from webapp.data.shop import profile_document
from webapp.data.store import Store
from webapp.issue.issued import Shelf
from webapp.issue.job_facts import JobFacts
from webapp.issue.job_light import Lights
from webapp.issue.way import known_beside
from webapp.jobs.running import Jobs
from webapp.live.desk import Desk, new_id

UNPRICED = {"id": "q1", "name": "Glass", "group": "other", "measure": "each frame"}


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    jobs, store = Jobs(tmp_path / "jobs"), Store(tmp_path / "data")
    yield Desk(store=store, jobs=jobs, rack=RackFolder(tmp_path / "data", new_id=new_id))
    store.close()
    jobs.close()


def job() -> Plan:
    document: dict[str, Any] = deepcopy(PANEL_IN_INCHES)
    return Plan(read_project(document | {"quote": {"items": [UNPRICED], "terms": {}}}))


def facts(desk: Desk, plan: Plan, tmp_path: Path) -> JobFacts:
    shelf = Shelf(folder=tmp_path / "shares", has_project=lambda _: True)
    return JobFacts(shelf=shelf, desk=desk, project_id="aaaaaaaa", plan=plan)


def test_a_note_keeps_the_light(desk: Desk, tmp_path: Path) -> None:
    lights, plan = Lights(), job()
    noted = Plan(plan.project.model_copy(update={"note": "for the hall"}), before=plan)
    first, again = (lights.of(facts(desk, one, tmp_path)) for one in (plan, noted))
    assert [one.code for one in first] == ["costs.unpriced"]
    assert again[0] is first[0]


def test_a_price_finds_the_light_anew(desk: Desk, tmp_path: Path) -> None:
    lights, plan = Lights(), job()
    priced = Plan(project_with(plan.project, {"quote.items.q1.price": "4"}), before=plan)
    found = [lights.of(facts(desk, one, tmp_path)) for one in (plan, priced)]
    assert [[one.code for one in light] for light in found] == [["costs.unpriced"], ["costs.undated"]]


def test_what_changes_beside_the_plan_finds_it_anew(desk: Desk, tmp_path: Path) -> None:
    lights, plan = Lights(), job()
    first = lights.of(facts(desk, plan, tmp_path))
    desk.jobs.changes += 1
    again = lights.of(facts(desk, plan, tmp_path))
    assert again == first and again[0] is not first[0]
    desk.store.shop.change(lambda profile: profile_document(profile) | {"called": "Hall and Sons"})
    assert lights.of(facts(desk, plan, tmp_path))[0] is not again[0]


def test_the_oldest_lights_are_let_go(desk: Desk, tmp_path: Path) -> None:
    lights, plan, other = Lights(most=1), job(), job()
    first = lights.of(facts(desk, plan, tmp_path))
    assert lights.of(facts(desk, other, tmp_path)) == first
    assert lights.of(facts(desk, plan, tmp_path))[0] is not first[0]


def test_pages_and_the_light_of_a_request_have_one_price(desk: Desk, tmp_path: Path) -> None:
    shelf = Shelf(folder=tmp_path / "shares", has_project=lambda _: True)
    looking = replace(desk, looks_beside=partial(known_beside, shelf, Lights())).for_a_request()
    priced = job()
    assert looking.price("aaaaaaaa", priced) is looking.price("aaaaaaaa", priced)
    assert looking.price("aaaaaaaa", priced) is not looking.for_a_request().price("aaaaaaaa", priced)
    assert looking.price("aaaaaaaa", priced) == desk.price("aaaaaaaa", priced)
