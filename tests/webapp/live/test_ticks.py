"""Ticks of the largest jobs."""

from typing import Any

from framecalc.project import read_project
from webapp.pages.bench.view import TICKS
from webapp.pages.projects.demos import demo
from webapp.pages.timber.view import LISTS


def test_a_job_of_two_thousand_lines_loses_no_tick() -> None:
    """Fault: a file kept 480, and each further tick took the first one away without a word."""
    document: dict[str, Any] = demo("maple-canvas.demo")
    keys = [f"{number:010x}-cuts-1" for number in range(2000)]
    for number, key in enumerate(keys):
        document = (LISTS, TICKS)[number % 2].ticked(document, key, is_done=True)
    assert read_project(document).timber.done == tuple(keys)
