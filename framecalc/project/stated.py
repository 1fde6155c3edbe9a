"""The limits of a project file as its JSON Schema states them: one table, made from the fields themselves."""

import re
from collections.abc import Iterator

from framecalc.project.document import Document, ReadDocument
from framecalc.project.paths import items_at, text_at, value_at
from framecalc.project.reading import project_schema
from framecalc.records import Record

_RANGE = re.compile(r"(?:^|[ ,])(−?-?[\d.,]+[^ \d]*(?: [^\d\s]+)? to (?:under )?−?-?[\d.,]+ ?\S*)$", re.IGNORECASE)


class FieldLimit(Record):
    """One field with its limit: the part of the project that it is in, its label, and what it takes at most."""

    part: str
    label: str
    limit: str


def field_limits() -> tuple[FieldLimit, ...]:
    """Every field that has a limit, in the order of the schema. Source: derived."""
    schema = project_schema()
    parts = {"Project": schema} | {name.rpartition("__")[2]: part for name, part in _parts(schema, "$defs").items()}
    return tuple(limit for name, part in parts.items() for limit in _of_part(name, part))


def _of_part(name: str, part: ReadDocument) -> Iterator[FieldLimit]:
    for field in _parts(part, "properties").values():
        found = limit_of(field)
        if found:
            yield FieldLimit(part=name, label=text_at(field, "title"), limit=found)


def limit_of(field: ReadDocument) -> str:
    """What the schema of a field says of its range; blank where it has none. Source: derived.

    >>> limit_of({"type": "string", "maxLength": 120}), limit_of({"description": "a length, 1 mm to 5000 mm"})
    ('120 characters', '1 mm to 5000 mm')
    """
    for one in (field, *items_at(field, "anyOf")):
        said = _RANGE.search(text_at(one, "description"))
        if said:
            return said[1].rstrip(".")
        if "maxLength" in one:
            return f"{one['maxLength']} characters"
        if "maxItems" in one:
            return f"{one['maxItems']} of them"
        if "maximum" in one:
            return f"{one.get('minimum', 0)} to {one['maximum']}"
    return ""


def _parts(schema: ReadDocument, name: str) -> dict[str, Document]:
    """The parts of a schema that stand under a name."""
    found = value_at(schema, name)
    return {key: part for key, part in found.items() if isinstance(part, dict)} if isinstance(found, dict) else {}
