"""A project with changed values: what if this were typed instead?

Only parts that hold a change are read again; all others are shared with the checked project.
"""

from collections.abc import Mapping, Sequence
from typing import TypeVar

from pydantic import ValidationError

from framecalc.project.document import Document, Json, ReadDocument
from framecalc.project.fields import Model
from framecalc.project.model import Project
from framecalc.project.reading import ProjectErrors, read_project, sentences_of

_Part = TypeVar("_Part", bound=Model)


def project_with(project: Project, changes: Mapping[str, str]) -> Project:
    """The project with texts put at paths of its fields.

    Raises:
        ProjectErrors: a text does not fit at its path.
        KeyError: a path leads through a list item that is not there.
    """
    for path, text in changes.items():
        project = _with(project, path.split("."), text, above="")
    return project


def read_like(document: ReadDocument, *, known: ReadDocument, project: Project) -> Project:
    """Read a document that shares parts with one read before: the same objects, not equal ones.

    Args:
        document: what `read_project` takes.
        known: the document read before.
        project: the project read from it.
    Raises:
        UnreadableProject, ProjectErrors: as `read_project`.
    """
    return read_project(_taken_over(document, known, project))


def _taken_over(document: ReadDocument, known: ReadDocument, read: Model) -> dict[str, object]:
    """A document with what was read before in place of the parts that it shares, however deep they lie."""
    return {
        name: _part_taken_over(part, known.get(name), getattr(read, name, None)) if _holds_parts(part) else part
        for name, part in document.items()
    }


def _part_taken_over(part: object, known: object, read: object) -> object:
    if isinstance(part, dict) and isinstance(known, dict) and isinstance(read, Model):
        return read if part is known else _taken_over(part, known, read)
    if isinstance(part, list) and isinstance(known, list) and isinstance(read, tuple) and len(known) == len(read):
        before = {_id_in(item): (item, one) for item, one in zip(known, read, strict=True)}
        return [_part_taken_over(item, *before.get(_id_in(item), (None, None))) for item in part]
    return part


def _holds_parts(part: object) -> bool:
    return isinstance(part, dict | list)


def _id_in(item: object) -> object:
    """The id of an item of a list; one without an id is found by itself."""
    return item.get("id", id(item)) if isinstance(item, dict) else id(item)


def _with(part: _Part, names: Sequence[str], text: str, *, above: str) -> _Part:
    """A part with a text at the end of a path; parts on the path are copied, all others are shared."""
    name, *rest = names
    here, below = f"{above}{name}.", getattr(part, name, None)
    if rest and isinstance(below, tuple):
        return part.model_copy(update={name: _with_item(below, rest, text, above=here)})
    if rest and isinstance(below, Model):
        return part.model_copy(update={name: _with(below, rest, text, above=here)})
    return _read(type(part), _document(part) | {name: _nested(rest, text)}, above=above)


def _with_item(items: tuple[Model, ...], names: Sequence[str], text: str, *, above: str) -> tuple[Model, ...]:
    item_id, *rest = names
    if all(_id(item) != item_id for item in items):
        raise KeyError(f"{above}{item_id}")
    here = f"{above}{item_id}."
    return tuple(_with(item, rest, text, above=here) if _id(item) == item_id else item for item in items)


def _id(item: Model) -> object:
    return getattr(item, "id", None)


def _document(part: Model) -> Document:
    return part.model_dump(mode="json", by_alias=True, exclude_none=True)


def _nested(names: Sequence[str], text: str) -> Json:
    """The value under a name: the text, nested in the objects of the rest of the path."""
    return {names[0]: _nested(names[1:], text)} if names else text


def _read(kind: type[_Part], document: Document, *, above: str) -> _Part:
    try:
        return kind.model_validate(document)
    except ValidationError as error:
        sentences = sentences_of(error, document)
        raise ProjectErrors({f"{above}{path}": sentence for path, sentence in sentences.items()}) from error
