"""The mat: window, borders, and what stays in view of them."""

import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framecalc.errors import FrameCalcError, ImpossibleSize
from framecalc.findings import Severity
from framecalc.mats.mat import Mat, mat_findings, visible_borders
from framecalc.mats.wished_mat import Image, MatWish, mat_around_images, mat_within
from framecalc.units import TOLERANCE_MM

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/mat.toml").read_text("utf-8"))
PRINT = {"artwork_across_mm": 200.0, "artwork_up_mm": 250.0, "overlap_mm": 3.0}
COVERED = {"covered_across_mm": 5.0, "covered_up_mm": 5.0}


def mat_around(
    *, artwork_across_mm: float, artwork_up_mm: float, overlap_mm: float, border_mm: float, bottom_mm: float
) -> Mat:
    wish = MatWish(overlap_mm=overlap_mm, border_mm=border_mm, bottom_mm=bottom_mm)
    return mat_around_images([Image(across_mm=artwork_across_mm, up_mm=artwork_up_mm)], wish).mat


def mat_to_fill(
    *,
    across_mm: float,
    up_mm: float,
    artwork_across_mm: float,
    artwork_up_mm: float,
    overlap_mm: float,
    bottom_extra_mm: float,
) -> Mat:
    wish = MatWish(overlap_mm=overlap_mm, border_mm=400, bottom_mm=400 + bottom_extra_mm)
    image = Image(across_mm=artwork_across_mm, up_mm=artwork_up_mm)
    return mat_within([image], wish, across_mm=across_mm, up_mm=up_mm).mat


artworks_mm = st.floats(min_value=30, max_value=1500)
borders_mm = st.floats(min_value=5, max_value=150)


@pytest.mark.parametrize("check", CHECKS["mat"], ids=lambda check: check["name"])
def test_worked_mat(check: dict[str, Any]) -> None:
    mat = mat_around(**{f"{name}_mm": length_in * 25.4 for name, length_in in check["given_in"].items()})
    window_mm, outside_mm = (mat.window_across_mm, mat.window_up_mm), (mat.across_mm, mat.up_mm)
    assert window_mm == pytest.approx([length_in * 25.4 for length_in in check["window_in"]], abs=TOLERANCE_MM)
    assert outside_mm == pytest.approx([length_in * 25.4 for length_in in check["outside_in"]], abs=TOLERANCE_MM)


@given(across_mm=artworks_mm, up_mm=artworks_mm, border_mm=borders_mm, bottom_mm=borders_mm)
def test_a_mat_that_fills_its_own_outside_is_the_same_mat(
    across_mm: float, up_mm: float, border_mm: float, bottom_mm: float
) -> None:
    art = {"artwork_across_mm": across_mm, "artwork_up_mm": up_mm, "overlap_mm": 3.0}
    mat = mat_around(**art, border_mm=border_mm, bottom_mm=bottom_mm)
    filled = mat_to_fill(**art, across_mm=mat.across_mm, up_mm=mat.up_mm, bottom_extra_mm=bottom_mm - border_mm)
    assert _lengths(filled) == pytest.approx(_lengths(mat), abs=TOLERANCE_MM)


def _lengths(mat: Mat) -> tuple[float, ...]:
    borders = mat.border_sides_mm, mat.border_top_mm, mat.border_bottom_mm
    return *borders, mat.window_across_mm, mat.window_up_mm, mat.across_mm, mat.up_mm


@given(border_mm=borders_mm, extra_mm=st.floats(min_value=-4, max_value=60))
def test_window_and_borders_make_up_the_outside(border_mm: float, extra_mm: float) -> None:
    mat = mat_to_fill(**PRINT, across_mm=194 + 2 * border_mm, up_mm=344, bottom_extra_mm=extra_mm)
    assert mat.window_across_mm + 2 * mat.border_sides_mm == pytest.approx(mat.across_mm, abs=TOLERANCE_MM)
    assert mat.border_top_mm + mat.window_up_mm + mat.border_bottom_mm == pytest.approx(mat.up_mm, abs=TOLERANCE_MM)
    assert mat.border_bottom_mm - mat.border_top_mm == pytest.approx(extra_mm, abs=TOLERANCE_MM)


def test_turning_the_artwork_turns_a_mat_with_even_borders() -> None:
    upright = mat_around(**PRINT, border_mm=60, bottom_mm=60)
    turned = mat_around(artwork_across_mm=250, artwork_up_mm=200, overlap_mm=3, border_mm=60, bottom_mm=60)
    assert (turned.across_mm, turned.window_up_mm) == (upright.up_mm, upright.window_across_mm)


def test_the_lip_takes_its_strip_from_each_border() -> None:
    visible = visible_borders(mat_around(**PRINT, border_mm=60, bottom_mm=70), covered_across_mm=4.5, covered_up_mm=5.0)
    assert (visible.sides_mm, visible.top_mm, visible.bottom_mm) == (55.5, 55.0, 65.0)


@pytest.mark.parametrize(
    ("changed", "found"),
    [
        ({}, []),
        ({"overlap_mm": 0.0}, [("mat.no-overlap", Severity.STOP)]),
        ({"overlap_mm": 1.9}, [("mat.small-overlap", Severity.WARN)]),
        ({"overlap_mm": 2.0}, []),
        ({"bottom_mm": 59.0}, [("mat.narrow-bottom", Severity.NOTE)]),
        ({"border_mm": 5.0, "bottom_mm": 5.0}, [("mat.border-hidden", Severity.STOP)]),
        ({"border_mm": 5.1, "bottom_mm": 5.1}, []),
    ],
)
def test_what_is_wrong_with_a_mat_is_found(changed: dict[str, float], found: list[tuple[str, Severity]]) -> None:
    mat = mat_around(**PRINT | {"border_mm": 60.0, "bottom_mm": 70.0} | changed)
    assert [(finding.code, finding.severity) for finding in mat_findings(mat, **COVERED)] == found


def test_the_border_of_the_mat_in_front_is_narrower_by_the_reveal() -> None:
    mat = mat_around(**PRINT | {"border_mm": 10.0, "bottom_mm": 10.0})
    assert mat_findings(mat, **COVERED, reveal_mm=4.9) == ()
    (finding,) = mat_findings(mat, **COVERED, reveal_mm=5.0)
    assert (finding.code, finding.lengths["border"]) == ("mat.border-hidden", 5.0)


@pytest.mark.parametrize(("border_mm", "bottom_mm"), [(4.0, 9.0), (9.0, 4.0)])
def test_a_hidden_border_is_told_by_the_narrowest(border_mm: float, bottom_mm: float) -> None:
    mat = mat_around(**PRINT | {"border_mm": border_mm, "bottom_mm": bottom_mm})
    found = {finding.code: finding for finding in mat_findings(mat, **COVERED)}["mat.border-hidden"]
    assert (found.lengths["border"], found.lengths["covered"]) == (4.0, 5.0)


@pytest.mark.parametrize("changed", [{"overlap_mm": 0.0}, {"bottom_mm": 50.0}, {"border_mm": 4.0}])
def test_every_way_out_ends_its_finding(changed: dict[str, float]) -> None:
    typed = PRINT | {"border_mm": 60.0, "bottom_mm": 70.0} | changed
    (finding,) = mat_findings(mat_around(**typed), **COVERED)
    (way,) = finding.ways
    assert mat_findings(mat_around(**typed | {way.argument.removeprefix("mat_"): way.value_mm}), **COVERED) == ()


@pytest.mark.parametrize(
    ("changed", "field", "says"),
    [
        ({"artwork_across_mm": 0.0}, "artwork_across_mm", "artwork across"),
        ({"overlap_mm": -1.0}, "mat_overlap_mm", "mat overlap"),
        ({"overlap_mm": 100.0}, "mat_overlap_mm", "enter an overlap of less than 100 mm"),
        ({"border_mm": 0.0}, "mat_border_mm", "mat border"),
        ({"bottom_mm": 0.0}, "mat_bottom_mm", "mat bottom"),
        ({"bottom_mm": float("nan")}, "mat_bottom_mm", "mat bottom"),
    ],
)
def test_mats_that_cannot_be_are_refused(changed: dict[str, float], field: str, says: str) -> None:
    with pytest.raises(FrameCalcError) as refusal:
        mat_around(**PRINT | {"border_mm": 60.0, "bottom_mm": 70.0} | changed)
    assert refusal.value.field == field
    assert says in refusal.value.sentence


@pytest.mark.parametrize(
    ("outside_mm", "extra_mm", "field"),
    [
        ((194.0, 300.0), 0.0, "artwork_across_mm"),
        ((300.0, 244.0), 0.0, "artwork_up_mm"),
        ((300.0, 300.0), 56.0, "artwork_up_mm"),
        ((300.0, 300.0), -56.0, "artwork_up_mm"),
    ],
)
def test_an_outside_that_leaves_no_border_is_refused(
    outside_mm: tuple[float, float], extra_mm: float, field: str
) -> None:
    with pytest.raises(ImpossibleSize, match="No border left: enter a mat larger than") as refusal:
        mat_to_fill(**PRINT, across_mm=outside_mm[0], up_mm=outside_mm[1], bottom_extra_mm=extra_mm)
    assert refusal.value.field == field
