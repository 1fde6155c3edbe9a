"""The guard at the door: who may speak to this server, what a page may load, how much may be sent.

A *write* (anything but GET, HEAD and OPTIONS) must come from a page of this very server: a form on another site, or on
another port of this computer, is refused. Strangers in the network see what `door.py` leaves open to them, and nothing
that goes to the network is kept by a browser. Pure ASGI, so that it costs next to nothing.
"""

import re
from html import escape
from urllib.parse import urlsplit

from starlette.datastructures import MutableHeaders
from starlette.exceptions import HTTPException
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from framecalc.records import Record
from webapp.server.door import OPEN_TO_STRANGERS, Caller, Door

BODY_LIMIT_BYTES = 1_000_000
"""The most that one request may send: a project of sixty frames with full packages is about a third of it."""

PHOTO_LIMIT_BYTES = 25_000_000
ZIP_LIMIT_BYTES = 4_000_000_000
"""A whole data folder with its photos; it goes through the disk, and only the shop's own computer may send it."""

STRANGER_LIMIT_BYTES = 20_000
"""A name, a note of 500 letters, a pairing code."""

_PHOTO = re.compile(r"/projects/[a-z0-9]{1,16}/frames/[a-z0-9]{1,16}/photo(?:/(?:wall|sheet))?|/shop/logo")
_ZIP = "/backup/everything"
READING = frozenset({"GET", "HEAD", "OPTIONS"})

NOT_PAIRED = "This device is not paired with the shop. Pair it with the code that the shop computer shows."
ANOTHER_PAGE = "This was sent from another page than our own, and nothing was changed. Open the page anew."

PAGE_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' data:; "
    "connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
)
HEADERS = {
    "x-rabbetry": "1",
    "content-security-policy": PAGE_POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "cache-control": "no-cache",
}
"""What every answer carries, unless the route has set its own.

The first tells a page that an error comes from this program, and not from something between that stands in for it.
"""

ONLY_HERE = "cross-origin-opener-policy"
"""Browsers heed it where they trust the origin, and complain of it over plain http in a network."""


class Refusal(Record):
    """Why a request does not come in: a status, a sentence, and where to go on."""

    status: int
    sentence: str
    way_on: str = "/"
    way_says: str = "Go on"
    heading: str = "Refused"
    headers: tuple[tuple[bytes, bytes], ...] = ()


BUSY = Refusal(
    status=503,
    sentence="The shop's computer is busy with others at this moment. Nothing was changed. Try again in a moment.",
    way_on="",
    heading="Busy",
    headers=((b"retry-after", b"2"),),
)
"""What a connection is told for which `room` has no place. An empty address is the one that was asked for."""


TO_THE_FORM = Refusal(
    status=303, sentence=NOT_PAIRED, way_on="/pair", heading="Pair this device", headers=((b"location", b"/pair"),)
)
"""What a stranger is told who opens a page: the pairing form comes at once."""

UNPAIRED = Refusal(
    status=403,
    sentence=f"{NOT_PAIRED} Then load this page anew: what you typed is sent once more.",
    way_on="/pair",
    way_says="Pair it in a new tab",
    heading="Pair this device",
)
"""What a stranger is told who sends something: a device that was let in until now may hold what was typed."""


class Guard:
    """Refuse what may not come in; put the safety headers on every answer."""

    def __init__(self, app: ASGIApp, *, door: Door) -> None:
        self.app, self.door = app, door

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            return await self.app(scope, receive, send)
        headers = _headers(scope)
        caller = Caller.STRANGER
        refusal = BUSY if scope.get("state", {}).get("is_crowded") else refuse_host(scope, headers, self.door)
        if not refusal:
            caller = self.door.caller(scope, headers)
            refusal = refuse(scope, headers, caller)
        is_static = scope["path"].startswith("/static/")
        guarded = _guarded(send, in_network=caller is not Caller.HERE, is_static=is_static)
        if refusal:
            return await _answer(refusal, guarded, is_part=b"hx-request" in headers)
        scope.setdefault("state", {})["caller"] = caller
        limit = _limit_bytes(scope["path"], caller)
        return await self.app(scope, _counted(receive, limit), guarded)


def refuse_host(scope: Scope, headers: dict[bytes, list[str]], door: Door) -> Refusal | None:
    """Say why a request is refused for the name that it is sent to; None when it is one of ours."""
    hosts = headers.get(b"host", [])
    arrived_at = (scope.get("server") or ("", 0))[0]
    if len(hosts) == 1 and door.answers_to(hosts[0], arrived_at=arrived_at):
        return None
    names = [*door.names, *(["its addresses"] if door.is_open else [])]
    where = f"to {', '.join(names)}, and to" if names else "to"
    return Refusal(status=400, sentence=f"This server answers {where} 127.0.0.1 and localhost on its own computer.")


def refuse(scope: Scope, headers: dict[bytes, list[str]], caller: Caller) -> Refusal | None:
    """Say why a request to one of our names is refused, as a status and a sentence; None when it may pass."""
    if caller is Caller.STRANGER and not OPEN_TO_STRANGERS.fullmatch(scope["path"]):
        return TO_THE_FORM if _opens_a_page(scope, headers) else UNPAIRED
    if scope["method"] not in READING and not _from_own_page(headers, headers[b"host"][0]):
        return Refusal(status=403, sentence=ANOTHER_PAGE)
    limit = _limit_bytes(scope["path"], caller)
    if _declared_bytes(headers) > limit:
        sentence = f"Send at most {limit // 1000} kB at once. Nothing was changed."
        return Refusal(status=413, sentence=sentence)
    return None


def _headers(scope: Scope) -> dict[bytes, list[str]]:
    headers: dict[bytes, list[str]] = {}
    for name, value in scope["headers"]:
        headers.setdefault(name, []).append(value.decode("latin-1"))
    return headers


def _guarded(send: Send, *, in_network: bool, is_static: bool) -> Send:
    """Put the safety headers on an answer; what goes out into the network is kept by no browser."""

    async def send_guarded(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers.setdefault(name, value)
            if in_network:
                del headers[ONLY_HERE]
            if in_network and not is_static:
                headers["cache-control"] = "no-store"
        await send(message)

    return send_guarded


def _limit_bytes(path: str, caller: Caller) -> int:
    if caller is Caller.STRANGER:
        return STRANGER_LIMIT_BYTES
    if caller is Caller.HERE and path == _ZIP:
        return ZIP_LIMIT_BYTES
    return PHOTO_LIMIT_BYTES if _PHOTO.fullmatch(path) else BODY_LIMIT_BYTES


def _from_own_page(headers: dict[bytes, list[str]], host: str) -> bool:
    origins, sites = headers.get(b"origin", []), headers.get(b"sec-fetch-site", ["same-origin"])
    return len(origins) == 1 and _names(origins[0], host) and sites == ["same-origin"]


def _names(origin: str, host: str) -> bool:
    try:
        return urlsplit(origin).netloc.lower() == host.lower()
    except ValueError:
        return False


def _counted(receive: Receive, limit: int) -> Receive:
    """Count what comes in, for a body that does not say beforehand how large it is."""
    received = 0

    async def receive_counted() -> Message:
        nonlocal received
        message = await receive()
        received += len(message.get("body", b""))
        if received > limit:
            raise HTTPException(413)
        return message

    return receive_counted


def _declared_bytes(headers: dict[bytes, list[str]]) -> int:
    declared = headers.get(b"content-length", ["0"])[0]
    return int(declared) if declared.isascii() and declared.isdigit() and len(declared) < 16 else 0


def _opens_a_page(scope: Scope, headers: dict[bytes, list[str]]) -> bool:
    """Whether a browser opens a page, and does not only ask for a part of one."""
    wants = ",".join(headers.get(b"accept", []))
    return scope["method"] == "GET" and "text/html" in wants and b"hx-request" not in headers


async def _answer(refusal: Refusal, send: Send, *, is_part: bool) -> None:
    page = _part(refusal) if is_part else _page(refusal)
    headers = [(b"content-type", b"text/html; charset=utf-8"), (b"connection", b"close"), *refusal.headers]
    await send({"type": "http.response.start", "status": refusal.status, "headers": headers})
    await send({"type": "http.response.body", "body": page.encode("utf-8")})


def _page(refusal: Refusal) -> str:
    aside = ' target="_blank"' if refusal is UNPAIRED else ""
    return (
        '<!doctype html><html lang="en"><meta charset="utf-8">'
        f"<title>{refusal.heading}</title>"
        '<meta name="viewport" content="width=device-width"><link rel="stylesheet" href="/static/app.css">'
        f'<main class="desk"><h1>{refusal.heading}</h1><p>{escape(refusal.sentence)}</p>'
        f'<p><a class="button" href="{refusal.way_on}"{aside}>{refusal.way_says}</a></p></main></html>'
    )


def _part(refusal: Refusal) -> str:
    """What stands above a page that goes on: it stays, with all that is typed in it."""
    if refusal is UNPAIRED:
        sentence = f"{NOT_PAIRED} What you typed is still here, and is sent when that is done."
        way = f'<a href="{refusal.way_on}" target="_blank">{refusal.way_says}</a>'
        return f"<p><b>{refusal.heading}.</b> {escape(sentence)} {way}</p>"
    return f"<p><b>{refusal.heading}.</b> {escape(refusal.sentence)}</p>"
