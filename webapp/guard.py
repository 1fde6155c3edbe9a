"""The guard at the door: who may speak to this server, what a page may load, how much may be sent.

The server speaks to this computer alone. A *write* (anything but GET, HEAD and OPTIONS) must come from a page of this
very server: a form on another site, or on another port of this computer, is refused. Pure ASGI, so that it costs next
to nothing.
"""

import re
from html import escape
from urllib.parse import urlsplit

from starlette.datastructures import MutableHeaders
from starlette.exceptions import HTTPException
from starlette.types import ASGIApp, Message, Receive, Scope, Send

BODY_LIMIT_BYTES = 1_000_000
"""The most that one request may send: a project of sixty frames with full packages is about a third of it."""

OWN_HOST = re.compile(r"(?:127\.0\.0\.1|localhost|\[::1\])(?::\d{1,5})?", re.IGNORECASE)
READING = frozenset({"GET", "HEAD", "OPTIONS"})

PAGE_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
)
HEADERS = {
    "content-security-policy": PAGE_POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cache-control": "no-cache",
}
"""What every answer carries, unless the route has set its own."""


class Guard:
    """Refuse what does not come from this computer and this server; put the safety headers on every answer."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            return await self.app(scope, receive, send)

        async def send_guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in HEADERS.items():
                    headers.setdefault(name, value)
            await send(message)

        refusal = refuse(scope)
        if refusal:
            return await _answer(refusal, send_guarded)
        return await self.app(scope, _counted(receive), send_guarded)


def refuse(scope: Scope) -> tuple[int, str] | None:
    """Say why a request is refused, as a status and a sentence; None when it may pass."""
    headers: dict[bytes, list[str]] = {}
    for name, value in scope["headers"]:
        headers.setdefault(name, []).append(value.decode("latin-1"))
    hosts = headers.get(b"host", [])
    if len(hosts) != 1 or not OWN_HOST.fullmatch(hosts[0]):
        return 400, "This server answers to 127.0.0.1 and to localhost, on this computer alone."
    if scope["method"] not in READING and not _from_own_page(headers, hosts[0]):
        return 403, "This was sent from another page than our own, and nothing was changed. Open the page anew."
    if _declared_bytes(headers) > BODY_LIMIT_BYTES:
        return 413, f"That is too much at once: up to {BODY_LIMIT_BYTES // 1000} kB would do. Nothing was changed."
    return None


def _from_own_page(headers: dict[bytes, list[str]], host: str) -> bool:
    origins, sites = headers.get(b"origin", []), headers.get(b"sec-fetch-site", ["same-origin"])
    return len(origins) == 1 and _names(origins[0], host) and sites == ["same-origin"]


def _names(origin: str, host: str) -> bool:
    try:
        return urlsplit(origin).netloc.lower() == host.lower()
    except ValueError:
        return False


def _counted(receive: Receive) -> Receive:
    """Count what comes in, for a body that does not say beforehand how large it is."""
    received = 0

    async def receive_counted() -> Message:
        nonlocal received
        message = await receive()
        received += len(message.get("body", b""))
        if received > BODY_LIMIT_BYTES:
            raise HTTPException(413)
        return message

    return receive_counted


def _declared_bytes(headers: dict[bytes, list[str]]) -> int:
    declared = headers.get(b"content-length", ["0"])[0]
    return int(declared) if declared.isascii() and declared.isdigit() and len(declared) < 16 else 0


async def _answer(refusal: tuple[int, str], send: Send) -> None:
    status, sentence = refusal
    page = (
        '<!doctype html><html lang="en"><meta charset="utf-8"><title>Refused</title>'
        f'<link rel="stylesheet" href="/static/app.css"><main class="desk"><h1>Refused</h1><p>{escape(sentence)}</p>'
        '<p><a href="/">To the projects</a></p></main></html>'
    )
    headers = [(b"content-type", b"text/html; charset=utf-8"), (b"connection", b"close")]
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": page.encode("utf-8")})
