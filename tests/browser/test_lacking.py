"""Where the browser cannot start, its tests are left out and say what to install; where CI brings it, they fail."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from real_browser import CHROMIUM, NEEDS, playwright

ROOT = Path(__file__).parents[2]
ONE_TEST = "tests/browser/test_lacking.py::test_the_browser_starts"


def test_the_browser_starts(chromium: object) -> None:
    assert chromium


@pytest.mark.skipif(playwright is None or CHROMIUM is None, reason=NEEDS)
@pytest.mark.parametrize(("ci", "outcome"), [("", "1 skipped"), ("1", "1 error")])
def test_a_driver_that_does_not_start_is_told_with_what_it_wants(ci: str, outcome: str) -> None:
    command = [sys.executable, "-m", "pytest", "-rsE", "-p", "no:cacheprovider", "-p", "no:xdist", ONE_TEST]
    lame = os.environ | {"PLAYWRIGHT_NODEJS_PATH": sys.executable, "CI": ci, "COLUMNS": "400"}
    said = subprocess.run(command, cwd=ROOT, env=lame, capture_output=True, text=True, check=False).stdout
    assert outcome in said.splitlines()[-1]
    assert NEEDS in said
