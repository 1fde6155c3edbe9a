"""The fields of the choices."""

from framecalc.project.document import Document
from framecalc.project.form import fields_under
from webapp.live.typed.field import FieldSet


def choice_fields_in(document: Document, _: str) -> FieldSet:
    """The fields of every choice."""
    return FieldSet(fields=fields_under(document, "choices"))
