"""Where the browser cannot start, its tests are left out and say what to install; where CI brings it, they fail."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from real_browser import CHROMIUM, NEEDS, playwright

HELPERS = Path(__file__).parents[1] / "helpers"
ONE_TEST = """
import pytest
from real_browser import browsers

@pytest.fixture
def chromium():
    yield from browsers()

def test_the_browser_starts(chromium):
    assert chromium
"""


def test_the_browser_starts(chromium: object) -> None:
    assert chromium


@pytest.mark.skipif(playwright is None or CHROMIUM is None, reason=NEEDS)
@pytest.mark.parametrize(("ci", "outcome"), [("", "1 skipped"), ("1", "1 error")])
def test_a_driver_that_does_not_start_is_told_with_what_it_wants(ci: str, outcome: str, tmp_path: Path) -> None:
    (tmp_path / "test_one.py").write_text(ONE_TEST)
    command = [sys.executable, "-m", "pytest", "-rsE", "-p", "no:cacheprovider", "test_one.py"]
    plain = {"PYTHONPATH": str(HELPERS), "PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1", "COLUMNS": "400"}
    lame = os.environ | plain | {"PLAYWRIGHT_NODEJS_PATH": sys.executable, "CI": ci}
    said = subprocess.run(command, cwd=tmp_path, env=lame, capture_output=True, text=True, check=False).stdout
    assert outcome in said.splitlines()[-1]
    assert NEEDS in said
