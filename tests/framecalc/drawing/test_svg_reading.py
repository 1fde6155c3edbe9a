"""The reader that the tests of the drawings rest on finds what is planted."""

import pytest
from svg_reading import Drawn, Text, across_em, path_runs

SHEET = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30">{}</svg>'


def test_path_data_is_read_as_the_points_it_goes_through() -> None:
    assert path_runs("M1,2L3,4V5H6ZM0,0C1,1 2,2 7,8q1,1 2,3a1,1 0 1 0 4,0") == [
        [(1, 2), (3, 4), (3, 5), (6, 5), (1, 2)],
        [(0, 0), (7, 8), (9, 11), (13, 11)],
    ]


def test_a_turned_text_takes_its_room_upward() -> None:
    text = Drawn(SHEET.format('<text x="10" y="20" transform="rotate(-90 10 20)">abc</text>')).texts[0]
    assert text.bottom == pytest.approx(20)
    assert text.top == pytest.approx(20 - across_em("abc") * 3.5)
    assert text.left < 10 < text.right


def test_texts_on_each_other_are_found() -> None:
    first, second, third = Drawn(
        SHEET.format('<text x="1" y="9">one</text><text x="4" y="10">two</text><text x="1" y="20">three</text>')
    ).texts
    assert first.overlaps(second)
    assert not first.overlaps(third)


@pytest.mark.parametrize(
    ("line", "crosses"), [(((0, 5), (9, 5)), True), (((0, 0), (9, 0)), False), (((3, 0), (3, 2)), False)]
)
def test_a_line_through_a_text_is_found(line: tuple[tuple[float, float], tuple[float, float]], crosses: bool) -> None:
    assert Text("word", "", left=2, top=3, right=8, bottom=7).is_crossed_by(*line) is crosses
