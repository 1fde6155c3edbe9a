"""Whether two checkouts are the same house: every drawing, every page's text and every plan, compared.

    python tests/benchmarks/same_house.py OLD NEW [--html] [--keep DIR]    crawl two checkouts and compare them
    python tests/benchmarks/same_house.py OLD --snapshot DIR               crawl one, and keep what it answers
    python tests/benchmarks/same_house.py NEW --against DIR [--html]       crawl one, and compare it with what was kept

A folder that was kept may stand for a checkout. `--quick` does with the demos and a few jobs, for both sides alike.

The safety net of a change that moves much and must change nothing. It knows no module of a checkout: it starts the
real server of each in a process of its own with an empty data folder, takes the demos, imports jobs made of them (every
joint, polygon, kind of artwork, section, start, mat), has all plans worked out, makes a client's link, marks a plan as
cut, follows every link, and sends every form's preview as it stands and with nonsense in every field; then it runs
`draw` on each project. What chance and the clock put in (ids, secrets, dates) is named in the order of appearance.

Visible text, drawings in pages, and all other files are compared; with `--html` the pages byte for byte too. A plan
that was searched for long may differ by the clock: what stands on it is told, and not judged.
Exit status: 0 for the same house, 1 for a difference.
"""

import argparse
import hashlib
import io
import json
import os
import re
import struct
import subprocess
import sys
import tempfile
import time
import zipfile
import zlib
from collections import Counter, deque
from collections.abc import Iterator
from contextlib import contextmanager
from copy import deepcopy
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Any
from urllib.parse import urlencode, urljoin

import httpx

sys.path.insert(0, str(Path(__file__).parents[1] / "helpers"))
from house_compare import ADDRESSES, OPEN, Answers, keep, kept_in, report, words_of
from house_jobs import DEMOS, JOBS, PLANNED, QUICK, frames_made
from pages import PARTS, Element, read, sent_by

NONSENSE = "x y"
ARCHIVE = b"PK\x03\x04"
"""How a zip file begins."""
ENTRY = "\x1e"
"""What parts the files of one, which stand in the order of their names, and names hold ids."""
CHOICES_TRIED = 3
"""In how many places the same choice of the same kind of form (a drawing on a paper) is asked for."""
LONGEST_WAIT_S = 600
LONG_SEARCH_S = 3.0
"""A search has parts that end by the clock; a plan that was there sooner than this is the same in every run."""
MONTHS = "Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec"
TIMES = (
    (re.compile(r"\b\d{4}-\d\d-\d\dT[\d:.]+(?:Z|\+00:00)?"), "«time»"),
    (re.compile(r"\b\d{8}T\d{6}Z"), "«time»"),
    (re.compile(rf"\b{date.today().isoformat()}\b"), "«today»"),
    (re.compile(rf"\b\d{{1,2}} (?:{MONTHS}) \d{{4}}(?:, \d\d:\d\d)?"), "«day»"),
    (re.compile(r"(?:http://)?127\.0\.0\.1:\d+"), "«here»"),
)
IDS = {
    "share": re.compile(r"/shares/([\w-]{4,})"),
    "secret": re.compile(r"/view/([\w-]{16,})"),
    "new": re.compile(r'name="new" value="([a-z0-9]{4,})"'),
    "item": re.compile(r"quote\.items\.([a-z0-9]{6})\b"),
    "once": re.compile(r'name="once" value="([^"]+)"'),
    "hash": re.compile(r"Code to quote: ([0-9a-f]{12})\b"),
    "cut": re.compile(r"/rack/cuts/([a-z0-9]{4,})"),
    "stick": re.compile(r"/rack/sticks/([a-z0-9]{4,})"),
}
"""Where an id made by chance shows what it is; it is then renamed wherever it stands."""


@dataclass
class House:
    """A served checkout: what it has answered so far, and the ids of its projects by the names of the jobs."""

    client: httpx.Client
    answers: Answers = field(default_factory=dict)
    names: dict[str, str] = field(default_factory=dict)
    asked: Counter[tuple[str, str]] = field(default_factory=Counter)

    def get(self, address: str, *, called: str = "") -> httpx.Response:
        """Ask for an address and keep what it says."""
        answer = self.client.get(address)
        kept = called or address
        if answer.is_redirect:
            self.answers[kept] = f"{answer.status_code} to\n{answer.headers['location']}"
        else:
            self.keep(kept, answer)
        return answer

    def keep(self, address: str, answer: httpx.Response) -> None:
        """Keep an answer under an address."""
        kind = answer.headers.get("content-type", "").split(";")[0]
        self.answers[address] = f"{answer.status_code} {kind}\n{body_of(answer.content)}"

    def send(self, address: str, sent: dict[str, str], **more: Any) -> httpx.Response:
        """Send a form."""
        answer = self.client.post(address, data=sent, **more)
        assert answer.status_code < 500, (address, answer.text)
        return answer

    def made(self, name: str, answer: httpx.Response) -> str:
        """Remember the project that an answer leads to."""
        assert answer.status_code == 303, (name, " ".join(words_of(answer.text).split())[:600])
        project = answer.headers["location"].rsplit("/", 1)[1]
        self.names[project] = name
        return project


def body_of(content: bytes) -> str:
    """What is kept of a file: its text, of a picture or a leaf its digest, of an archive all that is in it."""
    if content.startswith(ARCHIVE):
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            return "".join(f"{ENTRY}{name}\n{body_of(archive.read(name))}\n" for name in archive.namelist())
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError:
        return hashlib.sha256(content).hexdigest()


# ---------------------------------------------------------------- serving and filling a house


@contextmanager
def served(checkout: Path) -> Iterator[House]:
    """Serve a checkout from a process of its own, with an empty data folder that goes with it."""
    with tempfile.TemporaryDirectory() as folder:
        command = [sys.executable, "-m", "webapp", "--data", f"{folder}/data", "--port", "0"]
        server = subprocess.Popen(command, cwd=checkout, env=surroundings(checkout), stdout=subprocess.PIPE, text=True)
        try:
            assert server.stdout is not None
            told = re.search(r"http://127\.0\.0\.1:\d+", server.stdout.readline())
            assert told, f"{checkout} does not say where its pages are"
            with httpx.Client(base_url=told[0], timeout=120, headers={"Origin": told[0]}) as client:
                yield House(client)
        finally:
            server.terminate()
            server.wait()


def surroundings(checkout: Path) -> dict[str, str]:
    """What a process of a checkout is told by its environment; DXF lists some of its objects by their hashes."""
    alike = {"PYTHONDONTWRITEBYTECODE": "1", "PYTHONHASHSEED": "0", "TZ": "UTC"}
    return os.environ | {"PYTHONPATH": str(checkout)} | alike


def tell(words: str) -> None:
    """Say on the side how far it is."""
    print(f"{time.strftime('%X')} {words}", file=sys.stderr, flush=True)


def crawled(checkout: Path, *, quick: bool) -> Answers:
    """All that a checkout answers, its ids and times named."""
    tell(f"{checkout}: filling and planning")
    with served(checkout) as house:
        crawl(house, "/", "/rack", "/shop", "/devices", "/pair", "/nothing", before="empty: ")
        projects = fill(house, quick=quick)
        for project in projects:
            if house.names[project] in PLANNED:
                work_out(house, project)
        photo_taken(house, projects[-1])
        views = [link_made(house, projects[0], priced=False), link_made(house, projects[-1], priced=True)]
        tell("following every link")
        addresses = crawl(house, "/", *(f"/projects/{project}" for project in projects), *views)
        tell(f"{len(addresses)} addresses; sending previews")
        for address in addresses:
            preview(house, address)
        cut(house, [address for address in addresses if "/cut/" in address])
        tell("drawing")
        drawings = [drawn(house, checkout, project) for project in projects]
    for one in drawings:
        house.answers |= one
    return named(house)


def fill(house: House, *, quick: bool) -> list[str]:
    """Take the demos and import the jobs that are made of them; the ids of the projects."""
    projects = [house.made(name, house.send(f"/projects/demos/{name}.demo", {})) for name in DEMOS]
    demos = {
        name: house.client.get(f"/projects/{one}/project.json").json()
        for name, one in zip(DEMOS, projects, strict=True)
    }
    for name in QUICK if quick else JOBS:
        job = JOBS[name]
        document = frames_made(deepcopy(demos[job.demo]), name, job)
        projects.append(house.made(name, house.send("/projects/import", {"pasted": json.dumps(document)})))
    return projects


def work_out(house: House, project: str) -> None:
    """Have the timber and the sheets of a project planned, and wait until that is done."""
    for page in (f"/projects/{project}/timber", f"/projects/{project}/sheets"):
        form = sent_by(read(house.client.get(page).text))
        house.send(page, form | {"do": "work"})
        start = time.monotonic()
        while "Look again" in house.client.get(page).text:
            assert time.monotonic() < start + LONGEST_WAIT_S, f"{page} is never worked out"
            time.sleep(0.2)
        if time.monotonic() - start > LONG_SEARCH_S:
            house.answers[f"{OPEN}{project}"] = "200 text/plain\nThe clock may have ended a search."


def link_made(house: House, project: str, *, priced: bool) -> str:
    """Make a client's link and return its address."""
    page = read(house.client.get(f"/projects/{project}/client").text)
    sent = sent_by(page, "wish") | {"for_whom": "A client"}
    wanted = {name: text for name, text in sent.items() if priced or name != "price"}
    answer = house.send(f"/projects/{project}/shares", wanted)
    found = re.search(r"/view/[\w-]+", answer.text)
    assert found, ("no link was made", words_of(answer.text)[:600])
    return found[0]


def photo_taken(house: House, project: str) -> None:
    """Give the first frame of a project a photo: a sheet of squares."""
    rows = b"".join(b"\0" + bytes((x // 8 * 16 ^ y // 8 * 16) % 256 for x in range(160)) for y in range(120))

    def chunk(name: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))

    head = chunk(b"IHDR", struct.pack(">IIBBBBB", 160, 120, 8, 0, 0, 0, 0))
    png = b"\x89PNG\r\n\x1a\n" + head + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")
    frame = house.client.get(f"/projects/{project}/project.json").json()["frames"][0]["id"]
    answer = house.send(f"/projects/{project}/frames/{frame}/photo", {}, files={"photo": ("it.png", png, "image/png")})
    assert answer.is_redirect, words_of(answer.text)[:600]


def cut(house: House, addresses: list[str]) -> None:
    """Mark the first plan as cut that can be, and look at what that changes."""
    for address in addresses:
        page = read(house.client.get(address).text)
        forms = [form for form in page.all("form", method="post") if form.attributes.get("action") == address]
        if forms:
            record = house.send(address, fields_of(forms[0])).headers["location"]
            crawl(house, record, "/rack", "/", address.split("/cut/")[0], before="cut: ", follow=False)
            return


# ---------------------------------------------------------------- following links, sending previews


def crawl(house: House, *starts: str, before: str = "", follow: bool = True) -> list[str]:
    """Follow every link of this server, and return the addresses in the order they were found."""
    waiting, seen = deque(starts), dict.fromkeys(starts)
    while waiting:
        address = waiting.popleft()
        answer = house.get(address, called=before + address)
        found = links_of(house, address, answer) if follow else []
        new = [link for link in found if link not in seen]
        seen |= dict.fromkeys(new)
        waiting.extend(dict.fromkeys(new))
    return list(seen)


def links_of(house: House, address: str, answer: httpx.Response) -> list[str]:
    """The addresses of this server that a page leads to, by links and by forms that only ask."""
    if answer.is_redirect:
        return [answer.headers["location"].split("#")[0]]
    if not answer.headers.get("content-type", "").startswith("text/html"):
        return []
    page = read(answer.text)
    found = [
        one.attributes[key] for one in page.walk() for key in ("href", "src") if one.attributes.get(key, "#")[0] != "#"
    ]
    found += [asked for form in page.all("form", method="get") for asked in asked_by(form, house.asked)]
    joined = [urljoin(address, link).split("#")[0] for link in found]
    return [link for link in joined if link.startswith("/") and not link.startswith("//")]


def asked_by(form: Element, asked: Counter[tuple[str, str]]) -> Iterator[str]:
    """What a form that only asks can ask: as it stands, and each choice of its lists in a few places of its kind."""
    fields = {name: text for name, text in fields_of(form).items() if name != "once"}
    action = form.attributes.get("action", "")
    yield f"{action}?{urlencode(fields)}"
    for choice in form.all("select"):
        for option in choice.all("option"):
            one = fields | {choice.attributes["name"]: option.attributes.get("value", "")}
            asked[kind := (action.rsplit("/", 1)[-1], urlencode(one))] += 1
            if asked[kind] <= CHOICES_TRIED:
                yield f"{action}?{urlencode(one)}"


def fields_of(form: Element) -> dict[str, str]:
    """What a form sends by itself."""
    return sent_by(form, form)


def preview(house: House, address: str) -> None:
    """Ask for the preview of a page's form, as it stands and with nonsense in every field that is typed into."""
    kept = house.answers.get(address, "")
    posts = dict.fromkeys(re.findall(r'hx-post="([^"]+/preview)"', kept))
    if not posts:
        return
    page = read(kept)
    form = sent_by(page)
    typed = {one.attributes.get("name") for one in page.all("input") if one.attributes.get("type") == "text"}
    wrong = {name: NONSENSE if name in typed else text for name, text in form.items()}
    for post in posts:
        house.keep(f"preview: {post}", house.send(post, form, headers=PARTS))
        house.keep(f"nonsense: {post}", house.send(post, wrong, headers=PARTS))


def drawn(house: House, checkout: Path, project: str) -> Answers:
    """What `draw` writes of a project, by the names of the files."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder, "project.json")
        file.write_text(house.client.get(f"/projects/{project}/project.json").text, "utf-8")
        command = [sys.executable, "-m", "webapp", "draw", str(file), "--out", f"{folder}/out"]
        done = subprocess.run(command, cwd=checkout, env=surroundings(checkout), capture_output=True, text=True)
        if done.returncode:
            said = done.stderr.replace(folder, "")
            return {f"draw: {house.names[project]}/refused": f"{done.returncode} refused\n{said}"}
        out = Path(folder, "out")
        files = {str(one.relative_to(out)): one.read_bytes() for one in sorted(out.rglob("*")) if one.is_file()}
        return {f"draw: {house.names[project]}/{name}": f"200 file\n{body_of(one)}" for name, one in files.items()}


# ---------------------------------------------------------------- naming what chance and the clock put in


def named(house: House) -> Answers:
    """The answers with every id and time of this run replaced by a name that every run gives it."""
    names = dict(house.names)
    for kind, pattern in IDS.items():
        found = dict.fromkeys(one for text in house.answers.values() for one in pattern.findall(text))
        names |= {one: f"«{kind}-{number}»" for number, one in enumerate(found, start=1) if one not in names}
    ids = re.compile("|".join(map(re.escape, sorted(names, key=len, reverse=True))))

    def clean(text: str) -> str:
        text = ids.sub(lambda one: names[one[0]], text)
        for pattern, name in TIMES:
            text = pattern.sub(name, text)
        head, *entries = text.split(ENTRY)
        return head + "".join(sorted(entries))

    return {clean(address): clean(text) for address, text in house.answers.items()}


def main() -> int:
    """Crawl what is asked for, and compare it."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("checkouts", nargs="+", type=Path)
    parser.add_argument("--html", action="store_true", help="compare the pages byte for byte too")
    parser.add_argument("--quick", action="store_true", help="the demos and a few jobs only")
    parser.add_argument("--keep", type=Path, metavar="DIR", help="keep the answers of both in DIR/old and DIR/new")
    parser.add_argument("--snapshot", type=Path, metavar="DIR", help="crawl one checkout into this folder")
    parser.add_argument("--against", type=Path, metavar="DIR", help="compare one checkout with this snapshot")
    asked = parser.parse_args()
    if len(asked.checkouts) != (1 if asked.snapshot or asked.against else 2):
        parser.error("two checkouts, or one with --snapshot or --against")
    crawls = [
        kept_in(one) if (one / ADDRESSES).exists() else crawled(one.resolve(), quick=asked.quick)
        for one in asked.checkouts
    ]
    if asked.snapshot:
        keep(crawls[0], asked.snapshot)
        print(f"{len(crawls[0])} answers kept in {asked.snapshot}")
    if asked.snapshot and not asked.against:
        return 0
    old, new = kept_in(asked.against) if asked.against else crawls[0], crawls[-1]
    if asked.keep:
        keep(old, asked.keep / "old")
        keep(new, asked.keep / "new")
    return report(old, new, html=asked.html)


if __name__ == "__main__":
    sys.exit(main())
