"""Change small things in the topic packages, one at a time, and see whether their own tests notice.

    python tests/mutation.py [PACKAGE-OR-MODULE ...] [--seed 7] [--count 40] [--minutes 5]
    python tests/mutation.py --count 400 --minutes 90      # one score of all topics

As many changes as asked for (`small_changes`) are drawn by seed, evenly from every module, each made in a copy of the
checkout, where the topic's tests that reach the module are run: its doctests, the tests that import it, then those that
import what imports it, then the laws of all topics. One score is printed, that of each topic, and each survivor with
its line: a hole in the tests. What is not drawn, and why, `small_changes` says; modules that only propose are
`PROPOSALS`.
"""

import argparse
import ast
import multiprocessing
import os
import random
import shutil
import sys
import tempfile
import time
from collections.abc import Iterable, Iterator
from compileall import compile_dir
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from functools import cache
from itertools import chain
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
sys.path.insert(0, str(ROOT / "tests/helpers"))
from small_changes import FRAMECALC, changes_in, mutated  # noqa: E402 - a script finds its helper by its own path

NO_TOPICS = {"plan", "project", "drawing", "tables", "search", "demos"}
PROPOSALS = {
    *(
        f"timber/sticks/{name}.py"
        for name in ("cheaper", "column_lists", "columns", "filling", "opening_sticks", "patterns")
    ),
    *(f"sheets/{name}.py" for name in ("columns", "likeness", "packing")),
}
"""Modules that only propose: bounds and checker judge what they find; how good it is, the benchmarks measure."""

LONGEST_S = 240
"""A change that makes tests run longer, which end without it, counts as noticed: the search has lost its end."""

LAWS = tuple(ROOT / f"tests/framecalc/{name}.py" for name in ("test_left_out", "test_told_ranges"))
"""Laws of all topics; they come last."""

START = multiprocessing.get_context("forkserver" if os.name == "posix" else "spawn")
START.set_forkserver_preload(["pytest", "hypothesis", "shapely", "scipy.optimize", "pydantic", "playwright.sync_api"])
HASTE = ["-x", "-q", "-p", "no:cacheprovider", "-p", "no:anyio", "-p", "no:xdist", "--assert=plain"]
"""What all tests want is imported and compiled once; nobody reads why a test failed."""

NEVER_THERE = (ROOT, ROOT / "tests", ROOT / "tests/helpers")
"""Where nothing is imported from while a copy is tried."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mutant:
    """One change: in which module, at which node of its tree, and what it reads like."""

    module: Path
    node: int
    says: str


def main() -> None:
    """Draw changes, try them, print the score and the survivors."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("where", nargs="*", default=[])
    parser.add_argument("--seed", type=int, default=7)
    parser.add_argument("--count", type=int, default=40)
    parser.add_argument("--minutes", type=float, default=5)
    asked = parser.parse_args()
    chosen = drawn(modules(asked.where), count=asked.count, seed=asked.seed)
    ends = time.monotonic() + asked.minutes * 60
    with tempfile.TemporaryDirectory() as folder:
        for name in ("framecalc", "tests", "webapp", "templates", "static", "pyproject.toml"):
            copy(ROOT / name, Path(folder) / name)
        compile_dir(folder, quiet=2)
        if chosen and not passes(chosen[0].module, Path(folder)):
            sys.exit(f"The tests of {chosen[0].module} fail without a change")
        tried = [(one, tells(one, Path(folder))) for one in chosen if time.monotonic() < ends]
    print(f"{score([noticed for _, noticed in tried])} (seed {asked.seed})")
    for topic in sorted({topic_of(one.module) for one, _ in tried}):
        print(f"  {topic}: {score([noticed for one, noticed in tried if topic_of(one.module) == topic])}")


def score(noticed: list[bool]) -> str:
    """How many changes were noticed, in words."""
    return f"noticed {sum(noticed)} of {len(noticed)}, {100 * sum(noticed) / max(len(noticed), 1):.1f} %"


def topic_of(module: Path) -> str:
    """The topic a module belongs to: its package, or the small file that every room may use."""
    return module.relative_to(FRAMECALC).parts[0].removesuffix(".py")


def copy(source: Path, target: Path) -> None:
    """Copy a file or a folder of the checkout."""
    if source.is_dir():
        shutil.copytree(source, target, ignore=shutil.ignore_patterns("__pycache__"))
    else:
        shutil.copy(source, target)


def modules(where: list[str]) -> list[Path]:
    """The modules of the topic packages that are asked for."""
    found = [path for path in sorted(FRAMECALC.rglob("*.py")) if path.relative_to(FRAMECALC).parts[0] not in NO_TOPICS]
    asked = [path for path in found if not where or any(f"framecalc/{one}" in path.as_posix() for one in where)]
    no_proposals = [path for path in asked if path.relative_to(FRAMECALC).as_posix() not in PROPOSALS]
    return [path for path in no_proposals if path.stem != "__init__"]


@cache
def tests_of(module: Path) -> list[Path]:
    """The test files of a topic that reach a module, the nearest first; without one, the nearest of other topics."""
    topic = topic_of(module)
    folder = ROOT / "tests/framecalc" / topic
    own = [*waves(module, FRAMECALC / topic, folder.rglob("*.py") if folder.is_dir() else folder.parent.glob("*.py"))]
    return [*chain(*own)] or next(waves(module, FRAMECALC, (ROOT / "tests/framecalc").rglob("*.py")), [])


def waves(module: Path, users: Path, tests: Iterable[Path]) -> Iterator[list[Path]]:
    """The tests that import a module; those that import what imports it; and so on; in each wave the short first."""
    left = sorted(tests, key=size_of)
    reached = seen = {module}
    while reached:
        if found := [path for path in left if reached & imported(path)]:
            yield found
        left = [path for path in left if path not in found]
        reached = {path for path in users.rglob("*.py") if reached & imported(path)} - seen
        seen = seen | reached


def size_of(path: Path) -> int:
    """How long a file is: short ones are run first."""
    return path.stat().st_size


@cache
def imported(path: Path) -> frozenset[Path]:
    """The modules that a file names in its imports."""
    froms = [one for one in ast.walk(ast.parse(path.read_text("utf-8"))) if isinstance(one, ast.ImportFrom)]
    names = {f"{one.module}.{name.name}" for one in froms for name in one.names} | {f"{one.module}" for one in froms}
    places = (ROOT / name.replace(".", "/") for name in names)
    return frozenset(file for place in places for file in (place.with_suffix(".py"), place / "__init__.py"))


def drawn(paths: list[Path], *, count: int, seed: int) -> list[Mutant]:
    """Changes drawn by seed, one module after the other, until there are as many as asked for."""
    chance = random.Random(seed)
    pools = [chance.sample(found, len(found)) for path in paths if (found := list(mutants_of(path)))]
    chance.shuffle(pools)
    rounds = (pool[at] for at in range(max(map(len, pools), default=0)) for pool in pools if at < len(pool))
    return [one for one, _ in zip(rounds, range(count), strict=False)]


def mutants_of(module: Path) -> Iterator[Mutant]:
    """Every change of a module."""
    return (Mutant(module=module, node=number, says=says) for number, says in changes_in(module))


def tells(mutant: Mutant, folder: Path) -> bool:
    """Whether a change is noticed; said at once when it is not."""
    noticed = is_noticed(mutant, folder)
    if not noticed:
        print(f"{mutant.module.relative_to(ROOT)}:{mutant.says}", flush=True)
    return noticed


def is_noticed(mutant: Mutant, folder: Path) -> bool:
    """Make a change in a copy of the checkout, run its tests there, and take it back."""
    path = folder / mutant.module.relative_to(ROOT)
    before = path.read_text("utf-8")
    path.write_text(mutated(before, mutant.node), "utf-8")
    try:
        ended = ending(mutant.module, folder)
    finally:
        path.write_text(before, "utf-8")
    return ended != 0 if ended is not None else passes(mutant.module, folder)


def passes(module: Path, folder: Path) -> bool:
    """Whether the tests of a module pass in the copy, in time."""
    return ending(module, folder) == 0


def ending(module: Path, folder: Path) -> int | None:
    """How the tests of a module end in the copy: 0 when they pass; None when they are not done in time."""
    files = [str(folder / one.relative_to(ROOT)) for one in [module, *tests_of(module), *LAWS]]
    ran = START.Process(target=run_tests, args=(folder, files))
    ran.start()
    ran.join(LONGEST_S)
    ended = ran.exitcode
    ran.kill()
    ran.join()
    return ended


def run_tests(folder: Path, files: list[str]) -> None:
    """Run test files in the copy, in a process of its own, and leave with their status."""
    os.chdir(folder)
    sys.path[:] = [str(folder), *(path for path in sys.path if path and Path(path) not in NEVER_THERE)]
    sys.dont_write_bytecode = True
    with open(os.devnull, "w") as nothing, redirect_stdout(nothing), redirect_stderr(nothing):
        status = pytest.main([*HASTE, *files])
    os._exit(status)


if __name__ == "__main__":
    main()
