"""The fields of the wall page: how the frame hangs, and the wall of the job."""

from framecalc.project.document import Document
from framecalc.project.form import fields_under
from webapp.live.addresses import WALL
from webapp.live.typed.field import FieldSet


def wall_fields_in(document: Document, frame_id: str) -> FieldSet:
    """The fields of the wall page of one frame; none of the frame if the document has no such frame."""
    return FieldSet(fields=fields_under(document, f"frames.{frame_id}.hanging", "wall"), page=WALL)
