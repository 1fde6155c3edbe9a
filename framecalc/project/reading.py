"""Read and write a project file, and name the faults of one in words."""

import json
import re
from collections.abc import Iterable, Mapping
from functools import cache
from typing import Any

from pydantic import ValidationError
from pydantic.json_schema import GenerateJsonSchema

from framecalc.errors import FrameCalcError, UnreadableProject
from framecalc.measures import Measurement
from framecalc.project.document import Document, Json, ReadDocument
from framecalc.project.kinds import mixed_up
from framecalc.project.model import Project
from framecalc.project.moved import moved
from framecalc.project.places import JsonPlace, Places, places_in
from framecalc.project.steps import SCHEMA, lifted
from framecalc.project.usual_values import inch_parts_filled
from framecalc.records import Record, cached_property
from framecalc.units import Length

MOST_VALUES = 100_000
"""As many values a file may hold that is read as a project: the largest project has a third of them."""

MOST_FAULTS = 1000
"""As many of them are told one by one."""


class _Schema(GenerateJsonSchema):
    """A schema in which a default is written as in a file."""

    def encode_default(self, dft: Any) -> Any:
        """Write a length as its text."""
        return dft.text if isinstance(dft, Length | Measurement) else super().encode_default(dft)


class ProjectErrors(FrameCalcError):
    """A document is not a project: one sentence for each path at fault."""

    def __init__(self, sentences: Mapping[str, str]) -> None:
        path, sentence = next(iter(sentences.items()))
        super().__init__(f"{path}: {sentence}" if path else sentence, field=path)
        self.sentences = dict(sentences)


def read_project(document: object) -> Project:
    """Check a document, as read from JSON, and return it as a project; one of an older format is lifted first.

    Raises:
        UnreadableProject: it is no project of a schema known here, or next to nothing of it fits.
        ProjectErrors: single values are at fault; `sentences` holds one for each path.
    Source: derived (the format is our own).
    """
    if not isinstance(document, dict) or "schema" not in document:
        raise UnreadableProject("This is not a Rabbetry project file")
    number = document["schema"]
    if type(number) is not int or not 1 <= number <= SCHEMA:
        raise UnreadableProject(
            f"Enter a schema of 1 to {SCHEMA}, not {json.dumps(number, default=str)}",
            field="schema",
        )
    document = inch_parts_filled(moved(lifted(document)))
    try:
        project = Project.model_validate(document)
    except ValidationError as error:
        if error.error_count() > MOST_FAULTS:
            raise UnreadableProject(f"More than {MOST_FAULTS} values are wrong: choose another file") from None
        raise ProjectErrors(sentences_of(error, document)) from error
    _require_distinct_ids(project)
    return project


def parse_project(text: str | bytes) -> Project:
    """Read a project from the text of its file.

    Raises:
        UnreadableProject, ProjectErrors: as `read_project`, or the text is no JSON.
    Source: derived.
    """
    try:
        whole = text if isinstance(text, str) else text.decode(json.detect_encoding(text))
        document = json.loads(whole)
    except (ValueError, RecursionError) as error:
        raise UnreadableProject(f"This is not a Rabbetry project file: not readable as JSON ({error})") from error
    file = _File(document=document, places=places_in(whole, most=MOST_VALUES))
    _require_whole(file)
    mixed = {_path(place, document): said for place, said in mixed_up(document, schema=_schema()).items()}
    try:
        project = read_project(document)
    except ProjectErrors as error:
        raise file.errors(error.sentences | mixed) from error
    except UnreadableProject as error:
        raise UnreadableProject(f"{error.sentence} (line {file.line(error.field)})", field=error.field) from error
    if mixed:
        raise file.errors(mixed)
    return project


def project_document(project: Project) -> Document:
    """The project as plain JSON values, without blank ones."""
    return project.model_dump(mode="json", by_alias=True, exclude_none=True)


def project_text(document: ReadDocument) -> str:
    """The text of a project file: two-space indent, letters as they are, a final newline."""
    return json.dumps(document, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


@cache
def _schema() -> Document:
    return project_schema()


def project_schema() -> Document:
    """The published JSON Schema of a project file: titles, descriptions and usual values as each field states them."""
    return Project.model_json_schema(by_alias=True, schema_generator=_Schema)


def sentences_of(error: ValidationError, document: ReadDocument) -> dict[str, str]:
    """One sentence for each path of a document that does not fit, in the shop's words.

    Source: derived.
    """
    sentences: dict[str, str] = {}
    for fault in error.errors():
        if fault["type"] == "too_short" and fault["input"] and not isinstance(fault["input"], str):
            continue  # the list is long enough; the errors of its items name them
        path = _path(_place(fault, document), document)
        cause = fault.get("ctx", {}).get("error")
        sentences.setdefault(path, cause.sentence if isinstance(cause, FrameCalcError) else _plain(fault, path))
    return sentences


def on_lines(text: str, sentences: Mapping[str, str], *, schema: ReadDocument) -> dict[str, str]:
    """What is at fault in a JSON text, by path, each sentence with its line; values of a wrong kind among them.

    Args:
        sentences: what else is known to be at fault.
        schema: the JSON Schema of such a file.
    Source: derived.
    """
    file = _File(document=json.loads(text), places=places_in(text))
    mixed = {_path(place, file.document): said for place, said in mixed_up(file.document, schema=schema).items()}
    return {path: file.said(path, sentence) for path, sentence in {**sentences, **mixed}.items()}


class _File(Record, dict=True):
    """A document as it was read, and where its values stand in the text."""

    document: Json
    places: Places

    def errors(self, sentences: Mapping[str, str]) -> ProjectErrors:
        """What is at fault, by path, each sentence with the line where it stands or is missing."""
        return ProjectErrors({path: self.said(path, sentence) for path, sentence in sentences.items()})

    def said(self, path: str, sentence: str) -> str:
        """A sentence with the line of its path."""
        return f"{sentence} (line {self.line(path)})"

    def line(self, path: str) -> int:
        """The line of a path, or of what would hold it."""
        while path not in self.lines and path:
            path = path.rpartition(".")[0]
        return self.lines.get(path, 1)

    @cached_property
    def lines(self) -> dict[str, int]:
        """The line of every path."""
        return {_path(place, self.document): line for place, line in self.places.lines.items()}

    def at(self, places: Iterable[JsonPlace], sentence: str) -> dict[str, str]:
        """One sentence for each of some places."""
        return {_path(place, self.document): sentence for place in places}


def _require_whole(file: _File) -> None:
    """Refuse names that stand twice, of which one would be lost, and half letters, which no text can carry."""
    twice = file.at(file.places.twice[:MOST_FAULTS], "Remove one of the two in this place")
    halves = file.at(file.places.halves[:MOST_FAULTS], "Type it again: it holds half a letter (a lone surrogate)")
    if twice or halves:
        raise file.errors(twice | halves)


def _at(document: Json, place: JsonPlace) -> Json:
    for step in place:
        document = _child(document, step)
    return document


def _child(document: Json, step: str | int) -> Json:
    if isinstance(document, dict):
        return document.get(str(step))
    return document[step] if isinstance(document, list) and isinstance(step, int) and step < len(document) else None


def _path(location: tuple[int | str, ...], document: Json) -> str:
    """Turn the location of a pydantic error into our path: items by id instead of by position."""
    names: list[str] = []
    for step in location:
        if isinstance(step, int):
            item = document[step] if isinstance(document, list) and step < len(document) else None
            names.append(str(item.get("id", step)) if isinstance(item, dict) else str(step))
            document = item
        else:
            names.append(step)
            document = document.get(step) if isinstance(document, dict) else None
    return ".".join(names).encode(errors="backslashreplace").decode()


def _place(fault: Any, document: ReadDocument) -> JsonPlace:
    """Where the value at fault stands: of one that may be of several kinds, pydantic names the kind as well."""
    *above, _ = place = fault["loc"]
    is_of_kind = fault["type"] != "missing" and _at(document, tuple(above)) is fault["input"]
    return tuple(above) if is_of_kind else tuple(place)


def _plain(fault: Any, path: str) -> str:
    """Word an error of pydantic in the shop's words."""
    context, name = fault.get("ctx", {}), path.rsplit(".", 1)[-1]
    found, choices = _written(fault["input"]), _CHOICE.sub(r"\1", context.get("expected", "the choices"))
    counted = "characters" if isinstance(fault["input"], str) else "of them"
    sentences = {
        "extra_forbidden": f"“{name}” is not known here",
        "missing": f"“{name}” is missing",
        "enum": f"“{found}” is not one of {choices}",
        "literal_error": f"“{found}” is not one of {choices}",
        "string_too_short": "Enter a name",
        "string_too_long": f"Enter at most {context.get('max_length')} characters",
        "too_short": "Enter a name" if counted == "characters" else "Add one",
        "too_long": f"Enter at most {context.get('max_length')} {counted}",
        **dict.fromkeys(("int_type", "int_parsing", "int_from_float"), "Enter a whole number, such as 1"),
        **dict.fromkeys(("bool_type", "bool_parsing"), "Enter true or false"),
        **dict.fromkeys(("date_type", "date_parsing", "date_from_datetime_parsing"), "Enter a day, such as 2026-11-30"),
        "string_type": "Enter text in quotation marks",
        "tuple_type": "Enter a list in square brackets, [ ]",
        "model_type": "Enter a group of values in braces, { }",
        "greater_than_equal": f"Enter {context.get('ge')} or more",
        "less_than_equal": f"Enter {context.get('le')} or fewer",
        "string_pattern_mismatch": "Enter an id of 2 to 16 small letters and digits",
    }
    return sentences.get(fault["type"], f"“{found}” does not fit here: {fault['msg'].lower()}")


_CHOICE = re.compile(r"<[\w.]+: ('[^']*')>")
"""How a choice stands in the words of pydantic."""


def _written(value: object) -> str:
    """A value as its file has it; of a group or a list only which it is."""
    if isinstance(value, dict | list):
        return "{ }" if isinstance(value, dict) else "[ ]"
    return value if isinstance(value, str) else json.dumps(value, default=str)


def _require_distinct_ids(project: Project) -> None:
    frames = [frame.id for frame in project.frames]
    items = [item.id for item in project.quote.items] if project.quote else []
    stock = [one.id for one in project.timber.stock]
    sheets = [one.id for one in project.sheets.stock]
    things = [one.id for one in project.wall.things]
    pieces = [one.id for one in project.wall.places]
    layers = [[layer.id for layer in frame.package.layers] for frame in project.frames]
    points = [[point.id for point in frame.section.points] for frame in project.frames]
    windows = [[one.id for one in frame.package.mat.windows] for frame in project.frames if frame.package.mat]
    for ids in (frames, items, stock, sheets, things, pieces, *layers, *points, *windows):
        if len(set(ids)) < len(ids):
            raise UnreadableProject("Give each item of a list its own id")
