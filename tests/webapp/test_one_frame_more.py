"""More kinds of jobs of which every page says the same: windows, many sides, batches, the words of the UK."""

from collections import Counter
from collections.abc import Callable
from time import sleep
from typing import Any

import httpx
import pytest
from pages import Browser, sent_by
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


def chops(frame: Document) -> None:
    """The supplier of the moulding cuts the sides."""
    frame["section"]["moulding"] |= {"sale": "cut to size by the metre"}


def wood_of_panel_unknown(frame: Document) -> None:
    """A panel of solid wood, and a joint: nobody has said of which wood, nor measured how large."""
    frame["artwork"]["kind"] = "solid panel"
    frame["corner"] = {"joint": {"kind": "dowel"}}


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
    "matted print in UK words": british("matted print"),
    "chops": changed("bought moulding", chops),
    "panel of an unknown wood": changed("inch job", wood_of_panel_unknown),
    "off the tape": changed("inch job", lambda frame: frame["artwork"].update(across="11 7/32 in", up="13 29/64 in")),
    "hexagon off the tape": changed("hexagon", lambda frame: frame.update(shape={"sides": 6, "size": "401.3 mm"})),
}


@pytest.fixture
def browser(client: httpx.Client) -> Browser:
    return Browser(client)


@pytest.fixture(params=MORE)
def job(request: pytest.FixtureRequest, browser: Browser) -> Opened:
    return Opened(browser, MORE[request.param]())


def test_in_uk_words_the_lists_say_rebate(browser: Browser) -> None:
    """Fault: what is milled, and what an off-cut carries, was told in US words to all."""
    job = Opened(browser, british("matted print")())
    timber = f"{job.project_at}/timber"
    browser.post(timber, sent_by(browser.get(timber)) | {"do": "work"})
    while browser.get(timber).by_id("plans").attributes.get("hx-get"):
        sleep(0.05)
    assert [cells[1] for cells in job.rows("/timber/lists/mill.csv")] == ["Rebate"]
    carried = {cells[-1] for cells in job.rows("/timber/lists/left.csv")}
    assert carried - {"nothing yet"} == {"rebate 7 × 12.5 mm"}


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
