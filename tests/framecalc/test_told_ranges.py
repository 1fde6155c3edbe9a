"""The ranges that docstrings tell, over all topics: their ends are taken and what lies past them is refused.

The call is that of the doctest, with one argument changed: what is told to run from 1 to 179 takes 1 and 179 and
refuses what is less or more; what is told to be > 0 refuses 0, and ≥ 0 refuses less. A function that tells of no
refusal is only ever called with numbers in its range.
"""

import ast
import builtins
import doctest
import inspect
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from types import ModuleType
from typing import Any

import pytest
from test_left_out import topics

from framecalc.errors import FrameCalcError, OutOfRange

TOLD = re.compile(
    r"(?:^|, )(?:(?P<low>[−-]?[\d.]*\d)[°%]? to (?P<high>[−-]?[\d.]*\d)\b(?! mm)|(?P<than>[>≥]) 0\b(?! where))"
)
NAMES = re.compile(r"^\s+(?P<names>[a-z_\d, ]+): (?P<says>.*(?:\n\s{12,}.*)*)", re.MULTILINE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What is told of one argument, and the doctest's call with another value in its place."""

    where: str
    argument: str
    taken: tuple[float, ...]
    refused: tuple[float, ...]
    call_with: Callable[[float], object]


def told_ranges() -> Iterator[Told]:
    for module in topics():
        for name, function in vars(module).items():
            is_own = callable(function) and getattr(function, "__module__", "") == module.__name__
            if is_own and "OutOfRange: " in (function.__doc__ or ""):
                yield from of_function(module, name, function)


def of_function(module: ModuleType, name: str, function: Callable[..., object]) -> Iterator[Told]:
    for said in NAMES.finditer(inspect.getdoc(function) or ""):
        if found := TOLD.search(said["says"]):
            taken, refused = ends_of(found)
            for argument in said["names"].split(", "):
                if call := called_with(module, name, function, argument):
                    yield Told(
                        where=f"{name}.{argument}", argument=argument, taken=taken, refused=refused, call_with=call
                    )


def ends_of(found: re.Match[str]) -> tuple[tuple[float, ...], tuple[float, ...]]:
    if found["than"]:
        return (0.0,) if found["than"] == "≥" else (), (-0.01,) if found["than"] == "≥" else (0.0, -1.0)
    low, high = (float(found[end].replace("−", "-")) for end in ("low", "high"))
    past = min((high - low) / 101, 0.5)
    return (low, high), (low - past, high + past)


def called_with(
    module: ModuleType, name: str, function: Callable[..., object], argument: str
) -> Callable[[float], object] | None:
    """The first call in the doctest that gives the argument; None where there is none."""
    known = dict(vars(module))
    for example in (one for test in doctest.DocTestFinder(recurse=False).find(function, name) for one in test.examples):
        tree = ast.parse(example.source)
        for call in (by_name(one, function) for one in ast.walk(tree) if isinstance(one, ast.Call)):
            given = [one for one in call.keywords if one.arg == argument]
            if (
                isinstance(call.func, ast.Name)
                and call.func.id == name
                and given
                and is_a_number(call, given[0], known)
            ):
                return lambda value: evaluated(call, given[0], value, known)
        exec(compile(ast.fix_missing_locations(tree), name, "exec"), known)
    return None


def by_name(call: ast.Call, function: Callable[..., object]) -> ast.Call:
    """A call of the function with the names of what it gives by place."""
    if isinstance(call.func, ast.Name) and call.func.id == getattr(function, "__name__", ""):
        parameters = inspect.signature(function).parameters.values()
        names = [one.name for one in parameters if one.kind is not inspect.Parameter.POSITIONAL_ONLY]
        if len(names) == len(parameters):
            call.keywords += [ast.keyword(name, given) for name, given in zip(names, call.args, strict=False)]
            call.args = []
    return call


def is_a_number(call: ast.Call, given: ast.keyword, known: dict[str, Any]) -> bool:
    names = {one.id for one in ast.walk(call) if isinstance(one, ast.Name)}
    return names <= set(known) | set(dir(builtins)) and isinstance(
        eval(ast.unparse(given.value), known), int | float | Decimal
    )


def evaluated(call: ast.Call, given: ast.keyword, value: float, known: dict[str, Any]) -> object:
    before, given.value = given.value, ast.Constant(int(value) if value % 1 == 0 else value)
    try:
        return eval(compile(ast.fix_missing_locations(ast.Expression(call)), given.arg or "", "eval"), known)
    finally:
        given.value = before


TOLD_RANGES = list(told_ranges())


def test_many_arguments_have_a_range_that_is_told() -> None:
    assert len(TOLD_RANGES) > 250


@pytest.mark.parametrize("told", TOLD_RANGES, ids=lambda told: told.where)
def test_the_ends_of_a_range_are_taken_and_what_lies_past_them_is_refused(told: Told) -> None:
    for value in told.taken:
        try:
            told.call_with(value)
        except FrameCalcError as refusal:  # another argument may not go with it
            is_its_range = isinstance(refusal, OutOfRange) and refusal.sentence.startswith("Enter ")
            assert not (is_its_range and refusal.field == told.argument), value
    for value in told.refused:
        with pytest.raises(FrameCalcError):
            told.call_with(value)
