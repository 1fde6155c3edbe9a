"""Face profiles by typed points, against Shapely: area, centroid, lip; laws; refusals beside the point."""

from itertools import pairwise
from math import hypot, pi, sqrt
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, box

from framecalc.errors import ImpossibleSection
from framecalc.geometry.outline import Arc, area_mm2, centroid, flatten
from framecalc.section.findings import LEAST_LIP_MM, section_findings
from framecalc.section.milling import MillingStep, milling_order
from framecalc.section.profile import Edge, EdgeShape, FaceShape
from framecalc.section.rabbeted import Section, milled_section
from framecalc.section.typed_points import ProfilePoint, WayToPoint
from framecalc.units import TOLERANCE_MM

WIDTH_MM, THICKNESS_MM, RABBET_WIDTH_MM, RABBET_DEPTH_MM = 40.0, 25.0, 7.0, 12.0
SQUARE = Edge(shape=EdgeShape.SQUARE, size_mm=1)


def points(*rows: tuple[Any, ...]) -> tuple[ProfilePoint, ...]:
    """Points from rows of across, down, way, radius."""
    return tuple(
        ProfilePoint(
            across_mm=row[0],
            down_mm=row[1],
            way=row[2] if len(row) > 2 else WayToPoint.LINE,
            radius_mm=row[3] if len(row) > 3 else None,
            id=f"p{number}",
        )
        for number, row in enumerate(rows, start=1)
    )


def mill(typed: tuple[ProfilePoint, ...], **changed: Any) -> Section:
    usual: dict[str, Any] = {
        "face_width_mm": WIDTH_MM,
        "thickness_mm": THICKNESS_MM,
        "rabbet_width_mm": RABBET_WIDTH_MM,
        "rabbet_depth_mm": RABBET_DEPTH_MM,
        "sight_edge": SQUARE,
        "back_edge": SQUARE,
        "face": FaceShape.POINTS,
        "face_drop_mm": 3.0,
    }
    return milled_section(**usual | {"points": typed} | changed)


def polygon(section: Section) -> Polygon:
    return Polygon(flatten(section.outline, tolerance_mm=1e-5))


BLANK = box(0, 0, WIDTH_MM, THICKNESS_MM).difference(box(WIDTH_MM - RABBET_WIDTH_MM, 0, WIDTH_MM, RABBET_DEPTH_MM))

BEVEL_OVER_A_PART = points((0, 4), (12, 0))
COVE_OFF_THE_ARRIS = points((5, 0), (15, 0, WayToPoint.HOLLOW, 6))
OGEE = points((0, 9), (2, 9), (10, 5, WayToPoint.HOLLOW, 10), (18, 0, WayToPoint.ROUND, 9))
SUNK_BEAD = points((10, 0), (10, 4), (18, 4, WayToPoint.ROUND, 4), (18, 0))
WHOLE_FACE = points((0, 3), (WIDTH_MM, 8, WayToPoint.ROUND, 60))
MADE = {
    "bevel": BEVEL_OVER_A_PART,
    "cove": COVE_OFF_THE_ARRIS,
    "ogee": OGEE,
    "sunk bead": SUNK_BEAD,
    "whole face": WHOLE_FACE,
}


@pytest.mark.parametrize("typed", MADE.values(), ids=MADE)
def test_area_centroid_and_lip_are_those_of_shapely(typed: tuple[ProfilePoint, ...]) -> None:
    section = mill(typed)
    seen = polygon(section)
    assert seen.is_valid and seen.exterior.is_ccw
    assert section.area_mm2 == pytest.approx(seen.area, abs=1e-3)
    assert centroid(section.outline) == pytest.approx((seen.centroid.x, seen.centroid.y), abs=1e-4)
    assert section.least_lip_mm == pytest.approx(_thinnest_mm(section), abs=1e-3)


def _face_line(section: Section) -> LineString:
    """Everything of the outline that is face or outer side, from the top of the sight side on."""
    chain = flatten(section.outline, tolerance_mm=1e-5)
    return LineString(chain[chain.index((WIDTH_MM, section.rabbet_depth_mm)) + 1 :])


def _thinnest_mm(section: Section) -> float:
    """How far the face stays above the rabbet, over the rabbet."""
    over = box(section.land_mm, section.rabbet_depth_mm, WIDTH_MM, 2 * THICKNESS_MM)
    return float(_face_line(section).intersection(over.buffer(1e-7)).bounds[1]) - section.rabbet_depth_mm


def test_closed_areas_of_a_bevel_over_a_part_and_a_cove_off_the_arris() -> None:
    blank_mm2 = WIDTH_MM * THICKNESS_MM - RABBET_WIDTH_MM * RABBET_DEPTH_MM
    assert mill(BEVEL_OVER_A_PART).area_mm2 == pytest.approx(blank_mm2 - 4 * 12 / 2)
    half_round = points((10, 0), (18, 0, WayToPoint.HOLLOW, 4))
    assert mill(half_round).area_mm2 == pytest.approx(blank_mm2 - pi * 4**2 / 2)
    quarter = points((0, 6), (6, 0, WayToPoint.ROUND, 6))
    assert mill(quarter).area_mm2 == pytest.approx(blank_mm2 - (4 - pi) / 4 * 6**2)


def test_a_quarter_round_by_points_is_the_ready_made_round_over() -> None:
    by_points = mill(points((0, 6), (6, 0, WayToPoint.ROUND, 6)))
    ready = mill((), face=FaceShape.FLAT, sight_edge=Edge(shape=EdgeShape.ROUND, size_mm=6))
    assert by_points.area_mm2 == pytest.approx(ready.area_mm2)
    assert (by_points.least_lip_mm, by_points.sight_side_top_mm) == pytest.approx((7.0, 19.0))
    assert ready.least_lip_mm == pytest.approx(by_points.least_lip_mm)


def test_a_bead_between_upright_walls_is_milled() -> None:
    blank_mm2 = WIDTH_MM * THICKNESS_MM - RABBET_WIDTH_MM * RABBET_DEPTH_MM
    assert mill(SUNK_BEAD).area_mm2 == pytest.approx(blank_mm2 - (8 * 4 - pi * 4**2 / 2))


def test_edge_shapes_stand_beside_the_points() -> None:
    edges = {name: Edge(shape=EdgeShape.ROUND, size_mm=3) for name in ("sight_edge", "back_edge")}
    eased, plain = mill(COVE_OFF_THE_ARRIS, **edges), mill(COVE_OFF_THE_ARRIS)
    assert eased.area_mm2 == pytest.approx(plain.area_mm2 - 2 * (4 - pi) / 4 * 3**2)
    assert polygon(eased).is_valid


def test_an_edge_shape_that_meets_the_points_is_refused() -> None:
    with pytest.raises(ImpossibleSection, match="choose a square edge") as refusal:
        mill(BEVEL_OVER_A_PART, sight_edge=Edge(shape=EdgeShape.ROUND, size_mm=3))
    assert refusal.value.field == "sight_edge_mm"


def test_arcs_stay_arcs() -> None:
    radii = [segment.radius_mm for segment in mill(OGEE).outline.segments if isinstance(segment, Arc)]
    assert radii == [10, 9]


@settings(max_examples=150, deadline=None)
@given(
    steps=st.lists(
        st.tuples(st.floats(0.5, 8), st.floats(0, 8), st.sampled_from(WayToPoint), st.floats(1, 3)),
        min_size=1,
        max_size=5,
    ),
    start_mm=st.floats(0, 8),
)
def test_whatever_is_typed_is_milled_soundly_or_refused_at_a_point(
    steps: list[tuple[float, float, WayToPoint, float]], start_mm: float
) -> None:
    rows: list[tuple[Any, ...]] = [(0.0, start_mm)]
    for across_mm, down_mm, way, ratio in steps:
        chord_mm = hypot(across_mm, down_mm - rows[-1][1])
        rows.append((rows[-1][0] + across_mm, down_mm, way, None if way is WayToPoint.LINE else ratio * chord_mm / 2))
    rows.append((rows[-1][0] + 0.5, 0.0))
    assume(rows[-1][0] < WIDTH_MM)
    typed = points(*rows)
    try:
        section = mill(typed)
    except ImpossibleSection as refusal:
        assert refusal.field == "face_shape" or refusal.field.split(".")[1] in {point.id for point in typed}
        return
    seen = polygon(section)
    assert seen.is_valid and seen.exterior.is_ccw
    assert seen.difference(BLANK.buffer(1e-4)).area == pytest.approx(0, abs=1e-3)
    assert section.area_mm2 == pytest.approx(seen.area, abs=1e-2)
    assert 0 < section.least_lip_mm <= section.lip_mm + TOLERANCE_MM
    assert section.least_lip_mm == pytest.approx(_thinnest_mm(section), abs=1e-3)


@pytest.mark.parametrize("typed", MADE.values(), ids=MADE)
def test_the_profile_runs_through_every_point(typed: tuple[ProfilePoint, ...]) -> None:
    ends = {(round(x, 6), round(y, 6)) for one in mill(typed).outline.segments for x, y in (one.start, one.end)}
    for point in typed:
        assert (WIDTH_MM - point.across_mm, THICKNESS_MM - point.down_mm) in ends


def test_thicker_stock_thickens_the_lip_and_keeps_the_profile() -> None:
    thin, thick = mill(OGEE), mill(OGEE, thickness_mm=THICKNESS_MM + 3)
    assert thick.least_lip_mm == pytest.approx(thin.least_lip_mm + 3)
    assert thick.area_mm2 == pytest.approx(thin.area_mm2 + 3 * WIDTH_MM)


@pytest.mark.parametrize(
    ("typed", "field", "says"),
    [
        (points((0, 3)), "face_shape", "two or more points"),
        (points((3, 3), (9, 0)), "profile_points.p1.across", "starts in the air"),
        (points((0, 3), (9, 2)), "profile_points.p2.down", "ends in the air"),
        (points((0, 13), (9, 0)), "profile_points.p1.down", "enter less than 13 mm down"),
        (points((0, 3), (41, 0)), "profile_points.p2.across", "enter 40 mm or less"),
        (points((0, 3), (20, 25), (30, 0)), "profile_points.p2.down", "at the back"),
        (points((0, 3), (12, 3), (9, 0)), "profile_points.p3.across", "enter 12 mm or more"),
        (points((0, 3), (0, 3), (9, 0)), "profile_points.p2.across", "remove one of them"),
        (points((4, 0), (12, 0, WayToPoint.HOLLOW)), "profile_points.p2.radius", "Enter the radius"),
        (points((4, 0), (12, 0, WayToPoint.HOLLOW, 3)), "profile_points.p2.radius", "enter 4 mm or more"),
        (points((4, 0), (12, 0, WayToPoint.ROUND, 6)), "profile_points.p2.down", "rises above the face"),
        (points((0, 6), (1, 0, WayToPoint.HOLLOW, 3.1)), "profile_points.p2.radius", "leans over"),
        (points((5, 0), (5, 6), (5, 0)), "profile_points.p3.across", "goes back over"),
        (
            points((8, 0), (10, 20), (30, 20, WayToPoint.HOLLOW, 11), (38, 0)),
            "profile_points.p3.radius",
            "through to the back",
        ),
    ],
)
def test_points_that_make_no_profile_are_refused_at_the_point(
    typed: tuple[ProfilePoint, ...], field: str, says: str
) -> None:
    with pytest.raises(ImpossibleSection, match=says) as refusal:
        mill(typed)
    assert refusal.value.field == field


def test_a_hollow_that_dips_to_the_rabbet_is_refused_and_one_just_above_gives_its_true_lip() -> None:
    """A half turn of radius r over the rabbet leaves the lip less r."""
    with pytest.raises(ImpossibleSection, match="come down to the rabbet"):
        mill(points((0, 3), (2, 3), (16, 3, WayToPoint.HOLLOW, 7), (16, 0)), rabbet_depth_mm=15.5)
    section = mill(points((0, 3), (2, 3), (10, 3, WayToPoint.HOLLOW, 4), (10, 0)))
    assert section.least_lip_mm == pytest.approx(13 - 3 - 4)
    assert section.least_lip_at_mm == pytest.approx(WIDTH_MM - 6)


def test_a_thin_lip_under_the_points_is_found_with_ways_that_help() -> None:
    [finding] = [one for one in section_findings(mill(points((0, 9), (9, 0)))) if one.code == "section.lip-thin"]
    assert finding.lengths["lip"] == pytest.approx(4)
    assert {way.argument for way in finding.ways} == {"rabbet_depth_mm", "thickness_mm"}


@pytest.mark.parametrize("typed", MADE.values(), ids=MADE)
@pytest.mark.parametrize("depth_mm", [4.0, 12.0, 15.0])
def test_the_least_wood_is_the_distance_that_shapely_sees(typed: tuple[ProfilePoint, ...], depth_mm: float) -> None:
    section = mill(typed, rabbet_depth_mm=depth_mm)
    assert section.least_wood_mm == pytest.approx(_distance_mm(section), abs=1e-3)


def test_a_hollow_beside_the_lip_may_come_near_the_corner_of_the_rabbet() -> None:
    """Its bottom lies 8 under the face, 3 from the rabbet's wall; deeper than the rabbet's floor, it meets the wall."""
    near = mill(points((8, 0), (8, 8), (14, 8), (14, 0)))
    assert near.least_lip_mm == pytest.approx(13) and near.least_wood_mm == pytest.approx(hypot(1, 5))
    assert "section.root-thin" not in [one.code for one in section_findings(near)]
    beside = mill(points((9, 0), (9, 18), (14, 18), (14, 0)))
    assert beside.least_wood_mm == pytest.approx(2) == pytest.approx(_distance_mm(beside))
    [finding] = [one for one in section_findings(beside) if one.code == "section.root-thin"]
    assert finding.lengths["wood"] == pytest.approx(2)
    assert {way.argument for way in finding.ways} == {"rabbet_depth_mm", "thickness_mm"}
    with pytest.raises(ImpossibleSection, match="come down to the rabbet"):
        mill(points((7, 0), (7, 18), (14, 18), (14, 0)))


def _distance_mm(section: Section) -> float:
    """From the rabbet to everything of the outline that is face: neither rabbet, back nor sides."""
    return float(_face_line(section).distance(box(section.land_mm, 0, WIDTH_MM, section.rabbet_depth_mm)))


def test_points_off_the_lip_leave_the_rabbet_first() -> None:
    assert milling_order(mill(COVE_OFF_THE_ARRIS)).first is MillingStep.RABBET
    assert milling_order(mill(points((0, 9), (9, 0)))).first is MillingStep.PROFILE


def test_the_way_of_an_arc_is_the_radius_typed() -> None:
    """The sagitta of a hollow over a chord c: r − √(r² − c²/4)."""
    section = mill(points((10, 0), (20, 0, WayToPoint.HOLLOW, 13)))
    lowest = min(y for x, y in flatten(section.outline, tolerance_mm=1e-6) if 18 < x < 32)
    assert THICKNESS_MM - lowest == pytest.approx(13 - sqrt(13**2 - 5**2), abs=1e-4)
    assert area_mm2(section.outline) == section.area_mm2
    assert all(
        hypot(a.end[0] - b.start[0], a.end[1] - b.start[1]) < 1e-9 for a, b in pairwise(section.outline.segments)
    )


@pytest.mark.parametrize("beside_mm", [0.02, 1.0])
def test_a_way_out_beside_the_lip_takes_no_more_than_is_missing(beside_mm: float) -> None:
    """The hollow ends 2 over the floor of the rabbet; the usual distance from its corner is slanted."""
    hollow = points((7 + beside_mm, 0), (7 + beside_mm, 11), (14, 11), (14, 0))
    [finding] = [one for one in section_findings(mill(hollow)) if one.code == "section.root-thin"]
    left = [mill(hollow, **{way.argument: way.value_mm}).least_wood_mm for way in finding.ways]
    assert left == pytest.approx([LEAST_LIP_MM] * 2, abs=1e-3)
    by_depth = next(way.value_mm for way in finding.ways if way.argument == "rabbet_depth_mm")
    assert hypot(beside_mm, 14 - by_depth) == pytest.approx(LEAST_LIP_MM, abs=1e-3)
