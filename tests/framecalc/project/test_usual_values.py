"""How a project begins: whole, in its own unit, with what nobody has measured marked as assumed."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

import framecalc.demos
from framecalc.artwork.measuring import ArtworkKind
from framecalc.package.layers import LayerKind
from framecalc.package.shelf import usual_material
from framecalc.plan import Plan
from framecalc.project import Frame, Project, project_document, read_project, value_at
from framecalc.project.usual_values import FirstNumbers, beginning, layer_from_shelf, usual_values
from framecalc.units import Step, Unit
from framecalc.words import Words

DEMO = Path(next(iter(framecalc.demos.__path__))) / "cafe-prints.demo.json"
OF_THE_MAKER = ("layers", "shop")
"""Sheets are sold in their own units, and the shop's values are the shop's."""


def begun(kind: ArtworkKind, unit: Unit, *, face: str = "") -> dict[str, Any]:
    sizes = ("10", "12", "1") if unit is Unit.INCH else ("250", "300", "25")
    across, up, usual = (f"{size} {unit}" for size in sizes)
    first = FirstNumbers(name="A job", unit=unit, kind=kind, across=across, up=up, face_width=face or usual)
    step = Step.SIXTEENTH if unit is Unit.INCH else Step.MILLIMETRE
    shop = json.loads(DEMO.read_text("utf-8"))["shop"]
    ids = iter("abcdefghij")
    return beginning(first, shop=shop, step=step, kerf_is_assumed=True, new_id=lambda: f"id{next(ids)}")


def lengths(value: Any, path: str = "") -> Iterator[tuple[str, str]]:
    if isinstance(value, dict):
        for name, inside in value.items():
            if name not in OF_THE_MAKER:
                yield from lengths(inside, f"{path}.{name}")
    elif isinstance(value, list):
        for inside in value:
            yield from lengths(inside, path)
    elif isinstance(value, str) and value.endswith((" mm", " in")):
        yield path, value


@pytest.mark.parametrize("unit", list(Unit))
@pytest.mark.parametrize("kind", list(ArtworkKind))
def test_everything_begins_in_the_unit_of_the_project(kind: ArtworkKind, unit: Unit) -> None:
    document = project_document(read_project(begun(kind, unit)))
    of_another_unit = [(path, text) for path, text in lengths(document) if not text.endswith(f" {unit}")]
    assert [(path, text) for path, text in of_another_unit if not text.startswith("0 ")] == []


@pytest.mark.parametrize("unit", list(Unit))
def test_a_first_drawing_follows_from_three_numbers(unit: Unit) -> None:
    project = read_project(begun(ArtworkKind.PAPER, unit))
    for frame in Plan(project).frames.values():
        frame.compute_all()


@pytest.mark.parametrize(("unit", "face", "width"), [(Unit.MM, "12 mm", "6 mm"), (Unit.INCH, "1/2 in", "1/4 in")])
def test_a_face_no_wider_than_the_usual_rabbet_has_one_of_half_its_width(unit: Unit, face: str, width: str) -> None:
    project = read_project(begun(ArtworkKind.CANVAS, unit, face=face))
    assert project.frames[0].section.rabbet_width.text == width
    Plan(project).frames[project.frames[0].id].compute_all()


@pytest.mark.parametrize("unit", list(Unit))
def test_a_project_begins_with_the_usual_value_of_every_field_that_has_one(unit: Unit) -> None:
    document = begun(ArtworkKind.PAPER, unit)
    frame = document["frames"][0]
    usual = dict(texts_in(usual_values(Project, unit))) | dict(
        texts_in(usual_values(Frame, unit), f"frames.{frame['id']}")
    )
    assert len(usual) > 40
    assert {path: value_at(document, path) for path in usual} == usual


def texts_in(value: dict[str, Any], path: str = "") -> Iterator[tuple[str, str]]:
    for name, inside in value.items():
        here = f"{path}.{name}" if path else name
        yield from texts_in(inside, here) if isinstance(inside, dict) else [(here, inside)]


@pytest.mark.parametrize(("words", "called"), [(Words.US, "Mat board, 4-ply"), (Words.UK, "Mount board, 4-ply")])
def test_a_ready_made_layer_is_called_in_the_words_of_the_shop(words: Words, called: str) -> None:
    layer = layer_from_shelf("mat", words=words, new_id=lambda: "m1")
    assert (layer["name"], layer["material"]) == (called, "matboard_4ply")
    assert usual_material(LayerKind.MAT, name=layer["name"]) == "matboard_4ply"
