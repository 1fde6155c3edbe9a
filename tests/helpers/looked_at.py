"""What axe, a quick eye and a sideways scroll find on a page."""

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


def axe_violations(page: Any) -> list[str]:
    """The names of the rules that a page breaks; listing the others would take long. See `axe.js`."""
    if not page.evaluate("'axe' in window"):
        page.evaluate(axe.Axe().axe_script)
    violations: list[str] = page.evaluate(AXE)
    return violations
