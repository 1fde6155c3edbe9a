"""A choice worked into its job: the fields that it changes, and the job that they make."""

from collections.abc import Iterator
from contextlib import suppress
from typing import TypeAlias

from framecalc.money import number_text
from framecalc.package.layers import LayerKind
from framecalc.price.costs import CostGroup
from framecalc.price.quantities import Measure
from framecalc.project import Frame, Mat, Project, items_at, read_project, value_at, with_value
from framecalc.project.choices import Choice
from framecalc.project.document import Document, ReadDocument
from framecalc.project.usual_values import usual_values

ChoiceChange: TypeAlias = tuple[str, str]
"""The path of a field, and its text."""

AS_IT_IS = "asis"
"""The id of the job as it stands among its choices."""

MORE = "quote.more."
"""What stands before the id and the name of a choice where its path is that of its price."""

MAT, PLANNED = ".package.mat", ".is_planned"
WITH_A_MAT = {"with": "yes", "without": "no"}
"""What a choice says of the mat, and the text of its change."""


def changes_of(project: Project, choice: Choice) -> tuple[ChoiceChange, ...]:
    """The fields that a choice changes in every frame, and what it costs more or less."""
    found = [change for frame in project.frames for change in _of_frame(frame, choice)]
    sign = "-" if choice.costs == "less" else ""
    more = [(f"{MORE}{choice.id}", f"{sign}{number_text(choice.more)} {choice.name}")] if choice.more else []
    return (*found, *more)


def with_changes(document: Document, changes: tuple[ChoiceChange, ...]) -> Document:
    """A document with the changes of a choice in it; a frame that has gone meanwhile is left out."""
    changed = document
    for path, text in changes:
        if path.startswith(MORE):
            changed = _with_price(changed, path.removeprefix(MORE), text)
            continue
        with suppress(KeyError):
            changed = _with_mat(changed, path, text) if path.endswith(PLANNED) else with_value(changed, path, text)
    return changed


def are_in(document: ReadDocument, changes: tuple[ChoiceChange, ...]) -> bool:
    """Whether a job has every change of a choice in it."""
    return all(path.startswith(MORE) or _is_in(document, path, text) for path, text in changes)


def _is_in(document: ReadDocument, path: str, text: str) -> bool:
    value = value_at(document, path)
    if path.endswith(PLANNED):
        return (value is not None and value is not False) == (text == "yes")
    return value in (text, None)


def name_as_it_is(project: Project) -> str:
    """What the job as it stands is called among its choices: by its wood."""
    wood = project.frames[0].species or "As planned"
    return wood[:1].upper() + wood[1:]


def _of_frame(frame: Frame, choice: Choice) -> Iterator[ChoiceChange]:
    at = f"frames.{frame.id}."
    colour = choice.wood_colour or ("" if choice.species else None)
    texts = {
        "species": choice.species,
        "look.finish": choice.finish,
        "look.mat_name": choice.mat_name,
        "look.mat_colour": choice.mat_colour,
        "section.face": choice.face,
        "section.face_width": choice.face_width.text if choice.face_width else "",
    }
    yield from ((at + path, str(text)) for path, text in texts.items() if text)
    if choice.mat and not (choice.mat == "without" and frame.package.mat is None):
        yield f"{at[:-1]}{MAT}{PLANNED}", WITH_A_MAT[choice.mat]
    if colour is not None:
        yield f"{at}look.wood_colour", colour
    layers = (layer for layer in frame.package.layers if layer.kind is LayerKind.GLAZING and choice.glazing)
    yield from ((f"{at}package.layers.{layer.id}.name", choice.glazing) for layer in layers)


def _with_mat(document: Document, path: str, text: str) -> Document:
    """A document with a mat planned or not; a frame that never had one gets the usual mat."""
    mat = path.removesuffix(PLANNED)
    if value_at(document, mat) is None and text == "yes":
        return with_value(document, mat, usual_values(Mat, read_project(document).unit))
    return with_value(document, path, text == "yes")


def _with_price(document: Document, choice_id: str, text: str) -> Document:
    """What a choice costs more or less, as an item of the quote; nothing where the job has no quote of its own."""
    price, _, name = text.partition(" ")
    if not document.get("quote"):
        return document
    item: Document = {
        "id": choice_id,
        "name": name,
        "group": CostGroup.OTHER.value,
        "measure": Measure.JOB.value,
        "takes_off": price.startswith("-"),
        "price": price.removeprefix("-"),
    }
    kept = [one for one in items_at(document, "quote.items") if one["id"] != choice_id]
    return with_value(document, "quote.items", [*kept, item])
