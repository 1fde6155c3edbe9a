"""Paths: the names of a project's values in the file, the form and messages."""

from typing import cast

from framecalc.project.document import Document, Json, ReadDocument


def value_at(document: Json, path: str) -> Json:
    """The value at a path of a document, or None where there is none; list items are found by their `id`."""
    for name in path.split("."):
        document = _child(document, name)
    return document


def text_at(document: ReadDocument, path: str) -> str:
    """The text at a path of a document; blank where there is none."""
    found = value_at(document, path)
    return found if isinstance(found, str) else ""


def texts_at(document: ReadDocument, path: str) -> list[str]:
    """The texts of a list at a path of a document; none where there is no list."""
    found = value_at(document, path)
    return [one for one in found if isinstance(one, str)] if isinstance(found, list) else []


def items_at(document: ReadDocument, path: str) -> list[Document]:
    """The items of a list at a path of a document, themselves and no copies; none where there is no list."""
    found = value_at(document, path)
    return [one for one in found if isinstance(one, dict)] if isinstance(found, list) else []


def part_of(document: Document, path: str) -> Document:
    """The part at a path of a document, to be changed in place; it is made where there is none.

    Raises:
        KeyError: the path leads through a list item that is not there.
    """
    found = value_at(document, path)
    if not isinstance(found, dict):
        found = {}
        set_value(document, path, found)
    return found


def items_of(document: Document, path: str) -> list[Document]:
    """The list at a path of a document, to be changed in place; it is made where there is none.

    Raises:
        KeyError: the path leads through a list item that is not there.
    """
    found = value_at(document, path)
    if not isinstance(found, list):
        found = []
        set_value(document, path, found)
    return cast(list[Document], found)


def remove_item(document: Document, path: str, item_id: str) -> None:
    """Remove an item from the list at a path of a document; one that is not there changes nothing."""
    if value_at(document, f"{path}.{item_id}") is not None:
        set_value(document, path, [one for one in items_at(document, path) if one.get("id") != item_id])


def set_value(document: Document, path: str, value: Json) -> None:
    """Put a value at a path of a document, making the objects on the way; None takes the key out.

    Raises:
        KeyError: the path leads through a list item that is not there.
    """
    *way, last = path.split(".")
    part: Json = document
    for name in way:
        part = part.setdefault(name, {}) if isinstance(part, dict) else _child(part, name)
    if not isinstance(part, dict):
        raise KeyError(path)
    if value is None:
        part.pop(last, None)
    else:
        part[last] = value


def with_value(document: ReadDocument, path: str, value: Json) -> Document:
    """A document with a value at a path, as `set_value` puts it; the one given stays as it is.

    Only objects on the path are copied; all others are shared, so neither document may be changed in place.

    Raises:
        KeyError: the path leads through a list item that is not there.

    >>> with_value({"shop": {"kerf": "2 mm"}}, "shop.kerf", "3 mm")
    {'shop': {'kerf': '3 mm'}}
    """
    name, _, rest = path.partition(".")
    if rest:
        return {**document, name: _within(document.get(name, {}), rest, value)}
    others = {key: other for key, other in document.items() if key != name}
    return others if value is None else {**document, name: value}


def _within(part: Json, path: str, value: Json) -> Json:
    """A part, or a list of items, with a value at a path below it."""
    if isinstance(part, dict):
        return with_value(part, path, value)
    item_id, _, rest = path.partition(".")
    changed = _child(part, item_id)
    if not isinstance(part, list) or changed is None:
        raise KeyError(path)
    return [_within(item, rest, value) if item is changed else item for item in part]


def _child(document: Json, name: str) -> Json:
    if isinstance(document, dict):
        return document.get(name)
    if isinstance(document, list):
        return next((item for item in document if isinstance(item, dict) and item.get("id") == name), None)
    return None
