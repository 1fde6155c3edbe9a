"""What a start costs, as ratios to a bare application of the same libraries in the same run. Prints; judges nothing.

    python tests/benchmarks/start.py [--rounds 7]

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
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from http.client import HTTPConnection
from pathlib import Path
from urllib.parse import urlsplit

ROOT = Path(__file__).parents[2]
DEMOS = "cafe-prints.demo", "maple-canvas.demo", "ash-relief.demo"
LIBRARIES = "import fastapi, fastapi.staticfiles, jinja2, pydantic, uvicorn"
ENDED = "; import os; os._exit(0)"
"""Imports are counted without what taking a process down costs."""

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
    memory_mib: float


def cost_of(command: Sequence[str], *, asked: str = "") -> Cost:
    """Run a process to its end; one that serves is asked for a page once, and stopped."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "", "PYTHONUNBUFFERED": "1"}
    with subprocess.Popen([sys.executable, *command], env=environment, stdout=subprocess.PIPE, text=True) as process:
        if asked and process.stdout:
            take_answer(process.stdout.readline(), asked)
            process.send_signal(signal.SIGINT)
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode not in (0, -signal.SIGINT):
        raise SystemExit(f"{command} ended with {process.returncode}")
    return Cost(cpu_ms=1000 * (used.ru_utime + used.ru_stime), memory_mib=used.ru_maxrss / 1024)


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
    from webapp.data.store import Store

    store = Store(folder)
    documents = [json.loads((ROOT / f"framecalc/demos/{name}.json").read_text("utf-8")) for name in DEMOS]
    ids = [store.create(document) for document in documents]
    store.close()
    return f"/projects/{ids[0]}/frames/{documents[0]['frames'][0]['id']}/setting-out"


def print_table(rounds: int) -> None:
    """Run the processes in turn, as often as asked, and print each against the bare one of its kind."""
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
        bare = "bare: imports" if what.endswith("imports") else "bare: first answer"
        print_line(what, [one[what] for one in found], bare=[one[bare] for one in found])


def print_line(what: str, costs: Sequence[Cost], *, bare: Sequence[Cost]) -> None:
    """One line: CPU and its ratio, both of the least disturbed process; the median; memory and its ratio."""
    cpu, bare_cpu = [one.cpu_ms for one in costs], min(one.cpu_ms for one in bare)
    memory, bare_memory = (statistics.median(one.memory_mib for one in some) for some in (costs, bare))
    print(
        f"{what:32} {min(cpu):5.0f} ms {min(cpu) / bare_cpu:5.2f}×   median {statistics.median(cpu):5.0f} ms"
        f"   {memory:4.0f} MiB {memory / bare_memory:4.2f}×"
    )


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("--rounds", type=int, default=7)
    sys.path.insert(0, str(ROOT))
    print_table(parser.parse_args().rounds)
