"""The shop profile on disk, and what there is to go on with when the disk spoils it.

    DATA/shop.json              the profile
    DATA/shop-before.json       the same before its last change
    DATA/shop-damaged-1.json    a damaged one, set aside and kept

While the profile is damaged everything goes on with the one before it, or with the usual one, and nothing is written
over it: the shop page says what is wrong, and sets the damaged file aside.
"""

from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from threading import Lock

from framecalc.errors import FrameCalcError
from framecalc.project import project_text
from framecalc.project.document import Document
from webapp.data.disk import read_json, set_aside, stamp_of, write_safely
from webapp.data.errors import UnreadableFile

Profile = Document
"""A shop profile as plain JSON values; an empty one is the usual shop."""


class ShopFile:
    """The one door to `shop.json`; every method may be called from any thread."""

    def __init__(self, data_folder: Path, *, check: Callable[[Profile], object]) -> None:
        """Make the door; nothing is read yet.

        Args:
            data_folder: where the file lies.
            check: raises a FrameCalcError for a document that is no profile.
        """
        self._path, self._before = data_folder / "shop.json", data_folder / "shop-before.json"
        self._check, self._lock = check, Lock()
        self._known: tuple[object, Profile, str] | None = None

    def read(self) -> Profile:
        """Read the profile; while it is damaged, what it was before its last change, or the usual one."""
        return self._look()[0]

    def damage(self) -> str:
        """Say what is wrong with the file; nothing where it can be read, or where none was saved yet."""
        return self._look()[1]

    def before(self) -> Profile:
        """Read the profile as it was before its last change; an empty one where there is none that can be read."""
        with suppress(UnreadableFile):
            return self._read(self._before)
        return {}

    def change(self, make: Callable[[Profile], Profile]) -> None:
        """Make another profile of the one that is kept, while nobody else can save.

        Args:
            make: makes the whole profile; it saves nothing itself.
        Raises:
            UnreadableFile: the one on the disk is damaged, and is not written over.
            NotWritten: the disk refused.
        """
        with self._lock:
            now = self._read(self._path)
            profile = make(now)
            if now:
                write_safely(self._before, project_text(now))
            write_safely(self._path, project_text(profile))

    def mend(self) -> None:
        """Set a damaged file aside, and go on with the profile before it; one that can be read is left as it is.

        Raises:
            UnreadableFile: not even its bytes can be read.
            NotWritten: the disk refused.
        """
        with self._lock:
            if self.damage():
                set_aside(self._path)
                write_safely(self._path, project_text(self.before()))

    def _look(self) -> tuple[Profile, str]:
        """The profile and what is wrong; a file that is as it was looked at last is not read again."""
        stamp, known = stamp_of(self._path), self._known
        if stamp and known and known[0] == stamp:
            return known[1:]
        try:
            profile, damage = self._read(self._path), ""
        except UnreadableFile as error:
            profile, damage = self.before(), error.sentence
        self._known = (stamp, profile, damage) if stamp else None
        return profile, damage

    def _read(self, path: Path) -> Profile:
        try:
            profile = read_json(path)
            self._check(profile)
        except FileNotFoundError:
            return {}
        except FrameCalcError as error:
            raise UnreadableFile(f"{path} is damaged: {error.sentence}") from error
        return profile
