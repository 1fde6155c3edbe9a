"""A data folder as one zip, and back on another machine.

What is in it are the files as they lie there: projects with all revisions and photos, the trash, what clients were
shown, shop and rack. What belongs to one machine stays there: paired devices, and answers that can be searched again.
A zip is taken in beside what is there already: nothing is overwritten, and what is there twice is taken once.
"""

import os
import re
import struct
import zlib
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from lzma import LZMAError
from pathlib import Path, PurePosixPath
from typing import IO
from zipfile import ZIP_DEFLATED, ZIP_STORED, BadZipFile, ZipFile, ZipInfo

from framecalc.records import Record, field
from webapp.data.disk import building, make_folder, write_safely
from webapp.data.errors import StoreError

MOST_FILES, MOST_BYTES, MOST_OF_ONE = 500_000, 20_000_000_000, 60_000_000
"""As many files, and as many bytes of all and of one of them when unpacked, as a zip may hold that is taken in."""

_PROJECT = re.compile(
    r"(projects|trash)/([a-z0-9]{8})/([rn][0-9]{6,}\.json|photos/[0-9a-f]{32}\.jpg"
    r"|photos/originals/[0-9a-f]{32}\.(?:jpg|png|webp))"
)
_NAME = re.compile(r"(?:projects|trash)/[a-z0-9]{8}/n[0-9]{6,}\.json")
_BESIDE = re.compile(
    r"shares/[0-9a-f]{64}\.(?:json|copy\.json|(?:[a-z0-9]{8}\.r[0-9]{6,}\.)?inputs\.json)"
    r"|cuts/[A-Za-z0-9_-]{1,64}\.json"
)
_SHOP = re.compile(r"(?:shop|rack|shop-before|rack-before)\.json")
_FOLDER = re.compile(r"(?:projects|trash)(?:/[a-z0-9]{8}(?:/photos(?:/originals)?)?)?|shares|cuts")
_DEEPEST = 4
"""How many folders lie above the deepest file, the data folder aside: links that lead in a circle end there."""

_UNREADABLE = (BadZipFile, EOFError, RuntimeError, ValueError, OSError, zlib.error, LZMAError, struct.error)
"""Whatever the readers of the ways of packing say of damaged data."""

_PACKED_ALREADY = (".jpg", ".png", ".webp")
MOST_TRIES = 3
"""How often a folder is packed in which something is moved meanwhile."""


class UnusableZip(StoreError):
    """A file that is no zip of a data folder."""


class TakenIn(Record):
    """What came of a zip: ids of projects that are new here, that were here already, and that were kept under new ids.

    `kept` are files of the shop, of links and of cuts that were here already, differ, and stay as they are.
    """

    new: tuple[str, ...] = ()
    known: tuple[str, ...] = ()
    beside: Mapping[str, str] = field(default_factory=dict)
    kept: tuple[str, ...] = ()


def pack(data_folder: Path, target: IO[bytes]) -> tuple[str, ...]:
    """Write a data folder into a zip, and return the names of what could not be read: all else is in it.

    The folder may be in use meanwhile: where something was moved on the way, all is packed anew.

    Raises:
        OSError: the zip cannot be written.
    """
    for _ in range(MOST_TRIES):
        target.seek(0)
        target.truncate()
        lost = _packed(data_folder, target)
        if not any(moved for moved in lost.values()):
            break
    return tuple(lost)


def _packed(folder: Path, target: IO[bytes]) -> dict[str, bool]:
    """What could not be read on one way through a folder, each with whether it was there a moment before."""
    lost: dict[str, bool] = {}
    with ZipFile(target, "w", strict_timestamps=False) as whole:
        for name in sorted(_names_in(folder, lost)):
            try:
                content = (folder / name).read_bytes()
                info = ZipInfo.from_file(folder / name, name, strict_timestamps=False)
            except OSError as error:
                lost[name] = isinstance(error, FileNotFoundError)
                continue
            whole.writestr(info, content, ZIP_STORED if name.endswith(_PACKED_ALREADY) else ZIP_DEFLATED)
    return lost


def take_in(data_folder: Path, source: IO[bytes], *, new_ids: Iterator[str]) -> TakenIn:
    """Take a zip in beside what a data folder holds.

    Everything is looked at before anything is written. A project whose id is taken here by another one comes under a
    new id, without the clients' links to it.

    Args:
        new_ids: ids that no project here has.
    Raises:
        UnusableZip: it is no zip of a data folder, is damaged, or is too large.
        NotWritten: the disk refused; what was taken in until then is whole.
    """
    with _opened(source) as whole:
        with _in_words():
            infos = _checked(whole)
        return _Taking(folder=data_folder, whole=whole, infos=infos).carry_out(new_ids)


def _opened(source: IO[bytes]) -> ZipFile:
    with _in_words():
        return ZipFile(source)


@contextmanager
def _in_words() -> Iterator[None]:
    try:
        yield
    except _UNREADABLE as error:
        raise UnusableZip(f"This zip cannot be read: choose another ({error})") from error


def _names_in(folder: Path, lost: dict[str, bool]) -> Iterator[str]:
    """The names of the files that belong into a zip, where links lead too; what leads nowhere, or cannot be looked
    into, is noted as lost.
    """

    def note(error: OSError) -> None:
        lost[Path(error.filename).relative_to(folder).as_posix()] = isinstance(error, FileNotFoundError)

    for place, folders, files in os.walk(folder, onerror=note, followlinks=True):
        at = Path(place).relative_to(folder)
        names = [(at / one).as_posix() for one in (*folders, *files)]
        lost |= {name: not os.path.lexists(folder / name) for name in names if _leads_nowhere(folder / name, name)}
        yield from (name for name in names if _is_ours(name) and name not in lost)
        if len(at.parts) == _DEEPEST:
            folders.clear()


def _leads_nowhere(path: Path, name: str) -> bool:
    """Whether there is no file where one is called so, or nothing at all where a folder is called so."""
    if _FOLDER.fullmatch(name):
        return not os.path.exists(path)  # unlike a Path, it says no where it may not look
    return _is_ours(name) and not os.path.isfile(path)


def _is_ours(name: str) -> bool:
    return any(pattern.fullmatch(name) for pattern in (_PROJECT, _BESIDE, _SHOP))


def _checked(whole: ZipFile) -> dict[str, ZipInfo]:
    """The files of a zip by name, when every one of them belongs into a data folder and is undamaged.

    Raises:
        UnusableZip: one is not.
    """
    infos = {info.filename: info for info in whole.infolist() if not info.is_dir()}
    if len(infos) > MOST_FILES or sum(info.file_size for info in infos.values()) > MOST_BYTES:
        raise UnusableZip("This zip is larger than any data folder")
    for name, info in infos.items():
        if not _is_ours(name):
            raise UnusableZip(f"“{name[:80]}” is not from Rabbetry: choose another zip")
        if info.file_size > MOST_OF_ONE:
            raise UnusableZip(f"“{name[:80]}” is larger than any file of a data folder")
    damaged = whole.testzip()
    if damaged:
        raise UnusableZip(f"“{damaged[:80]}” is damaged in this zip")
    if not infos:
        raise UnusableZip("There is nothing in this zip")
    return infos


class _Taking(Record):
    """A checked zip on its way into a data folder."""

    folder: Path
    whole: ZipFile
    infos: Mapping[str, ZipInfo]

    def carry_out(self, new_ids: Iterator[str]) -> TakenIn:
        new, known, beside = [], [], {}
        for (root, project_id), names in self._projects().items():
            there = self._place(project_id)
            if there is None:
                self._build(self.folder / root / project_id, names)
                new.append(project_id)
            elif self._holds(there, names):
                known.append(project_id)
            else:
                beside[project_id] = next(new_ids)
                self._build(self.folder / root / beside[project_id], names)
        loose = (name for name in self.infos if _BESIDE.fullmatch(name) and not self._is_of(name, beside))
        shop = (name for name in self.infos if _SHOP.fullmatch(name))
        kept = self._write_missing([*shop, *loose])
        return TakenIn(new=tuple(new), known=tuple(known), beside=beside, kept=kept)

    def _projects(self) -> dict[tuple[str, str], list[str]]:
        """The names of the files of each project, by its root folder and its id."""
        found: dict[tuple[str, str], list[str]] = {}
        for name in sorted(self.infos):
            match = _PROJECT.fullmatch(name)
            if match:
                found.setdefault((match[1], match[2]), []).append(name)
        return found

    def _place(self, project_id: str) -> Path | None:
        places = (self.folder / root / project_id for root in ("projects", "trash"))
        return next((place for place in places if place.exists()), None)

    def _holds(self, there: Path, names: Iterable[str]) -> bool:
        """Whether a project here has every file of the zip, byte for byte, names aside; it may have grown since."""
        compared = (name for name in names if not _NAME.fullmatch(name))
        inside = ((there.joinpath(*PurePosixPath(name).parts[2:]), name) for name in compared)
        return all(path.is_file() and path.read_bytes() == self.whole.read(name) for path, name in inside)

    def _is_of(self, name: str, projects: Iterable[str]) -> bool:
        """Whether a record of a client's link names one of some projects."""
        text = self.whole.read(name).decode(errors="replace")
        return any(f'"{project_id}"' in text or f".{project_id}." in name for project_id in projects)

    def _build(self, folder: Path, names: Iterable[str]) -> None:
        make_folder(folder.parent)
        with building(folder) as nursery:
            for name in names:
                path = nursery.joinpath(*PurePosixPath(name).parts[2:])
                make_folder(path.parent)
                write_safely(path, self.whole.read(name))

    def _write_missing(self, names: Iterable[str]) -> tuple[str, ...]:
        """Write the files that are not here, and return the names of those that are, and differ."""
        kept = []
        for name in names:
            path = self.folder / name
            if not path.exists():
                make_folder(path.parent)
                write_safely(path, self.whole.read(name))
            elif path.read_bytes() != self.whole.read(name):
                kept.append(name)
        return tuple(kept)
