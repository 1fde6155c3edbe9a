"""What no project file may hold is refused with the line and the field where it stands."""

import json
from typing import Any

import pytest

from framecalc.errors import FrameCalcError, UnreadableProject
from framecalc.project import ProjectErrors, parse_project, project_document, project_text
from framecalc.project.places import places_in
from framecalc.project.reading import MOST_FAULTS
from webapp.pages.projects.demos import demos

DEMO = demos()["cafe-prints.demo"]
FRAME = DEMO["frames"][0]["id"]


def changed(old: str, new: str) -> str:
    """The text of a demo project with one line of it changed."""
    text = project_text(DEMO)
    assert old in text
    return text.replace(old, new, 1)


def line_of(text: str, what: str) -> int:
    return text[: text.index(what)].count("\n") + 1


def refused(text: str) -> dict[str, str]:
    with pytest.raises(ProjectErrors) as refusal:
        parse_project(text)
    refusal.value.sentence.encode()
    return refusal.value.sentences


@pytest.mark.parametrize("name", demos())
def test_every_value_of_a_file_is_found_on_its_line(name: str) -> None:
    text = project_text(demos()[name])
    found = places_in(text)
    assert (found.twice, found.halves) == ((), ())
    lines = text.splitlines()
    for place, line in found.lines.items():
        value: Any = demos()[name]
        for step in place:
            value = value[step]
        if isinstance(value, str):
            assert json.dumps(value, ensure_ascii=False) in lines[line - 1]


@pytest.mark.parametrize("name", demos())
def test_every_demo_is_read_as_it_is_written(name: str) -> None:
    text = project_text(project_document(parse_project(project_text(demos()[name]))))
    assert project_text(project_document(parse_project(text))) == text


def test_a_name_that_stands_twice_is_refused_with_its_line_and_its_field() -> None:
    text = changed('  "unit": ', '  "unit": "in",\n  "unit": ')
    said = refused(text)
    assert list(said) == ["unit"]
    assert "Remove one of the two in this place" in said["unit"] and "(line " in said["unit"]
    count = f'"id": "{FRAME}",'
    inside = refused(changed(count, f'{count}\n"count": 2, "count": 3,'))
    assert list(inside) == [f"frames.{FRAME}.count"]


def test_a_schema_that_is_no_number_is_refused() -> None:
    with pytest.raises(FrameCalcError, match="Enter a schema of 1 to 2, not true"):
        parse_project(changed('"schema": 2', '"schema": true'))


def test_a_count_that_is_yes_is_refused_with_its_line_and_its_field() -> None:
    document = json.loads(project_text(DEMO))
    document["frames"][0]["count"] = True
    text = project_text(document)
    said = refused(text)
    assert list(said) == [f"frames.{FRAME}.count"]
    assert said[f"frames.{FRAME}.count"].endswith(f"(line {line_of(text, 'true')})")


@pytest.mark.parametrize("value", [1, 0, "yes", "true"])
def test_a_yes_that_is_something_else_is_refused(value: object) -> None:
    document = json.loads(project_text(project_document(parse_project(project_text(DEMO)))))
    fields = [
        (place, name)
        for place, part in (("timber", document["timber"]), ("sheets", document["sheets"]))
        for name, found in part.items()
        if isinstance(found, bool)
    ]
    assert fields
    for place, name in fields:
        other = document | {place: document[place] | {name: value}}
        assert "Enter true or false" in refused(project_text(other))[f"{place}.{name}"]


@pytest.mark.parametrize(
    ("old", "new", "where"),
    [
        ('"schema": 2', '"\\ud800": 1,\n  "schema": 2', "\\ud800"),
        (f'"id": "{FRAME}"', '"id": "\\udfff"', "frames.\\udfff.id"),
        (f'"id": "{FRAME}"', f'"a\\ud800": 1, "id": "{FRAME}"', f"frames.{FRAME}.a\\ud800"),
        ('"unit": "', '"unit": "\\ud800', "unit"),
    ],
)
def test_half_a_letter_is_refused_with_its_line_and_its_field(old: str, new: str, where: str) -> None:
    said = refused(changed(old, new))
    assert "half a letter" in said[where]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ('{"schema": 2, "frames": [' + "{}," * 300_000 + "{}]}", "more values than any project"),
        ("[" + "1," * 450_000 + "1]", "more values than any project"),
        ('{"schema": 2, "frames": [' + "{}," * 2000 + "{}]}", "More than 1000 values are wrong"),
    ],
    ids=["countless frames", "a list of numbers", "wrong frames"],
)
def test_a_file_of_countless_values_is_refused_as_a_whole(text: str, says: str) -> None:
    """Fault: 900 kB of empty frames took 38 s and 2.1 GB, for one and a half million sentences."""
    with pytest.raises(UnreadableProject, match=says):
        parse_project(text)


def test_of_countless_names_that_stand_twice_a_thousand_are_told() -> None:
    with pytest.raises(ProjectErrors) as refusal:
        parse_project('{"schema": 2, "a": [' + ",".join(['{"k": 1, "k": 2}'] * 2000) + "]}")
    assert len(refusal.value.sentences) == MOST_FAULTS


def test_what_does_not_fit_is_told_with_its_line() -> None:
    document = json.loads(project_text(DEMO))
    document["frames"][0]["count"] = 5000
    text = project_text(document)
    assert refused(text)[f"frames.{FRAME}.count"].endswith(f"(line {line_of(text, '5000')})")


def test_a_field_that_is_missing_is_told_with_the_line_of_what_should_hold_it() -> None:
    document = json.loads(project_text(DEMO))
    del document["shop"]["kerf"]
    text = project_text(document)
    assert refused(text)["shop.kerf"].endswith(f"(line {line_of(text, chr(34) + 'shop')})")
