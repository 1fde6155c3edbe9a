"""Every page of every demo: no violation that axe knows of, and nothing that a quick eye would find wrong."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from everywhere import every_page
from tablet import LANDSCAPE, PHONE, PORTRAIT, field, settled, take_demo

axe = pytest.importorskip("axe_playwright_python.sync_playwright")
LOOK = (Path(__file__).parent / "look.js").read_text("utf-8")
NOTHING = {
    "overlaps": [],
    "outside": [],
    "smallText": [],
    "smallTargets": [],
    "weakContrast": [],
    "doubledLines": 0,
}


def faults(page: Any, width: int) -> tuple[list[str], dict[str, Any], bool] | None:
    """What axe, a quick eye and a sideways scroll find on a page; None where they find nothing."""
    violations = [one["id"] for one in axe.Axe().run(page).response["violations"]]
    looked = {key: value for key, value in page.evaluate(LOOK).items() if value != NOTHING[key]}
    sideways = page.evaluate("document.documentElement.scrollWidth") > width
    return (violations, looked, sideways) if violations or looked or sideways else None


@pytest.mark.parametrize("size", [LANDSCAPE, PORTRAIT, PHONE], ids=["landscape", "portrait", "phone"])
def test_no_page_keeps_anyone_out_or_is_hard_to_read(open_page: Callable[..., Any], size: tuple[int, int]) -> None:
    page = open_page(size)
    found: dict[str, Any] = {}
    page.goto("/")
    found["first-start"] = faults(page, size[0])
    for name, address in list(every_page(page)):
        page.goto(address)
        found[name] = faults(page, size[0])
    assert {name: fault for name, fault in found.items() if fault} == {}


@pytest.mark.parametrize("size", [LANDSCAPE, PORTRAIT, PHONE], ids=["landscape", "portrait", "phone"])
def test_nor_does_a_page_in_trouble(open_page: Callable[..., Any], size: tuple[int, int]) -> None:
    page = open_page(size)
    found: dict[str, Any] = {}
    address = take_demo(page, "maple-canvas.demo")
    field(page, "section.rabbet_width").fill("wide")
    settled(page)
    found["a field in error"] = faults(page, size[0])
    field(page, "section.rabbet_width").fill("3")
    field(page, "package.clearance_across").fill("0")
    settled(page)
    found["stops and ways out"] = faults(page, size[0])
    page.locator("[data-pad$='artwork-up']").tap()
    page.locator("#pad .sixteenths [data-fraction='3/16']").tap()
    page.locator("#pad .sixteenths [data-fraction='3/16']").tap()
    settled(page)
    found["the pad"] = faults(page, size[0])
    page.goto(address)
    page.locator("[id$='section-rabbet_width'] .explain summary").tap()
    found["an explanation"] = faults(page, size[0])
    other = page.context.new_page()
    other.goto(address)
    field(other, "section.thickness").fill("1 1/8")
    field(other, "section.thickness").blur()
    settled(other)
    field(page, "section.face_width").fill("3")
    field(page, "section.face_width").blur()
    page.locator("#clash h2").wait_for()
    found["two tabs"] = faults(page, size[0])
    assert {name: fault for name, fault in found.items() if fault} == {}
