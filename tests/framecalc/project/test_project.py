"""The project file: what is read, what is refused and in which words, what is written back."""

import copy
import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.errors import FrameCalcError, UnreadableProject
from framecalc.project import (
    Project,
    ProjectErrors,
    parse_project,
    project_document,
    project_schema,
    project_text,
    read_project,
    set_value,
    value_at,
)

DEMOS = sorted((Path(__file__).parents[3] / "framecalc/demos").glob("*demo*.json"))


@pytest.fixture
def document() -> dict[str, Any]:
    return json.loads(DEMOS[0].read_text("utf-8"))


def frame_path(document: dict[str, Any], field: str) -> str:
    return f"frames.{document['frames'][0]['id']}.{field}"


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_a_demo_is_read_and_written_back_as_it_stands(path: Path) -> None:
    text = path.read_text("utf-8")
    assert project_text(project_document(parse_project(text))) == text


def test_there_are_three_demos() -> None:
    assert len(DEMOS) == 3


def test_a_length_keeps_the_text_it_was_typed_as(document: dict[str, Any]) -> None:
    set_value(document, frame_path(document, "artwork.across"), "1' 1⅛″")
    artwork = read_project(document).frames[0].artwork
    assert artwork.across.text == "1' 1⅛″" and artwork.across.mm == 333.375


@pytest.mark.parametrize(
    ("field", "value", "says"),
    [
        ("section.face_width", "22", "Enter a unit: 22 mm or 22 in"),
        ("section.face_width", 22, "Enter a length with its unit, in quotation marks: “333.4 mm”"),
        ("section.face_width", "0 mm", "Enter 0.1 mm to 300 mm"),
        ("section.face_width", "301 mm", "Enter 0.1 mm to 300 mm"),
        ("artwork.across", "5001 mm", "Enter 1 mm to 5000 mm"),
        ("artwork.across", "nan mm", "Enter a length"),
        ("artwork.kind", "tapestry", "is not one of"),
        ("count", 0, "Enter 1 or more"),
        ("count", "many", "Enter a whole number, such as 1"),
        ("colour", "red", "is not known here"),
    ],
)
def test_a_value_at_fault_is_named_with_what_would_do(
    document: dict[str, Any], field: str, value: Any, says: str
) -> None:
    path = frame_path(document, field)
    set_value(document, path, value)
    with pytest.raises(ProjectErrors) as refusal:
        read_project(document)
    assert list(refusal.value.sentences) == [path]
    assert says in refusal.value.sentences[path]


def test_several_faults_are_all_named(document: dict[str, Any]) -> None:
    paths = [frame_path(document, field) for field in ("section.thickness", "artwork.up")]
    for path in paths:
        set_value(document, path, "lots")
    with pytest.raises(ProjectErrors) as refusal:
        read_project(document)
    assert sorted(refusal.value.sentences) == sorted(paths)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "not readable as JSON"),
        ("[" * 100_000, "not readable as JSON"),
        ("[]", "This is not a Rabbetry project file"),
        ('{"name": "x"}', "This is not a Rabbetry project file"),
        ('{"schema": 3}', "Enter a schema of 1 to 2, not 3"),
        ('{"schema": "1"}', 'Enter a schema of 1 to 2, not "1"'),
    ],
)
def test_a_file_that_is_no_project_is_refused_in_words(text: str, says: str) -> None:
    with pytest.raises(UnreadableProject, match=says):
        parse_project(text)


def test_two_frames_of_one_id_are_refused(document: dict[str, Any]) -> None:
    document["frames"].append(copy.deepcopy(document["frames"][0]))
    with pytest.raises(UnreadableProject, match="Give each item of a list its own id"):
        read_project(document)


def test_names_lose_what_no_page_can_carry(document: dict[str, Any]) -> None:
    document["name"] = "Café\x00 \ud800wall\x1b"
    assert read_project(document).name == "Café wall"


def test_a_path_finds_an_item_by_its_id(document: dict[str, Any]) -> None:
    layer = document["frames"][0]["package"]["layers"][1]
    assert value_at(document, frame_path(document, f"package.layers.{layer['id']}.thickness")) == layer["thickness"]
    assert value_at(document, frame_path(document, "package.layers.zzz.thickness")) is None
    with pytest.raises(KeyError):
        set_value(document, frame_path(document, "package.layers.zzz.thickness"), "1 mm")


def test_setting_nothing_takes_the_key_out(document: dict[str, Any]) -> None:
    path = frame_path(document, "known.outside_across")
    set_value(document, path, "400 mm")
    assert value_at(document, path) == "400 mm"
    set_value(document, path, None)
    assert "outside_across" not in value_at(document, frame_path(document, "known"))


def test_the_schema_is_json_and_names_every_key() -> None:
    schema = json.loads(json.dumps(project_schema()))
    assert schema["additionalProperties"] is False
    assert set(Project.model_fields) - {"schema_number"} | {"schema"} == set(schema["properties"])


json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=6,
)


@given(value=json_values, field=st.sampled_from(["name", "unit", "shop", "frames", "assumed", "saved", "note"]))
def test_any_value_anywhere_is_read_or_refused_in_words(field: str, value: Any) -> None:
    document = json.loads(DEMOS[0].read_text("utf-8")) | {field: value}
    try:
        read_project(document)
    except FrameCalcError as refusal:
        assert refusal.sentence
