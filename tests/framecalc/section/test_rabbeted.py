"""Sections: every combination of shapes against Shapely, laws, worked values and refusals."""

import tomllib
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, box

from framecalc.errors import FrameCalcError, ImpossibleSection, OutOfRange
from framecalc.geometry.outline import flatten, height_at
from framecalc.section.profile import Edge, EdgeShape, FaceShape
from framecalc.section.rabbeted import Section, local_thickness_mm, longest_screw_mm, milled_section, mitred_volume_mm3
from framecalc.units import TOLERANCE_MM

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/section.toml").read_text("utf-8"))
INCH_MM = 25.4
SQUARE = Edge(shape=EdgeShape.SQUARE, size_mm=1)
USUAL: dict[str, Any] = {
    "face_width_mm": 40.0,
    "thickness_mm": 28.0,
    "rabbet_width_mm": 7.0,
    "rabbet_depth_mm": 12.0,
    "sight_edge": SQUARE,
    "back_edge": SQUARE,
    "face": FaceShape.FLAT,
    "face_drop_mm": 5.0,
}
PLAIN_FACES = [face for face in FaceShape if face is not FaceShape.POINTS]
"""Faces without typed points, which have tests of their own."""
COMBINATIONS = list(product(EdgeShape, EdgeShape, PLAIN_FACES))


def mill(**changed: Any) -> Section:
    return milled_section(**USUAL | changed)


def polygon(section: Section, tolerance_mm: float = 1e-4) -> Polygon:
    return Polygon(flatten(section.outline, tolerance_mm=tolerance_mm))


def thinnest_over_rabbet_mm(section: Section) -> float:
    """The least lip as Shapely sees it: upright cuts through the flattened outline, close together."""
    milled = polygon(section)
    from_mm, to_mm = section.land_mm, section.face_width_mm
    places = [from_mm + (to_mm - from_mm) * (share + 0.5) / 400 for share in range(400)] + [to_mm - 1e-6]
    return min(float(milled.intersection(LineString([(x_mm, 0), (x_mm, 100)])).length) for x_mm in places)


@pytest.mark.parametrize("check", CHECKS["area"], ids=lambda check: check["name"])
def test_worked_section(check: dict[str, Any]) -> None:
    edges = {
        name: Edge(shape=EdgeShape(check[name][0]), size_mm=check[name][1]) for name in ("sight_edge", "back_edge")
    }
    section = mill(**check["given"], **edges)
    assert section.area_mm2 == pytest.approx(check["expect_mm2"], abs=check["tolerance_mm"], rel=0)
    assert section.least_lip_mm == pytest.approx(check["expect_least_lip_mm"], abs=check["tolerance_mm"], rel=0)
    assert section.least_lip_at_mm == pytest.approx(check["expect_at_mm"], abs=check["tolerance_mm"], rel=0)


@pytest.mark.parametrize("check", CHECKS["volume"], ids=lambda check: check["name"])
def test_worked_volume(check: dict[str, Any]) -> None:
    names = ("face_width", "thickness", "rabbet_width", "rabbet_depth")
    section = mill(**{f"{name}_mm": check[f"{name}_in"] * INCH_MM for name in names})
    edges_mm = [check[f"outside_{way}_in"] * INCH_MM for way in ("across", "up")] * 2
    volume_mm3 = mitred_volume_mm3(section, long_edges_mm=edges_mm)
    assert volume_mm3 / INCH_MM**3 == pytest.approx(check["expect_in3"], abs=check["tolerance_in3"], rel=0)


@pytest.mark.parametrize(("sight", "back", "face"), COMBINATIONS)
def test_every_combination_is_one_closed_counter_clockwise_outline(
    sight: EdgeShape, back: EdgeShape, face: FaceShape
) -> None:
    section = mill(sight_edge=Edge(shape=sight, size_mm=4), back_edge=Edge(shape=back, size_mm=5), face=face)
    milled = polygon(section)
    assert milled.is_valid
    assert milled.exterior.is_ccw
    assert milled.area == pytest.approx(section.area_mm2, abs=0.01)
    assert milled.bounds[0] == 0 and milled.bounds[1] == 0
    assert milled.bounds[2] == section.face_width_mm
    assert milled.bounds[3] <= section.thickness_mm + 1e-9
    assert milled.intersection(box(section.land_mm, 0, section.face_width_mm, section.rabbet_depth_mm)).area == 0
    assert section.least_lip_mm == pytest.approx(thinnest_over_rabbet_mm(section), abs=0.02)


@pytest.mark.parametrize("sight", EdgeShape)
@pytest.mark.parametrize("back", EdgeShape)
def test_swapping_the_edges_keeps_the_wood_when_the_rabbet_is_put_back(sight: EdgeShape, back: EdgeShape) -> None:
    one, other = Edge(shape=sight, size_mm=4), Edge(shape=back, size_mm=5)
    toward = mill(sight_edge=one, back_edge=other, face=FaceShape.TOWARD)
    away = mill(sight_edge=other, back_edge=one, face=FaceShape.AWAY)
    assert toward.area_mm2 == pytest.approx(away.area_mm2)


@pytest.mark.parametrize("sight", EdgeShape)
@pytest.mark.parametrize("face", PLAIN_FACES)
def test_a_deeper_rabbet_takes_its_own_area_and_thins_the_lip(sight: EdgeShape, face: FaceShape) -> None:
    edge = Edge(shape=sight, size_mm=4)
    shallow, deep = mill(sight_edge=edge, face=face), mill(sight_edge=edge, face=face, rabbet_depth_mm=14)
    assert shallow.area_mm2 - deep.area_mm2 == pytest.approx(2 * 7)
    assert shallow.least_lip_mm - deep.least_lip_mm == pytest.approx(2)


@pytest.mark.parametrize(("sight", "back", "face"), COMBINATIONS)
def test_a_section_twice_as_large_has_four_times_the_area(sight: EdgeShape, back: EdgeShape, face: FaceShape) -> None:
    def at_scale(ratio: float) -> Section:
        lengths = {name: value * ratio for name, value in USUAL.items() if isinstance(value, float)}
        edges = {"sight_edge": Edge(shape=sight, size_mm=4 * ratio), "back_edge": Edge(shape=back, size_mm=5 * ratio)}
        return milled_section(**lengths, **edges, face=face)  # type: ignore[arg-type]

    assert at_scale(INCH_MM / 10).area_mm2 == pytest.approx(at_scale(1).area_mm2 * (INCH_MM / 10) ** 2)


@pytest.mark.parametrize("back", EdgeShape)
@pytest.mark.parametrize("face", PLAIN_FACES)
def test_thickness_is_what_shapely_cuts(back: EdgeShape, face: FaceShape) -> None:
    section = mill(sight_edge=Edge(shape=EdgeShape.ROUND, size_mm=4), back_edge=Edge(shape=back, size_mm=5), face=face)
    milled = polygon(section, 1e-6)
    for x_mm in (0.7, 3.3, 4.9, 8.1, 20.2, 32.9, 33.1, 38.8):
        cut_mm = milled.intersection(LineString([(x_mm, -1), (x_mm, 100)])).length
        assert local_thickness_mm(section, x_mm=x_mm) == pytest.approx(cut_mm, abs=0.001)


@pytest.mark.parametrize(("sight", "back", "face"), COMBINATIONS)
def test_the_volume_is_that_of_thin_strips_mitred_one_by_one(
    sight: EdgeShape, back: EdgeShape, face: FaceShape
) -> None:
    section = mill(sight_edge=Edge(shape=sight, size_mm=4), back_edge=Edge(shape=back, size_mm=5), face=face)
    strip_mm = section.face_width_mm / 200
    places = [(strip + 0.5) * strip_mm for strip in range(200)]
    perimeter_mm = 2 * (500 + 700)
    summed_mm3 = sum(height_at(section.outline, x_mm) * strip_mm * (perimeter_mm - 8 * x_mm) for x_mm in places)
    whole_mm3 = mitred_volume_mm3(section, long_edges_mm=(500, 700, 500, 700))
    assert summed_mm3 == pytest.approx(whole_mm3, rel=0.002)


def test_a_full_round_over_leaves_its_foot_as_the_least_lip() -> None:
    section = mill(sight_edge=Edge(shape=EdgeShape.ROUND, size_mm=15.9))
    assert section.least_lip_mm == pytest.approx(0.1)
    assert section.least_lip_at_mm == section.face_width_mm


def test_a_face_falling_away_is_thinnest_at_the_rabbet_wall() -> None:
    section = mill(face=FaceShape.AWAY)
    assert section.least_lip_at_mm == section.land_mm
    assert section.least_lip_mm == pytest.approx(16 - 5 * 7 / 40)


def test_a_wide_back_edge_may_thin_the_lip() -> None:
    section = mill(rabbet_width_mm=20, back_edge=Edge(shape=EdgeShape.STEP, size_mm=21), rabbet_depth_mm=6)
    assert (section.least_lip_mm, section.least_lip_at_mm) == pytest.approx((1, 21))


LENGTH = st.floats(min_value=5, max_value=120)
SHARE = st.floats(min_value=0.01, max_value=1)
EDGES = st.builds(Edge, shape=st.sampled_from(EdgeShape), size_mm=st.floats(min_value=0.1, max_value=40))


@settings(max_examples=300)
@given(
    width_mm=LENGTH,
    thickness_mm=LENGTH,
    shares=st.tuples(SHARE, SHARE, SHARE),
    sight_edge=EDGES,
    back_edge=EDGES,
    face=st.sampled_from(PLAIN_FACES),
)
def test_whatever_is_typed_is_milled_soundly_or_refused_beside_a_field(
    width_mm: float, thickness_mm: float, shares: tuple[float, ...], sight_edge: Edge, back_edge: Edge, face: FaceShape
) -> None:
    lengths = {
        "face_width_mm": width_mm,
        "thickness_mm": thickness_mm,
        "rabbet_width_mm": width_mm * shares[0],
        "rabbet_depth_mm": thickness_mm * shares[1],
        "face_drop_mm": thickness_mm * shares[2],
    }
    try:
        section = mill(**lengths, sight_edge=sight_edge, back_edge=back_edge, face=face)
    except FrameCalcError as refusal:
        assert refusal.field in {*lengths, "sight_edge_mm", "back_edge_mm"}
        assert "enter " in refusal.sentence.lower()
        return
    milled = polygon(section, 1e-3)
    assert milled.is_valid and milled.exterior.is_ccw
    assert milled.area == pytest.approx(section.area_mm2, abs=0.3)
    assert 0 < section.least_lip_mm <= section.lip_mm + TOLERANCE_MM
    assert section.land_mm - TOLERANCE_MM <= section.least_lip_at_mm <= width_mm


@pytest.mark.parametrize("inch_mm", [1.0, INCH_MM])
@pytest.mark.parametrize(
    ("changed", "field", "says"),
    [
        ({"rabbet_depth_mm": 1.1}, "rabbet_depth_mm", r"No lip left: enter a rabbet depth under .* mm"),
        ({"rabbet_depth_mm": 1.0}, "rabbet_depth_mm", "No lip left"),
        ({"rabbet_width_mm": 2.0}, "rabbet_width_mm", "No land left: enter a rabbet width under"),
        ({"rabbet_width_mm": 0.0}, "rabbet_width_mm", "Enter more than 0 mm"),
        ({"thickness_mm": -1.0}, "thickness_mm", "Enter more than 0 mm"),
        ({"face_width_mm": float("nan")}, "face_width_mm", "Enter more than 0|Enter more than 0 mm"),
        ({"rabbet_depth_mm": float("inf")}, "rabbet_depth_mm", "Enter "),
        ({"sight_edge": ("round-over", 0.5)}, "sight_edge_mm", "No lip left of"),
        ({"sight_edge": ("bead", 0.9)}, "sight_edge_mm", "No lip left"),
        ({"back_edge": ("chamfer", 1.0)}, "back_edge_mm", "No outer side left of"),
        ({"back_edge": ("step", 0.7), "rabbet_width_mm": 1.6}, "back_edge_mm", "cuts into the rabbet"),
        ({"face": "bevelled toward the picture", "face_drop_mm": 0.5}, "face_drop_mm", "No lip left"),
        (
            {"face": "bevelled away from the picture", "face_drop_mm": 0.9, "rabbet_width_mm": 1.8},
            "face_drop_mm",
            "rabbet",
        ),
    ],
)
def test_what_cannot_be_milled_is_refused_in_both_units(
    changed: dict[str, Any], field: str, says: str, inch_mm: float
) -> None:
    """A member 2 × 1, its rabbet 0.25 × 0.5, in millimetres and in inches; what equals its limit is too much."""
    given_in = {"face_width_mm": 2.0, "thickness_mm": 1.0, "rabbet_width_mm": 0.25, "rabbet_depth_mm": 0.5} | changed
    lengths = {name: value * inch_mm if isinstance(value, float) else value for name, value in given_in.items()}
    edges = {
        name: Edge(shape=EdgeShape(value[0]), size_mm=value[1] * inch_mm)
        for name, value in given_in.items()
        if isinstance(value, tuple)
    }
    face = {"face": FaceShape(given_in.get("face", FaceShape.FLAT))}
    with pytest.raises((ImpossibleSection, OutOfRange), match=says) as refusal:
        mill(**lengths | edges | face)
    assert refusal.value.field == field


def test_a_screw_keeps_wood_under_the_face() -> None:
    section = mill(face=FaceShape.TOWARD)
    assert longest_screw_mm(section, x_mm=16) == pytest.approx(28 - 5 * 16 / 40 - 3)
    assert longest_screw_mm(section, x_mm=16, keep_mm=5) == pytest.approx(28 - 5 * 16 / 40 - 5)


@pytest.mark.parametrize("x_mm", [-0.1, 40.1])
def test_a_place_beside_the_member_is_refused(x_mm: float) -> None:
    with pytest.raises(OutOfRange, match="Enter 0 mm to 40 mm"):
        local_thickness_mm(mill(), x_mm=x_mm)
