"""The lines of the list of projects, kept in a file that may be thrown away: after a start only it is read.

    DATA/list.json      each line, beside the file of the project that it was read from

It says nothing of its own: a line is taken from it only while the very file stands that it was read from. A file that
is missing, damaged or of another making is made anew.
"""

from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from webapp.data.disk import read_bytes, write_safely
from webapp.data.errors import NotWritten, UnreadableFile
from webapp.data.kept import Stamp
from webapp.data.of_each import OfEach
from webapp.data.summaries import Summary, newest_first, read_summary

MAKING = 1
"""Which making of lines the file holds: one more wherever a line says something else than before."""

MANY_NEWS = 20
"""After so many lines that the file does not have, it is written anew: no start reads more projects than these."""

Lines = Mapping[str, tuple[Stamp, Summary]]

_File = tuple[int, dict[str, tuple[Stamp, Summary]]]


class KeptList:
    """The lines of the projects in a folder, with the file that they are kept in."""

    def __init__(self, root: Path, path: Path) -> None:
        self._lines, self._path, self._is_begun = OfEach(root, read_summary), path, False

    def all(self) -> tuple[Summary, ...]:
        """A line for each project, the one changed last first."""
        if not self._is_begun:
            self._lines.start_with(read_lines(self._path))
            self._is_begun = True
        found = newest_first(self._lines.all().values())
        if self._lines.news >= MANY_NEWS:
            write_lines(self._path, self._lines.known)
            self._lines.news = 0
        return found


def read_lines(path: Path) -> Lines:
    """The lines that were written; none where they cannot be used."""
    with suppress(FileNotFoundError, UnreadableFile, ValidationError):
        making, lines = TypeAdapter(_File).validate_json(read_bytes(path), strict=True)
        return lines if making == MAKING else {}
    return {}


def write_lines(path: Path, lines: Lines) -> None:
    """Write the lines for the next start; a disk that refuses keeps nobody from the list."""
    with suppress(NotWritten):
        write_safely(path, TypeAdapter(_File).dump_json((MAKING, dict(lines))))
