"""The pen writes valid SVG: finite numbers, clean text, its own ids, one path for all lines of a role."""

import xml.etree.ElementTree as ET
from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st
from svg_reading import Drawn

from framecalc.drawing.pen import Pen, number, outline_path, run
from framecalc.drawing.style import LOOKS, Hatch, Role
from framecalc.geometry.outline import Arc, Line, Outline

ELEMENTS = {"svg", "title", "defs", "path", "text", "pattern", "rect", "radialGradient", "stop", "clipPath"}


def a_pen(*, inline: bool = True, title: str = "A drawing") -> Pen:
    return Pen(name="test", across_mm=40, up_mm=30, title=title, inline=inline)


@pytest.mark.parametrize("value", [nan, inf, -inf])
def test_what_is_no_number_is_refused(value: float) -> None:
    with pytest.raises(ValueError, match="cannot be drawn"):
        a_pen().line(run([(0, 0), (value, 1)]), Role.OUTLINE)


@given(st.floats(min_value=-1e6, max_value=1e6))
def test_a_coordinate_is_kept_to_half_a_thousandth_and_has_no_exponent(value: float) -> None:
    assert abs(float(number(value)) - value) <= 0.000501
    assert "e" not in number(value)
    assert number(value) != "-0"


@given(st.text(st.characters(codec=None), max_size=40))
def test_any_text_gives_valid_xml_and_no_markup(text: str) -> None:
    pen = a_pen(title=text)
    pen.text(text, (1, 1))
    root = ET.fromstring(pen.svg().encode("utf-8"))
    assert {element.tag.rpartition("}")[2] for element in root.iter()} <= ELEMENTS


@pytest.mark.parametrize("text", ["<script>alert(1)</script>", 'a & b < c > "d"', "Grüße ‘x’ “y”", "6 × 8 ½ −1"])
def test_text_comes_back_as_it_was(text: str) -> None:
    pen = a_pen()
    pen.text(text, (1, 1))
    assert [written.text for written in Drawn(pen.svg()).texts] == [text]


def test_control_characters_are_shown_as_replaced() -> None:
    pen = a_pen()
    pen.text("a\x00b\ud800c", (1, 1))
    assert Drawn(pen.svg()).texts[0].text == "a\ufffdb\ufffdc"


def test_a_drawing_in_a_page_carries_classes_and_no_size() -> None:
    pen = a_pen()
    pen.area(run([(0, 0), (1, 0), (1, 1)], closed=True), Role.WOOD)
    root = ET.fromstring(pen.svg())
    assert root.attrib["class"] == "drawing test"
    assert root.attrib["role"] == "img"
    assert "width" not in root.attrib
    assert [path.attrib["class"] for path in root.iter() if path.tag.endswith("path")] == ["wood"]


def test_a_saved_drawing_carries_its_looks_as_attributes() -> None:
    pen = a_pen(inline=False)
    pen.line(run([(0, 0), (1, 0)]), Role.HIDDEN)
    svg = pen.svg()
    root = ET.fromstring(svg)
    path = next(element for element in root.iter() if element.tag.endswith("path"))
    assert (root.attrib["width"], root.attrib["height"], root.attrib["viewBox"]) == ("40mm", "30mm", "0 0 40 30")
    assert {name: path.attrib[name] for name in LOOKS[Role.HIDDEN].attributes()} == LOOKS[Role.HIDDEN].attributes()
    assert not any(word in svg for word in ("class=", "style=", "<style", "var("))


def test_lines_of_a_role_are_one_path_and_lie_over_areas_and_under_letters() -> None:
    pen = a_pen()
    pen.text("letters", (1, 1))
    pen.line(run([(0, 0), (1, 0)]), Role.DIMENSION)
    pen.line(run([(0, 2), (1, 2)]), Role.DIMENSION)
    pen.area(run([(0, 0), (1, 0), (1, 1)], closed=True), Role.WOOD)
    drawn = Drawn(pen.svg())
    shown = [element.get("class") for element in drawn.root if element.get("class")]
    assert shown == ["wood", "dimension", "letter"]
    assert len(drawn.runs("dimension")) == 2


def test_lines_that_were_laid_are_hidden_by_what_is_drawn_later() -> None:
    pen = a_pen()
    pen.line(run([(0, 0), (1, 0)]), Role.EDGE)
    pen.lay_lines()
    pen.area(run([(0, 0), (1, 0), (1, 1)], closed=True), Role.WOOD)
    pen.line(run([(0, 2), (1, 2)]), Role.EDGE)
    drawn = Drawn(pen.svg())
    assert [element.get("class") for element in drawn.root if element.get("class")] == ["edge", "wood", "edge"]


def test_ids_begin_with_the_name_of_the_drawing_and_are_found() -> None:
    pen = a_pen()
    square = run([(0, 0), (1, 0), (1, 1)], closed=True)
    pen.area(square, Role.LAYER, fill=pen.hatch(Hatch.GLAZING), clip=pen.clip(square))
    pen.area(square, Role.LAYER, fill=pen.hatch(Hatch.GLAZING))
    pen.area(square, Role.LAYER, fill=pen.rings((0, 0)))
    svg = pen.svg()
    ids = [element.attrib["id"] for element in ET.fromstring(svg).iter() if "id" in element.attrib]
    assert sorted(ids) == ["test-clip-1", "test-glazing", "test-rings"]
    assert all(f"url(#{name})" in svg for name in ids)


def test_an_arc_stays_an_arc_and_turns_its_way_on_a_sheet_that_counts_down() -> None:
    quarter = Arc(start=(10, 0), end=(0, 10), centre=(0, 0), radius_mm=10, turns_left=True)
    outline = Outline(segments=(Line(start=(0, 0), end=(10, 0)), quarter, Line(start=(0, 10), end=(0, 0))))
    assert outline_path(outline, scale=2, left_mm=5, base_mm=30) == "M5,30L25,30A20,20 0 0 0 5,10L5,30Z"
