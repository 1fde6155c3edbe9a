"""A plain line to a server, for walks of thousands of requests: it sends a path as it is written."""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import closing
from http.client import HTTPConnection, HTTPMessage
from typing import NamedTuple

import httpx


class Told(NamedTuple):
    """An answer: what it says, the letters that are none as they come."""

    status_code: int
    headers: HTTPMessage
    text: str


def asked(
    client: httpx.Client, paths: Sequence[str], methods: Sequence[str], *, headers: Mapping[str, str] | None = None
) -> Iterator[tuple[str, str, Told]]:
    """Ask a client's server for every path in every way, with the headers of the client and more, nothing packed."""
    more = {name.lower(): value for name, value in (headers or {}).items()}
    sent = {name: value for name, value in client.headers.items() if name != "accept-encoding"} | more
    with closing(HTTPConnection(client.base_url.host, client.base_url.port, timeout=30)) as line:
        for path in paths:
            for method in methods:
                line.request(method, path, headers=sent)
                answer = line.getresponse()
                yield method, path, Told(answer.status, answer.headers, answer.read().decode("utf-8", "replace"))
