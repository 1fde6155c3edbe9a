"""The shapes of templates: their measures stand where they are said to be, and what cannot be made is refused."""

from math import atan2, degrees, pi, radians, tan

import pytest
from shapely import Polygon

from framecalc.errors import ImpossibleSize, OutOfRange
from framecalc.geometry.outline import Outline, area_mm2, bounds, flatten, height_at
from framecalc.templates.shapes import (
    BRIDGE_MM,
    FOOT_MM,
    LEAST_ROWS,
    LEG_MM,
    MARK_MM,
    OVER_MM,
    ROW_MM,
    NamedLength,
    box,
    disc,
    plate,
    polygon,
    reference_block,
    set_up_blocks,
    story_stick,
)
from framecalc.templates.template import Side, Template, TemplateStep, Word, at_origin

LABELS = ("rabbet width 6 mm", "rabbet depth 12 mm", "lip 5 mm", "land 20 mm")
MEASURES = [
    NamedLength(label=label, length_mm=length) for label, length in zip(LABELS, (6.0, 12.0, 5.0, 20.0), strict=True)
]


def blocks(measures: list[NamedLength]) -> Template:
    return set_up_blocks(measures, name="set-up-blocks", title="Set-up blocks", purpose="")


def test_the_arch_of_a_block_is_as_high_as_its_measure() -> None:
    for measure, outline in zip(MEASURES, blocks(MEASURES).outlines, strict=True):
        left_mm = bounds(outline.segments).left_mm
        assert height_at(outline, left_mm + FOOT_MM + BRIDGE_MM / 2) == pytest.approx(OVER_MM)
        assert height_at(outline, left_mm + FOOT_MM / 2) == pytest.approx(OVER_MM + measure.length_mm)


def test_blocks_lie_apart_and_bear_their_names() -> None:
    made = blocks(MEASURES)
    solids = [Polygon(flatten(one, tolerance_mm=0.01)) for one in made.outlines]
    assert all(a.distance(b) >= 7.9 for n, a in enumerate(solids) for b in solids[n + 1 :])
    assert [word.text for word in made.words] == list(LABELS)
    for word, solid in zip(made.words, solids, strict=True):
        assert solid.bounds[0] < word.at[0] < solid.bounds[2] and word.at[1] < solid.bounds[3]


@pytest.mark.parametrize("mitre_deg", [7.5, 22.5, 30.0, 45.0, 60.0])
def test_the_sharp_corner_of_a_reference_block_is_the_mitre(mitre_deg: float) -> None:
    block = reference_block(mitre_deg, title="Block", purpose="", says="")
    (outline,), (hole,) = block.outlines, block.holes
    xs, ys = zip(*flatten(outline, tolerance_mm=0.01), strict=True)
    assert degrees(atan2(max(ys), max(xs))) == pytest.approx(mitre_deg)
    assert Polygon(flatten(outline, tolerance_mm=0.01)).buffer(-1).contains(Polygon(flatten(hole, tolerance_mm=0.01)))
    assert area_mm2(outline) == pytest.approx(LEG_MM**2 * tan(radians(mitre_deg)) / 2)


def test_a_block_of_no_angle_is_refused() -> None:
    with pytest.raises(OutOfRange):
        reference_block(0, title="Block", purpose="", says="")


def test_a_story_stick_has_a_mark_at_every_length_from_its_left_end() -> None:
    measures = [NamedLength(label="outside", length_mm=412.5), *MEASURES, NamedLength(label="sight", length_mm=412.5)]
    stick = story_stick(measures, title="Story stick", purpose="")
    assert [mark.start[0] for mark in stick.marks] == [5, 6, 12, 20, 412.5]
    assert all(mark.start[0] == mark.end[0] for mark in stick.marks)
    assert stick.words[-1].text == "outside, sight"
    for word in stick.words:
        inside = (word.at[0], word.at[0] + word.across_mm)
        assert all(mark.end[1] > word.at[1] for mark in stick.marks if inside[0] < mark.start[0] < inside[1])
    assert stick.across_mm > 412.5


def test_nothing_to_mark_or_to_set_up_is_refused() -> None:
    for make in (lambda: story_stick([], title="", purpose=""), lambda: blocks([])):
        with pytest.raises(ImpossibleSize):
            make()
    with pytest.raises(OutOfRange):
        blocks([NamedLength(label="lip", length_mm=0.0)])


@pytest.mark.parametrize("corners", [[(0, 0), (4, 0), (4, 3)], [(4, 3), (4, 0), (0, 0)]])
def test_a_polygon_runs_counter_clockwise_however_it_is_given(corners: list[tuple[float, float]]) -> None:
    assert area_mm2(polygon(corners)) == 6


def test_a_plate_starts_at_its_lower_left_corner_with_all_that_is_on_it() -> None:
    window = [(-20, -30), (20, -30), (20, 30), (-20, 30)]
    made = plate(
        [(-50, -60), (-50, 60), (50, 60), (50, -60)],
        windows=[window],
        name="mat",
        title="Mat",
        purpose="",
        side=Side.BACK,
        step=TemplateStep.MAT,
    )
    assert (made.extent.left_mm, made.extent.bottom_mm, made.across_mm, made.up_mm) == (0, 0, 100, 120)
    hole = bounds(made.holes[0].segments)
    assert (hole.left_mm, hole.bottom_mm, hole.right_mm, hole.top_mm) == (30, 30, 70, 90)


def made_of(outlines: tuple[Outline, ...], holes: tuple[Outline, ...] = ()) -> Template:
    return Template(
        name="x", title="Mat", purpose="", side=Side.FACE, step=TemplateStep.MAT, outlines=outlines, holes=holes
    )


def test_a_hole_that_reaches_the_edge_is_refused() -> None:
    with pytest.raises(ImpossibleSize, match="reaches the edge"):
        made_of((box(0, 0, 100, 100),), (box(50, 10, 50, 20),))


def test_a_part_that_is_turned_inside_out_is_refused() -> None:
    inside_out = Outline(
        segments=tuple(type(one)(start=one.end, end=one.start) for one in reversed(box(0, 0, 2, 2).segments))
    )
    with pytest.raises(ImpossibleSize, match="no size"):
        made_of((inside_out,))


def test_moving_a_template_moves_marks_and_words_with_it() -> None:
    stick = story_stick(MEASURES, title="", purpose="")
    before = Template(
        name="x",
        title="",
        purpose="",
        side=Side.FACE,
        step=TemplateStep.MAT,
        outlines=(box(10, 20, 5, 7),),
        marks=stick.marks,
        words=(Word(text="a", at=(12.0, 22.0)),),
    )
    moved = at_origin(before)
    assert (before.across_mm, before.up_mm) == (moved.across_mm, moved.up_mm) == (5, 7)
    assert moved.words[0].at == (2, 2)
    assert moved.marks[0].start == (stick.marks[0].start[0] - 10, stick.marks[0].start[1] - 20)


@pytest.mark.parametrize("apart_mm", [0.5, 3.0, 40.0])
def test_names_on_a_story_stick_run_into_no_other_and_not_off_its_end(apart_mm: float) -> None:
    measures = [NamedLength(label=f"a length of some name {n}", length_mm=30 + n * apart_mm) for n in range(9)]
    stick = story_stick(measures, title="", purpose="")
    boxes = [(word.at[0], word.at[0] + word.across_mm, word.at[1]) for word in stick.words]
    for number, (left, _, row) in enumerate(boxes):
        assert all(end < left for _, end, other in boxes[:number] if other == row)
    assert max(end for _, end, _ in boxes) <= stick.across_mm
    assert min(row for _, _, row in boxes) >= 0


def test_a_long_name_is_written_smaller_to_stay_on_its_block() -> None:
    (word,) = blocks([NamedLength(label="rabbet depth, 12 11/16 in −0.3 mm, of the outer member", length_mm=9)]).words
    assert word.at[0] + word.across_mm <= 2 * FOOT_MM + BRIDGE_MM - 3.9


def test_words_stand_in_the_middle_of_their_window() -> None:
    window = [(30.0, 20.0), (90.0, 20.0), (90.0, 50.0), (30.0, 50.0)]
    corners = [(0.0, 0.0), (200.0, 0.0), (200.0, 80.0), (0.0, 80.0)]
    made = plate(
        corners,
        windows=[window],
        says=["keep"],
        name="x",
        title="X",
        purpose="",
        side=Side.EITHER,
        step=TemplateStep.SHEET,
    )
    (word,) = made.words
    assert (word.at[0] + word.across_mm / 2, word.at[1]) == pytest.approx((60, 35))
    assert word.across_mm < 60


@pytest.mark.parametrize("mitre_deg", [7.5, 22.5, 30.0, 45.0, 60.0])
def test_the_words_of_a_reference_block_stand_on_it_clear_of_its_hole(mitre_deg: float) -> None:
    block = reference_block(mitre_deg, title="Block", purpose="", says=f"{mitre_deg:g}°")
    (outline,), (hole,), (word,) = block.outlines, block.holes, block.words
    wood, letters = Polygon(flatten(outline, tolerance_mm=0.01)), letters_of(word)
    assert wood.contains(letters) and letters.distance(Polygon(flatten(hole, tolerance_mm=0.01))) > 0.5
    around = bounds(hole.segments)
    assert around.right_mm - around.left_mm == pytest.approx(around.top_mm - around.bottom_mm)
    assert LEG_MM - (around.left_mm + around.right_mm) / 2 == pytest.approx((around.bottom_mm + around.top_mm) / 2)
    assert around.right_mm - around.left_mm <= 8


def letters_of(word: Word) -> Polygon:
    x, y = word.at
    return Polygon([(x, y), (x + word.across_mm, y), (x + word.across_mm, y + word.letter_mm), (x, y + word.letter_mm)])


def test_the_name_of_a_block_stands_on_it_over_its_arch() -> None:
    made = blocks(
        [NamedLength(label="lip", length_mm=5), NamedLength(label="a very long name of a measure", length_mm=30)]
    )
    for word, outline in zip(made.words, made.outlines, strict=True):
        assert Polygon(flatten(outline, tolerance_mm=0.01)).buffer(-1).contains(letters_of(word))


def test_blocks_stand_two_in_a_row_and_no_row_in_the_next() -> None:
    """Feet of 22, an arch of 18, 8 apart: the second stands 70 to the right, the next row over the higher of two."""
    corners = [bounds(one.segments) for one in blocks(MEASURES).outlines]
    assert [(one.left_mm, one.bottom_mm) for one in corners] == [(0, 0), (70, 0), (0, 42), (70, 42)]
    assert [one.top_mm - one.bottom_mm for one in corners] == [28, 34, 27, 42]


def test_marks_that_are_the_same_length_are_one_and_half_a_millimetre_apart_are_two() -> None:
    one, other = NamedLength(label="a", length_mm=100), NamedLength(label="b", length_mm=100.5)
    assert [word.text for word in story_stick([one, other], title="", purpose="").words] == ["a", "b"]
    assert [word.text for word in story_stick([one, one, other], title="", purpose="").words] == ["a", "b"]


def test_a_story_stick_is_higher_for_more_rows_and_runs_on_after_its_last_mark() -> None:
    few = story_stick([NamedLength(label="a", length_mm=300)], title="", purpose="")
    many = story_stick(
        [NamedLength(label="some name", length_mm=300 + number) for number in range(9)], title="", purpose=""
    )
    assert (few.across_mm, few.up_mm) == (320, MARK_MM + LEAST_ROWS * ROW_MM)
    assert many.up_mm == MARK_MM + 9 * ROW_MM
    for stick in (few, many):
        assert all(
            mark.start[1] == stick.up_mm and mark.end[1] == word.at[1]
            for mark, word in zip(stick.marks, stick.words, strict=True)
        )
        assert all(0 < word.at[0] - mark.start[0] <= 1 for mark, word in zip(stick.marks, stick.words, strict=True))
        assert all(word.at[1] >= 0 and word.at[1] + word.letter_mm + MARK_MM <= stick.up_mm for word in stick.words)


def test_a_disc_is_round_and_of_its_width() -> None:
    segments = disc((3, 4), across_mm=10).segments
    assert area_mm2(disc((3, 4), across_mm=10)) == pytest.approx(pi * 25)
    around = bounds(segments)
    assert (around.left_mm, around.bottom_mm, around.right_mm, around.top_mm) == pytest.approx((-2, -1, 8, 9))


def test_words_that_no_window_is_wide_enough_for_are_written_smaller_in_its_middle() -> None:
    window = [(30.0, 20.0), (40.0, 20.0), (40.0, 50.0), (30.0, 50.0)]
    (word,) = plate(
        [(0.0, 0.0), (200.0, 0.0), (200.0, 80.0), (0.0, 80.0)],
        windows=[window],
        says=["a long sentence"],
        name="x",
        title="X",
        purpose="",
        side=Side.EITHER,
        step=TemplateStep.SHEET,
    ).words
    assert word.across_mm == pytest.approx(8) and word.at == pytest.approx((31, 35))


@pytest.mark.parametrize("side", ["left", "right", "bottom", "top"])
@pytest.mark.parametrize(("room_mm", "is_made"), [(0.5, True), (0, False), (-0.5, False)])
def test_a_hole_keeps_off_each_edge_of_its_part(side: str, room_mm: float, is_made: bool) -> None:
    at = {"left": (room_mm, 50), "right": (90 - room_mm, 50), "bottom": (50, room_mm), "top": (50, 90 - room_mm)}[side]
    if is_made:
        assert made_of((box(0, 0, 100, 100),), (box(*at, 10, 10),)).holes
    else:
        with pytest.raises(ImpossibleSize, match="reaches the edge"):
            made_of((box(0, 0, 100, 100),), (box(*at, 10, 10),))


def test_a_name_too_long_for_its_block_fills_it_but_for_what_stays_beside() -> None:
    (word,) = blocks([NamedLength(label="a very long name of a measure", length_mm=9)]).words
    assert word.across_mm == pytest.approx(2 * FOOT_MM + BRIDGE_MM - 8) and word.at[0] == 4
