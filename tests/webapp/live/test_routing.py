"""Every request comes to the route that is stated for it, and only the pages asked for are imported."""

import re
import subprocess
import sys
from typing import Any

import pytest
from starlette.routing import Match

from webapp.live.page import Page
from webapp.live.routing import PageRoutes, nearest_first
from webapp.pages.all_pages import PAGES

ONE_ANSWER = """
import asyncio, sys, tempfile
from pathlib import Path
import httpx
from webapp.app import create_app

async def ask(app):
    transport = httpx.ASGITransport(app, client=("127.0.0.1", 50000))
    async with httpx.AsyncClient(transport=transport, base_url="http://127.0.0.1") as client:
        assert (await client.get("/")).status_code == 200

with tempfile.TemporaryDirectory() as folder:
    asyncio.run(ask(create_app(Path(folder))))
    print([name for name in sys.modules if name.endswith(".view")])
"""


@pytest.mark.parametrize("page", tuple(PAGES), ids=lambda page: page.name)
def test_every_route_of_a_page_is_found(page: Page) -> None:
    routes: Any = page.view.routes
    for route in routes:
        path = re.sub(r"\{(\w+)\}", lambda hole: {"number": "1", "group": "1"}.get(hole[1], "x1"), route.path)
        for method in route.methods:
            scope = {"type": "http", "method": method, "path": path, "headers": []}
            match, found = PageRoutes(PAGES).matches(scope)
            assert match is Match.FULL and found["route"] in routes
            assert found["endpoint"] == route.endpoint


def test_what_no_page_answers_is_found_nowhere() -> None:
    scope = {"type": "http", "method": "GET", "path": "/projects/x1/nothing", "headers": []}
    assert PageRoutes(PAGES).matches(scope) == (Match.NONE, {})


@pytest.mark.parametrize(
    ("path", "name"),
    [
        ("/", "projects"),
        ("/shop", "shop"),
        ("/projects/k3fw07qz", "job"),
        ("/projects/k3fw07qz/frames/k3f/setting-out/preview", "setting_out"),
        ("/projects/k3fw07qz/bench/saw/1", "bench"),
        ("/projects/k3fw07qz/bench/finish", "finish"),
    ],
)
def test_the_page_with_the_nearest_address_is_asked_first(path: str, name: str) -> None:
    assert nearest_first(PAGES, path=path)[0].name == name


def test_the_first_answer_imports_its_own_page_alone() -> None:
    found = subprocess.run([sys.executable, "-c", ONE_ANSWER], capture_output=True, text=True, check=True)
    assert found.stdout.strip() == "['webapp.pages.projects.view']"
