"""A job that is cut from the rack: what is put there, taken over, planned and marked as cut."""

import json
import time
from pathlib import Path
from typing import Any

import httpx
from pages import Browser, Element, sent_by

STICK = {"species": "ash", "width": "25", "thickness": "20"}


def put(browser: Browser, length: str, **more: str) -> None:
    """Put a stick into the rack."""
    sent = sent_by(browser.get("/rack")) | STICK | {"length": length, "do": "save"} | more
    assert browser.post("/rack", sent).status_code == 303


def kept(data_dir: Path) -> dict[str, Any]:
    """What the rack holds on the disk."""
    found: dict[str, Any] = json.loads((data_dir / "rack.json").read_text("utf-8"))
    return found


def button(page: Element, says: str) -> str:
    """What the button of these words sends."""
    (found,) = [one for one in page.all("button") if one.text == says]
    return found.attributes["value"]


def take_over(browser: Browser, address: str, says: str = "Take over all") -> None:
    """Take over what the rack offers."""
    assert browser.type(address, {}, do=button(browser.get(address).by_id("of-rack"), says)).status_code == 303


def worked_out(browser: Browser, address: str) -> Element:
    """The timber page once its plan is worked out."""
    browser.type(address, {}, do="work")
    for _ in range(200):
        page = browser.get(address)
        if "Worked out." in page.by_id("plans").text:
            return page
        time.sleep(0.05)
    raise AssertionError(page.by_id("plans").text)


def to_mark(page: Element) -> str:
    """Where the plan is marked as cut."""
    (link,) = [one.attributes["href"] for one in page.by_id("plans").all("a") if one.text == "Mark as cut"]
    return link


def mark(browser: Browser, link: str, page: Element | None = None) -> httpx.Response:
    """Mark it as cut, as the page says it will be."""
    page = page or browser.get(link)
    sent = {name: page.all("input", name=name)[0].attributes["value"] for name in ("shown", "after")}
    return browser.post(link, sent | {"do": "cut"})


def offered(page: Element) -> list[str]:
    """The tags that are offered, in their order."""
    (tags,) = [[one.text for one in page.by_id("of-rack").all("p", **{"class": "tag"})]]
    return tags
