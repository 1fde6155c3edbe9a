"""Relative strength: Hankinson's ends and middle, and what more glue, or less mitre, does."""

import pytest

from framecalc.errors import FrameCalcError
from framecalc.joints.corner_stock import CornerStock, corner_stock
from framecalc.joints.strength import GlueFace, grain_share_ratio, relative_strength


def _stock(*, sides: int = 4) -> CornerStock:
    return corner_stock(face_width_mm=40, thickness_mm=20, rabbet_width_mm=6, rabbet_depth_mm=12, sides=sides)


@pytest.mark.parametrize("end_grain", [0.05, 0.25, 0.4])
def test_the_formula_runs_from_long_grain_to_end_grain(end_grain: float) -> None:
    shares = [grain_share_ratio(angle, end_grain_ratio=end_grain) for angle in range(0, 91, 5)]
    assert shares[0] == 1 and shares[-1] == pytest.approx(end_grain)
    assert shares == sorted(shares, reverse=True)
    assert shares[9] == pytest.approx(2 * end_grain / (1 + end_grain))


def test_a_bare_mitre_is_once_a_bare_mitre() -> None:
    found = relative_strength(_stock(), [])
    assert (found.least_ratio, found.most_ratio) == (1, 1)


def test_a_face_like_the_mitre_adds_its_share_of_the_area() -> None:
    stock = _stock()
    found = relative_strength(stock, [GlueFace(area_mm2=stock.mitre_area_mm2 / 2, grain_deg=45)])
    assert (found.least_ratio, found.most_ratio) == pytest.approx((1.5, 1.5))


def test_more_glue_is_stronger_and_a_larger_mouth_weaker() -> None:
    stock = _stock()
    one = relative_strength(stock, [GlueFace(area_mm2=300, grain_deg=0)], mouth_area_mm2=60)
    two = relative_strength(stock, 2 * [GlueFace(area_mm2=300, grain_deg=0)], mouth_area_mm2=60)
    wide = relative_strength(stock, [GlueFace(area_mm2=300, grain_deg=0)], mouth_area_mm2=200)
    assert two.least_ratio > one.least_ratio > wide.least_ratio
    assert one.most_ratio > one.least_ratio


def test_the_flatter_the_corner_the_more_its_mitre_is_end_grain() -> None:
    face = [GlueFace(area_mm2=300, grain_deg=0)]
    assert relative_strength(_stock(sides=8), face).least_ratio > relative_strength(_stock(sides=4), face).least_ratio


@pytest.mark.parametrize("grain", [-1, 91, float("nan")])
def test_angles_that_are_no_grain_are_refused(grain: float) -> None:
    with pytest.raises(FrameCalcError, match="0° to 90° would do"):
        grain_share_ratio(grain, end_grain_ratio=0.2)


def test_mouths_as_large_as_the_mitre_are_refused() -> None:
    with pytest.raises(FrameCalcError, match="whole mitre"):
        relative_strength(_stock(), [], mouth_area_mm2=5000)


def test_an_area_below_nothing_is_refused() -> None:
    with pytest.raises(FrameCalcError, match="0 mm² or more"):
        relative_strength(_stock(), [GlueFace(area_mm2=-1, grain_deg=0)])
