"""The way through a job: every step in order, each state by what it follows from, nothing done behind a stop."""

from datetime import date
from itertools import product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.findings import Severity
from framecalc.plan import Plan
from framecalc.plan.job_light import JobPage, Obstacle
from framecalc.plan.light import Stage
from framecalc.plan.way import WAITING, BesidePlan, Searched, State, WayThrough, way_of
from framecalc.project import project_document, project_with, read_project
from framecalc.project.way import LEFT_OUT, TICKED, JobStep
from webapp.pages.projects.demos import demo, demos

WORKED_OUT = Searched(groups=1, worked_out=1, says="Buy 1 stick")
ALL_DONE = BesidePlan(
    sticks=WORKED_OUT,
    sheets=WORKED_OUT,
    cut=1,
    was_cut=True,
    price="$120.00",
    is_priced=True,
    approved="Approved Nov 27, 2026",
)
BY_PLAN = (JobStep.MEASURE, JobStep.SET_OUT, JobStep.PACKAGE, JobStep.JOINT)


def cafe(way: dict[str, Any] | None = None, **more: Any) -> Plan:
    """The plan of a demo project with another way."""
    document = demo("cafe-prints.demo") | ({"way": way} if way else {}) | more
    return Plan(read_project(document))


def states(way: WayThrough) -> dict[JobStep, State]:
    return {one.step: one.state for one in way.steps}


def obstacle(page: JobPage, *, severity: Severity = Severity.STOP, code: str = "x") -> Obstacle:
    return Obstacle(stage=Stage.CUTTING, page=page, code=code, severity=severity, sentence="It is so.", anchor="here")


@pytest.mark.parametrize("name", demos())
def test_every_step_stands_once_in_the_order_of_work(name: str) -> None:
    way = way_of(Plan(read_project(demo(name))), BesidePlan())
    assert [one.step for one in way.steps] == list(JobStep)


def test_what_the_plan_holds_is_done_and_told_by_a_number() -> None:
    way = way_of(cafe(), BesidePlan())
    assert {states(way)[step] for step in BY_PLAN} == {State.DONE}
    says = {one.step: one.says for one in way.steps}
    assert says[JobStep.MEASURE] == "280 × 200 mm"
    assert says[JobStep.SET_OUT] == "Outside 433 × 365 mm"
    assert says[JobStep.PACKAGE] == "Room behind: 4.2 mm"
    assert says[JobStep.CUT] == "20 sides"  # five frames alike
    assert says[JobStep.HANG] == "Over 1.52 kg: weigh it"  # the print has no weight in the tables
    assert way.next is not None and way.next.step is JobStep.SHOW


def test_an_assumed_value_is_to_be_checked_at_its_step_and_leads_to_its_field() -> None:
    path = "frames.oak5.artwork.across"
    way = way_of(cafe(assumed=[path, "shop.kerf"]), BesidePlan())
    assert (way.of(JobStep.MEASURE).state, way.of(JobStep.MEASURE).says) == (State.CHECK, "1 value assumed")
    assert way.of(JobStep.MEASURE).lead.field == path
    assert way.of(JobStep.SET_OUT).lead.field == "shop.kerf"
    assert way.of(JobStep.PACKAGE).state is State.DONE


def test_a_stop_holds_up_what_the_plan_alone_would_call_done() -> None:
    project = project_with(read_project(demo("cafe-prints.demo")), {"frames.oak5.section.rabbet_depth": "19.5 mm"})
    way = way_of(Plan(project), ALL_DONE)
    stopped = next(one for one in way.steps if one.state is State.STOP)
    assert stopped.step in (JobStep.SET_OUT, JobStep.PACKAGE) and stopped.says
    behind = way.steps[list(JobStep).index(stopped.step) + 1 :]
    assert [one.step for one in behind if one.state is State.DONE] == [JobStep.CUT]  # a person has marked it as cut


@pytest.mark.parametrize(
    ("page", "step"),
    [(JobPage.TIMBER, JobStep.STOCK), (JobPage.SHEETS, JobStep.SHEETS), (JobPage.COSTS, JobStep.PRICE)],
)
def test_what_stops_the_job_stops_its_step(page: JobPage, step: JobStep) -> None:
    way = way_of(cafe(), BesidePlan(obstacles=(obstacle(page),)))
    assert (way.of(step).state, way.of(step).says) == (State.STOP, "It is so.")
    assert (way.of(step).lead.page, way.of(step).lead.anchor) == (page, "here")


def test_a_warning_stops_nothing() -> None:
    way = way_of(cafe(), BesidePlan(obstacles=(obstacle(JobPage.TIMBER, severity=Severity.WARN),)))
    assert State.STOP not in states(way).values()


@pytest.mark.parametrize(
    ("beside", "step", "state"),
    [
        (BesidePlan(), JobStep.SHOW, State.OPEN),
        (BesidePlan(approved="Approved"), JobStep.SHOW, State.DONE),
        (
            BesidePlan(
                approved="Approved",
                obstacles=(obstacle(JobPage.CLIENT, severity=Severity.WARN, code="client.changed"),),
            ),
            JobStep.SHOW,
            State.CHECK,
        ),
        (BesidePlan(price="$1", is_priced=False), JobStep.PRICE, State.OPEN),
        (BesidePlan(price="$1", is_priced=True), JobStep.PRICE, State.DONE),
        (BesidePlan(sticks=Searched(groups=2, worked_out=1)), JobStep.STOCK, State.OPEN),
        (BesidePlan(sticks=WORKED_OUT), JobStep.STOCK, State.DONE),
        (BesidePlan(sticks=Searched(groups=1, worked_out=1, estimates=1)), JobStep.STOCK, State.CHECK),
        (BesidePlan(), JobStep.SHEETS, State.NOT_NEEDED),
        (BesidePlan(sheets=Searched(groups=1)), JobStep.SHEETS, State.OPEN),
        (BesidePlan(sticks=WORKED_OUT, cut=1, was_cut=True), JobStep.CUT, State.DONE),
        (BesidePlan(sticks=WORKED_OUT, cut=0, was_cut=True), JobStep.CUT, State.CHECK),
        (BesidePlan(sticks=Searched(groups=1), cut=1, was_cut=True), JobStep.STOCK, State.DONE),
        (BesidePlan(sticks=WORKED_OUT, cut=1, was_cut=True), JobStep.TEST_CUT, State.NOT_NEEDED),
    ],
)
def test_a_state_follows_from_what_is_known_beside_the_plan(beside: BesidePlan, step: JobStep, state: State) -> None:
    assert way_of(cafe(), beside).of(step).state is state


def test_wood_that_was_bought_milled_is_not_milled_again() -> None:
    document = demo("cafe-prints.demo")
    document["timber"]["milled"] = True
    assert way_of(Plan(read_project(document)), BesidePlan()).of(JobStep.MILL).state is State.NOT_NEEDED


@pytest.mark.parametrize(
    ("sale", "not_here"),
    [
        ("sticks by the metre", {JobStep.MILL}),
        ("cut to size by the metre", {JobStep.MILL, JobStep.TEST_CUT, JobStep.CUT}),
        ("joined by the frame", {JobStep.MILL, JobStep.TEST_CUT, JobStep.CUT, JobStep.JOIN}),
    ],
)
def test_what_the_supplier_of_a_moulding_does_is_no_work_of_the_shop(sale: str, not_here: set[JobStep]) -> None:
    """Fault: chops that come mitred were to be milled, tried on the saw and cut."""
    document = demo("cafe-prints.demo")
    document["frames"][0]["section"] |= {"source": "bought", "moulding": {"name": "No. 7", "sale": sale}}
    way = way_of(Plan(read_project(document)), BesidePlan())
    steps = (JobStep.MILL, JobStep.TEST_CUT, JobStep.CUT, JobStep.JOIN)
    assert {step for step in steps if way.of(step).state is State.NOT_NEEDED} == not_here


def test_the_day_it_is_due_stands_at_the_end_in_the_words_of_the_shop() -> None:
    plan = cafe({"due": "2026-12-12"})
    assert plan.project.way.due == date(2026, 12, 12)
    assert way_of(plan, BesidePlan()).of(JobStep.HAND_OVER).says == "Due Dec 12, 2026"


def test_all_done_leads_nowhere() -> None:
    ticked = {"done": [step.value for step in JobStep if step in TICKED], "left_out": [JobStep.TEST_CUT.value]}
    way = way_of(cafe(ticked), ALL_DONE)
    assert way.next is None
    assert way.worst_of(JobStep) is State.DONE


def test_an_old_file_has_nothing_ticked() -> None:
    document = demo("cafe-prints.demo")
    old = {name: value for name, value in document.items() if name not in ("way", "client")}
    project = read_project(old)
    assert (project.client, project.way.due, project.way.done) == ("", None, ())
    assert project_document(project) == document


steps = st.sets(st.sampled_from(sorted(JobStep)))
besides = st.builds(
    BesidePlan,
    obstacles=st.lists(
        st.builds(obstacle, st.sampled_from(JobPage), severity=st.sampled_from(Severity)), max_size=4
    ).map(tuple),
    sticks=st.builds(Searched, groups=st.integers(0, 2), worked_out=st.integers(0, 2), estimates=st.integers(0, 1)),
    sheets=st.builds(Searched, groups=st.integers(0, 2), worked_out=st.integers(0, 2), estimates=st.integers(0, 1)),
    cut=st.integers(0, 2),
    was_cut=st.booleans(),
    is_priced=st.booleans(),
    approved=st.sampled_from(["", "Approved"]),
)


@given(done=steps, left_out=steps, beside=besides, depth=st.sampled_from(["9.5 mm", "12.5 mm", "19.5 mm"]))
def test_nothing_behind_a_stop_is_done_unless_hands_say_so(
    done: set[JobStep], left_out: set[JobStep], beside: BesidePlan, depth: str
) -> None:
    document = demo("cafe-prints.demo")
    document["frames"][0]["section"]["rabbet_depth"] = depth
    document["way"] = {"done": sorted(done & TICKED), "left_out": sorted(left_out & LEFT_OUT)}
    way = way_of(Plan(read_project(document)), beside)
    for earlier, later in product(way.steps, way.steps):
        if list(JobStep).index(earlier.step) < list(JobStep).index(later.step) and earlier.state is State.STOP:
            assert later.state is not State.DONE or later.by_hand, (earlier, later)
    assert all(way.of(step).state is State.DONE for step in done & TICKED)
    waiting = [one for one in way.steps if one.state in WAITING]
    assert way.next == (None if JobStep.HAND_OVER in done else waiting[0])
