"""The house rules that a machine can hold: who may import whom, names with units, sources, documents."""

import ast
import hashlib
import re
import subprocess
import sys
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import TypeVar, cast

import pytest
from jinja2 import Environment, nodes

from framecalc import errors
from webapp.pages.all_pages import PAGES

ROOT = Path(__file__).parents[1]
FRAMECALC = ROOT / "framecalc"
LINT_IMPORTS = Path(sys.executable).with_name("lint-imports")
MODULES = sorted(FRAMECALC.rglob("*.py"))
BASE = {"__init__", "errors", "findings", "limits", "records", "words"}
NO_TOPICS = {"plan", "project", "drawing", "tables", "search"}
TOPICS = [
    path
    for path in MODULES
    if path.relative_to(FRAMECALC).parts[0] not in NO_TOPICS
    and not (path.stem == "__init__" or (path.parent == FRAMECALC and path.stem in BASE))
]
SPEAKING = [*MODULES, *sorted((ROOT / "webapp").rglob("*.py"))]
TOPIC_COUNT = 188
"""How many modules the rules for topics look at: a move that takes modules out of their sight changes it."""
DIMENSIONLESS = {"above", "at_least", "best", "gap", "value"}
"""Shares of a whole, in the search for a cutting plan."""
ALLOWED_OUTSIDE = {"project": {"pydantic", "pydantic_core"}, "pen": {"svgwrite"}, "records": {"msgspec"}}
"""By the name of the module or of its folder."""
LONGEST_FUNCTION, LONGEST_MODULE, LONGEST_LINE_OF_TEMPLATE = 40, 400, 165
ALLOWED_ANY = {
    "framecalc/corners/small_motions.py": "the solver, which has no types",
    "framecalc/project/label.py": "what pydantic hands to an annotation",
    "framecalc/project/reading.py": "the faults that pydantic finds, and the default that it writes",
    "framecalc/words.py": "what a copy of a text is made from, as str states it",
    "webapp/data/of_each.py": "what each function finds, kept by the function",
    "webapp/jobs/running.py": "answers of any kind, kept by their key",
}
"""The modules that take or give values of no stated type, and what those are; everything typed is a `Document`."""
IMPORTED_WHEN_NEEDED = {"ezdxf", "fpdf", "highspy", "numpy", "svgwrite"}
UNIT_SUFFIXES = tuple(
    f"_{unit}"
    for unit in (
        *("mm", "mm2", "mm3", "mm4", "um", "m2", "m3", "bf", "deg", "rad", "kg", "kg_m2", "kg_m3", "pct", "ratio"),
        *("count", "n", "n_per_kg", "nm", "mpa", "c", "f", "k", "s", "min", "h", "per_s", "px", "px2"),
    )
)

N = TypeVar("N", bound=ast.AST)


@cache
def _tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text("utf-8"))


@cache
def _nodes(path: Path) -> dict[type[ast.AST], list[ast.AST]]:
    """Every node of a module by its kind, as wide as `ast.walk` goes: each module is walked through once."""
    found: dict[type[ast.AST], list[ast.AST]] = defaultdict(list)
    for node in ast.walk(_tree(path)):
        found[type(node)].append(node)
    return found


def _all(path: Path, kind: type[N]) -> list[N]:
    """The nodes of one kind in a module."""
    return cast("list[N]", _nodes(path).get(kind, []))


def _imports(body: list[ast.stmt]) -> Iterator[str]:
    for node in body:
        if isinstance(node, ast.Import):
            yield from (name.name for name in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield node.module or ""


def _named(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


@pytest.mark.parametrize("path", MODULES, ids=_named)
def test_a_module_of_framecalc_imports_itself_and_the_standard_library_only(path: Path) -> None:
    allowed = (
        {"framecalc"}
        | sys.stdlib_module_names
        | ALLOWED_OUTSIDE.get(path.stem, set())
        | ALLOWED_OUTSIDE.get(path.parent.name, set())
    )
    outside = {name for name in _imports(_tree(path).body) if name.split(".")[0] not in allowed}
    assert outside == set()


@pytest.mark.parametrize("path", MODULES, ids=_named)
def test_a_solver_is_imported_inside_the_function_that_solves(path: Path) -> None:
    inside = {name.split(".")[0] for node in _all(path, ast.FunctionDef) for name in _imports(node.body)}
    assert inside <= IMPORTED_WHEN_NEEDED | {"framecalc"} | sys.stdlib_module_names


def test_imports_run_one_way() -> None:
    """The contracts of pyproject.toml: layers, and pages that do not know one another."""
    found = subprocess.run([LINT_IMPORTS, "--no-cache"], cwd=ROOT, capture_output=True, text=True, check=False)
    assert found.returncode == 0, found.stdout[-3000:] + found.stderr[-1000:]
    assert "4 kept, 0 broken" in found.stdout


@pytest.mark.parametrize(("folder", "most"), [("framecalc", 10), ("webapp", 5)])
def test_the_first_level_shows_the_architecture(folder: str, most: int) -> None:
    modules = [path.stem for path in (ROOT / folder).glob("*.py")]
    assert len(modules) <= most, modules


def test_every_folder_of_a_page_is_in_the_list_of_pages() -> None:
    folders = {path.parent.name for path in (ROOT / "webapp/pages").glob("*/__init__.py")}
    assert {page.name for page in PAGES} == folders


def test_the_map_is_short_and_names_every_folder() -> None:
    text = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    assert len(text.encode()) < 10 * 1024
    folders = [path.parent for name in ("framecalc", "webapp") for path in (ROOT / name).glob("*/__init__.py")]
    assert [path.name for path in folders if f"\n  {path.name}/" not in text] == []


def test_the_rules_see_every_topic() -> None:
    assert len(TOPICS) == TOPIC_COUNT


def test_values_of_no_stated_type_stay_at_the_border() -> None:
    found = {_named(path) for path in SPEAKING if "Any" in _names_imported(path)}
    assert found == ALLOWED_ANY.keys()


def _classes(path: Path) -> Iterator[str]:
    """The public classes and the named types of a module."""
    for node in _tree(path).body:
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            yield node.name
        if isinstance(node, ast.AnnAssign) and ast.unparse(node.annotation) == "TypeAlias":
            yield ast.unparse(node.target)


def test_the_name_of_a_class_means_one_thing() -> None:
    """What is typed may be called like what its topic makes of it: `project.package.Mat` and `mats.mat.Mat`."""
    places: dict[str, list[Path]] = defaultdict(list)
    for path in SPEAKING:
        for name in _classes(path):
            places[name].append(path)
    assert len(places) > 900
    typed = {name: [path for path in paths if path.parent != FRAMECALC / "project"] for name, paths in places.items()}
    assert {name: list(map(_named, paths)) for name, paths in typed.items() if len(paths) > 1} == {}


def _lines(node: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """How many lines a function has below its docstring."""
    first = node.body[1] if ast.get_docstring(node) and len(node.body) > 1 else node.body[0]
    return (node.end_lineno or node.lineno) - first.lineno + 1


@pytest.mark.parametrize("path", SPEAKING, ids=_named)
def test_a_module_and_its_functions_can_be_taken_in_at_a_glance(path: Path) -> None:
    functions = (*_all(path, ast.FunctionDef), *_all(path, ast.AsyncFunctionDef))
    assert [node.name for node in functions if _lines(node) > LONGEST_FUNCTION] == []
    assert len(path.read_text("utf-8").splitlines()) <= LONGEST_MODULE


def _floats_without_unit(path: Path) -> Iterator[str]:
    for node in (*_all(path, ast.FunctionDef), *_all(path, ast.ClassDef)):
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
            pairs = [(arg.arg, arg.annotation) for arg in (*node.args.args, *node.args.kwonlyargs)]
        elif isinstance(node, ast.ClassDef):
            pairs = [
                (field.target.id, field.annotation)
                for field in node.body
                if isinstance(field, ast.AnnAssign) and isinstance(field.target, ast.Name)
            ]
        else:
            continue
        for name, annotation in pairs:
            is_float = annotation is not None and ast.unparse(annotation) in ("float", "float | None")
            if is_float and name not in DIMENSIONLESS and not name.endswith(UNIT_SUFFIXES):
                yield f"{getattr(node, 'name', '')}.{name}"


@pytest.mark.parametrize("path", TOPICS, ids=_named)
def test_every_float_of_a_topic_names_its_unit(path: Path) -> None:
    assert list(_floats_without_unit(path)) == []


@pytest.mark.parametrize("path", TOPICS, ids=_named)
def test_every_public_function_of_a_topic_names_its_source(path: Path) -> None:
    silent = [
        node.name
        for node in _tree(path).body
        if isinstance(node, ast.FunctionDef)
        and not node.name.startswith("_")
        and "Source:" not in (ast.get_docstring(node) or "")
    ]
    assert silent == []


def test_the_vendored_htmx_is_the_recorded_one() -> None:
    digest = hashlib.sha256((ROOT / "static/htmx/htmx-4.0.1.min.js").read_bytes()).hexdigest()
    assert digest == "a0abb04f2f45a1f89d1d4844023245537e5e6014c87b144553e0607b4cc32130"


@pytest.mark.parametrize("path", sorted((ROOT / "templates").rglob("_*.html")), ids=_named)
def test_a_fragment_has_one_root_element_with_an_id(path: Path) -> None:
    markup = re.sub(r"\{#.*?#\}|\{%.*?%\}", "", path.read_text("utf-8"), flags=re.DOTALL).strip()
    assert re.match(r"<[a-z-]+[^>]*\sid=", markup), f"{path.name} starts with {markup[:60]!r}"


SAY = {"say", "worded"}
"""What takes a pattern of ours as its first argument, and then the values that are put into it."""

FILTER = {"webapp/live/render.py"}
"""Who calls the table itself: the filter of the templates. All others say a pattern."""

TEXT_METHODS = {"format", "join", "replace"}


def _called(path: Path) -> Iterator[tuple[str, ast.Call]]:
    for node in _all(path, ast.Call):
        if isinstance(node.func, ast.Name):
            yield node.func.id, node


def _names_imported(path: Path) -> set[str]:
    return {name.name for node in (*_all(path, ast.Import), *_all(path, ast.ImportFrom)) for name in node.names}


def _is_put_together(node: ast.expr) -> bool:
    """Whether it is a text with values in it already."""
    of_text = isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in TEXT_METHODS
    return of_text or isinstance(node, ast.JoinedStr | ast.BinOp)


def test_our_words_are_turned_before_a_value_is_put_in() -> None:
    said = [(path, call) for path in SPEAKING for name, call in _called(path) if name in SAY]
    assert len(said) > 60
    assert [(_named(path), call.lineno) for path, call in said if _is_put_together(call.args[0])] == []


def test_our_words_are_turned_in_one_place() -> None:
    assert {_named(path) for path in SPEAKING if "localise" in _names_imported(path)} == FILTER


def _filtered(path: Path) -> Iterator[tuple[int, nodes.Node]]:
    for found in Environment().parse(path.read_text("utf-8")).find_all(nodes.Filter):
        if found.name == "trade":
            assert found.node is not None
            yield found.lineno, found.node


def _is_whole(node: nodes.Node) -> bool:
    """Whether it is a text of ours, or one value as it was handed over: a wording knows which letters are ours."""
    if isinstance(node, nodes.CondExpr):
        return all(_is_whole(one) for one in (node.expr1, node.expr2) if one is not None)
    return isinstance(node, nodes.Const | nodes.Name | nodes.Getattr | nodes.Getitem)


def test_no_template_turns_a_text_that_it_has_put_together() -> None:
    found = [(path, one) for path in sorted((ROOT / "templates").rglob("*.html")) for one in _filtered(path)]
    assert len(found) > 100
    assert [(_named(path), line) for path, (line, node) in found if not _is_whole(node)] == []


def test_the_lines_of_templates_can_be_read() -> None:
    pages = sorted((ROOT / "templates").rglob("*.html"))
    lines = [(path, line) for path in pages for line in path.read_text("utf-8").splitlines()]
    assert len(lines) > 1000
    assert not [(path, line) for path, line in lines if len(line) > LONGEST_LINE_OF_TEMPLATE]


def test_no_template_formats_a_number_or_uses_an_inline_script() -> None:
    for path in (ROOT / "templates").rglob("*.html"):
        text = path.read_text("utf-8")
        assert "|round" not in text and "|format" not in text, path
        assert not re.search(r"<script(?![^>]*\bsrc=)|\son[a-z]+=|\sstyle=|hx-on|js:", text), path


FORBIDDEN = re.compile(
    r"would do\b|\bis no \w+[.:]|cannot be read as|\bwas expected\b|\b[Tt]ake out\b|\b[Tt]aken? in\b|\bTo the page\b"
    r"|from memory|second hand|re-read|no source"
)
"""What no sentence of the product says: riddles for an error, and how anybody came by a number."""

MOST_WORDS = 12
"""As many words as an error has at the most, a value counting as one; a question of two readings gives both of them."""

ERRORS = frozenset(
    name
    for name, one in vars(errors).items()
    if isinstance(one, type) and issubclass(one, errors.FrameCalcError) and one.__module__ == errors.__name__
)


def _own_sentences(path: Path) -> Iterator[tuple[int, str]]:
    """Every text in a module that is no docstring, with `…` for each value that is put into it."""
    docstrings = {id(node.value) for node in _all(path, ast.Expr)}
    for node in (*_all(path, ast.Constant), *_all(path, ast.JoinedStr)):
        if id(node) not in docstrings:
            yield node.lineno, _spelled(node)


def _spelled(node: ast.expr) -> str:
    """The letters of a text, with `…` for each value that is put into it; of two ways, the longer one."""
    match node:
        case ast.Constant(value=str(letters)):
            return re.sub(r"{\w+}", "…", letters)
        case ast.JoinedStr(values=parts):
            return "".join(_spelled(part) for part in parts)
        case ast.BinOp(left=left, right=right):
            return _spelled(left) + _spelled(right)
        case ast.IfExp(body=one, orelse=other):
            return max(_spelled(one), _spelled(other), key=len)
        case _:
            return "…"


def _raised(path: Path) -> Iterator[tuple[int, str]]:
    for name, call in _called(path):
        if name in ERRORS and call.args and (sentence := _spelled(call.args[0])) != "…":
            yield call.lineno, re.sub(r"{\w+}", "…", sentence)


def test_no_sentence_of_ours_is_a_riddle() -> None:
    said = [(path, line, text) for path in SPEAKING for line, text in _own_sentences(path)]
    pages = [(path, 0, path.read_text("utf-8")) for path in sorted((ROOT / "templates").rglob("*.html"))]
    assert len(said) > 5000 and len(pages) > 60
    assert [
        (_named(path), line, found[0])
        for path, line, text in (*said, *pages)
        for found in [FORBIDDEN.search(text)]
        if found
    ] == []


def test_an_error_begins_with_a_capital_and_is_short() -> None:
    raised = [(path, line, sentence) for path in SPEAKING for line, sentence in _raised(path)]
    assert len(raised) > 150
    long = [one for one in raised if len(one[2].split()) > MOST_WORDS and "two ways" not in one[2]]
    low = [one for one in raised if one[2][:1].islower()]
    assert [(_named(path), line, sentence) for path, line, sentence in (*long, *low)] == []
