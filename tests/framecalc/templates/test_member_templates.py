"""Ends, mitre faces, cradles and artwork: at the sizes and angles of the member that they are laid on."""

from math import atan2, cos, degrees, hypot, radians, tan

import pytest
from shapely import LineString, Polygon
from shapely import Point as Point2

from framecalc.errors import ImpossibleSize, OutOfRange
from framecalc.geometry.outline import Line, Point, area_mm2
from framecalc.templates.artwork import NOTE_MM, artwork_panel, hold_down_zones, narrowest_groove_mm
from framecalc.templates.members import (
    ARM_MM,
    FOOT_MM,
    PAST_MITRE_MM,
    TICK_MM,
    EndLine,
    EndMarks,
    Mouth,
    key_blank,
    member_end,
    mitre_face,
    sled_cradle,
)
from framecalc.templates.shapes import box
from framecalc.templates.template import Template

MARKS = EndMarks(lines=(EndLine(name="rabbet side", inset_mm=14),), on_mitre_mm=(10, 20), on_edge_mm=(30,))


def corners(template: Template) -> list[Point]:
    return [segment.start for segment in template.outlines[0].segments]


def end(mitre_deg: float, *, from_behind: bool = False) -> Template:
    return member_end(width_mm=20, mitre_deg=mitre_deg, marks=MARKS, from_behind=from_behind, title="", purpose="")


@pytest.mark.parametrize("mitre_deg", [22.5, 30.0, 45.0, 60.0])
def test_an_end_is_slanted_by_its_mitre_and_marked_along_it(mitre_deg: float) -> None:
    made = end(mitre_deg)
    slant = next(one for one in made.outlines[0].segments if isinstance(one, Line) and one.end == pytest.approx((0, 0)))
    assert hypot(*slant.start) == pytest.approx(20 / cos(radians(mitre_deg))), "as long as the mitre"
    assert degrees(atan2(slant.start[1], slant.start[0])) == pytest.approx(90 - mitre_deg)
    along, first, second, key = made.marks
    assert along.start == pytest.approx((14 * tan(radians(mitre_deg)), 14))
    assert [hypot(*one.start) for one in (first, second)] == pytest.approx([10, 20])
    assert key.start == (30, 0)


def test_seen_from_behind_it_is_the_same_turned_over() -> None:
    front, behind = end(45), end(45, from_behind=True)
    long_mm = front.across_mm
    turned = sorted((long_mm - x, y) for x, y in corners(front))
    assert [hypot(*one) for one in sorted(corners(behind))] == pytest.approx([hypot(*one) for one in turned])
    assert behind.marks[0].start[0] == pytest.approx(long_mm - front.marks[0].start[0])
    assert area_mm2(behind.outlines[0]) == pytest.approx(area_mm2(front.outlines[0]))


@pytest.mark.parametrize("sides", [3, 4, 6, 8])
def test_the_corner_of_a_frame_stands_in_its_cradle(sides: int) -> None:
    cradle = sled_cradle(mitre_deg=180 / sides, cradle_mm=20, title="", purpose="")
    bottom = next((x, y) for x, y in corners(cradle) if y == pytest.approx(20))
    left, right = [(x, y) for x, y in corners(cradle) if hypot(x - bottom[0], y - 20) == pytest.approx(ARM_MM)]
    opened = degrees(2 * atan2(abs(right[0] - bottom[0]), right[1] - 20))
    assert opened == pytest.approx(180 - 360 / sides)
    assert left[1] == pytest.approx(right[1])


@pytest.mark.parametrize("cradle_mm", [2, 20, 60])
def test_the_middle_of_a_cradle_is_marked_on_wood(cradle_mm: float) -> None:
    cradle = sled_cradle(mitre_deg=45, cradle_mm=cradle_mm, title="", purpose="")
    (mark,) = cradle.marks
    assert mark.start == (cradle.across_mm / 2, 0) and mark.end[0] == mark.start[0]
    assert Polygon(corners(cradle)).covers(LineString([mark.start, mark.end]))


def test_a_slot_is_a_hole_of_the_mitre_face_and_one_that_breaks_out_is_refused() -> None:
    shape = corners(
        Template(name="", title="", purpose="", side=end(45).side, step=end(45).step, outlines=(box(0, 0, 31, 20),))
    )
    slot, key = Mouth(near_mm=8, far_mm=20, low_mm=6, high_mm=10), Mouth(near_mm=0, far_mm=12, low_mm=4, high_mm=7)
    face = mitre_face(shape, mouths=[slot], keys=[key], title="", purpose="")
    assert (len(face.holes), len(face.zones)) == (1, 1)
    with pytest.raises(ImpossibleSize, match="reaches the edge"):
        mitre_face(shape, mouths=[key], keys=[], title="", purpose="")


def test_nothing_is_left_of_a_safe_zone_wider_than_what_is_seen() -> None:
    sheet, view = [(0, 0), (90, 0), (90, 60), (0, 60)], [(5, 5), (85, 5), (85, 55), (5, 55)]
    assert len(artwork_panel(sheet, in_view=view, safe_mm=3, title="", purpose="").zones) == 2 + 4
    with pytest.raises(ImpossibleSize):
        artwork_panel(sheet, in_view=view, safe_mm=26, title="", purpose="")


def test_hold_down_zones_lie_outside_what_is_seen_and_meet_no_other_line() -> None:
    sheet, view = [(0, 0), (90, 0), (90, 60), (0, 60)], [(5, 5), (87, 5), (87, 60), (5, 60)]
    panel = artwork_panel(sheet, in_view=view, safe_mm=3, title="", purpose="")
    seen, _, *holds = (Polygon(one.start for one in zone.segments) for zone in panel.zones)
    assert len(holds) == 2, "the right strip is 3 mm wide, the upper one not there"
    assert all(Polygon(sheet).contains(one) and seen.distance(one) == pytest.approx(1) for one in holds)
    assert holds[0].distance(holds[1]) > 0.5 and not panel.words
    assert [word.text for word in panel.notes] == ["safe", "hold down"]


def test_a_zone_to_hold_is_named_in_its_middle_where_its_name_fits() -> None:
    sheet, view = [(0, 0), (400, 0), (400, 300), (0, 300)], [(40, 40), (360, 40), (360, 260), (40, 260)]
    panel = artwork_panel(sheet, in_view=view, safe_mm=3, title="", purpose="")
    (word,) = [one for one in panel.notes if one.text == "hold down"]
    middle = (word.at[0] + word.across_mm / 2, word.at[1] + word.letter_mm / 2)
    holds = [Polygon(one.start for one in zone.segments) for zone in panel.zones[2:]]
    (zone,) = [one for one in holds if one.contains(Point2(middle))]
    assert zone.contains(Point2(word.at)) and middle[0] == pytest.approx(200)
    assert middle[1] == pytest.approx((zone.bounds[1] + zone.bounds[3]) / 2, abs=word.letter_mm / 4)


def test_where_nothing_is_covered_no_line_is_drawn_on_the_edge_of_the_artwork() -> None:
    sheet = [(0, 0), (90, 0), (90, 60), (0, 60)]
    (safe,) = artwork_panel(sheet, in_view=sheet, safe_mm=3, title="", purpose="").zones
    assert safe.segments[0].start == (3, 3)


@pytest.mark.parametrize(("bit_deg", "wide_mm"), [(60, 2.309401), (90, 4.0), (120, 6.928203)])
def test_a_groove_is_as_wide_as_its_bit_at_that_depth(bit_deg: float, wide_mm: float) -> None:
    assert narrowest_groove_mm(depth_mm=2, bit_deg=bit_deg) == pytest.approx(wide_mm, abs=1e-6)
    with pytest.raises(OutOfRange):
        narrowest_groove_mm(depth_mm=0, bit_deg=bit_deg)


@pytest.mark.parametrize("mitre_deg", [0.0, 22.5, 45.0])
def test_all_that_is_marked_at_an_end_lies_on_it_and_turns_over_with_it(mitre_deg: float) -> None:
    front, behind = end(mitre_deg), end(mitre_deg, from_behind=True)
    for made in (front, behind):
        wood = Polygon(corners(made)).buffer(0.001)
        assert all(wood.contains(LineString([mark.start, mark.end])) for mark in made.marks)
    long_mm = front.across_mm
    assert long_mm == pytest.approx(20 * tan(radians(mitre_deg)) + PAST_MITRE_MM)
    for one, other in zip(front.marks, behind.marks, strict=True):
        assert other.start == pytest.approx((long_mm - one.start[0], one.start[1]))
        assert other.end == pytest.approx((long_mm - one.end[0], one.end[1]))
    for here, there in zip(front.words, behind.words, strict=True):
        assert here.at[0] + there.at[0] + there.across_mm == pytest.approx(long_mm)
        assert here.at[1] == there.at[1] and here.letter_mm == there.letter_mm


def test_ticks_stand_square_to_the_mitre_and_to_the_edge() -> None:
    _, first, second, key = end(30).marks
    for tick in (first, second):
        along, into = tick.start, (tick.end[0] - tick.start[0], tick.end[1] - tick.start[1])
        assert along[0] * into[0] + along[1] * into[1] == pytest.approx(0, abs=1e-9)
        assert hypot(*into) == pytest.approx(TICK_MM)
        assert degrees(atan2(*along)) == pytest.approx(30)
    assert (key.end[0] - key.start[0], key.end[1] - key.start[1]) == (0, TICK_MM)


def test_the_name_of_a_line_stands_under_it_beside_the_short_point() -> None:
    (word,) = end(45).words
    assert 20 < word.at[0] < 30 and 14 - 2 * word.letter_mm < word.at[1] < 14 - word.letter_mm


def test_a_slot_of_the_mitre_face_has_its_own_size_and_place() -> None:
    slot, key = Mouth(near_mm=8, far_mm=20, low_mm=6, high_mm=10), Mouth(near_mm=0, far_mm=12, low_mm=4, high_mm=7)
    face = mitre_face([(0, 0), (31, 0), (31, 20), (0, 20)], mouths=[slot], keys=[key], title="", purpose="")
    around = [Polygon([one.start for one in outline.segments]).bounds for outline in (*face.holes, *face.zones)]
    assert around == [(8, 6, 20, 10), (0, 4, 12, 7)]


def test_a_cradle_has_a_foot_beside_each_arm_and_stands_level() -> None:
    cradle = sled_cradle(mitre_deg=30, cradle_mm=25, title="", purpose="")
    xs, ys = zip(*corners(cradle), strict=True)
    out_mm = ARM_MM * cos(radians(30))
    assert (min(xs), max(xs), min(ys)) == pytest.approx((0, 2 * (out_mm + FOOT_MM), 0))
    assert max(ys) == pytest.approx(25 + ARM_MM / 2)
    with pytest.raises(OutOfRange):
        sled_cradle(mitre_deg=60.5, cradle_mm=25, title="", purpose="")
    with pytest.raises(OutOfRange):
        sled_cradle(mitre_deg=0.5, cradle_mm=25, title="", purpose="")


def test_a_key_is_as_long_and_as_wide_as_it_is() -> None:
    blank = key_blank(length_mm=31, width_mm=12, title="", purpose="")
    assert (blank.across_mm, blank.up_mm) == (31, 12)


@pytest.mark.parametrize(("strip_mm", "is_held"), [(3.5, False), (4, True)])
@pytest.mark.parametrize("side", [0, 1, 2, 3])
def test_a_strip_wide_enough_is_held_on_whichever_side(side: int, strip_mm: float, is_held: bool) -> None:
    inset = [0.0, 0.0, 0.0, 0.0]
    inset[side] = strip_mm
    low, right, top, left = inset
    sheet = [(0.0, 0.0), (90.0, 0.0), (90.0, 60.0), (0.0, 60.0)]
    view = [(left, low), (90 - right, low), (90 - right, 60 - top), (left, 60 - top)]
    zones = hold_down_zones(sheet, in_view=view)
    assert len(zones) == (1 if is_held else 0)
    for zone in zones:
        around = Polygon([one.start for one in zone.segments])
        assert Polygon(sheet).difference(Polygon(view)).buffer(-0.999).contains(around.buffer(-0.01))
        assert around.area == pytest.approx((strip_mm - 2) * ((90 if side in (0, 2) else 60) - 2), rel=0.1)


def test_of_several_zones_the_lowest_is_named() -> None:
    sheet, view = [(0, 0), (400, 0), (400, 300), (0, 300)], [(0, 0), (400, 0), (360, 260), (40, 260)]
    panel = artwork_panel(sheet, in_view=view, safe_mm=3, title="", purpose="")
    names = [one for one in panel.notes if one.text == "hold down"]
    tops = [max(one.start[1] for one in zone.segments) for zone in panel.zones[2:]]
    assert len(names) == 1 and names[0].at[1] < min(tops)


def test_the_safe_zone_is_named_just_inside_its_corner() -> None:
    sheet, view = [(0, 0), (90, 0), (90, 60), (0, 60)], [(5, 9), (85, 9), (85, 55), (5, 55)]
    panel = artwork_panel(sheet, in_view=view, safe_mm=3, title="", purpose="")
    word = panel.notes[0]
    assert word.text == "safe" and word.at == (8 + NOTE_MM, 12 + NOTE_MM) and word.letter_mm == NOTE_MM
