"""Ways of cutting a rabbet: the section after every cut, compared with polygons of a library."""

from itertools import pairwise
from math import hypot, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point as Place
from shapely import Polygon, box

from framecalc.bench.rabbet_ways import RabbetWay, Tools, rabbet_cuts, round_corner
from framecalc.bench.sections import Blank, milled_top, plain_top, polygon_mm2, rabbeted
from framecalc.errors import OutOfRange
from framecalc.section.profile import Edge, EdgeShape, FaceShape
from framecalc.section.rabbeted import Section, milled_section

TOOLS = Tools(kerf_mm=3.2, deepest_pass_mm=4, step_mm=0.5)
CUT = (RabbetWay.ROUTER_TABLE, RabbetWay.TABLE_SAW, RabbetWay.BEARING)
SQUARE = Edge(shape=EdgeShape.SQUARE, size_mm=1)


@st.composite
def blanks(draw: st.DrawFn) -> Blank:
    width_mm = draw(st.floats(min_value=15, max_value=90))
    thickness_mm = draw(st.floats(min_value=10, max_value=60))
    return Blank(
        width_mm=width_mm,
        rabbet_width_mm=draw(st.floats(min_value=3, max_value=width_mm - 8)),
        rabbet_depth_mm=draw(st.floats(min_value=3, max_value=thickness_mm - 3)),
        top=plain_top(width_mm=width_mm, thickness_mm=thickness_mm),
    )


def rounded() -> Section:
    return milled_section(
        face_width_mm=40,
        thickness_mm=22,
        rabbet_width_mm=7,
        rabbet_depth_mm=12,
        sight_edge=Edge(shape=EdgeShape.ROUND, size_mm=4),
        back_edge=Edge(shape=EdgeShape.COVE, size_mm=5),
        face=FaceShape.TOWARD,
        face_drop_mm=2,
    )


@pytest.mark.parametrize("way", CUT)
@given(blank=blanks())
def test_every_cut_takes_wood_and_the_last_leaves_the_rabbet(way: RabbetWay, blank: Blank) -> None:
    cuts = rabbet_cuts(way, blank, TOOLS)
    for cut in cuts:
        before, after = Polygon(cut.before), Polygon(cut.after)
        assert after.is_valid and before.buffer(1e-9).covers(after)
        assert after.area < before.area
        assert polygon_mm2(cut.after) == pytest.approx(after.area)
    whole = box(0, 0, blank.width_mm, blank.thickness_mm)
    rabbet = box(blank.land_mm, 0, blank.width_mm, blank.rabbet_depth_mm)
    assert Polygon(cuts[-1].after).symmetric_difference(whole - rabbet).area == pytest.approx(0, abs=1e-6)
    assert all(one.after == other.before for one, other in pairwise(cuts))


@given(blank=blanks())
def test_each_saw_cut_takes_what_the_blade_and_the_fence_say(blank: Blank) -> None:
    first, *second = rabbet_cuts(RabbetWay.TABLE_SAW, blank, TOOLS)
    slot = Polygon(first.before).difference(Polygon(first.after))
    fence_mm, height_mm = (length_mm for _, length_mm in first.settings)
    kerf_mm = min(TOOLS.kerf_mm, blank.rabbet_width_mm)
    assert slot.symmetric_difference(box(fence_mm, 0, fence_mm + kerf_mm, height_mm)).area == pytest.approx(0, abs=1e-6)
    for cut in second:
        lip_mm, reach_mm = (length_mm for _, length_mm in cut.settings)
        assert lip_mm + blank.rabbet_depth_mm == pytest.approx(blank.thickness_mm)
        assert reach_mm == blank.rabbet_width_mm


@given(blank=blanks())
def test_a_built_up_member_is_board_and_strip(blank: Blank) -> None:
    board, strip = rabbet_cuts(RabbetWay.STRIP, blank, TOOLS)
    strip_mm2 = strip.settings[0][1] * strip.settings[1][1]
    board_mm2 = board.settings[0][1] * board.settings[1][1]
    assert Polygon(strip.after).area == pytest.approx(board_mm2 + strip_mm2)


def test_a_profiled_member_keeps_its_face() -> None:
    section = rounded()
    blank = Blank(width_mm=40, rabbet_width_mm=7, rabbet_depth_mm=12, top=milled_top(section.outline))
    assert polygon_mm2(rabbeted(blank, depth_mm=12)) == pytest.approx(section.area_mm2, rel=1e-3)
    last = rabbet_cuts(RabbetWay.ROUTER_TABLE, blank, TOOLS)[-1]
    assert Polygon(last.after).area == pytest.approx(section.area_mm2, rel=1e-3)


@given(
    radius_mm=st.floats(min_value=3, max_value=40),
    across_mm=st.floats(min_value=0, max_value=60),
    up_mm=st.floats(min_value=0, max_value=60),
)
def test_the_round_of_a_bearing_bit(radius_mm: float, across_mm: float, up_mm: float) -> None:
    corner = round_corner(radius_mm, clearance_across_mm=across_mm, clearance_up_mm=up_mm)
    assert corner.off_walls_mm == pytest.approx(radius_mm * (1 - 1 / sqrt(2)))
    assert hypot(*(2 * [radius_mm - corner.off_walls_mm])) == pytest.approx(radius_mm)
    left = box(0, 0, radius_mm, radius_mm).difference(Place(radius_mm, radius_mm).buffer(radius_mm, quad_segs=500))
    package = box(across_mm / 2, up_mm / 2, 100, 100)
    shared_mm2 = left.intersection(package).area
    if shared_mm2 > 1e-2:
        assert corner.touches
    if corner.touches and shared_mm2 == 0:
        assert hypot(radius_mm - across_mm / 2, radius_mm - up_mm / 2) == pytest.approx(radius_mm, rel=1e-4)


@pytest.mark.parametrize("deepest_mm", [15, 6, 4])
def test_the_last_of_several_passes_is_told_of_and_a_single_one_is_not(deepest_mm: float) -> None:
    blank = Blank(width_mm=40, rabbet_width_mm=7, rabbet_depth_mm=12, top=plain_top(width_mm=40, thickness_mm=22))
    tools = Tools(kerf_mm=3.2, deepest_pass_mm=deepest_mm, step_mm=0.5)
    *others, last = [cut.says for cut in rabbet_cuts(RabbetWay.ROUTER_TABLE, blank, tools)]
    assert len(set(others)) == bool(others) and ("Last pass" in last) == bool(others)
    assert not any("Last pass" in other for other in others)


def test_the_top_of_a_section_begins_at_the_rabbets_floor_and_is_as_thick_as_its_highest_point() -> None:
    edge = Edge(shape=EdgeShape.SQUARE, size_mm=1)
    sloped = milled_section(
        face_width_mm=40, thickness_mm=24, rabbet_width_mm=6, rabbet_depth_mm=12, sight_edge=edge, back_edge=edge,
        face=FaceShape.TOWARD, face_drop_mm=5,
    )  # fmt: skip
    top = milled_top(sloped.outline)
    assert top[0] == pytest.approx((40, 12)) and min(up for _, up in top) == 12
    assert Blank(width_mm=40, rabbet_width_mm=6, rabbet_depth_mm=12, top=top).thickness_mm == 24


def test_a_rabbet_is_cut_from_nothing_to_its_depth_and_no_deeper() -> None:
    top = plain_top(width_mm=30, thickness_mm=20)
    blank = Blank(width_mm=30, rabbet_width_mm=6, rabbet_depth_mm=12, top=top)
    assert polygon_mm2(rabbeted(blank, depth_mm=0)) == 600 and polygon_mm2(rabbeted(blank, depth_mm=12)) == 600 - 72
    for depth_mm in (-0.1, 12.1):
        with pytest.raises(OutOfRange, match="Enter 0 mm to 12 mm"):
            rabbeted(blank, depth_mm=depth_mm)


def test_a_corner_rounder_than_half_its_clearance_touches_nothing() -> None:
    assert not round_corner(1, clearance_across_mm=10, clearance_up_mm=10).touches


def test_a_tray_that_is_too_small_has_no_clearance_at_its_corners() -> None:
    assert round_corner(16, clearance_across_mm=-3, clearance_up_mm=-1) == round_corner(
        16, clearance_across_mm=0, clearance_up_mm=0
    )
