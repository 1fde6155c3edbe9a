"""The fields of the package page: the package of a frame, and its fitting."""

from framecalc.project.document import Document
from framecalc.project.form import fields_under
from webapp.live.addresses import PACKAGE
from webapp.live.typed.field import FieldSet


def package_fields_in(document: Document, frame_id: str) -> FieldSet:
    """The fields of the package page of one frame; none if the document has no such frame."""
    here = f"frames.{frame_id}"
    return FieldSet(fields=fields_under(document, f"{here}.package", f"{here}.fitting"), page=PACKAGE)
