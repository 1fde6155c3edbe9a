"""What two jobs take from nothing to handing over, by following Next: `python tests/benchmarks/walk.py`.

Screens are pages that were opened, taps are forms sent, entries are fields that were filled. Printed, never judged.
"""

import sys
import tempfile
from pathlib import Path
from typing import Any

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS.parent), str(TESTS / "helpers"), str(TESTS / "webapp/pages/job")]

import httpx  # noqa: E402
from pages import Browser, Element  # noqa: E402
from serving import serving  # noqa: E402
from test_walk import Walker  # noqa: E402

from webapp.app import create_app  # noqa: E402

JOBS = {
    "photograph, inches": {"unit": "in", "kind": "photograph", "across": "8", "up": "10", "face_width": "1 1/4"},
    "canvas, millimetres": {"unit": "mm", "kind": "canvas", "across": "612", "up": "918", "face_width": "40"},
}


class Counting(Browser):
    """A browser that counts what a person does."""

    screens = taps = entries = 0

    def get(self, address: str, **more: Any) -> Element:
        self.screens += 1
        return super().get(address, **more)

    def post(self, address: str, sent: dict[str, str] | None = None, **more: Any) -> httpx.Response:
        self.taps += 1
        return super().post(address, sent, **more)

    def type(self, address: str, typed: dict[str, str], **more: Any) -> httpx.Response:
        self.entries += len(typed)
        return super().type(address, typed, **more)


def walked(job: dict[str, str]) -> str:
    """Walk a job, and say what it took."""
    with (
        tempfile.TemporaryDirectory() as data,
        serving(create_app(data_dir=Path(data))) as address,
        httpx.Client(base_url=address, timeout=30) as client,
    ):
        browser = Counting(client)
        walker = Walker(browser, browser.new(**job))
        walker.walk()
    steps, entries = len(walker.walked), browser.entries + len(job)
    return f"{steps} × Next, {browser.taps} taps, {entries} entries, {browser.screens} screens"


if __name__ == "__main__":
    for name, job in JOBS.items():
        print(f"{name}: {walked(job)}")
