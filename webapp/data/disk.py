"""Files that survive a crash: what is read is always one whole version, and what was acknowledged stays.

A file is *written safely* when its text is complete before the disk is touched, goes to a temporary file in the same
folder, is forced to the disk, takes its final name in one step, and the folder is forced to the disk after it. A power
cut then leaves the old version or the new one, never half of either. What a crash leaves of a temporary file is swept
away at the next start.
"""

import json
import os
import re
import secrets
import shutil
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from itertools import count
from pathlib import Path

from framecalc.project.document import Document
from webapp.data.errors import NotWritten, UnreadableFile

TEMPORARY = ".tmp-"
"""How the name of a temporary file or folder begins; nothing else in a data folder begins like this."""

_MAY_HOLD_HALF_LETTERS = re.compile(rb"\\u[dD][89a-fA-F]|\xed[\xa0-\xbf]|\0")
"""What half of a pair of surrogates looks like in a file: escaped, as bytes, or in an encoding of two bytes."""


_written = [0]


def writes() -> int:
    """How often files were put in their places, moved or removed here: while that stays, this program wrote nothing."""
    return _written[0]


def _note_write() -> None:
    _written[0] += 1


def write_safely(path: Path, text: str | bytes) -> None:
    """Put a text, or plain bytes, into a file so that a crash at any instant leaves the old file or the new one, whole.

    Raises:
        NotWritten: the disk refused; the old file is still there, and no temporary file. Or the new one is there, but
            the disk would not confirm it: the sentence says which.
    """
    content = text.encode("utf-8") if isinstance(text, str) else text
    with _in_words(path), temporary_beside(path) as temporary:
        with temporary.open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        os.replace(temporary, path)
    _note_write()
    with _unconfirmed(path):
        sync_folder(path.parent)


@contextmanager
def temporary_beside(path: Path) -> Iterator[Path]:
    """Lend a temporary name in the folder of `path`; whatever still has that name at the end is removed."""
    temporary = path.with_name(f"{TEMPORARY}{secrets.token_hex(8)}")
    try:
        yield temporary
    finally:
        remove(temporary)


@contextmanager
def building(folder: Path) -> Iterator[Path]:
    """Lend an empty folder that takes its final name, whole, when the block ends well, and vanishes when it does not.

    Raises:
        NotWritten: the disk refused.
    """
    with temporary_beside(folder) as nursery:
        with _in_words(folder):
            nursery.mkdir()
        yield nursery
        move(nursery, folder)


def make_folder(folder: Path) -> None:
    """Make a folder where there is none, with those above it, and force the name of each to the disk.

    Raises:
        NotWritten: the disk refused; or a folder was made, and the disk will not confirm it.
    """
    for missing in reversed([one for one in (folder, *folder.parents) if not one.is_dir()]):
        with _in_words(missing):
            missing.mkdir(exist_ok=True)
        with _unconfirmed(missing):
            sync_folder(missing.parent)


def set_aside(path: Path) -> None:
    """Keep a copy of a damaged file beside it, under a name that nothing has yet.

    Raises:
        UnreadableFile: not even its bytes can be read.
        NotWritten: the disk refused.
    """
    write_safely(unused_beside(path), read_bytes(path))


def unused_beside(path: Path) -> Path:
    """A name for what is damaged that nothing beside it has yet."""
    names = (path.with_name(f"{path.stem}-damaged-{number}{path.suffix}") for number in count(1))
    return next(name for name in names if not name.exists())


def stamp_of(path: Path) -> tuple[int, int, int] | None:
    """What changes with every version of a file, since each is a file of its own; None where there is none."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_ino, found.st_mtime_ns, found.st_size


def move(path: Path, target: Path) -> None:
    """Move a folder or a file to another place of the same disk in one step, and force both parents to the disk.

    Raises:
        NotWritten: the disk refused, and it is where it was; or it has moved, and the disk will not confirm it.
    """
    with _in_words(target):
        os.rename(path, target)
    _note_write()
    with _unconfirmed(target):
        sync_folder(target.parent)
        sync_folder(path.parent)


def sync_folder(folder: Path) -> None:
    """Force the names in a folder to the disk, where the system can (Windows has no such call and needs none)."""
    if os.name == "nt":
        return
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def read_json(path: Path) -> Document:
    """Read a JSON object.

    Raises:
        UnreadableFile: it is damaged, or no JSON object, or may not be read.
        FileNotFoundError: it is not there.
    """
    try:
        content = read_bytes(path)
        document = json.loads(content)
        if _MAY_HOLD_HALF_LETTERS.search(content):
            json.dumps(document, ensure_ascii=False).encode()
    except UnicodeEncodeError as error:
        raise UnreadableFile(f"{path} is damaged: it holds half a letter (a lone surrogate)") from error
    except (ValueError, RecursionError) as error:
        raise UnreadableFile(f"{path} is damaged: {error}") from error
    if not isinstance(document, dict):
        raise UnreadableFile(f"{path} is damaged: not a JSON object")
    return document


def read_bytes(path: Path) -> bytes:
    """Read a file as it lies there.

    Raises:
        UnreadableFile: it may not be read, or the disk will not give it.
        FileNotFoundError: it is not there.
    """
    try:
        return path.read_bytes()
    except FileNotFoundError:
        raise
    except OSError as error:
        raise UnreadableFile(f"{path} cannot be read: {error.strerror or error}") from error


def sweep(folder: Path) -> None:
    """Remove what a crash left of temporary files and folders, in this folder and all below it.

    What cannot be looked into or removed stays: one bad folder keeps nobody from the others.
    """
    for place, folders, files in os.walk(folder):
        for name in (*folders, *files):
            if name.startswith(TEMPORARY):
                with suppress(OSError):
                    remove(Path(place, name))


def remove(path: Path) -> None:
    """Remove a file or a folder, if it is there."""
    if path.is_dir() and not path.is_symlink():
        shutil.rmtree(path)
    else:
        with suppress(FileNotFoundError):
            path.unlink()


def remove_files(folder: Path, names: Iterable[str]) -> None:
    """Remove files of a folder one by one, and force that to the disk; what is not there is passed over.

    Raises:
        NotWritten: the disk refused one; those before it are gone.
    """
    for name in names:
        with _in_words(folder / name):
            remove(folder / name)
        _note_write()
    with _unconfirmed(folder):
        sync_folder(folder)


@contextmanager
def _in_words(path: Path) -> Iterator[None]:
    try:
        yield
    except OSError as error:
        raise NotWritten(f"nothing was saved: {path} could not be written ({error.strerror or error})") from error


@contextmanager
def _unconfirmed(path: Path) -> Iterator[None]:
    try:
        yield
    except OSError as error:
        raise NotWritten(
            f"{path} was written, but the disk does not confirm it ({error.strerror or error}): "
            "load the page anew to see whether it is there, and look after the disk"
        ) from error
