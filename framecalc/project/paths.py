"""Paths: how a value of a project is named in the file, in the form and in a message alike."""

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


def _child(document: Any, name: str) -> Any:
    if isinstance(document, dict):
        return document.get(name)
    if isinstance(document, list):
        return next((item for item in document if isinstance(item, dict) and item.get("id") == name), None)
    return None
