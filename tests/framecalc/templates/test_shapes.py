"""The shapes of templates: their measures stand where they are said to be, and what cannot be made is refused."""

from math import atan2, degrees, radians, tan

import pytest
from shapely import Polygon

from framecalc.errors import ImpossibleSize, OutOfRange
from framecalc.geometry.outline import Outline, area_mm2, bounds, flatten, height_at
from framecalc.templates.shapes import (
    BRIDGE_MM,
    FOOT_MM,
    LEG_MM,
    OVER_MM,
    NamedLength,
    box,
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
