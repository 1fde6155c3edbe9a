"""Between a form and a document: what is a change, what is kept as it is, what is refused."""

import json
from pathlib import Path
from typing import Any

import pytest

import framecalc
from framecalc.errors import FrameCalcError
from framecalc.project import read_project
from framecalc.project.form import fields_under
from framecalc.units import Comma, Unit, parse_length
from webapp.live.typed.field import fields_in
from webapp.live.typed.forms import Draft, work_in
from webapp.live.typed.texts import LONGEST_LENGTH_TEXT, Reading, shown, value_of, without_unit
from webapp.pages.package.fields import package_fields_in

SET_OUT = ("start", "artwork", "package", "section", "known")
"""What the setting-out page fills in of a frame; the rest has pages of its own."""

DEMOS = sorted(Path(framecalc.__file__).parent.rglob("*demo*.json"))


def document_of(path: Path) -> dict[str, Any]:
    document: dict[str, Any] = json.loads(path.read_text("utf-8"))
    return document


def drafted(document: dict[str, Any], typed: dict[str, str], comma: Comma = Comma.ASK) -> Draft:
    reading = Reading(unit=Unit(document["unit"]), comma=comma)
    fields = fields_in(document, document["frames"][0]["id"])
    return work_in(document, typed, fields, reading=reading, check=read_project)


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_a_form_sent_back_as_it_was_shown_changes_nothing(path: Path) -> None:
    document = document_of(path)
    fields, unit = fields_in(document, document["frames"][0]["id"]), Unit(document["unit"])
    typed = {name: shown(document, name, one, unit=unit) for name, one in fields.items()}
    draft = drafted(document, typed)
    assert draft.messages == {}
    assert draft.document == document


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_the_document_given_is_never_changed(path: Path) -> None:
    document = document_of(path)
    before = json.dumps(document)
    frame = document["frames"][0]["id"]
    drafted(document, {f"frames.{frame}.section.face_width": "33", f"frames.{frame}.count": "7"})
    assert json.dumps(document) == before


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_every_length_that_sets_a_frame_out_has_its_field(path: Path) -> None:
    document = document_of(path)
    frame = document["frames"][0]
    texts = {text for part in SET_OUT for _, text in lengths_in(frame.get(part, {}))}
    fields = fields_in(document, frame["id"]).fields | package_fields_in(document, frame["id"]).fields
    in_form = {shown(document, name, one, unit=Unit(document["unit"])) for name, one in fields.items() if one.is_length}
    assert {without_unit(text, Unit(document["unit"])) for text in texts} <= in_form


def lengths_in(value: Any, path: str = "") -> list[tuple[str, str]]:
    if isinstance(value, dict):
        return [found for name, item in value.items() for found in lengths_in(item, f"{path}.{name}")]
    if isinstance(value, list):
        return [found for item in value for found in lengths_in(item, path)]
    if isinstance(value, str) and value.endswith((" mm", " in")) and value[0].isdigit():
        return [(path, value)]
    return []


DOCUMENT = document_of(DEMOS[0])
FRAME = DOCUMENT["frames"][0]["id"]
WIDTH = f"frames.{FRAME}.section.face_width"


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("22", "22 mm"),
        (" 22 ", "22 mm"),
        ("7/8 in", "7/8 in"),
        ("22,5", "22,5 mm"),
        ("22mm", "22mm"),
        ("2.2 cm", "2.2 cm"),
    ],
)
def test_a_length_is_kept_as_it_was_typed(typed: str, kept: str) -> None:
    assert drafted(DOCUMENT, {WIDTH: typed}).document["frames"][0]["section"]["face_width"] == kept


def test_a_comma_that_groups_thousands_is_kept_so_that_the_file_reads_the_same() -> None:
    across = f"frames.{FRAME}.artwork.across"
    draft = drafted(DOCUMENT, {across: "1,250"}, comma=Comma.THOUSANDS)
    kept = draft.document["frames"][0]["artwork"]["across"]
    assert parse_length(kept, comma=Comma.DECIMAL).mm == 1250


def test_a_field_that_was_not_sent_stays_as_it_is() -> None:
    assert drafted(DOCUMENT, {}).document == DOCUMENT


def test_a_text_longer_than_a_length_is_not_read_at_all() -> None:
    draft = drafted(DOCUMENT, {WIDTH: "9" * (LONGEST_LENGTH_TEXT + 1)})
    assert "Enter a length, such as 13 1/8 in or 333.4 mm" in draft.messages[WIDTH]


@pytest.mark.parametrize("count", ["0", "1000", "-1", "1.5", "one", "", "٣", "1e2", "9" * 5000])
def test_a_count_that_is_none_is_refused(count: str) -> None:
    path = f"frames.{FRAME}.count"
    draft = drafted(DOCUMENT, {path: count})
    assert "Enter " in draft.messages[path]
    assert draft.document == DOCUMENT


def test_good_fields_are_taken_beside_bad_ones() -> None:
    thickness = f"frames.{FRAME}.section.thickness"
    draft = drafted(DOCUMENT, {WIDTH: "wide", thickness: "999", f"frames.{FRAME}.count": "4"})
    assert set(draft.messages) == {WIDTH, thickness}
    assert draft.document["frames"][0]["count"] == 4
    assert draft.checked.frames[0].count == 4


def test_a_changed_value_is_no_longer_assumed() -> None:
    document = DOCUMENT | {"assumed": [WIDTH, "shop.kerf"]}
    assert drafted(document, {WIDTH: "23"}).document["assumed"] == ["shop.kerf"]
    assert drafted(document, {WIDTH: "wide"}).document["assumed"] == [WIDTH, "shop.kerf"]


def test_every_temperature_may_be_typed_in_fahrenheit() -> None:
    document = document_of(DEMOS[0])
    frame = document["frames"][0]["id"]
    paths = [f"frames.{frame}.fitting.room.fitted_temperature", f"frames.{frame}.corner.seasons.winter_temperature"]
    fields = fields_under(document, f"frames.{frame}.fitting.room", f"frames.{frame}.corner.seasons")
    reading = Reading(unit=Unit.MM, comma=Comma.ASK)
    assert [value_of("68 F", fields[path], reading) for path in paths] == ["68 °F", "68 °F"]
    with pytest.raises(FrameCalcError):
        value_of("68 F", fields[f"frames.{frame}.fitting.room.fitted_humidity"], reading)
