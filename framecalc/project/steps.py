"""The steps that lift an older project file to the format of today.

A file states the number of its format, and step *n* lifts a document of format *n* to the next. A step is a pure
function from plain JSON values to plain JSON values; what it does not know it leaves as it is, to be checked later.
"""

from collections.abc import Callable

from framecalc.project.document import Json, ReadDocument

_MOVED_TO_SHAPE = {"polygon": "sides", "polygon_given": "given", "polygon_flats": "size", "slope": "slope"}


def state_the_shape(document: ReadDocument) -> ReadDocument:
    """Format 1 to 2: the sides and their slope, stated with the corners, become the shape of the frame.

    Source: derived (the format is our own).

    >>> state_the_shape({"frames": [{"id": "f1", "corner": {"polygon": 6, "cutting": "a sled"}}]})["frames"]
    [{'id': 'f1', 'corner': {'cutting': 'a sled'}, 'shape': {'sides': 6}}]
    """
    frames = document.get("frames")
    if not isinstance(frames, list):
        return dict(document)
    return dict(document) | {"frames": [_shaped(frame) for frame in frames]}


STEPS: tuple[Callable[[ReadDocument], ReadDocument], ...] = (state_the_shape,)
"""The steps in order: the first lifts format 1."""

SCHEMA = 1 + len(STEPS)
"""The number of the file format of today."""


def lifted(document: ReadDocument) -> ReadDocument:
    """The document in the format of today, whose number is known to be no later.

    Source: derived.
    """
    number = document["schema"]
    for step in STEPS[number - 1 :] if isinstance(number, int) else ():
        document = step(document)
    return dict(document) | {"schema": SCHEMA}


def _shaped(frame: Json) -> Json:
    corner = frame.get("corner") if isinstance(frame, dict) else None
    if not isinstance(frame, dict) or not isinstance(corner, dict) or not corner.keys() & _MOVED_TO_SHAPE.keys():
        return frame
    shape = {new: corner[old] for old, new in _MOVED_TO_SHAPE.items() if old in corner}
    kept = {name: value for name, value in corner.items() if name not in _MOVED_TO_SHAPE}
    return {**frame, "corner": kept, "shape": shape}
