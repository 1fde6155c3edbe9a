"""The revisions of one project: a folder of plain files, one for each saved change, none of them ever changed again.

The newest readable revision is the *head*. `saved` in each file says how it came to be. A revision *equals* itself when
it brought something new, and an older one when it is an undo or a redo; so the revisions that brought something new
form a tree, in which the *parent* of revision n is what stood at the head when n was written: whatever n−1 equals.
Undo writes a revision equal to the parent and puts the present one in front of the `redo` list; redo takes it from
there; anything new empties that list. All of it is on the disk, so a restart forgets nothing.
"""

import os
import re
from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from functools import lru_cache
from pathlib import Path
from typing import Literal, TypeAlias

from pydantic import ValidationError

from framecalc.project import Saved, project_text
from framecalc.project.document import Document
from framecalc.records import Record, replace
from webapp.data.disk import read_json, remove_files, write_safely
from webapp.data.errors import NoSuchRevision, StoreError, UnreadableFile
from webapp.data.kept import Stamp
from webapp.data.times import is_time

RevisionStep: TypeAlias = Literal["new", "save", "undo", "redo", "restore", "import", "copy"]

_FILE_NAMES = re.compile(r"(?<![^/])r([0-9]{6,})\.json(?![^/])")
"""Files of revisions among the names in a folder, which are put together with the one sign that no name has."""


class Revision(Record):
    """One revision; its document is without `saved`.

    `damaged` are the newer ones that were passed over because they cannot be read.
    """

    number: int
    document: Document
    saved: Saved
    damaged: tuple[int, ...] = ()

    @property
    def can_undo(self) -> bool:
        """Is there something before it?"""
        return self.saved.equals > 1

    @property
    def can_redo(self) -> bool:
        """Was something taken back that can be taken again?"""
        return bool(self.saved.redo)

    @property
    def problem(self) -> str:
        """Say which newer revisions are damaged, and whether this one has lost its date; empty when all is well."""
        said = [] if self.saved.when else [f"revision {self.number} does not say when it was saved"]
        if self.damaged:
            numbers = ", ".join(map(str, self.damaged))
            said.append(f"revision {numbers} is damaged and cannot be read: revision {self.number} stands in for it")
        return "; ".join(said)


class SavedRevision(Record):
    """What a revision says of how it came to be, and the file that says so."""

    stamp: Stamp
    saved: Saved


class Conflict(StoreError):
    """Somebody else saved meanwhile. Nothing was written.

    `current` is the revision now at the head; `base` is the one that the refused change started from, None when it
    cannot be read.
    """

    def __init__(self, *, current: Revision, base: Revision | None) -> None:
        super().__init__(f"this project was changed elsewhere meanwhile: revision {current.number} is the newest now")
        self.current = current
        self.base = base


def file_name(number: int) -> str:
    """Name the file of a revision.

    >>> file_name(14)
    'r000014.json'
    """
    return f"r{number:06d}.json"


def same(one: Document, other: Document) -> bool:
    """Would the two make the same file? (In Python 1, 1.0 and True are equal; in a file they are not.)"""
    return project_text(one) == project_text(other)


def without_saved(document: Document) -> Document:
    """Take out how a revision came to be: what is left is the project itself, as it is exported."""
    return {key: value for key, value in document.items() if key != "saved"}


class History(Record, kw_only=False):
    """The revisions in one folder. Writers must hold the lock of the project; readers need none."""

    folder: Path

    def numbers(self) -> list[int]:
        """List the numbers of all revisions, readable or not, oldest first; none when the folder has gone.

        Raises:
            UnreadableFile: the folder may not be looked into, or the disk will not show it.
        """
        return sorted(_numbers_in(os.fspath(self.folder)))

    def read(self, number: int) -> Revision:
        """Read one revision.

        Raises:
            NoSuchRevision: there is none of this number.
            UnreadableFile: it is damaged.
        """
        path = self.folder / file_name(number)
        try:
            document = read_json(path)
            saved = Saved.model_validate(document.get("saved"))
        except FileNotFoundError:
            if path.is_symlink():
                raise UnreadableFile(f"{path} leads nowhere") from None
            raise NoSuchRevision(f"No revision {number} here") from None
        except ValidationError:
            raise UnreadableFile(f"{path} is damaged: it does not say how it was saved") from None
        if not is_time(saved.when):
            saved = saved.model_copy(update={"when": ""})
        return Revision(number=number, document=without_saved(document), saved=saved)

    @property
    def origin(self) -> str:
        """What it all was copied from, as the first revision says; blank where that cannot be read."""
        with suppress(NoSuchRevision, UnreadableFile):
            return _origin(self, self.stamp(1))
        return ""

    def stamp(self, number: int = 0) -> Stamp | None:
        """Say which file holds a revision, or the newest one, without reading it; None where there is none."""
        folder = os.fspath(self.folder)
        return _stamp_of(folder, self.folder.name, number or max(_numbers_in(folder), default=0))

    def newest(self, *, before: int | None = None, numbers: Sequence[int] = ()) -> Revision | None:
        """Read the newest readable revision, or the newest before a number; None when there is none.

        Args:
            numbers: all that there are, where they are listed already.
        """
        damaged: list[int] = []
        for number in reversed(numbers or self.numbers()):
            if before is not None and number >= before:
                continue
            try:
                revision = self.read(number)
            except UnreadableFile:
                damaged.append(number)
            else:
                return replace(revision, damaged=tuple(damaged))
        return None

    def readable(self, *, after: int = 0, before: int | None = None) -> Iterator[Revision]:
        """Read the readable revisions after a number and before another, newest first, each when it is asked for."""
        numbers = [number for number in reversed(self.numbers()) if number > after]
        wanted = numbers if before is None else [number for number in numbers if number < before]
        return (revision for number in wanted if (revision := self.read_or_none(number)))

    def saved(self, numbers: Sequence[int]) -> Iterator[SavedRevision]:
        """What those of these revisions that can be read say of themselves, newest first; a file is read once."""
        for number in reversed(numbers):
            with suppress(NoSuchRevision, UnreadableFile):
                if stamp := self.stamp(number):
                    yield SavedRevision(stamp=stamp, saved=_saved(self, stamp))

    def read_or_none(self, number: int) -> Revision | None:
        """Read one revision, or None when it is missing or damaged."""
        try:
            return self.read(number)
        except (NoSuchRevision, UnreadableFile):
            return None

    def append(
        self,
        document: Document,
        *,
        when: str,
        tab: str,
        step: RevisionStep,
        equals: int | None = None,
        redo: tuple[int, ...] = (),
        origin: str = "",
    ) -> Revision:
        """Write a document as the next revision, equal to itself when nothing else is said."""
        number = max(self.numbers(), default=0) + 1
        saved = Saved(revision=number, when=when, tab=tab, step=step, equals=equals or number, redo=redo, origin=origin)
        text = project_text(
            {**document, "saved": saved.model_dump(mode="json", exclude=None if origin else {"origin"})}
        )
        write_safely(self.folder / file_name(number), text)
        return Revision(number=number, document=document, saved=saved)

    def remove(self, numbers: Iterable[int]) -> None:
        """Remove revisions, the oldest first; after a crash on the way the rest is as it was.

        Raises:
            NotWritten: the disk refused; what was removed until then is gone.
        """
        remove_files(self.folder, [file_name(number) for number in sorted(numbers)])


@lru_cache(maxsize=4096)
def _saved(history: History, stamp: Stamp) -> Saved:
    """What a revision says of itself, read once from each file that is one."""
    return history.read(stamp.number).saved


@lru_cache(maxsize=1024)
def _origin(history: History, stamp: Stamp | None) -> str:
    """What the first revision says, read once from each file that is one."""
    return history.read(1).saved.origin


def newest_stamp(root: str, project_id: str) -> Stamp | None:
    """Say which file holds the newest revision of a project of a folder; None where there is none to be seen."""
    folder = os.path.join(root, project_id)
    try:
        return _stamp_of(folder, project_id, max(_numbers_in(folder), default=0))
    except UnreadableFile:
        return None


def _numbers_in(folder: str) -> list[int]:
    """The numbers of the revisions in a folder, in no order. (A walk of all projects asks this of each: no Path.)"""
    try:
        names = os.listdir(folder)
    except FileNotFoundError:
        return []
    except OSError as error:
        raise UnreadableFile(f"{folder} cannot be read: {error.strerror or error}") from error
    return list(map(int, _FILE_NAMES.findall("/".join(names))))


def _stamp_of(folder: str, project_id: str, number: int) -> Stamp | None:
    try:
        file = os.stat(os.path.join(folder, file_name(number)))
    except OSError:
        return None
    return Stamp(project_id=project_id, number=number, file=file.st_ino, changed_ns=file.st_mtime_ns, size=file.st_size)
