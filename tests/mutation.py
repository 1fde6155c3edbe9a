"""Change small things in the topic packages, one at a time, and see whether their own tests notice.

    python tests/mutation.py [PACKAGE-OR-MODULE ...] [--seed 7] [--count 40] [--minutes 5]
    python tests/mutation.py --count 400 --minutes 90      # one score of all topics

An operator, a comparison, a constant, `and` for `or`, `max` for `min`: as many changes as asked for are drawn by seed,
evenly from every module, each made in a copy of the checkout, where the topic's tests that reach the module are run:
its doctests, the tests that import it, then those that import what imports it. One score is printed, that of each
topic, and each survivor with its line. All of them are holes in the tests. Not drawn, because no law and no published
value could tell:

- constants that are a choice of ours by the line below them (`CHOICES`), the numbers of a model that is one, and what
  holds exactly at such a limit;
- where a tolerance begins or ends;
- how long something is searched for (`SEARCHES` in the name of a constant), and what only proposes (`PROPOSALS`);
- whether a limit holds for two measures that are exactly equal: there `<` becomes `>` instead;
- types, messages, and the few of `EQUIVALENT`, each with its reason.
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
from collections.abc import Callable, Iterable, Iterator
from compileall import compile_dir
from contextlib import redirect_stderr, redirect_stdout
from copy import deepcopy
from dataclasses import dataclass
from functools import cache
from itertools import chain, pairwise
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
FRAMECALC = ROOT / "framecalc"
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

LAWS = (ROOT / "tests/framecalc/test_left_out.py",)
"""Laws of all topics; they come last."""

START = multiprocessing.get_context("forkserver" if os.name == "posix" else "spawn")
START.set_forkserver_preload(["pytest", "hypothesis", "shapely", "scipy.optimize", "pydantic", "playwright.sync_api"])
HASTE = ["-x", "-q", "-p", "no:cacheprovider", "-p", "no:anyio", "-p", "no:xdist", "--assert=plain"]
"""What all tests want is imported and compiled once; nobody reads why a test failed."""

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
REVERSED: dict[type[ast.cmpop], type[ast.cmpop]] = {ast.Lt: ast.Gt, ast.LtE: ast.GtE, ast.Gt: ast.Lt, ast.GtE: ast.LtE}
CHOICES = ("common practice", "no source", "by eye", "our own", "ours.")
"""What the line below a constant says that nobody published."""

TOLERANCE = "TOLERANCE"
SEARCHES = (
    "STEPS",
    "TRIES",
    "ROUNDS",
    "NODES",
    "HALVINGS",
    "DECISIONS",
    "NOISE",
    "SEARCHED",
    "STARTS",
    "WORK",
    "EVERY",
)
"""What the names of constants have in them that tell how long something is searched for."""

MEASURES = ("_mm", "_mm2", "_mm3", "_um", "_px", "_deg", "_rad", "_kg", "_n", "_pct", "_ratio")
"""How the names of measures end that are exactly equal by chance only."""

MODELS = "our own model, set by eye"
"""How the source of a model of looks begins: its numbers are choices too."""

EQUIVALENT = {
    "artwork/turning.py: 0.0 -> 1.0: across_waves = tuple(_across_waves(corners, 0.0))": "two waves meet where they did",
    "hanging/lean.py: _open_mm(hang, radians(middle_deg)) > 0 -> _open_mm(hang, radians(middle_deg)) >= 0: "
    "low_deg, high_deg = (middle_deg, high_deg) if _open_mm(hang, radians(middle_deg)) > 0 else (low_deg, middle_deg)": (
        "the half that ends at the zero has it too"
    ),
    "section/typed_points.py: (middle.at[1] - before.at[1]) * (after.at[1] - middle.at[1]) -> "
    "(middle.at[1] - before.at[1]) / (after.at[1] - middle.at[1]): "
    "if upright and (middle.at[1] - before.at[1]) * (after.at[1] - middle.at[1]) < 0:": "only the sign counts",
    "timber/common/problem.py: 0.0 -> 1.0: most = [0 if strip_mm is None else int(max(0.0, room_mm) // "
    "(strip_mm + kerf_mm)) for strip_mm in strips_mm]": "what is too much is left out after it",
}
"""Changes that no answer shows, as `module: change: line`, and why."""


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
    """The modules of the topic packages that are asked for, each with tests of its own."""
    found = [path for path in sorted(FRAMECALC.rglob("*.py")) if path.relative_to(FRAMECALC).parts[0] not in NO_TOPICS]
    asked = [path for path in found if not where or any(f"framecalc/{one}" in path.as_posix() for one in where)]
    no_proposals = [path for path in asked if path.relative_to(FRAMECALC).as_posix() not in PROPOSALS]
    return [path for path in no_proposals if path.stem != "__init__" and tests_of(path)]


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
    tree = ast.parse(module.read_text("utf-8"))
    silent = set(map(id, unspoken(tree)))
    lines = module.read_text("utf-8").splitlines()
    is_model = any(MODELS in line for line in lines)
    for number, node in enumerate(ast.walk(tree)):
        if id(node) in silent or (is_model and isinstance(node, ast.Constant)):
            continue
        changed = change_of(node)
        says = changed and f"{ast.unparse(node)} -> {ast.unparse(changed)}"
        at = getattr(node, "lineno", 0)
        if says and f"{module.relative_to(FRAMECALC).as_posix()}: {says}: {lines[at - 1].strip()}" not in EQUIVALENT:
            yield Mutant(module=module, node=number, says=f"{at}: {says}")


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
        elif isinstance(node, ast.Compare | ast.BinOp) and is_edge(node, chosen_names()):
            yield node
        elif isinstance(node, ast.Module | ast.ClassDef):
            for constant in chosen_constants(node.body):
                yield from ast.walk(constant)


def is_edge(node: ast.Compare | ast.BinOp, chosen: frozenset[str]) -> bool:
    """Whether it is about where a tolerance begins or ends, or what holds exactly at a limit of our choice."""
    operands = [node.left, *(node.comparators if isinstance(node, ast.Compare) else (node.right,))]
    names = {one.id for part in operands for one in ast.walk(part) if isinstance(one, ast.Name)}
    is_limit = isinstance(node, ast.Compare) and not isinstance(node.ops[0], ast.Eq | ast.NotEq)
    return any(TOLERANCE in name for name in names) or (is_limit and bool(names & chosen))


@cache
def chosen_names() -> frozenset[str]:
    """The names of all constants that are a choice."""
    trees = [ast.parse(path.read_text("utf-8")) for path in FRAMECALC.rglob("*.py")]
    return frozenset(name for tree in trees for one in chosen_constants(tree.body) for name in names_of(one))


def chosen_constants(body: list[ast.stmt]) -> Iterator[ast.Assign | ast.AnnAssign]:
    """Constants that no source says: choices, tolerances, and how long something is searched for."""
    for number, one in enumerate(body):
        if isinstance(one, ast.Assign | ast.AnnAssign) and one.value:
            said = " ".join(said_below(body[number:]).lower().split())
            unsourced = (TOLERANCE, *SEARCHES)
            if any(mark in said for mark in CHOICES) or any(
                word in name for name in names_of(one) for word in unsourced
            ):
                yield one


def names_of(one: ast.Assign | ast.AnnAssign) -> list[str]:
    """The names of the constants that a statement sets."""
    named = [node for node in ast.walk(one) if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store)]
    return [node.id for node in named if node.id.isupper()]


def said_below(body: list[ast.stmt]) -> str:
    """The docstring below a constant, with no empty line between: one may speak of several constants above it."""
    for one, below in pairwise(body):
        if below.lineno != (one.end_lineno or 0) + 1:
            return ""
        if not isinstance(below, ast.Assign | ast.AnnAssign):
            return said_by(below)
    return ""


def said_by(statement: ast.stmt) -> str:
    """The docstring that a statement is, if it is one."""
    match statement:
        case ast.Expr(value=ast.Constant(value=str(said))):
            return said
        case _:
            return ""


def change_of(node: ast.AST) -> ast.AST | None:
    """The node with one thing changed; None where there is nothing to change."""
    change = CHANGES.get(type(node))
    return change(deepcopy(node)) if change else None


def _comparison(node: ast.Compare) -> ast.AST | None:
    both = is_measure(node.left) and is_measure(node.comparators[0], or_limit=True)
    other = (both and REVERSED.get(type(node.ops[0]))) or COMPARISONS.get(type(node.ops[0]))
    if other is None:
        return None
    node.ops[0] = other()
    return node


def is_measure(node: ast.AST, *, or_limit: bool = False) -> bool:
    """Whether it is a measure, by a name in it that says its unit, or else a limit that is no whole number."""
    if or_limit and isinstance(node, ast.Constant) and isinstance(node.value, float) and node.value % 1:
        return True
    names = [getattr(one, "attr", getattr(one, "id", "")) for one in ast.walk(node)]
    return any(name.lower().endswith(MEASURES) for name in names)


def _operation(node: ast.BinOp) -> ast.AST | None:
    other = OPERATORS.get(type(node.op))
    if other is None or (isinstance(node.left, ast.Constant) and isinstance(node.left.value, str)):
        return None
    node.op = other()
    return node


def _constant(node: ast.Constant) -> ast.AST | None:
    if isinstance(node.value, bool) or not isinstance(node.value, int | float):
        return None
    node.value = node.value + 1 if isinstance(node.value, int) or not node.value else node.value * 1.1
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
    sys.path[:] = [str(folder), *(path for path in sys.path if path and Path(path) not in (ROOT, ROOT / "tests"))]
    sys.dont_write_bytecode = True
    with open(os.devnull, "w") as nothing, redirect_stdout(nothing), redirect_stderr(nothing):
        status = pytest.main([*HASTE, *files])
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
