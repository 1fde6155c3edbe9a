"""The real server on a free loopback port, and a client that talks to it."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import Thread
from time import sleep
from typing import Any

import httpx
import pytest
import uvicorn

from webapp.listener import listen


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


@pytest.fixture
def data_dir(tmp_path: Path) -> Path:
    """A data folder that is not there yet."""
    return tmp_path / "data"


@pytest.fixture
def server(data_dir: Path) -> Iterator[str]:
    """The address of a server that keeps its projects in `data_dir`."""
    from webapp.app import create_app

    with serving(create_app(data_dir=data_dir)) as address:
        yield address


@pytest.fixture
def client(server: str) -> Iterator[httpx.Client]:
    """A client of that server; it follows no redirect by itself."""
    with httpx.Client(base_url=server, timeout=30) as client:
        yield client
