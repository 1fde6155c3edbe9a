"""The client's page: it shows what was issued and nothing else, takes one yes, and opens nothing."""

import ast
import json
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import httpx
import pytest
from pages import read
from shared import SECRETS, Job, yes

from webapp.issue.issued import Shelf
from webapp.issue.issuing import since_issued
from webapp.issue.shares import revoke
from webapp.server.rates import RATES

ROOT = Path(__file__).parents[4]
UNKNOWN = "A" * 43


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
    assert f"revision {share.issued.revision}" in answer.text and "Made for Ada" in answer.text
    assert page.all("h1")[0].text == share.issued.told[0].frame and share.issued.frames[0].sentence in page.text


@pytest.mark.parametrize(("price", "photo"), [(True, True), (True, False), (False, True), (False, False)])
def test_what_is_not_chosen_is_not_there(job: Job, far: httpx.Client, price: bool, photo: bool) -> None:
    secret, share = job.share(shows_price=price, shows_photo=photo)
    text = far.get(f"/view/{secret}").text
    assert ("Total" in text) is price and ("$" in text) is price
    assert ("data:image/jpeg" in text) is photo
    stored = json.dumps(json.loads((job.app.state.shelf.folder / f"{share.digest}.json").read_text("utf-8")))
    assert ("$" in stored) is price and ("data:image/jpeg" in stored) is photo


def test_the_weight_is_told_where_the_shop_chooses_and_is_no_change_since(job: Job, far: httpx.Client) -> None:
    silent, _ = job.share()
    telling, share = job.share(shows_weight=True)
    assert "Weighs" not in far.get(f"/view/{silent}").text
    weight = next(fact.text for fact in share.issued.told[0].facts if fact.name == "weight")
    assert weight.endswith((" kg", " lb", " g", " oz")) and weight in far.get(f"/view/{telling}").text.replace(
        "\xa0", " "
    )
    job.save({**job.desk.open(job.project_id).document, "note": "another revision"})
    assert since_issued(job.desk, share) == ()


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
    assert not page.all("script") and not page.all("iframe")
    assert all(link.attributes["href"].startswith("#") for link in page.all("a"))
    assert [form.attributes["action"] for form in page.all("form")] == [
        f"/view/{secret}/approve",
        f"/view/{secret}/ask",
    ]
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
