"""Kill the real server again and again under four writers, and look for what it had said was saved.

Each round has a child of its own that serves a fresh project. Four writers tick lines off, each its own, as fast as
they are answered; the child is killed at a random instant: every other one soon after its start, the rest soon after
its first answer. Every tick that was answered must then be in the newest revision, which must be whole.

    python -m tests.helpers.server_harness FOLDER KILLS [MOST_KILLS_OF_EACH_PLANTED_FAULT]

prints the findings as JSON: of the server as it is, and of one that writes in place, one that answers before it has
written, and one that makes its draft outside the lock. A harness that does not find those three proves nothing.
"""

import gc
import json
import os
import random
import shutil
import signal
import socket
import sys
import time
from collections.abc import Callable
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from threading import Event, Thread
from typing import Any

import uvicorn

import webapp.data.revisions
from tests.helpers.crash_harness import write_in_place
from tests.helpers.serving import serving
from webapp.app import create_app
from webapp.data.disk import write_safely
from webapp.data.revisions import Document, Revision
from webapp.data.store import Store
from webapp.pages.projects.demos import demo
from webapp.server.patience import patient_config

WRITERS = 4
PAGES = ("timber", "bench")
"""Writers tick on the lists and on the cards of the bench in turn: both keep their ticks in one place."""
PROOF = {"in-place": "damaged", "acknowledge-first": "lost", "draft-outside": "lost"}
"""What shows that a planted fault is found: its server is killed no more after that."""
MOST_TICKS = 400


def main(folder: Path, kills: int, planted: int) -> None:
    """Count the faults of many kills and print them."""
    random.seed(7)
    warm(folder)
    counts = {mode: kills if mode == "good" else planted for mode in FAULTS}
    print(json.dumps({mode: found_by(folder, count, mode) for mode, count in counts.items() if count}))


def found_by(folder: Path, kills: int, mode: str) -> dict[str, int]:
    """Count the faults of some kills of one kind of server."""
    found = {"kills": 0, "answered": 0, "damaged": 0, "lost": 0}
    for kill in range(kills):
        store = Store(folder)
        project_id = store.create(demo("maple-canvas.demo"))
        store.close()
        answered = kill_while_ticking(folder, project_id, mode, awaits_answer=mode != "good" or kill % 2 == 0)
        look_after_the_kill(folder, project_id, answered, found)
        if mode in PROOF and found[PROOF[mode]]:
            break
    return found


def warm(folder: Path) -> None:
    """Answer one request, so that every child finds all modules imported."""
    app = create_app(folder)
    project_id = app.state.desk.store.create(demo("maple-canvas.demo"))
    with serving(app) as address:
        tick(int(address.rpartition(":")[2]), project_id, 0, [], Event(), most=1)
    gc.collect()
    gc.freeze()


def kill_while_ticking(folder: Path, project_id: str, mode: str, *, awaits_answer: bool) -> list[str]:
    """Return the ticks that were answered."""
    listener = socket.create_server(("127.0.0.1", 0))
    port = listener.getsockname()[1]
    child = os.fork()
    if child == 0:
        serve(folder, listener, mode)
    listener.close()
    answered: list[str] = []
    first = Event()
    writers = [Thread(target=tick, args=(port, project_id, writer, answered, first)) for writer in range(WRITERS)]
    for writer in writers:
        writer.start()
    first.wait(timeout=30 if awaits_answer else 0)
    time.sleep(random.uniform(0.002, 0.03))
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    for writer in writers:
        writer.join()
    return answered


def serve(folder: Path, listener: socket.socket, mode: str) -> None:
    """Serve until the end, with a fault where one is to be planted."""
    FAULTS[mode]()
    uvicorn.Server(patient_config(create_app(folder))).run(sockets=[listener])
    os._exit(0)


def tick(port: int, project_id: str, writer: int, answered: list[str], first: Event, most: int = MOST_TICKS) -> None:
    """Tick one line after the other until the line is cut."""
    connection = HTTPConnection("127.0.0.1", port, timeout=30)
    headers = {"Origin": f"http://127.0.0.1:{port}", "Content-Type": "application/x-www-form-urlencoded"}
    try:
        for number in range(most):
            key = f"{writer:010x}-cuts-{number}"
            body = f"done=yes&tab=writer{writer}"
            page = PAGES[writer % len(PAGES)]
            connection.request("POST", f"/projects/{project_id}/{page}/tick/{key}", body, headers)
            answer = connection.getresponse()
            answer.read()
            if answer.status == 303:
                answered.append(key)
                first.set()
    except (OSError, HTTPException):
        connection.close()


def look_after_the_kill(folder: Path, project_id: str, answered: list[str], found: dict[str, int]) -> None:
    """Count what is lost and damaged, and clear it away: the next child starts in an empty folder."""
    found["kills"] += 1
    found["answered"] += len(answered)
    store = Store(folder)
    head = store.head(project_id)
    shutil.rmtree(store.folder(project_id))
    store.close()
    found["damaged"] += bool(head.damaged)
    found["lost"] += len(set(answered) - set(head.document.get("timber", {}).get("done", ())))


def plant_in_place() -> None:
    """Write under the final name, in two halves."""
    webapp.data.revisions.write_safely = write_in_place


def plant_acknowledge_first() -> None:
    """Answer before the file is there."""

    def later(path: Path, text: str) -> None:
        def write() -> None:
            time.sleep(0.01)
            write_safely(path, text)

        Thread(target=write).start()

    webapp.data.revisions.write_safely = later


def plant_draft_outside() -> None:
    """Make the draft from a head that was opened outside the lock of the project."""

    def change(self: Store, project_id: str, make: Callable[[Revision], Document], *, tab: str) -> Revision:
        document = make(self.head(project_id))
        with self._athead_of(project_id) as (history, _):
            return history.append(document, when=self._now(), tab=tab, step="save")

    planted: Any = Store
    planted.change = change


FAULTS: dict[str, Callable[[], None]] = {
    "good": lambda: None,
    "in-place": plant_in_place,
    "acknowledge-first": plant_acknowledge_first,
    "draft-outside": plant_draft_outside,
}


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]) if len(sys.argv) > 3 else 0)
