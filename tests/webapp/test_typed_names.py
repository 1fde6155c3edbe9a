"""What a person typed keeps its letters on every page, drawing, card, list, file, select and table, in the words of
either side of the Atlantic."""

import gc
import html
import re
import time
from collections.abc import Iterator
from contextlib import contextmanager
from copy import deepcopy
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import httpx
import pytest
from drawn_plans import demo as demo_of
from every_route import every_path
from grouped import each_group
from pages import Browser, sent_by
from serving import client_of, serving
from shared import SHOP, Job, start_job

from framecalc.package.shelf import usual_material
from framecalc.project import project_text
from framecalc.units import parse_length
from framecalc.words import Words, localise
from webapp.__main__ import main
from webapp.app import create_app

NAME = "Grey mat, Art Centre stock moulding colour rabbet rebate"
"""It holds words that would be turned for either side."""

TYPED = {"name", "note", "species", "finish", "mat_name", "blade", "serves", "tax_name", "saw", "reason"}
SHORT = {"tax_name": 20}
CHOSEN = {"sides", "seasons", "panel"}
"""What only looks like that: numbers, and woods out of a table."""

LINK = re.compile(r'(?:href|src)="(/[^"#]*)')
WALKS = (("cafe-prints", Words.US), ("ash-relief", Words.UK))
DRAWN = (*WALKS, ("cafe-prints", Words.UK), ("maple-canvas", Words.US))


def named(part: Any) -> Any:
    """A part of a project in which everything that is named bears the name."""
    if isinstance(part, list):
        return [named(one) for one in part]
    if not isinstance(part, dict):
        return part
    given = {key: _named(key, value) for key, value in part.items()}
    if "kind" in part and "material" in part:
        thickness_mm = parse_length(part["thickness"]).mm
        given["material"] = part["material"] or usual_material(
            part["kind"], name=part["name"], thickness_mm=thickness_mm
        )
    return given


def _named(key: str, value: Any) -> Any:
    if key in CHOSEN:
        return value
    return NAME[: SHORT.get(key, 120)] if key in TYPED and isinstance(value, str) else named(value)


@cache
def turned_pairs(words: Words) -> set[str]:
    """Neighbouring words that stand in the turned name and not in the name itself: none may be read anywhere."""
    turned, kept = (set(map(" ".join, pairwise(name.lower().split()))) for name in (localise(NAME, words), NAME))
    return turned - kept


def reworded(text: str, words: Words) -> list[str]:
    """Where a text holds a part of the turned name, with what stands around it."""
    plain = html.unescape(text).replace("\xa0", " ").lower()
    found = {pair: plain.find(pair) for pair in turned_pairs(words)}
    return [plain[max(0, at - 120) : at + len(pair) + 40] for pair, at in found.items() if at >= 0]


def followed(client: httpx.Client, paths: list[str]) -> Iterator[httpx.Response]:
    """Every page and file that can be come to from these; a drawing on one paper stands for it on all."""
    todo, seen = list(paths), set()
    while todo:
        answer = client.get(todo.pop())
        yield answer
        links = (
            re.findall(r'(?:href|src)="(/[^"#]*)', answer.text)
            if "html" in answer.headers.get("content-type", "")
            else []
        )
        for link in map(html.unescape, links):
            kind = re.sub(r"paper=\w+", "paper", link)
            if not link.startswith("/static") and kind not in seen:
                seen.add(kind)
                todo.append(link)


def in_the_shop(browser: Browser, words: Words) -> None:
    """Name the shop, whose words these are."""
    page = browser.get("/shop")
    (form,) = [form for form in page.all("form") if form.attributes.get("action") == "/shop"]
    shop = sent_by(page, form) | {"words": words.value, "called": NAME, "client_note": NAME, "do": "save"}
    assert browser.post("/shop", shop).status_code == 303


def on_the_rack(browser: Browser) -> None:
    """Name a stick on the rack."""
    stick = {"tag": NAME, "species": NAME, "profile": NAME, "width": "24", "thickness": "62", "length": "1900"}
    assert browser.post("/rack", sent_by(browser.get("/rack")) | stick | {"do": "save"}).status_code == 303


def worked_out(browser: Browser, address: str) -> None:
    """Have the plans of a page worked out."""
    browser.type(address, {}, do="work")
    for _ in range(400):
        text = browser.client.get(address).text
        if "Being worked out." not in text and "Waiting its turn." not in text:
            return
        time.sleep(0.2)
    raise AssertionError(text)


def cut_up(browser: Browser, project_id: str) -> None:
    """Mark the first plan as cut: its off-cuts are named for it."""
    page = browser.get(f"/projects/{project_id}/timber")
    address = next(link.attributes["href"] for link in page.all("a") if link.text == "Mark as cut")
    page = browser.get(address)
    (form,) = [form for form in page.all("form") if form.attributes.get("action") == address]
    assert browser.post(address, sent_by(page, form) | {"do": "cut"}).status_code == 303


def shared(job: Job, far: httpx.Client) -> dict[str, str]:
    """Share the project, have it approved, and change it afterwards; how its routes are filled in."""
    secret, share = job.share(for_whom=NAME)
    assert far.post(f"/view/{secret}/approve", data={"name": NAME, "note": NAME}).status_code == 303
    document = deepcopy(job.document())
    document["frames"][0]["look"]["finish"] = f"{NAME} 2"
    job.save(document)
    frame = document["frames"][0]
    known = {"project_id": job.project_id, "frame_id": frame["id"], "share_id": share.share_id, "number": "1"}
    return known | {"secret": secret, "photo_id": frame["look"]["photo"]["id"]}


@contextmanager
def started(data_dir: Path) -> Iterator[tuple[Any, httpx.Client, httpx.Client]]:
    """A server for the network, begun anew on a data folder: the shop computer itself, and a device beside it.

    Nothing is known that an earlier server has worked out: what can be told from a file is told from it.
    """
    for one in gc.get_objects():
        if isinstance(one, type(turned_pairs)) and one.__module__.startswith(("framecalc.", "webapp.")):
            one.cache_clear()
    app = create_app(data_dir=data_dir, names=(SHOP, "192.168.0.9"))
    with serving(app) as address, client_of(address) as here:
        host = f"{SHOP}:{httpx.URL(address).port}"
        with client_of(address, headers={"Host": host, "Origin": f"http://{host}"}) as far:
            yield app, here, far


def planned_and_shared(app: Any, here: httpx.Client, far: httpx.Client, demo: str, words: Words) -> dict[str, str]:
    """A project in which everything bears the name, with its plans, a cut and a share; how routes are filled in."""
    job, browser = start_job(app, f"{demo}.demo"), Browser(here)
    document = named(job.document())
    document["shop"]["words"] = words.value
    job.save(document)
    in_the_shop(browser, words)
    on_the_rack(browser)
    for page in ("timber", "sheets"):
        worked_out(browser, f"/projects/{job.project_id}/{page}")
    cut_up(browser, job.project_id)
    return shared(job, far)


def walked(app: Any, here: httpx.Client, far: httpx.Client, known: dict[str, str], words: Words) -> set[str]:
    """Walk every page and file: none has turned the name. Which of them bear it."""
    bearing = set()
    for answer in (*followed(here, every_path(app, known)), *followed(far, [f"/view/{known['secret']}"])):
        assert reworded(answer.text, words) == [], answer.url
        if NAME in html.unescape(answer.text):
            bearing.add(answer.url.path.replace(known["project_id"], "p").replace(known["frame_id"], "f"))
    return bearing


@pytest.mark.parametrize(("demo", "words"), WALKS)
def test_a_typed_name_keeps_its_letters_on_every_page_and_file_after_a_restart_too(
    data_dir: Path, demo: str, words: Words
) -> None:
    with started(data_dir) as (app, here, far):
        known = planned_and_shared(app, here, far, demo, words)
        bearing = walked(app, here, far, known, words)
    with started(data_dir) as (app, here, far):
        assert walked(app, here, far, known, words) == bearing
    frame_pages = ("setting-out", *each_group("package"), *each_group("corners"), "look")
    pages = (*frame_pages, "package/fitting", "drawings/front.svg")
    assert bearing >= {f"/projects/p/frames/f/{one}" for one in pages}
    pages = ("timber", "timber/lists/buy.csv", "timber/lists/stops", "timber/reach", "costs", "quote", "client")
    assert bearing >= {f"/projects/p/{one}" for one in (*pages, "revisions", "project.json")} | {"/", "/rack", "/shop"}
    assert any(path.startswith("/rack/cuts/") for path in bearing)
    assert bearing >= {f"/projects/p/{one}" for one in ("sheets", "sheets/lists/parts.csv")}


@pytest.mark.parametrize("words", list(Words))
def test_a_field_that_cannot_be_read_is_quoted_as_it_was_typed(client: httpx.Client, words: Words) -> None:
    browser = Browser(client)
    in_the_shop(browser, words)
    address = browser.setting_out(browser.new())
    for page in ("setting-out", *each_group("package"), *each_group("corners"), "look"):
        at = address.replace("setting-out", page)
        sent = {name: NAME if "frames." in name else text for name, text in sent_by(browser.get(at)).items()}
        if NAME not in sent.values():
            continue  # a group on which nothing is typed
        answer = browser.post(f"{at}/preview", sent | {"do": "save"})
        assert NAME in html.unescape(answer.text)
        assert reworded(answer.text, words) == []


@pytest.mark.parametrize(("demo", "words"), DRAWN)
def test_what_is_drawn_by_command_keeps_a_typed_name(demo: str, words: Words, tmp_path: Path) -> None:
    document, file = named(demo_of(demo)), tmp_path / "project.json"
    document["shop"]["words"] = words.value
    file.write_text(project_text(document), "utf-8")
    assert main(["draw", str(file), "--out", str(tmp_path / "out")]) == 0
    files = [one for one in sorted((tmp_path / "out").rglob("*")) if one.is_file() and one.suffix != ".pdf"]
    written = [one.read_text("utf-8") for one in files]
    assert len(written) > 3 and sum(NAME in html.unescape(one) for one in written) > 3
    assert [reworded(one, words) for one in written] == [[] for _ in written]
