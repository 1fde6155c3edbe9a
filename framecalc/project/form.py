"""Every field of a project with its words, by its path in a document, taken from its one statement in the model.

From the annotation of a field follow the control that fills it, whether it may stay blank, its choices and its unit.
Values that do not depend on the document are computed once for each class.
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from decimal import Decimal
from enum import Enum
from functools import cache
from types import MappingProxyType, UnionType
from typing import Annotated, Literal, Union, get_args, get_origin

from pydantic import StringConstraints
from pydantic.fields import FieldInfo

from framecalc.measures import Kind, Measurement
from framecalc.project.document import ReadDocument
from framecalc.project.fields import Model
from framecalc.project.label import YES_NO, Choices, Control, Label, NumberUnit, named
from framecalc.project.model import Project
from framecalc.project.paths import items_at, text_at
from framecalc.records import Record, replace
from framecalc.units import Length, Unit
from framecalc.weights import Weight
from framecalc.words import typed

_CONTROLS: tuple[tuple[type, Control], ...] = (
    (Length, Control.LENGTH),
    (Weight, Control.WEIGHT),
    (Measurement, Control.MEASURED),
    (bool, Control.YES_NO),
    (int, Control.COUNT),
    (date, Control.DAY),
    (Decimal, Control.NUMBER),
    (Enum, Control.CHOICE),
    (str, Control.WORDS),
)


class Field(Record):
    """One field as a form needs it. `choices` are pairs of a value in the file and its words on the page.

    `drawing` shows its effect; `sketch` names the small drawing of what is measured. What is measured has a `unit`,
    that of the project. `figure` is the figure of the plan that takes its place when the starting point solves it.
    `measured_anew` are fields beside it that count as assumed once it has changed.
    """

    path: str
    label: str
    control: Control = Control.LENGTH
    explain: str = ""
    optional: bool = False
    choices: Choices = ()
    drawing: str = ""
    sketch: str = ""
    unit: str = ""
    figure: str = ""
    of: str = ""
    is_typed: bool = True
    to_confirm: bool = False
    measured_anew: tuple[str, ...] = ()

    @property
    def is_length(self) -> bool:
        """Whether it holds a length."""
        return self.control is Control.LENGTH

    def choosing(self, choices: Choices) -> "Field":
        """The same field, with these choices."""
        return replace(self, control=Control.CHOICE, choices=choices)


class FieldOfModel(Record):
    """One field of a model as stated: its labels, its types, and its model if it holds one or a list of them.

    A *kind* is a type, a Literal or a marker, of which an annotation is made up.
    """

    name: str
    labels: tuple[Label, ...]
    kinds: tuple[object, ...]
    default: object
    model: type[Model] | None
    is_list: bool

    @property
    def may_be_missing(self) -> bool:
        """Whether it may be missing, with everything inside it."""
        return type(None) in self.kinds

    def label(self, cases: Sequence[str]) -> Label:
        """Its label in these cases, or the first one."""
        in_case = (label for label in self.labels if label.case in cases and label.case)
        return next(in_case, self.labels[0])


class ModelInDocument(Record):
    """One model in a document: its value, and the facts about the path to it."""

    model: type[Model]
    document: ReadDocument
    path: str = ""
    sketch: str = ""
    within: str = ""
    cases: tuple[str, ...] = ()
    drawing: str = ""


@cache
def parts_of(model: type[Model]) -> Mapping[str, FieldOfModel]:
    """The parts of a model, by their name in the file."""
    parts = (_part(info.alias or name, info) for name, info in model.model_fields.items())
    return MappingProxyType({part.name: part for part in parts})


def field_at(document: ReadDocument, path: str) -> Field | None:
    """The field, part or list at a path of a project's document; None if the model has no such field."""
    above, _, name = path.rpartition(".")
    place = _place_at(ModelInDocument(model=Project, document=document, cases=("",)), above)
    return _chosen(_field_in(place, name), document) if place and name in parts_of(place.model) else None


def fields_under(document: ReadDocument, *paths: str, page: str = "") -> dict[str, Field]:
    """The fields that are typed at paths of a project's document and below them, by their full paths.

    Args:
        document: the project.
        paths: `*` in one stands for each item of a list, `{name,kind}` at its end for several fields.
        page: the page of the fields, if it has labels of its own.
    """
    start = ModelInDocument(model=Project, document=document, cases=(page,))
    found = (pair for path in paths for pair in _at(start, path))
    return {path: _chosen(field, document) for path, field in found if field.is_typed}


def fields_of(model: type[Model], *names: str) -> dict[str, Field]:
    """The fields that are typed of a model that stands by itself, outside a project, by their names in its file.

    Args:
        names: of those that are meant; without names all.
    """
    place = ModelInDocument(model=model, document={}, cases=("",))
    labelled = (name for name, part in parts_of(model).items() if part.labels)
    found = {name: _field_in(place, name) for name in names or labelled}
    return {name: field for name, field in found.items() if field.is_typed}


def paths_of_arguments(model: type[Model], *, leaving: str = "") -> dict[str, str]:
    """The paths, within a model, of the fields that the arguments of the topics stand for; the first one of several.

    Args:
        leaving: a part whose arguments are names of their own.
    """
    return dict(reversed([pair for pair in _arguments(model, "", "") if not pair[1].startswith(f"{leaving}.")]))


def _arguments(model: type[Model], above: str, within: str) -> Iterator[tuple[str, str]]:
    for name, part in parts_of(model).items():
        yield from ((argument, f"{above}{name}") for argument in part.label(("", within)).arguments)
        if part.model and not part.is_list:
            yield from _arguments(part.model, f"{above}{name}.", name)


def _place_at(place: ModelInDocument, path: str) -> ModelInDocument | None:
    name, _, rest = path.partition(".")
    if not name:
        return place
    part = parts_of(place.model).get(name)
    if part is None:
        return None
    item_id, _, below = rest.partition(".") if part.is_list else ("", "", rest)
    found = next(_inside(place, part, item_id=item_id), None) if item_id or not part.is_list else None
    return _place_at(found, below) if found else None


def _at(place: ModelInDocument, path: str) -> Iterator[tuple[str, Field]]:
    name, _, rest = path.partition(".")
    for one in name.strip("{}").split(","):
        part = parts_of(place.model).get(one)
        if part is None:
            continue
        if part.model is None:
            yield f"{place.path}{one}", _field_in(place, one)
        item_id, _, below = rest.partition(".") if part.is_list else ("", "", rest)
        for inside in _inside(place, part, item_id=item_id.removeprefix("*")):
            yield from _at(inside, below) if below else _every(inside)


def _every(place: ModelInDocument) -> Iterator[tuple[str, Field]]:
    for name, field, part in _fields_of(place.model, place.sketch, place.within, place.cases, place.drawing):
        yield f"{place.path}{name}", field
        if part.model is not None:
            for inside in _inside(place, part):
                yield from _every(inside)


@cache
def _fields_of(
    model: type[Model], sketch: str, within: str, cases: tuple[str, ...], drawing: str
) -> tuple[tuple[str, Field, FieldOfModel], ...]:
    """All fields of a model at its place, each with its name and as it is stated."""
    parts = parts_of(model).items()
    return tuple((name, _field(model, name, sketch, within, cases, drawing), part) for name, part in parts)


def _inside(place: ModelInDocument, part: FieldOfModel, *, item_id: str = "") -> Iterator[ModelInDocument]:
    """The models that a part holds: one, one for each item of a list, or none; of a list one item alone if asked."""
    found = place.document.get(part.name)
    if part.model is None or (found is None and part.may_be_missing):
        return
    items = found if part.is_list and isinstance(found, list | tuple) else () if part.is_list else (found or {},)
    for item in items:
        if item_id and item["id"] != item_id:
            continue
        yield _place(place, part, part.model, item)


def _place(place: ModelInDocument, part: FieldOfModel, model: type[Model], item: ReadDocument) -> ModelInDocument:
    label = part.label(place.cases)
    return ModelInDocument(
        model=model,
        document=item,
        path=f"{place.path}{part.name}.{item['id']}." if part.is_list else f"{place.path}{part.name}.",
        sketch="" if place.model is Project and part.is_list else f"{place.sketch}{part.name}.",
        within=label.text,
        cases=(place.cases[0] if place.cases else "", part.name, model.case_of(item)),
        drawing=label.drawing or place.drawing,
    )


def _field_in(place: ModelInDocument, name: str) -> Field:
    return _field(place.model, name, place.sketch, place.within, place.cases, place.drawing)


@cache
def _field(model: type[Model], name: str, sketch: str, within: str, cases: tuple[str, ...], drawing: str) -> Field:
    part = parts_of(model)[name]
    label = part.label(cases)
    drawn, control = label.drawing or drawing, _control(part, label)
    return Field(
        path=f"{sketch}{name}",
        label=label.text.replace("{within}", within),
        control=control,
        explain=label.explain,
        optional=_may_be_blank(part, control) and not label.is_required,
        choices=_choices(part, label, control),
        drawing=drawn,
        sketch=f"{sketch}{name}" if drawn and control is Control.LENGTH and not _of_page(label, cases) else "",
        unit=next((_unit_of(kind) for kind in part.kinds if isinstance(kind, NumberUnit | Kind)), ""),
        figure=label.figure,
        of=label.of,
        is_typed=label.is_typed and part.model is None and not part.is_list,
        to_confirm=label.to_confirm,
        measured_anew=label.measured_anew,
    )


def _of_page(label: Label, cases: tuple[str, ...]) -> bool:
    return label.case != "" and label.case == cases[0]


def _chosen(field: Field, document: ReadDocument) -> Field:
    """A field as the document has it: measured in its unit, its choices the present items of the project."""
    if field.control is Control.MEASURED and document.get("unit") == Unit.INCH:
        field = _in_inch_job(field)
    if not field.of:
        return field
    items = items_at(document, field.of)
    return field.choosing((*field.choices, *((text_at(one, "id"), typed(text_at(one, "name"))) for one in items)))


def _in_inch_job(field: Field) -> Field:
    """A temperature or a force as an inch project asks for it."""
    sign = Kind(field.unit).sign(Unit.INCH)
    return replace(field, unit=sign, label=field.label.removesuffix(field.unit) + sign)


def _unit_of(kind: NumberUnit | Kind) -> str:
    return kind.name if isinstance(kind, NumberUnit) else kind.value


def _part(name: str, info: FieldInfo) -> FieldOfModel:
    kinds = (*info.metadata, *_kinds(info.annotation))
    items = next((get_args(kind)[0] for kind in kinds if get_origin(kind) is tuple), None)
    models = (kind for kind in (*kinds, *_kinds(items)) if isinstance(kind, type) and issubclass(kind, Model))
    return FieldOfModel(
        name=name,
        labels=tuple(kind for kind in kinds if isinstance(kind, Label)),
        kinds=kinds,
        default=info.default,
        model=next(models, None),
        is_list=items is not None,
    )


def _kinds(annotation: object) -> Iterator[object]:
    origin, inside = get_origin(annotation), get_args(annotation)
    if origin is Annotated:
        yield from inside[1:]
        yield from _kinds(inside[0])
    elif origin in (Union, UnionType):
        for one in inside:
            yield from _kinds(one)
    else:
        yield annotation


def _control(part: FieldOfModel, label: Label) -> Control:
    said = next((kind for kind in part.kinds if isinstance(kind, Control)), None)
    if said:
        return said
    if _values(part) or label.of or (label.choices and not _is(part, bool)):
        return Control.CHOICE
    return next((control for kind, control in _CONTROLS if _is(part, kind)), Control.WORDS)


def _is(part: FieldOfModel, kind: type) -> bool:
    return any(isinstance(one, type) and issubclass(one, kind) for one in part.kinds)


def _values(part: FieldOfModel) -> tuple[str, ...]:
    """The values of a part that is a choice; else none."""
    of_enums = (value for kind in part.kinds if isinstance(kind, type) and issubclass(kind, Enum) for value in kind)
    literals = (value for kind in part.kinds if get_origin(kind) is Literal for value in get_args(kind))
    return tuple(str(value.value if isinstance(value, Enum) else value) for value in (*of_enums, *literals) if value)


def _choices(part: FieldOfModel, label: Label, control: Control) -> Choices:
    blank = (("", label.blank),) if label.blank else ()
    if control is Control.YES_NO:
        return label.choices or YES_NO
    return (*blank, *(label.choices or named(_values(part)))) if control is Control.CHOICE else ()


def _may_be_blank(part: FieldOfModel, control: Control) -> bool:
    if control is Control.WORDS:
        return not any(isinstance(kind, StringConstraints) and kind.min_length for kind in part.kinds)
    return control is not Control.CHOICE and (part.may_be_missing or _takes_blank(part))


def _takes_blank(part: FieldOfModel) -> bool:
    return any(get_origin(kind) is Literal and "" in get_args(kind) for kind in part.kinds)
