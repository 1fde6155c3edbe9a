"""The real server, killed under four writers: what it has answered is on the disk."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.mark.skipif(os.name == "nt", reason="the harness forks")
def test_a_killed_server_loses_nothing_that_it_answered_and_planted_faults_are_found(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "tests.helpers.server_harness", str(tmp_path / "data"), "200", "200"]
    answer = subprocess.run(command, capture_output=True, text=True, check=True, cwd=ROOT)
    found = json.loads(answer.stdout)
    good = found.pop("good")
    assert good["kills"] == 200 and good["answered"] >= 100
    assert (good["damaged"], good["lost"]) == (0, 0)
    assert found["in-place"]["damaged"] > 0
    assert found["acknowledge-first"]["lost"] > 0 and found["draft-outside"]["lost"] > 0
