"""The command line as a shell starts it, and what it says."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
COMMAND = [sys.executable, "-m", "webapp"]


def rabbetry(*arguments: str | Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run([*COMMAND, *map(str, arguments)], capture_output=True, text=True, cwd=ROOT)


def the_sentence(code: int, out: str, err: str) -> str:
    """Check that a command was refused in one line, without a traceback, and return the line."""
    assert (code, out) == (2, ""), err
    (line,) = err.splitlines()
    assert line.startswith("rabbetry: ")
    return line
