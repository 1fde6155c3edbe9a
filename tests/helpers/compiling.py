"""What workers import is compiled before they start, once and on every core, not by each of them at one moment."""

import os
import py_compile
import sys
from multiprocessing import get_context
from pathlib import Path

import pytest
from _pytest.assertion import rewrite

ROOT = Path(__file__).parents[2]


def compile_for_workers(config: pytest.Config, folder: Path) -> None:
    """Keep it where Python keeps what is compiled or, where that is told to keep nothing, in a folder of this run."""
    if os.environ.pop("PYTHONDONTWRITEBYTECODE", ""):
        os.environ["PYTHONPYCACHEPREFIX"] = sys.pycache_prefix = str(folder)
    paths = sorted(path for name in ("framecalc", "webapp", "tests") for path in (ROOT / name).rglob("*.py"))
    cores = os.cpu_count() or 1
    shares = [get_context("fork").Process(target=_compile, args=(config, paths[core::cores])) for core in range(cores)]
    for share in shares:
        share.start()
    for share in shares:
        share.join()


def _compile(config: pytest.Config, paths: list[Path]) -> None:
    for path in paths:
        if path.name.startswith("test_") or path.name == "conftest.py":
            _compile_test(config, path)
        else:
            py_compile.compile(str(path), quiet=2)


def _compile_test(config: pytest.Config, path: Path) -> None:
    """The assertions of a test are written anew by pytest, which keeps that under a name of its own."""
    source_hash, code = rewrite._rewrite_test(path, config)
    folder = rewrite.get_cache_dir(path)
    folder.mkdir(parents=True, exist_ok=True)
    rewrite._write_pyc(
        config.stash[rewrite.assertstate_key], code, source_hash, folder / (path.stem + rewrite.PYC_TAIL)
    )
