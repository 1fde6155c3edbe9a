"""What the buttons of the page do: put the sizes into the fields, find the corners, take the photo out."""

import re
from collections.abc import Callable

from framecalc.artwork.photo_edges import found_corners
from framecalc.errors import FrameCalcError
from framecalc.plan.sizing import FIELDS, corners_of, sizes_by_photo
from framecalc.project import texts_at, value_at, with_value
from framecalc.project.document import Document
from framecalc.project.usual_values import step_text
from framecalc.units import Unit
from webapp.data.photo_parts import PART_PX, PART_SHOWN_PX, greys_of
from webapp.data.photos import CleanPhoto, Photos
from webapp.live.actions import TAPPED_ACROSS, Edit, NotDone, carry_out
from webapp.live.desk import Desk
from webapp.live.typed.forms import Draft, Typed
from webapp.pages.sizing.fields import CORNERS, MARKS, OF

AT = re.compile(r"[0-9]{1,4},[0-9]{1,4}")
"""A place in a photo, in an address and in a form."""


def act(desk: Desk, draft: Draft, typed: Typed, frame_id: str) -> Draft:
    """Apply the pressed button to a draft; `save` changes nothing more."""
    also: dict[str, Callable[[Edit, str], None]] = {
        "take-sizes": _take_sizes,
        "find-corners": lambda edit, _: _find_corners(edit, desk, typed.project),
        "show-in-frame": _show_in_frame,
        "remove-sizing": lambda edit, _: edit.set("sizing", None),
    }
    return carry_out(draft, typed, frame_id=frame_id, shop=desk.shop(), also=also)


def with_sheet_photo(document: Document, frame_id: str, photo: CleanPhoto, *, unit: Unit) -> Document:
    """The document with a new photo of the artwork beside a sheet; the sheet stays that of the photo before."""
    path = f"frames.{frame_id}.sizing"
    before = value_at(document, path)
    kept = {name: value for name, value in before.items() if name == "kind"} if isinstance(before, dict) else {}
    usual: Document = {"kind": "Letter", "away": "0 in"} if unit is Unit.INCH else {"kind": "A4", "away": "0 mm"}
    taken: Document = {"id": photo.photo_id, "across": photo.across, "up": photo.up, "lens": photo.lens}
    return with_value(document, path, {**usual, **kept, **taken})


def whole_tapped(document: Document, frame_id: str, typed: Typed) -> tuple[str, int, int] | None:
    """The mark to put, and where the whole photo was tapped for it, in the photo's pixels; none where it was not."""
    sizing, mark, tap = value_at(document, f"frames.{frame_id}.sizing"), typed.texts.get("corner", ""), typed.tap("tap")
    if not isinstance(sizing, dict) or mark not in MARKS or tap is None:
        return None
    across, up = int(sizing["across"]), int(sizing["up"])
    x, y = (round(place * across / TAPPED_ACROSS) for place in tap)
    return mark, min(x, across), min(y, up)


def with_mark_tapped(document: Document, frame_id: str, mark: str, typed: Typed) -> Document:
    """The document with a mark where the enlarged piece of the photo was tapped."""
    path = f"frames.{frame_id}.sizing"
    sizing, tap, at = value_at(document, path), typed.tap("tap"), typed.texts.get("at", "")
    if not isinstance(sizing, dict) or mark not in MARKS or tap is None or not AT.fullmatch(at):
        return document
    places = (
        int(middle) + (tapped / PART_SHOWN_PX - 0.5) * PART_PX
        for middle, tapped in zip(at.split(","), tap, strict=True)
    )
    across, down = (
        f"{min(max(place, 0), int(most)):.1f}"
        for place, most in zip(places, (sizing["across"], sizing["up"]), strict=True)
    )
    return with_value(document, f"{path}.{mark}", {"across": across, "down": down})


def _take_sizes(edit: Edit, over: str) -> None:
    """Put the sizes into the fields of the artwork, as assumed until the tape says so.

    What a tape has said stands, but for the sizes that the button names: the page has shown what they replace.
    """
    plan = edit.plan()
    try:
        sizes = sizes_by_photo(plan.frame)
    except FrameCalcError as error:
        raise NotDone(error.sentence, field=plan.path_of(error.field)) from error
    if sizes is None:
        raise NotDone("Put all eight marks first.")
    assumed, named = set(texts_at(edit.document, "assumed")), over.split(",")
    for name, size in sizes.named():
        path = f"artwork.{FIELDS[name]}"
        if name in named or edit.value(path) is None or edit.here + path in assumed:
            edit.set(path, step_text(size.length_mm, plan.step))
            edit.assume(path)


def _show_in_frame(edit: Edit, _: str) -> None:
    """Let the Look page, and the client, see the artwork of this photo in its frame."""
    sizing = edit.plan().frame.sizing
    corners = corners_of(sizing.artwork) if sizing else None
    if sizing is None or corners is None:
        raise NotDone("Put the four marks of the artwork first.")
    marks: Document = {
        name: {"across": round(across), "down": round(down)}
        for name, (across, down) in zip(CORNERS, corners, strict=True)
    }
    edit.set("look.photo", {"id": sizing.id, "across": sizing.across, "up": sizing.up, **marks})


def _find_corners(edit: Edit, desk: Desk, project_id: str) -> None:
    """Move each mark to where its edges cross, where they can be followed."""
    sizing = edit.plan().frame.sizing
    if sizing is None:
        raise NotDone("Add a photo first.")
    greys = greys_of(Photos(desk.store).read(project_id, sizing.id))
    for of, marks in zip(OF, (sizing.sheet, sizing.artwork), strict=True):
        corners = corners_of(marks)
        found = found_corners(greys, corners) if corners else (None,) * 4
        for corner, place in zip(CORNERS, found, strict=True):
            if place is not None:
                _put_found(edit, f"sizing.{of}.{corner}", place)


def _put_found(edit: Edit, path: str, place: tuple[float, float]) -> None:
    across, down = (f"{number:.2f}" for number in place)
    edit.set(path, {"across": across, "down": down, "found_across": across, "found_down": down})
