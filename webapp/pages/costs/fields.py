"""The fields of the costs page: all of the quote."""

from framecalc.project.document import Document
from framecalc.project.form import fields_under
from webapp.live.typed.field import FieldSet

OF_THE_LIST = ".listed_as"
"""What only an entry of the shop's price list says."""


def costs_fields_in(document: Document, _: str) -> FieldSet:
    """The fields of the costs page; the terms are there before the quote has items."""
    quoted = document | {"quote": document.get("quote") or {}}
    fields = fields_under(quoted, "quote.items", "quote.terms", "quote.note")
    return FieldSet(fields={path: field for path, field in fields.items() if not path.endswith(OF_THE_LIST)})
