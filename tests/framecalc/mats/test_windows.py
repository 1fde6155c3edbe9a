"""Mats with several windows: what adds up, what is refused, what a cutter is set to."""

import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as some

from framecalc.errors import FrameCalcError, ImpossibleSize, OutOfRange
from framecalc.mats.bridges import bridges, window_findings
from framecalc.mats.cutter import bevel, cutter_settings, face_openings, turned_over
from framecalc.mats.openings import (
    Borders,
    Opening,
    equal_visible_borders,
    larger_than_image_findings,
    narrowed,
    opening_around,
    opening_over,
)
from framecalc.mats.windows import Window, arrange, gap_between_mm, place_freely, upper_mat

CHECKS = tomllib.loads((Path(__file__).parents[2] / "check_values/windows.toml").read_text("utf-8"))
MM = 25.4
BORDERS = Borders(sides_mm=60, top_mm=60, bottom_mm=70)

openings = some.builds(Opening, across_mm=some.floats(20, 300), up_mm=some.floats(20, 300))
lists = some.lists(openings, min_size=1, max_size=9)


@pytest.mark.parametrize("check", CHECKS["opening"], ids=lambda check: check["name"])
def test_worked_mat(check: dict[str, Any]) -> None:
    across, up = check["artwork_in"]
    opening = opening_over(artwork_across_mm=across * MM, artwork_up_mm=up * MM, overlap_mm=check["overlap_in"] * MM)
    assert (opening.across_mm / MM, opening.up_mm / MM) == pytest.approx(check["opening_in"])
    sides, top, bottom = (border * MM for border in check["borders_in"])
    borders = Borders(sides_mm=sides, top_mm=top, bottom_mm=bottom)
    mat = arrange([opening], columns=1, gap_across_mm=0, gap_up_mm=0, borders=borders)
    assert (mat.across_mm / MM, mat.up_mm / MM) == pytest.approx(check["outside_in"])


@pytest.mark.parametrize("check", CHECKS["bevel"], ids=lambda check: check["name"])
def test_worked_bevel(check: dict[str, Any]) -> None:
    white = bevel(check["thickness_mm"], bevel_deg=check["bevel_deg"])
    assert white.slope_mm == pytest.approx(check["slope_mm"], abs=check["tolerance_mm"])
    assert white.seen_mm == pytest.approx(check["seen_mm"], abs=check["tolerance_mm"])


@given(chosen=lists, columns=some.integers(1, 9), gap_mm=some.floats(5, 60))
def test_borders_windows_and_gaps_make_up_the_mat(chosen: list[Opening], columns: int, gap_mm: float) -> None:
    assume(columns <= len(chosen))
    mat = arrange(chosen, columns=columns, gap_across_mm=gap_mm, gap_up_mm=gap_mm, borders=BORDERS)
    widest = sum(max(opening.across_mm for opening in chosen[column::columns]) for column in range(columns))
    rows = [chosen[start : start + columns] for start in range(0, len(chosen), columns)]
    highest = sum(max(opening.up_mm for opening in row) for row in rows)
    assert mat.across_mm == pytest.approx(widest + (columns - 1) * gap_mm + 2 * 60)
    assert mat.up_mm == pytest.approx(highest + (len(rows) - 1) * gap_mm + 60 + 70)
    assert [(window.across_mm, window.up_mm) for window in mat.windows] == [(o.across_mm, o.up_mm) for o in chosen]
    assert all(bridge.width_mm >= gap_mm - 1e-6 for bridge in bridges(mat))
    assert min(window.left_mm for window in mat.windows) >= 60 - 1e-6


def test_equal_windows_in_a_row_have_equal_gaps_and_the_first_is_top_left() -> None:
    photo = Opening(across_mm=100, up_mm=150)
    mat = arrange([photo] * 6, columns=3, gap_across_mm=25, gap_up_mm=30, borders=BORDERS)
    first, second, third, fourth = mat.windows[:4]
    assert second.left_mm - first.right_mm == third.left_mm - second.right_mm == 25
    assert first.bottom_mm - fourth.top_mm == 30
    assert (first.left_mm, mat.up_mm - first.top_mm, fourth.bottom_mm) == (60, 60, 70)


@given(chosen=lists)
def test_set_from_behind_a_window_comes_out_where_it_is_seen_from_the_front(chosen: list[Opening]) -> None:
    mat = arrange(chosen, columns=len(chosen), gap_across_mm=15, gap_up_mm=0, borders=BORDERS)
    front, behind = cutter_settings(mat, from_behind=False), cutter_settings(mat, from_behind=True)
    mirrored = cutter_settings(turned_over(mat), from_behind=False)
    assert [one.window for one in front] == [one.window for one in behind] == [*range(1, 1 + len(chosen))]
    for ahead, back, turned, window in zip(front, behind, mirrored, mat.windows, strict=True):
        assert (ahead.left_mm, ahead.right_mm, ahead.top_mm, ahead.bottom_mm) == (
            back.right_mm,
            back.left_mm,
            back.top_mm,
            back.bottom_mm,
        )
        assert (back.left_mm, back.right_mm) == pytest.approx((turned.left_mm, turned.right_mm))
        assert ahead.left_mm + window.across_mm + ahead.right_mm == pytest.approx(mat.across_mm)
        assert ahead.top_mm + window.up_mm + ahead.bottom_mm == pytest.approx(mat.up_mm)
    assert turned_over(turned_over(mat)).windows[0].left_mm == pytest.approx(mat.windows[0].left_mm)


def test_two_mats_show_the_reveal_all_round() -> None:
    lower = arrange([Opening(across_mm=194, up_mm=244)], columns=1, gap_across_mm=0, gap_up_mm=0, borders=BORDERS)
    upper = upper_mat(lower, reveal_mm=6)
    (inner,), (outer,) = lower.windows, upper.windows
    assert (inner.left_mm - outer.left_mm, outer.right_mm - inner.right_mm) == (6, 6)
    assert (inner.bottom_mm - outer.bottom_mm, outer.top_mm - inner.top_mm) == (6, 6)
    assert (upper.across_mm, upper.up_mm) == (lower.across_mm, lower.up_mm) == (314, 374)
    seen = face_openings(upper, bevel=bevel(1.45))
    assert seen.windows[0].across_mm == pytest.approx(outer.across_mm + 2 * 1.45)


@given(chosen=lists, thickness_mm=some.floats(0.5, 6), bevel_deg=some.floats(30, 90))
def test_the_bevel_is_seen_alike_on_every_side_of_every_window(
    chosen: list[Opening], thickness_mm: float, bevel_deg: float
) -> None:
    mat = arrange(chosen, columns=1, gap_across_mm=0, gap_up_mm=30, borders=BORDERS)
    cut = bevel(thickness_mm, bevel_deg=bevel_deg)
    face = face_openings(mat, bevel=cut)
    for window, seen in zip(mat.windows, face.windows, strict=True):
        sides = (
            window.left_mm - seen.left_mm,
            seen.right_mm - window.right_mm,
            window.bottom_mm - seen.bottom_mm,
            seen.top_mm - window.top_mm,
        )
        assert sides == pytest.approx((cut.seen_mm,) * 4, abs=1e-9)
    assert (face.across_mm, face.up_mm) == (mat.across_mm, mat.up_mm)
    assert cut.seen_mm**2 + thickness_mm**2 == pytest.approx(cut.slope_mm**2), "the slope is the long side of the two"


@given(
    visible_mm=some.floats(10, 150), extra_mm=some.floats(0, 30), across_mm=some.floats(0, 9), up_mm=some.floats(0, 9)
)
def test_borders_cut_for_equal_strips_show_equal_strips(
    visible_mm: float, extra_mm: float, across_mm: float, up_mm: float
) -> None:
    borders = equal_visible_borders(
        visible_mm=visible_mm, bottom_extra_mm=extra_mm, covered_across_mm=across_mm, covered_up_mm=up_mm
    )
    assert borders.sides_mm - across_mm == pytest.approx(visible_mm) == pytest.approx(borders.top_mm - up_mm)
    assert borders.bottom_mm - borders.top_mm == pytest.approx(extra_mm)


def test_a_floating_sheet_shows_its_edges_by_the_reveal() -> None:
    opening = opening_around(artwork_across_mm=200, artwork_up_mm=300, reveal_mm=8)
    assert (opening.across_mm, opening.up_mm) == (216, 316)
    assert larger_than_image_findings(opening, artwork_across_mm=200, artwork_up_mm=300)


def test_a_window_larger_than_its_image_is_said_with_a_way_out() -> None:
    opening = Opening(across_mm=205, up_mm=240)
    (finding,) = larger_than_image_findings(opening, artwork_across_mm=200, artwork_up_mm=250)
    assert finding.code == "windows.larger-than-image-across" and finding.lengths == {"window": 205, "artwork": 200}
    smaller = Opening(across_mm=finding.ways[0].value_mm, up_mm=240)
    assert larger_than_image_findings(smaller, artwork_across_mm=200, artwork_up_mm=250) == ()


def test_a_narrow_bridge_is_said_with_its_windows() -> None:
    windows = [
        Window(left_mm=50, bottom_mm=60, across_mm=100, up_mm=100),
        Window(left_mm=155, bottom_mm=60, across_mm=100, up_mm=100),
        Window(left_mm=50, bottom_mm=200, across_mm=100, up_mm=90),
    ]
    found = window_findings(place_freely(windows, across_mm=300, up_mm=340))
    assert [finding.code for finding in found] == ["windows.narrow-bridge"]
    assert "windows 1 and 2 only 5 of board" in found[0].sentence.format_map({"bridge": 5, "least": 12})
    beside = window_findings(place_freely([windows[0]], across_mm=160, up_mm=340))
    assert [finding.code for finding in beside] == ["windows.narrow-border"]


def test_narrow_bridges_and_borders_are_told_once_whatever_their_number() -> None:
    borders = Borders(sides_mm=15, top_mm=60, bottom_mm=18)
    grid = arrange([PHOTO] * 4, columns=2, gap_across_mm=8, gap_up_mm=6, borders=borders)
    bridge, border = window_findings(grid)
    assert "Between windows 1 and 3 only {bridge} of board is left, the least of several" in bridge.sentence
    assert "Beside windows 1, 2, 3 and 4" in border.sentence
    assert (bridge.lengths["bridge"], border.lengths["border"]) == (6, 15)
    assert [(way.argument, way.value_mm) for way in border.ways] == [("mat_border_mm", 20), ("mat_bottom_mm", 20)]
    *_, border = window_findings(upper_mat(grid, reveal_mm=2), reveal_mm=2)
    assert [(way.argument, way.value_mm) for way in border.ways] == [("mat_border_mm", 22), ("mat_bottom_mm", 22)]


def test_one_window_near_an_edge_is_enough_to_ask_for_wider_borders() -> None:
    near = Window(left_mm=15, bottom_mm=60, across_mm=100, up_mm=100)
    far = Window(left_mm=140, bottom_mm=60, across_mm=100, up_mm=100)
    (border,) = window_findings(place_freely([near, far], across_mm=300, up_mm=220))
    assert [(way.argument, way.value_mm) for way in border.ways] == [("mat_border_mm", 20)]


def test_of_bridges_that_are_alike_the_first_is_named() -> None:
    """Fault: noise far below any tool decided which of two bridges was named."""
    row = arrange(
        [Opening(across_mm=196.85, up_mm=150)] * 3, columns=3, gap_across_mm=19.05, gap_up_mm=0, borders=BORDERS
    )
    assert next(bridge.between for bridge in bridges(upper_mat(row, reveal_mm=6.35))) == (1, 2)


def test_a_bridge_of_the_upper_mat_tells_what_the_reveal_takes() -> None:
    lower = arrange([PHOTO] * 2, columns=2, gap_across_mm=18, gap_up_mm=0, borders=BORDERS)
    assert window_findings(lower) == ()
    (finding,) = window_findings(upper_mat(lower, reveal_mm=6), reveal_mm=6)
    assert finding.lengths == {"bridge": 6, "least": 12, "reveal": 6}
    assert "the reveal takes {reveal} from either side" in finding.sentence
    wider, less = finding.ways
    assert (wider.argument, wider.value_mm, less.argument, less.value_mm) == ("window_gap_mm", 24, "mat_reveal_mm", 3)
    assert window_findings(upper_mat(lower, reveal_mm=3), reveal_mm=3) == ()


def test_bridges_between_windows_that_do_not_face_run_from_corner_to_corner() -> None:
    one = Window(left_mm=0, bottom_mm=0, across_mm=10, up_mm=10)
    assert gap_between_mm(one, Window(left_mm=13, bottom_mm=14, across_mm=5, up_mm=5)) == 5
    assert gap_between_mm(one, Window(left_mm=5, bottom_mm=14, across_mm=5, up_mm=5)) == 4
    assert gap_between_mm(one, Window(left_mm=5, bottom_mm=5, across_mm=9, up_mm=9)) < 0


ONE = [Window(left_mm=50, bottom_mm=60, across_mm=100, up_mm=100)]
PHOTO = Opening(across_mm=100, up_mm=150)


@pytest.mark.parametrize(
    ("make", "field", "says"),
    [
        (
            lambda: opening_over(artwork_across_mm=5, artwork_up_mm=90, overlap_mm=3),
            "mat_overlap_mm",
            "No window left: enter an overlap of less than 2.5 mm, not 3 mm",
        ),
        (
            lambda: narrowed(PHOTO, shows_mm=50),
            "fillet_mm",
            "Nothing left of 100 mm: enter a fillet that shows under 50 mm",
        ),
        (lambda: place_freely(ONE, across_mm=150, up_mm=300), "windows", "Window 1 leaves 0 mm"),
        (lambda: place_freely(ONE * 2, across_mm=400, up_mm=400), "windows", "Windows 1 and 2"),
        (lambda: upper_mat(place_freely(ONE, across_mm=200, up_mm=300), reveal_mm=55), "mat_reveal_mm", "Window 1"),
        (
            lambda: arrange([PHOTO], columns=2, gap_across_mm=9, gap_up_mm=9, borders=BORDERS),
            "columns_count",
            "Enter ",
        ),
        (lambda: arrange([], columns=1, gap_across_mm=9, gap_up_mm=9, borders=BORDERS), "windows_count", "Enter "),
        (
            lambda: arrange([PHOTO] * 2, columns=2, gap_across_mm=0, gap_up_mm=9, borders=BORDERS),
            "gap_across_mm",
            "0 mm",
        ),
        (lambda: bevel(1.45, bevel_deg=10), "bevel_deg", "30"),
    ],
)
def test_what_cannot_be_cut_is_refused(make: Any, field: str, says: str) -> None:
    with pytest.raises(FrameCalcError) as refusal:
        make()
    assert isinstance(refusal.value, ImpossibleSize | OutOfRange)
    assert refusal.value.field == field and says in refusal.value.sentence


@pytest.mark.parametrize(("across_mm", "up_mm"), [(10, 300), (300, 10)])
def test_a_fillet_narrows_an_opening_until_nothing_is_left(across_mm: float, up_mm: float) -> None:
    opening = Opening(across_mm=across_mm, up_mm=up_mm)
    left = narrowed(opening, shows_mm=4.9)
    assert (left.across_mm, left.up_mm) == pytest.approx((across_mm - 9.8, up_mm - 9.8))
    with pytest.raises(ImpossibleSize) as refusal:
        narrowed(opening, shows_mm=5)
    assert refusal.value.lengths == {"shows": 5, "opening": 10}


def test_one_narrow_border_is_told_by_the_number_of_its_window_alone() -> None:
    mat = place_freely(
        [
            Window(left_mm=100, bottom_mm=100, across_mm=100, up_mm=100),
            Window(left_mm=300, bottom_mm=3, across_mm=100, up_mm=100),
        ],
        across_mm=600,
        up_mm=400,
    )
    (border,) = [finding for finding in window_findings(mat) if finding.code == "windows.narrow-border"]
    assert border.sentence.startswith("Beside window 2 the mat")


def test_a_straight_cut_shows_no_white_and_is_as_long_as_the_board_is_thick() -> None:
    straight = bevel(1.45, bevel_deg=90)
    assert (straight.seen_mm, straight.slope_mm) == (0, pytest.approx(1.45))


@pytest.mark.parametrize(("left_mm", "bottom_mm"), [(0, 100), (200, 100), (100, 0), (100, 200)])
def test_a_window_at_any_of_the_four_edges_is_refused_and_a_little_inside_is_not(
    left_mm: float, bottom_mm: float
) -> None:
    def placed(inside_mm: float) -> Window:
        left, bottom = (one + inside_mm * (1 if one < 100 else -1 if one > 100 else 0) for one in (left_mm, bottom_mm))
        return Window(left_mm=left, bottom_mm=bottom, across_mm=100, up_mm=100)

    assert place_freely([placed(0.5)], across_mm=300, up_mm=300).windows == (placed(0.5),)
    with pytest.raises(ImpossibleSize, match="Window 1 leaves"):
        place_freely([placed(0)], across_mm=300, up_mm=300)
