"""What the buttons of the look page do: add or remove a photo, turn the marks round, set a mark by a tap."""

import re
from copy import deepcopy
from dataclasses import replace
from typing import Any

from framecalc.errors import FrameCalcError
from framecalc.project import read_project
from webapp.data.photos import CleanPhoto, first_corners
from webapp.live.desk import Desk
from webapp.live.forms import Document, Draft, Typed
from webapp.pages.look.fields import MARKS

TAPPED_ACROSS = 320
"""How wide the photo is shown where a corner is tapped without scripts, in pixels of the page."""


def carry_out(desk: Desk, draft: Draft, typed: Typed, frame_id: str) -> Draft:
    """Apply the pressed button to a draft; `save` changes nothing more."""
    document = deepcopy(draft.document)
    look = look_in(document, frame_id)
    if not look.get("photo") or typed.do not in ("remove-photo", "turn-photo"):
        return draft
    if typed.do == "remove-photo":
        del look["photo"]
    else:
        _turn(look["photo"])
    try:
        return replace(draft, document=document, checked=read_project(document))
    except FrameCalcError as error:
        return replace(draft, messages=draft.messages | {error.field: error.sentence})


def with_mark_tapped(document: Document, frame_id: str, typed: Typed) -> Document:
    """The document with the chosen mark at the tapped place, which the browser sends in its own pixels."""
    document = deepcopy(document)
    photo, mark = look_in(document, frame_id).get("photo"), typed.texts.get("corner", "")
    places = [typed.texts.get(f"tap.{axis}", "") for axis in ("x", "y")]
    if photo and mark in MARKS and all(re.fullmatch(r"[0-9]{1,5}", place) for place in places):
        across, down = (round(int(place) * photo["across"] / TAPPED_ACROSS) for place in places)
        photo[mark] = {"across": min(across, photo["across"]), "down": min(down, photo["up"])}
    return document


def with_photo(document: Document, frame_id: str, photo: CleanPhoto) -> Document:
    """The document with a new photo of a frame's artwork; its marks start near the corners."""
    document = deepcopy(document)
    size = {"id": photo.photo_id, "across": photo.across, "up": photo.up}
    look_in(document, frame_id)["photo"] = size | first_corners(photo.across, photo.up)
    return document


def look_in(document: Document, frame_id: str) -> dict[str, Any]:
    """The look of a frame, as a dict to change in place."""
    frame = next(frame for frame in document["frames"] if frame["id"] == frame_id)
    look: dict[str, Any] = frame.setdefault("look", {})
    return look


def _turn(photo: dict[str, Any]) -> None:
    """Move each mark to the next one's place: the picture turns by a quarter."""
    names = list(MARKS)
    places = [photo[name] for name in names]
    for name, place in zip(names, places[1:] + places[:1], strict=True):
        photo[name] = place
