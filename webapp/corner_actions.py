"""What the buttons of the corners page do: add a test cut, take one away."""

from copy import deepcopy
from dataclasses import replace

from framecalc.errors import FrameCalcError
from framecalc.project import read_project
from webapp.desk import frame_in, new_id
from webapp.forms import Document, Draft


def carry_out(draft: Draft, do: str, *, frame_id: str) -> Draft:
    """Do to a draft what the pressed button asks for; `save` asks for nothing more."""
    name, _, argument = do.partition(":")
    document = deepcopy(draft.document)
    tests = _tests(document, frame_id)
    if name == "add-test":
        tests.append({"id": new_id(), "outside_gap": "0 mm", "inside_gap": "0 mm"})
    elif name == "remove-test":
        tests[:] = [test for test in tests if test["id"] != argument]
    else:
        return draft
    try:
        return replace(draft, document=document, checked=read_project(document))
    except FrameCalcError as error:
        return replace(draft, messages=draft.messages | {error.field: error.sentence})


def _tests(document: Document, frame_id: str) -> list[dict[str, str]]:
    """The test cuts of a frame, as a list that can be changed in place."""
    frame_in(document, frame_id)
    frame = next(frame for frame in document["frames"] if frame["id"] == frame_id)
    tests: list[dict[str, str]] = frame.setdefault("corner", {}).setdefault("tests", [])
    return tests
