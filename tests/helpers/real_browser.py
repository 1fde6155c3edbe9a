"""The browser on this machine, if there is one. There can be only one player at a time: tests share the one fixture.

`lacking` reports what a machine lacks: tests that need it are skipped, and fail under CI.
"""

import os
import shutil
from collections.abc import Iterator
from contextlib import ExitStack
from importlib import import_module
from typing import Any, NoReturn

import pytest

try:
    from playwright import sync_api as playwright
except ImportError:  # the browser tests are an extra; without it they are skipped
    playwright = None
CHROMIUM = next(filter(None, map(shutil.which, ("chromium-headless-shell", "chromium", "google-chrome"))), None)
"""Its shell without windows if it is there: the same engine at a good part of the work."""
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--in-process-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--host-resolver-rules=MAP *.test 127.0.0.1",
]

NEEDS = "the browser tests need the extra “browser” and, on Debian, apt-get install chromium-headless-shell libatomic1"


def lacking(what: str) -> NoReturn:
    """Skip a test that needs something this machine lacks; under CI, fail it."""
    if os.environ.get("CI"):
        pytest.fail(what, pytrace=False)
    pytest.skip(what, allow_module_level=True)


def needed(module: str) -> Any:
    """A module of the extra “browser”."""
    try:
        return import_module(module)
    except ImportError:
        lacking(f"{NEEDS}; here {module} is not there")


def browsers() -> Iterator[Any]:
    """One browser, once; closed when asked for a second."""
    if playwright is None or CHROMIUM is None:
        lacking(NEEDS)
    with ExitStack() as kept:
        try:
            player = kept.enter_context(playwright.sync_playwright())
            browser = player.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        except Exception as error:
            kept.close()
            lacking(f"{NEEDS}; here it does not start: {str(error).splitlines()[0]}")
        kept.callback(browser.close)
        yield browser
