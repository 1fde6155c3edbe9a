"""The fields of the costs page: all of the quote."""

from framecalc.project.form import fields_under
from webapp.live.field import FieldSet
from webapp.live.forms import Document


def costs_fields_in(document: Document, _: str) -> FieldSet:
    """The fields of the costs page; the terms are there before the quote has items."""
    quoted = document | {"quote": document.get("quote") or {}}
    return FieldSet(fields=fields_under(quoted, "quote.items", "quote.terms", "quote.note"))
