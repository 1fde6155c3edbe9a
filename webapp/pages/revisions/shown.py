"""The revisions of a project as they are listed: when, what was done, what changed."""

from collections import Counter
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise

from framecalc.errors import FrameCalcError
from framecalc.project import project_document, read_project
from framecalc.project.document import Document, Json, ReadDocument
from framecalc.project.form import Field, field_at
from framecalc.project.label import Control
from framecalc.records import Record
from framecalc.words import Words, say
from webapp.data.kept import Stamp
from webapp.data.names import name_of
from webapp.data.revisions import Revision, SavedRevision
from webapp.data.store import Store
from webapp.live.addresses import PROJECT, REVISIONS
from webapp.live.days import written_when

STEPS = {
    "new": "Started",
    "save": "Saved",
    "undo": "Undone",
    "redo": "Redone",
    "restore": "Brought back",
    "import": "Imported",
    "copy": "Copied from another project",
}
MOST_CHANGES = 4


class RevisionLine(Record):
    """One revision in the list; `wrong` says why it is no project that can be gone on with."""

    number: int
    when: str
    step: str
    changes: tuple[str, ...]
    more: int
    wrong: str
    name: str
    origin: str


class RevisionsShown(Record):
    """What the page of revisions shows. The newest one, the head, need not be a project that can be read here.

    `named_wrong` is the number of a revision whose new name was refused, with what was typed and why.
    """

    project_id: str
    head: Revision
    lines: tuple[RevisionLine, ...]
    has_older: bool
    outdated: bool
    words: Words
    named_wrong: tuple[int, str, str] = (0, "", "")

    @property
    def called(self) -> str:
        """The name of the project, as far as it has one."""
        return str(self.head.document.get("name", self.project_id))

    @property
    def address(self) -> str:
        """Where the page is."""
        return REVISIONS(project_id=self.project_id)

    @property
    def older(self) -> str:
        """Where the revisions before those on the page are; empty on the last page."""
        return f"{self.address}?before={self.lines[-1].number}" if self.has_older else ""

    @property
    def is_newest(self) -> bool:
        """Whether the page begins with the newest revision."""
        return not self.lines or self.lines[0].number == self.head.number

    @property
    def project_at(self) -> str:
        """Where the addresses of the project begin."""
        return PROJECT(project_id=self.project_id)


def revision_lines(store: Store, revisions: Sequence[SavedRevision], *, words: Words) -> Iterator[RevisionLine]:
    """The revisions, newest first, each with what it changed in the one before."""
    for revision, before in pairwise([*revisions, None]):
        if revision:
            changes, wrong = _told(store, revision.stamp, before.stamp if before else None, words)
            name = name_of(store.folder(revision.stamp.project_id), revision.stamp.number)
            yield _line(revision, changes, wrong, name)


@lru_cache(maxsize=1024)
def _told(store: Store, after: Stamp, before: Stamp | None, words: Words) -> tuple[tuple[str, ...], str]:
    """What a revision changed in the one before, and what is wrong with it: told once of each file."""
    document, wrong = _read(store, after)
    earlier = _read(store, before)[0] if before else {}
    return changes_between(earlier, document, words=words), wrong


@lru_cache(maxsize=2)
def _read(store: Store, stamp: Stamp) -> tuple[Document, str]:
    """A revision as `filled`; kept, since it stands beside the one after it and the one before."""
    return filled(store.revision(stamp.project_id, stamp.number).document)


def _line(revision: SavedRevision, changes: tuple[str, ...], wrong: str, name: str) -> RevisionLine:
    return RevisionLine(
        number=revision.stamp.number,
        when=written_when(revision.saved.when),
        step=STEPS[revision.saved.step],
        changes=changes[:MOST_CHANGES],
        more=max(len(changes) - MOST_CHANGES, 0),
        wrong=wrong,
        name=name,
        origin=revision.saved.origin,
    )


def changes_between(before: Document, after: Document, *, words: Words) -> tuple[str, ...]:
    """What differs between two whole documents, in the words of their pages, down to single values.

    What is said alike of several things is said once, with their count. Nothing is said where one is no project.
    """
    if not before or not after:
        return ()
    said = Counter(_Changes(before=before, after=after, words=words).between(before, after, ""))
    return tuple(change if count == 1 else f"{change} ({count} times)" for change, count in said.items())


def filled(document: Document) -> tuple[Document, str]:
    """A document with the usual values that an older file has not; an empty one, and why, where it is no project."""
    try:
        return project_document(read_project(document).model_copy(update={"saved": None})), ""
    except FrameCalcError as error:
        return {}, error.sentence


class _Changes(Record):
    """Two documents, and how their fields are called."""

    before: Document
    after: Document
    words: Words

    def between(self, before: Json, after: Json, path: str) -> Iterator[str]:
        """What differs at a path and below it."""
        if before == after or path == "assumed":
            return
        if isinstance(before, dict) and isinstance(after, dict):
            for name in sorted(before.keys() | after.keys()):
                yield from self.between(before.get(name), after.get(name), f"{path}.{name}" if path else name)
        elif isinstance(before, list) and isinstance(after, list):
            yield from self._of_lists(before, after, path)
        else:
            yield self._of_values(before, after, path)

    def _of_lists(self, before: list[Json], after: list[Json], path: str) -> Iterator[str]:
        old, new = _by_id(before), _by_id(after)
        if len(old) < len(before) or len(new) < len(after):
            yield f"{self._label(path)}: {len(before)} → {len(after)}"
            return
        came = Counter(_came(old.get(item_id), new.get(item_id)) for item_id in old.keys() ^ new.keys())
        for item_id in dict.fromkeys([*old, *new]):
            if item_id in old and item_id in new:
                yield from self._of_items(old[item_id], new[item_id], path, is_alone=len(new) == 1)
            elif count := came.pop(way := _came(old.get(item_id), new.get(item_id)), 0):
                yield self._of_alike(*way, count, path)
        if list(old) != list(new) and set(old) == set(new):
            yield f"{self._turned('the order of the')} {self._small(path)}"

    def _of_alike(self, name: str, came: str, count: int, path: str) -> str:
        """Items of one name that came or went: a single one by its name, several by their list."""
        if count == 1:
            return f"{self._called({'name': name}, path)} {self._turned(came)}"
        return f"{name}{': ' if name else ''}{count} {self._small(path)} {self._turned(came)}"

    def _of_items(self, old: Document, new: Document, path: str, *, is_alone: bool) -> Iterator[str]:
        where = "" if path == "frames" and is_alone else f"{self._called(new, path)}: "
        yield from (f"{where}{said}" for said in self.between(old, new, f"{path}.{new['id']}"))

    def _of_values(self, before: Json, after: Json, path: str) -> str:
        if isinstance(before or after, dict):
            return f"{self._label(path)} {self._turned('added' if after else 'removed')}"
        return f"{self._label(path)}: {self._said(before, path)} → {self._said(after, path)}"

    def _field(self, path: str) -> Field | None:
        return field_at(self.after, path) or field_at(self.before, path)

    def _turned(self, text: str) -> str:
        return say(text, self.words)

    def _label(self, path: str) -> str:
        field = self._field(path)
        return self._turned(field.label if field else "Something that this version does not know")

    def _small(self, path: str) -> str:
        label = self._label(path)
        return f"{label[:1].lower()}{label[1:]}"

    def _called(self, item: ReadDocument, path: str) -> str:
        """What an item of a list is called: by its name where it has one, else by the list it stands in."""
        return str(item.get("name") or f"{self._turned('one of the')} {self._small(path)}")

    def _said(self, value: Json, path: str) -> str:
        """A value as its page shows it."""
        text = "" if value is None else "yes" if value is True else "no" if value is False else str(value)
        field = self._field(path)
        if field is None or field.control not in (Control.CHOICE, Control.YES_NO):
            return text or self._turned("blank")
        shown = dict(field.choices).get(text)
        return (shown if field.of else self._turned(shown)) if shown else text or self._turned("blank")


def _came(old: Document | None, new: Document | None) -> tuple[str, str]:
    """What an item is named that only one of two lists has, and whether it came or went."""
    return str((old or new or {}).get("name") or ""), "added" if old is None else "removed"


def _by_id(items: Sequence[Json]) -> dict[Json, Document]:
    """Those items of a list that have an id, by it."""
    return {one["id"]: one for one in items if isinstance(one, dict) and "id" in one}
