"""The fields of the page: the sheet, and the places of the marks; none without a photo."""

from framecalc.project import value_at
from framecalc.project.document import Document
from framecalc.project.form import fields_under
from webapp.live.desk import frame_in
from webapp.live.typed.field import FieldSet

CORNERS = {
    "upper_left": "upper left",
    "upper_right": "upper right",
    "lower_right": "lower right",
    "lower_left": "lower left",
}
OF = {"sheet": "Sheet", "artwork": "Artwork"}
MARKS = {f"{of}.{corner}": f"{word}, {says}" for of, word in OF.items() for corner, says in CORNERS.items()}
"""The marks in the order in which they are put, with their words."""


def sizing_fields_in(document: Document, frame_id: str) -> FieldSet:
    """The fields of the page of a frame; none where its artwork has not four sides."""
    frame = frame_in(document, frame_id)
    if value_at(frame, "shape.sides") not in (None, len(CORNERS)):
        return FieldSet()
    return FieldSet(fields=fields_under(document, f"frames.{frame_id}.sizing"))
