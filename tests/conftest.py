"""What all tests share: one browser. Doctests are looked for in modules, not in the conftest files of the folders."""

import gc
import os
from collections.abc import Iterator
from typing import Any

import pytest
from compiling import compile_for_workers
from hypothesis import settings
from real_browser import browsers

settings.register_profile("unhurried", deadline=None)  # a busy machine is no fault of the code
settings.load_profile("unhurried")

FSYNC = os.fsync

collect_ignore_glob = ["conftest.py", "*/conftest.py"]

gc.disable()  # while thousands of tests are collected; none of them is garbage


LONGEST = (
    "test_axe.py",
    "tests/browser/",
    "test_wheel.py",
    "test_typed_names.py",
    "test_hostile_texts.py",
    "test_torture.py",
    "test_cli_files.py",
    "test_pictures.py",
    "test_sheets_layouts.py",
)
"""What takes longest comes first, so that whoever else works is not through long before; all of a browser together."""


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_auto_num_workers() -> int:
    """One more than there are cores: while a browser, a timer or the disk is waited for, another one works."""
    return (os.cpu_count() or 1) + 1


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_setupnodes(config: pytest.Config) -> None:
    """Compile everything once before they all begin, where all tests are to run."""
    if config.args_source is config.ArgsSource.TESTPATHS and hasattr(os, "fork"):
        compile_for_workers(config, config._tmp_path_factory.getbasetemp() / "compiled")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Put the longest tests first."""
    items.sort(key=lambda item: next((n for n, part in enumerate(LONGEST) if part in item.nodeid), len(LONGEST)))


def pytest_collection_finish() -> None:
    """The tests collected stay to the end, and so does most of what they keep: both are seldom looked through."""
    gc.freeze()
    gc.set_threshold(20_000, 20, 50)
    gc.enable()


@pytest.fixture(scope="session", autouse=True)
def compiled_once(tmp_path_factory: pytest.TempPathFactory) -> None:
    """Programs that tests start find modules compiled by the one before, also where Python is told to keep none."""
    if os.environ.pop("PYTHONDONTWRITEBYTECODE", ""):
        folder = tmp_path_factory.getbasetemp()
        for_all = folder.parent if "PYTEST_XDIST_WORKER" in os.environ else folder  # of the workers there
        os.environ["PYTHONPYCACHEPREFIX"] = str(for_all / "compiled")


@pytest.fixture(scope="session", autouse=True)
def disk_not_awaited() -> Iterator[None]:
    """Nobody waits until the disk has written, which only a power cut could tell: `test_disk.py` asks that it is told
    to. Programs that tests start wait, those that are killed too."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(os, "fsync", os.fstat)
        yield


@pytest.fixture
def slow_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    """Saves at once take as long as they do in a shop, and so meet."""
    monkeypatch.setattr(os, "fsync", FSYNC)


@pytest.fixture(scope="session")
def chromium() -> Iterator[Any]:
    """One browser for all tests."""
    yield from browsers()
