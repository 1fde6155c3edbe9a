"""Test cuts of the saw, typed on the corners page."""

from grouped import GroupedBrowser
from pages import sent_by


def add_cut(browser: GroupedBrowser, address: str, *, outside: str, **more: str) -> None:
    """Add a test cut and type what was read of it; other cuts stay."""
    at = f"{address}/tests"
    before = sent_by(browser.get(at))
    browser.post(at, before | {"do": "add-test"})
    sent = sent_by(browser.get(at))
    new = {name for name in sent if ".tests." in name} - set(before)
    typed = {"outside_gap": outside, "inside_gap": "0"} | more
    texts = {name: typed[name.rsplit(".", 1)[1]] for name in new if name.rsplit(".", 1)[1] in typed}
    assert browser.post(at, sent | texts | {"do": "save"}).status_code == 303
