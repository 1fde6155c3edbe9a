"""The fields of the corners page."""

from framecalc.project.document import Document
from framecalc.project.form import fields_under
from webapp.live.addresses import CORNERS
from webapp.live.typed.field import FieldSet

SIDES = ("top", "right", "bottom", "left")
"""The sides of a frame, clockwise from the top as seen from the front."""


def corner_fields_in(document: Document, frame_id: str) -> FieldSet:
    """The fields of the corners page of one frame, and the strap of all; none if the document has no such frame."""
    return FieldSet(fields=fields_under(document, f"frames.{frame_id}.corner", "shop.strap"), page=CORNERS)
