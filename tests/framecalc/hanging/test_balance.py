"""Weight and centre of gravity: against prisms summed up, against integration, and by levers."""

from math import pi, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon, box

from framecalc.errors import FrameCalcError
from framecalc.geometry.outline import flatten
from framecalc.hanging.balance import WeighedPart, balance_of, mitred_out_mm, plate_centre, shares_ratio
from framecalc.section.profile import Edge, EdgeShape, FaceShape
from framecalc.section.rabbeted import Section, milled_section, mitred_volume_mm3
from framecalc.section.tray import tray_section

SQUARE = Edge(shape=EdgeShape.SQUARE, size_mm=1)


def section(face: FaceShape = FaceShape.FLAT, drop_mm: float = 0.0) -> Section:
    return milled_section(
        face_width_mm=40,
        thickness_mm=22,
        rabbet_width_mm=7,
        rabbet_depth_mm=13,
        sight_edge=Edge(shape=EdgeShape.ROUND, size_mm=3),
        back_edge=SQUARE,
        face=face,
        face_drop_mm=drop_mm,
    )


@given(st.floats(150, 900), st.floats(150, 900))
def test_a_plain_frame_weighs_as_four_trapezoids(across_mm: float, up_mm: float) -> None:
    """A side without a rabbet is a trapezoid as seen from the front: Shapely has its area."""
    tray = tray_section(
        wall_mm=20, height_mm=30, ledge_width_mm=10, ledge_thickness_mm=5, sight_edge=SQUARE, back_edge=SQUARE
    )
    edges = (across_mm, up_mm, across_mm, up_mm)
    outer = Polygon([(0, 0), (across_mm, 0), (across_mm, up_mm), (0, up_mm)])
    wall_mm3 = (outer.area - outer.buffer(-20, join_style="mitre").area) * 30
    inner = outer.buffer(-20, join_style="mitre")
    ledge_mm3 = (inner.area - inner.buffer(-10, join_style="mitre").area) * 5
    whole_mm3 = mitred_volume_mm3(tray, long_edges_mm=edges)
    assert whole_mm3 == pytest.approx(wall_mm3 + ledge_mm3, rel=1e-6)
    out_mm = mitred_out_mm(tray.outline, long_edges_mm=edges, mitre_deg=45)
    assert out_mm == pytest.approx((wall_mm3 * 15 + ledge_mm3 * 2.5) / (wall_mm3 + ledge_mm3), rel=1e-6)


@pytest.mark.parametrize("sides", [4, 6])
def test_the_centre_of_a_bevelled_side_is_found_by_integration(sides: int) -> None:
    milled, slant = section(FaceShape.AWAY, 6.0), tan(pi / sides)
    shape, edges = Polygon(flatten(milled.outline, tolerance_mm=0.0005)), (500.0,) * sides

    def moment(power: int) -> float:
        """Strip by strip across the section, each as long as the sides are there."""
        total, step_mm = 0.0, 40 / 4000
        for number in range(4000):
            x_mm = (number + 0.5) * step_mm
            _, low_mm, _, high_mm = shape.intersection(LineString([(x_mm, -1), (x_mm, 99)])).bounds
            long_mm = sum(edges) - 2 * sides * x_mm * slant
            total += (high_mm ** (power + 1) - low_mm ** (power + 1)) / (power + 1) * long_mm * step_mm
        return total

    found_mm = mitred_out_mm(milled.outline, long_edges_mm=edges, mitre_deg=180 / sides)
    assert found_mm == pytest.approx(moment(1) / moment(0), abs=0.002)


def test_a_plate_with_a_low_window_is_heavy_above() -> None:
    plate, window = box(-200, -150, 200, 150), box(-70, -70, 130, 30)
    found = plate_centre(area_mm2=plate.area, openings=[(window.area, 30.0, -20.0)])
    centre = plate.difference(window).centroid
    assert found == pytest.approx((centre.x, centre.y)) and found[1] > 0


def test_two_hangers_share_a_weight_that_is_off_the_middle() -> None:
    """Source: worked by hand, 400 between the hangers, the weight 250 from the left one."""
    assert shares_ratio(left_mm=250, right_mm=150) == pytest.approx((0.375, 0.625))
    with pytest.raises(FrameCalcError):
        shares_ratio(left_mm=0, right_mm=0)


def test_a_frame_of_which_nothing_is_known_balances_nowhere() -> None:
    with pytest.raises(FrameCalcError) as refused:
        balance_of([WeighedPart(name="air", mass_kg=0)])
    assert refused.value.field == "weighed"


def test_half_a_kilogram_alone_balances_where_it_is() -> None:
    found = balance_of([WeighedPart(name="stretcher", mass_kg=0.5, across_mm=3, up_mm=-4, out_mm=9)])
    assert (found.mass_kg, found.across_mm, found.up_mm, found.out_mm) == (0.5, 3, -4, 9)
