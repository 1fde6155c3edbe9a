"""Change small things in the topic packages, one at a time, and see whether their own tests notice.

    python tests/mutation.py [PACKAGE-OR-MODULE ...] [--seed 7] [--count 40] [--minutes 5]

An operator, a comparison, a constant, `and` for `or`, `max` for `min`: as many changes as asked for are drawn by seed,
evenly from every module, each made in a copy of the checkout, where the test files that import the module are run. The
score is printed, and each survivor with its line. Left out are constants that are common practice by their docstring,
and where a tolerance begins or ends: no published value says those. A survivor that changes only a way of searching is
harmless. The rest are holes in the tests.
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
from collections.abc import Callable, Iterator
from contextlib import redirect_stderr, redirect_stdout
from copy import deepcopy
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
FRAMECALC = ROOT / "framecalc"
NO_TOPICS = {"plan", "project", "drawing", "tables", "search", "demos"}
LONGEST_S = 120
"""A change that makes a test run longer counts as noticed: the search has lost its end."""

START = multiprocessing.get_context("forkserver" if os.name == "posix" else "spawn")
START.set_forkserver_preload(["pytest", "hypothesis", "shapely", "scipy.optimize", "pydantic"])
IMPORTED = "ignore::pytest.PytestAssertRewriteWarning"
"""What all tests want is imported once, before pytest would look into it."""

COMPARISONS: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
}
OPERATORS: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
}
CALLS = {"max": "min", "min": "max"}
PRACTICE, TOLERANCE = "common practice", "TOLERANCE"
"""What the docstring of a constant says that has no source; what the names of tolerances have in them."""


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
        if chosen and not passes(chosen[0].module, Path(folder)):
            sys.exit(f"The tests of {chosen[0].module} fail without a change")
        tried = [(one, is_noticed(one, Path(folder))) for one in chosen if time.monotonic() < ends]
    survivors = [one for one, noticed in tried if not noticed]
    print(f"noticed {len(tried) - len(survivors)} of {len(tried)} (seed {asked.seed})")
    for one in survivors:
        print(f"  {one.module.relative_to(ROOT)}:{one.says}")


def copy(source: Path, target: Path) -> None:
    """Copy a file or a folder of the checkout."""
    if source.is_dir():
        shutil.copytree(source, target, ignore=shutil.ignore_patterns("__pycache__"))
    else:
        shutil.copy(source, target)


def modules(where: list[str]) -> list[Path]:
    """The modules of the topic packages that are asked for, each with tests of its own."""
    found = [path for path in sorted(FRAMECALC.rglob("*.py")) if path.relative_to(FRAMECALC).parts[0] not in NO_TOPICS]
    asked = [path for path in found if not where or any(f"framecalc/{one}" in path.as_posix() for one in where)]
    return [path for path in asked if path.stem != "__init__" and tests_of(path)]


def tests_of(module: Path) -> list[Path]:
    """The test files of the topics that import a module."""
    name = ".".join(module.relative_to(ROOT).with_suffix("").parts)
    folder = ROOT / "tests" / Path(*module.relative_to(ROOT).parts[:2]).with_suffix("")
    places = folder.rglob("test_*.py") if folder.is_dir() else folder.parent.glob("test_*.py")
    return sorted(path for path in places if f"{name} import" in path.read_text("utf-8"))


def drawn(paths: list[Path], *, count: int, seed: int) -> list[Mutant]:
    """Changes drawn by seed, one module after the other, until there are as many as asked for."""
    chance = random.Random(seed)
    pools = [chance.sample(found, len(found)) for path in paths if (found := list(mutants_of(path)))]
    chance.shuffle(pools)
    rounds = (pool[at] for at in range(max(map(len, pools), default=0)) for pool in pools if at < len(pool))
    return [one for one, _ in zip(rounds, range(count), strict=False)]


def mutants_of(module: Path) -> Iterator[Mutant]:
    """Every change of a module."""
    tree = ast.parse(module.read_text("utf-8"))
    silent = set(map(id, unspoken(tree)))
    for number, node in enumerate(ast.walk(tree)):
        if id(node) in silent:
            continue
        changed = change_of(node)
        if changed is not None:
            line = getattr(node, "lineno", 0)
            yield Mutant(module=module, node=number, says=f"{line}: {ast.unparse(node)} -> {ast.unparse(changed)}")


def unspoken(tree: ast.AST) -> Iterator[ast.AST]:
    """What a change of would not be one of the program: types, decorators, docstrings, the text that refuses."""
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            types = [
                node.returns,
                *node.decorator_list,
                *(one.annotation for one in node.args.kwonlyargs + node.args.args),
            ]
            for one in filter(None, types):
                yield from ast.walk(one)
        elif isinstance(node, ast.AnnAssign):
            yield from ast.walk(node.annotation)
        elif isinstance(node, ast.JoinedStr | ast.Slice):
            yield from ast.walk(node)
        elif isinstance(node, ast.Compare | ast.BinOp) and is_edge(node, practices()):
            yield node
        elif isinstance(node, ast.Module | ast.ClassDef):
            for constant in assigned_by_practice(node.body):
                yield from ast.walk(constant)


def is_edge(node: ast.Compare | ast.BinOp, practice: frozenset[str]) -> bool:
    """Whether it is about where a tolerance begins or ends, or what holds exactly at a limit of common practice."""
    operands = [node.left, *(node.comparators if isinstance(node, ast.Compare) else (node.right,))]
    names = {one.id for part in operands for one in ast.walk(part) if isinstance(one, ast.Name)}
    is_limit = isinstance(node, ast.Compare) and not isinstance(node.ops[0], ast.Eq | ast.NotEq)
    return any(TOLERANCE in name for name in names) or (is_limit and bool(names & practice))


@cache
def practices() -> frozenset[str]:
    """The names of all constants of common practice."""
    trees = [ast.parse(path.read_text("utf-8")) for path in FRAMECALC.rglob("*.py")]
    return frozenset(
        name.id
        for tree in trees
        for one in assigned_by_practice(tree.body)
        for name in ast.walk(one)
        if isinstance(name, ast.Name) and name.id.isupper() and isinstance(name.ctx, ast.Store)
    )


def assigned_by_practice(body: list[ast.stmt]) -> Iterator[ast.Assign | ast.AnnAssign]:
    """Constants without a source, and tolerances."""
    for one, below in zip(body, [*body[1:], None], strict=True):
        if isinstance(one, ast.Assign | ast.AnnAssign) and one.value:
            is_tolerance = TOLERANCE in ast.unparse(one).partition("=")[0]
            if is_tolerance or PRACTICE in " ".join(said_by(below).lower().split()):
                yield one


def said_by(statement: ast.stmt | None) -> str:
    """The docstring that a statement is, if it is one."""
    is_text = isinstance(statement, ast.Expr) and isinstance(statement.value, ast.Constant)
    return str(statement.value.value) if is_text else ""


def change_of(node: ast.AST) -> ast.AST | None:
    """The node with one thing changed; None where there is nothing to change."""
    change = CHANGES.get(type(node))
    return change(deepcopy(node)) if change else None


def _comparison(node: ast.Compare) -> ast.AST | None:
    other = COMPARISONS.get(type(node.ops[0]))
    if other is None:
        return None
    node.ops[0] = other()
    return node


def _operation(node: ast.BinOp) -> ast.AST | None:
    other = OPERATORS.get(type(node.op))
    if other is None or (isinstance(node.left, ast.Constant) and isinstance(node.left.value, str)):
        return None
    node.op = other()
    return node


def _constant(node: ast.Constant) -> ast.AST | None:
    if isinstance(node.value, bool) or not isinstance(node.value, int | float):
        return None
    node.value = node.value + 1 if isinstance(node.value, int) else node.value * 1.1 + 0.01
    return node


def _call(node: ast.Call) -> ast.AST | None:
    if not isinstance(node.func, ast.Name) or node.func.id not in CALLS:
        return None
    node.func.id = CALLS[node.func.id]
    return node


def _both(node: ast.BoolOp) -> ast.AST:
    node.op = ast.Or() if isinstance(node.op, ast.And) else ast.And()
    return node


CHANGES: dict[type[ast.AST], Callable[..., ast.AST | None]] = {
    ast.Compare: _comparison,
    ast.BinOp: _operation,
    ast.Constant: _constant,
    ast.Call: _call,
    ast.BoolOp: _both,
}


def is_noticed(mutant: Mutant, folder: Path) -> bool:
    """Make a change in a copy of the checkout, run its tests there, and take it back."""
    path = folder / mutant.module.relative_to(ROOT)
    before = path.read_text("utf-8")
    path.write_text(mutated(before, mutant.node), "utf-8")
    try:
        return not passes(mutant.module, folder)
    finally:
        path.write_text(before, "utf-8")


def passes(module: Path, folder: Path) -> bool:
    """Whether the tests of a module pass in the copy."""
    files = [str(folder / one.relative_to(ROOT)) for one in [*tests_of(module), module]]
    ran = START.Process(target=run_tests, args=(folder, files))
    ran.start()
    ran.join(LONGEST_S)
    ran.kill()
    ran.join()
    return ran.exitcode == 0


def run_tests(folder: Path, files: list[str]) -> None:
    """Run test files in the copy, in a process of its own, and leave with their status."""
    os.chdir(folder)
    sys.path[:] = [str(folder), *(path for path in sys.path if path and Path(path) not in (ROOT, ROOT / "tests"))]
    sys.dont_write_bytecode = True
    with open(os.devnull, "w") as nothing, redirect_stdout(nothing), redirect_stderr(nothing):
        status = pytest.main(["-x", "-q", "-p", "no:cacheprovider", "-W", IMPORTED, *files])
    os._exit(status)


def mutated(text: str, number: int) -> str:
    """The text of a module with the node of a number changed."""
    tree = ast.parse(text)
    node = next(one for at, one in enumerate(ast.walk(tree)) if at == number)
    changed = change_of(node)
    assert changed is not None
    node.__dict__.update(changed.__dict__)
    return ast.unparse(tree)


if __name__ == "__main__":
    main()
