"""The job page: opening a project leads there; its fields, its ticks, where its steps lead, and the menu of a job."""

from datetime import date, timedelta
from typing import Any
from urllib.parse import urlsplit

import httpx
import pytest
from pages import Browser, Element, read, sent_by

from framecalc.project.way import LEFT_OUT, TICKED, JobStep
from webapp.pages.job.ticks import Wanted, with_step
from webapp.pages.projects.demos import demo, demos


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.fixture
def job(browser: Browser) -> str:
    """The address of a job."""
    return f"/projects/{browser.new(name='Ellis wedding')}"


def way_of(browser: Browser, job: str) -> dict[str, Any]:
    found: dict[str, Any] = browser.document(job.rsplit("/", 1)[1])["way"]
    return found


def step(page: Element, name: str) -> Element:
    return page.by_id(f"step-{name}")


def state(page: Element, name: str) -> str:
    return step(page, name).attributes["class"].split()[1]


def test_a_new_project_opens_on_its_job_page(browser: Browser, job: str) -> None:
    page = browser.get(job)
    assert page.by_id("main").all("h1")[0].text == "Ellis wedding"
    assert [one.attributes["id"] for one in page.by_id("way").all("li")] == [f"step-{one.value}" for one in JobStep]
    assert page.by_id("next").text.startswith("Next Confirm")


def test_the_fronts_are_true_to_each_other(browser: Browser) -> None:
    answer = browser.post("/projects/demos/ash-relief.demo")
    page = browser.get(answer.headers["location"])
    boxes = [one.attributes["viewBox"].split() for one in page.by_id("main").all("svg") if "drawing" in _class(one)]
    (large_across, large_up), (small_across, small_up) = ((float(box[2]), float(box[3])) for box in boxes)
    assert large_up == small_up  # shown at one height, so at one scale
    assert (small_across - 1) / (large_across - 1) == pytest.approx(184 / 350, abs=0.001)
    assert "350 × 486" in page.by_id("main").text.replace("\xa0", " ")


def _class(element: Element) -> str:
    return element.attributes.get("class", "")


def test_whom_it_is_for_and_when_it_is_due_are_typed_and_told(browser: Browser, job: str) -> None:
    due = date.today() + timedelta(days=13)
    assert browser.type(job, {"client": "Nora Ellis", "way.due": due.isoformat()}).status_code == 303
    about = browser.get(job).by_id("about").text
    assert "Nora Ellis" in about and "in 13 days" in about
    assert browser.get(f"{job}/client").by_id("for-whom").attributes["value"] == "Nora Ellis"


def test_a_day_that_is_none_stays_with_its_sentence(browser: Browser, job: str) -> None:
    answer = browser.post(job, sent_by(browser.get(job)) | {"way.due": "soon", "do": "save"})
    assert answer.status_code == 422
    page = read(answer.text)
    assert page.by_id("slot-way-due").text
    assert "due" not in way_of(browser, job)


def test_a_tick_says_what_is_wanted_and_never_flips(browser: Browser, job: str) -> None:
    for _ in range(2):
        assert browser.post(f"{job}/way/mill", {"do": "done"}).status_code == 303
        assert way_of(browser, job)["done"] == ["mill"]
    assert state(browser.get(job), "mill") == "done"
    for _ in range(2):
        browser.post(f"{job}/way/mill", {"do": "open"})
        assert way_of(browser, job)["done"] == []


def test_ticks_from_two_browsers_go_in_beside_each_other_and_beside_fields(browser: Browser, job: str) -> None:
    before = sent_by(browser.get(job))
    browser.post(f"{job}/way/hang", {"do": "done", "tab": "b"})
    browser.post(f"{job}/way/mill", {"do": "done", "tab": "a"})
    assert browser.post(job, before | {"client": "Nora Ellis", "do": "save"}).status_code == 303
    assert way_of(browser, job)["done"] == ["mill", "hang"]
    assert browser.document(job.rsplit("/", 1)[1])["client"] == "Nora Ellis"


def test_a_step_is_left_out_and_wanted_again(browser: Browser, job: str) -> None:
    browser.post(f"{job}/way/price", {"do": "left-out"})
    page = browser.get(job)
    assert state(page, "price") == "not-needed"
    (button,) = step(page, "price").all("button")
    browser.post(button.attributes["formaction"], {"do": button.attributes["value"]})
    assert way_of(browser, job)["left_out"] == []


@pytest.mark.parametrize(("name", "do"), [("measure", "done"), ("price", "done"), ("cut", "left-out"), ("mill", "x")])
def test_what_a_step_cannot_be_changes_nothing(browser: Browser, job: str, name: str, do: str) -> None:
    assert browser.post(f"{job}/way/{name}", {"do": do}).status_code == 303
    assert browser.document(job.rsplit("/", 1)[1])["way"] == {"done": [], "left_out": []}


def test_a_step_that_is_none_is_not_there(browser: Browser, job: str) -> None:
    assert browser.post(f"{job}/way/varnish", {"do": "done"}).status_code == 404


@pytest.mark.parametrize("wanted", Wanted)
@pytest.mark.parametrize("one", JobStep)
def test_asking_twice_is_asking_once(one: JobStep, wanted: Wanted) -> None:
    document = demo("cafe-prints.demo")
    once = with_step(document, one, wanted)
    assert with_step(once, one, wanted) == once
    assert (one.value in once["way"]["done"]) == (wanted is Wanted.DONE and one in TICKED)
    assert (one.value in once["way"]["left_out"]) == (wanted is Wanted.LEFT_OUT and one in LEFT_OUT)
    assert document == demo("cafe-prints.demo")


def test_what_is_bought_has_its_price_in_the_money_of_the_job(browser: Browser) -> None:
    at = browser.post("/projects/demos/cafe-prints.demo").headers["location"]
    assert "Buy 1 board, €38" in browser.get(at).by_id("way").text


@pytest.mark.parametrize("name", demos())
def test_every_step_leads_to_a_place_that_is_there(browser: Browser, name: str) -> None:
    at = browser.post(f"/projects/demos/{name}").headers["location"]
    links = [link.attributes["href"] for link in browser.get(at).by_id("way").all("a")]
    assert len(links) == len(JobStep)
    for href in links:
        page, anchor = browser.get(href), urlsplit(href).fragment
        assert not anchor or page.by_id(anchor)


def test_a_frame_that_cannot_be_worked_out_stops_its_step_and_leads_to_its_field(browser: Browser, job: str) -> None:
    browser.type(browser.setting_out(job.rsplit("/", 1)[1]), {"section.rabbet_width": "200", "section.face_width": "9"})
    page = browser.get(job)
    assert state(page, "set-out") == "stop"
    (link,) = page.by_id("next").all("a")
    assert "/setting-out#" in link.attributes["href"]
    assert browser.get("/").by_id(f"project-{job.rsplit('/', 1)[1]}")


def test_a_copy_is_at_the_start_of_its_way(browser: Browser, job: str) -> None:
    browser.post(f"{job}/way/mill", {"do": "done"})
    browser.type(job, {"way.due": "2026-12-12", "client": "Nora Ellis"})
    copy = browser.post(f"{job}/copy").headers["location"]
    assert way_of(browser, copy) == {"done": [], "left_out": []}


def test_the_menu_has_three_groups_each_entry_with_its_state(browser: Browser, job: str) -> None:
    page = browser.get(browser.setting_out(job.rsplit("/", 1)[1]))
    (row,) = page.all("nav", **{"aria-label": "Pages of this project"})
    groups = [one for one in row.all("div")]
    said = [[link.text.split(":")[0] for link in one.all("a")] for one in groups]
    made = ["Lumber", "Sheets", "Bench", "Templates"]
    assert said == [["Setting-out", "Package", "Corners"], made, ["Look", "Costs", "Client", "Wall"]]
    without = [one.text for one in row.all("a") if not one.all("svg")]
    assert without == ["Templates"]  # nothing is decided there: its files follow from the plan
    marks = [one.all("svg")[0].attributes["class"].split()[1] for one in row.all("a") if one.text not in without]
    assert marks[0] == "check" and set(marks) <= {"done", "open", "check", "stop", "not-needed"}
    (current,) = row.all("a", **{"aria-current": "page"})
    assert current.text.startswith("Setting-out")
    (phone,) = page.all("details", **{"class": "all-pages"})
    assert [one.attributes["href"] for one in phone.all("a")] == [
        job, *(one.attributes["href"] for one in row.all("a"))
    ]  # fmt: skip


def test_the_name_of_the_project_leads_to_the_job(browser: Browser, job: str) -> None:
    for address in (f"{job}/timber", f"{job}/costs", browser.setting_out(job.rsplit("/", 1)[1])):
        (name,) = [one for one in browser.get(address).all("a") if one.text == "Ellis wedding"]
        assert name.attributes["href"] == job


def test_a_save_renews_the_marks_of_the_menu(browser: Browser, job: str) -> None:
    address = f"{job}/costs"
    browser.type(address, {}, do="add-item")
    sent = sent_by(browser.get(address))
    (price,) = [name for name in sent if name.endswith(".price")]
    headers = {"HX-Request": "true", "HX-Request-Type": "partial"}
    answer = read(browser.post(address, sent | {price: "120", "do": "save"}, headers=headers).text)
    menu = next(one for one in answer.all("hx-partial") if one.attributes["hx-target"] == "#pages")
    (costs,) = [one for one in read(menu.node.html or "").walk() if _class(one) == "pages"]
    entry = next(one for one in costs.all("a") if one.text == "Costs")
    assert entry.all("svg")[0].attributes["class"].split()[1] in ("done", "open")
    assert menu.by_id("pages")
