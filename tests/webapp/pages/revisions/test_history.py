"""What a revision changed, in the words of the pages."""

import re
from collections.abc import Iterator
from copy import deepcopy
from typing import Any

import pytest

from framecalc.project import project_document, read_project, set_value, value_at
from framecalc.project.form import field_at
from framecalc.words import Words, localise
from webapp.data.revisions import Document
from webapp.pages.projects.demos import demo
from webapp.pages.revisions.shown import changes_between

FILE_KEY = re.compile(r"[a-z]_[a-z]")


@pytest.fixture
def before() -> Document:
    return whole("cafe-prints.demo")


def whole(name: str) -> Document:
    """A demo with every kind of item in it that a page can add."""
    document = project_document(read_project(demo(name)))
    mark = {"across": 1, "down": 2}
    corners = dict.fromkeys(("upper_left", "upper_right", "lower_right", "lower_left"), mark)
    document["frames"][0]["look"]["photo"] = {"id": "0" * 32, "across": 9, "up": 9, **corners}
    document["quote"] = {"items": [{"id": "it1", "name": "Oak"}], "terms": {}}
    document["timber"]["stock"] = [{"id": "st1", "name": "A board", "length": "2000 mm", "width": "150 mm"}]
    document["timber"]["stock"][0]["defects"] = [{"id": "de1", "start": "1 mm", "end": "2 mm"}]
    return project_document(read_project(document))


def changed(before: Document, path: str, value: Any, words: Words = Words.US) -> tuple[str, ...]:
    after = deepcopy(before)
    set_value(after, path, value)
    return changes_between(before, after, words=words)


def leaves(value: Any, path: str = "") -> Iterator[str]:
    """The paths of all values in a document; lists of plain texts are one value."""
    for name, inside in value.items():
        here = f"{path}.{name}" if path else name
        if isinstance(inside, dict):
            yield from leaves(inside, here)
        elif isinstance(inside, list) and any(isinstance(item, dict) for item in inside):
            for item in inside:
                yield from leaves(item, f"{here}.{item['id']}")
        else:
            yield here


@pytest.mark.parametrize(
    ("path", "value", "said"),
    [
        ("frames.oak5.section.face_width", "30 mm", "Face width: 22 mm → 30 mm"),
        ("frames.oak5.corner.gap", "0.3 mm", "Largest gap allowed: 0.2 mm → 0.3 mm"),
        ("frames.oak5.corner.seasons.winter_humidity", "25", "Driest month, % humidity: 35 → 25"),
        ("timber.spares", 5, "Spare sides of each length: "),
        ("timber.milled", True, "The sticks have their rabbet or profile already: No → Yes"),
        ("timber.stock.st1.in_hand", True, "A board: Where it is: For sale → At hand"),
        ("timber.stock.st1.thickness", "26 mm", "A board: Rough thickness: blank → 26 mm"),
        ("timber.stock.st1.defects", [], "A board: one of the stretches to avoid removed"),
        ("reach.frame", "oak5", "Members of: blank → "),
        ("frames.oak5.corner.tests", [], " test cuts removed"),
        ("frames.oak5.package.mat", None, "Mat removed"),
        ("frames.oak5.look.photo", None, "Photo removed"),
        ("frames.oak5.artwork.kind", "canvas", "Kind: Paper → Canvas"),
        ("frames.oak5.fitting.held.by", "offset clips", "Held by: Choose by depth → Offset clips"),
        ("quote", None, "Costs removed"),
        ("timber.done", ["a", "b"], "Ticked off: 0 → 2"),
    ],
)
def test_a_change_is_called_what_its_page_calls_it(before: Document, path: str, value: Any, said: str) -> None:
    assert [one for one in changed(before, path, value) if said in one]


def test_what_comes_alike_is_said_once_with_its_count(before: Document) -> None:
    sides = [{"id": f"sd{number}", "number": number} for number in range(1, 5)]
    assert changed(before, "frames.oak5.corner.numbered", sides) == ("4 sides of a polygon in hand added",)
    stock = [*before["timber"]["stock"], *(one | {"id": f"x{one['id']}"} for one in before["timber"]["stock"])]
    name = before["timber"]["stock"][0]["name"]
    assert f"{name} added" in changed(before, "timber.stock", stock)
    twice = [*stock, stock[0] | {"id": "yy1"}]
    assert f"{name}: 2 sticks and boards added" in changed(before, "timber.stock", twice)


@pytest.mark.parametrize("name", ["ash-relief.demo", "cafe-prints.demo", "maple-canvas.demo"])
def test_no_revision_speaks_the_keys_of_the_file(name: str) -> None:
    before = whole(name)
    paths = [path for path in leaves(before) if not path.endswith(".id") and path != "assumed"]
    assert len(paths) > 190
    for path in paths:
        (said,) = changed(before, path, ["x"] * 9 if isinstance(value_at(before, path), list) else "another")
        field = field_at(before, path)
        assert field is not None
        assert f"{localise(field.label, Words.US).lower()}: " in said.lower()
        assert not FILE_KEY.search(said)


def test_words_are_those_of_the_shop_and_names_are_left_alone(before: Document) -> None:
    before["frames"][0]["name"], path = "Grey mat, Art Centre stock", "frames.oak5.section.rabbet_width"
    before["frames"].append(deepcopy(before["frames"][0]) | {"id": "oak6"})
    for words, label in ((Words.US, "Rabbet width"), (Words.UK, "Rebate width")):
        (said,) = changed(before, path, "9 mm", words)
        assert said == f"Grey mat, Art Centre stock: {label}: {value_at(before, path)} → 9 mm"
        (said,) = changed(before, "reach.frame", "oak5", words)
        assert said.endswith("→ Grey mat, Art Centre stock")


def test_what_is_not_known_here_is_no_reason_to_fail(before: Document) -> None:
    assert changed(before, "from_a_later_version", 1) == ("Something that this version does not know: blank → 1",)


def test_nothing_changed_says_nothing(before: Document) -> None:
    assert changes_between(before, deepcopy(before), words=Words.US) == ()
