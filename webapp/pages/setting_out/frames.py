"""Add, copy and delete frames in a document."""

from copy import deepcopy
from typing import Any

from framecalc.artwork.measuring import ArtworkKind
from framecalc.project import read_project
from framecalc.project.usual_values import FirstNumbers, assumed_paths, first_frame
from webapp.data.errors import StoreError
from webapp.data.taken_over import mark_test_cuts
from webapp.live.desk import frame_in, new_id
from webapp.live.forms import Document, confirm

MOST_FRAMES = 60


class FrameNotChanged(StoreError):
    """A frame cannot be added or deleted."""


def another_frame(document: Document) -> tuple[Document, str]:
    """The document with a new frame in the sizes of the last one; its other values are usual and assumed."""
    project = read_project(document)
    last = project.frames[-1]
    first = FirstNumbers(
        name=f"Frame {len(project.frames) + 1}",
        unit=project.unit,
        kind=ArtworkKind(last.artwork.kind),
        across=last.artwork.across.text,
        up=last.artwork.up.text,
        face_width=last.section.face_width.text,
        words=project.shop.words,
    )
    frame = first_frame(first, step=project.shop.step(project.unit), new_id=new_id)
    return _with_frame(document, frame, assumed=assumed_paths(frame)), frame["id"]


def copied_frame(document: Document, frame_id: str) -> tuple[Document, str]:
    """The document with a copy of a frame; the same values are assumed in both.

    Raises:
        NoSuchFrame: there is no such frame.
    """
    frame = deepcopy(frame_in(document, frame_id))
    frame["id"], frame["name"] = new_id(), f"{frame['name'][:110]}, copy"
    mark_test_cuts(frame)
    there, here = f"frames.{frame_id}.", f"frames.{frame['id']}."
    assumed = [path.replace(there, here, 1) for path in document.get("assumed", ()) if path.startswith(there)]
    return _with_frame(document, frame, assumed=assumed), frame["id"]


def without_frame(document: Document, frame_id: str) -> Document:
    """The document without a frame.

    Raises:
        FrameNotChanged: it is the only one.
        NoSuchFrame: there is no such frame.
    """
    frame_in(document, frame_id)
    if len(document["frames"]) == 1:
        raise FrameNotChanged("a project keeps at least one frame: delete the whole project instead")
    document = deepcopy(document)
    document["frames"] = [frame for frame in document["frames"] if frame["id"] != frame_id]
    confirm(document, lambda path: path.startswith(f"frames.{frame_id}."))
    return document


def _with_frame(document: Document, frame: dict[str, Any], *, assumed: list[str]) -> Document:
    if len(document["frames"]) >= MOST_FRAMES:
        raise FrameNotChanged(f"a project holds up to {MOST_FRAMES} frames: start another one for more")
    document = deepcopy(document)
    document["frames"].append(frame)
    document["assumed"] = [*document.get("assumed", ()), *assumed]
    return document
