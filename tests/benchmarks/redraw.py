"""What a redraw costs, as ratios to a bare route of the same server in the same run. Prints; judges nothing.

    python tests/benchmarks/redraw.py [--rounds 7] [--requests 60]

Server CPU per request is what the serving process itself counts (process time), so it holds when the machine is busy.
Input-to-painted is measured in Chromium when it is installed, with the pause before a preview taken off.
"""

import argparse
import json
import multiprocessing
import random
import shutil
import socket
import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import httpx

sys.path.insert(0, str(Path(__file__).parents[1] / "helpers"))
from pages import PARTS, Browser, sent_by

from webapp.server.listener import listen

PAUSE_MS = 140
"""How long the page waits after a key before it asks for a preview (`hx-trigger` in the form)."""


def serve(folder: str, listener: socket.socket) -> None:
    """Serve the application with two routes of the benchmark's own: a bare answer, and the process time used so far."""
    import uvicorn
    from fastapi import Response

    from webapp.app import create_app
    from webapp.server.memory import keep_what_is_made

    app = create_app(data_dir=Path(folder))
    body = (Path(__file__).parents[2] / "static/drawing.css").read_bytes()

    @app.get("/bench/bare")
    async def bare() -> Response:
        return Response(body, media_type="text/css")

    @app.get("/bench/cpu")
    async def cpu() -> dict[str, float]:
        return {"seconds": time.process_time()}

    keep_what_is_made()
    server = uvicorn.Server(uvicorn.Config(app, log_level="warning", access_log=False))
    server.run(sockets=[listener])


@contextmanager
def running() -> Iterator[str]:
    """The server in a process of its own, on a free port, with a data folder that goes with it."""
    with tempfile.TemporaryDirectory() as folder, listen("127.0.0.1", 0) as listener:
        process = multiprocessing.Process(target=serve, args=(f"{folder}/data", listener), daemon=True)
        process.start()
        address = f"http://127.0.0.1:{listener.getsockname()[1]}"
        try:
            yield address
        finally:
            process.terminate()
            process.join()


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
        "validation alone (a field in error)": lambda turn: preview(section__face_width=f"{turn} {turn}"),
        "redraw, the same form again": lambda turn: preview(),
        "redraw, nothing new (a note)": lambda turn: send({"note": f"{turn}"}),
        "redraw, one drawing changed": lambda turn: preview(section__thickness=f"{20 + turn / 1000:.3f}"),
        "full redraw, all drawings changed": lambda turn: preview(section__face_width=f"{22 + turn / 1000:.3f}"),
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


def compare(browser: Browser, path: str, *, rounds: int, requests: int) -> None:
    """Print each kind of request as a ratio to the bare route: medians of shuffled rounds."""
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
        middle = statistics.median(used)
        times = sorted(latency[name])
        p50, p99 = times[len(times) // 2], times[int(0.99 * len(times))]
        cost = f"CPU {middle * 1e3:6.2f} ms  {middle / bare:6.1f}×"
        print(f"{name:38s} {cost}   p50 {p50 * 1e3:6.2f} ms  p99/p50 {p99 / p50:4.1f}")
    print_parts(bare)


def print_parts(bare: float) -> None:
    """Print computing without drawing, and each drawing by itself, as ratios to the bare route of this run."""
    from framecalc.drawing.registry import PANELS, draw_panel
    from framecalc.plan import Plan
    from framecalc.project import read_project

    demo = Path(__file__).parents[2] / "framecalc/demos/cafe-prints.demo.json"
    text = demo.read_text("utf-8")

    def planned(turn: int) -> Any:
        changed = text.replace('"face_width": "22 mm"', f'"face_width": "{23 + turn / 1000:.3f} mm"')
        assert changed != text
        (plan,) = Plan(read_project(json.loads(changed))).frames.values()
        plan.compute_all()
        return plan

    print(f"{'reading and computing, no drawing':38s} {median_s(planned) / bare:15.1f}×")
    plans = [planned(turn) for turn in range(40)]
    for name in PANELS:
        print(
            f"{'drawing ' + name:38s} {median_s(lambda turn, name=name: draw_panel(name, plans[turn])) / bare:15.1f}×"
        )


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


def paint(address: str, path: str, *, turns: int) -> None:
    """Print how long Chromium takes from an input to the painted drawings, the pause taken off, and its own work.

    Once as fast as this machine is, and once with the processor slowed four times, as in a cheap tablet.
    """
    chromium = shutil.which("chromium") or shutil.which("google-chrome")
    if chromium is None:
        print("input to painted: no Chromium on this machine")
        return
    from playwright.sync_api import sync_playwright

    with sync_playwright() as player:
        browser = player.chromium.launch(executable_path=chromium, args=["--no-sandbox", "--disable-gpu"])
        for slower in (1, 4):
            page = browser.new_context(viewport={"width": 1024, "height": 768}, has_touch=True).new_page()
            page.goto(address + path)
            page.wait_for_timeout(500)
            print(f"elements of the page: {page.locator('*').count()}")
            watch = page.context.new_cdp_session(page)
            watch.send("Performance.enable")
            watch.send("Emulation.setCPUThrottlingRate", {"rate": slower})
            selector = f'[name="frames.{path.split("/")[4]}.section.face_width"]'
            times, before = list[list[float]](), work_of(watch)
            for turn in range(turns):
                times.append(page.evaluate(PAINTED, [selector, f"{24 + turn / 10:.1f}", PAUSE_MS]))
                page.wait_for_timeout(250)
            print_painted(times, before, work_of(watch), slower=slower)
            page.close()
        browser.close()


WORK = {
    "TaskDuration": "all work",
    "ScriptDuration": "scripts",
    "RecalcStyleDuration": "style",
    "LayoutDuration": "layout",
}
"""What Chromium says of its own work on a page, and what it is called here."""


def work_of(watch: Any) -> dict[str, float]:
    """What a page has taken of Chromium's time until now [s]."""
    found = {one["name"]: one["value"] for one in watch.send("Performance.getMetrics")["metrics"]}
    return {name: found[name] for name in WORK}


def print_painted(times: list[list[float]], before: dict[str, float], after: dict[str, float], *, slower: int) -> None:
    """Print the times from an input to the painted drawings, and the work of one redraw."""
    from_input, from_answer = (f"p50 {p50:.0f} p95 {p95:.0f} ms" for p50, p95 in map(spread, zip(*times, strict=True)))
    work = ", ".join(f"{says} {(after[name] - before[name]) / len(times) * 1e3:.0f} ms" for name, says in WORK.items())
    print(f"input to painted, less the {PAUSE_MS} ms pause, processor {slower}x slower: ", end="")
    print(f"{from_input}, of that after the answer {from_answer}; {work}")


def spread(times: Iterable[float]) -> tuple[float, float]:
    """The median and the 95th of a hundred."""
    ordered = sorted(times)
    return ordered[len(ordered) // 2], ordered[int(0.95 * len(ordered))]


def main() -> None:
    """Run everything against the café demo."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--rounds", type=int, default=7)
    parser.add_argument("--requests", type=int, default=60)
    asked = parser.parse_args()
    with (
        running() as address,
        httpx.Client(base_url=address, timeout=30, transport=httpx.HTTPTransport(retries=50)) as client,
    ):
        browser = Browser(client)
        answer = browser.post("/projects/demos/cafe-prints.demo")
        path = browser.setting_out(answer.headers["location"].rsplit("/", 1)[1])
        compare(browser, path, rounds=asked.rounds, requests=asked.requests)
        paint(address, path, turns=30)


if __name__ == "__main__":
    main()
