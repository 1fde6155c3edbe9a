"""The hanging strip and the kerf strip: places by hand, parts that lie clear of each other, holes that tell a kerf."""

from itertools import combinations, pairwise

import pytest
from shapely import Polygon
from shapely import box as rectangle

from framecalc.errors import FrameCalcError, ImpossibleSize
from framecalc.geometry.outline import Outline
from framecalc.templates.hanging_strip import CROSS_MM, FOOT_MM, StripPiece, hanging_strip
from framecalc.templates.kerf_strip import KERFS_MM, PLATE_LETTER_MM, PLATE_STEP_MM, kerf_of_strip, kerf_strip
from framecalc.templates.template import LETTER_MM, Template, Word

LOW = StripPiece(name="low", left_mm=0, top_mm=40, across_mm=300, hooks_mm=((150, 100),))
HIGH = StripPiece(name="high", left_mm=375, top_mm=0, across_mm=500, hooks_mm=((500, 80), (750, 90)))


def strip(*pieces: StripPiece) -> Template:
    return hanging_strip(pieces, name="hanging-strip", title="", purpose="")


def shape(outline: Outline) -> Polygon:
    return Polygon([segment.start for segment in outline.segments])


def letters(word: Word) -> Polygon:
    return rectangle(word.at[0], word.at[1], word.at[0] + word.across_mm, word.at[1] + word.letter_mm)


def test_a_strip_ends_with_its_last_frame_and_below_its_lowest_hook() -> None:
    made = strip(LOW, HIGH)
    assert (made.across_mm, made.up_mm) == (875, 100 + FOOT_MM)
    assert strip(HIGH, LOW).across_mm == 875, "whichever is named last"
    lower = StripPiece(name="low", left_mm=0, top_mm=90, across_mm=300, hooks_mm=())
    assert strip(lower).up_mm == 90 + FOOT_MM, "an edge counts as a hook does"


def test_each_frame_has_its_ends_its_middle_its_edge_and_a_cross_at_each_hook() -> None:
    up_mm = 100 + FOOT_MM
    marks = [(mark.start, mark.end) for mark in strip(LOW, HIGH).marks]
    low = up_mm - 40
    assert marks[:4] == [((x, low), (x, low - CROSS_MM)) for x in (0, 150, 300)] + [((0, low), (300, low))]
    crosses = [(150, up_mm - 100), (500, up_mm - 80), (750, up_mm - 90)]
    for x, y in crosses:
        assert ((x - CROSS_MM, y), (x + CROSS_MM, y)) in marks and ((x, y - CROSS_MM), (x, y + CROSS_MM)) in marks
    for x in (375, 625, 875):
        assert ((x, up_mm), (x, up_mm - CROSS_MM)) in marks
    assert ((375, up_mm), (875, up_mm)) in marks and len(marks) == 2 * 4 + 3 * 2


def test_a_name_stands_under_its_edge_just_beside_its_middle() -> None:
    for word, piece in zip(strip(LOW, HIGH).words, (LOW, HIGH), strict=True):
        top_mm, middle_mm = 100 + FOOT_MM - piece.top_mm, piece.left_mm + piece.across_mm / 2
        assert word.text == f"{piece.name}: top edge, middle"
        assert 0 < word.at[0] - middle_mm < LETTER_MM and 0 < top_mm - (word.at[1] + LETTER_MM) < LETTER_MM


@pytest.mark.parametrize(
    "piece",
    [
        StripPiece(name="x", left_mm=-1, top_mm=0, across_mm=300, hooks_mm=()),
        StripPiece(name="x", left_mm=0, top_mm=-1, across_mm=300, hooks_mm=()),
        StripPiece(name="x", left_mm=0, top_mm=0, across_mm=0, hooks_mm=()),
    ],
)
def test_what_hangs_nowhere_is_refused(piece: StripPiece) -> None:
    with pytest.raises(FrameCalcError):
        strip(piece)
    with pytest.raises(ImpossibleSize, match="no frame"):
        strip()


@pytest.mark.parametrize("kerf_mm", KERFS_MM)
def test_a_piece_is_snug_in_the_hole_of_the_kerf_that_it_was_cut_with(kerf_mm: float) -> None:
    """A cut takes half a kerf on either side of its line: a piece loses one in each direction, a hole gains one."""
    made = kerf_strip()
    piece, hole = shape(made.outlines[1]).bounds, shape(made.holes[KERFS_MM.index(kerf_mm)]).bounds
    for low, high in ((0, 2), (1, 3)):
        assert piece[high] - piece[low] - kerf_mm == pytest.approx(hole[high] - hole[low] + kerf_mm)
    assert kerf_of_strip(measured_mm=10 * (piece[2] - piece[0] - kerf_mm)) == pytest.approx(kerf_mm)


def test_parts_and_holes_of_the_kerf_strip_lie_clear_of_each_other() -> None:
    made = kerf_strip()
    plate, *pieces = map(shape, made.outlines)
    holes, names = list(map(shape, made.holes)), list(map(letters, made.words))
    assert len(pieces) == 10 and all(piece.bounds[2] - piece.bounds[0] == 10 for piece in pieces)
    assert all(one.distance(other) >= 8 - 1e-9 for one, other in combinations([plate, *pieces], 2))
    assert all(plate.contains(one) for one in holes + names)
    assert all(one.distance(other) > 1 for one, other in combinations(holes + names, 2))
    assert [word.text for word in made.words] == [f"{kerf:g} mm" for kerf in KERFS_MM]
    assert {word.letter_mm for word in made.words} == {PLATE_LETTER_MM}


def test_the_holes_stand_in_the_middle_of_the_plate_at_equal_steps_on_one_line() -> None:
    made = kerf_strip()
    holes = [shape(hole).bounds for hole in made.holes]
    assert [after[0] - before[0] for before, after in pairwise(holes)] == pytest.approx([PLATE_STEP_MM] * 7)
    plate = shape(made.outlines[0]).bounds
    assert holes[0][0] == pytest.approx(plate[2] - holes[-1][2] - 2 * KERFS_MM[-1])
    assert [(one[1] + one[3]) / 2 for one in holes] == pytest.approx([(holes[0][1] + holes[0][3]) / 2] * 8)
    assert plate[3] - holes[0][3] == pytest.approx(made.words[0].at[1] + KERFS_MM[0]), (
        "as much above as under the names"
    )
    for hole, word in zip(holes, made.words, strict=True):
        assert abs((hole[0] + hole[2]) / 2 - (word.at[0] + word.across_mm / 2)) < 4 and word.at[1] < hole[1]


@pytest.mark.parametrize("measured_mm", [89.9, 100.1])
def test_a_kerf_of_more_than_a_millimetre_or_less_than_nothing_was_measured_wrong(measured_mm: float) -> None:
    assert (kerf_of_strip(measured_mm=90), kerf_of_strip(measured_mm=100)) == (1, 0)
    with pytest.raises(FrameCalcError, match="90 to 100"):
        kerf_of_strip(measured_mm=measured_mm)
