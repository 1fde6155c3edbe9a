"""What a person takes along on paper is there, on as few leaves as it needs; `looked_at` looks at every page."""

import json
from collections.abc import Callable
from io import BytesIO
from typing import Any

import pytest
from real_browser import needed
from tablet import imported, take_demo

from framecalc.project.document import Document
from webapp.pages.projects.demos import demo

pdfplumber = needed("pdfplumber")

A4_AND_LETTER = ("A4", "Letter")


def leaves(page: Any, paper: str) -> Any:
    return pdfplumber.open(BytesIO(page.pdf(format=paper))).pages


def test_setting_out_prints_its_four_drawings_on_the_first_of_two_leaves(open_page: Callable[..., Any]) -> None:
    """Fault: on paper there was one drawing, or none."""
    page = open_page()
    take_demo(page, "cafe-prints.demo")
    for paper in A4_AND_LETTER:
        first, second = leaves(page, paper)
        text = first.extract_text()
        for drawing in ("Front", "Section", "Members", "Corner"):
            assert drawing in text, paper
        assert "All sizes" not in text and "All sizes" in second.extract_text()


def test_an_enlarged_drawing_prints_on_one_leaf(open_page: Callable[..., Any]) -> None:
    page = open_page()
    page.goto(imported(page, "cafe-prints.demo").replace("setting-out", "drawings/front"))
    for paper in A4_AND_LETTER:
        (leaf,) = leaves(page, paper)
        assert "scale 1:5" in leaf.extract_text(), paper


def twelve_frames() -> Document:
    document = demo("cafe-prints.demo")
    document["frames"] = [
        {**document["frames"][0], "id": f"fr{number}", "name": f"Linocut {number}", "count": 6} for number in range(2)
    ]
    document["frames"][1]["artwork"] = {**document["frames"][1]["artwork"], "across": "150 mm"}
    return document


@pytest.mark.parametrize(("document", "is_split"), [(twelve_frames(), True), (demo("ash-relief.demo"), False)])
def test_every_card_prints_on_the_leaves_that_it_names(
    open_page: Callable[..., Any], document: Document, is_split: bool
) -> None:
    """Faults: the second setting of the saw, and that of a tall section, stood on a leaf without a heading."""
    page = open_page()
    page.goto("/")
    origin = {"Origin": "/".join(page.url.split("/")[:3])}
    answer = page.request.post("/projects/import", form={"pasted": json.dumps(document)}, headers=origin)
    page.goto(f"{answer.url.split('/frames')[0]}/bench/print")
    headings = page.locator("article h2").all_inner_texts()
    assert not is_split or any(one.endswith("leaf 2 of 2") for one in headings)
    for paper in A4_AND_LETTER:
        printed = leaves(page, paper)
        assert len(printed) == len(headings), paper
        for leaf, heading in zip(printed, headings, strict=True):
            assert leaf.extract_text().startswith(heading.split(" leaf")[0]), paper
