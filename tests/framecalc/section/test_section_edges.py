"""Sections half a millimetre to either side of every limit: a member of 40 × 25 over a rabbet of 12 deep."""

from math import pi
from typing import Any

import pytest

from framecalc.errors import ImpossibleSection
from framecalc.section.findings import section_findings
from framecalc.section.profile import Edge, EdgeShape, FaceShape
from framecalc.section.rabbeted import Section, milled_section
from framecalc.section.typed_points import ProfilePoint, WayToPoint

SQUARE = Edge(shape=EdgeShape.SQUARE, size_mm=1)
USUAL: dict[str, Any] = {
    "face_width_mm": 40.0,
    "thickness_mm": 25.0,
    "rabbet_width_mm": 7.0,
    "rabbet_depth_mm": 12.0,
    "sight_edge": SQUARE,
    "back_edge": SQUARE,
    "face": FaceShape.FLAT,
    "face_drop_mm": 1.0,
}


def mill(*points: tuple[float, float] | tuple[float, float, WayToPoint, float], **changed: Any) -> Section:
    typed = [
        ProfilePoint(id=f"p{n}", across_mm=one[0], down_mm=one[1])
        if len(one) == 2
        else ProfilePoint(id=f"p{n}", across_mm=one[0], down_mm=one[1], way=one[2], radius_mm=one[3])
        for n, one in enumerate(points, start=1)
    ]
    return milled_section(**USUAL | ({"face": FaceShape.POINTS} if typed else {}) | changed, points=typed)


@pytest.mark.parametrize(
    ("refused", "taken", "lengths"),
    [
        ({"rabbet_width_mm": 40.0}, {"rabbet_width_mm": 39.5}, {"member": 40}),
        ({"rabbet_depth_mm": 25.0}, {"rabbet_depth_mm": 24.5}, {"rabbet": 25, "member": 25}),
        (
            {"face": FaceShape.TOWARD, "face_drop_mm": 13.0},
            {"face": FaceShape.TOWARD, "face_drop_mm": 12.5},
            {"fall": 13, "side": 13},
        ),
        (
            {"face": FaceShape.AWAY, "face_drop_mm": 25.0},
            {"face": FaceShape.AWAY, "face_drop_mm": 24.5},
            {"fall": 25, "side": 25},
        ),
        (
            {"face": FaceShape.AWAY, "face_drop_mm": 40.0, "thickness_mm": 60.0},
            {"face": FaceShape.AWAY, "face_drop_mm": 39.5, "thickness_mm": 60.0},
            {"fall": 40, "width": 40},
        ),
        (
            {"sight_edge": Edge(shape=EdgeShape.STEP, size_mm=13)},
            {"sight_edge": Edge(shape=EdgeShape.STEP, size_mm=12.5)},
            {"size": 13, "side": 13, "limit": 13},
        ),
        (
            {"back_edge": Edge(shape=EdgeShape.CHAMFER, size_mm=25)},
            {"back_edge": Edge(shape=EdgeShape.CHAMFER, size_mm=24.5)},
            {"size": 25, "side": 25, "limit": 25},
        ),
    ],
)
def test_what_refuses_a_section_tells_its_limit_and_half_a_millimetre_less_is_milled(
    refused: dict[str, Any], taken: dict[str, Any], lengths: dict[str, float]
) -> None:
    with pytest.raises(ImpossibleSection) as refusal:
        mill(**refused)
    assert refusal.value.lengths == pytest.approx(lengths)
    assert mill(**taken).least_lip_mm > 0


HOLLOW = WayToPoint.HOLLOW


@pytest.mark.parametrize(
    ("refused", "taken", "lengths"),
    [
        (((0, 3), (40.5, 0)), ((0, 3), (40, 0)), {"width": 40}),
        (((8, 0), (20, 25), (30, 0)), ((8, 0), (20, 24.5), (30, 0)), {"height": 25}),
        (((0, 13), (9, 0)), ((0, 12.5), (9, 0)), {"lip": 13}),
        (((0, 3), (12, 3), (11.5, 0)), ((0, 3), (12, 3), (12, 0)), {"least": 12}),
        (((10, 0), (18, 0, HOLLOW, 3.5)), ((10, 0), (18, 0, HOLLOW, 4)), {"radius": 3.5, "least": 4}),
        (((0, 3), (30, 2)), ((0, 3), (40, 2)), {"width": 40}),
    ],
)
def test_what_refuses_a_point_tells_its_limit_and_what_just_keeps_to_it_is_milled(
    refused: Any, taken: Any, lengths: dict[str, float]
) -> None:
    with pytest.raises(ImpossibleSection) as refusal:
        mill(*refused)
    assert refusal.value.lengths == lengths
    assert mill(*taken).area_mm2 > 0


@pytest.mark.parametrize("to_mm", [18, 22])
def test_a_half_turn_takes_off_half_a_circle(to_mm: float) -> None:
    radius_mm = (to_mm - 10) / 2
    hollow = mill((10, 0), (to_mm, 0, HOLLOW, radius_mm))
    assert 40 * 25 - 7 * 12 - hollow.area_mm2 == pytest.approx(pi * radius_mm**2 / 2)


@pytest.mark.parametrize(
    ("points", "is_slit"),
    [
        (((10, 0), (10, 6), (10, 0)), True),
        (((10, 0), (10, 3), (10, 6), (14, 0)), False),
        (((10, 0), (10, 6), (10.5, 0)), False),
    ],
)
def test_only_a_way_straight_back_leaves_a_slit(points: Any, is_slit: bool) -> None:
    if is_slit:
        with pytest.raises(ImpossibleSection, match="goes back over"):
            mill(*points)
    else:
        assert mill(*points).area_mm2 < 40 * 25 - 7 * 12


@pytest.mark.parametrize(("size_mm", "is_refused"), [(4, False), (4.5, True)])
def test_a_shape_on_an_edge_ends_where_the_points_begin(size_mm: float, is_refused: bool) -> None:
    for edge, points in (("sight_edge", ((4, 0), (20, 3), (30, 0))), ("back_edge", ((10, 0), (20, 3), (36, 0)))):
        changed = {edge: Edge(shape=EdgeShape.STEP, size_mm=size_mm)}
        if is_refused:
            with pytest.raises(ImpossibleSection, match="choose a square edge") as refusal:
                mill(*points, **changed)
            assert (refusal.value.field, refusal.value.lengths) == (f"{edge}_mm", {"size": size_mm})
        else:
            assert mill(*points, **changed).area_mm2 > 0


@pytest.mark.parametrize(
    ("changed", "code", "lengths", "ways"),
    [
        (
            {"rabbet_depth_mm": 20.5},
            "lip-thin",
            {"lip": 4.5, "limit": 5},
            {"rabbet_depth_mm": 20, "thickness_mm": 25.5},
        ),
        (
            {"face_width_mm": 16.5},
            "land-thin",
            {"land": 9.5, "limit": 10},
            {"face_width_mm": 17, "rabbet_width_mm": 6.5},
        ),
        ({"rabbet_width_mm": 4.5}, "rabbet-narrow", {"rabbet": 4.5, "limit": 5}, {"rabbet_width_mm": 6}),
        (
            {"thickness_mm": 12.5, "rabbet_depth_mm": 6.0},
            "screw-short",
            {"wood": 12.5, "kept": 3, "screw": 9.5},
            {"thickness_mm": 13},
        ),
    ],
)
def test_half_a_millimetre_short_is_told_with_what_makes_up_for_it(
    changed: dict[str, Any], code: str, lengths: dict[str, float], ways: dict[str, float]
) -> None:
    (found,) = section_findings(mill(**changed))
    assert found.code == f"section.{code}" and lengths.items() <= found.lengths.items()
    assert {way.argument: way.value_mm for way in found.ways} == ways
    for argument, value_mm in ways.items():
        assert section_findings(mill(**changed | {argument: value_mm})) == ()


@pytest.mark.parametrize(("width_mm", "is_offered"), [(15.5, False), (16, True)])
def test_a_wider_rabbet_is_offered_where_it_leaves_a_land(width_mm: float, is_offered: bool) -> None:
    found = {one.code: one for one in section_findings(mill(face_width_mm=width_mm, rabbet_width_mm=4.5))}
    assert bool(found["section.rabbet-narrow"].ways) is is_offered
