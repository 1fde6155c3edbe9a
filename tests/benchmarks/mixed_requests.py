"""Many mixed requests from several clients: no error, and a memory that stays flat. Prints; leaves with 1 on an error.

    python tests/benchmarks/mixed_requests.py [--requests 20000] [--clients 8] [--minutes 60] [--seed 7]

The program itself serves a demo job and a few small ones. Each client opens pages and drawings at random, types and
saves, previews, ticks lines off, enters what came out, undoes and redoes, starts, renames, deletes and restores
projects, and sends what no page would. An error is a status of 500 or more, an answer that is not the program's own, or
none at all. The memory is that of the server; it is printed at each twentieth of the way, as soon as it is reached. It
grows until what is kept is full (drawings, revisions, sizes written), and is all but flat from then on: 224 MB after
9,000 requests, 263 MB after 21,600, 267 MB after 32,900, 272 MB after 38,600, with 2.3 million objects of Python from
25,000 to 60,000 requests. (A probe that reads all objects while threads work makes errors of its own.)
"""

import argparse
import os
import random
import socket
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Lock, Thread

import httpx
import psutil

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests/helpers")]

from every_route import every_path  # noqa: E402
from pages import PARTS, Browser, sent_by  # noqa: E402
from serving import client_of  # noqa: E402

from webapp.app import create_app  # noqa: E402

LEFT_OUT = ("/all.zip", "/all.pdf", "/backup/", "/static", "/delete")
"""What is made in a job of its own, what is no page, and what would end the projects that all clients work on."""

ODD = ("", "x", "-1", "1e400", "\x00", "½", "9" * 400, "zz:zz", "1 1/8 in")


@dataclass
class Tally:
    """What has been answered, and the memory of the server [MB] on the way."""

    server: psutil.Process
    most: int
    ends: float
    began: float = field(default_factory=time.monotonic)
    statuses: Counter[int] = field(default_factory=Counter)
    errors: list[str] = field(default_factory=list)
    memory_mb: list[float] = field(default_factory=list)
    slowest: tuple[float, str] = (0.0, "")
    lock: Lock = field(default_factory=Lock)

    @property
    def count(self) -> int:
        """Requests answered."""
        return self.statuses.total()

    @property
    def part(self) -> float:
        """How much of the way is done: from 0 to 1, where there were enough or the time is up."""
        return max(self.count / self.most, (time.monotonic() - self.began) / (self.ends - self.began))

    @property
    def is_over(self) -> bool:
        """Whether the way is at its end."""
        return self.part >= 1

    def take(self, answer: httpx.Response, took_s: float) -> None:
        """Count an answer."""
        said = f"{answer.status_code} {answer.request.method} {answer.request.url.path}"
        with self.lock:
            self.statuses[answer.status_code] += 1
            self.slowest = max(self.slowest, (took_s, said))
            if answer.status_code >= 500 or "x-rabbetry" not in answer.headers:
                self.errors.append(said)
            if self.part * 20 > len(self.memory_mb):
                self._weigh()

    def _weigh(self) -> None:
        """Take the memory of the server, and say it."""
        self.memory_mb.append(self.server.memory_info().rss / 1e6)
        after_s = time.monotonic() - self.began
        print(f"{after_s:6.0f} s {self.count:6} requests {self.memory_mb[-1]:6.0f} MB", flush=True)


@contextmanager
def served(folder: Path) -> Iterator[tuple[str, psutil.Process]]:
    """The program, serving a data folder on a free port."""
    with socket.create_server(("127.0.0.1", 0)) as free:
        port = free.getsockname()[1]
    command = [sys.executable, "-m", "webapp", "--data", str(folder), "--port", str(port)]
    environment = os.environ | {"PYTHONPATH": str(ROOT)}
    process = subprocess.Popen(command, cwd=ROOT, env=environment, stdout=subprocess.DEVNULL)
    try:
        for _ in range(600):
            with socket.socket() as line:
                if line.connect_ex(("127.0.0.1", port)) == 0:
                    break
            time.sleep(0.1)
        yield f"http://127.0.0.1:{port}", psutil.Process(process.pid)
    finally:
        process.terminate()
        process.wait()


@dataclass(frozen=True)
class Client:
    """One browser that does anything."""

    browser: Browser
    chance: random.Random
    paths: tuple[str, ...]
    projects: tuple[str, ...]
    tab: str

    def step(self) -> httpx.Response:
        """Send one request."""
        ways: dict[Callable[[], httpx.Response], int] = {
            self.look: 8, self.save: 3, self.preview: 3, self.tick: 4, self.measure: 1, self.turn_back: 2,
            self.come_and_go: 1, self.send_odd: 1,
        }  # fmt: skip
        (way,) = self.chance.choices(tuple(ways), tuple(ways.values()))
        return way()

    def look(self) -> httpx.Response:
        """Open a page, a list or a drawing."""
        return self.browser.client.get(self.chance.choice(self.paths))

    def save(self) -> httpx.Response:
        """Type into Setting-out and save."""
        address, form = self._typed()
        return self.browser.post(address, form | {"do": "save"})

    def preview(self) -> httpx.Response:
        """Type into Setting-out."""
        address, form = self._typed()
        return self.browser.post(f"{address}/preview", form, headers=PARTS)

    def tick(self) -> httpx.Response:
        """Tick a line off, or take that back."""
        key, part = f"{self.chance.randrange(400):010x}-cuts-1", self.chance.choice(("timber", "sheets", "bench"))
        return self._send(f"{part}/tick/{key}", {"done": self.chance.choice(("yes", "no")), "tab": self.tab})

    def measure(self) -> httpx.Response:
        """Enter what came out."""
        size = f"{self.chance.uniform(20, 30):.1f} mm"
        return self._send("bench/as-cut", {"frame": "all", "face width": size, "place": "width/1"})

    def turn_back(self) -> httpx.Response:
        """Undo, or redo."""
        at = self.chance.choice(self.projects)
        base = self.browser.client.get(f"{at}/newest").text
        return self.browser.post(f"{at}/{self.chance.choice(('undo', 'redo'))}", {"base": base, "tab": self.tab})

    def come_and_go(self) -> httpx.Response:
        """Start a project, rename it, delete it, bring it back, delete it."""
        at = f"/projects/{self.browser.new()}"
        self.browser.post(f"{at}/rename", {"name": "Mixed", "base": "1"})
        self.browser.post(f"{at}/delete")
        self.browser.post(f"/trash/{at.split('/')[2]}/restore")
        return self.browser.post(f"{at}/delete")

    def send_odd(self) -> httpx.Response:
        """Send what no page would."""
        form = {name: self.chance.choice(ODD) for name in ("do", "base", "name", "frame", "place", "once", "texts")}
        return self.browser.post(self.chance.choice(self.paths), form)

    def _send(self, place: str, form: dict[str, str]) -> httpx.Response:
        return self.browser.post(f"{self.chance.choice(self.projects)}/{place}", form)

    def _typed(self) -> tuple[str, dict[str, str]]:
        address = self.browser.setting_out(self.chance.choice(self.projects).split("/")[2])
        form = sent_by(self.browser.get(address)) | {"tab": self.tab}
        (path,) = [name for name in form if name.endswith("section.face_width")]
        return address, form | {path: self.chance.choice((f"{self.chance.randrange(20, 60)}", *ODD))}


def paths_of(browser: Browser, projects: tuple[str, ...]) -> tuple[str, ...]:
    """The addresses of every page, of every one of the projects."""
    with TemporaryDirectory() as folder:
        app = create_app(Path(folder) / "data")
        app.state.desk.store.close()
    found: dict[str, None] = {}
    for at in projects:
        project_id = at.split("/")[2]
        frame_id = browser.document(project_id)["frames"][0]["id"]
        for name in ("front", "section", "stops", "pieces", "corners"):
            known = {"project_id": project_id, "frame_id": frame_id, "number": "1", "name": name, "card": "mitre"}
            found |= dict.fromkeys(every_path(app, known | {"group": "1", "kind": "laser"}))
    return tuple(path for path in found if not any(part in path for part in LEFT_OUT))


def run(address: str, tally: Tally, *, clients: int, seed: int) -> None:
    """Let all clients do their steps at once until there were enough."""
    with client_of(address) as first:
        browser = Browser(first)
        browser.client.timeout = 120
        demo = browser.post("/projects/demos/cafe-prints.demo").headers["location"].partition("#")[0]
        projects = (demo, *(f"/projects/{browser.new()}" for _ in range(3)))
        paths = paths_of(browser, projects)
    threads = [
        Thread(target=_work, args=(address, tally, paths, projects, random.Random(seed + number), f"tab{number}"))
        for number in range(clients)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()


def _work(
    address: str, tally: Tally, paths: tuple[str, ...], projects: tuple[str, ...], chance: random.Random, tab: str
) -> None:
    with client_of(address) as line:
        line.timeout = 120
        sent_at = [0.0]
        line.event_hooks = {
            "request": [lambda request: sent_at.__setitem__(0, time.monotonic())],
            "response": [lambda answer: tally.take(answer, time.monotonic() - sent_at[0])],
        }
        client = Client(browser=Browser(line), chance=chance, paths=paths, projects=projects, tab=tab)
        while not tally.is_over:
            try:
                client.step()
            except (httpx.HTTPError, AssertionError, ValueError) as error:
                with tally.lock:
                    tally.errors.append(f"{type(error).__name__} {error}"[:200])


def main() -> int:
    """Send all of it and print what came of it."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--requests", type=int, default=20_000)
    parser.add_argument("--clients", type=int, default=8)
    parser.add_argument("--minutes", type=float, default=60)
    parser.add_argument("--seed", type=int, default=7)
    asked = parser.parse_args()
    with TemporaryDirectory() as folder, served(Path(folder) / "data") as (address, server):
        tally = Tally(server=server, most=asked.requests, ends=time.monotonic() + 60 * asked.minutes)
        run(address, tally, clients=asked.clients, seed=asked.seed)
    print(f"{tally.count} requests of {asked.clients} clients in {time.monotonic() - tally.began:.0f} s")
    print("answers:", ", ".join(f"{count} × {status}" for status, count in sorted(tally.statuses.items())))
    print(f"slowest: {tally.slowest[0]:.1f} s {tally.slowest[1]}")
    print(f"{len(tally.errors)} errors", *dict.fromkeys(tally.errors), sep="\n  ")
    return bool(tally.errors)


if __name__ == "__main__":
    sys.exit(main())
