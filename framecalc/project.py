"""The project: the one model of the input, used as file and as form.

A *project* is what was typed, checked: names, a unit, the shop values it was started with, and its frames. Lengths keep
their text; nothing computed is in it. A *path* names one value: `frames.k3f.section.face_width`; items of a list are
named by their `id`, never by their place. `assumed` lists the paths whose values nobody has measured or chosen yet.
"""

import json
from collections.abc import Callable, Mapping
from typing import Annotated, Any, Literal

from pydantic import (
    AfterValidator,
    BaseModel,
    ConfigDict,
    Field,
    PlainSerializer,
    PlainValidator,
    StringConstraints,
    ValidationError,
    WithJsonSchema,
)

from framecalc.artwork import Kind
from framecalc.errors import FrameCalcError, OutOfRange, UnreadableProject
from framecalc.package import LayerKind
from framecalc.profile import EdgeShape, FaceShape
from framecalc.units import Comma, Length, Step, Unit, parse_length
from framecalc.words import Words

SCHEMA = 1
"""The number of this file format. A change of the format raises it and adds a function that lifts the older one."""


def _length_between(least: str, most: str) -> Callable[[object], Length]:
    least_length, most_length = parse_length(least), parse_length(most)

    def read(value: object) -> Length:
        if not isinstance(value, str):
            raise UnreadableProject(f"{value!r} is no length: a text with a unit, such as “333.4 mm”, would do")
        length = parse_length(value, comma=Comma.DECIMAL)
        if not least_length.exact_mm <= length.exact_mm <= most_length.exact_mm:
            raise OutOfRange(f"“{value}” is outside what this can be: {least} to {most} would do")
        return length

    return read


def _length_json(least: str, most: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "description": f"a length with its unit, {least} to {most}"})


_as_text = PlainSerializer(lambda length: length.text, return_type=str)

Size = Annotated[Length, PlainValidator(_length_between("1 mm", "5000 mm")), _as_text, _length_json("1 mm", "5000 mm")]
"""A size of artwork, wall, sheet or opening."""

Part = Annotated[Length, PlainValidator(_length_between("0.1 mm", "300 mm")), _as_text, _length_json("0.1 mm", "300 mm")]
"""A size in the section of a member."""

Thin = Annotated[Length, PlainValidator(_length_between("0.01 mm", "300 mm")), _as_text, _length_json("0.01 mm", "300 mm")]
"""The thickness of a layer."""

Slack = Annotated[Length, PlainValidator(_length_between("0 mm", "100 mm")), _as_text, _length_json("0 mm", "100 mm")]
"""A looseness, an overlap or a tolerance; it may be nothing."""

Clearance = Annotated[Length, PlainValidator(_length_between("-20 mm", "100 mm")), _as_text, _length_json("-20 mm", "100 mm")]
"""A clearance; negative where a tight package has been measured, so that the plan can say so."""

Border = Annotated[Length, PlainValidator(_length_between("1 mm", "1000 mm")), _as_text, _length_json("1 mm", "1000 mm")]
"""A border of a mat."""

Run = Annotated[Length, PlainValidator(_length_between("100 mm", "20000 mm")), _as_text, _length_json("100 mm", "20000 mm")]
"""The length of a stick."""


def _printable(text: str) -> str:
    """Keep what XML and a page can carry: control characters and lone surrogates go, everything else stays."""
    return "".join(c for c in text if c in "\n\t" or (c.isprintable() and not "\ud800" <= c <= "\udfff"))


Name = Annotated[str, AfterValidator(_printable), StringConstraints(strip_whitespace=True, min_length=1, max_length=120)]
Note = Annotated[str, AfterValidator(_printable), StringConstraints(strip_whitespace=True, max_length=2000)]
Id = Annotated[str, StringConstraints(pattern=r"^[a-z0-9]{2,16}$")]
Count = Annotated[int, Field(ge=1, le=999)]


class Model(BaseModel):
    """What every part of the project shares: frozen, nothing unknown, no infinite numbers."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)


class Artwork(Model):
    """The piece as the tape found it: across at the top and at the bottom, up at the left and at the right, diagonals.

    `rising` runs from the lower left to the upper right. A size left out is taken equal to its opposite.
    """

    kind: Kind = Kind.PAPER
    across: Size
    across_bottom: Size | None = None
    up: Size
    up_right: Size | None = None
    diagonal_rising: Size | None = None
    diagonal_falling: Size | None = None


class Mat(Model):
    """The mat's borders as cut, and by how much its window laps over the artwork on each side."""

    overlap: Slack
    border: Border
    bottom: Border


class Layer(Model):
    """One layer of the package; the list runs from the glazing to the back."""

    id: Id
    name: Name
    kind: LayerKind
    thickness: Thin
    tolerance: Slack


class Package(Model):
    """Everything that sits in the rabbet, and how loosely."""

    clearance_across: Clearance
    clearance_up: Clearance
    mat: Mat | None = None
    layers: tuple[Layer, ...] = Field(default=(), max_length=24)


class Edge(Model):
    """What is milled on one edge of the face."""

    shape: EdgeShape = EdgeShape.SQUARE
    size: Part


class Section(Model):
    """The member's section. A tray uses the face width as its wall, the thickness as its height, and the ledge."""

    kind: Literal["rabbet", "tray"] = "rabbet"
    face_width: Part
    thickness: Part
    rabbet_width: Part
    rabbet_depth: Part
    face: FaceShape = FaceShape.FLAT
    face_drop: Part
    sight_edge: Edge
    back_edge: Edge
    tray_gap: Part
    ledge_width: Part
    ledge_thickness: Part


class Start(Model):
    """What the frame is worked out from, and the numbers of each starting point (kept when another is chosen)."""

    given: Literal["artwork", "wall", "stock", "stick"] = "artwork"
    wall_across: Size | None = None
    wall_up: Size | None = None
    stock: Annotated[str, StringConstraints(max_length=60)] = ""
    stock_turned: bool = False
    stick_length: Run | None = None
    stick_solves: Literal["face width", "picture"] = "face width"


class Known(Model):
    """What a person may also know, and wants held against the plan."""

    outside_across: Size | None = None
    outside_up: Size | None = None


class Frame(Model):
    """One frame of a project, made `count` times."""

    id: Id
    name: Name
    count: Count = 1
    species: Annotated[str, AfterValidator(_printable), StringConstraints(strip_whitespace=True, max_length=60)] = ""
    start: Start = Start()
    artwork: Artwork
    package: Package
    section: Section
    known: Known = Known()


class ShopValues(Model):
    """The shop's values that a project was started with; a later change in the shop's own page does not reach here."""

    inch_step: Literal[Step.EIGHTH, Step.SIXTEENTH, Step.THIRTY_SECOND, Step.SIXTY_FOURTH] = Step.SIXTEENTH
    mm_step: Literal[Step.MILLIMETRE, Step.HALF_MILLIMETRE, Step.TENTH_MILLIMETRE] = Step.HALF_MILLIMETRE
    comma: Comma = Comma.ASK
    words: Words = Words.US
    blade: Name
    kerf: Part
    end_trim: Slack
    fence_length: Run

    def step(self, unit: Unit) -> Step:
        """What lengths are written to in a project of this unit."""
        return self.inch_step if unit is Unit.INCH else self.mm_step


class Saved(Model):
    """How this revision came to be; written by the store, left out of what is exported."""

    revision: int = Field(ge=1)
    when: str
    tab: str = ""
    step: Literal["new", "save", "undo", "redo", "restore", "import", "copy"] = "save"
    equals: int = Field(ge=1)
    redo: tuple[int, ...] = ()


class Project(Model):
    """Everything that was typed for one job."""

    schema_number: Literal[1] = Field(alias="schema")
    name: Name
    note: Note = ""
    unit: Unit
    shop: ShopValues
    frames: tuple[Frame, ...] = Field(min_length=1, max_length=60)
    assumed: tuple[str, ...] = Field(default=(), max_length=2000)
    saved: Saved | None = None

    def frame(self, frame_id: str) -> Frame | None:
        """Return the frame of this id, or None."""
        return next((frame for frame in self.frames if frame.id == frame_id), None)


class ProjectErrors(FrameCalcError):
    """A document that is no project: one sentence for each path at fault."""

    def __init__(self, sentences: Mapping[str, str]) -> None:
        path, sentence = next(iter(sentences.items()))
        super().__init__(f"{path}: {sentence}" if path else sentence, field=path)
        self.sentences = dict(sentences)


def read_project(document: object) -> Project:
    """Check a document, as read from JSON, and return it as a project.

    Raises:
        UnreadableProject: it is no project of a schema known here.
        ProjectErrors: single values are at fault; `sentences` holds one for each path.
    Source: derived (the format is our own).
    """
    if not isinstance(document, dict) or "schema" not in document:
        raise UnreadableProject("this is no project: a JSON object with “schema” was expected")
    if document["schema"] != SCHEMA:
        raise UnreadableProject(f"schema {document['schema']!r} is not known here: this version reads schema {SCHEMA}")
    try:
        project = Project.model_validate(document)
    except ValidationError as error:
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
        document = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise UnreadableProject(f"this is no project file: it cannot be read as JSON ({error})") from error
    return read_project(document)


def project_document(project: Project) -> dict[str, Any]:
    """The project as plain JSON values, with what was left blank left out."""
    return project.model_dump(mode="json", by_alias=True, exclude_none=True)


def project_text(document: Mapping[str, Any]) -> str:
    """The text of a project file: two-space indent, letters as they are, a final newline."""
    return json.dumps(document, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def project_schema() -> dict[str, Any]:
    """The published JSON Schema of a project file."""
    return Project.model_json_schema(by_alias=True)


def value_at(document: Any, path: str) -> Any:
    """The value at a path of a document, or None where there is none; list items are found by their `id`."""
    for name in path.split("."):
        document = _child(document, name)
    return document


def set_value(document: Any, path: str, value: Any) -> None:
    """Put a value at a path of a document, making the objects on the way; None takes the key out.

    Raises:
        KeyError: the path leads through a list item that is not there.
    """
    *way, last = path.split(".")
    for name in way:
        document = document.setdefault(name, {}) if isinstance(document, dict) else _child(document, name)
        if document is None:
            raise KeyError(path)
    if value is None:
        document.pop(last, None)
    else:
        document[last] = value


def _child(document: Any, name: str) -> Any:
    if isinstance(document, dict):
        return document.get(name)
    if isinstance(document, list):
        return next((item for item in document if isinstance(item, dict) and item.get("id") == name), None)
    return None


def sentences_of(error: ValidationError, document: Mapping[str, Any]) -> dict[str, str]:
    """One sentence for each path of a document that does not fit, in the shop's words.

    Source: derived.
    """
    sentences: dict[str, str] = {}
    for fault in error.errors():
        path = _path(fault["loc"], document)
        cause = fault.get("ctx", {}).get("error")
        sentences.setdefault(path, cause.sentence if isinstance(cause, FrameCalcError) else _plain(fault, path))
    return sentences


def _path(location: tuple[int | str, ...], document: Any) -> str:
    """Turn pydantic's place of a fault into our path: items by id instead of by position."""
    names: list[str] = []
    for step in location:
        if isinstance(step, int):
            item = document[step] if isinstance(document, list) and step < len(document) else None
            names.append(str(item.get("id", step)) if isinstance(item, dict) else str(step))
            document = item
        else:
            names.append(step)
            document = document.get(step) if isinstance(document, dict) else None
    return ".".join(names)


def _plain(fault: Any, path: str) -> str:
    """Say in the shop's words what pydantic found."""
    context, name = fault.get("ctx", {}), path.rsplit(".", 1)[-1]
    found = fault["input"] if isinstance(fault["input"], str | int | float | bool) else type(fault["input"]).__name__
    sentences = {
        "extra_forbidden": f"“{name}” is not known here",
        "missing": f"“{name}” is missing",
        "enum": f"“{found}” is not one of {context.get('expected', 'the choices')}",
        "literal_error": f"“{found}” is not one of {context.get('expected', 'the choices')}",
        "string_too_short": "Nothing typed yet: a name would do",
        "string_too_long": f"longer than {context.get('max_length')} letters",
        "int_parsing": f"“{found}” is no whole number: 1 would do",
        "int_from_float": f"“{found}” is no whole number: 1 would do",
        "greater_than_equal": f"{found} is too few: {context.get('ge')} or more would do",
        "less_than_equal": f"{found} is too many: {context.get('le')} or fewer would do",
        "string_pattern_mismatch": f"“{found}” is no id: 2 to 16 small letters and digits would do",
    }
    return sentences.get(fault["type"], f"“{found}” does not fit here: {fault['msg'].lower()}")


def _require_distinct_ids(project: Project) -> None:
    frames = [frame.id for frame in project.frames]
    for ids in (frames, *([layer.id for layer in frame.package.layers] for frame in project.frames)):
        if len(set(ids)) < len(ids):
            raise UnreadableProject("two items of one list carry the same id: each needs its own")
