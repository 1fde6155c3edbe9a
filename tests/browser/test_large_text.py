"""Text at twice its size, as a browser is told once for all pages: words wrap and nothing is out of sight."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from real_browser import CHROMIUM, FLAGS
from tablet import LANDSCAPE, PHONE, PORTRAIT, take_furnished_demo

from webapp.live.addresses import CORNERS
from webapp.live.grouped import GROUPED

LARGE_TEXT = (Path(__file__).parent / "large_text.js").read_text("utf-8")
OF_A_FRAME = (
    "setting-out",
    *(f"corners/{group}" for group in GROUPED[CORNERS]),
    "package/layers",
    "package/mat",
    "look",
    "wall/nails",
    "hand-over/label",
)
OF_A_JOB = (
    "",
    "/timber/stock",
    "/timber/reach",
    "/sheets",
    "/bench",
    "/bench/dry-fit/1",
    "/bench/glue-up-timetable",
    "/templates",
    "/costs",
    "/client",
    "/client/preview",
    "/client/choices",
    "/quote",
    "/revisions",
)
OF_THE_SHOP = ("/", "/rack", "/shop")
UNFOLDED = """document.querySelectorAll("details:not(.explain, .all-pages)").forEach(one => {
    one.name = ""; one.open = true })"""
TWICE = "--blink-settings=defaultFontSize=32"


@pytest.fixture(scope="module")
def large_text(chromium: Any) -> Iterator[Any]:
    """A browser of a reader who has asked for letters twice as large."""
    browser = chromium.browser_type.launch(executable_path=CHROMIUM, args=[*FLAGS, TWICE])
    yield browser
    browser.close()


def test_no_word_is_out_of_sight_at_twice_the_text_size(
    large_text: Any, address: str, open_page: Callable[..., Any]
) -> None:
    """With everything unfolded that a page folds."""
    at = take_furnished_demo(open_page(), "maple-canvas.demo").removesuffix("/setting-out")
    page = large_text.new_context(base_url=address, has_touch=True).new_page()
    job = at.split("/frames/")[0]
    found: dict[str, Any] = {}
    for where in (*(f"{at}/{tail}" for tail in OF_A_FRAME), *(job + tail for tail in OF_A_JOB), *OF_THE_SHOP):
        assert page.goto(where).ok
        page.evaluate(UNFOLDED)
        for width, height in (PHONE, PORTRAIT, LANDSCAPE):
            page.set_viewport_size({"width": width, "height": height})
            found[f"{where.removeprefix(job)}, {width} wide"] = page.evaluate(LARGE_TEXT)
    assert {where: words for where, words in found.items() if words} == {}
