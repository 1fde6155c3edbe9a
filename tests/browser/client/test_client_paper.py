"""The quote and the page of a client on paper."""

import io
import json
from collections.abc import Callable
from typing import Any

import pytest
from clients import made_link, project_at, with_photo
from real_browser import needed
from shared import priced
from tablet import LANDSCAPE, press, settled

from webapp.pages.projects.demos import demo

NOTE = "Ready in three weeks, if the oak comes in time. "


@pytest.mark.parametrize(("frames", "note", "shop_note"), [(1, 3, 3), (3, 41, 41), (12, 41, 3), (60, 3, 0)])
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_quote_prints_on_one_page_and_nothing_is_cut_off(
    open_page: Callable[..., Any], frames: int, note: int, shop_note: int, paper: str
) -> None:
    pdfplumber = needed("pdfplumber")
    page = open_page(LANDSCAPE)
    document = priced(demo("cafe-prints.demo"))
    document["frames"] = [
        {**document["frames"][0], "id": f"fr{number}", "name": f"Linocut number {number}"} for number in range(frames)
    ]
    document["assumed"] = []
    document["quote"]["note"] = NOTE * note + "The last word."
    page.goto("/shop")
    page.locator("[name=client_note]").fill(NOTE * shop_note + "The very end.")
    press(page, page.locator("#main button[value=save]").first)
    origin = {"Origin": "/".join(page.url.split("/")[:3])}
    answer = page.request.post("/projects/import", form={"pasted": json.dumps(document)}, headers=origin)
    page.goto(f"{project_at(type('At', (), {'url': answer.url}))}/quote")
    assert "fits on one sheet" in page.locator("nav").inner_text()
    with pdfplumber.open(io.BytesIO(page.pdf(format=paper, prefer_css_page_size=False))) as printed:
        assert len(printed.pages) == 1
        (sheet,) = printed.pages
        text = sheet.extract_text()
        letters = [letter for letter in sheet.chars if letter["text"].strip()]
    assert f"Linocut number {frames - 1}" in text and "Total" in text
    assert "The last word." in text and "The very end." in text
    assert min(letter["size"] for letter in letters) >= 5.5
    assert max(letter["bottom"] for letter in letters) < sheet.height - 20


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_clients_page_prints_the_wall_at_its_scale_and_no_form(open_page: Callable[..., Any], paper: str) -> None:
    """The artwork is 280 × 200 mm, so at 1:20 the picture on the wall is 14 × 10 mm; a point is 1/72 in."""
    pdfplumber = needed("pdfplumber")
    page = open_page(LANDSCAPE)
    look = with_photo(page)
    page.locator("label:has([name$='.look.on_wall'][value=yes])").tap()
    settled(page)
    here = look.split("/frames/")[0]
    page.goto(f"{here}/client")
    page.locator("label:has([name=price])").tap()
    page.goto(made_link(page))
    assert "prints at scale 1:20" in page.locator(".wall").inner_text()
    with pdfplumber.open(io.BytesIO(page.pdf(format=paper, prefer_css_page_size=False))) as printed:
        assert len(printed.pages) <= 2
        text = " ".join(sheet.extract_text() for sheet in printed.pages)
        images = [image for sheet in printed.pages for image in sheet.images]
    assert "Approve" not in text and "Your name" not in text and "Outside" in text
    smallest = min(images, key=lambda image: image["width"])
    found_mm = (smallest["width"] * 25.4 / 72, smallest["height"] * 25.4 / 72)
    assert found_mm == pytest.approx((14, 10), abs=0.1)
