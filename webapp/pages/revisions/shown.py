"""The revisions of a project as they are listed: when, what was done, what changed."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from framecalc.errors import FrameCalcError
from framecalc.project import project_document, read_project
from webapp.data.revisions import Document, Revision
from webapp.live.field import fields_in
from webapp.pages.corners.fields import corner_fields_in
from webapp.pages.costs.fields import costs_fields_in
from webapp.pages.look.fields import look_fields_in
from webapp.pages.projects.listing import written_when
from webapp.pages.sheets.fields import sheets_fields_in
from webapp.pages.timber.fields import timber_fields_in

FIELDS_IN = (fields_in, corner_fields_in, look_fields_in, timber_fields_in, sheets_fields_in, costs_fields_in)
"""Every form's table: what a value is called on its page is what it is called here."""

STEPS = {
    "new": "Started",
    "save": "Saved",
    "undo": "Undone",
    "redo": "Done again",
    "restore": "Brought back",
    "import": "Taken in from a file",
    "copy": "Copied from another project",
}
MOST_CHANGES = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class RevisionLine:
    """One revision in the list."""

    number: int
    when: str
    step: str
    changes: tuple[str, ...]
    more: int


def revision_lines(revisions: Sequence[Revision]) -> tuple[RevisionLine, ...]:
    """The revisions, newest first, each with what it changed in the one before."""
    documents = [_filled(revision.document) for revision in revisions]
    changes = [changes_between(before, after) for after, before in pairwise(documents)] + [()]
    return tuple(_line(revision, changed) for revision, changed in zip(revisions, changes, strict=False))


def _line(revision: Revision, changes: tuple[str, ...]) -> RevisionLine:
    return RevisionLine(
        number=revision.number,
        when=written_when(revision.saved.when),
        step=STEPS[revision.saved.step],
        changes=changes[:MOST_CHANGES],
        more=max(len(changes) - MOST_CHANGES, 0),
    )


def changes_between(before: Document, after: Document) -> tuple[str, ...]:
    """What differs between two whole documents, in words, down to single values."""
    if before == after:
        return ()
    return tuple(_changes(before, after, "", _labels(before) | _labels(after)))


def _filled(document: Document) -> Document:
    """A document with the usual values that an older file has not; as it is where it cannot be read as a project."""
    try:
        return project_document(read_project(document).model_copy(update={"saved": None}))
    except FrameCalcError:
        return document


def _labels(document: Document) -> dict[str, str]:
    frames = [frame["id"] for frame in document.get("frames", [])]
    return {
        path: field.label
        for frame_id in frames
        for table in FIELDS_IN
        for path, field in table(document, frame_id).fields.items()
    }


def _changes(before: Any, after: Any, path: str, labels: Mapping[str, str]) -> Iterator[str]:
    if before == after or path == "assumed":
        return
    if isinstance(before, dict) and isinstance(after, dict):
        for name in sorted(before.keys() | after.keys()):
            yield from _changes(before.get(name), after.get(name), f"{path}.{name}" if path else name, labels)
    elif isinstance(before, list) and isinstance(after, list):
        yield from _list_changes(before, after, path, labels)
    else:
        yield f"{labels.get(path, _last(path))}: {_said(before)} → {_said(after)}"


def _list_changes(before: list[Any], after: list[Any], path: str, labels: Mapping[str, str]) -> Iterator[str]:
    if not all(isinstance(item, dict) for item in (*before, *after)):
        yield f"{_last(path)}: {len(before)} → {len(after)}"
        return
    old, new = ({item["id"]: item for item in items} for items in (before, after))
    for item_id in dict.fromkeys([*old, *new]):
        if item_id not in old:
            yield f"{_called(new[item_id], path)} added"
        elif item_id not in new:
            yield f"{_called(old[item_id], path)} taken out"
        else:
            where = "" if path == "frames" and len(new) == 1 else f"{_called(new[item_id], path)}: "
            inside = _changes(old[item_id], new[item_id], f"{path}.{item_id}", labels)
            yield from (f"{where}{said}" for said in inside)
    if list(old) != list(new) and set(old) == set(new):
        yield f"the order of the {_last(path)}"


def _called(item: Mapping[str, Any], path: str) -> str:
    """What an item of a list is called: by its name where it has one, else by the list it stands in."""
    return str(item.get("name") or f"one of the {_last(path)}")


def _last(path: str) -> str:
    return path.rsplit(".", 1)[-1].replace("_", " ")


def _said(value: Any) -> str:
    if value is None or value == "":
        return "blank"
    return (
        "yes" if value is True else "no" if value is False else str(value) if not isinstance(value, dict) else "there"
    )
