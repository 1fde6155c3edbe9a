"""The demo projects that come with the program: plain project files, offered to whoever starts with an empty folder."""

import json
from functools import cache
from pathlib import Path

import framecalc
from framecalc.project.document import Document
from webapp.data.errors import NoSuchProject

_FOLDER = Path(framecalc.__file__).parent


def demos() -> dict[str, Document]:
    """The demo projects by the name of their file, in the order of the alphabet; whoever asks may change them."""
    return {name: json.loads(text) for name, text in _texts().items()}


def demo(name: str) -> Document:
    """One demo project.

    Raises:
        NoSuchProject: there is none of this name.
    """
    text = _texts().get(name)
    if text is None:
        raise NoSuchProject("No demo project of this name")
    document: Document = json.loads(text)
    return document


@cache
def _texts() -> dict[str, str]:
    paths = _FOLDER.rglob("*demo*.json")
    return {path.stem: path.read_text("utf-8") for path in sorted(paths, key=lambda path: path.stem)}
