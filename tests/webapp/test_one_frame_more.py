"""More kinds of jobs of which every page says the same: windows, many sides, batches, the words of the UK."""

from collections import Counter
from collections.abc import Callable
from typing import Any

import httpx
import pytest
from pages import Browser
from test_one_frame import STATES, Opened, test_every_place_says_the_same_of_every_frame

__all__ = ["test_every_place_says_the_same_of_every_frame"]

Document = dict[str, Any]


def changed(state: str, change: Callable[[Document], object]) -> Callable[[], Document]:
    """A job of the other states, its first frame changed."""

    def made() -> Document:
        document = STATES[state]()
        change(document["frames"][0])
        return document

    return made


def british(state: str) -> Callable[[], Document]:
    """A job of the other states in the words of the other side."""

    def made() -> Document:
        document = STATES[state]()
        return document | {"shop": document["shop"] | {"words": "UK"}}

    return made


def three_windows(frame: Document) -> None:
    picture = {"across": "150 mm", "up": "100 mm"}
    frame["package"]["mat"]["windows"] = [{"id": "w2"} | picture, {"id": "w3"} | picture]


MORE: dict[str, Callable[[], Document]] = {
    "octagon with a mat": changed("hexagon", lambda frame: frame.update(shape={"sides": 8, "size": "500 mm"})),
    "triangle": changed("hexagon", lambda frame: frame.update(shape={"sides": 3, "size": "320 mm"})),
    "hexagon in inches": changed("hexagon", lambda frame: frame.update(shape={"sides": 6, "size": "15 11/16 in"})),
    "twelve alike": changed("matted print", lambda frame: frame.update(count=12)),
    "twelve trays": changed("tray and box", lambda frame: frame.update(count=12)),
    "sloping inches": changed("inch job", lambda frame: frame.update(shape={"slope": "35"})),
    "twelve of a bought moulding": changed("bought moulding", lambda frame: frame.update(count=12)),
    "tray in UK words": british("tray and box"),
    "plain print in UK words": british("plain"),
}


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.fixture(params=MORE)
def job(request: pytest.FixtureRequest, browser: Browser) -> Opened:
    return Opened(browser, MORE[request.param]())


def test_every_window_of_three_is_as_large_on_the_page_and_for_the_client(browser: Browser) -> None:
    job = Opened(browser, changed("matted print", three_windows)())
    ((frame_id, truth),) = job.frames.items()
    assert truth.plan.package.mats is not None
    windows = truth.plan.package.mats.windows.windows
    sizes = Counter(f"{truth.plan.said(one.across_mm)} × {truth.plan.said(one.up_mm)}" for one in windows)
    assert len(windows) == 3 and len(sizes) == 2
    package, client = job.text(f"/frames/{frame_id}/package"), job.text("/client/preview?price=yes")
    for size, count in sizes.items():
        assert size in package and f"{count} of {size}" in client
