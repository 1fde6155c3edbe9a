"""What axe, a quick eye and a sideways scroll find on a page."""

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


def faults(page: Any) -> dict[str, Any]:
    """What axe, a quick eye and a sideways scroll find on a page, by the size that it is turned to."""
    found = {f"{across} × {up}": faults_at(page, across, up) for across, up in SIZES}
    page.set_viewport_size({"width": LANDSCAPE[0], "height": LANDSCAPE[1]})
    return {size: fault for size, fault in found.items() if any(fault)}


def faults_at(page: Any, across: int, up: int) -> tuple[list[str], dict[str, Any], bool]:
    """Axe checks the page at its widest and its narrowest, which together show every element."""
    page.set_viewport_size({"width": across, "height": up})
    violations = [] if (across, up) == PORTRAIT else axe_violations(page)
    looked = {key: value for key, value in page.evaluate(LOOK).items() if value != NOTHING[key]}
    return violations, looked, page.evaluate("document.documentElement.scrollWidth") > across


def axe_violations(page: Any) -> list[str]:
    """The names of the rules that a page breaks; listing the others would take long. See `axe.js`."""
    if not page.evaluate("'axe' in window"):
        page.evaluate(axe.Axe().axe_script)
    violations: list[str] = page.evaluate(AXE)
    return violations
