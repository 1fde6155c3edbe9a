"""Kill a saving process again and again, and check the disk after each kill.

A child saves versions 1, 2, 3, … and acknowledges each one on a pipe after `change` returned; it is killed at a random
instant: every other child soon after its start, the rest soon after their first word on the pipe, so that however slow
the machine is, there are versions to lose. The head must then be readable, whole, and of a version v with
acknowledged <= v <= acknowledged + 1.

    python -m tests.helpers.crash_harness FOLDER KILLS good|in-place|acknowledge-first

prints the findings as JSON. The last two are planted faults: a harness that does not find them proves nothing.
"""

import hashlib
import json
import os
import random
import signal
import sys
import time
from pathlib import Path
from typing import Any

import webapp.data.revisions
from webapp.data.store import Store


def main(folder: Path, kills: int, mode: str) -> None:
    """Count the faults of many kills and print them."""
    random.seed(7)
    if mode == "in-place":
        webapp.data.revisions.write_safely = write_in_place
    store = Store(folder, check=lambda document: None)
    project_id = store.create(version(0))
    store.close()
    found = {"kills": 0, "versions": 0, "damaged": 0, "lost": 0, "torn": 0, "leftover": 0}
    for kill in range(kills):
        acknowledged = kill_while_saving(folder, project_id, mode, awaits_word=kill % 2 == 0)
        look_after_the_kill(folder, project_id, acknowledged, found)
    print(json.dumps(found))


def write_in_place(path: Path, text: str) -> None:
    """Write the wrong way: under the final name, in two halves."""
    with path.open("w", encoding="utf-8") as file:
        file.write(text[: len(text) // 2])
        file.flush()
        time.sleep(0.005)
        file.write(text[len(text) // 2 :])


def version(number: int) -> dict[str, Any]:
    """Make a document whose size differs from version to version and which carries its own checksum."""
    rows = ["y" * 60 for _ in range(50 + number * 37 % 1500)]
    return {"name": "torture", "version": number, "rows": rows, "sum": checksum(number, rows)}


def checksum(number: int, rows: list[str]) -> str:
    return hashlib.sha256(json.dumps([number, rows]).encode()).hexdigest()


def kill_while_saving(folder: Path, project_id: str, mode: str, *, awaits_word: bool) -> int:
    """Return the last version that the child acknowledged, -1 when none."""
    reader, writer = os.pipe()
    child = os.fork()
    if child == 0:
        save_for_ever(folder, project_id, mode, writer)
    os.close(writer)
    first = os.read(reader, 1) if awaits_word else b""
    time.sleep(random.uniform(0.005, 0.06))
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    with os.fdopen(reader, "rb") as pipe:
        lines = (first + pipe.read()).split()
    return int(lines[-1]) if lines else -1


def save_for_ever(folder: Path, project_id: str, mode: str, pipe: int) -> None:
    store = Store(folder, check=lambda document: None)
    head = store.head(project_id)
    number = head.document["version"]
    while True:
        number += 1
        if mode == "acknowledge-first":
            os.write(pipe, b"%d\n" % number)
        store.change(project_id, lambda head: version(head.document["version"] + 1), tab="child")
        if mode != "acknowledge-first":
            os.write(pipe, b"%d\n" % number)


def look_after_the_kill(folder: Path, project_id: str, acknowledged: int, found: dict[str, int]) -> None:
    found["kills"] += 1
    found["leftover"] += len(list(folder.rglob(".tmp-*")))
    store = Store(folder, check=lambda document: None)
    head = store.head(project_id)
    store.close()
    number, rows = head.document["version"], head.document["rows"]
    found["versions"] = number
    found["damaged"] += bool(head.damaged)
    found["torn"] += head.document["sum"] != checksum(number, rows)
    found["lost"] += acknowledged >= 0 and not acknowledged <= number <= acknowledged + 1
    assert not list(folder.rglob(".tmp-*")), "the sweep at the start left a temporary file"


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]), sys.argv[3])
