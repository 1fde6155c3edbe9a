"""Photos of the artwork, kept beside their project.

    DATA/projects/k3fw07qz/photos/9f86d081884c7d659a2feaa0c55ad015.jpg              what is shown
    DATA/projects/k3fw07qz/photos/originals/9f86d081884c7d659a2feaa0c55ad015.webp   as it was sent, shown to nobody

What is shown was written anew (`pictures.py`). Its id is the digest of that JPEG, so nothing of the sender's becomes
part of a path. The *original* lies beside it, byte for byte, for the shop alone: no route hands it out. Both go with
the project to a copy and to the trash.
"""

import hashlib
import re
from pathlib import Path

from framecalc.geometry.perspective import Corners
from framecalc.project import Photo
from framecalc.records import Record
from webapp.data.disk import make_folder, read_bytes, write_safely
from webapp.data.errors import StoreError
from webapp.data.store import Store

ORIGINALS = "originals"
_ID = re.compile(r"[0-9a-f]{32}")


class NoSuchPhoto(StoreError):
    """The photo is not kept here: it was taken on another computer, or the file has gone."""


class CleanPhoto(Record):
    """A photo written anew, its size in pixels, and the photo as it was sent with the ending of its kind.

    `lens` is its focal length in 35 mm terms, 0 where the camera did not write it down.
    """

    content: bytes
    across: int
    up: int
    original: bytes
    ending: str
    lens: int = 0

    @property
    def photo_id(self) -> str:
        """The name under which it is kept."""
        return photo_id_of(self.content)


def photo_id_of(content: bytes) -> str:
    """The id of a photo as it is kept: while it is whole, its file is called so."""
    return hashlib.sha256(content).hexdigest()[:32]


def first_corners(across: int, up: int) -> dict[str, dict[str, int]]:
    """Where the marks lie before anybody has moved them: a little in from the corners of the photo."""
    near_x, near_y = across // 10, up // 10
    far_x, far_y = across - near_x, up - near_y
    return {
        "upper_left": {"across": near_x, "down": near_y},
        "upper_right": {"across": far_x, "down": near_y},
        "lower_right": {"across": far_x, "down": far_y},
        "lower_left": {"across": near_x, "down": far_y},
    }


def are_placed(photo: Photo) -> bool:
    """Whether somebody has moved a mark: turned round among themselves they still tell nothing."""
    first = first_corners(photo.across, photo.up).values()
    return set(corners_of(photo)) != {(float(mark["across"]), float(mark["down"])) for mark in first}


def corners_of(photo: Photo) -> Corners:
    """The marks of a photo as the topic takes them."""
    marks = (photo.upper_left, photo.upper_right, photo.lower_right, photo.lower_left)
    upper_left, upper_right, lower_right, lower_left = ((float(mark.across), float(mark.down)) for mark in marks)
    return upper_left, upper_right, lower_right, lower_left


def put_beside(folder: Path, photo: CleanPhoto) -> None:
    """Put a photo into the folder of a project, and the original beside the photo.

    Raises:
        NotWritten: the disk refused.
    """
    path = folder / "photos" / f"{photo.photo_id}.jpg"
    original = path.parent / ORIGINALS / f"{photo.photo_id}.{photo.ending}"
    make_folder(original.parent)
    for kept, content in ((original, photo.original), (path, photo.content)):
        if not kept.exists():
            write_safely(kept, content)


class Photos:
    """The photos beside the projects of one store."""

    def __init__(self, store: Store) -> None:
        self._store = store

    def keep(self, project_id: str, photo: CleanPhoto) -> None:
        """Keep a photo beside a project, and the original beside the photo.

        Raises:
            NoSuchProject: there is no such project.
            NotWritten: the disk refused.
        """
        put_beside(self._store.folder(project_id), photo)

    def read(self, project_id: str, photo_id: str) -> bytes:
        """Read a photo of a project.

        Raises:
            NoSuchProject, NoSuchPhoto: it is not there.
        """
        try:
            return read_bytes(self.path(project_id, photo_id))
        except FileNotFoundError:
            raise NoSuchPhoto("the photo is not kept on this computer: take it again") from None

    def copy(self, project_id: str, folder: Path) -> None:
        """Put the photos of a project, and their originals, into the folder of another one too.

        Raises:
            NoSuchProject: it is not there.
            NotWritten: the disk refused.
        """
        ours, theirs = (one / "photos" for one in (self._store.folder(project_id), folder))
        for path in sorted(ours.glob("**/*.*")):
            if path.is_file() and _ID.fullmatch(path.stem):
                kept = theirs / path.relative_to(ours)
                make_folder(kept.parent)
                write_safely(kept, read_bytes(path))

    def path(self, project_id: str, photo_id: str) -> Path:
        """Where a photo of a project is kept.

        Raises:
            NoSuchProject, NoSuchPhoto: there can be none of this id.
        """
        if not _ID.fullmatch(photo_id):
            raise NoSuchPhoto("No photo found here")
        return self._store.folder(project_id) / "photos" / f"{photo_id}.jpg"
