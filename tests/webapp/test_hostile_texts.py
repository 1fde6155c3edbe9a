"""Hostile texts in every text of a project, of the shop and of a client's answer: on every page, in every drawing, file
and table they are text, or they are refused in words."""

import csv
import io
import json
from collections.abc import Iterator
from typing import Any
from xml.etree import ElementTree

import httpx
import pytest
from every_route import every_path
from pages import Browser, read, sent_by
from shared import Job, start_job

from framecalc.errors import FrameCalcError
from framecalc.project import project_document, read_project

HOSTILE = {
    "markup": '"><zz9 onload=alert(1)><script>alert(1)</script>',
    "out of a drawing": "]]></text><zz9/>&<!--",
    "control and direction": "a\x00b\x1b\x7fc\u202ed\u2066e\u200ff\ufefff",
    "a formula and a template": "=1+{{ 7*7 }}{% raw %}{name}%s",
    "a path": "../../shop\\..\r\nSet-Cookie: x=1",
}
UNSEEN = ("\x00", "\x1b", "\x7f", "\u202e", "\u2066", "\u200f", "\ufeff")


@pytest.fixture
def job(lan_app: Any) -> Job:
    return start_job(lan_app)


@pytest.fixture
def browser(here: httpx.Client) -> Browser:
    return Browser(here)


def leaves(part: Any) -> Iterator[tuple[Any, Any]]:
    """Every text of a document, as what holds it and where in it."""
    for key, value in part.items() if isinstance(part, dict) else enumerate(part):
        if isinstance(value, str):
            yield part, key
        elif isinstance(value, dict | list):
            yield from leaves(value)


def hostile_everywhere(document: dict[str, Any], hostile: str) -> int:
    """Put a text wherever a project takes it; returns how many places that were."""
    taken = 0
    for held_in, key in list(leaves(document)):
        before = held_in[key]
        for text in (hostile, f"x{hostile}"[:30], hostile[:5]):
            held_in[key] = text
            try:
                read_project(document)
            except FrameCalcError:
                held_in[key] = before
            else:
                taken += 1
                break
    return taken


def looked_at(answer: httpx.Response, where: str) -> None:
    """Nothing of a hostile text has become anything but text."""
    assert answer.status_code < 500, (where, answer.status_code)
    assert "set-cookie" not in answer.headers and "\n" not in answer.headers.get("content-disposition", ""), where
    kind = answer.headers.get("content-type", "").split(";")[0]
    if kind == "text/html":
        page = read(answer.text)
        assert not [script for script in page.all("script") if "src" not in script.attributes], where
        for one in page.walk():
            assert one.tag != "zz9", where
            assert not [name for name in one.attributes if name.startswith("on")], where
    elif kind == "image/svg+xml":
        assert "zz9" not in {one.tag.rpartition("}")[2] for one in ElementTree.fromstring(answer.text).iter()}, where
    elif kind == "application/json":
        json.loads(answer.text)
    elif kind == "text/csv":
        cells = [cell for row in csv.reader(io.StringIO(answer.text)) for cell in row]
        assert not [cell for cell in cells if cell.startswith(("=", "+", "-", "@"))], where
    if kind.startswith(("text/html", "image/svg", "application/json", "text/csv")):
        assert not [sign for sign in UNSEEN if sign in answer.text], where


def sent_by_shop(browser: Browser) -> dict[str, str]:
    page = browser.get("/shop")
    (form,) = [form for form in page.all("form") if form.attributes.get("action") == "/shop"]
    return sent_by(page, form)


@pytest.mark.parametrize("hostile", HOSTILE.values(), ids=HOSTILE)
def test_a_project_of_hostile_texts_is_shown_as_text_on_every_page(
    job: Job, browser: Browser, far: httpx.Client, hostile: str
) -> None:
    document = project_document(read_project(job.document()))
    assert hostile_everywhere(document, hostile) >= 15
    document["quote"]["items"][0] |= {"quantity": "2"}
    job.save(project_document(read_project(document)))
    shop = sent_by_shop(browser) | {"called": hostile, "client_note": hostile, "do": "save"}
    assert browser.post("/shop", shop).status_code == 303
    made = browser.post(f"/projects/{job.project_id}/shares", {"for_whom": hostile, "price": "yes", "photo": "yes"})
    secret = read(made.text).by_id("link").attributes["value"].rsplit("/", 1)[1]
    (share,) = job.app.state.shelf.of_project(job.project_id)
    frame = document["frames"][0]
    known = {"project_id": job.project_id, "frame_id": frame["id"], "share_id": share.share_id, "number": "1"}
    known |= {"secret": secret, "photo_id": frame["look"]["photo"]["id"]}
    names = ("front", "section.svg")
    for path in sorted({path for name in names for path in every_path(job.app, known | {"name": name})}):
        looked_at(browser.client.get(path), path)
    assert far.post(f"/view/{secret}/approve", data={"name": hostile, "note": hostile}).status_code == 303
    for path in (
        f"/projects/{job.project_id}/client",
        f"/projects/{job.project_id}/shares/{share.share_id}/frame.html",
    ):
        looked_at(browser.client.get(path), path)
    looked_at(far.get(f"/view/{secret}"), "view")


FORMS = {
    "look": "/projects/{p}/frames/{f}/look",
    "costs": "/projects/{p}/costs",
    "shop": "/shop",
}


@pytest.mark.parametrize("text", [*HOSTILE.values(), "9" * 10_000, "−1", "1e999", "½x" * 5_000])
@pytest.mark.parametrize("form", FORMS)
def test_any_text_in_every_field_of_a_page_is_taken_or_refused_in_words(
    job: Job, browser: Browser, form: str, text: str
) -> None:
    address = FORMS[form].format(p=job.project_id, f=job.document()["frames"][0]["id"])
    page = browser.get(address)
    form_here = next(one for one in page.all("form") if one.attributes.get("action") == address)
    sent = sent_by(page, form_here)
    kept = {name: value if name in ("base", "tab", "frame") else text for name, value in sent.items()}
    assert len(kept) > 5
    tried = [(address, "save"), (address, text[:40])]
    tried += [] if form == "shop" else [(f"{address}/preview", "save"), (address, "add-item")]
    for at, do in tried:
        answer = browser.post(at, kept | {"do": do})
        assert answer.status_code in (200, 303, 409, 413, 422), (at, do, answer.status_code)
        looked_at(answer, at)
    looked_at(browser.client.get(address), address)
    for path in ("quote", "client", "client/preview?for_whom=x&price=yes&photo=yes", "project.json"):
        answer = browser.client.get(f"/projects/{job.project_id}/{path}")
        assert answer.status_code in (200, 422)
        looked_at(answer, path)


@pytest.mark.parametrize("text", [*HOSTILE.values(), "x" * 10_000])
def test_names_that_others_type_are_text_too(job: Job, browser: Browser, far: httpx.Client, text: str) -> None:
    secret, _ = job.share()
    answers = [
        browser.client.get(f"/projects/{job.project_id}/client/preview", params={"for_whom": text, "photo": "yes"}),
        browser.post(
            f"/projects/{job.project_id}/shares", {"for_whom": text, "price": text, "days": text, "once": text}
        ),
        far.post(f"/view/{secret}/approve", data={"name": text, "note": text}),
        far.get("/pair", params={"code": text}),
        far.post("/pair", data={"code": text, "device": text}),
        far.get(f"/view/{secret}"),
        browser.client.get(f"/projects/{job.project_id}/client"),
    ]
    for answer in answers:
        assert answer.status_code in (200, 303, 413, 422), answer.status_code
        looked_at(answer, str(answer.url))
