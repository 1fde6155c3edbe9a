"""Paths: the names of a project's values in the file, the form and messages."""

from typing import Any


def value_at(document: Any, path: str) -> Any:
    """The value at a path of a document, or None where there is none; list items are found by their `id`."""
    for name in path.split("."):
        document = _child(document, name)
    return document


def set_value(document: Any, path: str, value: Any) -> None:
    """Put a value at a path of a document, making the objects on the way; None takes the key out.

    Raises:
        KeyError: the path leads through a list item that is not there.
    """
    *way, last = path.split(".")
    for name in way:
        document = document.setdefault(name, {}) if isinstance(document, dict) else _child(document, name)
        if document is None:
            raise KeyError(path)
    if value is None:
        document.pop(last, None)
    else:
        document[last] = value


def with_value(document: Any, path: str, value: Any) -> Any:
    """A document with a value at a path, as `set_value` puts it; the one given stays as it is.

    Only objects on the path are copied; all others are shared, so neither document may be changed in place.

    Raises:
        KeyError: the path leads through a list item that is not there.

    >>> with_value({"shop": {"kerf": "2 mm"}}, "shop.kerf", "3 mm")
    {'shop': {'kerf': '3 mm'}}
    """
    name, _, rest = path.partition(".")
    if isinstance(document, list):
        changed = _child(document, name)
        if changed is None:
            raise KeyError(path)
        return [with_value(item, rest, value) if item is changed else item for item in document]
    if rest:
        return document | {name: with_value(document.get(name, {}), rest, value)}
    others = {key: other for key, other in document.items() if key != name}
    return others if value is None else document | {name: value}


def _child(document: Any, name: str) -> Any:
    if isinstance(document, dict):
        return document.get(name)
    if isinstance(document, list):
        return next((item for item in document if isinstance(item, dict) and item.get("id") == name), None)
    return None
