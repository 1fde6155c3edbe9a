"""An application served for a test, by the real server on a free loopback port."""

import asyncio
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from socket import socket
from ssl import PROTOCOL_TLS_CLIENT, SSLContext
from threading import Event, Thread
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
    """The real server; it tells that it serves, and stops when it is told to, after the last answer."""

    def __init__(self, config: uvicorn.Config) -> None:
        super().__init__(config)
        self.serves = Event()

    async def main_loop(self) -> None:
        self.told, self.loop = asyncio.Event(), asyncio.get_running_loop()
        await self.on_tick(0)
        self.serves.set()
        while not self.told.is_set():
            with suppress(TimeoutError):
                await asyncio.wait_for(self.told.wait(), 1)
            await self.on_tick(0)

    def stop(self) -> None:
        """Wake the server, from another thread, to stop."""
        self.loop.call_soon_threadsafe(self.told.set)

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
        while not server.serves.wait(0.05) and thread.is_alive():
            pass
        try:
            yield f"http://{host}:{listener.getsockname()[1]}"
        finally:
            if server.serves.is_set():
                server.stop()
            thread.join()
