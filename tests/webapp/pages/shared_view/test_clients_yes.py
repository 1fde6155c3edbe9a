"""The yes of a client: what is kept of it, what it is tied to, and what changed since."""

from time import sleep
from typing import Any

import httpx
import pytest
from pages import read
from shared import Job, yes

from framecalc.plan import Plan
from webapp.issue.issued import content_hash
from webapp.issue.issuing import price_rows, since_issued
from webapp.issue.shares import revoke
from webapp.jobs.timber import work_of
from webapp.jobs.timber_search import start_jobs
from webapp.server.rates import RATES


def test_a_yes_is_kept_with_name_day_note_and_what_it_was_said_to(job: Job, far: httpx.Client) -> None:
    secret, share = job.share()
    assert yes(far, secret, note="Please hurry.").status_code == 303
    (kept,) = job.app.state.shelf.of_project(job.project_id)
    assert kept.approval and (kept.approval.name, kept.approval.note) == ("Ada Client", "Please hurry.")
    assert kept.approval.content_hash == share.content_hash
    page = read(far.get(f"/view/{secret}").text)
    assert "Ada Client" in page.by_id("approved").text and not page.all("form")


def test_a_yes_is_given_once_for_each_revision(job: Job, far: httpx.Client) -> None:
    (first, _), (second, _) = job.share(), job.share()
    yes(far, first)
    assert yes(far, first, name="Somebody else").status_code == 409
    answer = yes(far, second, name="Somebody else")
    assert answer.status_code == 409 and "approved already" in answer.text and "Ada Client" not in answer.text
    document = job.document()
    job.save(document | {"note": "another revision"})
    third, _ = job.share()
    assert yes(far, third).status_code == 303


@pytest.mark.parametrize(
    ("name", "note", "says"),
    [
        ("", "", "Enter your name"),
        ("\x00 \u202e", "", "Enter your name"),
        ("x" * 121, "", "120"),
        ("Ada", "x" * 501, "500"),
    ],
)
def test_a_yes_without_a_name_or_with_too_many_letters_is_asked_back(
    job: Job, far: httpx.Client, name: str, note: str, says: str
) -> None:
    secret, _ = job.share()
    answer = yes(far, secret, name=name, note=note)
    assert answer.status_code == 422 and says in answer.text
    assert not any(share.approval for share in job.app.state.shelf.of_project(job.project_id))


def test_500_letters_are_taken_however_lines_end(job: Job, far: httpx.Client) -> None:
    secret, _ = job.share()
    assert yes(far, secret, note="x" * 249 + "\r\n" + "y" * 250).status_code == 303


def test_saying_yes_again_and_again_is_slowed_down_and_what_was_typed_stays(job: Job, far: httpx.Client) -> None:
    secret, _ = job.share()
    answers = [yes(far, secret, name="", note="Lovely.") for _ in range(RATES["approve"].tries + 1)]
    assert answers[0].status_code == 422 and answers[-1].status_code == 429
    page = read(answers[-1].text)
    assert "tried too often" in page.by_id("yes").text and page.by_id("note").text == "Lovely."
    assert not any(share.approval for share in job.app.state.shelf.of_project(job.project_id))


@pytest.mark.parametrize(
    "sent",
    [
        {"json": {"name": "Ada"}},
        {"files": {"name": ("x.txt", b"Ada")}},
        {"content": b"name=%00%1b&note=%ff", "headers": {"Content-Type": "application/x-www-form-urlencoded"}},
        {"data": {"name": ["", ""], "note": ["1", "2"], "content_hash": "0" * 64}},
        {"content": b""},
    ],
    ids=["json", "a file", "no text", "twice", "nothing"],
)
def test_what_is_no_answer_changes_nothing(job: Job, far: httpx.Client, sent: dict[str, Any]) -> None:
    secret, _ = job.share()
    assert 400 <= far.post(f"/view/{secret}/approve", **sent).status_code < 500
    assert not any(share.approval for share in job.app.state.shelf.of_project(job.project_id))


@pytest.mark.parametrize("origin", ["http://evil.test", "null", "http://shop.test:1", None])
def test_another_page_cannot_say_yes(job: Job, far: httpx.Client, origin: str | None) -> None:
    secret, _ = job.share()
    headers = {"Origin": origin} if origin else {}
    if origin is None:
        del far.headers["Origin"]
    answer = far.post(f"/view/{secret}/approve", data={"name": "Eve"}, headers=headers)
    assert answer.status_code == 403
    assert not any(share.approval for share in job.app.state.shelf.of_project(job.project_id))


def since(far: httpx.Client, secret: str) -> str:
    """What a client reads of changes; blank where nothing is said."""
    return next((said.text for said in read(far.get(f"/view/{secret}").text).all("#since")), "")


def test_a_client_reads_what_was_issued_since_and_no_edit_in_hand(job: Job, far: httpx.Client) -> None:
    secret, _ = job.share()
    yes(far, secret)
    document = job.document()
    document["frames"][0]["package"]["mat"]["border"] = "70 mm"
    document["frames"][0]["look"]["mat_name"] = "black"
    document["quote"]["items"][0]["price"] = "700"
    job.save(document)
    assert not since(far, secret)
    document["quote"]["items"][0]["price"] = "15"
    job.save(document)
    newer, made = job.share()
    document["frames"][0]["look"]["mat_name"] = "half-done red"
    job.save(document)
    said = since(far, secret)
    assert said.startswith("Since then: outside width +") and "mat: antique white → black" in said
    assert "price: " in said and "half-done" not in said and not since(far, newer)
    revoke(job.app.state.shelf, job.project_id, made.share_id)
    assert not since(far, secret)


def test_another_shape_of_the_frame_is_said_to_the_client(job: Job, far: httpx.Client) -> None:
    secret, _ = job.share()
    yes(far, secret)
    document = job.document()
    document["frames"][0]["shape"] = {"sides": 6, "size": "300 mm"}
    job.save(document)
    job.share()
    assert since(far, secret).startswith("Since then: ")


def test_a_colour_and_a_mark_that_moved_are_said_and_no_picture_that_was_not_shown(job: Job, far: httpx.Client) -> None:
    shown, _ = job.share()
    yes(far, shown)
    document = job.document()
    document["frames"][0]["look"]["mat_colour"] = "#112233"
    document["frames"][0]["look"]["photo"]["upper_left"] = {"across": 70, "down": 50}
    job.save(document)
    later, _ = job.share(shows_photo=False)
    assert since(far, shown) == "Since then: mat color"
    yes(far, later)
    document["frames"][0]["look"]["photo"]["upper_left"] = {"across": 80, "down": 60}
    document["frames"][0]["look"]["mat_colour"] = "#445566"
    job.save(document)
    job.share()
    assert since(far, shown) == "Since then: mat color; the picture"
    assert since(far, later) == "Since then: mat color"


def test_a_yes_is_tied_to_what_was_really_shown(job: Job, far: httpx.Client) -> None:
    secret, share = job.share()
    path = job.app.state.shelf.folder / f"{share.digest}.json"
    path.write_text(path.read_text("utf-8").replace("white oak", "plywood"), "utf-8")
    yes(far, secret)
    (kept,) = job.app.state.shelf.of_project(job.project_id)
    assert kept.approval and kept.approval.content_hash == content_hash(kept.issued) != share.content_hash


def test_what_changed_tells_no_price_that_was_not_shown(job: Job, far: httpx.Client) -> None:
    secret, _ = job.share(shows_price=False)
    yes(far, secret)
    document = job.document()
    document["frames"][0]["look"]["mat_name"] = "black"
    document["quote"]["items"][0]["price"] = "999"
    job.save(document)
    job.share()
    text = far.get(f"/view/{secret}").text
    assert "black" in text and "$" not in text and "price:" not in text


def test_a_cutting_plan_that_is_finished_later_changes_no_price_that_was_shown(job: Job, far: httpx.Client) -> None:
    document = job.document()
    document["quote"]["items"][0] |= {"measure": "metre of stick", "price": "10"}
    job.save(document)
    secret, share = job.share()
    yes(far, secret)
    _count(job)
    document["note"] = "called on Monday"
    job.save(document)
    opened = job.desk.open(job.project_id)
    total = next(row for row in price_rows(job.desk.price(opened.project_id, opened.plan)) if row.is_total)
    assert total.text != next(row.text for row in share.issued.prices if row.is_total)
    assert not since(far, secret) and not since_issued(job.desk, share)
    document["quote"]["items"][0]["price"] = "20"
    job.save(document)
    assert not since(far, secret) and "price: " in since_issued(job.desk, share)[0]


def _count(job: Job) -> None:
    """Have the cutting plans of a project worked out."""
    plan = Plan(job.desk.open(job.project_id).project)
    start_jobs(job.desk.jobs, plan)
    for _ in range(400):
        if not any(work.is_going or work.is_open for work in work_of(job.desk.jobs, plan)):
            return
        sleep(0.05)
