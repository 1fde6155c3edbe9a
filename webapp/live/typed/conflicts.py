"""Two people edit one field: compare the changes made here and there, so that the person can choose.

The typed values and the newest revision are both compared with the revision that the page showed, so that neither side
loses a change.
"""

from collections.abc import Iterator

from framecalc.project.document import Document
from framecalc.records import Record
from webapp.data.revisions import Conflict
from webapp.live.desk import ProjectAtRevision
from webapp.live.typed.answer import PageFields
from webapp.live.typed.field import FieldSet
from webapp.live.typed.forms import Typed
from webapp.live.typed.texts import Reading, shown


class Change(Record):
    """One field in which the two differ: its old value, the one typed here, the one saved there."""

    label: str
    was: str
    here: str
    there: str


class ConflictView(Record):
    """A conflict as the page shows it: the other revision, the fields, whether more than fields changed."""

    number: int
    when: str
    changes: tuple[Change, ...]
    more_there: bool


def clash_of(
    opened: ProjectAtRevision, page_fields: PageFields, conflict: Conflict, *, frame_id: str, form: Typed
) -> ConflictView:
    """Compare the values typed here and those saved there with the revision that the page showed."""
    base = conflict.base.document if conflict.base else opened.document
    there = conflict.current.document
    changes = tuple(_changes(base, there, page_fields(base, frame_id), form, opened.reading))
    fields_there = any(change.there != change.was for change in changes)
    return ConflictView(
        number=conflict.current.number,
        when=conflict.current.saved.when,
        changes=changes,
        more_there=not fields_there,
    )


def _changes(base: Document, there: Document, fields: FieldSet, form: Typed, reading: Reading) -> Iterator[Change]:
    for path, one in fields.items():
        was, elsewhere = (shown(document, path, one, unit=reading.unit) for document in (base, there))
        here = form.texts.get(path, was).strip()
        if here != was or elsewhere != was:
            yield Change(label=one.label, was=was, here=here, there=elsewhere)
