"""The revisions of a project as they are listed: when, what was done, what changed."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from webapp.fields import FRAME_FIELDS, LAYER_FIELDS, PROJECT_FIELDS
from webapp.listing import written_when
from webapp.revisions import Document, Revision

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
_LABELS = {one.path: one.label for one in (*FRAME_FIELDS, *PROJECT_FIELDS)} | {
    f"package.layers.{one.path}": f"layer: {one.label.lower()}" for one in LAYER_FIELDS
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One revision in the list."""

    number: int
    when: str
    step: str
    changes: tuple[str, ...]
    more: int


def revision_lines(revisions: Sequence[Revision]) -> tuple[Line, ...]:
    """The revisions, newest first, each with what it changed in the one before."""
    befores = [older.document for _, older in pairwise(revisions)] + [None]
    return tuple(_line(revision, before) for revision, before in zip(revisions, befores, strict=False))


def _line(revision: Revision, before: Document | None) -> Line:
    changes = tuple(_changes(before, revision.document, "")) if before is not None else ()
    return Line(
        number=revision.number,
        when=written_when(revision.saved.when),
        step=STEPS[revision.saved.step],
        changes=changes[:MOST_CHANGES],
        more=max(len(changes) - MOST_CHANGES, 0),
    )


def _changes(before: Any, after: Any, path: str) -> Iterator[str]:
    """What differs between two documents, in words, down to single values."""
    if before == after or path == "assumed":
        return
    if isinstance(before, dict) and isinstance(after, dict):
        for name in sorted(before.keys() | after.keys()):
            yield from _changes(before.get(name), after.get(name), f"{path}.{name}" if path else name)
    elif isinstance(before, list) and isinstance(after, list):
        yield from _list_changes(before, after, path)
    else:
        yield f"{_label(path)}: {_said(before)} → {_said(after)}"


def _list_changes(before: list[Any], after: list[Any], path: str) -> Iterator[str]:
    old, new = ({item["id"]: item for item in items} for items in (before, after))
    for item_id in old.keys() | new.keys():
        if item_id not in old:
            yield f"{new[item_id]['name']} added"
        elif item_id not in new:
            yield f"{old[item_id]['name']} taken out"
        else:
            yield from _changes(old[item_id], new[item_id], path.removeprefix("frames").lstrip("."))
    if list(old) != list(new) and set(old) == set(new):
        yield "the order of the layers"


def _label(path: str) -> str:
    return _LABELS.get(path, path.replace(".", " ").replace("_", " "))


def _said(value: Any) -> str:
    if value is None or value == "":
        return "blank"
    return (
        "yes" if value is True else "no" if value is False else str(value) if not isinstance(value, dict) else "there"
    )
