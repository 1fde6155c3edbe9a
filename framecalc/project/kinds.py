"""Yes and no are no numbers, and no number is a yes or a no: where a file mixes the two up.

A *kind* is what JSON Schema calls a type: integer, boolean, string, and so on. A place that the schema does not
know has no kinds here; what stands there is refused, or lifted from an older format, elsewhere.
"""

from collections.abc import Iterator

from framecalc.project.document import Json, ReadDocument
from framecalc.project.places import JsonPlace

NUMBERS = frozenset({"integer", "number"})


def mixed_up(document: Json, *, schema: ReadDocument) -> dict[JsonPlace, str]:
    """Each place that holds true or false where a number belongs, or the other way round, with what would be right.

    Source: derived (RFC 8259: true, false and numbers are kinds of their own).

    >>> mixed_up({"count": True, "name": "a"}, schema={"properties": {"count": {"type": "integer"}}})
    {('count',): 'Enter a number, not true or false'}
    """
    return dict(_mixed(document, (schema,), schema, ()))


_Parts = tuple[ReadDocument, ...]
"""The schemas of one place, of which one has to fit."""


def _mixed(value: Json, parts: _Parts, schema: ReadDocument, place: JsonPlace) -> Iterator[tuple[JsonPlace, str]]:
    if isinstance(value, dict | list):
        for step, child in value.items() if isinstance(value, dict) else enumerate(value):
            yield from _mixed(child, _parts_under(parts, step, schema), schema, (*place, step))
    elif isinstance(value, bool):
        if _kinds(parts) & NUMBERS:
            yield place, "Enter a number, not true or false"
    elif value is not None and "boolean" in _kinds(parts):
        yield place, "Enter true or false"


def _kinds(parts: _Parts) -> set[str]:
    return {str(part["type"]) for part in parts if "type" in part}


def _parts_under(parts: _Parts, step: str | int, schema: ReadDocument) -> _Parts:
    """The schemas of a member of an object, or of an item of a list."""
    below = [part.get("items") if isinstance(step, int) else _member(part, step) for part in parts]
    return tuple(one for part in below if isinstance(part, dict) for one in _alternatives(part, schema))


def _member(part: ReadDocument, name: str) -> Json:
    named = part.get("properties")
    return named.get(name) if isinstance(named, dict) else part.get("additionalProperties")


def _alternatives(part: ReadDocument, schema: ReadDocument) -> Iterator[ReadDocument]:
    """The schema itself, or those that it refers to or chooses from."""
    referred, choices = part.get("$ref"), part.get("anyOf")
    if isinstance(referred, str):
        defined = schema["$defs"]
        assert isinstance(defined, dict)
        named = defined[referred.rpartition("/")[2]]
        assert isinstance(named, dict)
        yield from _alternatives(named, schema)
    elif isinstance(choices, list):
        for choice in choices:
            yield from _alternatives(choice, schema) if isinstance(choice, dict) else ()
    else:
        yield part
