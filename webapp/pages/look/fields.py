"""The fields of the look page: the wood's name, and the look of a frame."""

from framecalc.project.document import Document
from framecalc.project.form import fields_under, parts_of
from framecalc.project.look import Photo, PhotoMark
from webapp.live.desk import frame_in
from webapp.live.typed.field import FieldSet

MARKS = {name: part.labels[0].text for name, part in parts_of(Photo).items() if part.model is PhotoMark}
"""The corners of the artwork in its photo, with the clock."""


def look_fields_in(document: Document, frame_id: str) -> FieldSet:
    """The fields of the look page of a frame; marks only with a photo."""
    frame_in(document, frame_id)
    here = f"frames.{frame_id}"
    return FieldSet(fields=fields_under(document, f"{here}.species", f"{here}.look", page="look"))
