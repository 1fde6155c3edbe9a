"""The fields of the page of handing over: those of the frame that change no size of it."""

from framecalc.project.document import Document
from framecalc.project.form import fields_under
from webapp.live.addresses import HAND_OVER
from webapp.live.typed.field import FieldSet


def hand_over_fields_in(document: Document, frame_id: str) -> FieldSet:
    """The fields of the page of one frame; none if the document has no such frame."""
    here = f"frames.{frame_id}"
    return FieldSet(fields=fields_under(document, f"{here}.hand_over", f"{here}.hanging.bumper"), page=HAND_OVER)
