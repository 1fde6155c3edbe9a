"""The form's table for the look page; paths follow `frames.<id>.`."""

from webapp.live.desk import frame_in
from webapp.live.field import Control, Field, FieldSet
from webapp.live.forms import Document

YES_NO = (("no", "Without a wall"), ("yes", "On a wall"))
MARKS = {
    "upper_left": "Upper left",
    "upper_right": "Upper right",
    "lower_right": "Lower right",
    "lower_left": "Lower left",
}
"""The corners of the artwork in its photo, with the clock."""


def _words(path: str, label: str, explain: str = "") -> Field:
    return Field(path=path, label=label, control=Control.WORDS, explain=explain, optional=True)


def _colour(path: str, label: str, explain: str = "", *, optional: bool = False) -> Field:
    return Field(path=path, label=label, control=Control.COLOUR, explain=explain, optional=optional)


LOOK_FIELDS = (
    _words("species", "Wood", "The drawing takes its colour from the name."),
    _words("look.finish", "Finish", "As the client should read it."),
    _colour(
        "look.wood_colour", "Colour of the wood", "Blank takes it from the wood's name; or #6e4b34.", optional=True
    ),
    _words("look.mat_name", "Mat is called", "As the client should read it."),
    _colour("look.mat_colour", "Colour of the mat"),
    Field(path="look.on_wall", label="Show it", control=Control.YES_NO, choices=YES_NO),
    _colour("look.wall_colour", "Colour of the wall"),
    Field(
        path="look.eye_line",
        label="Eye line",
        explain="The height of the person's eyes over the floor; the middle of the frame hangs there.",
    ),
)
"""Fields of the look of one frame."""


def look_fields_in(document: Document, frame_id: str) -> FieldSet:
    """The fields of the look page of a frame; marks only where there is a photo."""
    here, frame = f"frames.{frame_id}.", frame_in(document, frame_id)
    fields = {here + one.path: one for one in LOOK_FIELDS}
    if (frame.get("look") or {}).get("photo"):
        for mark, label in MARKS.items():
            for axis in ("across", "down"):
                one = Field(path=f"look.photo.{mark}.{axis}", label=f"{label}, {axis}", control=Control.COUNT)
                fields[here + one.path] = one
    return FieldSet(fields=fields)
