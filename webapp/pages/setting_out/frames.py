"""Add, copy and delete frames in a document."""

from copy import deepcopy

from framecalc.artwork.measuring import ArtworkKind
from framecalc.project import items_at, read_project, remove_item, text_at, texts_at
from framecalc.project.document import Document
from framecalc.project.usual_values import FirstNumbers, assumed_paths, first_frame
from webapp.data.errors import StoreError
from webapp.data.taken_over import mark_test_cuts
from webapp.live.desk import frame_in, new_id
from webapp.live.typed.forms import confirm

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
        saw_kind=last.corner.saw_kind,
    )
    frame = first_frame(first, step=project.shop.step(project.unit), new_id=new_id)
    return _with_frame(document, frame, assumed=assumed_paths(frame)), text_at(frame, "id")


def copied_frame(document: Document, frame_id: str) -> tuple[Document, str]:
    """The document with a copy of a frame; the same values are assumed in both.

    Raises:
        NoSuchFrame: there is no such frame.
    """
    frame = deepcopy(frame_in(document, frame_id))
    copy_id = new_id()
    frame |= {"id": copy_id, "name": f"{text_at(frame, 'name')[:110]}, copy"}
    mark_test_cuts(frame)
    there, here = f"frames.{frame_id}.", f"frames.{copy_id}."
    assumed = [path.replace(there, here, 1) for path in texts_at(document, "assumed") if path.startswith(there)]
    return _with_frame(document, frame, assumed=assumed), copy_id


def without_frame(document: Document, frame_id: str) -> Document:
    """The document without a frame.

    Raises:
        FrameNotChanged: it is the only one.
        NoSuchFrame: there is no such frame.
    """
    frame_in(document, frame_id)
    if len(items_at(document, "frames")) == 1:
        raise FrameNotChanged("a project keeps at least one frame: delete the whole project instead")
    document = deepcopy(document)
    remove_item(document, "frames", frame_id)
    confirm(document, lambda path: path.startswith(f"frames.{frame_id}."))
    return document


def _with_frame(document: Document, frame: Document, *, assumed: list[str]) -> Document:
    frames = items_at(document, "frames")
    if len(frames) >= MOST_FRAMES:
        raise FrameNotChanged(f"a project holds up to {MOST_FRAMES} frames: start another one for more")
    return document | {"frames": [*frames, frame], "assumed": [*texts_at(document, "assumed"), *assumed]}
