"""Cutters that a shop owns: each takes what its shape says, compared with polygons of a library, and leaves a side."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Geometry, Polygon, box
from shapely import Point as Place

from framecalc.bench.cutters import CutPlace as Where
from framecalc.bench.cutters import Cutter, CutterKind, ProfileCut, cutter_for, makes_radius, nearest_of, profile_cuts
from framecalc.bench.face_cells import FaceInCells
from framecalc.geometry.outline import flatten
from framecalc.section.profile import Edge, EdgeShape, FaceShape
from framecalc.section.rabbeted import Section, milled_section

MADE = (EdgeShape.ROUND, EdgeShape.COVE, EdgeShape.CHAMFER, EdgeShape.STEP)
ALL = tuple(Cutter(kind=kind, size_mm=6, has_bearing=kind is CutterKind.ROUND_OVER) for kind in CutterKind)


def section(*, sight: Edge, outer: Edge, face: FaceShape = FaceShape.FLAT) -> Section:
    return milled_section(
        face_width_mm=40,
        thickness_mm=24,
        rabbet_width_mm=7,
        rabbet_depth_mm=10,
        sight_edge=sight,
        back_edge=outer,
        face=face,
        face_drop_mm=2,
    )


def polygon(of: Section) -> Polygon:
    return Polygon(flatten(of.outline, tolerance_mm=0.001))


def taken_by(shape: str, size_mm: float, where: Where) -> Geometry:
    """What a cutter of this shape takes off an edge of the square blank."""
    right = where is Where.SIGHT
    x_mm = 40 if right else 0
    inner_mm = x_mm - size_mm if right else x_mm + size_mm
    corner = box(min(x_mm, inner_mm), 24 - size_mm, max(x_mm, inner_mm), 24)
    if shape == EdgeShape.ROUND.value:
        return corner.difference(Place(inner_mm, 24 - size_mm).buffer(size_mm, quad_segs=400))
    if shape == EdgeShape.COVE.value:
        return corner.intersection(Place(x_mm, 24).buffer(size_mm, quad_segs=400))
    if shape == EdgeShape.CHAMFER.value:
        return Polygon([(x_mm, 24 - size_mm), (x_mm, 24), (inner_mm, 24)])
    return corner


edges = st.builds(lambda shape, size_mm: Edge(shape=shape, size_mm=size_mm), st.sampled_from(MADE), st.floats(1, 9))


@given(sight=edges, outer=edges, is_rabbeted=st.booleans())
def test_each_cut_takes_the_shape_of_its_cutter_and_the_last_leaves_the_section(
    sight: Edge, outer: Edge, is_rabbeted: bool
) -> None:
    whole = section(sight=sight, outer=outer)
    cuts = profile_cuts(whole, cutters=ALL, is_rabbeted=is_rabbeted)
    assert {cut.place for cut in cuts} == {Where.SIGHT, Where.OUTER}
    for cut in cuts:
        took = polygon(cut.before).difference(polygon(cut.after))
        assert took.symmetric_difference(taken_by(cut.shape, cut.size_mm, cut.place)).area < 0.1
        floor_mm = 10 if is_rabbeted and cut.place is Where.SIGHT else 0
        assert cut.bearing_mm == pytest.approx(24 - cut.size_mm - floor_mm)
        assert cut.height_mm == pytest.approx(cut.size_mm) == pytest.approx(cut.out_mm)
    assert cuts[-1].after == whole and cuts[0].after == cuts[1].before


def test_a_bearing_guides_only_where_a_side_is_left_for_it() -> None:
    square = Edge(shape=EdgeShape.SQUARE, size_mm=1)

    def cut(size_mm: float, *, is_rabbeted: bool) -> ProfileCut:
        owned = [Cutter(kind=CutterKind.ROUND_OVER, size_mm=size_mm, has_bearing=True)]
        of = section(sight=Edge(shape=EdgeShape.ROUND, size_mm=size_mm), outer=square)
        return profile_cuts(of, cutters=owned, is_rabbeted=is_rabbeted)[0]

    assert cut(8, is_rabbeted=True).rolls
    assert not cut(8.5, is_rabbeted=True).rolls, "5.5 mm is too little"
    assert cut(8.5, is_rabbeted=False).rolls, "before the rabbet the whole side is there"


def test_a_shape_that_ends_in_a_wall_comes_before_one_that_runs_out() -> None:
    of = section(sight=Edge(shape=EdgeShape.COVE, size_mm=4), outer=Edge(shape=EdgeShape.ROUND, size_mm=4))
    assert [cut.place for cut in profile_cuts(of, cutters=(), is_rabbeted=True)] == [Where.SIGHT, Where.OUTER]


@pytest.mark.parametrize(
    ("shape", "size_mm", "kind"),
    [
        (EdgeShape.ROUND, 6, CutterKind.ROUND_OVER),
        (EdgeShape.ROUND, 5, None),
        (EdgeShape.COVE, 6, CutterKind.COVE),
        (EdgeShape.COVE, 3, CutterKind.ROUND_NOSE),
        (EdgeShape.CHAMFER, 4, CutterKind.CHAMFER),
        (EdgeShape.CHAMFER, 7, None),
        (EdgeShape.STEP, 5, CutterKind.STRAIGHT),
        (EdgeShape.BEAD, 6, CutterKind.BEAD),
        (EdgeShape.BEAD, 5, None),
    ],
)
def test_only_a_cutter_that_makes_the_shape_is_named(shape: EdgeShape, size_mm: float, kind: CutterKind | None) -> None:
    found = cutter_for(Edge(shape=shape, size_mm=size_mm), ALL)
    assert (found.kind if found else None) == kind


@pytest.mark.parametrize("radius_mm", [2.0, 3.5])
def test_a_bead_is_cut_as_far_in_as_its_quirks_go_and_no_deeper(radius_mm: float) -> None:
    bead, square = Edge(shape=EdgeShape.BEAD, size_mm=radius_mm), Edge(shape=EdgeShape.SQUARE, size_mm=1)
    (cut,) = profile_cuts(section(sight=bead, outer=square), cutters=ALL, is_rabbeted=True)
    taken = polygon(cut.before).difference(polygon(cut.after))
    left_mm, low_mm, right_mm, high_mm = taken.bounds
    assert right_mm - left_mm == pytest.approx(cut.out_mm) and high_mm - low_mm == pytest.approx(cut.height_mm)
    assert cut.cutter is None and cut.nearest is not None and cut.nearest.kind is CutterKind.BEAD


def test_a_cutter_makes_its_radius_as_far_as_an_eye_sees_and_else_the_nearest_is_named() -> None:
    rounds = [Cutter(kind=CutterKind.ROUND_OVER, size_mm=size_mm, has_bearing=True) for size_mm in (3, 10, 6)]
    cove = Cutter(kind=CutterKind.COVE, size_mm=7, has_bearing=True)
    kinds = (CutterKind.ROUND_OVER,)
    for radius_mm, made in ((6.049, rounds[2]), (5.951, rounds[2]), (6.051, None), (5.949, None), (7, None)):
        assert makes_radius(kinds, radius_mm, [*rounds, cove]) == made
    chamfer = Cutter(kind=CutterKind.CHAMFER, size_mm=8, has_bearing=True)
    for size_mm, made in ((3, chamfer), (8.04, chamfer), (8.06, None)):
        assert cutter_for(Edge(shape=EdgeShape.CHAMFER, size_mm=size_mm), [cove, chamfer]) == made
    for radius_mm, nearest in ((7, rounds[2]), (9, rounds[1]), (1, rounds[0])):
        assert nearest_of(kinds, radius_mm, [cove, *rounds]) == nearest


@pytest.mark.parametrize(("where", "from_mm", "further_mm"), [(Where.OUTER, 1, 10), (Where.SIGHT, 39, 30)])
def test_a_cutter_comes_in_from_a_side_that_nothing_stands_higher_on(
    where: Where, from_mm: float, further_mm: float
) -> None:
    """A round of 6 mm on both edges of a face 24 mm up: a millimetre in it is 3.3 mm up, ten in it is level."""
    rounded = Edge(shape=EdgeShape.ROUND, size_mm=6)
    face = FaceInCells(section(sight=rounded, outer=rounded))
    opens = [face.is_open(where, from_mm=at_mm, low_mm=21.4) for at_mm in (from_mm, further_mm)]
    assert opens == [True, False] and face.out_mm(where, from_mm) == 1
