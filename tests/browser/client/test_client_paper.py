"""The quote and the page of a client on paper."""

import io
import json
from collections.abc import Callable
from typing import Any

import pytest
from clients import made_link, project_at, with_photo, without_strokes
from real_browser import needed
from shared import priced
from tablet import LANDSCAPE, press

from webapp.pages.projects.demos import demo

NOTE = "Ready in three weeks, if the oak comes in time. "


PAPERS = ("A4", "Letter")


def the_leaf(page: Any, paper: str) -> Any:
    """What a page prints on one leaf of paper."""
    pdfplumber = needed("pdfplumber")
    with pdfplumber.open(io.BytesIO(page.pdf(format=paper, prefer_css_page_size=False))) as printed:
        (leaf,) = printed.pages
        assert leaf.objects
    return leaf


def letters(leaf: Any) -> list[Any]:
    return [letter for letter in leaf.chars if letter["text"].strip()]


@pytest.mark.parametrize(("frames", "note", "shop_note"), [(1, 3, 3), (3, 41, 41), (12, 41, 3), (60, 3, 0)])
def test_a_quote_prints_on_one_page_and_nothing_is_cut_off(
    open_page: Callable[..., Any], frames: int, note: int, shop_note: int
) -> None:
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
    for paper in PAPERS:
        leaf = the_leaf(page, paper)
        text = leaf.extract_text()
        assert f"Linocut number {frames - 1}" in text and "Total" in text
        assert "The last word." in text and "The very end." in text
        assert min(letter["size"] for letter in letters(leaf)) >= 5.5
        assert max(letter["bottom"] for letter in letters(leaf)) < leaf.height - 20


def test_a_clients_page_prints_as_one_leaf_with_the_picture_at_its_size(open_page: Callable[..., Any]) -> None:
    """The sheet of the picture prints 100 mm wide. Outside 433 mm, with 0.085 of it and 0.8 of 20 mm of wall on either
    side, so the artwork of 280 × 200 mm is drawn at 100 / 538.6.
    """
    page = open_page(LANDSCAPE)
    look = with_photo(page)
    here = look.split("/frames/")[0]
    page.goto(f"{here}/client")
    page.locator("label:has([name=price])").tap()
    page.goto(made_link(page))
    without_strokes(page)
    scale = 100 / (433 + 2 * (433 * 0.085 + 20 * 0.8))
    for paper in PAPERS:
        leaf = the_leaf(page, paper)
        text = leaf.extract_text()
        assert "Approve" not in text and "Your name" not in text and "Ask for" not in text
        assert "Outside" in text and "agreed as drawn" in text and "Open until" in text and "Offer" in text
        found = [(image["width"] * 25.4 / 72, image["height"] * 25.4 / 72) for image in leaf.images]
        assert any(size == pytest.approx((280 * scale, 200 * scale), abs=0.2) for size in found), found
        assert max(letter["bottom"] for letter in letters(leaf)) < leaf.height - 20


def test_twelve_frames_with_long_notes_are_one_leaf(open_page: Callable[..., Any]) -> None:
    page = open_page(LANDSCAPE)
    document = priced(demo("cafe-prints.demo"))
    document["frames"] = [
        {**document["frames"][0], "id": f"fr{number}", "name": f"Linocut number {number}"} for number in range(12)
    ]
    document["assumed"] = []
    document["quote"]["note"] = NOTE * 40 + "The last word."
    page.goto("/")
    origin = {"Origin": "/".join(page.url.split("/")[:3])}
    answer = page.request.post("/projects/import", form={"pasted": json.dumps(document)}, headers=origin)
    page.goto(f"{project_at(type('At', (), {'url': answer.url}))}/client")
    page.goto(made_link(page))
    without_strokes(page)
    text = the_leaf(page, "Letter").extract_text()
    assert "Linocut number 11" in text and "The last word." in text and "agreed as drawn" in text
