"""Parallel outlines against Shapely's buffer, by cutting with a round kerf, and where there is no room for one."""

from math import acos, atan2, cos, hypot, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LinearRing, LineString, Point, Polygon

from framecalc.errors import ImpossibleSize
from framecalc.geometry.offset import parallel
from framecalc.geometry.outline import Arc, Line, Outline, area_mm2, flatten, join
from framecalc.sizes.polygons import polygon_corners
from framecalc.templates.shapes import box, disc, polygon

FINE_MM = 0.0002
KERFS_MM = [0.08, 0.2, 1.5]

RECTANGLE = box(0, 0, 60, 40)
HEXAGON = polygon(polygon_corners(80, sides=6))
ARCH = polygon([(0, 0), (22, 0), (22, 5), (40, 5), (40, 0), (62, 0), (62, 27), (0, 27)])
DISC = disc((3, 4), across_mm=8)
ROUNDED = Outline(
    segments=(
        *join([(5, 0), (45, 0)]),
        Arc(start=(45, 0), end=(50, 5), centre=(45, 5), radius_mm=5, turns_left=True),
        *join([(50, 5), (50, 12)]),
        Arc(start=(50, 12), end=(50, 28), centre=(50, 20), radius_mm=8, turns_left=False),
        *join([(50, 28), (50, 40), (0, 40), (0, 5)]),
        Arc(start=(0, 5), end=(5, 0), centre=(5, 5), radius_mm=5, turns_left=True),
    )
)
SHAPES = {"rectangle": RECTANGLE, "hexagon": HEXAGON, "arch": ARCH, "disc": DISC, "rounded": ROUNDED}


def flat(outline: Outline) -> Polygon:
    return Polygon(flatten(outline, tolerance_mm=FINE_MM))


@pytest.mark.parametrize("name", SHAPES)
@pytest.mark.parametrize("by_mm", [sign * kerf / 2 for kerf in KERFS_MM for sign in (1, -1)])
def test_it_is_what_shapely_makes_of_it(name: str, by_mm: float) -> None:
    outline = SHAPES[name]
    ours, theirs = flat(parallel(outline, by_mm=by_mm)), flat(outline).buffer(by_mm, quad_segs=128)
    assert ours.is_valid
    assert ours.hausdorff_distance(theirs) < 0.005
    assert ours.area == pytest.approx(theirs.area, abs=0.001 * theirs.length)


@pytest.mark.parametrize("kerf_mm", KERFS_MM)
def test_a_part_without_inner_corners_grows_by_its_edge_and_a_disc(kerf_mm: float) -> None:
    """The area of a parallel body: A + P · d + π d²."""
    by_mm, edge_mm = kerf_mm / 2, flat(HEXAGON).length
    wanted = area_mm2(HEXAGON) + edge_mm * by_mm + pi * by_mm**2
    assert area_mm2(parallel(HEXAGON, by_mm=by_mm)) == pytest.approx(wanted, abs=1e-6)


def lens(one: tuple[float, float], one_mm: float, other: tuple[float, float], other_mm: float) -> Outline:
    """What two discs share: their circles cross where the triangle of both radii and the centres has its top."""
    across, up = other[0] - one[0], other[1] - one[1]
    apart, toward = hypot(across, up), atan2(up, across)
    half = acos((apart**2 + one_mm**2 - other_mm**2) / (2 * apart * one_mm))
    low, high = ((one[0] + one_mm * cos(at), one[1] + one_mm * sin(at)) for at in (toward - half, toward + half))
    return Outline(
        segments=(
            Arc(start=low, end=high, centre=one, radius_mm=one_mm, turns_left=True),
            Arc(start=high, end=low, centre=other, radius_mm=other_mm, turns_left=True),
        )
    )


@pytest.mark.parametrize("by_mm", [-0.1, -1.5])
@pytest.mark.parametrize("other", [(25.0, 10.0), (-10.0, 25.0), (-25.0, -10.0)])
def test_inside_two_discs_lie_two_smaller_discs(other: tuple[float, float], by_mm: float) -> None:
    inside = flat(parallel(lens((0, 0), 30, other, 20), by_mm=by_mm))
    one, two = (Point(at).buffer(r + by_mm, quad_segs=256) for at, r in (((0, 0), 30), (other, 20)))
    assert inside.hausdorff_distance(one.intersection(two)) < 0.01


@pytest.mark.parametrize("name", SHAPES)
@pytest.mark.parametrize("kerf_mm", KERFS_MM)
def test_a_round_beam_along_it_leaves_the_part_at_its_size(name: str, kerf_mm: float) -> None:
    outline = SHAPES[name]
    path = flat(parallel(outline, by_mm=kerf_mm / 2))
    swept = LinearRing(path.exterior.coords).buffer(kerf_mm / 2, quad_segs=128)
    left = path.difference(swept)
    wanted = flat(outline)
    inner_corner_mm2 = (1 - pi / 4) * (kerf_mm / 2) ** 2
    assert left.difference(wanted.buffer(0.01)).area < 2 * inner_corner_mm2 + 0.01
    assert left.bounds == pytest.approx(wanted.bounds, abs=0.02)
    assert wanted.difference(left.buffer(0.01)).area < 0.01


@pytest.mark.parametrize("name", ["rectangle", "hexagon", "disc"])
@pytest.mark.parametrize("kerf_mm", KERFS_MM)
def test_a_round_beam_inside_a_hole_opens_it_to_its_size(name: str, kerf_mm: float) -> None:
    wanted = flat(SHAPES[name])
    path = flat(parallel(SHAPES[name], by_mm=-kerf_mm / 2))
    opened = path.union(LinearRing(path.exterior.coords).buffer(kerf_mm / 2, quad_segs=128))
    reached = wanted.buffer(-kerf_mm / 2, quad_segs=128).buffer(kerf_mm / 2, quad_segs=128)  # a round beam's corners
    assert opened.hausdorff_distance(reached) < 0.01
    assert opened.difference(wanted.buffer(0.01)).area < 0.01


@pytest.mark.parametrize("kerf_mm", KERFS_MM)
def test_a_window_cut_with_a_round_beam_is_as_wide_and_high_as_drawn(kerf_mm: float) -> None:
    path = flat(parallel(RECTANGLE, by_mm=-kerf_mm / 2))
    opened = path.union(LinearRing(path.exterior.coords).buffer(kerf_mm / 2, quad_segs=128))
    assert opened.bounds == pytest.approx((0, 0, 60, 40), abs=0.02)


def test_arcs_stay_arcs() -> None:
    radii = sorted(one.radius_mm for one in parallel(ROUNDED, by_mm=0.5).segments if isinstance(one, Arc))
    assert radii == pytest.approx([0.5, 0.5, 0.5, 0.5, 5.5, 5.5, 7.5])  # four corners open, two are round, one bay
    assert {one.radius_mm for one in parallel(DISC, by_mm=-0.5).segments if isinstance(one, Arc)} == {3.5}


@given(across_mm=st.floats(5, 500), up_mm=st.floats(5, 500), kerf_mm=st.floats(0.01, 2), sides=st.integers(3, 24))
def test_out_and_back_in_is_where_it_was(across_mm: float, up_mm: float, kerf_mm: float, sides: int) -> None:
    for outline in (box(0, 0, across_mm, up_mm), polygon(polygon_corners(across_mm, sides=sides))):
        inside = parallel(outline, by_mm=-kerf_mm / 2)
        assert len(inside.segments) == len(outline.segments)
        back = flat(outline).exterior
        for segment in inside.segments:
            assert isinstance(segment, Line)
            assert LineString([segment.start, segment.end]).distance(back) == pytest.approx(kerf_mm / 2, abs=0.001)


def test_no_distance_leaves_it_as_it_is() -> None:
    assert parallel(ARCH, by_mm=0) is ARCH


@pytest.mark.parametrize(
    ("outline", "by_mm"),
    [
        (box(0, 0, 60, 1), -0.5),
        (box(0, 0, 60, 1), -0.7),
        (disc((0, 0), across_mm=1), -0.5),
        (polygon([(0, 0), (10, 0), (10, 5), (10.2, 5), (10.2, 0), (20, 0), (20, 20), (0, 20)]), 0.15),
        (polygon([(0, 0), (30, 0), (30, 2), (20, 2), (20, 20), (0, 20)]), -1.2),
    ],
)
def test_what_is_too_narrow_is_refused(outline: Outline, by_mm: float) -> None:
    with pytest.raises(ImpossibleSize, match="narrower than the cut"):
        parallel(outline, by_mm=by_mm)


def test_the_distance_is_kept_everywhere() -> None:
    ring = flat(ROUNDED).exterior
    for by_mm in (0.3, -0.3):
        for point in flatten(parallel(ROUNDED, by_mm=by_mm), tolerance_mm=FINE_MM):
            assert ring.distance(Point(point)) == pytest.approx(0.3, abs=0.001)
