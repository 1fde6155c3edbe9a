"""Forms about what is kept without revisions: each says itself what it showed, so that two of them go together.

A field is changed *here* where its text is not what the form showed. Where its value has become another one *there*
meanwhile, it keeps that, with a sentence: the form shows both, and saved again puts its own over the other.
"""

import json
from collections.abc import Mapping

from framecalc.errors import FrameCalcError
from framecalc.project import value_at
from framecalc.project.document import Document
from framecalc.records import Record
from framecalc.units import Unit
from webapp.live.typed.field import FieldSet
from webapp.live.typed.forms import Typed
from webapp.live.typed.texts import Reading, same_text, shown, value_of


class Met(Record):
    """What was changed in a form, and a sentence for each field that was changed elsewhere, too."""

    mine: Mapping[str, str]
    contested: Mapping[str, str]


def as_shown(document: Document, fields: FieldSet, *, unit: Unit) -> str:
    """The texts that a form shows, to be sent with it."""
    return json.dumps({path: shown(document, path, one, unit=unit) for path, one in fields.items()})


def meet(document: Document, form: Typed, fields: FieldSet, *, reading: Reading) -> Met:
    """Compare a form with what is kept now; one that does not say what it showed is taken for one that showed that.

    Args:
        document: what is kept now.
        fields: its fields.
        reading: how lengths in the form are read.
    """
    mine = {path: text for path, text in form.texts.items() if not _is_as_shown(form, path, text)}
    found = {path: _elsewhere(document, form, fields, path, reading) for path in mine if path in form.was}
    contested = {path: sentence for path, sentence in found.items() if sentence}
    return Met(mine={path: text for path, text in mine.items() if path not in contested}, contested=contested)


def _is_as_shown(form: Typed, path: str, text: str) -> bool:
    return path in form.was and same_text(text, form.was[path])


def _elsewhere(document: Document, form: Typed, fields: FieldSet, path: str, reading: Reading) -> str:
    if path not in fields:
        return "What you typed about it is not saved: it was removed elsewhere meanwhile"
    there = shown(document, path, fields.fields[path], unit=reading.unit)
    if same_text(there, form.was[path]) or _stands(document, form, fields, path, reading):
        return ""
    return f"Saved elsewhere meanwhile as “{there}”: save again to have yours instead"


def _stands(document: Document, form: Typed, fields: FieldSet, path: str, reading: Reading) -> bool:
    try:
        return bool(value_of(form.texts[path], fields.fields[path], reading) == value_at(document, path))
    except FrameCalcError:
        return False
