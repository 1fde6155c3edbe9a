"""The list of pages: menu, routes, addresses, labels of the revision list and the walk of the tests derive from it."""

from importlib import import_module

from webapp.live.page import Page, Pages

GROUPS = {
    "Plan": ("setting_out", "package", "corners"),
    "Make": ("timber", "in_hand", "cut", "sheets", "timetable", "finish", "rescue", "bench", "templates"),
    "Client": ("look", "costs", "client", "wall", "hand_over"),
}
"""The pages of a job that stand together in its menu, in the order of the work."""

NAMES = (
    "projects",
    "rack",
    "shop",
    "devices",
    "backup",
    "limits",
    *(name for names in GROUPS.values() for name in names),
    "choices",
    "sizing",
    "job",
    "revisions",
    "shared_view",
)
"""Every folder of a page, in the order of the menu; it has the page's record, `PAGE`, and its `view`."""


def _page(name: str) -> Page:
    page = import_module(f"webapp.pages.{name}").PAGE
    assert isinstance(page, Page) and page.name == name
    return page


PAGES = Pages(tuple(_page(name) for name in NAMES), grouped=GROUPS)
