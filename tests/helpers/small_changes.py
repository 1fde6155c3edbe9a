"""Small changes of a module: an operator, a comparison, a constant, `and` for `or`, `max` for `min`.

Left out is what no law and no published value could tell:

- constants that are a choice of ours by the line below them (`CHOICES`), the numbers of a model that is one, and what
  holds exactly at such a limit;
- where a tolerance begins or ends;
- how long something is searched for (`SEARCHES` in the name of a constant);
- whether a limit holds for two measures that are exactly equal: there `<` becomes `>` instead;
- types and what is asserted for them, messages, and the few of `EQUIVALENT`, each with its reason.
"""

import ast
from collections.abc import Callable, Iterator
from copy import deepcopy
from functools import cache
from itertools import pairwise
from pathlib import Path

FRAMECALC = Path(__file__).parents[2] / "framecalc"

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
    "TRIED",
    "ROUNDS",
    "NODES",
    "HALVINGS",
    "DECISIONS",
    "NOISE",
    "SEARCHED",
    "STARTS",
    "WORK",
    "EVERY",
    "MOST_JOINED",
    "MOST_PLACES",
)
"""What the names of constants have in them that tell how long something is searched for."""

MEASURES = ("_mm", "_mm2", "_mm3", "_um", "_px", "_deg", "_rad", "_kg", "_n", "_mpa", "_pct", "_ratio")
"""How the names of measures end that are exactly equal by chance only."""

MODELS = "our own model, set by eye"
"""How the source of a model of looks begins: its numbers are choices too."""

EQUIVALENT = {
    "money.py: 1 -> 2: even = weights if any(weights) else [Decimal(1)] * len(weights)": "equal weights are equal",
    "timber/common/problem.py: 1.0 -> 1.1: require_positive(strip_mm=1.0 if strip_mm is None else strip_mm)": (
        "a strip that is none is only to be no zero"
    ),
    "corners/joints/clash.py: max(one.low_mm - other.high_mm, other.low_mm - one.high_mm) -> min(one.low_mm - "
    "other.high_mm, other.low_mm - one.high_mm): if max(one.low_mm - other.high_mm, other.low_mm - one.high_mm) > "
    "reach_mm:": "it only spares the work of measuring",
    "wood/naming.py: said <= _all_words(wood) -> said < _all_words(wood): return tuple(wood for wood in wood_species() "
    "if _noun(wood) in said and said <= _all_words(wood))": "a whole name was found before",
    "corners/squareness.py: diagonal_difference_mm > 0 -> diagonal_difference_mm >= 0: "
    "return Squeeze.RISING if diagonal_difference_mm > 0 else Squeeze.FALLING": "diagonals that are alike lean nowhere",
    "corners/saw_record.py: degrees_of_freedom <= len(_STUDENT_95) -> degrees_of_freedom < len(_STUDENT_95): "
    "if degrees_of_freedom <= len(_STUDENT_95):": "the series gives the last value of the table",
    "sizes/shape.py: 0 -> 1: x_mm, y_mm = self.corners(across_mm, up_mm)[0]": "all corners lie on one circle",
    "geometry/offset.py: (one[0] * other[1] - one[1] * other[0]) * by_mm -> (one[0] * other[1] - one[1] * other[0]) / "
    "by_mm: return (one[0] * other[1] - one[1] * other[0]) * by_mm < -TOLERANCE_MM * abs(by_mm)": (
        "only the sign counts"
    ),
    "units/writing.py: steps >= 0 -> steps > 0: "
    "nearest = floor(abs(steps) + Fraction(1, 2)) * (1 if steps >= 0 else -1)": "nothing has no sign",
    "section/tray.py: 0 -> 1: face_drop_mm=0,": "a flat face does not fall",
    "package/retainer_section.py: back_mm < 0 -> back_mm <= 0: is_proud = back_mm < 0": "no clip is flush",
    "corners/joints/corner_stock.py: 2 -> 3: middle = stock.land_mm / 2": "all places in the land see the same walls",
    "templates/parts.py: 0 -> 1: holes=tuple(hole for hole in template.holes if "
    "_holds(part, hole.segments[0].start)),": "a hole lies wholly in its part",
    "templates/parts.py: 0 -> 1: zones=tuple(zone for zone in template.zones if "
    "_holds(part, zone.segments[0].start)),": "a zone lies wholly in its part",
    "artwork/turning.py: 0.0 -> 1.0: across_waves = tuple(_across_waves(corners, 0.0))": "two waves meet as they did",
    "hanging/lean.py: _open_mm(hang, sin(lean_rad), tan(lean_rad)) > 0 -> "
    "_open_mm(hang, sin(lean_rad), tan(lean_rad)) >= 0: is_long = "
    "_open_mm(hang, sin(lean_rad), tan(lean_rad)) > 0": "the half that ends at the zero has it too",
    "section/typed_points.py: (middle.at[1] - before.at[1]) * (after.at[1] - middle.at[1]) -> "
    "(middle.at[1] - before.at[1]) / (after.at[1] - middle.at[1]): "
    "if upright and (middle.at[1] - before.at[1]) * (after.at[1] - middle.at[1]) < 0:": "only the sign counts",
    "section/typed_points.py: sqrt(max(radius_mm ** 2 - chord_mm ** 2 / 4, 0.0)) / chord_mm * (1 if turns_left else "
    "-1) -> sqrt(max(radius_mm ** 2 - chord_mm ** 2 / 4, 0.0)) / chord_mm / (1 if turns_left else -1): aside = "
    "sqrt(max(radius_mm**2 - chord_mm**2 / 4, 0.0)) / chord_mm * (1 if turns_left else -1)": "only the sign counts",
    'geometry/perspective.py: 0 -> 1: word = "wider" if away_pct > 0 else "narrower"': "less is not said at all",
    "price/counts.py: 0 -> 1: return whole / shares if shares else Fraction(0)": "of no shares none takes anything",
    "sheets/blocks.py: one.size[axis.value] + other.size[axis.value] -> one.size[axis.value] - other.size[axis.value]: "
    "if one.size[axis.value] + other.size[axis.value] <= longest[axis.value]:": "what fits no sheet is left out",
    "sheets/plan.py: 1 -> 2: whole = max(shares.capacities) or 1": "no share of anything is nothing",
    "sheets/blocks.py: 0 -> 1: joined = 0": "it only counts until too many were joined",
    "mats/windows.py: min(across_mm, up_mm) > 0 -> min(across_mm, up_mm) >= 0: return hypot(across_mm, up_mm) if "
    "min(across_mm, up_mm) > 0 else max(across_mm, up_mm)": "of nothing and a length both are the length",
    "package/retainers.py: left_over_mm > 0 -> left_over_mm >= 0: return step_mm - left_over_mm if left_over_mm > 0 "
    "else -left_over_mm - step_mm": "no clip holds a flush package",
    "templates/shapes.py: 0.0 -> 1.0: step_mm, places, low_mm = 2 * FOOT_MM + BRIDGE_MM + APART_MM, "
    "list[Point](), 0.0": "the blocks are moved to where lengths are counted from",
    "look/grain.py: ring + end + (year.uniform(-0.06, 0.06) if end < 1 else 0) -> ring + end - "
    "(year.uniform(-0.06, 0.06) if end < 1 else 0): yield ring + end + (year.uniform(-0.06, 0.06) if end < 1 else 0)": (
        "a lot that falls as often to either side"
    ),
    "look/grain.py: random.random() < 0.2 -> random.random() <= 0.2: long_mm = random.uniform(1.5, 4) + "
    "(random.random() < 0.2) * random.uniform(2, 8) * is_quartered": "a lot is never drawn that is a limit",
    "timber/sticks/whole_numbers.py: 1 -> 2: return sticks + 1": "any number above so many sticks will do",
    "timber/frames_from_a_stick.py: after < 0 -> after <= 0: if after < 0:": "both lines have their corner",
    "timber/common/problem.py: 0.0 -> 1.0: most = [0 if strip_mm is None else int(max(0.0, room_mm) // "
    "(strip_mm + kerf_mm)) for strip_mm in strips_mm]": "what is too much is left out after it",
}
"""Changes that no answer shows, as `module: change: line`, and why."""


def changes_in(module: Path) -> Iterator[tuple[int, str]]:
    """Every change of a module: the number of its node in the walk of the tree, and what it reads like."""
    text, place = module.read_text("utf-8"), module.relative_to(FRAMECALC).as_posix()
    lines, tree = text.splitlines(), ast.parse(text)
    left_out = set(map(id, unspoken(tree)))
    if any(MODELS in line for line in lines):
        left_out |= {id(node) for node in ast.walk(tree) if isinstance(node, ast.Constant)}
    for number, node in enumerate(ast.walk(tree)):
        changed, at = change_of(node), getattr(node, "lineno", 0)
        says = changed and f"{ast.unparse(node)} -> {ast.unparse(changed)}"
        if says and id(node) not in left_out and f"{place}: {says}: {lines[at - 1].strip()}" not in EQUIVALENT:
            yield number, f"{at}: {says}"


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
        elif isinstance(node, ast.JoinedStr | ast.Slice | ast.Assert):
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


def mutated(text: str, number: int) -> str:
    """The text of a module with the node of a number changed."""
    tree = ast.parse(text)
    node = next(one for at, one in enumerate(ast.walk(tree)) if at == number)
    changed = change_of(node)
    assert changed is not None
    node.__dict__.update(changed.__dict__)
    return ast.unparse(tree)
