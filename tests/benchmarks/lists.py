"""How pages grow with what a shop keeps: projects, revisions, sticks, frames. Prints ratios; judges nothing.

    python -m tests.benchmarks.lists [CHECKOUT ...] [--rounds 3] [--requests 6]

Server CPU of a whole page and of a preview of the costs, each with much of something and with little of it, against
each other and against a bare route of the same server, with the bytes of the answer. Frames, the projects and revisions
of an old shop, and a full rack are measured by themselves, and then together.
"""

import argparse
import json
import shutil
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from functools import partial
from itertools import count
from pathlib import Path
from typing import Any

import httpx

sys.path.insert(0, str(Path(__file__).parents[1] / "helpers"))
from pages import PARTS, Browser, sent_by

from tests.benchmarks.figures import Figure, print_figures
from tests.benchmarks.growth import HERE, Send, cpu_s, medians, project_of, serving

LITTLE = {"projects": 20, "revisions": 10, "sticks": 0, "frames": 1}
SHOPS = {
    "little": LITTLE,
    "frames": LITTLE | {"frames": 60},
    "old shop": LITTLE | {"projects": 1000, "revisions": 2000},
    "full rack": LITTLE | {"sticks": 500},
    "much": {"projects": 1000, "revisions": 2000, "sticks": 500, "frames": 60},
}
"""What shops keep: little of everything, much of one thing, and much of everything."""

ITEMS = (
    {"id": "wood", "name": "Oak", "group": "wood", "measure": "board foot", "price": "9"},
    {
        "id": "glass",
        "name": "Glass",
        "group": "glass, boards and sheets",
        "measure": "square metre",
        "layer": "glazing",
        "price": "40",
    },
    {
        "id": "back",
        "name": "Back",
        "group": "glass, boards and sheets",
        "measure": "square metre",
        "layer": "backing",
        "price": "12",
    },
    {"id": "work", "name": "Joinery", "group": "work", "measure": "hour, each frame", "price": "50"},
)
"""What the frames of the measured job cost."""

AIMS = {
    ("much", "page: list of projects"): 2.0,
    ("much", "page: revisions"): 2.0,
    ("much", "preview: costs"): 4.0,
    ("full rack", "page: timber"): 1.5,
}
"""Of the same in a shop that has little."""

SIZE_AIMS_KIB = {("much", "page: sheets"): 120.0}


@contextmanager
def shop(checkout: Path, amount: dict[str, int]) -> Iterator[tuple[Browser, dict[str, str]]]:
    """A server whose data folder holds so much, and its projects: one with frames, one with revisions."""
    with tempfile.TemporaryDirectory() as folder:
        data = Path(folder) / "data"
        with serving(checkout, data) as browser:
            ids = {"frames": imported(browser, amount["frames"]), "revisions": imported(browser, 1)}
        filled(data, ids["revisions"], amount)
        with serving(checkout, data) as browser:
            yield browser, ids


def imported(browser: Browser, frames: int) -> str:
    """A project of so many frames with a quote, and its id."""
    text = json.dumps(project_of(frames, stops=False) | {"quote": {"items": list(ITEMS), "terms": {}}})
    answer = browser.post("/projects/import", files={"file": ("job.json", text)})
    return str(answer.headers["location"].rsplit("/", 1)[1])


def filled(data: Path, project_id: str, amount: dict[str, int]) -> None:
    """Fill a data folder: copies of a project, revisions that differ in a width, sticks of one wood."""
    project = data / "projects" / project_id
    for number in range(amount["projects"]):
        shutil.copytree(project, data / "projects" / f"p{number:07d}")
    document = json.loads((project / "r000001.json").read_text("utf-8"))
    for number in range(2, amount["revisions"] + 1):
        document["frames"][0]["section"]["face_width"] = f"{22 + number / 1000:.3f} mm"
        document["saved"] |= {"revision": number, "step": "save", "equals": number}
        (project / f"r{number:06d}.json").write_text(json.dumps(document), "utf-8")
    (data / "rack.json").write_text(json.dumps({"schema": 1, "sticks": list(map(stick, range(amount["sticks"])))}))


def stick(number: int) -> dict[str, Any]:
    """A stick of the wood of the demo."""
    size = {"length": f"{900 + number} mm", "width": "24 mm", "thickness": "21 mm"}
    return {"id": f"s{number:05d}", "tag": f"R{number + 1}", "species": "oak"} | size


def requests_of(browser: Browser, ids: dict[str, str]) -> dict[str, Send]:
    """What is asked, by name."""
    get, turns, job = browser.client.get, count(), f"/projects/{ids['frames']}"
    pages = {
        "list of projects": "/",
        "revisions": f"/projects/{ids['revisions']}/revisions",
        "timber": f"{job}/timber",
        "sheets": f"{job}/sheets",
        "costs": f"{job}/costs",
        "the job": job,
    }
    asked: dict[str, Send] = {f"page: {name}": partial(get, address) for name, address in pages.items()}
    form = sent_by(browser.get(f"{job}/costs"))
    price = next(name for name in form if name.endswith(".price"))

    def preview() -> httpx.Response:
        return browser.post(f"{job}/costs/preview", form | {price: f"{3 + next(turns)}"}, headers=PARTS)

    return {"bare route": partial(get, "/bench/bare"), **asked, "preview: costs": preview}


def figures(checkouts: Sequence[Path] = (HERE,), *, rounds: int = 3, requests: int = 6) -> Iterator[Figure]:
    """Each kind of request: medians of shuffled rounds, much against little."""
    with ExitStack() as stack:
        asked = {
            (checkout.resolve().name, keeps, name): (browser, send)
            for checkout in checkouts
            for keeps, amount in SHOPS.items()
            for browser, ids in [stack.enter_context(shop(checkout.resolve(), amount))]
            for name, send in requests_of(browser, ids).items()
        }
        middle = medians({kind: partial(cpu_s, *one, requests) for kind, one in asked.items()}, rounds=rounds)
        sizes_kib = {kind: len(send().content) / 1024 for kind, (_, send) in asked.items()}
    for (where, keeps, name), cost in middle.items():
        if keeps != "little":
            bare, little = middle[where, keeps, "bare route"], middle[where, "little", name]
            what, size_kib = (
                f"lists: {keeps}, {name}" + f", {where}" * (len(checkouts) > 1),
                sizes_kib[where, keeps, name],
            )
            beside = f"CPU {little * 1e3:.2f} -> {cost * 1e3:.2f} ms, {cost / bare:.1f} x bare, {size_kib:.0f} KiB"
            yield Figure(what=what, measured=cost / little, unit="x little", aim=AIMS.get((keeps, name)), beside=beside)
            if aim_kib := SIZE_AIMS_KIB.get((keeps, name)):
                yield Figure(what=what, measured=size_kib, unit="KiB", aim=aim_kib)


def main() -> None:
    """Measure the checkouts asked for."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("checkouts", nargs="*", type=Path, default=[HERE])
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--requests", type=int, default=6)
    asked = parser.parse_args()
    print_figures(figures(asked.checkouts, rounds=asked.rounds, requests=asked.requests))


if __name__ == "__main__":
    main()
