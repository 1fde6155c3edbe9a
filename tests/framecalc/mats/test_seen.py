"""Sheet and image: the window shows the image, the mat laps over the sheet, the sheet lies within its mat."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as some
from shapely import box

from framecalc.errors import ImpossibleSize
from framecalc.mats.mat import Mat
from framecalc.mats.openings import Opening
from framecalc.mats.seen import (
    SeenImage,
    lap_findings,
    laps_of,
    mat_cover_findings,
    seen_image,
    sheet_behind,
    sheet_place_findings,
)
from framecalc.mats.windows import Window
from framecalc.mats.wished_mat import Image, MatWish, floats, images_of, mat_around_images, opening_of
from framecalc.units import TOLERANCE_MM

shares = some.floats(min_value=0, max_value=1)
lengths_mm = some.floats(min_value=50, max_value=900)


@some.composite
def sheets(draw: some.DrawFn) -> Image:
    """A sheet with an image somewhere on it."""
    across_mm, up_mm = draw(lengths_mm), draw(lengths_mm)
    image_across_mm, image_up_mm = across_mm * draw(some.floats(0.2, 1)), up_mm * draw(some.floats(0.2, 1))
    seen = SeenImage(
        across_mm=image_across_mm,
        up_mm=image_up_mm,
        left_mm=(across_mm - image_across_mm) * draw(shares),
        below_mm=(up_mm - image_up_mm) * draw(shares),
    )
    return Image(across_mm=across_mm, up_mm=up_mm, seen=seen)


def rectangle_of(window: Window) -> object:
    return box(window.left_mm, window.bottom_mm, window.right_mm, window.top_mm)


@given(sheet=sheets(), shows_mm=some.floats(0, 60))
def test_the_image_shows_in_the_window_and_the_laps_are_what_is_left_of_the_sheet(
    sheet: Image, shows_mm: float
) -> None:
    wish = MatWish(overlap_mm=3, border_mm=60, bottom_mm=70, float_mm=shows_mm)
    (window,) = mat_around_images([sheet], wish).windows.windows
    behind, seen = sheet.behind(window), sheet.seen
    assert seen is not None
    on_it = box(
        behind.left_mm + seen.left_mm,
        behind.bottom_mm + seen.below_mm,
        behind.left_mm + seen.left_mm + seen.across_mm,
        behind.bottom_mm + seen.below_mm + seen.up_mm,
    )
    assert on_it.difference(rectangle_of(window).buffer(TOLERANCE_MM)).is_empty
    laps = sheet.laps_behind(Opening(across_mm=window.across_mm, up_mm=window.up_mm))
    assert laps.left_mm == pytest.approx(window.left_mm - behind.left_mm, abs=TOLERANCE_MM)
    assert laps.right_mm == pytest.approx(behind.right_mm - window.right_mm, abs=TOLERANCE_MM)
    assert laps.top_mm == pytest.approx(behind.top_mm - window.top_mm, abs=TOLERANCE_MM)
    assert laps.bottom_mm == pytest.approx(window.bottom_mm - behind.bottom_mm, abs=TOLERANCE_MM)
    assert floats(sheet, wish) is (shows_mm > 0 and laps.most_mm < -TOLERANCE_MM)


@given(sheet=sheets(), asked_mm=some.floats(0, 20), shows_mm=some.floats(0, 60))
def test_a_lap_is_found_short_exactly_where_the_widened_window_leaves_the_sheet(
    sheet: Image, asked_mm: float, shows_mm: float
) -> None:
    opening = opening_of(sheet, MatWish(overlap_mm=asked_mm, border_mm=60, bottom_mm=70, float_mm=shows_mm))
    laps = sheet.laps_behind(opening)
    window = Window(left_mm=200, bottom_mm=200, across_mm=opening.across_mm, up_mm=opening.up_mm)
    behind = sheet.behind(window)
    wide = box(
        window.left_mm - asked_mm,
        window.bottom_mm - asked_mm,
        window.right_mm + asked_mm,
        window.top_mm + asked_mm,
    )
    holds = wide.difference(rectangle_of(behind).buffer(1e-5)).is_empty
    if abs(laps.least_mm - asked_mm) > 1e-4:
        assert bool(lap_findings(laps, asked_mm=asked_mm, shows_mm=shows_mm)) is not holds


@given(sheet=sheets(), across=some.floats(0.3, 1.5), up=some.floats(0.3, 1.5))
def test_the_mat_is_found_to_cover_exactly_what_its_window_leaves_of_the_image(
    sheet: Image, across: float, up: float
) -> None:
    seen = sheet.seen
    assert seen is not None
    opening = Opening(across_mm=seen.across_mm * across, up_mm=seen.up_mm * up)
    image = box(-seen.across_mm / 2, -seen.up_mm / 2, seen.across_mm / 2, seen.up_mm / 2)
    sight = box(-opening.across_mm / 2, -opening.up_mm / 2, opening.across_mm / 2, opening.up_mm / 2)
    covered = image.difference(sight.buffer(TOLERANCE_MM, join_style="mitre"))
    assert bool(mat_cover_findings(opening, seen)) is not covered.is_empty


@given(sheet=sheets(), border_mm=some.floats(20, 200), bottom_mm=some.floats(20, 200))
def test_a_sheet_past_its_mat_is_found_and_its_ways_out_bring_it_in(
    sheet: Image, border_mm: float, bottom_mm: float
) -> None:
    wish = MatWish(overlap_mm=3, border_mm=border_mm, bottom_mm=bottom_mm)
    matting = mat_around_images([sheet], wish)
    behind, mat = sheet.behind(matting.windows.windows[0]), matting.mat
    board = box(0, 0, mat.across_mm, mat.up_mm).buffer(TOLERANCE_MM, join_style="mitre")
    found = sheet_place_findings(behind, mat)
    assert bool(found) is not board.contains(rectangle_of(behind))
    typed = {way.argument: way.value_mm for finding in found for way in finding.ways}
    wider = MatWish(
        overlap_mm=3,
        border_mm=typed.get("mat_border_mm", border_mm),
        bottom_mm=typed.get("mat_bottom_mm", bottom_mm),
    )
    again = mat_around_images([sheet], wider)
    assert not sheet_place_findings(sheet.behind(again.windows.windows[0]), again.mat)


def test_less_shown_around_the_image_brings_the_lap_that_was_asked_for() -> None:
    seen = seen_image(sheet_across_mm=300, sheet_up_mm=400, across_mm=286, up_mm=380)
    sheet = Image(across_mm=300, up_mm=400, seen=seen)
    wish = MatWish(overlap_mm=3, border_mm=60, bottom_mm=70, float_mm=6)
    (found,) = lap_findings(sheet.laps_behind(opening_of(sheet, wish)), asked_mm=3, shows_mm=6)
    assert (found.code, found.ways[0].argument, found.ways[0].value_mm) == ("image.small-lap", "float_reveal_mm", 4)


def test_a_sheet_that_reaches_into_another_window_is_a_stop() -> None:
    seen = seen_image(sheet_across_mm=300, sheet_up_mm=400, across_mm=200, up_mm=250)
    sheet = Image(across_mm=300, up_mm=400, seen=seen)
    wish = MatWish(overlap_mm=3, border_mm=90, bottom_mm=120, gap_mm=25, further=(Image(across_mm=200, up_mm=250),))
    matting = mat_around_images(images_of(wish, artwork_across_mm=300, artwork_up_mm=400, seen=seen), wish)
    first, second = matting.windows.windows
    (found,) = sheet_place_findings(sheet.behind(first), matting.mat, gap_mm=25, others=(second,))
    assert (found.code, found.lengths["into"], found.ways[0].value_mm) == ("image.sheet-in-window", 25, 50)


@given(
    sheet=some.builds(
        Window,
        left_mm=some.integers(0, 99),
        bottom_mm=some.integers(0, 99),
        across_mm=some.integers(1, 99),
        up_mm=some.integers(1, 99),
    ),
    window=some.builds(
        Window,
        left_mm=some.integers(0, 99),
        bottom_mm=some.integers(0, 99),
        across_mm=some.integers(1, 99),
        up_mm=some.integers(1, 99),
    ),
)
def test_a_sheet_reaches_into_a_window_by_the_shortest_way_out_of_it(sheet: Window, window: Window) -> None:
    """Moved that far in some direction it is out, and moved less in none."""
    mat = mat_around_images([Image(across_mm=300, up_mm=300)], MatWish(overlap_mm=3, border_mm=60, bottom_mm=60)).mat
    found = [
        one
        for one in sheet_place_findings(sheet, mat, gap_mm=0, others=(window,))
        if one.code == "image.sheet-in-window"
    ]
    into_mm = found[0].lengths["into"] if found else 0
    ways = [(by * into_mm, 0) for by in (-1, 1)] + [(0, by * into_mm) for by in (-1, 1)]
    seen = rectangle_of(window)
    assert any(shifted(sheet, *way).intersection(seen).area == 0 for way in ways)
    assert all(shifted(sheet, 0.9 * across, 0.9 * up).intersection(seen).area > 0 for across, up in ways if found)


def test_of_several_windows_the_one_is_told_that_a_sheet_reaches_into_most() -> None:
    mat = mat_around_images([Image(across_mm=300, up_mm=300)], MatWish(overlap_mm=3, border_mm=60, bottom_mm=60)).mat
    sheet = Window(left_mm=50, bottom_mm=50, across_mm=100, up_mm=100)
    others = tuple(Window(left_mm=left_mm, bottom_mm=50, across_mm=50, up_mm=100) for left_mm in (145, 130, 200))
    (found,) = sheet_place_findings(sheet, mat, gap_mm=10, others=others)
    assert (found.lengths["into"], found.ways[0].value_mm) == (20, 30)


def shifted(window: Window, across_mm: float, up_mm: float) -> Any:
    return box(window.left_mm + across_mm, window.bottom_mm + up_mm, window.right_mm + across_mm, window.top_mm + up_mm)


def test_without_an_image_the_sheet_lies_behind_the_middle_of_its_window() -> None:
    window = Window(left_mm=60, bottom_mm=70, across_mm=194, up_mm=244)
    behind = sheet_behind(window, sheet_across_mm=200, sheet_up_mm=250, seen=None)
    assert (behind.left_mm, behind.bottom_mm) == (57, 67)
    laps = laps_of(Opening(across_mm=194, up_mm=244), sheet_across_mm=200, sheet_up_mm=250, lapped=None, seen=None)
    assert (laps.left_mm, laps.right_mm, laps.top_mm, laps.bottom_mm) == (3, 3, 3, 3)


@pytest.mark.parametrize(
    ("image", "field"),
    [
        ({"across_mm": 301, "up_mm": 100}, "image_across_mm"),
        ({"across_mm": 100, "up_mm": 401}, "image_up_mm"),
        ({"across_mm": 200, "up_mm": 100, "left_mm": 101}, "image_left_mm"),
        ({"across_mm": 200, "up_mm": 100, "below_mm": 301}, "image_below_mm"),
    ],
)
def test_an_image_that_is_not_on_its_sheet_is_refused(image: dict[str, float], field: str) -> None:
    with pytest.raises(ImpossibleSize) as refused:
        seen_image(sheet_across_mm=300, sheet_up_mm=400, **image)
    assert refused.value.field == field


def test_an_image_as_large_as_its_sheet_may_be_typed() -> None:
    assert seen_image(sheet_across_mm=300, sheet_up_mm=400, across_mm=300, up_mm=400).left_mm == 0


def test_a_mat_knows_its_borders_for_a_sheet_past_its_foot() -> None:
    mat = Mat(
        window_across_mm=200,
        window_up_mm=250,
        border_sides_mm=60,
        border_top_mm=60,
        border_bottom_mm=70,
        across_mm=320,
        up_mm=380,
        overlap_mm=10,
    )
    (found,) = sheet_place_findings(Window(left_mm=10, bottom_mm=-12, across_mm=300, up_mm=350), mat)
    assert (found.ways[0].argument, found.ways[0].value_mm) == ("mat_bottom_mm", 82)


@given(ratio=some.floats(0.2, 5))
def test_what_is_seen_larger_keeps_its_proportions_and_its_place(ratio: float) -> None:
    seen = SeenImage(across_mm=280, up_mm=380, left_mm=10, below_mm=12)
    larger = seen.scaled(by_ratio=ratio)
    assert [larger.across_mm, larger.up_mm, larger.left_mm, larger.below_mm] == pytest.approx(
        [280 * ratio, 380 * ratio, 10 * ratio, 12 * ratio]
    )
