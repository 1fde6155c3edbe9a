"""The fields of a project, as their one statement in the model gives them."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Annotated, Any

import pytest

import framecalc.demos
from framecalc.project import Project, project_document, project_schema, read_project
from framecalc.project.fields import Id, Model, Note, Size
from framecalc.project.form import field_at, fields_of, fields_under, parts_of
from framecalc.project.label import Control, Label
from framecalc.units import Length, Unit, parse_length

DEMOS = sorted(Path(next(iter(framecalc.demos.__path__))).glob("*.demo.json"))


def document_of(path: Path) -> dict[str, Any]:
    return project_document(read_project(json.loads(path.read_text("utf-8"))))


@pytest.fixture
def document() -> dict[str, Any]:
    return document_of(Path(next(iter(framecalc.demos.__path__))) / "cafe-prints.demo.json")


def models_in(model: type[Model]) -> Iterator[type[Model]]:
    """A model, and every model in it."""
    yield model
    for part in parts_of(model).values():
        if part.model:
            yield from models_in(part.model)


MODELS = sorted(set(models_in(Project)), key=lambda model: model.__name__)
PARTS = [(model, part) for model in MODELS for part in parts_of(model).values()]


def test_every_field_of_the_model_has_its_words() -> None:
    assert len(PARTS) > 250
    assert [f"{model.__name__}.{part.name}" for model, part in PARTS if not any(one.text for one in part.labels)] == []


def test_the_first_label_of_a_field_serves_every_case_that_has_none_of_its_own() -> None:
    assert [f"{model.__name__}.{part.name}" for model, part in PARTS if part.labels[0].case] == []


def test_a_usual_value_fits_its_field_and_is_about_the_same_in_either_unit() -> None:
    usual = [(part, label) for _, part in PARTS for label in part.labels if label.inch]
    assert len(usual) > 40
    for part, label in usual:
        default = part.default.text if isinstance(part.default, Length) else ""
        mm, inch = (parse_length(label.usual(unit, default)).mm for unit in Unit)
        assert mm == pytest.approx(inch, rel=0.34, abs=0.05), label.text


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_every_value_of_a_document_is_called_something(path: Path) -> None:
    document = document_of(path)
    fields = {path: field_at(document, path) for path in paths_in(document)}
    assert len(fields) > 200
    assert [path for path, field in fields.items() if field is None or not field.label] == []


def paths_in(value: Any, path: str = "") -> Iterator[str]:
    if path:
        yield path
    if isinstance(value, dict):
        for name, inside in value.items():
            yield from paths_in(inside, f"{path}.{name}" if path else name)
    elif isinstance(value, list):
        for item in value:
            if isinstance(item, dict):
                for name, inside in item.items():
                    yield from paths_in(inside, f"{path}.{item['id']}.{name}")


@pytest.mark.parametrize(
    ("path", "control", "optional"),
    [
        ("frames.oak5.section.face_width", Control.LENGTH, False),
        ("frames.oak5.artwork.up_right", Control.LENGTH, True),
        ("frames.oak5.artwork.kind", Control.CHOICE, False),
        ("frames.oak5.count", Control.COUNT, False),
        ("frames.oak5.name", Control.WORDS, False),
        ("frames.oak5.species", Control.WORDS, True),
        ("frames.oak5.look.wood_colour", Control.COLOUR, True),
        ("frames.oak5.look.mat_colour", Control.COLOUR, False),
        ("frames.oak5.corner.seasons.moisture", Control.NUMBER, True),
        ("frames.oak5.fitting.artwork_weight", Control.WEIGHT, True),
        ("quote.terms.waste", Control.MONEY, False),
        ("timber.milled", Control.YES_NO, False),
    ],
)
def test_how_a_field_is_filled_follows_from_its_type(
    document: dict[str, Any], path: str, control: Control, optional: bool
) -> None:
    field = fields_under({"quote": {}} | document, path)[path]
    assert (field.control, field.optional) == (control, optional)


def test_a_choice_shows_its_values_in_words(document: dict[str, Any]) -> None:
    here = "frames.oak5.fitting.panel.grain"
    assert fields_under(document, here)[here].choices == (("up", "Up"), ("across", "Across"))


def test_a_choice_among_frames_has_the_frames_of_the_project(document: dict[str, Any]) -> None:
    names = tuple((frame["id"], frame["name"]) for frame in document["frames"])
    assert fields_under(document, "reach")["reach.frame"].choices == names


def test_a_page_and_a_kind_of_item_may_call_a_field_otherwise(document: dict[str, Any]) -> None:
    stick, board = {"id": "st1", "thickness": "20 mm"}, {"id": "bd1", "thickness": "26 mm", "width": "150 mm"}
    fields = fields_under(document | {"timber": {"stock": [stick, board]}}, "timber.stock.*.thickness")
    assert [field.label for field in fields.values()] == ["Thickness", "Rough thickness"]
    plain, of_timber = (fields_under(document, "shop.kerf", page=page)["shop.kerf"] for page in ("", "timber"))
    assert plain.explain != of_timber.explain


def test_paths_name_fields_parts_items_and_several_at_once(document: dict[str, Any]) -> None:
    layers = [layer["id"] for layer in document["frames"][0]["package"]["layers"]]
    here = "frames.oak5.package.layers"
    assert list(fields_under(document, f"{here}.*.{{kind,thickness}}")) == [
        f"{here}.{layer}.{name}" for layer in layers for name in ("kind", "thickness")
    ]
    assert list(fields_under(document, f"{here}.{layers[0]}.kind")) == [f"{here}.{layers[0]}.kind"]
    assert f"{here}.{layers[0]}.material" in fields_under(document, "frames.oak5.package")
    assert fields_under(document, "frames.none.package") == {}


def test_what_a_button_sets_is_no_field_of_a_form(document: dict[str, Any]) -> None:
    fields = fields_under(document, "frames", "timber", "sheets")
    assert len(fields) > 200
    assert not [path for path in fields if path.endswith((".id", ".done", ".settings", ".on_rack", ".upright"))]


def test_the_schema_says_what_the_page_says() -> None:
    defined = project_schema()["$defs"]
    clean_up = defined["Timber"]["properties"]["clean_up"]
    assert clean_up["title"] == "Clean-up takes"
    assert clean_up["description"].startswith("Of both faces together")
    assert clean_up["description"].endswith("A length with its unit, 0 mm to 100 mm")
    assert (clean_up["default"], clean_up["examples"]) == ("1.5 mm", ["1/16 in"])
    assert defined["Room"]["properties"]["fitted_humidity"]["description"].endswith("1 to 99%")


def test_every_property_of_the_schema_has_a_title_of_ours() -> None:
    schema = project_schema()
    properties = [one for part in (schema, *schema["$defs"].values()) for one in part.get("properties", {}).values()]
    titles = [one.get("title") or schema["$defs"][one["$ref"].rsplit("/", 1)[-1]]["title"] for one in properties]
    assert len(titles) > 250
    assert [title for title in titles if "{" in title or not title] == []


def test_a_model_outside_a_project_has_the_fields_that_are_typed() -> None:
    class Shelf(Model):
        id: Id
        height: Annotated[Size, Label("Height", "From the floor.")]
        note: Annotated[Note, Label("Note")] = ""
        stamp: int = 0

    fields = fields_of(Shelf)
    assert [(name, one.path, one.label, one.explain, one.optional) for name, one in fields.items()] == [
        ("height", "height", "Height", "From the floor.", False),
        ("note", "note", "Note", "", True),
    ]
    assert list(fields_of(Shelf, "note")) == ["note"]
