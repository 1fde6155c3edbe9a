"""Mats half a millimetre to either side of every limit, and the numbers that their sentences tell."""

from typing import Any

import pytest

from framecalc.errors import FrameCalcError, ImpossibleSize, OutOfRange
from framecalc.findings import Severity
from framecalc.mats.bridges import window_findings
from framecalc.mats.cutter import bevel
from framecalc.mats.mat import Mat, mat_findings
from framecalc.mats.openings import (
    Borders,
    Opening,
    equal_visible_borders,
    larger_than_image_findings,
    opening_over,
)
from framecalc.mats.polygon_mat import mat_in_polygon
from framecalc.mats.seen import Laps, SeenImage, lap_findings, mat_cover_findings, seen_image, sheet_place_findings
from framecalc.mats.windows import Window, arrange, gap_between_mm, place_freely, upper_mat
from framecalc.mats.wished_mat import Image, MatWish, WindowArrangement, mat_around_images, mat_within
from framecalc.records import replace

SIDES = ("left", "right", "top", "bottom")
MAT = Mat(
    window_across_mm=200,
    window_up_mm=250,
    border_sides_mm=60,
    border_top_mm=50,
    border_bottom_mm=70,
    across_mm=320,
    up_mm=370,
    overlap_mm=3,
)
PHOTO = Opening(across_mm=100, up_mm=150)


def laps(side: str, least_mm: float) -> Laps:
    return replace(Laps(left_mm=9, right_mm=9, top_mm=9, bottom_mm=9), **{f"{side}_mm": least_mm})


@pytest.mark.parametrize("side", SIDES)
@pytest.mark.parametrize(
    ("least_mm", "shows_mm", "code", "ways"),
    [
        (3, 0, None, []),
        (2.5, 0, "image.small-lap", [("mat_overlap_mm", 2.5)]),
        (2, 0, "image.small-lap", [("mat_overlap_mm", 2)]),
        (1.5, 0, "image.small-lap", []),
        (1, 2, "image.small-lap", [("float_reveal_mm", 0)]),
        (1, 1.5, "image.small-lap", []),
        (0.5, 8, "image.small-lap", [("float_reveal_mm", 5.5)]),
        (0, 8, "image.sheet-shows", [("float_reveal_mm", 5)]),
        (-4, 8, "image.sheet-shows", [("float_reveal_mm", 1)]),
        (-4, 0, "image.sheet-shows", []),
    ],
)
def test_a_lap_is_told_by_its_narrowest_side_with_what_mends_it(
    side: str, least_mm: float, shows_mm: float, code: str | None, ways: list[tuple[str, float]]
) -> None:
    found = lap_findings(laps(side, least_mm), asked_mm=3, shows_mm=shows_mm)
    assert [one.code for one in found] == ([code] if code else [])
    for one in found:
        assert one.lengths == {"lap": least_mm, "asked": 3} and f"At the {side} " in one.sentence
        assert one.severity is (Severity.STOP if least_mm <= 0 else Severity.WARN)
        assert one.argument == ("float_reveal_mm" if shows_mm else "image_across_mm")
        assert [(way.argument, way.value_mm) for way in one.ways] == ways


@pytest.mark.parametrize("side", SIDES)
def test_a_sheet_half_a_millimetre_past_its_mat_is_found_on_each_side(side: str) -> None:
    at = {"left_mm": 0.0, "bottom_mm": 0.0, "across_mm": 320.0, "up_mm": 370.0}
    assert sheet_place_findings(Window(**at), MAT) == ()
    moved = {
        "left": {"left_mm": -0.5},
        "bottom": {"bottom_mm": -0.5},
        "right": {"left_mm": 0.5},
        "top": {"bottom_mm": 0.5},
    }
    smaller = {"left": {"across_mm": 9.0}, "bottom": {"up_mm": 9.0}}.get(side, {})
    (found,) = sheet_place_findings(Window(**at | moved[side] | smaller), MAT)
    is_foot = side == "bottom"
    assert found.lengths == {"past": 0.5}
    assert [(way.argument, way.value_mm) for way in found.ways] == [
        ("mat_bottom_mm", 70.5) if is_foot else ("mat_border_mm", 50.5)
    ]


@pytest.mark.parametrize(
    ("image", "lengths"),
    [
        ({"across_mm": 301, "up_mm": 100}, {"image": 301, "sheet": 300}),
        ({"across_mm": 200, "up_mm": 100, "left_mm": 100.5}, {"place": 100.5, "most": 100}),
        ({"across_mm": 200, "up_mm": 100, "below_mm": 301}, {"place": 301, "most": 300}),
    ],
)
def test_what_refuses_an_image_tells_how_large_or_how_far_it_may_be(
    image: dict[str, float], lengths: dict[str, float]
) -> None:
    with pytest.raises(ImpossibleSize) as refused:
        seen_image(sheet_across_mm=300, sheet_up_mm=400, **image)
    assert refused.value.lengths == lengths


def test_an_image_lies_where_it_was_measured_or_in_the_middle() -> None:
    sheet = {"sheet_across_mm": 300.0, "sheet_up_mm": 400.0, "across_mm": 200.0, "up_mm": 100.0}
    middle, typed = seen_image(**sheet), seen_image(**sheet, left_mm=100, below_mm=0)
    assert (middle.left_mm, middle.below_mm, typed.left_mm, typed.below_mm) == (50, 150, 100, 0)


@pytest.mark.parametrize(("window_mm", "covered_mm"), [(200, None), (199.5, 0.5), (180, 20)])
def test_a_window_covers_what_it_is_smaller_than_the_image(window_mm: float, covered_mm: float | None) -> None:
    image = SeenImage(across_mm=200, up_mm=200, left_mm=0, below_mm=0)
    found = mat_cover_findings(Opening(across_mm=window_mm, up_mm=window_mm), image)
    assert [one.lengths for one in found] == [{"covered": covered_mm, "window": window_mm, "image": 200}] * len(found)
    assert len(found) == (0 if covered_mm is None else 2)
    assert [way.value_mm for one in found for way in one.ways] == [200] * len(found)


@pytest.mark.parametrize(("across_mm", "up_mm"), [(5, 8), (8, 5)])
def test_a_border_is_hidden_by_what_is_covered_most(across_mm: float, up_mm: float) -> None:
    narrow = replace(MAT, border_sides_mm=4, border_top_mm=4, border_bottom_mm=4)
    (found,) = mat_findings(narrow, covered_across_mm=across_mm, covered_up_mm=up_mm)
    assert found.lengths == {"border": 4, "covered": 8}
    assert [(way.argument, way.value_mm) for way in found.ways] == [("mat_border_mm", 28), ("mat_bottom_mm", 28)]


@pytest.mark.parametrize(
    ("border_mm", "bottom_mm", "arguments"),
    [(7.5, 60, ["mat_border_mm"]), (60, 7.5, ["mat_bottom_mm"]), (7.5, 7.5, ["mat_border_mm", "mat_bottom_mm"])],
)
def test_only_a_hidden_border_is_widened_by_what_the_reveal_takes_too(
    border_mm: float, bottom_mm: float, arguments: list[str]
) -> None:
    mat = replace(MAT, border_sides_mm=border_mm, border_top_mm=border_mm, border_bottom_mm=bottom_mm)
    found = {one.code: one for one in mat_findings(mat, covered_across_mm=5, covered_up_mm=5, reveal_mm=3)}[
        "mat.border-hidden"
    ]
    assert found.lengths["border"] == 4.5
    assert [(way.argument, way.value_mm) for way in found.ways] == [(argument, 28) for argument in arguments]


@pytest.mark.parametrize(
    ("overlap_mm", "code"), [(0, "mat.no-overlap"), (0.5, "mat.small-overlap"), (1.5, "mat.small-overlap")]
)
def test_an_overlap_that_is_told_short_is_not_asked_of_a_sheet_that_floats(overlap_mm: float, code: str) -> None:
    mat = replace(MAT, overlap_mm=overlap_mm)
    (found,) = mat_findings(mat, covered_across_mm=5, covered_up_mm=5)
    assert (found.code, found.lengths) == (code, {"overlap": overlap_mm, "usual": 3})
    assert mat_findings(mat, covered_across_mm=5, covered_up_mm=5, floats=True) == ()


@pytest.mark.parametrize(("window_mm", "is_found"), [(200.5, True), (200, True), (199.5, False)])
def test_a_window_as_large_as_its_artwork_lets_it_fall_through(window_mm: float, is_found: bool) -> None:
    opening = Opening(across_mm=window_mm, up_mm=window_mm)
    found = larger_than_image_findings(opening, artwork_across_mm=200, artwork_up_mm=200)
    assert [one.ways[0].value_mm for one in found] == ([194, 194] if is_found else [])


@pytest.mark.parametrize("sizes", [(50, 90), (90, 50)])
def test_an_overlap_of_half_the_narrower_side_leaves_no_window(sizes: tuple[float, float]) -> None:
    across_mm, up_mm = sizes
    left = opening_over(artwork_across_mm=across_mm, artwork_up_mm=up_mm, overlap_mm=24.5)
    assert min(left.across_mm, left.up_mm) == 1
    with pytest.raises(ImpossibleSize) as refused:
        opening_over(artwork_across_mm=across_mm, artwork_up_mm=up_mm, overlap_mm=25)
    assert refused.value.lengths == {"overlap": 25, "half": 25}


def test_a_bottom_of_which_nothing_stays_in_view_is_refused() -> None:
    covered = {"covered_across_mm": 5.0, "covered_up_mm": 5.0}
    assert equal_visible_borders(visible_mm=20, bottom_extra_mm=-19.5, **covered).bottom_mm == 5.5
    with pytest.raises(OutOfRange):
        equal_visible_borders(visible_mm=20, bottom_extra_mm=-20, **covered)


@pytest.mark.parametrize(("deg", "is_cut"), [(29.5, False), (30, True), (90, True), (90.5, False)])
def test_a_bevel_is_cut_at_30_to_90_degrees(deg: float, is_cut: bool) -> None:
    if is_cut:
        assert bevel(2, bevel_deg=deg).slope_mm >= 2
    else:
        with pytest.raises(OutOfRange):
            bevel(2, bevel_deg=deg)


@pytest.mark.parametrize(("number", "is_cut"), [(50, True), (51, False)])
def test_a_mat_has_at_most_fifty_windows(number: int, is_cut: bool) -> None:
    borders = Borders(sides_mm=60, top_mm=60, bottom_mm=60)
    many: dict[str, Any] = {"columns": 10, "gap_across_mm": 20, "gap_up_mm": 20, "borders": borders}
    if is_cut:
        assert len(arrange([PHOTO] * number, **many).windows) == number
    else:
        with pytest.raises(OutOfRange, match="1 to 50"):
            arrange([PHOTO] * number, **many)


@pytest.mark.parametrize(("aside_mm", "gap_mm"), [(-0.5, 3), (0, 3), (0.5, 3.0413813)])
def test_windows_half_a_millimetre_past_each_other_are_apart_from_corner_to_corner(
    aside_mm: float, gap_mm: float
) -> None:
    one = Window(left_mm=0, bottom_mm=0, across_mm=10, up_mm=10)
    for other in (
        Window(left_mm=10 + aside_mm, bottom_mm=13, across_mm=9, up_mm=9),
        Window(left_mm=13, bottom_mm=10 + aside_mm, across_mm=9, up_mm=9),
        Window(left_mm=-9 - aside_mm, bottom_mm=-12, across_mm=9, up_mm=9),
    ):
        assert gap_between_mm(one, other) == gap_between_mm(other, one) == pytest.approx(gap_mm)


def test_what_refuses_a_window_tells_what_is_left_of_its_border() -> None:
    with pytest.raises(ImpossibleSize, match="Window 2 leaves") as refused:
        place_freely(
            [
                Window(left_mm=50, bottom_mm=50, across_mm=50, up_mm=50),
                Window(left_mm=150, bottom_mm=50, across_mm=152, up_mm=50),
            ],
            across_mm=300,
            up_mm=300,
        )
    assert refused.value.lengths == {"border": -2, "least": 20}


def row(gap_mm: float, *, number: int = 2, sides_mm: float = 60, bottom_mm: float = 60) -> Any:
    borders = Borders(sides_mm=sides_mm, top_mm=60, bottom_mm=bottom_mm)
    return arrange([PHOTO] * number, columns=number, gap_across_mm=gap_mm, gap_up_mm=0, borders=borders)


@pytest.mark.parametrize(
    ("gap_mm", "number", "says"), [(11.5, 2, "is left: leave"), (11.5, 3, "the least of several"), (12, 3, None)]
)
def test_a_narrow_bridge_is_told_alone_or_as_the_least_of_several(gap_mm: float, number: int, says: str | None) -> None:
    found = window_findings(row(gap_mm, number=number))
    assert [says in one.sentence for one in found if says] == ([True] if says else [])
    assert bool(found) is bool(says)


@pytest.mark.parametrize(("gap_mm", "smaller_mm"), [(16, 2), (15.5, None), (23.5, 5.75)])
def test_less_of_the_lower_mat_is_offered_while_a_strip_of_it_is_left(gap_mm: float, smaller_mm: float | None) -> None:
    (found,) = window_findings(upper_mat(row(gap_mm), reveal_mm=6), reveal_mm=6)
    wider, *less = found.ways
    assert wider.value_mm == 24
    assert [way.value_mm for way in less] == ([smaller_mm] if smaller_mm else [])


@pytest.mark.parametrize(
    ("sides_mm", "bottom_mm", "arguments"),
    [(20, 20, []), (19.5, 20, ["mat_border_mm"]), (20, 19.5, ["mat_bottom_mm"])],
)
def test_a_border_half_a_millimetre_too_narrow_is_widened_alone(
    sides_mm: float, bottom_mm: float, arguments: list[str]
) -> None:
    found = window_findings(row(30, sides_mm=sides_mm, bottom_mm=bottom_mm))
    assert [(way.argument, way.value_mm) for one in found for way in one.ways] == [(one, 20) for one in arguments]


WISH = MatWish(overlap_mm=3, border_mm=60, bottom_mm=72, arrangement=WindowArrangement.FREE)
BY_HAND = [
    Image(across_mm=106, up_mm=156, left_mm=40, below_mm=30),
    Image(across_mm=206, up_mm=106, left_mm=180, below_mm=-50),
    Image(across_mm=56, up_mm=56, left_mm=-70, below_mm=200),
]


def test_borders_lie_round_the_group_of_windows_that_are_placed_by_hand() -> None:
    """By hand: from -70 to 380 across, from -50 to 250 up."""
    mat = mat_around_images(BY_HAND, WISH).mat
    assert (mat.window_across_mm, mat.window_up_mm) == (450, 300)
    assert (mat.border_sides_mm, mat.border_top_mm, mat.border_bottom_mm) == (60, 60, 72)
    assert (mat.across_mm, mat.up_mm) == (570, 432)
    within = mat_within(BY_HAND, WISH, across_mm=600, up_mm=500)
    assert (within.mat.border_sides_mm, within.mat.border_top_mm, within.mat.border_bottom_mm) == (75, 94, 106)
    first, second, third = within.windows.windows
    assert (second.left_mm - first.left_mm, third.bottom_mm - first.bottom_mm) == (140, 170)
    alone = mat_around_images(BY_HAND[:1], WISH).windows.windows[0]
    assert (alone.left_mm, alone.bottom_mm) == (60, 72)


@pytest.mark.parametrize(
    ("extra_mm", "up_mm", "is_left"), [(20, 164.5, False), (20, 171, True), (-20, 164.5, False), (-20, 171, True)]
)
def test_the_narrower_of_top_and_bottom_must_be_left(extra_mm: float, up_mm: float, is_left: bool) -> None:
    wish = MatWish(overlap_mm=3, border_mm=60, bottom_mm=60 + extra_mm)
    if is_left:
        mat = mat_within(BY_HAND[:1], wish, across_mm=300, up_mm=up_mm).mat
        assert min(mat.border_top_mm, mat.border_bottom_mm) == 0.5
    else:
        with pytest.raises(ImpossibleSize) as refused:
            mat_within(BY_HAND[:1], wish, across_mm=300, up_mm=up_mm)
        assert refused.value.lengths == {"window": 150, "outside": up_mm}


POLYGON = MatWish(overlap_mm=3, border_mm=60, bottom_mm=80)


@pytest.mark.parametrize(
    ("changed", "lengths", "least_change"),
    [
        ({"border_mm": 150}, {"outside": 300, "border": 150}, {"border_mm": 149.5, "overlap_mm": 0}),
        ({"overlap_mm": 60.5}, {"border": 60}, {"overlap_mm": 60}),
        ({"float_mm": 90}, {"half": 90}, {"float_mm": 89.5}),
        (
            {"opening": Opening(across_mm=300, up_mm=300)},
            {"outside": 300},
            {"opening": Opening(across_mm=299, up_mm=299), "overlap_mm": 0.5},
        ),
    ],
)
def test_what_refuses_the_mat_of_a_polygon_tells_its_limit_and_a_little_less_is_taken(
    changed: dict[str, Any], lengths: dict[str, float], least_change: dict[str, Any]
) -> None:
    with pytest.raises(FrameCalcError) as refusal:
        mat_in_polygon(replace(POLYGON, **changed), flats_mm=300, covered_mm=5)
    assert getattr(refusal.value, "lengths", {}) == lengths
    taken = mat_in_polygon(replace(POLYGON, **least_change), flats_mm=300, covered_mm=5)
    assert taken.mat.window_across_mm + 2 * taken.mat.border_sides_mm == 300 == taken.mat.across_mm == taken.mat.up_mm


@pytest.mark.parametrize(("sides_mm", "top_mm"), [(4, 30), (30, 4)])
def test_one_hidden_border_is_enough_to_widen_those_that_are_cut_alike(sides_mm: float, top_mm: float) -> None:
    mat = replace(MAT, border_sides_mm=sides_mm, border_top_mm=top_mm)
    (found,) = mat_findings(mat, covered_across_mm=5, covered_up_mm=5)
    assert [(way.argument, way.value_mm) for way in found.ways] == [("mat_border_mm", 25)]


def test_of_several_narrow_borders_the_narrowest_is_told() -> None:
    (found,) = window_findings(row(30, number=3, sides_mm=15, bottom_mm=18))
    assert found.lengths["border"] == 15 and "windows 1, 2 and 3" in found.sentence
