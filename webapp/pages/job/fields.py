"""The fields of the job page: whom it is for, and when it is due."""

from framecalc.project.document import Document
from framecalc.project.form import fields_under
from webapp.live.typed.field import FieldSet


def job_fields_in(document: Document, _: str) -> FieldSet:
    """The fields of the job page."""
    return FieldSet(fields=fields_under(document, "client", "way.due"))
