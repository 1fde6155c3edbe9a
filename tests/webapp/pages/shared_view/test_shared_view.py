"""The client's page: it shows what was issued and nothing else, takes one yes, and opens nothing."""

import ast
import json
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path
from time import sleep
from typing import Any

import httpx
import pytest
from pages import read
from shared import SECRETS, Job, start_job

from framecalc.plan import Plan
from webapp.issue.issued import Shelf, content_hash
from webapp.issue.issuing import price_rows, since_issued
from webapp.issue.pricing import job_of
from webapp.issue.shares import revoke
from webapp.jobs.timber import start_jobs, work_of
from webapp.server.rates import RATES

ROOT = Path(__file__).parents[4]
UNKNOWN = "A" * 43


@pytest.fixture
def job(lan_app: Any) -> Job:
    return start_job(lan_app)


class Clock:
    def __init__(self) -> None:
        self.now = datetime.now(UTC)

    def __call__(self) -> datetime:
        return self.now


@pytest.fixture
def clock(lan_app: Any) -> Clock:
    """A clock in our hands for the shelf of the running server."""
    clock, shelf = Clock(), lan_app.state.shelf
    lan_app.state.shelf = Shelf(folder=shelf.folder, has_project=shelf.has_project, clock=clock, lock=shelf.lock)
    return clock


def yes(far: httpx.Client, secret: str, name: str = "Ada Client", note: str = "") -> httpx.Response:
    return far.post(f"/view/{secret}/approve", data={"name": name, "note": note})


# --- what is shown


def test_a_client_sees_picture_sizes_materials_and_price(job: Job, far: httpx.Client) -> None:
    secret, share = job.share()
    answer = far.get(f"/view/{secret}")
    assert answer.status_code == 200
    page = read(answer.text)
    facts = {row.all("th")[0].text: row.all("td")[0].text for row in page.all("tr")}
    assert facts["Outside"] == share.issued.told[0].facts[0].text
    assert facts["Wood"] == "white oak" and facts["Finish"] == "satin lacquer" and facts["Mat"] == "antique white"
    assert facts["Total"] == share.issued.prices[-3].text
    assert "data:image/jpeg;base64," in answer.text and "Ready in three weeks." in answer.text
    assert f"revision {share.issued.revision}" in answer.text and "For Ada" in answer.text


@pytest.mark.parametrize(("price", "photo"), [(True, True), (True, False), (False, True), (False, False)])
def test_what_is_not_chosen_is_not_there(job: Job, far: httpx.Client, price: bool, photo: bool) -> None:
    secret, share = job.share(shows_price=price, shows_photo=photo)
    text = far.get(f"/view/{secret}").text
    assert ("Total" in text) is price and ("$" in text) is price
    assert ("data:image/jpeg" in text) is photo
    stored = json.dumps(json.loads((job.app.state.shelf.folder / f"{share.digest}.json").read_text("utf-8")))
    assert ("$" in stored) is price and ("data:image/jpeg" in stored) is photo


def test_nothing_private_is_in_the_page_or_in_what_it_is_made_from(job: Job, far: httpx.Client) -> None:
    secret, share = job.share()
    text = far.get(f"/view/{secret}").text
    stored = (job.app.state.shelf.folder / f"{share.digest}.json").read_text("utf-8")
    for word in (*SECRETS, "41.5", "13.7", "61.37", "12.00"):
        assert word not in text and word not in stored, word
    assert job.project_id not in text and share.digest not in text and share.share_id not in text
    assert str(job.app.state.shelf.folder) not in text


def test_no_script_and_no_way_to_another_page_is_in_it(job: Job, far: httpx.Client) -> None:
    secret, _ = job.share()
    page = read(far.get(f"/view/{secret}").text)
    assert not page.all("script") and not page.all("a") and not page.all("iframe")
    assert [form.attributes["action"] for form in page.all("form")] == [f"/view/{secret}/approve"]
    assert not [name for element in page.walk() for name in element.attributes if name.startswith(("on", "hx-"))]


def test_no_browser_keeps_it_no_search_engine_lists_it_no_script_runs(job: Job, far: httpx.Client) -> None:
    secret, _ = job.share()
    for answer in (far.get(f"/view/{secret}"), far.get(f"/view/{UNKNOWN}")):
        assert answer.headers["cache-control"] == "no-store"
        assert answer.headers["x-robots-tag"] == "noindex, nofollow"
        assert "script-src" not in answer.headers["content-security-policy"]
        assert answer.headers["content-security-policy"].startswith("default-src 'none'")
        assert answer.headers["referrer-policy"] == "same-origin"


def test_later_edits_change_nothing_on_it(job: Job, far: httpx.Client) -> None:
    secret, _ = job.share()
    before = far.get(f"/view/{secret}").text
    document = job.document()
    document["frames"][0]["species"] = "walnut"
    document["quote"]["items"][0]["price"] = "999"
    document["frames"][0]["look"]["photo"] = None
    job.save({**document, "frames": [{**frame, "look": {}} for frame in document["frames"]]})
    assert far.get(f"/view/{secret}").text == before


# --- links that open nothing


def test_unknown_expired_revoked_and_deleted_look_the_same(job: Job, far: httpx.Client, clock: Clock) -> None:
    expired, _ = job.share(days=7)
    revoked, share = job.share()
    revoke(job.app.state.shelf, job.project_id, share.share_id)
    open_still, _ = job.share()
    clock.now += timedelta(days=8)
    assert far.get(f"/view/{open_still}").status_code == 200
    answers = [far.get(f"/view/{secret}") for secret in (UNKNOWN, expired, revoked, "x", "%00", "A" * 42)]
    answers += [yes(far, secret) for secret in (UNKNOWN, expired, revoked)]
    job.desk.store.delete(job.project_id)
    answers.append(far.get(f"/view/{open_still}"))
    found = {(answer.status_code, answer.text, tuple(sorted(set(answer.headers) - {"date"}))) for answer in answers}
    assert len(found) == 1 and next(iter(found))[0] == 404


def test_a_link_expires_to_the_second(job: Job, far: httpx.Client, clock: Clock) -> None:
    clock.now = datetime(2026, 3, 1, 12, tzinfo=UTC)
    secret, _ = job.share(days=1)
    clock.now += timedelta(days=1, seconds=-1)
    assert far.get(f"/view/{secret}").status_code == 200
    clock.now += timedelta(seconds=1)
    assert far.get(f"/view/{secret}").status_code == 404


def test_guessing_is_slowed_down_and_a_good_link_is_not(job: Job, far: httpx.Client) -> None:
    secret, _ = job.share()
    answers = [far.get(f"/view/{UNKNOWN}") for _ in range(RATES["unknown link"].tries + 2)]
    assert answers[0].status_code == 404 and answers[-1].status_code == 429
    assert int(answers[-1].headers["retry-after"]) > 0 and not read(answers[-1].text).all("a")
    assert far.get(f"/view/{secret}").status_code == 200


def test_the_secret_has_256_bits_and_no_file_holds_it(job: Job, data_dir: Path) -> None:
    secrets = {job.share()[0] for _ in range(20)}
    assert len(secrets) == 20 and all(len(secret) == 43 for secret in secrets)
    for path in data_dir.rglob("*"):
        if path.is_file() and path.name != ".lock":
            content = path.read_bytes()
            assert not any(secret.encode() in content for secret in secrets)


def test_a_form_sent_twice_makes_one_link(job: Job) -> None:
    first, share = job.share(once="n1")
    second, same = job.share(once="n1")
    assert first and not second and same.digest == share.digest
    assert len(job.app.state.shelf.of_project(job.project_id)) == 1


# --- the yes


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
    total = next(row for row in price_rows(job_of(job.desk, opened)) if row.is_total)
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


# --- nothing else


def test_the_page_under_a_secret_takes_no_other_method(job: Job, far: httpx.Client) -> None:
    secret, _ = job.share()
    for method in ("POST", "PUT", "PATCH", "DELETE"):
        assert far.request(method, f"/view/{secret}").status_code in (403, 405)
    assert far.get(f"/view/{secret}/approve").status_code == 405


def _imports(module: str) -> set[str]:
    """The modules of ours that a module imports when it is loaded."""
    path = ROOT / Path(*module.split(".")).with_suffix(".py")
    path = path if path.exists() else ROOT / Path(*module.split(".")) / "__init__.py"
    found = set()
    for node in ast.parse(path.read_text("utf-8")).body:
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith(("webapp", "framecalc")):
            found.add(node.module)
            found |= {name for name in (f"{node.module}.{part.name}" for part in node.names) if _is_module(name)}
    return found


def _is_module(name: str) -> bool:
    path = ROOT / Path(*name.split("."))
    return path.with_suffix(".py").exists() or (path / "__init__.py").exists()


def _reached(module: str, *, without: str) -> set[str]:
    reached, waiting = set(), [module]
    while waiting:
        current = waiting.pop()
        if current not in reached and current != without:
            reached.add(current)
            waiting += _imports(current)
    return reached


def test_the_clients_router_reaches_nothing_that_writes_except_the_yes() -> None:
    reached = _reached("webapp.pages.shared_view.view", without="webapp.issue.approvals")
    assert "webapp.issue.issued" in reached
    writers = {
        "webapp.data.disk",
        "webapp.data.store",
        "webapp.issue.shares",
        "webapp.live.desk",
        "webapp.server.devices",
        "webapp.data.photos",
    }
    assert not reached & writers
    for module in reached:
        path = ROOT / Path(*module.split(".")).with_suffix(".py")
        text = path.read_text("utf-8") if path.exists() else ""
        assert ".write_text(" not in text and ".write_bytes(" not in text and "os.replace" not in text, module


def test_the_walk_over_imports_bites() -> None:
    assert "webapp.data.disk" in _reached("webapp.issue.approvals", without="")
    assert "webapp.pages.shared_view.view" in sys.modules or _is_module("webapp.pages.shared_view.view")
