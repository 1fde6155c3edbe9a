"""Find projects on the disk: an id is matched by a pattern, so nothing a person types ever becomes part of a path."""

import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from pathlib import Path
from stat import S_ISDIR

from webapp.data.errors import NoSuchProject, UnreadableFile
from webapp.data.revisions import History, Revision, SavedRevision

PROJECT_ID = re.compile(r"[a-z0-9]{8}")


def require_id(project_id: str) -> None:
    if not PROJECT_ID.fullmatch(project_id):
        raise NoSuchProject("No project here")


def folder_of(root: Path, project_id: str) -> Path:
    """Find the folder of a project, which must really lie in `root`.

    Raises:
        NoSuchProject: there is none.
        UnreadableFile: it leads in a circle, or may not be looked at.
    """
    require_id(project_id)
    folder = root / project_id
    try:
        if _is_no_link(folder) or (folder.resolve(strict=True).parent == root.resolve() and folder.is_dir()):
            return folder
    except FileNotFoundError:
        pass
    except (OSError, RuntimeError) as error:
        raise UnreadableFile(f"{folder} cannot be read: {getattr(error, 'strerror', '') or error}") from error
    raise NoSuchProject("No project here")


def _is_no_link(folder: Path) -> bool:
    """Whether a folder is one itself and leads nowhere else: neither a symbolic link nor a junction of Windows."""
    found = folder.lstat()
    return S_ISDIR(found.st_mode) and not getattr(found, "st_reparse_tag", 0)


def head_of(history: History, project_id: str, numbers: Sequence[int] = ()) -> Revision:
    head = history.newest(numbers=numbers)
    if head:
        return head
    if history.numbers():
        raise UnreadableFile(f"project {project_id}: not one of its revisions can be read")
    raise NoSuchProject("No project here")


def saved_in(folder: Path, *, before: int | None = None) -> tuple[Revision, Iterator[SavedRevision]]:
    """The head in a folder, and what the readable revisions, or those before one, say of themselves, newest first.

    Raises:
        NoSuchProject, UnreadableFile: there is none, or not one of them can be read.
    """
    history = History(folder)
    numbers = history.numbers()
    wanted = numbers if before is None else numbers[: bisect_left(numbers, before)]
    return head_of(history, folder.name, numbers), history.saved(wanted)
