"""A walk over every route there is, also those of pages to come: who only has a link, or no cookie, or comes under a
wrong name, or from another page, opens nothing and changes nothing."""

import re
from pathlib import Path
from typing import Any

import httpx
import pytest
from every_route import every_path, kept
from serving import client_of, serving
from shared import SECRETS, SHOP, Job, start_job
from walking import Told, asked

from webapp.app import create_app

READING = ("GET", "HEAD", "OPTIONS")
WRITING = ("POST", "PUT", "PATCH", "DELETE")
METHODS = (*READING, *WRITING)
OPEN = re.compile(r"/view/[^/]*(/approve|/ask)?|/pair|/static/.*")
"""What is open to everybody in the network: a client's page with its yes, the form for the code, stylesheets."""


@pytest.fixture
def job(lan_app: Any) -> Job:
    return start_job(lan_app)


def paths(job: Job, secret: str) -> list[str]:
    """Every path of the server, with the ids of a job that is really there."""
    document = job.document()
    (share,) = job.app.state.shelf.of_project(job.project_id)
    known = {
        "project_id": job.project_id,
        "frame_id": document["frames"][0]["id"],
        "photo_id": document["frames"][0]["look"]["photo"]["id"],
        "share_id": share.share_id,
        "secret": secret,
        "number": "1",
        "name": "front",
        "path": "app.css",
    }
    return every_path(job.app, known)


def test_the_walk_goes_everywhere(job: Job) -> None:
    secret, _ = job.share()
    found = paths(job, secret)
    assert not [path for path in found if "{" in path]
    for page in ("/", f"/projects/{job.project_id}/costs", "/shop", "/devices", f"/view/{secret}", "/pair"):
        assert page in found
    assert len(found) > 40


def test_only_four_doors_are_open_to_strangers(job: Job) -> None:
    secret, _ = job.share()
    doors = {path for path in paths(job, secret) if OPEN.fullmatch(path)}
    assert doors <= {
        f"/view/{secret}",
        f"/view/{secret}/approve",
        f"/view/{secret}/ask",
        "/pair",
        "/static/app.css",
        "/static",
    }


@pytest.mark.parametrize("with_link", [True, False])
def test_a_stranger_with_a_link_or_without_opens_nothing_else(
    job: Job, far: httpx.Client, data_dir: Path, with_link: bool
) -> None:
    secret, _ = job.share()
    before, walk = kept(data_dir), [path for path in paths(job, secret) if not OPEN.fullmatch(path)]
    if with_link:
        port = httpx.URL(str(far.base_url)).port
        far.headers.update({"Authorization": f"Bearer {secret}", "Referer": f"http://{SHOP}:{port}/view/{secret}"})
        far.headers["Cookie"] = f"rabbetry_{port}={secret}; secret={secret}"
        walk += [f"{path}?secret={secret}" for path in walk] + [f"/view/{secret}/../..{walk[0]}"]
    for method, path, answer in asked(far, walk, METHODS):
        assert answer.status_code == 403, (method, path, answer.status_code)
        assert not any(word in answer.text for word in SECRETS), (method, path)
        assert "set-cookie" not in answer.headers
    assert kept(data_dir) == before


def test_a_path_that_is_nearly_an_open_one_opens_nothing(job: Job, far: httpx.Client) -> None:
    secret, _ = job.share()
    for path in (
        f"/view/{secret}/",
        f"/view/{secret}/approve/",
        f"/view/{secret}/costs",
        f"/view/{secret}%2f..%2f..%2fshop",
        "/pair/",
        "/static/../shop",
        "/static/%2e%2e/shop",
        "/static/..%2fapp.css%2f..%2f..%2fwebapp%2fapp.py",
        "//shop",
        "/VIEW/x",
    ):
        answer = far.get(path)
        assert answer.status_code in (403, 404, 405), (path, answer.status_code)
        assert not any(word in answer.text for word in SECRETS), path


def test_a_wrong_host_is_answered_nowhere(job: Job, here: httpx.Client, data_dir: Path) -> None:
    secret, _ = job.share()
    before = kept(data_dir)
    for host in ("evil.test", f"{SHOP}.evil.test"):
        for method, path, answer in asked(here, paths(job, secret), METHODS, headers={"Host": host}):
            assert answer.status_code == 400, (method, path, answer.status_code)
            assert not any(word in answer.text for word in SECRETS), (method, path)
    assert kept(data_dir) == before


@pytest.mark.parametrize(
    "headers",
    [
        {},
        {"Origin": "null"},
        {"Origin": "http://evil.test"},
        {"Origin": "http://127.0.0.1:1"},
        {"Origin": "HERE", "Sec-Fetch-Site": "same-site"},
    ],
    ids=["none", "null", "another-site", "another-port", "the-browser-knows"],
)
def test_no_other_page_writes_anything_on_the_shop_computer_itself(
    job: Job, here: httpx.Client, data_dir: Path, headers: dict[str, str]
) -> None:
    secret, _ = job.share()
    before = kept(data_dir)
    sent = {name: value.replace("HERE", str(here.base_url).rstrip("/")) for name, value in headers.items()}
    for method, path, answer in asked(here, paths(job, secret), WRITING, headers=sent):
        assert answer.status_code == 403, (method, path, answer.status_code)
        require_closed(answer)
    assert {name: digest for name, digest in kept(data_dir).items() if name in before} == before


def test_no_other_page_reads_what_the_shop_computer_answers(job: Job, here: httpx.Client) -> None:
    secret, _ = job.share()
    for _, _, answer in asked(here, paths(job, secret), READING, headers={"Origin": "http://evil.test"}):
        require_closed(answer)


def require_closed(answer: Told) -> None:
    """A browser shows the answer to no other page."""
    assert "access-control-allow-origin" not in answer.headers
    assert answer.headers["cross-origin-resource-policy"] == "same-origin"


def test_looking_writes_nothing(job: Job, here: httpx.Client, data_dir: Path) -> None:
    secret, _ = job.share()
    here.get("/devices")
    before = kept(data_dir)
    for method, path, answer in asked(here, paths(job, secret), ("GET", "HEAD")):
        assert answer.status_code < 500, (method, path)
    assert kept(data_dir) == before


def test_without_lan_every_name_of_the_network_is_refused(data_dir: Path) -> None:
    app = create_app(data_dir=data_dir)
    with serving(app) as address, client_of(address) as client:
        job = start_job(app)
        secret, _ = job.share()
        for path in paths(job, secret):
            assert client.get(path, headers={"Host": SHOP}).status_code == 400, path
        assert client.get(f"/view/{secret}").status_code == 200
