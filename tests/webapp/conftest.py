"""The real server on a free loopback port, and a client that talks to it."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import httpx
import pytest
from keeping import require_unchanged
from searching import search_once
from serving import SHOP, client_of, serving


@pytest.fixture(scope="session", autouse=True)
def searched_once() -> Iterator[None]:
    """The same layout of sheets is searched for once."""
    with pytest.MonkeyPatch.context() as patch:
        search_once(patch)
        yield


@pytest.fixture
def data_dir(tmp_path: Path) -> Path:
    """A data folder that is not there yet."""
    return tmp_path / "data"


@pytest.fixture
def server(data_dir: Path) -> Iterator[str]:
    """The address of a server that keeps its projects in `data_dir`."""
    from webapp.app import create_app

    app = create_app(data_dir=data_dir)
    with serving(app) as address:
        yield address
    require_unchanged(app.state.desk)


@pytest.fixture
def client(server: str) -> Iterator[httpx.Client]:
    """A client of that server; it follows no redirect by itself."""
    with client_of(server) as client:
        yield client


@pytest.fixture
def lan_app(data_dir: Path) -> Any:
    """A server for the network, under two names."""
    from webapp.app import create_app

    return create_app(data_dir=data_dir, names=(SHOP, "192.168.0.9"))


@pytest.fixture
def lan(lan_app: Any) -> Iterator[str]:
    """Its address."""
    with serving(lan_app) as address:
        yield address


@pytest.fixture
def here(lan: str) -> Iterator[httpx.Client]:
    """The shop computer itself."""
    with client_of(lan) as client:
        yield client


@pytest.fixture
def far(lan: str) -> Iterator[httpx.Client]:
    """A device in the network: it speaks to the shop's name, whose address is looked up for it."""
    host = f"{SHOP}:{httpx.URL(lan).port}"
    with client_of(lan, headers={"Host": host, "Origin": f"http://{host}"}) as client:
        yield client
