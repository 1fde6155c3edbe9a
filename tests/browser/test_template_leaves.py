"""Templates printed from the browser: no leaf is shrunk, and each is a page of its own."""

from collections.abc import Callable
from io import BytesIO
from typing import Any

import pytest
from real_browser import needed
from tablet import imported

pdfplumber = needed("pdfplumber")

MM = 25.4 / 72
PX_PER_MM = 300 / 25.4
PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}


@pytest.mark.parametrize("paper", PAPERS)
def test_every_leaf_is_one_page_of_its_paper_with_bars_of_true_length(
    open_page: Callable[..., Any], paper: str
) -> None:
    leaves, pages = _printed(open_page, f"step=Mats&paper={paper}")
    assert len(pages) == leaves >= 4
    for page in pages:
        size = (float(page.width) * MM, float(page.height) * MM)
        assert size == pytest.approx(PAPERS[paper], abs=0.2)
        sizes = [_size(one) for one in (*page.lines, *page.rects, *page.curves)]
        for bar in ((100, 0), (0, 100), (101.6, 0), (0, 101.6)):
            assert any(one == pytest.approx(bar, abs=0.02) for one in sizes), (bar, sizes[:20])


def test_a_bar_is_true_to_one_pixel_at_300_dots_an_inch(open_page: Callable[..., Any]) -> None:
    _, (page, *_) = _printed(open_page, "step=Cutting&paper=a4")
    (bar,) = (one for one in (*page.lines, *page.curves) if _size(one) == pytest.approx((100, 0), abs=0.02))
    picture = page.to_image(resolution=300).original.convert("L")
    row = round((float(bar["top"]) * MM - 0.8) * PX_PER_MM)
    ticks = [_dark_mm(picture, row, float(bar[end]) * MM) for end in ("x0", "x1")]
    assert abs(ticks[1] - ticks[0] - 100) * PX_PER_MM <= 1


def _printed(open_page: Callable[..., Any], asked: str) -> tuple[int, list[Any]]:
    """How many leaves the page shows, and the pages that the browser prints of them."""
    page = open_page()
    at = imported(page, "cafe-prints.demo").split("/frames/")[0]
    page.goto(f"{at}/templates/print?{asked}")
    printed = page.pdf(prefer_css_page_size=True)
    return page.locator(".leaf").count(), list(pdfplumber.open(BytesIO(printed)).pages)


def _size(one: dict[str, Any]) -> tuple[float, float]:
    return float(one["x1"] - one["x0"]) * MM, float(one["bottom"] - one["top"]) * MM


def _dark_mm(picture: Any, row: int, near_mm: float) -> float:
    """The middle of what is dark within a millimetre of a place on a row of pixels."""
    first, last = (round((near_mm + way) * PX_PER_MM) for way in (-1, 1))
    dark = [x for x in range(first, last) if picture.getpixel((x, row)) < 128]
    return (sum(dark) / len(dark) + 0.5) / PX_PER_MM
