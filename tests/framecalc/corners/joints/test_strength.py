"""Relative strength: Hankinson's ends and middle, and what more glue, or less mitre, does."""

from math import sqrt

import pytest

from framecalc.corners.joints.corner_stock import CornerStock, corner_stock
from framecalc.corners.joints.laps import cut_bridle, cut_half_lap
from framecalc.corners.joints.slot_kinds import mortise
from framecalc.corners.joints.splines import place_spline
from framecalc.corners.joints.strength import (
    GluedArea,
    GlueFace,
    glue_of_bridle,
    glue_of_half_lap,
    glue_of_slot,
    glue_of_spline,
    grain_share_ratio,
    relative_strength,
)
from framecalc.errors import FrameCalcError


def _stock(*, sides: int = 4) -> CornerStock:
    return corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12, sides=sides)


@pytest.mark.parametrize("end_grain", [0.05, 0.25, 0.4])
def test_the_formula_runs_from_long_grain_to_end_grain(end_grain: float) -> None:
    shares = [grain_share_ratio(angle, end_grain_ratio=end_grain) for angle in range(0, 91, 5)]
    assert shares[0] == 1 and shares[-1] == pytest.approx(end_grain)
    assert shares == sorted(shares, reverse=True)
    assert shares[9] == pytest.approx(2 * end_grain / (1 + end_grain))


def _glue(area_mm2: float, *, mouth_area_mm2: float = 0.0, grain_deg: float = 0.0) -> GluedArea:
    return GluedArea(faces=(GlueFace(area_mm2=area_mm2, grain_deg=grain_deg),), mouth_area_mm2=mouth_area_mm2)


def test_a_bare_mitre_is_once_a_bare_mitre() -> None:
    found = relative_strength(_stock(), [])
    assert (found.least_ratio, found.most_ratio) == (1, 1)


def test_a_face_like_the_mitre_adds_its_share_of_the_area() -> None:
    stock = _stock()
    found = relative_strength(stock, [_glue(stock.mitre_area_mm2 / 2, grain_deg=45)])
    assert (found.least_ratio, found.most_ratio) == pytest.approx((1.5, 1.5))


def test_more_glue_is_stronger_and_a_larger_mouth_weaker() -> None:
    stock = _stock()
    one = relative_strength(stock, [_glue(300, mouth_area_mm2=60)])
    two = relative_strength(stock, [_glue(300, mouth_area_mm2=60), _glue(300)])
    wide = relative_strength(stock, [_glue(300, mouth_area_mm2=200)])
    assert two.least_ratio > one.least_ratio > wide.least_ratio
    assert one.most_ratio > one.least_ratio


def test_the_flatter_the_corner_the_more_its_mitre_is_end_grain() -> None:
    octagon, square = (relative_strength(_stock(sides=sides), [_glue(300)]) for sides in (8, 4))
    assert octagon.least_ratio > square.least_ratio


def test_every_joint_counts_its_own_glue() -> None:
    """Areas by hand: 2 × 20 × 12 for a mortise; half of two triangles for a spline; half squares for lap and bridle."""
    stock = _stock()
    spline = place_spline(stock, depth_mm=20, kerf_mm=3, height_mm=6, cradle_mm=0)
    lap = cut_half_lap(stock, outside_mm=400, split_mm=12)
    bridle = cut_bridle(stock, outside_mm=400, tenon_low_mm=6, tenon_high_mm=12)
    glues = [
        glue_of_slot(mortise(width_mm=20, depth_mm=12, thickness_mm=5)),
        glue_of_spline(spline),
        glue_of_half_lap(stock, lap),
        glue_of_bridle(stock, bridle),
    ]
    assert [glue.faces[0].area_mm2 for glue in glues] == pytest.approx([480, 400, 34**2 / 2, 34**2])
    assert {face.grain_deg for glue in glues[1:] for face in glue.faces} == {0}
    assert [glue.mouth_area_mm2 for glue in glues] == pytest.approx([100, 60, sqrt(2) * 34 * 12, sqrt(2) * 34 * 6])


@pytest.mark.parametrize("grain", [-1, 91, float("nan")])
def test_angles_that_are_no_grain_are_refused(grain: float) -> None:
    with pytest.raises(FrameCalcError, match="Enter 0° to 90°"):
        grain_share_ratio(grain, end_grain_ratio=0.2)


def test_mouths_as_large_as_the_mitre_are_refused() -> None:
    with pytest.raises(FrameCalcError, match="whole mitre"):
        relative_strength(_stock(), [_glue(100, mouth_area_mm2=5000)])


def test_an_area_below_nothing_is_refused() -> None:
    with pytest.raises(FrameCalcError, match="0 mm² or more"):
        relative_strength(_stock(), [_glue(-1)])


def test_mouths_may_take_all_of_a_mitre_but_no_more() -> None:
    stock = corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12)
    whole = [GluedArea(faces=(), mouth_area_mm2=stock.mitre_area_mm2)]
    assert relative_strength(stock, whole).most_ratio == 0
    with pytest.raises(FrameCalcError, match="take the whole mitre"):
        relative_strength(stock, [GluedArea(faces=(), mouth_area_mm2=stock.mitre_area_mm2 + 0.5)])
