"""A real browser in front of the real server."""

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from searching import search_once
from serving import serving
from tablet import DEMOS, LANDSCAPE, Door


@pytest.fixture(scope="session", autouse=True)
def searched_once() -> Iterator[None]:
    """The same layout of sheets is searched for once."""
    with pytest.MonkeyPatch.context() as patch:
        search_once(patch)
        yield


@pytest.fixture
def door(tmp_path: Path) -> Door:
    from webapp.app import create_app

    return Door(create_app(data_dir=tmp_path / "data"))


@pytest.fixture
def address(door: Door) -> Iterator[str]:
    """The address of a server with an empty data folder."""
    with serving(door) as found:
        yield found


@pytest.fixture
def open_page(chromium: Any, address: str) -> Iterator[Callable[..., Any]]:
    """Open a touch-screen page of a size; whatever it complains about fails the test."""
    contexts, complaints = [], []

    def opened(size: tuple[int, int] = LANDSCAPE, *, scripts: bool = True) -> Any:
        context = chromium.new_context(
            viewport={"width": size[0], "height": size[1]},
            has_touch=True,
            java_script_enabled=scripts,
            base_url=address,
            accept_downloads=True,
        )
        contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.on("console", lambda said: complaints.append(said.text) if _is_complaint(said) else None)
        return page

    yield opened
    for context in contexts:
        context.close()
    assert complaints == []


def _is_complaint(said: Any) -> bool:
    expected = ("422", "409", "404", "502", "504", "ERR_INTERNET_DISCONNECTED", "htmx:error")
    return said.type == "error" and not any(word in said.text for word in expected)


@pytest.fixture
def demo_documents() -> dict[str, dict[str, Any]]:
    """The demo projects by their file's name."""
    return {path.stem: json.loads(path.read_text("utf-8")) for path in DEMOS}
