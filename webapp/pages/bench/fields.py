"""The fields of the bench: how this job is machined and glued."""

from framecalc.project.document import Document
from framecalc.project.form import fields_under
from webapp.live.typed.field import FieldSet


def bench_fields_in(document: Document, _: str) -> FieldSet:
    """The fields of the bench."""
    return FieldSet(fields=fields_under(document, "bench.{rabbet_way,bit,bearing_bit}"))
