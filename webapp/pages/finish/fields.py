"""The fields of the finish: what it is, what the tin says, and the air of the shop."""

from framecalc.project.document import Document
from framecalc.project.form import fields_under
from webapp.live.typed.field import FieldSet

ASKED = "bench.{finish_kind,coats,recoat_hours,cure_days,temperature,humidity,finish_day}"


def finish_fields_in(document: Document, _: str) -> FieldSet:
    """The fields of the finish."""
    return FieldSet(fields=fields_under(document, ASKED))
