"""The mat of a polygon: its window follows from its border, or from what was typed; what cannot be is refused."""

from typing import Any

import pytest

from framecalc.errors import FrameCalcError, ImpossibleSize
from framecalc.mats.openings import Opening
from framecalc.mats.polygon_mat import mat_in_polygon, one_window_finding
from framecalc.mats.wished_mat import MatWish, floats
from framecalc.records import replace

WISH = MatWish(overlap_mm=3, border_mm=60, bottom_mm=80)


def test_a_border_in_view_is_wider_by_what_the_lip_covers() -> None:
    matting = mat_in_polygon(replace(WISH, in_view=True), flats_mm=300, covered_mm=5)
    assert matting.mat.border_sides_mm == matting.mat.border_bottom_mm == 65


def test_a_typed_window_leaves_the_border() -> None:
    matting = mat_in_polygon(replace(WISH, opening=Opening(across_mm=200, up_mm=200)), flats_mm=300, covered_mm=5)
    assert (matting.mat.border_sides_mm, matting.mat.overlap_mm) == (50, 3)


def test_a_sheet_that_floats_is_smaller_than_its_window() -> None:
    wish = replace(WISH, float_mm=8)
    matting = mat_in_polygon(wish, flats_mm=300, covered_mm=5)
    assert matting.images[0].across_mm == 180 - 16 and floats(matting.images[0], wish)


@pytest.mark.parametrize(
    ("changed", "field", "says"),
    [
        ({"border_mm": 150}, "mat_border_mm", "No window left"),
        ({"overlap_mm": 61}, "mat_overlap_mm", "no more border"),
        ({"float_mm": 90}, "float_reveal_mm", "No sheet left"),
        ({"opening": Opening(across_mm=200, up_mm=190)}, "window_up_mm", "across its flats"),
        ({"opening": Opening(across_mm=300, up_mm=300)}, "window_across_mm", "No border left"),
    ],
)
def test_what_cannot_be_is_refused_beside_its_field(changed: dict[str, Any], field: str, says: str) -> None:
    with pytest.raises(FrameCalcError, match=says) as refusal:
        mat_in_polygon(replace(WISH, **changed), flats_mm=300, covered_mm=5)
    assert refusal.value.field == field


def test_less_than_what_a_refused_float_names_is_taken() -> None:
    with pytest.raises(ImpossibleSize) as refusal:
        mat_in_polygon(replace(WISH, float_mm=120), flats_mm=300, covered_mm=5)
    half_mm = refusal.value.lengths["half"]
    assert mat_in_polygon(replace(WISH, float_mm=half_mm - 1), flats_mm=300, covered_mm=5).images[0].across_mm == 2
    with pytest.raises(ImpossibleSize):
        mat_in_polygon(replace(WISH, float_mm=half_mm), flats_mm=300, covered_mm=5)


def test_windows_left_out_are_counted() -> None:
    one, three = (one_window_finding(6, further=further).sentence for further in (1, 3))
    assert "the other one is left out" in one and "the other 3 are left out" in three
