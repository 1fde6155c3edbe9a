"""The parts of the project file that price a job and show it: what is read, what is refused, what old files become."""

import json
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from framecalc.project import Look, ProjectErrors, project_document, read_project, set_value

DEMO = Path(__file__).parents[3] / "framecalc/demos/cafe-prints.demo.json"
PHOTO = {
    "id": "0" * 32,
    "across": 1600,
    "up": 1200,
    **{
        name: {"across": across, "down": down}
        for name, (across, down) in {
            "upper_left": (100, 90),
            "upper_right": (1500, 100),
            "lower_right": (1490, 1100),
            "lower_left": (110, 1110),
        }.items()
    },
}


@pytest.fixture
def document() -> dict[str, Any]:
    found: dict[str, Any] = json.loads(DEMO.read_text("utf-8"))
    found["quote"] = {"terms": {}, "items": [{"id": "ash1", "name": "ash"}]}
    return found


def refusal(document: dict[str, Any], path: str, value: object) -> str:
    set_value(document, path, value)
    with pytest.raises(ProjectErrors) as refused:
        read_project(document)
    return refused.value.sentences[path]


def test_a_file_from_before_there_were_quotes_still_reads(document: dict[str, Any]) -> None:
    del document["quote"], document["frames"][0]["look"]
    project = read_project(document)
    assert project.quote is None
    assert project.frames[0].look == Look()


@pytest.mark.parametrize("text", ["12.5", "12.50", "12,50", "$12.50"])
def test_a_price_is_read_and_written_with_a_point(document: dict[str, Any], text: str) -> None:
    set_value(document, "quote.items.ash1.price", text)
    project = read_project(document)
    assert project.quote and project.quote.items[0].price == Decimal("12.5")
    assert project_document(project)["quote"]["items"][0]["price"] == "12.5"


@pytest.mark.parametrize(
    ("path", "value", "says"),
    [
        ("quote.items.ash1.price", "1,234", "two ways"),
        ("quote.items.ash1.price", 12.5, "in quotation marks"),
        ("quote.items.ash1.quantity", "-1", "Enter a number, such as 12.50"),
        ("quote.items.ash1.measure", "by the moon", "not one of"),
        ("quote.items.ash1.priced_on", "1999-12-31", "a day of 2000 to 2099"),
        ("quote.items.ash1.stick_length", "1 mm", "Enter 100 mm to 20000 mm"),
        ("quote.terms.margin", "100", "Enter a margin under 100%"),
        ("quote.terms.deposit", "100.5", "Enter 100% or less"),
        ("quote.terms.waste", "1001", "Enter 1000% or less"),
        ("quote.terms.mark", "dollars", "Enter at most 5 characters"),
        ("quote.terms.stale_after", 0, "Enter 1 or more"),
    ],
)
def test_what_cannot_be_is_refused_beside_its_field(
    document: dict[str, Any], path: str, value: object, says: str
) -> None:
    assert says in refusal(document, path, value)


def test_two_items_of_one_id_are_refused(document: dict[str, Any]) -> None:
    document["quote"]["items"] *= 2
    with pytest.raises(ValueError, match="Give each item of a list its own id"):
        read_project(document)


def test_a_photo_is_read_with_its_corners(document: dict[str, Any]) -> None:
    document["frames"][0]["look"]["photo"] = PHOTO
    photo = read_project(document).frames[0].look.photo
    assert photo and (photo.lower_left.across, photo.lower_left.down) == (110, 1110)


@pytest.mark.parametrize("photo_id", ["../shop", "0" * 31, "0" * 33, "A" * 32, "0" * 32 + "\n"])
def test_a_photo_has_an_id_of_ours_or_none(document: dict[str, Any], photo_id: str) -> None:
    document["frames"][0]["look"]["photo"] = PHOTO | {"id": photo_id}
    with pytest.raises(ProjectErrors):
        read_project(document)


@pytest.mark.parametrize("colour", ["red", "#fff", "#ffffff;x:y", "url(#a)", "#FFFFFF"])
def test_a_colour_is_six_hexadecimal_digits(document: dict[str, Any], colour: str) -> None:
    document["frames"][0]["look"]["mat_colour"] = colour
    with pytest.raises(ProjectErrors):
        read_project(document)


def test_control_and_direction_marks_are_taken_out_of_what_a_client_reads(document: dict[str, Any]) -> None:
    set_value(document, "quote.note", "a\x00b\u202ec\u200fd")
    project = read_project(document)
    assert project.quote and project.quote.note == "abcd"
