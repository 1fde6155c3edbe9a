"""The largest project that is allowed: what a server takes for it, and its longest answer. Prints; judges nothing.

    python -m tests.benchmarks.largest_project

Sixty frames of 24 layers and 20 windows, 60 boards of 20 defects, 120 sheets and 60 cost items, or as much of it as a
form of 1 MB holds. Every page of the job is opened, one value saved, every plan asked for, drawings of a frame too.
"""

import json
import re
import sys
import time
from collections.abc import Callable, Iterable, Iterator
from functools import partial
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1] / "helpers"))
from pages import Browser, sent_by

from framecalc.project import project_document, project_text, read_project
from tests.benchmarks.figures import Figure, print_figures
from tests.benchmarks.growth import HERE, most_mb, running
from webapp.live.addresses import FRAME, PROJECT
from webapp.pages.all_pages import PAGES

FORM_BYTES, MOST_MB = 990_000, 300


def largest() -> tuple[dict[str, Any], str]:
    """The largest project that a form can bring, and how large it is."""
    document: dict[str, Any] = json.loads((HERE / "framecalc/demos/cafe-prints.demo.json").read_text("utf-8"))
    first = project_document(read_project(document))["frames"][0]
    layer = first["package"]["layers"][-1]
    document |= {"assumed": [], "timber": {"stock": boards()}, "sheets": {"stock": sheets(layer["thickness"])}}
    document["quote"] = {
        "items": [{"id": f"i{at}", "name": f"Item {at}", "price": "3"} for at in range(60)],
        "terms": {},
    }
    for layers in range(24, 3, -1):
        document["frames"] = [frame(first, at, layers) for at in range(60)]
        text = project_text(project_document(read_project(document)))
        if len(text.encode()) < FORM_BYTES:
            return document, f"60 frames of {layers} layers, {len(text.encode()) // 1000} kB"
    raise SystemExit("no such project fits a form")


def frame(first: dict[str, Any], at: int, layers: int) -> dict[str, Any]:
    """One of sixty frames, each of another size."""
    package, artwork = first["package"], dict(first["artwork"])
    more = [
        package["layers"][-1]
        | {"id": f"l{number}", "thickness": "0.1 mm", "tolerance": "0 mm", "name": f"Sheet {number}"}
        for number in range(layers - len(package["layers"]))
    ]
    artwork["across"] = f"{280 + at} mm"
    section = first["section"] | {"thickness": "40 mm", "rabbet_depth": "30 mm"}
    package = package | {"layers": [*package["layers"], *more]}
    return first | {"id": f"f{at}", "name": f"Print {at}", "package": package, "artwork": artwork, "section": section}


def boards() -> list[dict[str, Any]]:
    """Sixty boards with twenty defects each."""
    defects = [{"id": f"d{at}", "start": f"{100 * at + 10} mm", "end": f"{100 * at + 20} mm"} for at in range(20)]
    board = {"length": "2400 mm", "width": "150 mm", "thickness": "50 mm", "defects": defects}
    return [board | {"id": f"b{at}", "name": f"Board {at}", "in_hand": at % 2 == 0} for at in range(60)]


def sheets(thickness: str) -> list[dict[str, Any]]:
    """A hundred and twenty sheets."""
    sheet = {"across": "1220 mm", "up": "2440 mm", "serves": "plywood back", "thickness": thickness}
    return [sheet | {"id": f"s{at}", "name": f"Sheet {at}"} for at in range(120)]


def addresses(project_id: str, frame_id: str) -> Iterator[str]:
    """Every page of the job and of one of its frames, files and drawings."""
    more = {f"{FRAME}/woods", f"{PROJECT}/quote", f"{PROJECT}/project.json", f"{PROJECT}/timber/lists/stops"}
    more |= {f"{FRAME}/drawings/front.svg", f"{FRAME}/drawings/section.svg"}
    return filled_in({str(page.path) for page in PAGES} | more, project_id, frame_id)


def filled_in(paths: Iterable[str], project_id: str, frame_id: str) -> Iterator[str]:
    """The addresses of a project and of a frame, of paths that need no more to be known."""
    holes = {"project_id": project_id, "frame_id": frame_id}
    known = (path for path in paths if set(re.findall(r"{(\w+)}", path)) <= holes.keys())
    yield from (path.format(**holes) for path in sorted(known))


def figures(tell: Callable[[str], None] = lambda line: None) -> Iterator[Figure]:
    """Open everything, tell what each took, and find the most of it."""
    (document, size), costs_s = largest(), list[float]()
    with running(HERE) as browser:
        browser.client.timeout = 600
        server = browser.client.get("/bench/cpu").json()["pid"]
        for name, took_s in requests(browser, document):
            costs_s.append(took_s)
            tell(f"{took_s:7.2f} s {most_mb(server):5.0f} MB  {name}")
        yield Figure(
            what="largest project: highest memory", measured=most_mb(server), unit="MB", aim=MOST_MB, beside=size
        )
        yield Figure(what="largest project: most CPU for an answer", measured=max(costs_s), unit="s", beside=size)


def main() -> None:
    """Print what each took, and the most of it."""
    print_figures(figures(partial(print, flush=True)))


def requests(browser: Browser, document: dict[str, Any]) -> Iterator[tuple[str, float]]:
    """Everything that is asked, with the CPU it took."""
    answer, took_s = timed(
        browser, lambda: browser.post("/projects/import", files={"file": ("largest.json", json.dumps(document))})
    )
    project_id = answer.headers["location"].rsplit("/", 1)[1]
    yield "import", took_s
    for address in addresses(project_id, document["frames"][0]["id"]):
        answer, took_s = timed(browser, lambda address=address: browser.client.get(address, follow_redirects=True))
        yield f"{address.replace(project_id, '…')} {answer.status_code}", took_s
    yield from saves(browser, project_id)


def saves(browser: Browser, project_id: str) -> Iterator[tuple[str, float]]:
    """Save ten changes, then ask for plans of sticks and sheets, and look until they are there."""
    address = browser.setting_out(project_id)
    for number in range(10):
        sent = sent_by(browser.get(address))
        (path,) = [name for name in sent if name.endswith("section.face_width")]
        form = sent | {path: f"{25 + number}", "do": "save"}
        _, took_s = timed(browser, lambda form=form: browser.post(address, form))
        yield f"save {number + 1}", took_s
    for page in ("timber", "sheets"):
        at = f"/projects/{project_id}/{page}"
        form = sent_by(browser.get(at)) | {"do": "work"}
        answer, took_s = timed(browser, lambda at=at, form=form: browser.post(at, form))
        yield f"plan {page} {answer.status_code}", took_s
        for look in range(5):
            time.sleep(4)
            _, took_s = timed(browser, lambda at=at: browser.client.get(at))
            yield f"look at {page} {look + 1}", took_s


def timed(browser: Browser, send: Any) -> tuple[Any, float]:
    """An answer, and how much CPU the server took meanwhile [s]."""
    before = browser.client.get("/bench/cpu").json()["seconds"]
    answer = send()
    return answer, browser.client.get("/bench/cpu").json()["seconds"] - before


if __name__ == "__main__":
    main()
