"""A client who has a mailed page answers with the signs under it; the shop types them back."""

from typing import Any

import httpx
import pytest
from pages import Browser, read
from shared import Job, start_job

from webapp.issue.approvals import AlreadyApproved, UnknownAnswer, UnusableAnswer, approve, approve_by_signs
from webapp.issue.issued import Share, Shelf
from webapp.issue.shares import revoke


@pytest.fixture
def job(lan_app: Any) -> Job:
    return start_job(lan_app)


@pytest.fixture
def shelf(job: Job) -> Shelf:
    found: Shelf = job.app.state.shelf
    return found


def typed(job: Job, shelf: Shelf, signs: str, name: str = "Ada") -> Share:
    return approve_by_signs(shelf, job.project_id, signs=signs, name=name)


@pytest.mark.parametrize("answer", ["{}", " {} ", "I approve revision 2, {}.", "“{}”"])
def test_signs_are_found_in_whatever_a_client_has_written(job: Job, shelf: Shelf, answer: str) -> None:
    _, share = job.share()
    yes = typed(job, shelf, answer.format(share.signs.upper())).approval
    assert yes and (yes.name, yes.by_mail, yes.content_hash) == ("Ada", True, share.content_hash)


def test_the_yes_to_a_page_that_was_mailed_counts_after_its_link_is_closed(job: Job, shelf: Shelf) -> None:
    _, share = job.share()
    revoke(shelf, job.project_id, share.share_id)
    assert typed(job, shelf, share.signs).approval


@pytest.mark.parametrize("signs", ["", "yes", "0" * 12, "{}0", "0{}", "x{}"])
def test_other_signs_say_yes_to_nothing(job: Job, shelf: Shelf, signs: str) -> None:
    _, share = job.share()
    with pytest.raises(UnusableAnswer, match="signs"):
        typed(job, shelf, signs.format(share.signs))
    assert shelf.yes_of(job.project_id) is None


def test_signs_of_another_project_and_a_yes_of_nobody_are_refused(job: Job, shelf: Shelf) -> None:
    _, other = start_job(job.app, "maple-canvas.demo").share()
    _, share = job.share()
    with pytest.raises(UnusableAnswer, match="No page of this project"):
        typed(job, shelf, other.signs)
    with pytest.raises(UnusableAnswer, match="client's name"):
        typed(job, shelf, share.signs, name=" ")


def test_a_revision_is_approved_once_by_link_or_by_mail(job: Job, shelf: Shelf) -> None:
    secret, share = job.share()
    typed(job, shelf, share.signs)
    with pytest.raises(AlreadyApproved):
        approve(shelf, secret, name="Ada", note="")
    with pytest.raises(AlreadyApproved):
        typed(job, shelf, share.signs)


def test_where_a_record_is_lost_no_yes_is_typed_either(job: Job, shelf: Shelf) -> None:
    (_, lost), (_, share) = job.share(for_whom="Bea"), job.share()
    for path in shelf.paths(lost.digest):
        path.write_bytes(b"")
    with pytest.raises(UnknownAnswer):
        typed(job, shelf, share.signs)


def test_the_page_takes_the_signs_and_keeps_what_was_typed_wrongly(job: Job, here: httpx.Client) -> None:
    _, share = job.share()
    browser, address = Browser(here), f"/projects/{job.project_id}/client"
    refused = browser.post(f"{address}/signs", {"signs": "0" * 12, "name": "Ada"})
    shown = read(refused.text).by_id("answered")
    assert refused.status_code == 422 and "No page of this project" in shown.text
    assert [field.attributes["value"] for field in shown.all("input")] == ["0" * 12, "Ada"]
    assert browser.post(f"{address}/signs", {"signs": share.signs, "name": "Ada"}).status_code == 303
    assert "by mail" in browser.get(address).by_id("links").text
