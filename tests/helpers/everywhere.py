"""Every page of every demo project, for tests of all pages."""

from collections.abc import Callable, Iterator
from functools import partial
from typing import Any

from tablet import DEMOS, imported, press, take_furnished_demo

from webapp.live.addresses import TIMBER
from webapp.live.grouped import GROUPED
from webapp.live.page import Page, Place
from webapp.pages.all_pages import PAGES


def every_page(page: Any) -> Iterator[tuple[str, str]]:
    """Name every page there is: a name for a file, and the address."""
    for pages in PARTS.values():
        yield from pages(page)


def _pages_of_demo(page: Any, stem: str) -> Iterator[tuple[str, str]]:
    """Take a demo project and name its pages."""
    name = stem.split(".")[0]
    project = take_furnished_demo(page, stem).split("/frames/")[0]
    frames = [link.get_attribute("href") for link in page.locator(".frames a").all()]
    project_id = project.rsplit("/", 1)[1]
    for number, frame in enumerate(frames, start=1):
        frame_id = frame.split("/")[-2]
        for one in _at(Place.FRAME):
            for group in ("", *GROUPED.get(one.path, ())):
                address = one.address(project_id=project_id, frame_id=frame_id, group_name=group)
                yield "-".join(filter(None, (name, str(number), one.tail, group))), address
        for drawing in ("front", "section", "mitre"):
            yield f"{name}-{number}-{drawing}", frame.replace("setting-out", f"drawings/{drawing}?zoom=4")
    yield from _pages_of_timber(page, name, f"{project}/timber")
    yield from _pages_of_sheets(page, name, f"{project}/sheets")
    for one in _at(Place.PROJECT):
        yield f"{name}-{one.name}", one.address(project_id=project_id)
    yield f"{name}-quote", f"{project}/quote"
    yield from ((f"{name}-card-{card}", f"{project}/bench/{card}/1") for card in ("rabbet", "mitre", "dry-fit"))
    yield f"{name}-cards-on-paper", f"{project}/bench/print"


def _pages_of_windows(page: Any) -> Iterator[tuple[str, str]]:
    """A project with three windows and a second mat, and its printed pages."""
    package = imported(page, "cafe-prints.demo").replace("setting-out", "package")
    page.goto(f"{package}/mat")
    page.get_by_text("More windows").click()
    press(page, page.get_by_role("button", name="Add a window"))
    press(page, page.get_by_role("button", name="Add a window"))
    page.get_by_text("A second mat, the bevel").click()
    press(page, page.get_by_role("button", name="Add a second mat"))
    yield "windows-package", f"{package}/mat"
    yield "windows-front", package.replace("package", "drawings/front?zoom=4")
    yield "windows-fitting", f"{package}/fitting"
    yield "windows-templates", f"{package}/template"


def _pages_of_timber(page: Any, name: str, timber: str) -> Iterator[tuple[str, str]]:
    """Work the cutting plans out."""
    _plan(page, timber)
    for list_name in GROUPED[TIMBER]:
        yield f"{name}-timber-{list_name}", f"{timber}/{list_name}"
    yield f"{name}-stops", f"{timber}/lists/stops"


def _pages_of_sheets(page: Any, name: str, sheets: str) -> Iterator[tuple[str, str]]:
    """Lay the sheets out; a project without a part that is cut from a sheet says so."""
    _plan(page, sheets)
    if page.locator(".plan").count():
        yield f"{name}-cuts", f"{sheets}/lists/cuts"
        yield f"{name}-sheet", f"{sheets}/groups/1/sheet-1"


def _plan(page: Any, address: str) -> None:
    """Plan the cuts, where that is still to be done."""
    page.goto(address)
    button = page.get_by_role("button", name="Plan the cuts")
    if button.count() and button.is_enabled():
        press(page, button)
        page.get_by_role("link", name="Look again").wait_for(state="detached")


def _pages_of_a_cut(page: Any) -> Iterator[tuple[str, str]]:
    """Mark a plan as cut: the page before, its record, and the pages of a shop with off-cuts."""
    _plan(page, imported(page, DEMOS[-1].stem).split("/frames/")[0] + "/timber")
    mark = page.get_by_role("link", name="Mark as cut").first
    mark.wait_for()
    yield "cut", mark.get_attribute("href")
    press(page, mark)
    press(page, page.get_by_role("button", name="Mark as cut"))
    yield "cut-record", page.url
    for one in _at(Place.SHOP):
        yield one.name, one.address()
    yield from (("not-here", "/nothing"), ("pair", "/pair"))


def _at(place: Place) -> list[Page]:
    """The pages of a place whose address needs only a project and a frame."""
    return [one for one in PAGES if one.place is place and "{" not in one.tail]


PARTS: dict[str, Callable[[Any], Iterator[tuple[str, str]]]] = {
    **{path.name.split(".")[0]: partial(_pages_of_demo, stem=path.stem) for path in DEMOS},
    "windows": _pages_of_windows,
    "a cut and the shop": _pages_of_a_cut,
}
"""The pages in parts, each of which begins in any data folder."""
