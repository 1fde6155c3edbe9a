"""What a start costs, as ratios to a bare application of the same libraries in the same run. Prints; judges nothing.

    python -m tests.benchmarks.start [--rounds 7]

Each line is a process of its own, from the interpreter to its end: imports alone, or the program itself, asked once for
a page by another process and then stopped. CPU is what the system counts for it, user and kernel; memory is its largest
resident set. Bytecode of modules and of templates is written beforehand, as it is from the second start on.
"""

import argparse
import json
import os
import signal
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from http.client import HTTPConnection
from pathlib import Path
from subprocess import PIPE
from urllib.parse import urlsplit

from tests.benchmarks.figures import Figure, print_figures
from tests.benchmarks.growth import HERE, most_mb
from webapp.data.store import Store

DEMOS = "cafe-prints.demo", "maple-canvas.demo", "ash-relief.demo"
AIMS = {"imports": 1.8, "first answer": 2.2}
"""Of a bare application."""

LIBRARIES = "import fastapi, fastapi.staticfiles, jinja2, pydantic, uvicorn"
ENDED = "; import os; print(flush=True); os.read(0, 1); os._exit(0)"
"""Imports are counted without what taking a process down costs; it ends when its memory has been looked at."""

BARE = (
    LIBRARIES
    + """
import contextlib, socket

class Greeting(pydantic.BaseModel):
    name: str

app, template = fastapi.FastAPI(), jinja2.Environment(autoescape=True).from_string("<p>Hello, {{ greeting.name }}</p>")

@app.get("/")
def hello() -> fastapi.Response:
    return fastapi.responses.HTMLResponse(template.render(greeting=Greeting(name="world")))

with contextlib.suppress(KeyboardInterrupt), socket.create_server(("127.0.0.1", 0)) as listener:
    print(f"at http://127.0.0.1:{listener.getsockname()[1]}/", flush=True)
    uvicorn.Server(uvicorn.Config(app, log_level="warning")).run(sockets=[listener])
"""
)
"""An application with one route, one model, one template."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """What one process took."""

    cpu_ms: float
    memory_mb: float


def cost_of(command: Sequence[str], *, asked: str = "") -> Cost:
    """Run a process to its end; one that serves is asked for a page once, and stopped."""
    environment = {**os.environ, "PYTHONPATH": str(HERE), "PYTHONDONTWRITEBYTECODE": "", "PYTHONUNBUFFERED": "1"}
    process = subprocess.Popen([sys.executable, *command], env=environment, stdin=PIPE, stdout=PIPE, text=True)
    with process:
        assert process.stdin and process.stdout
        said = process.stdout.readline()
        if asked:
            take_answer(said, asked)
        memory_mb = most_mb(process.pid)
        process.stdin.close()
        if asked:
            process.send_signal(signal.SIGINT)
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode not in (0, -signal.SIGINT):
        raise SystemExit(f"{command} ended with {process.returncode}")
    return Cost(cpu_ms=1000 * (used.ru_utime + used.ru_stime), memory_mb=memory_mb)


def take_answer(said: str, path: str) -> None:
    """Ask a server for a page, at the address that it has said, and see that it is a page."""
    address = urlsplit(next(word for word in said.split() if word.startswith("http://")))
    connection = HTTPConnection(str(address.hostname), address.port)
    connection.request("GET", path, headers={"Connection": "close"})
    answer = connection.getresponse()
    assert answer.status == 200 and answer.read(), answer.status
    connection.close()


def filled(folder: Path) -> str:
    """Start projects from the demos, and return where the first frame of the first one is set out."""
    store = Store(folder)
    documents = [json.loads((HERE / f"framecalc/demos/{name}.json").read_text("utf-8")) for name in DEMOS]
    ids = [store.create(document) for document in documents]
    store.close()
    return f"/projects/{ids[0]}/frames/{documents[0]['frames'][0]['id']}/setting-out"


def figures(*, rounds: int = 7) -> Iterator[Figure]:
    """Run the processes in turn, as often as asked, and put each against the bare one of its kind."""
    with tempfile.TemporaryDirectory() as name:
        empty, shop = ["-m", "webapp", "--port", "0", "--data", f"{name}/empty"], f"{name}/shop"
        setting_out = filled(Path(shop))
        lines: dict[str, Callable[[], Cost]] = {
            "bare: imports": lambda: cost_of(["-c", LIBRARIES + ENDED]),
            "bare: first answer": lambda: cost_of(["-c", BARE], asked="/"),
            "imports": lambda: cost_of(["-c", f"{LIBRARIES}, webapp.app{ENDED}"]),
            "first answer, no projects yet": lambda: cost_of(empty, asked="/"),
            f"first answer, {len(DEMOS)} projects": lambda: cost_of([*empty[:-1], shop], asked="/"),
            "first answer, Setting-out": lambda: cost_of([*empty[:-1], shop], asked=setting_out),
        }
        for take in lines.values():
            take()  # writes the bytecode, and what else is kept from one start to the next
        found = [{what: take() for what, take in lines.items()} for _ in range(rounds)]
    for what in lines:
        kind = "imports" if what.endswith("imports") else "first answer"
        bare = [one[f"bare: {kind}"] for one in found]
        yield figure_of(what, [one[what] for one in found], bare=bare, aim=None if "bare" in what else AIMS[kind])


def figure_of(what: str, costs: Sequence[Cost], *, bare: Sequence[Cost], aim: float | None) -> Figure:
    """The ratio of the CPU of the least disturbed processes; beside it that of the medians, and memory."""
    cpu, bare_cpu = ([one.cpu_ms for one in some] for some in (costs, bare))
    memory, bare_memory = (statistics.median(one.memory_mb for one in some) for some in (costs, bare))
    middle_ms, bare_middle_ms = statistics.median(cpu), statistics.median(bare_cpu)
    beside = f"{min(cpu):.0f} ms; medians {middle_ms / bare_middle_ms:.2f} x, {middle_ms:.0f} ms"
    return Figure(
        what=f"start: {what}",
        measured=min(cpu) / min(bare_cpu),
        unit="x bare",
        aim=aim,
        beside=f"{beside}; {memory:.0f} MB, {memory / bare_memory:.2f} x",
    )


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("--rounds", type=int, default=7)
    print_figures(figures(rounds=parser.parse_args().rounds))
