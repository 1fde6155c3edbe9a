"""What a redraw costs, as ratios to a bare route of the same server in the same run. Prints; judges nothing.

    python -m tests.benchmarks.redraw [--rounds 7] [--requests 60]

Server CPU per request is what the serving process itself counts (process time), so it holds when the machine is busy.
Input-to-painted is measured in Chromium when it is installed, with the pause before a preview taken off.
"""

import argparse
import json
import random
import statistics
import sys
import time
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import Any

import httpx

sys.path.insert(0, str(Path(__file__).parents[1] / "helpers"))
from pages import PARTS, Browser, sent_by
from real_browser import CHROMIUM, FLAGS, playwright

from tests.benchmarks.figures import Figure, print_figures
from tests.benchmarks.growth import HERE, running
from tests.benchmarks.largest_project import filled_in
from webapp.pages.all_pages import PAGES

AIMS = {
    "validation alone, a field in error": 5.0,
    "the same form again": 5.0,
    "nothing new, a note": 5.0,
    "one drawing changed": 9.0,
    "all drawings changed": 15.0,
}
"""Of a bare route."""

PAINTED_AIMS_MS = {1: 45.0, 4: 120.0}
"""The 95th of a hundred, by how many times the processor is slowed."""

MOST_ELEMENTS = 2500
PAUSE_MS = 140
"""How long the page waits after a key before it asks for a preview (`hx-trigger` in the form)."""


def requests_of(browser: Browser, path: str) -> dict[str, Callable[[int], httpx.Response]]:
    """The kinds of request compared; each is handed the number of its turn, so that no two are alike."""
    form, holds = sent_by(browser.get(path)), {"holds": ""}
    here = f"frames.{path.split('/')[4]}."

    def send(typed: dict[str, str]) -> httpx.Response:
        answer = browser.post(f"{path}/preview", form | holds | typed, headers=PARTS)
        holds["holds"] = answer.headers.get("x-holds", holds["holds"])
        return answer

    def preview(**typed: str) -> httpx.Response:
        return send({here + field.replace("__", "."): text for field, text in typed.items()})

    return {
        "bare route": lambda turn: browser.client.get("/bench/bare"),
        "validation alone, a field in error": lambda turn: preview(section__face_width=f"{turn} {turn}"),
        "the same form again": lambda turn: preview(),
        "nothing new, a note": lambda turn: send({"note": f"{turn}"}),
        "one drawing changed": lambda turn: preview(section__thickness=f"{20 + turn / 1000:.3f}"),
        "all drawings changed": lambda turn: preview(section__face_width=f"{22 + turn / 1000:.3f}"),
    }


def measure(browser: Browser, send: Callable[[int], httpx.Response], turns: range) -> tuple[float, list[float]]:
    """Server CPU per request [s] over some turns, and the latency of each [s]."""
    before = browser.client.get("/bench/cpu").json()["seconds"]
    latencies = []
    for turn in turns:
        start = time.perf_counter()
        send(turn)
        latencies.append(time.perf_counter() - start)
    return (browser.client.get("/bench/cpu").json()["seconds"] - before) / len(turns), latencies


def compared(browser: Browser, path: str, *, rounds: int, requests: int) -> Iterator[Figure]:
    """Each kind of request as a ratio to the bare route: medians of shuffled rounds."""
    kinds = requests_of(browser, path)
    cpu: dict[str, list[float]] = {name: [] for name in kinds}
    latency: dict[str, list[float]] = {name: [] for name in kinds}
    for turn in range(rounds):
        for name in random.sample(list(kinds), k=len(kinds)):
            used, latencies = measure(browser, kinds[name], range(1 + turn * requests, 1 + (turn + 1) * requests))
            cpu[name].append(used)
            latency[name] += latencies
    bare = statistics.median(cpu["bare route"])
    for name, used in cpu.items():
        middle, times = statistics.median(used), sorted(latency[name])
        p50, p99 = times[len(times) // 2], times[int(0.99 * len(times))]
        beside = f"CPU {middle * 1e3:.2f} ms, p50 {p50 * 1e3:.2f} ms, p99/p50 {p99 / p50:.1f}"
        yield Figure(what=f"redraw: {name}", measured=middle / bare, unit="x bare", aim=AIMS.get(name), beside=beside)
    yield from parts(bare)


def parts(bare: float) -> Iterator[Figure]:
    """Computing without drawing, and each drawing by itself, as ratios to the bare route of this run."""
    from framecalc.drawing.registry import PANELS, draw_panel
    from framecalc.plan import Plan
    from framecalc.project import read_project

    text = (HERE / "framecalc/demos/cafe-prints.demo.json").read_text("utf-8")

    def planned(turn: int) -> Any:
        changed = text.replace('"face_width": "22 mm"', f'"face_width": "{23 + turn / 1000:.3f} mm"')
        assert changed != text
        (plan,) = Plan(read_project(json.loads(changed))).frames.values()
        plan.compute_all()
        return plan

    yield Figure(what="redraw: computed, not drawn", measured=median_s(planned) / bare, unit="x bare")
    plans = [planned(turn) for turn in range(40)]
    for name in PANELS:
        drawn_s = median_s(lambda turn, name=name: draw_panel(name, plans[turn]))
        yield Figure(what=f"redraw: drawing {name}", measured=drawn_s / bare, unit="x bare")


def median_s(work: Callable[[int], Any], turns: int = 40) -> float:
    """The median process time of some turns [s]."""
    used = []
    for turn in range(turns):
        start = time.process_time()
        work(turn)
        used.append(time.process_time() - start)
    return statistics.median(used)


PAINTED = """async ([selector, text, pause]) => {
  const field = document.querySelector(selector), board = document.querySelector('#sizes');
  let answered = 0;
  document.addEventListener('htmx:before:response', () => { answered = performance.now(); }, {once: true});
  field.value = text;
  const start = performance.now();
  const changed = new Promise(done => new MutationObserver((_, seen) => {
    seen.disconnect(); requestAnimationFrame(() => setTimeout(() => done(performance.now()), 0));
  }).observe(board.parentElement, {childList: true, subtree: true, characterData: true, attributes: true}));
  field.dispatchEvent(new Event('input', {bubbles: true}));
  const painted = await changed;
  return [painted - start - pause, painted - answered];
}"""
"""From an input to the painted drawings, less the pause, and how much of it comes after the answer [ms]."""


def painted(address: str, path: str, *, turns: int = 30) -> Iterator[Figure]:
    """How long Chromium takes from an input to the painted drawings, the pause taken off, and its own work.

    Once as fast as this machine is, and once with the processor slowed four times, as in a cheap tablet.
    """
    if playwright is None or CHROMIUM is None:
        yield Figure(what="painted: there is no Chromium on this machine", measured=None, unit="")
        return
    with playwright.sync_playwright() as player:
        browser = player.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        for slower, aim_ms in PAINTED_AIMS_MS.items():
            page = browser.new_context(viewport={"width": 1024, "height": 768}, has_touch=True).new_page()
            page.goto(address + path)
            page.wait_for_timeout(500)
            watch = page.context.new_cdp_session(page)
            watch.send("Performance.enable")
            watch.send("Emulation.setCPUThrottlingRate", {"rate": slower})
            selector = f'[name="frames.{path.split("/")[4]}.section.face_width"]'
            times, before = list[list[float]](), work_of(watch)
            for turn in range(turns):
                times.append(page.evaluate(PAINTED, [selector, f"{24 + turn / 10:.1f}", PAUSE_MS]))
                page.wait_for_timeout(250)
            yield painted_figure(times, before, work_of(watch), slower=slower, aim_ms=aim_ms)
            page.close()
        yield largest_page(browser.new_page(), address, path)
        browser.close()


def largest_page(page: Any, address: str, path: str) -> Figure:
    """The elements of the page of the job that has most of them."""
    _, _, project_id, _, frame_id, _ = path.split("/")
    counts = {}
    for at in filled_in((str(one.path) for one in PAGES), project_id, frame_id):
        page.goto(address + at)
        counts[at] = page.locator("*").count()
    at = max(counts, key=lambda at: counts[at])
    beside = at.rpartition("/")[2]
    return Figure(what="elements of the largest page", measured=counts[at], unit="", aim=MOST_ELEMENTS, beside=beside)


WORK = {
    "TaskDuration": "all work, ms",
    "ScriptDuration": "scripts",
    "RecalcStyleDuration": "style",
    "LayoutDuration": "layout",
}
"""What Chromium says of its own work on a page, and what it is called here."""


def work_of(watch: Any) -> dict[str, float]:
    """What a page has taken of Chromium's time until now [s]."""
    found = {one["name"]: one["value"] for one in watch.send("Performance.getMetrics")["metrics"]}
    return {name: found[name] for name in WORK}


def painted_figure(
    times: list[list[float]], before: dict[str, float], after: dict[str, float], *, slower: int, aim_ms: float
) -> Figure:
    """The time from an input to the painted drawings, and the work of one redraw."""
    (p50, p95), (answer50, answer95) = (spread(column) for column in zip(*times, strict=True))
    work = ", ".join(f"{says} {(after[name] - before[name]) / len(times) * 1e3:.0f}" for name, says in WORK.items())
    return Figure(
        what=f"painted: after an input, less {PAUSE_MS} ms, {slower} x slower, p95",
        measured=p95,
        unit="ms",
        aim=aim_ms,
        beside=f"p50 {p50:.0f} ms; after the answer p50 {answer50:.0f}, p95 {answer95:.0f}; {work}",
    )


def spread(times: Iterable[float]) -> tuple[float, float]:
    """The median and the 95th of a hundred."""
    ordered = sorted(times)
    return ordered[len(ordered) // 2], ordered[int(0.95 * len(ordered))]


def figures(*, rounds: int = 7, requests: int = 60) -> Iterator[Figure]:
    """Everything, of the café demo."""
    with running(HERE) as browser:
        answer = browser.post("/projects/demos/cafe-prints.demo")
        path = browser.setting_out(answer.headers["location"].rsplit("/", 1)[1])
        yield from compared(browser, path, rounds=rounds, requests=requests)
        yield from painted(str(browser.client.base_url).rstrip("/"), path)


def main() -> None:
    """Run everything."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--rounds", type=int, default=7)
    parser.add_argument("--requests", type=int, default=60)
    asked = parser.parse_args()
    print_figures(figures(rounds=asked.rounds, requests=asked.requests))


if __name__ == "__main__":
    main()
