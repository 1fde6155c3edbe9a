"""How a redraw grows with the frames of a project and with stops to find ways out of. Prints ratios; judges nothing.

    python -m tests.benchmarks.growth [CHECKOUT ...] [--rounds 5] [--requests 20]

A preview of the Setting-out page, in which all drawings change or none does, as server CPU per request against a bare
route of the same server, and against one frame with nothing wrong. Several checkouts of this product are measured in
turns, in one run; without one it is this checkout. The stops are those of a rabbet too narrow for its package, with
five ways out to try.
"""

import argparse
import json
import os
import random
import socket
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from contextlib import ExitStack, contextmanager
from copy import deepcopy
from functools import partial
from itertools import count
from pathlib import Path
from typing import Any, TypeVar

import httpx

sys.path.insert(0, str(Path(__file__).parents[1] / "helpers"))
from pages import PARTS, Browser, sent_by

from tests.benchmarks.figures import Figure, print_figures

HERE = Path(__file__).parents[2]

SERVE = """
import os, socket, sys, time
import uvicorn
from fastapi import Response
from pathlib import Path
from webapp.app import create_app
from webapp.server.memory import keep_what_is_made

app = create_app(data_dir=Path(sys.argv[1]))
body = Path("static/drawing.css").read_bytes()

@app.get("/bench/bare")
async def bare():
    return Response(body, media_type="text/css")

@app.get("/bench/cpu")
async def cpu():
    return {"seconds": time.process_time(), "pid": os.getpid()}

keep_what_is_made()
server = uvicorn.Server(uvicorn.Config(app, log_level="warning", access_log=False))
server.run(sockets=[socket.socket(fileno=int(sys.argv[2]))])
"""
"""The server of a checkout, with two routes of the benchmark's own: a bare answer; the process, and its time so far."""

Send = Callable[[], httpx.Response]
Kind = TypeVar("Kind", bound=Hashable)

AIMS = {"all drawn: 60 frames": 1.5, "none drawn: 60 frames": 1.5, "all drawn: 60 frames, stops on one": 4.0}
"""Of one frame with nothing wrong."""


@contextmanager
def running(checkout: Path) -> Iterator[Browser]:
    """The server of a checkout in a process of its own, with a data folder that goes with it."""
    with tempfile.TemporaryDirectory() as folder, serving(checkout, Path(folder) / "data") as browser:
        yield browser


@contextmanager
def serving(checkout: Path, data: Path) -> Iterator[Browser]:
    """The server of a checkout in a process of its own, with a data folder."""
    with socket.create_server(("127.0.0.1", 0)) as listener:
        listener.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        command = [sys.executable, "-c", SERVE, str(data), str(listener.fileno())]
        environment = os.environ | {"PYTHONPATH": str(checkout)}
        process = subprocess.Popen(command, cwd=checkout, env=environment, pass_fds=[listener.fileno()])
        address = f"http://127.0.0.1:{listener.getsockname()[1]}"
        try:
            with httpx.Client(base_url=address, timeout=60) as client:
                yield Browser(client)
        finally:
            process.terminate()
            process.wait()


def project_of(frames: int, *, stops: bool) -> dict[str, Any]:
    """The café demo with copies of its frame; with stops, the first one has a rabbet too narrow."""
    document: dict[str, Any] = json.loads((HERE / "framecalc/demos/cafe-prints.demo.json").read_text("utf-8"))
    first = document["frames"][0]
    document["frames"] = [
        deepcopy(first) | {"id": f"{number:02d}", "name": f"Print {number}"} for number in range(frames)
    ]
    if stops:
        document["frames"][0]["section"]["rabbet_width"] = "3 mm"
    document["assumed"] = []
    return document


def redraws_of(browser: Browser, document: dict[str, Any], turns: Iterator[int]) -> tuple[Send, Send]:
    """Requests for a redraw of the first frame, of all drawings and of none; no two of a server are alike."""
    answer = browser.post("/projects/import", files={"file": ("café.json", json.dumps(document))})
    path = browser.setting_out(answer.headers["location"].rsplit("/", 1)[1])
    form, here = sent_by(browser.get(path)), f"frames.{path.split('/')[4]}."
    holds = {"holds": ""}

    def preview(field: str, least_mm: float) -> httpx.Response:
        typed = {f"{here}{field}": f"{least_mm + next(turns) / 1000:.3f}"}
        answer = browser.post(f"{path}/preview", form | holds | typed, headers=PARTS)
        assert answer.status_code in (200, 204), answer.text[:300]
        holds["holds"] = answer.headers.get("x-holds", holds["holds"])
        return answer

    return partial(preview, "section.face_width", 22), partial(preview, "known.outside_across", 300)


def requests_of(browser: Browser) -> dict[str, Send]:
    """The kinds of request compared."""
    turns, sends = count(), {"bare route": partial(browser.client.get, "/bench/bare")}
    for frames, stops in ((1, False), (1, True), (60, False), (60, True)):
        name = f"{frames} frame{'s' * (frames > 1)}{', stops on one' * stops}"
        drawn, undrawn = redraws_of(browser, project_of(frames, stops=stops), turns)
        sends |= {f"all drawn: {name}": drawn, f"none drawn: {name}": undrawn}
    return dict(sorted(sends.items()))


def cpu_s(browser: Browser, send: Send, requests: int) -> float:
    """Server CPU per request [s] over some requests."""
    before = browser.client.get("/bench/cpu").json()["seconds"]
    for _ in range(requests):
        send()
    used: float = browser.client.get("/bench/cpu").json()["seconds"] - before
    return used / requests


def most_mb(pid: int) -> float:
    """The highest memory of a process until now [MB]; of one that has just begun, nothing of what began it."""
    status = Path(f"/proc/{pid}/status").read_text()
    return next(int(line.split()[1]) for line in status.splitlines() if line.startswith("VmHWM")) / 1000


def figures(checkouts: Sequence[Path] = (HERE,), *, rounds: int = 5, requests: int = 20) -> Iterator[Figure]:
    """Each kind of request of each checkout: medians of shuffled rounds."""
    with ExitStack() as servers:
        kinds = {
            (one.resolve().name, name): partial(cpu_s, browser, send, requests)
            for one in checkouts
            for browser in [servers.enter_context(running(one.resolve()))]
            for name, send in requests_of(browser).items()
        }
        middle = medians(kinds, rounds=rounds)
    for (where, name), cost in middle.items():
        several = f"{where} " * (len(checkouts) > 1)
        bare, one = middle[where, "bare route"], middle.get((where, f"{name.split(':')[0]}: 1 frame"))
        yield Figure(
            what=f"growth: {several}{name}",
            measured=cost / one if one and one != cost else cost / bare,
            unit="x one frame" if one and one != cost else "x bare",
            aim=AIMS.get(name),
            beside=f"CPU {cost * 1e3:.2f} ms, {cost / bare:.1f} x bare",
        )


def medians(kinds: Mapping[Kind, Callable[[], float]], *, rounds: int) -> dict[Kind, float]:
    """The median of what each kind is measured at, in shuffled rounds."""
    found: dict[Kind, list[float]] = {kind: [] for kind in kinds}
    for _ in range(rounds):
        for kind in random.sample(list(kinds), k=len(kinds)):
            found[kind].append(kinds[kind]())
    return {kind: statistics.median(measured) for kind, measured in found.items()}


def main() -> None:
    """Measure the checkouts asked for."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("checkouts", nargs="*", type=Path, default=[HERE])
    parser.add_argument("--rounds", type=int, default=5)
    parser.add_argument("--requests", type=int, default=20)
    asked = parser.parse_args()
    print_figures(figures(asked.checkouts, rounds=asked.rounds, requests=asked.requests))


if __name__ == "__main__":
    main()
