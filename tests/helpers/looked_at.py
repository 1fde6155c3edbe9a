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

WIDTH = "document.documentElement.scrollWidth"
ON_PAPER = f"""[[...document.querySelectorAll("button, .button, nav, input[type=file]")].filter(one =>
  !one.matches(".tick, .tick-step") && one.getClientRects().length && getComputedStyle(one).visibility !== "hidden"
).map(one => one.outerHTML.slice(0, 80)), {WIDTH}, getComputedStyle(document.documentElement).backgroundColor]"""
A4 = (703, 1027)
"""What lies inside the margins of A4."""

DRAWN = "document.fonts.ready.then(() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done))))"
"""Until the page has been drawn at its new size: what it fits to its own width is told that in the first frame."""


def faults(page: Any, *, axe_at: Sequence[tuple[int, int]] = ENDS) -> dict[str, Any]:
    """What axe, a quick eye and a sideways scroll find on a page, by the size that it is turned to."""
    found = {f"{size[0]} × {size[1]}": faults_at(page, size, axe_at=axe_at) for size in SIZES}
    turn(page, LANDSCAPE)
    return {size: fault for size, fault in found.items() if any(fault)}


def faults_at(
    page: Any, size: tuple[int, int], *, axe_at: Sequence[tuple[int, int]]
) -> tuple[list[str], dict[str, Any], bool]:
    """The same at one size; axe takes ten times as long as all the rest."""
    turn(page, size)
    look, width = page.evaluate(f"{DRAWN}.then(() => [{LOOK.strip()}, {WIDTH}])")
    violations = axe_violations(page, is_turned=size != axe_at[0]) if size in axe_at else []
    return violations, {key: value for key, value in look.items() if value != NOTHING[key]}, width > size[0]


def faults_on_paper(page: Any) -> list[Any]:
    """What is wrong when the page is printed: something that is pressed, a part beyond the edge, a ground in colour."""
    turn(page, A4)
    page.emulate_media(media="print")
    pressed, width, ground = page.evaluate(ON_PAPER)
    page.emulate_media(media="screen")
    turn(page, LANDSCAPE)
    is_right = (pressed, ground) == ([], "rgb(255, 255, 255)") and width <= A4[0]
    return [] if is_right else [pressed, width > A4[0], ground]


def turn(page: Any, size: tuple[int, int]) -> None:
    """Give the page a size, if it has another."""
    wanted = {"width": size[0], "height": size[1]}
    if page.viewport_size != wanted:
        page.set_viewport_size(wanted)


def axe_violations(page: Any, *, is_turned: bool = False) -> list[str]:
    """The names of the rules that a page breaks; listing the others would take long. See `axe.js`."""
    if not page.evaluate("'axe' in window || 'startAxe' in window && (startAxe(), true)"):
        start = f"window.startAxe = () => {{{axe.Axe().axe_script}}}"
        page.add_init_script(start)
        page.evaluate(f"(() => {{{start}; startAxe();}})()")
    violations: list[str] = page.evaluate(AXE, is_turned)
    return violations
