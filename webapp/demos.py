"""The demo projects that come with the program: plain project files, offered to whoever starts with an empty folder."""

import json
from functools import cache
from pathlib import Path

import framecalc
from webapp.errors import NoSuchProject
from webapp.forms import Document

_FOLDERS = (Path(__file__).parent, Path(framecalc.__file__).parent)


@cache
def demos() -> dict[str, Document]:
    """The demo projects by the name of their file, in the order of the alphabet."""
    paths = [path for folder in _FOLDERS for path in folder.rglob("*demo*.json")]
    return {path.stem: json.loads(path.read_text("utf-8")) for path in sorted(paths, key=lambda path: path.stem)}


def demo(name: str) -> Document:
    """One demo project.

    Raises:
        NoSuchProject: there is none of this name.
    """
    if name not in demos():
        raise NoSuchProject("there is no demo project of this name")
    return demos()[name]
