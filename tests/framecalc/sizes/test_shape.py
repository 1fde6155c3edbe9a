"""The shape of a frame: outlines against Shapely, sides that slope against vectors in space."""

from itertools import pairwise
from math import acos, cos, degrees, dist, pi, radians, sin, sqrt, tan

import pytest
from shapely import Point as Spot
from shapely import Polygon, box

from framecalc.errors import FrameCalcError
from framecalc.sizes.chain import Sizes, fit_to_the_tape, sizes_around, sizes_within
from framecalc.sizes.members import members_of, mitre_length_mm, slant_kerf_mm
from framecalc.sizes.shape import Shape

SIDES = [3, 4, 5, 6, 7, 8, 12, 24]
SLOPES = [0.0, 1.0, 20.0, 38.0, 60.0, 89.0]
Vector = tuple[float, float, float]


def around(shape: Shape, *, across_mm: float = 415.0, up_mm: float = 415.0) -> Sizes:
    return sizes_around(
        package_across_mm=across_mm,
        package_up_mm=up_mm,
        clearance_across_mm=3,
        clearance_up_mm=3,
        rabbet_width_mm=7,
        face_width_mm=48,
        shape=shape,
    )


@pytest.mark.parametrize("sides", SIDES)
def test_area_extent_edges_and_inradius_are_those_that_shapely_finds(sides: int) -> None:
    shape = Shape(sides=sides)
    outline, extent = Polygon(shape.corners(300, 300)), shape.extent(300, 300)
    left, bottom, right, top = outline.bounds
    assert shape.area_mm2(300, 300) == pytest.approx(outline.area)
    assert (extent.across_mm, extent.up_mm) == pytest.approx((right - left, top - bottom))
    assert extent.below_mm == pytest.approx(-bottom)
    assert outline.exterior.distance(Spot(0, 0)) == pytest.approx(150)
    assert sum(shape.edges_mm(300, 300)) == pytest.approx(outline.length)
    assert shape.corner_to_corner_mm(300, 300) == pytest.approx(2 * dist((0, 0), outline.exterior.coords[0]))


def test_a_rectangle_is_as_wide_and_as_high_as_it_is() -> None:
    shape = Shape()
    outline, extent = Polygon(shape.corners(300, 400)), shape.extent(300, 400)
    assert outline.equals(box(-150, -200, 150, 200)) and shape.area_mm2(300, 400) == outline.area
    assert (extent.across_mm, extent.up_mm, extent.below_mm) == (300, 400, 200)
    assert shape.edges_mm(300, 400) == (300, 400, 300, 400)


@pytest.mark.parametrize("sides", SIDES)
def test_the_rings_of_a_frame_lie_as_far_apart_as_its_widths(sides: int) -> None:
    shape = Shape(sides=sides)
    sizes = around(shape)
    outside, rabbet, sight = (
        Polygon(shape.corners(flats_mm, flats_mm))
        for flats_mm in (sizes.outside_across_mm, sizes.rabbet_across_mm, sizes.sight_across_mm)
    )
    assert outside.exterior.distance(sight) == pytest.approx(48)
    assert rabbet.exterior.distance(sight) == pytest.approx(7)
    assert outside.buffer(-48, join_style="mitre", mitre_limit=99).symmetric_difference(sight).area < 1e-3
    assert rabbet.exterior.distance(Spot(0, 0)) == pytest.approx(209)
    for member in members_of(sizes):
        assert member.count * member.long_mm == pytest.approx(outside.length * member.count / sides)
        assert member.count * member.short_mm == pytest.approx(sight.length * member.count / sides)


def test_a_hexagon_is_as_wide_as_its_corners_and_as_high_as_its_flats() -> None:
    """12.99 in across the flats is 15 in across the corners; a rectangle of 12 × 12 is no hexagon."""
    extent = Shape(sides=6).extent(7.5 * sqrt(3) * 25.4, 7.5 * sqrt(3) * 25.4)
    assert (extent.across_mm / 25.4, extent.up_mm / 25.4) == pytest.approx((15.0, 12.99), abs=5e-3)


def _corner(flats_mm: float, sides: int, height_mm: float) -> Vector:
    """Where two sides meet at a height above the wall."""
    radius_mm = flats_mm / 2 / cos(pi / sides)
    return radius_mm * cos(pi / sides), radius_mm * sin(pi / sides), height_mm


def _angle_deg(at: Vector, one: Vector, other: Vector) -> float:
    to_one, to_other = (tuple(b - a for a, b in zip(at, end, strict=True)) for end in (one, other))
    product = sum(a * b for a, b in zip(to_one, to_other, strict=True))
    return degrees(acos(product / dist(at, one) / dist(at, other)))


@pytest.mark.parametrize("sides", SIDES)
@pytest.mark.parametrize("slope_deg", SLOPES)
def test_a_sloping_side_is_the_trapezoid_that_stands_in_space(sides: int, slope_deg: float) -> None:
    """The four corners of one face are placed in space; its edges, its width and its angles are measured there."""
    shape = Shape(sides=sides, slope_deg=slope_deg)
    sizes = around(shape)
    rise_mm = 48 * sin(radians(slope_deg))
    tip, short = _corner(sizes.outside_across_mm, sides, 0.0), _corner(sizes.sight_across_mm, sides, rise_mm)
    other_tip, other_short = ((x, -y, z) for x, y, z in (tip, short))
    side = members_of(sizes)[0]
    assert dist(tip, other_tip) == pytest.approx(side.long_mm)
    assert dist(short, other_short) == pytest.approx(side.short_mm)
    assert dist((tip[0], 0, 0), (short[0], 0, rise_mm)) == pytest.approx(side.width_mm) == pytest.approx(48)
    assert _angle_deg(tip, other_tip, short) == pytest.approx(shape.end_deg)
    assert dist(tip, short) == pytest.approx(mitre_length_mm(48, shape=shape))
    assert shape.rise_mm(48) == pytest.approx(rise_mm)


@pytest.mark.parametrize("slope_deg", SLOPES)
def test_the_package_of_a_sloping_frame_has_the_clearance_asked_for(slope_deg: float) -> None:
    """Fault: a frame of sloping sides was set out flat, and 3 mm of play became 7.9 mm."""
    sizes = around(Shape(slope_deg=slope_deg), up_mm=315.0)
    wall_mm = sizes.outside_across_mm - 2 * (48 - 7) * cos(radians(slope_deg))
    assert wall_mm - sizes.package_across_mm == pytest.approx(3)
    assert sizes.sight_up_mm == pytest.approx(318 - 2 * 7 * cos(radians(slope_deg)))


def test_the_narrow_edge_of_sides_at_twenty_degrees() -> None:
    """Fault: of 500 mm outside, 48 mm sides at 20° leave 409.79 in view, and the plan said 404."""
    shape = Shape(slope_deg=20)
    sizes = sizes_within(
        outside_across_mm=500,
        outside_up_mm=500,
        clearance_across_mm=3,
        clearance_up_mm=3,
        rabbet_width_mm=7,
        face_width_mm=48,
        shape=shape,
    )
    assert sizes.sight_across_mm == pytest.approx(409.79, abs=5e-3)
    assert shape.end_deg == pytest.approx(46.78, abs=5e-3)


def test_an_end_of_a_hexagon_is_right_at_sixty_degrees() -> None:
    assert Shape(sides=6).end_deg == pytest.approx(60)


@pytest.mark.parametrize("slope_deg", SLOPES)
@pytest.mark.parametrize("sides", [3, 4, 8])
def test_a_small_error_laid_flat_turns_the_joint_by_its_share(sides: int, slope_deg: float) -> None:
    shape = Shape(sides=sides, slope_deg=slope_deg)

    def turned_deg(error_deg: float) -> float:
        """The half turn whose side, laid flat, has the mitre less the error: ``tan t = tan M / cos S``."""
        mitre = radians(shape.mitre_deg + error_deg)
        return degrees(pi / 2 - acos(sin(mitre) / sqrt(sin(mitre) ** 2 + (cos(mitre) * cos(radians(slope_deg))) ** 2)))

    slope = (turned_deg(1e-4) - turned_deg(-1e-4)) / 2e-4
    assert shape.seen_ratio == pytest.approx(slope, rel=1e-4)


def test_a_kerf_along_the_stick_does_not_know_the_slope() -> None:
    """The joint plane stands upright; along the stick it cuts off the kerf over the cosine of the half turn."""
    normal, along = (cos(pi / 6), sin(pi / 6), 0.0), (1.0, 0.0, 0.0)
    share = sum(a * b for a, b in zip(normal, along, strict=True))
    assert slant_kerf_mm(3.0, sides=6) == pytest.approx(3.0 / share)


@pytest.mark.parametrize("sides", SIDES)
def test_rabbet_sizes_of_every_shape_go_up_to_the_tape(sides: int) -> None:
    fitted = fit_to_the_tape(around(Shape(sides=sides, slope_deg=20), across_mm=414.3, up_mm=414.3), step_mm=1)
    assert fitted.rabbet_across_mm == 418 and fitted.clearance_across_mm == pytest.approx(3.7)
    assert fitted.shape == Shape(sides=sides, slope_deg=20)


def test_on_edge_the_sides_take_nothing_of_the_front() -> None:
    sizes = around(Shape(slope_deg=90))
    assert sizes.outside_across_mm == sizes.sight_across_mm == sizes.rabbet_across_mm
    assert Shape(slope_deg=90).mitre_deg == pytest.approx(0)
    long_mm, short_mm = members_of(sizes)[0].long_mm, members_of(sizes)[0].short_mm
    assert long_mm == short_mm


def test_sloping_sides_that_meet_in_a_point_are_refused() -> None:
    border = f"{(100 - 3) / 2 / cos(pi / 9):.6g} mm"
    with pytest.raises(FrameCalcError, match=f"No room left in 100 mm: enter members narrower than {border}"):
        sizes_within(
            outside_across_mm=100,
            outside_up_mm=100,
            clearance_across_mm=3,
            clearance_up_mm=3,
            rabbet_width_mm=0,
            face_width_mm=60,
            shape=Shape(slope_deg=20),
        )


@pytest.mark.parametrize("sides", SIDES)
def test_the_mitres_of_a_polygon_meet_at_its_middle(sides: int) -> None:
    corners = Shape(sides=sides).corners(200, 200)
    lengths = [dist(*pair) for pair in pairwise((*corners, corners[0]))]
    assert lengths == pytest.approx([200 * tan(pi / sides)] * sides)


def test_of_a_side_on_edge_no_error_laid_flat_is_seen() -> None:
    assert (Shape(slope_deg=90).flat_ratio, Shape(slope_deg=90).seen_ratio, Shape().seen_ratio) == (0, 0, 1)
