"""The store on a bad day: nothing acknowledged is lost."""

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from stored import CAFE, home, prints, saved

from webapp.data.errors import NotWritten, UnreadableFile
from webapp.data.store import Store

ROOT = Path(__file__).parents[4]


@pytest.mark.parametrize("content", ["", '{"schema": 1, "na', "[]", "{}", '{"saved": {"revision": "x"}}'])
def test_a_damaged_newest_revision_does_not_hide_the_older_ones(
    store: Store, cafe: str, data_dir: Path, content: str
) -> None:
    saved(store, cafe, prints(6))
    saved(store, cafe, prints(7))
    damaged = home(data_dir, cafe) / "r000003.json"
    damaged.write_text(content)
    head = store.head(cafe)
    assert (head.number, head.document, head.damaged) == (2, prints(6), (3,))
    assert "revision 3 is damaged" in store.list()[0].problem
    assert saved(store, cafe, prints(8)).number == 4
    assert store.undo(cafe, base=4, tab="t1").document == prints(6)
    assert damaged.read_text() == content


def test_a_project_without_one_readable_revision_is_still_listed(store: Store, cafe: str, data_dir: Path) -> None:
    (home(data_dir, cafe) / "r000001.json").write_text("")
    assert "not one of its revisions can be read" in store.list()[0].problem
    with pytest.raises(UnreadableFile):
        store.head(cafe)


@pytest.mark.parametrize("call", ["fsync", "replace"])
def test_a_full_disk_refuses_the_change_and_keeps_the_project(
    store: Store, cafe: str, data_dir: Path, monkeypatch: pytest.MonkeyPatch, call: str
) -> None:
    def refuse(*_: Any) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(os, call, refuse)
        with pytest.raises(NotWritten, match="No space left"):
            saved(store, cafe, prints(6))
        with pytest.raises(NotWritten, match="No space left"):
            store.create(CAFE)
    assert [path.name for path in data_dir.rglob("*.json")] == ["r000001.json"]
    assert list(data_dir.rglob(".tmp-*")) == []
    assert saved(store, cafe, prints(6)).number == 2


@pytest.mark.skipif(os.name == "nt", reason="the harness forks")
def test_a_killed_process_loses_nothing_that_it_acknowledged(tmp_path: Path) -> None:
    found = after_kills(tmp_path, kills=30, mode="good")
    assert found["versions"] >= 15, "every other child says that it has saved a version before it is killed"
    assert (found["damaged"], found["lost"], found["torn"]) == (0, 0, 0)


@pytest.mark.skipif(os.name == "nt", reason="the harness forks")
@pytest.mark.parametrize(("mode", "fault"), [("in-place", "damaged"), ("acknowledge-first", "lost")])
def test_the_harness_finds_a_planted_fault(tmp_path: Path, mode: str, fault: str) -> None:
    assert after_kills(tmp_path, kills=30, mode=mode)[fault] > 0


def after_kills(folder: Path, *, kills: int, mode: str) -> dict[str, int]:
    command = [sys.executable, "-m", "tests.helpers.crash_harness", str(folder / "data"), str(kills), mode]
    answer = subprocess.run(command, capture_output=True, text=True, check=True, cwd=ROOT)
    return json.loads(answer.stdout)
