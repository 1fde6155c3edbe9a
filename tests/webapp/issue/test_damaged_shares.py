"""A yes is not forgotten with a damaged file, and where nobody can tell, none is taken."""

import errno
import json
from pathlib import Path
from typing import Any

import httpx
import pytest
from pages import Browser, read
from shared import Job, start_job

from webapp.data.errors import NotWritten
from webapp.issue.approvals import AlreadyApproved, UnknownAnswer, approve, ask_for_change, note_opened
from webapp.issue.issued import NoSuchShare, Shelf
from webapp.issue.shares import put_damaged_aside, revoke


@pytest.fixture
def job(lan_app: Any) -> Job:
    return start_job(lan_app)


@pytest.fixture
def shelf(job: Job) -> Shelf:
    found: Shelf = job.app.state.shelf
    return found


def cut_short(path: Path) -> None:
    path.write_bytes(path.read_bytes()[:-200])


def wiped(path: Path) -> None:
    path.write_bytes(b"\0" * 50)


def undated(path: Path) -> None:
    document = json.loads(path.read_text("utf-8"))
    path.write_text(json.dumps(document | {"expires": "soon"}))


def without_a_zone(path: Path) -> None:
    """Fault: the client's page broke down, since such a time cannot be held against now."""
    document = json.loads(path.read_text("utf-8"))
    path.write_text(json.dumps(document | {"expires": "2036-01-01T00:00:00"}))


def ready_on_no_day(path: Path) -> None:
    """Fault: the client's page broke down."""
    document = json.loads(path.read_text("utf-8"))
    document["issued"]["ready"] = "2026-13-45"
    path.write_text(json.dumps(document))


@pytest.mark.parametrize("harm", [cut_short, wiped, undated, without_a_zone, ready_on_no_day, Path.unlink])
@pytest.mark.parametrize("copy", [0, 1])
def test_a_yes_is_found_again_when_one_of_its_files_is_damaged(job: Job, shelf: Shelf, harm: Any, copy: int) -> None:
    (secret, share), (other, _) = job.share(), job.share()
    approve(shelf, secret, name="Ada", note="")
    harm(shelf.paths(share.digest)[copy])
    found = shelf.open(secret).approval
    assert found and found.name == "Ada"
    with pytest.raises(AlreadyApproved):
        approve(shelf, other, name="Second", note="")


@pytest.mark.parametrize("harm", [cut_short, wiped, undated])
def test_no_second_yes_is_taken_where_the_first_cannot_be_read(job: Job, shelf: Shelf, harm: Any) -> None:
    (secret, share), (other, _) = job.share(), job.share()
    approve(shelf, secret, name="Ada", note="")
    for path in shelf.paths(share.digest):
        harm(path)
    with pytest.raises(UnknownAnswer, match="nobody can tell"):
        approve(shelf, other, name="Second", note="")
    assert shelf.open(other).approval is None
    with pytest.raises(NoSuchShare):
        shelf.open(secret)


@pytest.mark.parametrize("harm", [cut_short, wiped, undated, Path.unlink])
def test_a_yes_whose_second_copy_was_never_written_is_not_forgotten(job: Job, shelf: Shelf, harm: Any) -> None:
    """Fault: the copy from before the yes counted as the whole record, and opening the link wrote it over the yes."""
    (secret, share), (other, _) = job.share(), job.share()
    first, second = shelf.paths(share.digest)
    before = second.read_bytes()
    approve(shelf, secret, name="Ada", note="")
    second.write_bytes(before)
    harm(first)
    left = first.read_bytes() if first.exists() else None
    note_opened(shelf, secret)
    for link in (secret, other):
        with pytest.raises(UnknownAnswer):
            approve(shelf, link, name="Second", note="")
        with pytest.raises(UnknownAnswer):
            ask_for_change(shelf, link, name="Ada", note="Wider")
    revoke(shelf, job.project_id, share.share_id)
    with pytest.raises(NoSuchShare):
        shelf.open(secret)
    with pytest.raises(UnknownAnswer):
        approve(shelf, other, name="Second", note="")
    assert (first.read_bytes() if first.exists() else None) == left, "what is left of the yes is kept"


def test_a_record_of_an_older_version_that_is_damaged_counts_too(job: Job, shelf: Shelf) -> None:
    (secret, share), (other, _) = job.share(), job.share()
    approve(shelf, secret, name="Ada", note="")
    first, second = shelf.paths(share.digest)
    second.unlink()
    cut_short(first)
    with pytest.raises(UnknownAnswer):
        approve(shelf, other, name="Second", note="")


@pytest.mark.parametrize("harm", [cut_short, wiped])
def test_a_damaged_record_keeps_no_other_project_and_no_other_revision_waiting(
    job: Job, shelf: Shelf, harm: Any
) -> None:
    """Fault: with nothing left to read in it, it was taken for one of every project."""
    (_, share), neighbour = job.share(), start_job(job.app)
    for path in shelf.paths(share.digest):
        harm(path)
    elsewhere, _ = neighbour.share()
    assert approve(shelf, elsewhere, name="Bo", note="").approval
    assert not shelf.unreadable(neighbour.project_id) and shelf.unreadable(job.project_id)
    job.save(job.document() | {"name": "Another name"})
    later, _ = job.share()
    assert approve(shelf, later, name="Ada", note="").approval


@pytest.mark.parametrize("harm", [cut_short, wiped])
@pytest.mark.parametrize("is_of_older_version", [False, True])
def test_a_damaged_record_is_put_aside_and_its_revision_can_be_approved(
    job: Job, shelf: Shelf, here: httpx.Client, harm: Any, is_of_older_version: bool
) -> None:
    (_, share), (other, _) = job.share(), job.share()
    if is_of_older_version:
        shelf.inputs_path(share).rename(shelf.folder / f"{share.digest}.inputs.json")
    for path in shelf.paths(share.digest):
        harm(path)
    left = shelf.paths(share.digest)[0].read_bytes()
    with pytest.raises(UnknownAnswer):
        approve(shelf, other, name="Ada", note="")
    browser = Browser(here)
    address = f"/projects/{job.project_id}/client"
    (form,) = [one for one in browser.get(address).all("form") if "put-aside" in one.attributes["action"]]
    for _ in range(2):
        assert browser.post(form.attributes["action"]).status_code == 303
    assert "cannot be read" not in browser.get(address).by_id("links").text
    assert (shelf.folder / f"{share.digest}-damaged-1.json").read_bytes() == left
    assert approve(shelf, other, name="Ada", note="").approval


def test_a_record_with_a_copy_from_before_goes_on_from_it_when_it_is_put_aside(job: Job, shelf: Shelf) -> None:
    secret, share = job.share()
    wiped(shelf.paths(share.digest)[0])
    put_damaged_aside(shelf, job.project_id, share.share_id)
    assert shelf.open(secret) == share and not shelf.unreadable(job.project_id)
    assert approve(shelf, secret, name="Ada", note="").approval


def test_a_link_that_was_revoked_stays_so_whichever_file_is_damaged(job: Job, shelf: Shelf) -> None:
    for copy in (0, 1):
        secret, share = job.share()
        revoke(shelf, job.project_id, share.share_id)
        wiped(shelf.paths(share.digest)[copy])
        with pytest.raises(NoSuchShare):
            shelf.open(secret)


def test_client_and_shop_are_told_of_a_damaged_record(
    job: Job, shelf: Shelf, far: httpx.Client, here: httpx.Client
) -> None:
    (_, share), (other, _) = job.share(), job.share()
    for path in shelf.paths(share.digest):
        wiped(path)
    answer = far.post(f"/view/{other}/approve", data={"name": "Ada Typed", "note": ""})
    assert answer.status_code == 422
    assert "nobody can tell" in read(answer.text).text and "Ada Typed" in answer.text
    assert share.digest not in answer.text and str(shelf.folder) not in answer.text
    page = here.get(f"/projects/{job.project_id}/client")
    assert page.status_code == 200 and f"{share.digest}.json" in page.text


def test_the_first_link_on_a_full_disk_is_refused_in_words(
    job: Job, shelf: Shelf, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: Any, **__: Any) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(Path, "mkdir", refuse)
    with pytest.raises(NotWritten, match="No space left"):
        job.share()
    assert not shelf.folder.exists()
