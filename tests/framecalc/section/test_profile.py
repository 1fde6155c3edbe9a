"""Edge shapes: their closed areas on a flat face, their tangents on a bevelled one, and what they cannot be."""

from collections.abc import Iterator
from math import hypot, pi

import pytest
from shapely import Point as ShapelyPoint
from shapely import Polygon

from framecalc.errors import FrameCalcError, ImpossibleSection, OutOfRange
from framecalc.geometry.outline import Arc, Outline, area_mm2, flatten, join
from framecalc.section.profile import QUIRK_RATIO, Edge, EdgeShape, FaceShape, Profile, milled_profile

SQUARE = Edge(shape=EdgeShape.SQUARE, size_mm=1)
WIDTH_MM, HEIGHT_MM = 40.0, 25.0
SHAPED = [shape for shape in EdgeShape if shape is not EdgeShape.SQUARE]
BEVELS = [(FaceShape.FLAT, 0.0), (FaceShape.TOWARD, 7.0), (FaceShape.AWAY, 7.0)]


def mill(
    *,
    sight: Edge = SQUARE,
    back: Edge = SQUARE,
    face: FaceShape = FaceShape.FLAT,
    fall_mm: float = 0,
    width_mm: float = WIDTH_MM,
    floor_mm: float = 0,
) -> Profile:
    return milled_profile(
        width_mm=width_mm,
        height_mm=HEIGHT_MM,
        floor_mm=floor_mm,
        sight_side="lip",
        sight_edge=sight,
        back_edge=back,
        face=face,
        face_drop_mm=fall_mm,
    )


def blank(profile: Profile, width_mm: float = WIDTH_MM) -> Outline:
    """The profile on a member without a rabbet."""
    return Outline(segments=(*join([(0, 0), (width_mm, 0)]), *profile.chain))


def milled_away_mm2(shape: EdgeShape, size_mm: float) -> float:
    """Closed areas of what each shape takes off a square edge: triangle, square less quarter circle, quarter circle…"""
    quirk_mm = QUIRK_RATIO * size_mm
    return {
        EdgeShape.SQUARE: 0.0,
        EdgeShape.ARRIS: size_mm**2 / 2,
        EdgeShape.CHAMFER: size_mm**2 / 2,
        EdgeShape.ROUND: size_mm**2 * (1 - pi / 4),
        EdgeShape.COVE: size_mm**2 * pi / 4,
        EdgeShape.STEP: size_mm**2,
        EdgeShape.BEAD: 2 * (size_mm + quirk_mm) * size_mm - pi * size_mm**2 / 2,
    }[shape]


@pytest.mark.parametrize("shape", EdgeShape)
@pytest.mark.parametrize("size_mm", [0.4, 3.0, 6.35])
def test_on_a_flat_face_a_shape_takes_its_closed_area_off_either_edge(shape: EdgeShape, size_mm: float) -> None:
    edge = Edge(shape=shape, size_mm=size_mm)
    left_mm2 = WIDTH_MM * HEIGHT_MM - milled_away_mm2(shape, size_mm)
    assert area_mm2(blank(mill(sight=edge))) == pytest.approx(left_mm2)
    assert area_mm2(blank(mill(back=edge))) == pytest.approx(left_mm2)


@pytest.mark.parametrize("sight", EdgeShape)
@pytest.mark.parametrize("back", EdgeShape)
def test_swapping_the_edges_and_the_bevel_mirrors_the_member(sight: EdgeShape, back: EdgeShape) -> None:
    one, other = Edge(shape=sight, size_mm=4), Edge(shape=back, size_mm=5)
    toward = blank(mill(sight=one, back=other, face=FaceShape.TOWARD, fall_mm=6))
    away = blank(mill(sight=other, back=one, face=FaceShape.AWAY, fall_mm=6))
    mirrored = Polygon([(WIDTH_MM - x, y) for x, y in flatten(away, tolerance_mm=0.001)])
    assert area_mm2(toward) == pytest.approx(area_mm2(away))
    assert Polygon(flatten(toward, tolerance_mm=0.001)).symmetric_difference(mirrored).area < 1e-6


@pytest.mark.parametrize(("face", "fall_mm"), BEVELS)
@pytest.mark.parametrize("shape", SHAPED)
def test_a_shape_only_takes_wood_away_and_is_never_undercut(shape: EdgeShape, face: FaceShape, fall_mm: float) -> None:
    bare = Polygon(flatten(blank(mill(face=face, fall_mm=fall_mm)), tolerance_mm=0.01))
    edge = Edge(shape=shape, size_mm=5)
    milled = Polygon(flatten(blank(mill(sight=edge, back=edge, face=face, fall_mm=fall_mm)), tolerance_mm=0.001))
    assert milled.is_valid
    assert milled.difference(bare.buffer(1e-6)).is_empty
    assert all(start[0] >= end[0] - 1e-9 for start, end in _steps(milled))


def _steps(milled: Polygon) -> Iterator[tuple[tuple[float, ...], tuple[float, ...]]]:
    """Step by step over the show side, from the foot of the sight side to the foot of the back side."""
    points = list(milled.exterior.coords)
    first = points.index((WIDTH_MM, 0.0))
    return zip(points[first:-1], points[first + 1 :], strict=True)


def _distance_to_face_mm(face: FaceShape, fall_mm: float, point: tuple[float, float]) -> float:
    left_mm = HEIGHT_MM - (fall_mm if face is FaceShape.AWAY else 0)
    right_mm = HEIGHT_MM - (fall_mm if face is FaceShape.TOWARD else 0)
    slope = (right_mm - left_mm) / WIDTH_MM
    return (left_mm + slope * point[0] - point[1]) / hypot(1, slope)


@pytest.mark.parametrize(("face", "fall_mm"), BEVELS)
@pytest.mark.parametrize("shape", [EdgeShape.ROUND, EdgeShape.BEAD])
def test_a_round_over_and_a_bead_just_touch_the_face(shape: EdgeShape, face: FaceShape, fall_mm: float) -> None:
    edge = Edge(shape=shape, size_mm=5)
    arcs = _arcs(mill(sight=edge, back=edge, face=face, fall_mm=fall_mm))
    assert [_distance_to_face_mm(face, fall_mm, arc.centre) for arc in arcs] == pytest.approx([5, 5])


@pytest.mark.parametrize(("face", "fall_mm"), BEVELS)
def test_a_round_over_runs_out_into_the_side(face: FaceShape, fall_mm: float) -> None:
    """Tangent: the centre lies on the level of the arc's foot, one radius inside the side."""
    (arc,) = _arcs(mill(sight=Edge(shape=EdgeShape.ROUND, size_mm=5), face=face, fall_mm=fall_mm))
    assert arc.start == pytest.approx((WIDTH_MM, arc.centre[1]))
    assert arc.centre[0] == pytest.approx(WIDTH_MM - 5)


@pytest.mark.parametrize(("face", "fall_mm"), BEVELS)
@pytest.mark.parametrize("shape", [EdgeShape.ROUND, EdgeShape.COVE, EdgeShape.BEAD])
def test_arcs_are_true_arcs(shape: EdgeShape, face: FaceShape, fall_mm: float) -> None:
    edge = Edge(shape=shape, size_mm=5)
    for arc in _arcs(mill(sight=edge, back=edge, face=face, fall_mm=fall_mm)):
        ends = [ShapelyPoint(point).distance(ShapelyPoint(arc.centre)) for point in (arc.start, arc.end)]
        assert ends == pytest.approx([arc.radius_mm] * 2)
        assert arc.radius_mm == 5


@pytest.mark.parametrize(("face", "fall_mm"), BEVELS)
def test_a_chamfer_takes_its_leg_off_side_and_face(face: FaceShape, fall_mm: float) -> None:
    profile = mill(sight=Edge(shape=EdgeShape.CHAMFER, size_mm=5), face=face, fall_mm=fall_mm)
    corner = (WIDTH_MM, HEIGHT_MM - (fall_mm if face is FaceShape.TOWARD else 0))
    chamfer = profile.shaped[0]
    assert [hypot(x - corner[0], y - corner[1]) for x, y in (chamfer.start, chamfer.end)] == pytest.approx([5, 5])


def test_two_round_overs_may_meet_in_a_full_round() -> None:
    half = Edge(shape=EdgeShape.ROUND, size_mm=10)
    profile = mill(sight=half, back=half, width_mm=20)
    assert len(profile.shaped) == 2
    assert area_mm2(blank(profile, 20)) == pytest.approx(20 * 15 + pi * 100 / 2)


@pytest.mark.parametrize("shape", [EdgeShape.COVE, EdgeShape.STEP])
def test_hollow_shapes_that_meet_are_refused(shape: EdgeShape) -> None:
    half = Edge(shape=shape, size_mm=10)
    with pytest.raises(ImpossibleSection, match=f"{shape} of 10 mm .* take the face, 20 mm: enter under 10 mm"):
        mill(sight=half, back=half, width_mm=20)


def test_a_bead_wider_than_the_face_is_refused_with_the_size_that_fits() -> None:
    """A bead and its quirks are two and a half radii wide."""
    with pytest.raises(
        ImpossibleSection, match="A bead of 10 mm on the sight edge takes the face, 20 mm: enter under 8 mm"
    ):
        mill(sight=Edge(shape=EdgeShape.BEAD, size_mm=10), width_mm=20)
    with pytest.raises(ImpossibleSection, match="enter under 8 mm"):
        mill(sight=Edge(shape=EdgeShape.BEAD, size_mm=10), width_mm=20)
    assert mill(sight=Edge(shape=EdgeShape.BEAD, size_mm=7.999), width_mm=20)


def test_shapes_that_together_take_the_face_are_refused_beside_the_larger() -> None:
    cove, step = Edge(shape=EdgeShape.COVE, size_mm=9), Edge(shape=EdgeShape.STEP, size_mm=12)
    with pytest.raises(ImpossibleSection) as refusal:
        mill(sight=cove, back=step, width_mm=20)
    assert refusal.value.field == "back_edge_mm"
    assert refusal.value.sentence == (
        "A step of 12 mm on the back edge and a cove of 9 mm on the sight edge take the face, 20 mm: "
        "enter under 11 mm on the back edge."
    )


@pytest.mark.parametrize("inch_mm", [1.0, 25.4])
@pytest.mark.parametrize("shape", SHAPED)
@pytest.mark.parametrize(("face", "fall_mm"), BEVELS)
def test_the_size_that_a_refusal_names_is_the_largest_that_does(
    shape: EdgeShape, face: FaceShape, fall_mm: float, inch_mm: float
) -> None:
    """The sentence is tried: a hair under its limit mills, a hair over it does not."""
    size_mm, floor_mm = 2 * inch_mm + 30, 14.0
    with pytest.raises(ImpossibleSection) as refusal:
        mill(sight=Edge(shape=shape, size_mm=size_mm), face=face, fall_mm=fall_mm, floor_mm=floor_mm)
    limit_mm = refusal.value.lengths["limit"]
    assert refusal.value.field == "sight_edge_mm"
    assert mill(sight=Edge(shape=shape, size_mm=limit_mm - 1e-3), face=face, fall_mm=fall_mm, floor_mm=floor_mm)
    with pytest.raises(ImpossibleSection):
        mill(sight=Edge(shape=shape, size_mm=limit_mm + 1e-3), face=face, fall_mm=fall_mm, floor_mm=floor_mm)


@pytest.mark.parametrize("size_mm", [0.0, -1.0, float("nan"), float("inf")])
@pytest.mark.parametrize(("edge_name", "field"), [("sight", "sight_edge_mm"), ("back", "back_edge_mm")])
def test_a_shape_without_a_size_is_refused(size_mm: float, edge_name: str, field: str) -> None:
    with pytest.raises(OutOfRange) as refusal:
        mill(**{edge_name: Edge(shape=EdgeShape.ROUND, size_mm=size_mm)})  # type: ignore[arg-type]
    assert refusal.value.field == field


def test_a_square_edge_heeds_no_size() -> None:
    assert mill(sight=Edge(shape=EdgeShape.SQUARE, size_mm=0)) == mill()


@pytest.mark.parametrize(
    ("face", "fall_mm", "floor_mm", "says"),
    [
        (FaceShape.TOWARD, 8, 17, "No lip left: enter a fall under 8 mm, not 8 mm."),
        (FaceShape.AWAY, 25, 17, "No outer side left: enter a fall under 25 mm"),
        (FaceShape.AWAY, 40, 17, "Face steeper than 45°: enter a fall under 40 mm"),
        (FaceShape.TOWARD, 0, 17, "Enter more than 0 mm for the face drop"),
    ],
)
def test_a_face_that_falls_too_far_is_refused(face: FaceShape, fall_mm: float, floor_mm: float, says: str) -> None:
    with pytest.raises(FrameCalcError) as refusal:
        mill(face=face, fall_mm=fall_mm, floor_mm=floor_mm)
    assert refusal.value.field == "face_drop_mm"
    assert refusal.value.sentence.startswith(says)


def test_an_arris_is_named_with_its_own_article() -> None:
    with pytest.raises(ImpossibleSection, match="No lip left of 8 mm: enter an arris under 8 mm, not 9 mm"):
        mill(sight=Edge(shape=EdgeShape.ARRIS, size_mm=9), floor_mm=17)


def _arcs(profile: Profile) -> list[Arc]:
    return [segment for segment in profile.shaped if isinstance(segment, Arc)]
