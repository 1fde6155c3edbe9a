"""What was typed on a page, worked into a project that may have been saved elsewhere since the page was shown.

A field is changed *here* where its text is not what the page showed, or where the page says that it was touched. It is
changed *there* where its value is another one now, and it was not this very browser tab that made it so. Only a field
that was changed on both sides, to different values, is a conflict; every other change goes in beside the others.
"""

from collections.abc import Callable
from itertools import islice

from framecalc.project import value_at
from framecalc.records import Record, cached_property, replace
from webapp.data.errors import StoreError
from webapp.data.revisions import Conflict
from webapp.live.desk import Desk, FieldsOfPage, ProjectAtRevision
from webapp.live.typed.answer import PageFields
from webapp.live.typed.field import FieldSet
from webapp.live.typed.forms import Draft, Typed, work_in
from webapp.live.typed.texts import Reading, same_text, shown

Opens = Callable[[Desk, ProjectAtRevision], ProjectAtRevision]
"""What a page fills in where a project does not have it yet."""


def as_it_is(desk: Desk, opened: ProjectAtRevision) -> ProjectAtRevision:
    """The project without anything filled in."""
    return opened


class Merging(Record, dict=True):
    """A form and the project that it goes into, as it is now: `head`."""

    desk: Desk
    head: ProjectAtRevision
    page_fields: PageFields
    frame_id: str
    form: Typed
    opens: Opens = as_it_is

    @cached_property
    def base(self) -> ProjectAtRevision | None:
        """The revision that the page showed; None where it says none that can be read and has the frame."""
        return self._revision(self.form.base)

    @property
    def reading(self) -> Reading:
        """How lengths on the page are read: by the unit that it showed."""
        return (self.base or self.head).reading

    @cached_property
    def draft(self) -> Draft:
        """The project as it is now with what was changed here."""
        mine = {path: text for path, text in self.form.texts.items() if self._is_mine(path, text)}
        known = {path: text for path, text in mine.items() if path in self._fields_now or path not in self._fields_then}
        head = self.head
        draft = work_in(head.document, known, self._fields_now, reading=self.reading, check=head.check)
        return replace(draft, typed=mine)

    @property
    def contested(self) -> tuple[str, ...]:
        """The fields that were changed here and there, to different values."""
        seen = self._revision(self.form.over) if self.form.over else self.base
        if seen is None:
            return tuple(self.draft.typed)
        return tuple(path for path in self.draft.typed if path in self._fields_then and self._is_contested(path, seen))

    @property
    def together(self) -> bool:
        """Whether anything was saved elsewhere since the page was shown."""
        since = self.head.revision.number - self.form.base
        return any(self._is_foreign(one) for one in self.desk.earlier(self.head, most=since))

    def require_uncontested(self) -> None:
        """Refuse to go on where a field was changed on both sides.

        Raises:
            Conflict: one was.
        """
        if self.contested:
            raise Conflict(current=self.head.revision, base=self.base.revision if self.base else None)

    def is_shown_on(self, saved: ProjectAtRevision) -> bool:
        """Whether the fields of the page hold what is saved."""
        fields = self.page_fields(saved.document, self.frame_id)
        return all(
            same_text(text, shown(saved.document, path, fields.fields[path], unit=self.reading.unit))
            for path, text in self.form.texts.items()
            if path in fields
        )

    @cached_property
    def _fields_now(self) -> FieldSet:
        return self.head.page(self.page_fields, self.frame_id).fields

    @property
    def _fields_then(self) -> FieldSet:
        return self._then.fields

    @cached_property
    def _then(self) -> FieldsOfPage:
        return (self.base or self.head).page(self.page_fields, self.frame_id)

    def _is_mine(self, path: str, text: str) -> bool:
        was = self._then.texts.get(path)
        return was is None or path in self.form.meant or not same_text(text, was)

    def _is_contested(self, path: str, seen: ProjectAtRevision) -> bool:
        there, wanted = value_at(self.head.document, path), value_at(self.draft.document, path)
        moved = there != value_at(seen.document, path) and there != wanted
        return (moved or path not in self._fields_now) and not self._is_own(path)

    def _is_own(self, path: str) -> bool:
        """Whether it was this tab that gave a field the value that it has now."""
        newer, value = self.head, value_at(self.head.revision.document, path)
        since = self.head.revision.number - self.form.base + 1
        for older in islice(self.desk.earlier(self.head, most=since), 1, None):
            if value_at(older.revision.document, path) != value:
                return not self._is_foreign(newer)
            newer = older
        return False

    def _is_foreign(self, one: ProjectAtRevision) -> bool:
        return not self.form.tab or one.revision.saved.tab != self.form.tab

    def _revision(self, number: int) -> ProjectAtRevision | None:
        if number == self.head.revision.number:
            return self.head
        if not 0 < number < self.head.revision.number:
            return None
        try:
            opened = self.opens(self.desk, self.desk.open_revision(self.head.project_id, number))
            if self.frame_id:
                opened.frame(self.frame_id)
        except StoreError:
            return None
        return opened
