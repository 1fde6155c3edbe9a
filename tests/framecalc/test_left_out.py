"""What a call or a record of a topic leaves out is none of it, over all topics; a usual value is that of the form."""

import importlib
import inspect
from collections.abc import Iterator
from dataclasses import is_dataclass
from decimal import Decimal
from fractions import Fraction
from math import inf
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from framecalc.hanging.groups import Grouping
from framecalc.mats.wished_mat import MatWish
from framecalc.project.package import Mat
from framecalc.project.timber import Timber
from framecalc.project.wall import Wall
from framecalc.records import Record
from framecalc.timber.boards import Allowances
from framecalc.timber.sticks.problem import StickProblem

FRAMECALC = Path(__file__).parents[2] / "framecalc"
NO_TOPICS = {"plan", "project", "drawing", "search", "demos"}
ONE = {
    "count",
    "copy",
    "copies",
    "strips",
    "first",
    "frames",
    "layers",
    "times",
    "seed",
    "coin",
    "across_ratio",
    "up_ratio",
}
"""Of what is there at all there is one; and a factor that changes nothing is one."""

RECTANGLE = {"sides": 4, "start_deg": 45, "finish_deg": 45, "mitre_deg": 45}
"""A frame of which nobody says more is a rectangle, and four equal turns of a full one are mitred at half a right
angle. Source: plane geometry."""

ALIKE = {
    (Grouping, "gap_mm"): Wall.model_fields["gap"].default.mm,
    (Grouping, "columns"): Wall.model_fields["columns"].default,
    (MatWish, "gap_mm"): Mat.model_fields["gap"].default.mm,
    (MatWish, "columns"): Mat.model_fields["columns"].default,
    (Allowances, "width_mm"): Timber.model_fields["width_allowance"].default.mm,
    (Allowances, "thickness_mm"): Timber.model_fields["thickness_allowance"].default.mm,
    (Allowances, "length_mm"): 2 * Timber.model_fields["part_trim"].default.mm,
    (Allowances, "sanding_mm"): Timber.model_fields["sanding"].default.mm,
    (StickProblem, "shortest_useful_mm"): Timber.model_fields["shortest_useful"].default.mm,
}
"""Usual values, which are those of the form."""

OTHERWISE = {
    "Currency.decimals",
    "Bed.gap_mm",
    "Bed.web_mm",
    "Falling.out_ratio",
    "_require_pct.most",
    "first_layout.tries",
}
"""Told of otherwise: most currencies have hundredths; a laser's least gap and web; the lamp's own direction; a limit;
how long a search goes on."""


def topics() -> Iterator[ModuleType]:
    for path in sorted(FRAMECALC.rglob("*.py")):
        place = path.relative_to(FRAMECALC)
        if place.parts[0] not in NO_TOPICS and path.stem not in ("__init__", "__main__"):
            yield importlib.import_module(".".join(("framecalc", *place.with_suffix("").parts)))


def left_out() -> Iterator[tuple[str, str, Any]]:
    """Where something may be left out, what, and as what it is then taken; not where a named constant says it."""
    for module in topics():
        named = [value for name, value in vars(module).items() if name.strip("_").isupper()]
        for name, found in vars(module).items():
            if getattr(found, "__module__", "") != module.__name__:
                continue
            if not callable(found) or (isinstance(found, type) and not is_record(found)):
                continue
            pairs = [(one.name, one.default) for one in inspect.signature(found).parameters.values()]
            told = ((what, value) for what, value in pairs if (found, what) not in ALIKE and is_number(value, named))
            yield from ((f"{name}.{what}", what, value) for what, value in told)


def is_record(found: type) -> bool:
    return issubclass(found, Record) or is_dataclass(found)


def is_number(value: object, named: list[object]) -> bool:
    is_plain = isinstance(value, int | float | Fraction | Decimal) and not isinstance(value, bool | str)
    return is_plain and value is not inspect.Parameter.empty and not any(value is one for one in named)


def test_what_is_left_out_is_none_of_it() -> None:
    found = list(left_out())
    assert len(found) > 100
    for where, what, value in found:
        if where not in OTHERWISE:
            expected = {RECTANGLE[what]} if what in RECTANGLE else {1} if what in ONE else {0, inf, -inf}
            assert value in expected, where


@pytest.mark.parametrize(("record", "name"), ALIKE, ids=lambda one: getattr(one, "__name__", one))
def test_a_usual_value_is_that_of_the_form(record: Any, name: str) -> None:
    assert inspect.signature(record).parameters[name].default == pytest.approx(ALIKE[record, name])
