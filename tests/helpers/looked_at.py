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
NEWS = (Path(__file__).parents[1] / "browser/news.js").read_text("utf-8")
AXE = (Path(__file__).parents[1] / "browser/axe.js").read_text("utf-8")


ENDS = (LANDSCAPE, PHONE)
"""The widest and the narrowest, which together show every element of a page."""

_judged: set[str] = set()
"""What axe has judged in this process and found right."""

WIDTH = "document.documentElement.scrollWidth"
ON_PAPER = f"""[[...document.querySelectorAll("button, .button, nav, input[type=file]")].filter(one =>
  !one.matches(".tick, .tick-step") && one.getClientRects().length && getComputedStyle(one).visibility !== "hidden"
).map(one => one.outerHTML.slice(0, 80)), {WIDTH}, getComputedStyle(document.documentElement).backgroundColor]"""
A4 = (703, 1027)
"""What lies inside the margins of A4."""

DRAWN = "document.fonts.ready.then(() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done))))"
"""Until the page has been drawn at its new size: what it fits to its own width is told that in the first frame."""


def faults(page: Any) -> dict[str, Any]:
    """What axe, a quick eye and a sideways scroll find on a page, by the size that it is turned to, and back again."""
    found = faults_around(page)
    turn(page, LANDSCAPE)
    return found


def faults_around(page: Any, *, axe_at: Sequence[tuple[int, int]] = ENDS) -> dict[str, Any]:
    """The same, beginning with the size that the page has; it is left at the other end."""
    sizes = SIZES[::-1] if page.viewport_size["width"] == PHONE[0] else SIZES
    found = {f"{size[0]} × {size[1]}": faults_at(page, size, axe_at=axe_at) for size in sizes}
    return {size: fault for size, fault in found.items() if any(fault)}


def faults_at(
    page: Any, size: tuple[int, int], *, axe_at: Sequence[tuple[int, int]]
) -> tuple[list[str], dict[str, Any], bool]:
    """The same at one size."""
    turn(page, size)
    look, width = page.evaluate(f"{DRAWN}.then(() => [{LOOK.strip()}, {WIDTH}])")
    violations = axe_violations(page) if size in axe_at else []
    return violations, {key: value for key, value in look.items() if value != NOTHING[key]}, width > size[0]


def faults_on_paper(page: Any) -> list[Any]:
    """What is wrong when the page is printed: something that is pressed, a part beyond the edge, a ground in colour."""
    turn(page, A4)
    page.emulate_media(media="print")
    pressed, width, ground = page.evaluate(ON_PAPER)
    page.emulate_media(media="screen")
    is_right = (pressed, ground) == ([], "rgb(255, 255, 255)") and width <= A4[0]
    return [] if is_right else [pressed, width > A4[0], ground]


def turn(page: Any, size: tuple[int, int]) -> None:
    """Give the page a size, if it has another."""
    wanted = {"width": size[0], "height": size[1]}
    if page.viewport_size != wanted:
        page.set_viewport_size(wanted)


def axe_violations(page: Any) -> list[str]:
    """The names of the rules that a page breaks, if it has anything that axe has not judged yet. See `news.js`."""
    news: str = page.evaluate(NEWS, " ".join(_judged))
    if not news:
        return []
    if not page.evaluate("'axe' in window"):
        page.evaluate(f"(() => {{{axe.Axe().axe_script}}})()")
    violations: list[str] = page.evaluate(AXE)
    if not violations:
        _judged.update(news.split())
    return violations
