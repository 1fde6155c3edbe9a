"""A client opens their link and asks for a change; the shop reads it where it looks, until a new link is sent."""

from typing import Any

import httpx
import pytest
from pages import Browser, read
from shared import Job, start_job


@pytest.fixture
def job(lan_app: Any) -> Job:
    return start_job(lan_app)


def ask(far: httpx.Client, secret: str, change: str = "Could it be wider?", name: str = "Ada") -> httpx.Response:
    return far.post(f"/view/{secret}/ask", data={"name": name, "change": change})


def test_a_note_instead_of_a_yes_is_read_on_the_job_page_and_in_the_light(
    job: Job, far: httpx.Client, here: httpx.Client
) -> None:
    secret, _ = job.share()
    assert ask(far, secret).status_code == 303
    page = read(far.get(f"/view/{secret}").text)
    assert "Could it be wider?" in page.by_id("asked").text and page.by_id("yes")
    browser = Browser(here)
    owner = browser.get(f"/projects/{job.project_id}")
    assert "change asked for" in owner.by_id("step-show").text
    assert "Ada asks: “Could it be wider?”" in owner.text
    assert "Could it be wider?" in browser.get(f"/projects/{job.project_id}/client").by_id("links").text
    job.share()
    assert "asks" not in browser.get(f"/projects/{job.project_id}").text


def test_only_a_client_opens_a_link(job: Job, far: httpx.Client, here: httpx.Client) -> None:
    secret, _ = job.share()
    here.get(f"/view/{secret}")
    shelf = job.app.state.shelf
    assert not shelf.of_project(job.project_id)[0].opened
    far.get(f"/view/{secret}")
    (share,) = shelf.of_project(job.project_id)
    assert share.opened and share.content_hash
    shows = Browser(here).get(f"/projects/{job.project_id}").by_id("step-show").text
    assert ", opened " in shows and "Opened" in Browser(here).get(f"/projects/{job.project_id}/client").text
    far.get(f"/view/{secret}")
    assert shelf.of_project(job.project_id)[0].opened == share.opened


@pytest.mark.parametrize(("name", "change", "says"), [("", "x", "Enter your name"), ("Ada", " ", "what to change")])
def test_a_note_of_nobody_or_of_nothing_is_asked_back(
    job: Job, far: httpx.Client, name: str, change: str, says: str
) -> None:
    secret, _ = job.share()
    answer = ask(far, secret, change=change, name=name)
    assert answer.status_code == 422 and says in answer.text
    assert read(answer.text).by_id("asked-by").attributes["value"] == name
    assert job.app.state.shelf.of_project(job.project_id)[0].asked == ()


def test_after_a_yes_nothing_is_asked_for(job: Job, far: httpx.Client) -> None:
    secret, _ = job.share()
    far.post(f"/view/{secret}/approve", data={"name": "Ada", "note": ""})
    assert ask(far, secret).status_code == 409


def test_a_yes_tells_what_comes_next_in_the_words_of_the_shop(job: Job, far: httpx.Client, here: httpx.Client) -> None:
    words = {"called": "Corner & Co.", "contact": "Old Slip 3", "how_to_pay": "By transfer.", "after_yes": "We call."}
    Browser(here).post("/shop", words | {"do": "save"})
    document = job.document()
    job.save(document | {"way": document["way"] | {"due": "2026-12-18"}})
    secret, share = job.share()
    deposit = next(row.text for row in share.issued.prices if row.is_deposit)
    assert "Old Slip 3" in far.get(f"/view/{secret}").text
    far.post(f"/view/{secret}/approve", data={"name": "Ada", "note": ""})
    thanks = read(far.get(f"/view/{secret}").text).by_id("approved").text
    assert thanks.startswith("Thank you, Ada.") and deposit in thanks
    assert all(word in thanks for word in ("By transfer.", "We call.", "Dec 18, 2026"))
