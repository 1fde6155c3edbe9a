"""Every form of every page, filled with what no form would hold: each answer is one of ours, and nothing breaks.

The forms are found on the pages themselves, so those to come are tried, too; seeded, a few fillings of each.
`RABBETRY_LONG=1` tries hundreds of each.
"""

import json
import random
from collections.abc import Iterator
from itertools import islice
from typing import Any
from urllib.parse import urlencode

import httpx
import pytest
from every_route import every_path
from long import LONG
from pages import PARTS, read, sent_by
from shared import Job, priced, start_job

from webapp.pages.projects.demos import demo

FILLINGS = 200 if LONG else 1
ODD = (
    *("nan", "inf", "-1", "1e400", "1" * 400, "0", "", " ", "½", "1/0", "13 1/8/2", "٣", "1_0", "0x10", "−5"),
    *("\x00", "\ud800", "\U0001f5bc", "a\x00b", "\r\n.\r\n", "yes", "no", "null", "[]", "{}", "true"),
    *('{"schema": 2, "schema": 2}', '{"schema": NaN}', '{"schema": true}', "[" * 100_000, '{"a":' * 100_000),
    *("../../shop", "%00", "frames.x.y", "x" * 50_000, "9999-99-99", "2026-02-30", "#zzzzzz", "quote.items.zz.price"),
)
"""What a person does not type, and a broken or a hostile program does."""

FILES = (".svg", ".csv", ".json", ".pdf", ".zip")
"""How addresses end that are no pages: they have no forms, and the largest take long."""


@pytest.fixture
def job(lan_app: Any) -> Job:
    return start_job(lan_app)


def addresses(job: Job) -> list[str]:
    """Every address of the server, with the ids of a job that is there."""
    document = job.document()
    frame = document["frames"][0]
    known = {"project_id": job.project_id, "frame_id": frame["id"], "number": "1", "name": "front", "step": "measure"}
    known |= {"photo_id": frame["look"]["photo"]["id"], "share_id": job.share()[1].share_id, "paper": "a4"}
    return [path for path in every_path(job.app, known) if "/static" not in path and not path.endswith(FILES)]


def forms(client: httpx.Client, paths: list[str]) -> Iterator[tuple[str, dict[str, str], tuple[str, ...]]]:
    """Every form, once: where it goes, what it sends, and the values of its buttons."""
    seen: set[str] = set()
    for path in paths:
        answer = client.get(path)
        if answer.status_code != 200 or not answer.headers["content-type"].startswith("text/html"):
            continue
        page = read(answer.text)
        for form in page.all("form"):
            sent = sent_by(page, form)
            buttons = [one.attributes for one in page.all("button")]
            pressed = tuple(one.get("value", "") for one in buttons if one.get("name") == "do")
            goes_to = {
                form.attributes.get("action", path),
                *(one["formaction"] for one in buttons if "formaction" in one),
            }
            for address in goes_to - seen:
                seen.add(address)
                yield address, sent, pressed


def filled(chance: random.Random, sent: dict[str, str], pressed: tuple[str, ...]) -> dict[str, str]:
    """A form with a few of its fields, or all, as no form would hold them."""
    share = chance.choice((0.1, 0.5, 1.0))
    kept = {name: chance.choice(ODD) if chance.random() < share else value for name, value in sent.items()}
    more = {"do": chance.choice((*pressed, *ODD, "save", "add-layer:x", "remove-item:zz")), chance.choice(ODD): "x"}
    return kept | more


def test_whatever_a_form_holds_the_answer_is_one_of_ours(job: Job, here: httpx.Client) -> None:
    chance, tried = random.Random(7), 0
    for address, sent, pressed in list(forms(here, addresses(job))):
        for _ in range(FILLINGS):
            tried += 1
            form = filled(chance, sent, pressed)
            answer = posted(here, address, form, parts=chance.random() < 0.5)
            assert answer.status_code < 500 or answer.status_code == 507, (address, answer.status_code, form)
            assert answer.headers.get("x-rabbetry"), (address, answer.status_code)
        if not job.desk.store.has(job.project_id):
            job.desk.store.undelete(job.project_id)
    assert tried > 30
    page = here.get(f"/projects/{job.project_id}")
    assert page.status_code == 200, "the project is whole after all of it"


def posted(client: httpx.Client, address: str, form: dict[str, str], *, parts: bool) -> httpx.Response:
    """Send a form as it is, half letters too."""
    body = urlencode(form, errors="surrogatepass")
    headers = {"Origin": str(client.base_url).rstrip("/"), "Content-Type": "application/x-www-form-urlencoded"}
    return client.post(address, content=body, headers=headers | (PARTS if parts else {}))


@pytest.mark.parametrize("text", [text for text in ODD if text[:1] in ("[", "{")], ids=lambda text: text[:24])
def test_a_file_that_no_program_should_write_is_refused_in_words(here: httpx.Client, text: str) -> None:
    origin = str(here.base_url).rstrip("/")
    answer = here.post("/projects/import", files={"file": ("x.json", text.encode())}, headers={"Origin": origin})
    assert answer.status_code == 422 and read(answer.text).by_id("refused").text


@pytest.mark.parametrize(
    "value", [float("nan"), float("inf"), 1e300, -1, True, None, [], {}, "\x00", "\ud800", "x" * 10**5]
)
def test_a_file_with_any_value_in_any_place_is_taken_or_refused(here: httpx.Client, value: Any) -> None:
    document, origin = priced(demo("cafe-prints.demo")), str(here.base_url).rstrip("/")
    for path in (("name",), ("schema",), ("frames",), ("unit",), ("assumed",), ("shop", "kerf"), ("quote", "terms")):
        changed = json.loads(json.dumps(document))
        holder = changed
        for step in path[:-1]:
            holder = holder[step]
        holder[path[-1]] = value
        sent = {"file": ("x.json", json.dumps(changed).encode())}
        answer = here.post("/projects/import", files=sent, headers={"Origin": origin})
        assert answer.status_code in (303, 422), (path, value)


def test_a_field_of_ten_megabytes_is_refused_at_every_door(job: Job, here: httpx.Client) -> None:
    """The head alone is enough to refuse it."""
    for address, _, _ in islice(forms(here, addresses(job)), 6):
        if "/backup/everything" in address or address.endswith("/photo"):
            continue
        answer = posted(here, address, {"name": "x" * 10_000_000}, parts=False)
        assert answer.status_code == 413, address
