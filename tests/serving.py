"""An application served for a test, by the real server on a free loopback port."""

from collections.abc import Iterator
from contextlib import contextmanager
from threading import Thread
from time import sleep
from typing import Any

import uvicorn

from webapp.listener import listen

SHOP = "shop.test"
"""What the shop computer is called in a test's network."""


@contextmanager
def serving(app: Any) -> Iterator[str]:
    """Serve an application from a thread of its own, and lend its address."""
    server = uvicorn.Server(uvicorn.Config(app, log_level="warning", access_log=False))
    with listen("127.0.0.1", 0) as listener:
        thread = Thread(target=server.run, kwargs={"sockets": [listener]})
        thread.start()
        while not server.started and thread.is_alive():
            sleep(0.01)
        try:
            yield f"http://127.0.0.1:{listener.getsockname()[1]}"
        finally:
            server.should_exit = True
            thread.join()
