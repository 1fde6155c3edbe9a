"""A line for each request, if the shop wants one: who, what, with which answer; never a secret address or a query."""

import logging
import re

from starlette.types import ASGIApp, Message, Receive, Scope, Send

LOG = logging.getLogger("rabbetry.access")
_SECRET = re.compile(r"^/view/[^/]*")


class AccessLog:
    """Write a line for each request that has been answered."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            return await self.app(scope, receive, send)
        status = 0

        async def send_seen(message: Message) -> None:
            nonlocal status
            if message["type"] == "http.response.start":
                status = message["status"]
            await send(message)

        try:
            await self.app(scope, receive, send_seen)
        finally:
            LOG.info("%s %s %s %s", _caller(scope), scope["method"], told(scope["path"]), status)


def told(path: str) -> str:
    """A path as the log tells it: a client's secret is left out, and what is no plain letter is written as a code.

    >>> told("/view/s3cret/approve"), told("/shop")
    ('/view/…/approve', '/shop')
    """
    return _SECRET.sub("/view/…", path).encode("unicode_escape").decode("ascii").replace("\\u2026", "…")


def _caller(scope: Scope) -> str:
    client = scope.get("client")
    return client[0] if client else "-"
