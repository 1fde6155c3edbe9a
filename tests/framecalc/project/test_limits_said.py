"""Every limit of a project file stands in its JSON Schema and in the sentence that refuses what is over it."""

import json
import re
from collections.abc import Iterator
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest

from framecalc.errors import FrameCalcError
from framecalc.project import project_document, project_schema, read_project
from framecalc.project.stated import field_limits, limit_of

SCHEMA = project_schema()
DEMOS = Path(__file__).parents[3] / "framecalc/demos"


@pytest.fixture(scope="module")
def document() -> dict[str, Any]:
    """A demo that has costs and stock."""
    found = json.loads((DEMOS / "cafe-prints.demo.json").read_text("utf-8"))
    found["quote"] = {"items": [{"id": "it1", "name": "Oak", "priced_on": "2026-03-01"}], "terms": {}}
    found["timber"]["stock"] = [{"id": "st1", "name": "A board", "length": "2000 mm", "width": "150 mm"}]
    found["frames"][0]["fitting"] = {"artwork_weight": "1 kg"}
    return project_document(read_project(found))


def resolved(schema: dict[str, Any]) -> dict[str, Any]:
    """A schema, or the one that it refers to; of several kinds the one that is not nothing."""
    for one in schema.get("anyOf", ()):
        if one.get("type") != "null":
            return resolved(one)
    if "$ref" in schema:
        return dict(SCHEMA["$defs"][schema["$ref"].rpartition("/")[2]])
    return schema


def limited(
    value: Any, schema: dict[str, Any], path: tuple[str | int, ...] = ()
) -> Iterator[tuple[tuple[str | int, ...], str]]:
    """The places of a document that have a limit, each with its limit."""
    limit, inner = limit_of(schema), resolved(schema)
    if limit and (value != [] or inner["items"].get("type") == "string"):
        yield path, limit
    if isinstance(value, dict):
        for name, inside in value.items():
            if name in inner.get("properties", {}):
                yield from limited(inside, inner["properties"][name], (*path, name))
    elif isinstance(value, list) and value:
        yield from limited(value[0], inner["items"], (*path, 0))


def too_much(value: Any, limit: str) -> Any:
    """What is over a limit, of the same kind."""
    number = int(re.findall(r"[\d,.]+", limit)[-1].replace(",", "").split(".")[0])
    if isinstance(value, list):
        return [*value, *[value[0] if value else "x"] * (number + 1 - len(value))]
    if isinstance(value, int):
        return number + 1
    if "characters" in limit:
        return "x" * (number + 1)
    unit = next((unit for unit in (" mm", " kg") if limit.endswith(unit)), "")
    return "2100-01-01" if limit == "2000 to 2099" else f"{number + (0 if 'under' in limit else 1)}{unit}"


def test_what_is_over_a_limit_is_refused_with_the_limit(document: dict[str, Any]) -> None:
    places = list(limited(document, SCHEMA))
    assert len(places) > 100
    silent = []
    for path, limit in places:
        changed = deepcopy(document)
        holder = changed
        for step in path[:-1]:
            holder = holder[step]
        holder[path[-1]] = too_much(holder[path[-1]], limit)
        most = re.findall(r"\d[\d,]*", limit.split(".")[0])[-1]
        with pytest.raises(FrameCalcError) as refused:
            read_project(changed)
        sentences = getattr(refused.value, "sentences", {"": refused.value.sentence})
        silent += [] if any(most in said for said in sentences.values()) else [(path, limit, sentences)]
    assert silent == [], silent


def test_a_range_and_a_count_are_stated_for_every_field_that_holds_one() -> None:
    assert len(field_limits()) > 200
    unstated = [
        (name, title)
        for name, part in SCHEMA["$defs"].items()
        for title, field in part.get("properties", {}).items()
        if name != "Saved" and resolved(field).get("type") in ("integer", "array") and not limit_of(field)
    ]
    assert unstated == []
