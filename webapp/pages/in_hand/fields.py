"""The fields of the page of a stick or board in hand."""

from framecalc.project.document import Document
from framecalc.project.form import fields_under
from webapp.live.typed.field import FieldSet


def in_hand_fields_in(document: Document, frame_id: str) -> FieldSet:
    """The fields of the page: the frame whose member is meant, and the stick or board."""
    return FieldSet(fields=fields_under(document, "reach"))
