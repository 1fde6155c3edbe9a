"""Every page of every demo project, for whoever looks at all of them."""

from collections.abc import Iterator
from typing import Any

from tablet import DEMOS, press, take_demo


def every_page(page: Any) -> Iterator[tuple[str, str]]:
    """Take every demo project and name every page there is: a name for a file, and the address."""
    for path in DEMOS:
        name = path.name.split(".")[0]
        address = take_demo(page, path.stem)
        frames = [link.get_attribute("href") for link in page.locator(".frames a").all()]
        for number, frame in enumerate(frames, start=1):
            yield f"{name}-{number}-setting-out", frame
            yield f"{name}-{number}-package", frame.replace("setting-out", "package")
            yield f"{name}-{number}-corners", frame.replace("setting-out", "corners")
            yield f"{name}-{number}-look", frame.replace("setting-out", "look")
            for drawing in ("front", "section", "members", "corner"):
                yield f"{name}-{number}-{drawing}", frame.replace("setting-out", f"drawings/{drawing}")
        yield from _pages_of_timber(page, name, address.split("/frames/")[0] + "/timber")
        yield f"{name}-reach", address.split("/frames/")[0] + "/timber/reach"
        yield from _pages_of_sheets(page, name, address.split("/frames/")[0] + "/sheets")
        for other in ("costs", "quote", "client"):
            yield f"{name}-{other}", address.split("/frames/")[0] + f"/{other}"
        yield f"{name}-revisions", address.split("/frames/")[0] + "/revisions"
    yield from _pages_of_windows(page)
    yield from _pages_of_a_cut(page, address.split("/frames/")[0] + "/timber")
    yield "projects", "/"
    yield "rack", "/rack"
    yield "shop", "/shop"
    yield "devices", "/devices"
    yield "pair", "/pair"
    yield "not-here", "/nothing"


def _pages_of_windows(page: Any) -> Iterator[tuple[str, str]]:
    """Cut three windows and a second mat in a project of its own; what is printed of them."""
    package = take_demo(page, "cafe-prints.demo").replace("setting-out", "package")
    page.goto(package)
    page.get_by_text("More windows").click()
    press(page, page.get_by_role("button", name="Add a window"))
    press(page, page.get_by_role("button", name="Add a window"))
    page.get_by_text("A second mat, the bevel").click()
    press(page, page.get_by_role("button", name="Add a second mat"))
    yield "windows-package", package
    yield "windows-front", package.replace("package", "drawings/front")
    yield "windows-fitting", f"{package}/fitting"
    yield "windows-template", f"{package}/template?paper=a3"


def _pages_of_timber(page: Any, name: str, timber: str) -> Iterator[tuple[str, str]]:
    """Work the cutting plans out."""
    page.goto(timber)
    press(page, page.get_by_role("button", name="Work it out"))
    page.get_by_role("link", name="Look again").wait_for(state="detached")
    yield f"{name}-stops", f"{timber}/lists/stops"
    yield f"{name}-timber", timber


def _pages_of_sheets(page: Any, name: str, sheets: str) -> Iterator[tuple[str, str]]:
    """Lay the sheets out; a project without a part that is cut from a sheet says so."""
    page.goto(sheets)
    if page.locator(".plan").count():
        press(page, page.get_by_role("button", name="Work it out"))
        page.locator("#going").wait_for(state="detached")
        yield f"{name}-cuts", f"{sheets}/lists/cuts"
    yield f"{name}-sheets", sheets


def _pages_of_a_cut(page: Any, timber: str) -> Iterator[tuple[str, str]]:
    """Work a plan out and mark it as cut: what was asked before, and what is kept of it."""
    page.goto(timber)
    press(page, page.get_by_role("button", name="Work it out"))
    mark = page.get_by_role("link", name="Mark as cut").first
    mark.wait_for()
    yield "cut", mark.get_attribute("href")
    press(page, mark)
    press(page, page.get_by_role("button", name="It is cut"))
    yield "cut-record", page.url
