"""What is of the wrong kind in a file: named at its field, on its line, beside whatever else is wrong."""

from collections.abc import Iterator
from copy import deepcopy
from typing import Any

import pytest

from framecalc.project import ProjectErrors, parse_project, project_text
from webapp.pages.projects.demos import demo

DEMO = demo("cafe-prints.demo")
FRAME = DEMO["frames"][0]["id"]
Place = tuple[str | int, ...]


def places(value: Any, place: Place = ()) -> Iterator[tuple[Place, Any]]:
    """Every value of the first item of each list, and of the whole."""
    yield place, value
    for step, below in (
        value.items() if isinstance(value, dict) else list(enumerate(value))[:1] if isinstance(value, list) else ()
    ):
        yield from places(below, (*place, step))


def put(document: Any, place: Place, value: object) -> None:
    for step in place[:-1]:
        document = document[step]
    document[place[-1]] = value


def refused(document: Any) -> dict[str, str]:
    with pytest.raises(ProjectErrors) as refusal:
        parse_project(project_text(document))
    return refusal.value.sentences


def test_true_for_a_number_is_named_although_other_values_are_at_fault() -> None:
    document = deepcopy(DEMO)
    put(document, ("frames", 0, "section", "face_width"), "wide")
    counts = [place for place, value in places(DEMO) if type(value) is int and place != ("schema",)]
    for place in counts:
        put(document, place, True)
    lines = project_text(document).splitlines()
    said = refused(document)
    assert len(said) == len(counts) + 1 > 8 and f"frames.{FRAME}.section.face_width" in said
    for path, sentence in said.items():
        line = int(sentence.rpartition("(line ")[2].rstrip(")"))
        assert f'"{path.rpartition(".")[2]}"' in lines[line - 1], path
        assert sentence.startswith("Enter a number, not true or false") == lines[line - 1].rstrip(",").endswith("true")


@pytest.mark.parametrize("value", [7.5, [7], {"seven": 7}])
def test_each_value_of_a_wrong_kind_is_named_once_in_words_for_people(value: object) -> None:
    """No word of the reader's own (tuple, dict, instance, literal) and no second path beside the field's."""
    document, wrong = deepcopy(DEMO), 0
    for place, found in list(places(DEMO)):
        if not place or isinstance(found, dict | list) or place in {("schema",), ("frames", 0, "id")}:
            continue
        put(document, place, value)
        wrong += not isinstance(found, str) or not isinstance(value, str)
    said = refused(document)
    for path, sentence in said.items():
        assert not any(
            word in f"{path} {sentence}" for word in ("does not fit", "dict", "tuple", "literal", "<", "Nonetype")
        )
    assert len(said) == wrong


@pytest.mark.parametrize(
    ("place", "value", "says"),
    [
        (("frames", 0, "artwork"), [], "Enter a group of values in braces"),
        (("frames", 0, "package", "layers"), {}, "Enter a list in square brackets"),
        (("frames", 0, "name"), 5, "Enter text in quotation marks"),
        (("frames", 0, "hanging", "by"), True, "“true” is not one of 'rings'"),
        (("shop", "inch_step"), None, "“null” is not one of '1/8 in', '1/16 in', '1/32 in' or '1/64 in'"),
    ],
)
def test_each_kind_has_its_sentence(place: Place, value: object, says: str) -> None:
    document = deepcopy(DEMO)
    put(document, place, value)
    ((path, sentence),) = refused(document).items()
    assert sentence.startswith(says) and path.rpartition(".")[2] == place[-1]
