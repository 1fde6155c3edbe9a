"""What the buttons of the corners page do: add or remove a test cut, record that the fence has been turned."""

from copy import deepcopy
from dataclasses import replace

from framecalc.errors import FrameCalcError
from framecalc.project import read_project
from webapp.live.desk import Desk, frame_in, new_id
from webapp.live.forms import Document, Draft, Typed, confirm


def carry_out(_: Desk, draft: Draft, typed: Typed, frame_id: str) -> Draft:
    """Apply the pressed button to a draft; `save` changes nothing more."""
    name, argument = typed.do.partition(":")[::2]
    document = deepcopy(draft.document)
    corner = _corner(document, frame_id)
    if name == "add-test":
        at = {"setting": corner.get("settings", 0), "since": corner.get("since", "")}
        corner.setdefault("tests", []).append({"id": new_id(), **at})
    elif name == "remove-test":
        corner["tests"] = [test for test in corner.get("tests", ()) if test["id"] != argument]
    elif name == "turned":
        corner["settings"] = corner.get("settings", 0) + 1
    elif name == "confirm":
        confirm(document, argument.__eq__)
    else:
        return draft
    try:
        return replace(draft, document=document, checked=read_project(document))
    except FrameCalcError as error:
        return replace(draft, messages=draft.messages | {error.field: error.sentence})


def _corner(document: Document, frame_id: str) -> Document:
    """The corners of a frame, as a dict to change in place."""
    frame_in(document, frame_id)
    frame = next(frame for frame in document["frames"] if frame["id"] == frame_id)
    corner: Document = frame.setdefault("corner", {})
    return corner
