"""What axe, a quick eye and a sideways scroll find on a page, and what should not be seen of it on paper."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from real_browser import needed
from tablet import LANDSCAPE, PHONE, PORTRAIT

axe = needed("axe_playwright_python.sync_playwright")
LOOK = (Path(__file__).parents[1] / "browser/look.js").read_text("utf-8")
NOTHING = {
    "overlaps": [],
    "outside": [],
    "smallText": [],
    "smallTargets": [],
    "weakContrast": [],
    "doubledLines": 0,
}


SIZES = (LANDSCAPE, PORTRAIT, PHONE)
AXE = (Path(__file__).parents[1] / "browser/axe.js").read_text("utf-8")


ENDS = (LANDSCAPE, PHONE)
"""The widest and the narrowest, which together show every element of a page."""

PRESSED = """() => [...document.querySelectorAll("button, .button, nav, input[type=file]")].filter(one =>
  !one.matches(".tick, .tick-step") && one.getClientRects().length && getComputedStyle(one).visibility !== "hidden"
).map(one => one.outerHTML.slice(0, 80))"""
A4 = (703, 1027)
"""What lies inside the margins of A4."""

DRAWN = "document.fonts.ready.then(() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done))))"
"""Until the page has been drawn at its new size: what it fits to its own width is told that in the first frame."""


def faults(page: Any, *, axe_at: Sequence[tuple[int, int]] = ENDS) -> dict[str, Any]:
    """What axe, a quick eye and a sideways scroll find on a page, by the size that it is turned to."""
    found = {f"{size[0]} × {size[1]}": faults_at(page, size, with_axe=size in axe_at) for size in SIZES}
    page.set_viewport_size({"width": LANDSCAPE[0], "height": LANDSCAPE[1]})
    return {size: fault for size, fault in found.items() if any(fault)}


def faults_at(page: Any, size: tuple[int, int], *, with_axe: bool) -> tuple[list[str], dict[str, Any], bool]:
    """The same at one size; axe takes ten times as long as all the rest."""
    page.set_viewport_size({"width": size[0], "height": size[1]})
    page.evaluate(DRAWN)
    violations = axe_violations(page) if with_axe else []
    looked = {key: value for key, value in page.evaluate(LOOK).items() if value != NOTHING[key]}
    return violations, looked, page.evaluate("document.documentElement.scrollWidth") > size[0]


def faults_on_paper(page: Any) -> list[Any]:
    """What is wrong when the page is printed: something that is pressed, a part beyond the edge, a ground in colour."""
    page.set_viewport_size({"width": A4[0], "height": A4[1]})
    page.emulate_media(media="print")
    pressed = page.evaluate(PRESSED)
    is_wide = page.evaluate("document.documentElement.scrollWidth") > A4[0]
    ground = page.evaluate("getComputedStyle(document.documentElement).backgroundColor")
    page.emulate_media(media="screen")
    return [pressed, is_wide, ground] if (pressed, is_wide, ground) != ([], False, "rgb(255, 255, 255)") else []


def axe_violations(page: Any) -> list[str]:
    """The names of the rules that a page breaks; listing the others would take long. See `axe.js`."""
    if not page.evaluate("'axe' in window"):
        page.evaluate(axe.Axe().axe_script)
    violations: list[str] = page.evaluate(AXE)
    return violations
