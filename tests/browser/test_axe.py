"""Every page of every demo: no violation that axe knows of, and nothing that a quick eye would find wrong."""

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from everywhere import PARTS
from looked_at import ENDS, faults, faults_around, faults_on_paper
from tablet import LANDSCAPE, field, press, settled, take_demo

AXE_AT = {"ash-relief": (LANDSCAPE,), "maple-canvas": (LANDSCAPE,), "windows": (LANDSCAPE,)}
"""Where axe judges the pages of a part at one size; the other parts hold every kind of page, and it judges at both."""

ON_PAPER = "ash-relief"
"""The part whose pages are looked at on paper, too."""


def test_nothing_is_hard_to_read_at_the_first_start(open_page: Callable[..., Any]) -> None:
    page = open_page()
    page.goto("/")
    assert faults(page) == {}


@pytest.mark.parametrize("part", PARTS)
def test_no_page_keeps_anyone_out_or_is_hard_to_read(open_page: Callable[..., Any], part: str) -> None:
    """Each kind of page once in a part of the walk; of another frame, the pages with drawings are looked at too."""
    page = open_page()
    found: dict[str, Any] = {}
    judged: set[str] = set()
    for name, address in list(PARTS[part](page)):
        kind = re.sub("/frames/[^/]+", "/frames", address)
        is_the_same = kind in judged and re.search("/frames/(package|corners)/", kind)
        if is_the_same and part != ON_PAPER:
            continue
        page.goto(address)
        if not is_the_same:
            found[name] = faults_around(page, axe_at=() if kind in judged else AXE_AT.get(part, ENDS))
        if part == ON_PAPER:
            found[f"{name} on paper"] = faults_on_paper(page)
        judged.add(kind)
    assert judged and {name: fault for name, fault in found.items() if fault} == {}


def test_nor_does_a_page_in_trouble(open_page: Callable[..., Any]) -> None:
    page = open_page()
    found: dict[str, Any] = {}
    address = take_demo(page, "maple-canvas.demo")
    field(page, "section.rabbet_width").fill("wide")
    settled(page)
    found["a field in error"] = faults(page)
    field(page, "section.rabbet_width").fill("3")
    field(page, "package.clearance_across").fill("0")
    settled(page)
    found["stops and ways out"] = faults(page)
    field(page, "artwork.up")
    page.locator("[data-pad$='artwork-up']").tap()
    page.locator("#pad .sixteenths [data-fraction='3/16']").tap()
    page.locator("#pad .sixteenths [data-fraction='3/16']").tap()
    settled(page)
    found["the pad"] = faults(page)
    page.goto(address)
    field(page, "section.rabbet_width")
    page.locator("[id$='section-rabbet_width'] .explain summary").tap()
    found["an explanation"] = faults(page)
    width = field(page, "section.face_width")
    width.fill("3")
    other = page.context.new_page()
    other.goto(address)
    field(other, "section.face_width").fill("3 1/8")
    field(other, "section.face_width").blur()
    settled(other)
    width.blur()
    page.locator("#clash h2").wait_for()
    found["two tabs"] = faults(page)
    assert {name: fault for name, fault in found.items() if fault} == {}


def test_nor_does_what_a_client_sees(open_page: Callable[..., Any], tmp_path: Path) -> None:
    """The page under its link before and after the yes, the file to mail, and an address that opens nothing."""
    page, found = open_page(), {}
    here = take_demo(page, "cafe-prints.demo").split("/frames/")[0]
    field_page = page.url.replace("setting-out", "look")
    page.goto(field_page)
    page.locator("label:has([name$='.look.on_wall'][value=yes])").tap()
    settled(page)
    page.goto(f"{here}/client")
    page.locator("label:has([name=price])").tap()
    page.get_by_label("For", exact=True).fill("Ada")
    press(page, page.get_by_role("button", name="Make the link"))
    found["the link, just made"] = faults(page)
    link = page.locator("#link").input_value()
    share = page.get_by_role("link", name="Download the file for Ada").get_attribute("href")
    page.goto(link)
    found["before the yes"] = faults(page)
    page.get_by_label("Your name").fill("Ada")
    page.get_by_text("Add a note to your yes").tap()
    page.get_by_text("Ask for a change instead").tap()
    found["all unfolded"] = faults(page)
    page.get_by_label("Anything to add").fill("Thank you, we look forward to it.\n" * 4)
    press(page, page.get_by_role("button", name="Approve"))
    found["after the yes"] = faults(page)
    page.goto(f"{here}/client")
    found["the yes, as the owner sees it"] = faults(page)
    file = tmp_path / "frame.html"
    file.write_bytes(page.request.get(share).body())
    page.goto(file.as_uri())
    found["the file"] = faults(page)
    page.goto(link[:-3] + "AAA")
    found["nothing here"] = faults(page)
    assert {name: fault for name, fault in found.items() if fault} == {}
