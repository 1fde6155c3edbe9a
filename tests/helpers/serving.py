"""An application served for a test, by the real server on a free loopback port."""

import asyncio
from collections.abc import Iterator
from contextlib import contextmanager
from socket import socket
from ssl import PROTOCOL_TLS_CLIENT, SSLContext
from threading import Thread
from time import sleep
from typing import Any

import httpx
import uvicorn

from webapp.server.listener import listen
from webapp.server.patience import patient_config

SHOP = "shop.test"
"""What the shop computer is called in a test's network."""

PLAIN = SSLContext(PROTOCOL_TLS_CLIENT)
"""Every server of a test is plain http; without this each client would read all certificates of the machine."""


def client_of(address: str, **more: Any) -> httpx.Client:
    """A client for a test's server, with a generous timeout; it follows no redirect by itself."""
    return httpx.Client(base_url=address, verify=PLAIN, timeout=30, **more)


class QuickServer(uvicorn.Server):
    """The real server; it checks often whether to stop, and stops after the last answer."""

    async def main_loop(self) -> None:
        while not await self.on_tick(0):
            await asyncio.sleep(0.01)

    async def shutdown(self, sockets: list[socket] | None = None) -> None:
        for server in self.servers:
            server.close()
        for connection in list(self.server_state.connections):
            connection.shutdown()
        while self.server_state.connections or self.server_state.tasks:
            await asyncio.sleep(0.002)
        await self.lifespan.shutdown()


@contextmanager
def serving(app: Any, *, host: str = "127.0.0.1") -> Iterator[str]:
    """Serve an application from its own thread, and yield its address."""
    server = QuickServer(patient_config(app))
    with listen(host, 0) as listener:
        thread = Thread(target=server.run, kwargs={"sockets": [listener]})
        thread.start()
        while not server.started and thread.is_alive():
            sleep(0.01)
        try:
            yield f"http://{host}:{listener.getsockname()[1]}"
        finally:
            server.should_exit = True
            thread.join()
