"""Outlines against closed formulas and against Shapely, which flattens arcs by itself."""

from math import cos, hypot, pi, radians, sin, sqrt

import pytest
from shapely import LineString, Polygon

from framecalc.geometry.outline import (
    Arc,
    Outline,
    Point,
    Segment,
    area_mm2,
    bounds,
    centroid,
    flatten,
    height_at,
    join,
    lowest_point,
    moved,
    sweep_rad,
    turned_over,
)


def arc(*, centre: Point = (0, 0), radius_mm: float, from_deg: float, to_deg: float, turns_left: bool = True) -> Arc:
    start, end = (
        (centre[0] + radius_mm * cos(radians(deg)), centre[1] + radius_mm * sin(radians(deg)))
        for deg in (from_deg, to_deg)
    )
    return Arc(start=start, end=end, centre=centre, radius_mm=radius_mm, turns_left=turns_left)


def circle(*, centre: Point = (0, 0), radius_mm: float, from_deg: float = 0) -> Outline:
    """A full circle of two arcs, of 250 and 110 degrees, so that one of them is more than half a turn."""
    middle_deg = from_deg + 250
    return Outline(
        segments=(
            arc(centre=centre, radius_mm=radius_mm, from_deg=from_deg, to_deg=middle_deg),
            arc(centre=centre, radius_mm=radius_mm, from_deg=middle_deg, to_deg=from_deg + 360),
        )
    )


def half_disc(radius_mm: float) -> Outline:
    return Outline(
        segments=(arc(radius_mm=radius_mm, from_deg=0, to_deg=180), *join([(-radius_mm, 0), (radius_mm, 0)]))
    )


def bitten_square() -> Outline:
    """A square of 10 with a quarter circle of 4 bitten out of its upper right corner."""
    bite = arc(centre=(10, 10), radius_mm=4, from_deg=270, to_deg=180, turns_left=False)
    return Outline(segments=(*join([(0, 0), (10, 0), (10, 6)]), bite, *join([(6, 10), (0, 10), (0, 0)])))


OUTLINES = {"circle": circle(centre=(7, 3), radius_mm=5, from_deg=20), "half": half_disc(6), "bitten": bitten_square()}


@pytest.mark.parametrize("from_deg", [0, 20, 90, 135, 200])
def test_a_circle_has_its_area_centre_and_bounds(from_deg: float) -> None:
    disc = circle(centre=(7, 3), radius_mm=5, from_deg=from_deg)
    assert area_mm2(disc) == pytest.approx(pi * 25)
    assert centroid(disc) == pytest.approx((7, 3))
    box = bounds(disc.segments)
    assert (box.left_mm, box.bottom_mm, box.right_mm, box.top_mm) == pytest.approx((2, -2, 12, 8))


def test_a_half_disc_has_its_centroid_where_the_handbooks_put_it() -> None:
    """4r/3π above the diameter: geometry identity, in every table of centroids."""
    assert centroid(half_disc(6)) == pytest.approx((0, 4 * 6 / (3 * pi)))


def test_a_quarter_bitten_out_is_taken_off_the_area() -> None:
    assert area_mm2(bitten_square()) == pytest.approx(100 - pi * 16 / 4)


@pytest.mark.parametrize(
    ("from_deg", "to_deg", "turns_left", "sweep_deg"),
    [(0, 90, True, 90), (0, 90, False, -270), (170, -170, True, 20), (-170, 170, False, -20), (30, 300, True, 270)],
)
def test_a_sweep_has_the_sign_of_its_turn(from_deg: float, to_deg: float, turns_left: bool, sweep_deg: float) -> None:
    turned = sweep_rad(arc(radius_mm=2, from_deg=from_deg, to_deg=to_deg, turns_left=turns_left))
    assert turned == pytest.approx(radians(sweep_deg))


@pytest.mark.parametrize("name", OUTLINES)
@pytest.mark.parametrize("tolerance_mm", [1.0, 0.1, 0.001])
def test_flattened_arcs_stay_within_the_tolerance(name: str, tolerance_mm: float) -> None:
    outline = OUTLINES[name]
    points = flatten(outline, tolerance_mm=tolerance_mm)
    fine = Polygon(flatten(outline, tolerance_mm=1e-6))
    assert Polygon(points).is_valid
    assert Polygon(points).exterior.is_ccw
    assert fine.exterior.hausdorff_distance(Polygon(points).exterior) <= tolerance_mm + 1e-5


@pytest.mark.parametrize("name", OUTLINES)
def test_area_and_centroid_are_those_of_the_flattened_polygon_as_it_grows_finer(name: str) -> None:
    outline = OUTLINES[name]
    misses = [
        abs(Polygon(flatten(outline, tolerance_mm=tolerance_mm)).area - area_mm2(outline))
        for tolerance_mm in (0.1, 0.001, 1e-6)
    ]
    assert misses[0] > misses[1] > misses[2]
    assert misses[2] < 1e-4
    exact = Polygon(flatten(outline, tolerance_mm=1e-6)).centroid
    assert centroid(outline) == pytest.approx((exact.x, exact.y), abs=1e-5)


@pytest.mark.parametrize("quarter_deg", [0, 90, 180, 270])
@pytest.mark.parametrize("turns_left", [True, False])
def test_a_short_arc_reaches_as_far_as_its_circle_where_it_runs_level_or_upright(
    quarter_deg: int, turns_left: bool
) -> None:
    from_deg, to_deg = (quarter_deg - 20, quarter_deg + 5) if turns_left else (quarter_deg + 20, quarter_deg - 5)
    box = bounds((arc(radius_mm=10, from_deg=from_deg, to_deg=to_deg, turns_left=turns_left),))
    reaches = {0: box.right_mm, 90: box.top_mm, 180: -box.left_mm, 270: -box.bottom_mm}
    assert reaches[quarter_deg] == pytest.approx(10)


@pytest.mark.parametrize("name", OUTLINES)
def test_bounds_are_those_of_the_flattened_polygon(name: str) -> None:
    box = bounds(OUTLINES[name].segments)
    assert (box.left_mm, box.bottom_mm, box.right_mm, box.top_mm) == pytest.approx(
        Polygon(flatten(OUTLINES[name], tolerance_mm=1e-7)).bounds, abs=1e-5
    )


@pytest.mark.parametrize("name", OUTLINES)
def test_turning_over_keeps_the_area_and_turning_twice_gives_the_same_back(name: str) -> None:
    outline = OUTLINES[name]
    turned = Outline(segments=turned_over(outline.segments))
    assert area_mm2(turned) == pytest.approx(area_mm2(outline))
    assert centroid(turned) == pytest.approx((-centroid(outline)[0], centroid(outline)[1]))
    assert turned_over(turned.segments) == outline.segments


@pytest.mark.parametrize("name", OUTLINES)
def test_moving_keeps_the_area_and_moves_the_centroid(name: str) -> None:
    outline = OUTLINES[name]
    shifted = Outline(segments=moved(outline.segments, by=(100, -50)))
    assert area_mm2(shifted) == pytest.approx(area_mm2(outline))
    assert centroid(shifted) == pytest.approx((centroid(outline)[0] + 100, centroid(outline)[1] - 50))


@pytest.mark.parametrize("x_mm", [-5.0, -2.0, 0.0, 1.0, 4.9, 5.0])
def test_a_circle_is_as_high_as_its_chord(x_mm: float) -> None:
    assert height_at(circle(radius_mm=5, from_deg=33), x_mm) == pytest.approx(2 * sqrt(25 - x_mm**2), abs=1e-4)


@pytest.mark.parametrize("name", OUTLINES)
@pytest.mark.parametrize("share_ratio", [0.05, 0.31, 0.5, 0.77, 0.93])
def test_heights_are_those_that_shapely_cuts(name: str, share_ratio: float) -> None:
    outline = OUTLINES[name]
    box = bounds(outline.segments)
    x_mm = box.left_mm + share_ratio * (box.right_mm - box.left_mm)
    upright = LineString([(x_mm, box.bottom_mm - 1), (x_mm, box.top_mm + 1)])
    cut_mm = Polygon(flatten(outline, tolerance_mm=1e-7)).intersection(upright).length
    assert height_at(outline, x_mm) == pytest.approx(cut_mm, abs=1e-4)


def test_only_the_topmost_wood_counts_above_a_void() -> None:
    clamp = join([(0, 0), (9, 0), (9, 2), (3, 2), (3, 6), (9, 6), (9, 10), (0, 10), (0, 0)])
    assert height_at(Outline(segments=clamp), 6) == pytest.approx(4)


def test_at_a_jump_the_lower_side_counts() -> None:
    stair = Outline(segments=join([(0, 0), (6, 0), (6, 2), (3, 2), (3, 5), (0, 5), (0, 0)]))
    assert (height_at(stair, 3), height_at(stair, 6)) == (2, 2)


@pytest.mark.parametrize("x_mm", [-0.1, 10.1])
def test_a_height_beside_the_outline_is_refused(x_mm: float) -> None:
    with pytest.raises(ValueError, match="does not reach"):
        height_at(bitten_square(), x_mm)


def test_the_lowest_point_of_a_hollow_arc_is_found_between_its_ends() -> None:
    hollow: tuple[Segment, ...] = (arc(centre=(0, 10), radius_mm=4, from_deg=-10, to_deg=-170, turns_left=False),)
    assert lowest_point(hollow, from_mm=-3, to_mm=3) == pytest.approx((0, 6))
    assert lowest_point(hollow, from_mm=1, to_mm=3) == pytest.approx((1, 10 - sqrt(15)))


def test_of_equally_low_points_the_rightmost_is_taken() -> None:
    assert lowest_point(join([(9, 4), (0, 4)]), from_mm=2, to_mm=7) == (7, 4)


def test_a_chain_outside_the_range_is_refused() -> None:
    with pytest.raises(ValueError, match="does not reach"):
        lowest_point(join([(9, 4), (5, 4)]), from_mm=0, to_mm=3)


def test_an_outline_with_a_gap_is_refused() -> None:
    with pytest.raises(ValueError, match="an outline is closed"):
        Outline(segments=join([(0, 0), (4, 0), (4, 3)]))


@pytest.mark.parametrize("tolerance_mm", [0, -1, float("nan")])
def test_flattening_to_no_tolerance_is_refused(tolerance_mm: float) -> None:
    with pytest.raises(ValueError, match="Enter a tolerance of more than 0 mm, not"):
        flatten(half_disc(3), tolerance_mm=tolerance_mm)


def test_every_flattened_point_of_an_arc_lies_on_its_circle() -> None:
    points = flatten(circle(centre=(7, 3), radius_mm=5), tolerance_mm=0.05)
    assert [hypot(x - 7, y - 3) for x, y in points] == pytest.approx([5] * len(points))
