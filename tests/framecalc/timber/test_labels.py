"""Labels and the carpenter's triangle."""

import pytest

from framecalc.sizes.shape import RECTANGLE_SIDES
from framecalc.timber.labels import TRIANGLE, Mark, label_of
from framecalc.timber.sticks.problem import Piece, Purpose


def _laid_together(first: str, second: str) -> list[Mark]:
    """The marks of two sides laid together: top over bottom, or left beside right."""
    marks = []
    for number, side in enumerate((first, second)):
        across, up = (number, 0) if first == "left" else (0, 1 - number)
        marks += [((a + across, b + up), (c + across, d + up)) for (a, b), (c, d) in TRIANGLE[side]]
    return marks


def _slope(mark: Mark) -> float:
    (u1, v1), (u2, v2) = mark
    return (v2 - v1) / (u2 - u1)


@pytest.mark.parametrize(("first", "second"), [("top", "bottom"), ("left", "right")])
def test_two_sides_laid_together_show_a_closed_triangle_with_its_tip_up(first: str, second: str) -> None:
    marks = _laid_together(first, second)
    rising = [mark for mark in marks if _slope(mark) > 0]
    falling = [mark for mark in marks if _slope(mark) < 0]
    base = [mark for mark in marks if _slope(mark) == 0]
    assert len({round(_slope(mark), 9) for mark in rising}) == 1
    assert len({round(_slope(mark), 9) for mark in falling}) == 1
    tip = max((point for mark in rising for point in mark), key=lambda point: point[1])
    assert tip == max((point for mark in falling for point in mark), key=lambda point: point[1])
    ends = sorted(point for mark in base for point in mark)
    assert ends[0] == min(point for mark in rising for point in mark)
    assert ends[-1] == max(point for mark in falling for point in mark)


def test_no_two_sides_carry_the_same_marks() -> None:
    assert len(set(TRIANGLE.values())) == 4


def test_every_corner_is_named_by_its_two_sides_at_both_of_them() -> None:
    labels = [label_of(Piece(frame="hall", side=side, length_mm=400)) for side in RECTANGLE_SIDES]
    for label, following in zip(labels, labels[1:] + labels[:1], strict=True):
        assert label.ends[1] == following.ends[0]


def test_mates_are_opposite() -> None:
    mates = {side: label_of(Piece(frame="hall", side=side, length_mm=400)).mate for side in RECTANGLE_SIDES}
    assert mates == {"top": "bottom", "right": "left", "bottom": "top", "left": "right"}
    assert label_of(Piece(frame="tondo", side="7", length_mm=165), sides=8).mate == "3"
    assert label_of(Piece(frame="tondo", side="2", length_mm=165), sides=5).mate == ""


def test_spares_carry_their_name_only() -> None:
    label = label_of(Piece(frame="hall", side="top", length_mm=400, purpose=Purpose.SPARE))
    assert (label.text, label.marks, label.mate) == ("hall/1 top (spare)", (), "")
