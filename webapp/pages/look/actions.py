"""What the buttons of the look page do: add or remove a photo, turn the marks round, set a mark by a tap."""

from framecalc.project import part_of, set_value, value_at, with_value
from framecalc.project.document import Document
from webapp.data.photos import CleanPhoto, first_corners
from webapp.live.actions import TAPPED_ACROSS
from webapp.live.desk import Desk
from webapp.live.typed.forms import Draft, Typed, edited
from webapp.pages.look.fields import MARKS


def carry_out(desk: Desk, draft: Draft, typed: Typed, frame_id: str) -> Draft:
    """Apply the pressed button to a draft; `save` changes nothing more."""
    path = f"frames.{frame_id}.look.photo"
    if value_at(draft.document, path) is None or typed.do not in ("remove-photo", "turn-photo"):
        return draft
    if typed.do == "remove-photo":
        return edited(draft, lambda document: set_value(document, path, None))
    return edited(draft, lambda document: _turn(part_of(document, path)))


def with_mark_tapped(document: Document, frame_id: str, typed: Typed) -> Document:
    """The document with the chosen mark at the tapped place, which the browser sends in its own pixels."""
    path, mark = f"frames.{frame_id}.look.photo", typed.texts.get("corner", "")
    width, height = (value_at(document, f"{path}.{name}") for name in ("across", "up"))
    tap = typed.tap("tap")
    if mark not in MARKS or tap is None or not isinstance(width, int) or not isinstance(height, int):
        return document
    across, down = (round(place * width / TAPPED_ACROSS) for place in tap)
    return with_value(document, f"{path}.{mark}", {"across": min(across, width), "down": min(down, height)})


def with_photo(document: Document, frame_id: str, photo: CleanPhoto) -> Document:
    """The document with a new photo of a frame's artwork; its marks start near the corners."""
    size: Document = {"id": photo.photo_id, "across": photo.across, "up": photo.up}
    return with_value(document, f"frames.{frame_id}.look.photo", {**size, **first_corners(photo.across, photo.up)})


def _turn(photo: Document) -> None:
    """Move each mark to the next one's place: the picture turns by a quarter."""
    names = list(MARKS)
    places = [photo[name] for name in names]
    for name, place in zip(names, places[1:] + places[:1], strict=True):
        photo[name] = place
