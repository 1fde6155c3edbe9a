"""What is found in the newest revision of each project; a file that stands as it stood is not read again."""

import os
from collections.abc import Callable, Mapping
from pathlib import Path
from time import monotonic
from typing import Any, Generic, TypeAlias, TypeVar

from webapp.data.disk import writes
from webapp.data.errors import StoreError
from webapp.data.finding import PROJECT_ID, folder_of, head_of
from webapp.data.kept import Stamp
from webapp.data.revisions import History, Revision, newest_stamp

_Found = TypeVar("_Found")

Read: TypeAlias = Callable[[Path, str], tuple[int, _Found] | None]
"""Reads a project of a folder, by its id: the number of the revision that stands for it, and what is found in it. The
number is 0 where it is to be read again the next time; all is None where there is no project."""


class OfEach(Generic[_Found]):
    """What a function finds in each project, by its id; every method may be called from any thread."""

    def __init__(self, root: Path, read: Read[_Found]) -> None:
        self._root, self._read = root, read
        self._known: dict[str, tuple[Stamp, _Found]] = {}
        self.news = 0

    @property
    def known(self) -> Mapping[str, tuple[Stamp, _Found]]:
        """What is kept, beside the file it was found in. `news` counts what was read since this began."""
        return dict(self._known)

    def start_with(self, known: Mapping[str, tuple[Stamp, _Found]]) -> None:
        """Begin with what is known from before; what other files stand for now is read anew."""
        self._known, self.news = dict(known), 0

    def all(self) -> dict[str, _Found]:
        """What is found in each project, in the order of their ids; what is of projects that are gone is let go."""
        root = os.fspath(self._root)
        names = sorted(name for name in os.listdir(root) if PROJECT_ID.fullmatch(name))
        found = {name: one[0] for name in names if (one := self._of(root, name))}
        for gone in self._known.keys() - found.keys():
            self._known.pop(gone, None)
        return found

    def _of(self, root: str, project_id: str) -> tuple[_Found] | None:
        stamp, known = newest_stamp(root, project_id), self._known.get(project_id)
        if known and stamp == known[0]:
            return (known[1],)
        read = self._read(self._root, project_id)
        if read is None:
            return None
        if stamp and stamp.number == read[0]:
            self._known[project_id] = stamp, read[1]
            self.news += 1
        return (read[1],)


LOOK_AGAIN_S = 1.0
"""So soon is seen what another program puts among the projects; what this one writes is seen at once."""


class FoundInEach:
    """What functions find in the projects of a folder, each function's own kept as long as the files stand.

    Typing asks several times a second, and a thousand folders are looked at for one answer: so that is done once,
    until anything is written here, and after a while anyway.
    """

    def __init__(self, root: Path, *, clock: Callable[[], float] = monotonic) -> None:
        self._root, self._clock = root, clock
        self._by_function: dict[object, OfEach[Any]] = {}
        self._looked: dict[object, tuple[int, float, dict[str, Any]]] = {}

    def __call__(self, find: Callable[[str, Revision], _Found]) -> Mapping[str, _Found]:
        """What a function finds in the newest readable revision of each project, by its id, in the order of the ids.

        Args:
            find: looks into a revision of the project of an id; one function all the time, not one made anew.
        """
        written, now = writes(), self._clock()
        before = self._looked.get(find)
        if before and before[0] == written and now < before[1] + LOOK_AGAIN_S:
            return before[2]
        found = self._by_function.setdefault(find, OfEach(self._root, in_heads(find))).all()
        self._looked[find] = written, now, found
        return found


def in_heads(find: Callable[[str, Revision], _Found]) -> Read[_Found]:
    """Read the newest readable revision of a project, and look into it; a project without one is passed over.

    Args:
        find: looks into a revision of the project of an id.
    """

    def read(root: Path, project_id: str) -> tuple[int, _Found] | None:
        try:
            head = head_of(History(folder_of(root, project_id)), project_id)
        except StoreError:
            return None
        return (0 if head.damaged else head.number), find(project_id, head)

    return read
