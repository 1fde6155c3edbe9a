"""Names that revisions are given: *as quoted*, *before the new mat*.

A name lies in a file of its own beside the revision, which is never changed. That the file is there is enough for the
revision to be kept, whether it can be read or not.
"""

import os
import re
from pathlib import Path

from framecalc.errors import OutOfRange
from framecalc.project import project_text
from webapp.data.disk import read_json, remove_files, write_safely
from webapp.data.errors import UnreadableFile

LONGEST_NAME = 80
"""As many letters as a name may have."""

_FILE_NAME = re.compile(r"n([0-9]{6,})\.json")


def names_in(folder: Path) -> dict[int, str]:
    """The names in the folder of a project, by the numbers of the revisions; blank where one cannot be read."""
    found = filter(None, map(_FILE_NAME.fullmatch, os.listdir(folder)))
    return {int(match[1]): _name_in(folder / match[0]) for match in found}


def name_of(folder: Path, number: int) -> str:
    """The name of one revision; blank where it has none, or it cannot be read."""
    return _name_in(folder / _file_name(number))


def _file_name(number: int) -> str:
    return f"n{number:06d}.json"


def write_name(folder: Path, number: int, name: str) -> None:
    """Give a revision a name; a blank takes it off again.

    Raises:
        OutOfRange: it is too long.
        NotWritten: the disk refused.
    """
    file_name = _file_name(number)
    if len(name) > LONGEST_NAME:
        raise OutOfRange(f"Enter a name of at most {LONGEST_NAME} characters", field="name")
    if name:
        write_safely(folder / file_name, project_text({"name": name}))
    else:
        remove_files(folder, [file_name])


def _name_in(path: Path) -> str:
    try:
        return str(read_json(path).get("name", ""))
    except (UnreadableFile, FileNotFoundError):
        return ""
