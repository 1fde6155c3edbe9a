"""A tablet in a test: its sizes, the demo projects, a door in front of the server, taps on a page."""

import asyncio
import json
from pathlib import Path
from typing import Any

from starlette.types import ASGIApp, Receive, Scope, Send

LANDSCAPE, PORTRAIT, PHONE = (1024, 768), (768, 1024), (390, 844)
DEMOS = sorted((Path(__file__).parents[2] / "framecalc").rglob("*demo*.json"))


class Door:
    """Delays the answers to chosen requests: `hold["preview"] = [0.6]` holds the next preview for 0.6 s."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app
        self.hold: dict[str, list[float]] = {}
        self.seen: list[tuple[str, str]] = []

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            return await self.app(scope, receive, send)
        self.seen.append((scope["method"], scope["path"]))
        waits = self.hold.get(scope["path"].rsplit("/", 1)[-1], []) if scope["method"] == "POST" else []
        seconds = waits.pop(0) if waits else 0

        async def send_late(message: Any) -> None:
            if seconds and message["type"] == "http.response.start":
                await asyncio.sleep(seconds)
            await send(message)

        return await self.app(scope, receive, send_late)


def take_demo(page: Any, name: str) -> str:
    """Import the plain project of a demo and open its setting-out page, whose address is returned."""
    page.goto(imported(page, name))
    found: str = page.url
    return found


def imported(page: Any, name: str, **more: Any) -> str:
    """Import the plain project of a demo, with more; the address of its setting-out page, which is not opened."""
    (path,) = [path for path in DEMOS if path.stem == name]
    document = json.loads(path.read_text("utf-8")) | more
    headers = {"Origin": page.request.get("/static/app.css").url.removesuffix("/static/app.css")}
    sent = {"pasted": json.dumps(document)}
    answer = page.request.post("/projects/import", multipart=sent, headers=headers, max_redirects=0)
    return f"{answer.headers['location']}/frames/{document['frames'][0]['id']}/setting-out"


def take_furnished_demo(page: Any, name: str) -> str:
    """Take a demo as it is offered, with its picture, prices, plans and link, and return where it is set out."""
    page.goto("/")
    card = page.locator(f"form[action='/projects/demos/{name}']")
    if not card.is_visible():
        page.get_by_text("Demo projects to learn from").tap()
    press(page, card.get_by_role("button"))
    set_out(page)
    found: str = page.url
    return found


def set_out(page: Any) -> None:
    """From the job page to the setting-out page of its first frame."""
    press(page, page.locator(".fronts a").first)


def field(page: Any, ending: str) -> Any:
    """The field whose path ends like this; where its card is closed, that is opened by a tap."""
    found = page.locator(f"[name$='.{ending}'], [name='{ending}']").first
    open_card(page, found)
    return found


def open_card(page: Any, within: Any) -> None:
    """Tap the line of the closed card that something is on; nothing where it is on none, or in view."""
    if within.count():
        closed = within.evaluate("one => one.closest('.drawer:not([open]), .fold:not([open])')?.id")
        if closed and page.locator(f"#{closed}").is_visible():
            page.locator(f"#{closed} > summary").tap()


def press(page: Any, button: Any) -> None:
    """Tap a button that leads to a page, and wait for that page."""
    with page.expect_navigation():
        button.tap()


def settled(page: Any) -> None:
    """Wait until no preview and no save is due (140 ms after the last stroke, by the page's own clock) or under way."""
    page.evaluate("new Promise(due => setTimeout(due, 160))")
    page.locator("body:not(.saving, .htmx-request, :has(.htmx-request))").wait_for()
