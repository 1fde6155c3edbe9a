"""A mat as wished for: several images in every arrangement, floating sheets, borders as they stay in view."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from framecalc.errors import FrameCalcError
from framecalc.mats.openings import Opening
from framecalc.mats.wished_mat import (
    Image,
    MatCover,
    Matting,
    MatWish,
    WindowArrangement,
    images_of,
    mat_around_images,
    mat_within,
    scaled_images,
)
from framecalc.records import replace
from framecalc.units import TOLERANCE_MM

WISH = MatWish(overlap_mm=3, border_mm=60, bottom_mm=72, gap_mm=20)
PHOTO = Image(across_mm=106, up_mm=156)

sizes_mm = some.floats(min_value=30, max_value=600)
images = some.lists(some.builds(Image, across_mm=sizes_mm, up_mm=sizes_mm), min_size=1, max_size=9)
arrangements = some.sampled_from([WindowArrangement.ROW, WindowArrangement.COLUMN, WindowArrangement.GRID])


def places(matting: Matting) -> list[tuple[float, ...]]:
    return [(one.left_mm, one.bottom_mm, one.right_mm, one.top_mm) for one in matting.windows.windows]


@given(chosen=images, arrangement=arrangements, columns=some.integers(1, 9))
def test_borders_and_windows_make_up_the_mat(chosen: list[Image], arrangement: WindowArrangement, columns: int) -> None:
    mat = mat_around_images(chosen, replace(WISH, arrangement=arrangement, columns=columns)).mat
    assert 2 * mat.border_sides_mm + mat.window_across_mm == pytest.approx(mat.across_mm, abs=TOLERANCE_MM)
    assert mat.border_top_mm + mat.window_up_mm + mat.border_bottom_mm == pytest.approx(mat.up_mm, abs=TOLERANCE_MM)
    borders = mat.border_sides_mm, mat.border_top_mm, mat.border_bottom_mm
    assert borders == pytest.approx((60, 60, 72), abs=TOLERANCE_MM)


@given(chosen=images, arrangement=arrangements, columns=some.integers(1, 9))
def test_a_mat_that_fills_its_own_outside_is_the_same_mat(
    chosen: list[Image], arrangement: WindowArrangement, columns: int
) -> None:
    wish = replace(WISH, arrangement=arrangement, columns=columns)
    around = mat_around_images(chosen, wish)
    within = mat_within(chosen, wish, across_mm=around.mat.across_mm, up_mm=around.mat.up_mm)
    for one, other in zip(places(around), places(within), strict=True):
        assert one == pytest.approx(other, abs=TOLERANCE_MM)


@given(chosen=images, ratio=some.floats(min_value=0.5, max_value=3))
def test_enlarged_images_enlarge_the_mat_in_a_straight_line(chosen: list[Image], ratio: float) -> None:
    """What the size chain relies on where it looks for the scale of the pictures."""

    def across_mm(scale: float) -> float:
        return mat_around_images(scaled_images(chosen, by_ratio=scale), WISH).mat.across_mm

    straight_mm = across_mm(1) + (across_mm(2) - across_mm(1)) * (ratio - 1)
    assert across_mm(ratio) == pytest.approx(straight_mm, abs=1e-6)


def test_three_photographs_in_a_row_a_column_and_a_grid() -> None:
    row = mat_around_images([PHOTO] * 3, WISH).mat
    column = mat_around_images([PHOTO] * 3, replace(WISH, arrangement=WindowArrangement.COLUMN)).mat
    grid = mat_around_images([PHOTO] * 3, replace(WISH, arrangement=WindowArrangement.GRID, columns=2)).mat
    assert (row.across_mm, row.up_mm) == (3 * 100 + 2 * 20 + 120, 150 + 132)
    assert (column.across_mm, column.up_mm) == (100 + 120, 3 * 150 + 2 * 20 + 132)
    assert (grid.across_mm, grid.up_mm) == (2 * 100 + 20 + 120, 2 * 150 + 20 + 132)


def test_windows_placed_by_hand_keep_their_places_to_each_other() -> None:
    free = replace(WISH, arrangement=WindowArrangement.FREE)
    chosen = [PHOTO, replace(PHOTO, left_mm=130, below_mm=-40)]
    first, second = mat_around_images(chosen, free).windows.windows
    assert (second.left_mm - first.left_mm, second.bottom_mm - first.bottom_mm) == (130, -40)
    assert (first.left_mm, second.bottom_mm) == (60, 72)


def test_borders_that_stay_in_view_are_cut_wider_by_what_the_lip_covers() -> None:
    covered = MatCover(across_mm=4.5, up_mm=5.5)
    mat = mat_around_images([PHOTO], replace(WISH, in_view=True), covered=covered).mat
    assert (mat.border_sides_mm, mat.border_top_mm, mat.border_bottom_mm) == (64.5, 65.5, 77.5)
    assert mat_around_images([PHOTO], WISH, covered=covered).mat.border_sides_mm == 60
    bare = mat_around_images([PHOTO], replace(WISH, in_view=True)).mat
    assert (bare.border_sides_mm, bare.border_top_mm) == (60, 60)


def test_a_floating_sheet_shows_its_edges_and_a_typed_opening_counts() -> None:
    floating = mat_around_images([PHOTO], replace(WISH, float_mm=8)).mat
    assert (floating.window_across_mm, floating.overlap_mm) == (106 + 16, -8)
    typed = replace(WISH, opening=Opening(across_mm=90, up_mm=140))
    chosen = images_of(typed, artwork_across_mm=106, artwork_up_mm=156)
    assert mat_around_images(chosen, typed).mat.window_up_mm == 140


def test_the_least_of_all_laps_is_the_mats() -> None:
    wide = replace(PHOTO, opening=Opening(across_mm=102, up_mm=140))
    for chosen in ([wide, PHOTO], [PHOTO, wide]):
        assert mat_around_images(chosen, WISH).mat.overlap_mm == 2


@pytest.mark.parametrize(
    ("chosen", "changes", "field", "says"),
    [
        ([PHOTO] * 51, {}, "windows_count", "Enter 1 to 50"),
        ([PHOTO] * 2, {"gap_mm": 0}, "gap_across_mm", "Enter more than 0 mm"),
        (
            [PHOTO],
            {"overlap_mm": 60},
            "mat_overlap_mm",
            "No window left: enter an overlap of less than 53 mm, not 60 mm",
        ),
        (
            [PHOTO] * 2,
            {"arrangement": WindowArrangement.FREE},
            "windows",
            "Windows 1 and 2 overlap: leave 12 mm of board between them",
        ),
        ([PHOTO], {"opening": Opening(across_mm=0, up_mm=20)}, "window_across_mm", "Enter more than 0 mm"),
        ([PHOTO], {"border_mm": 0}, "mat_border_mm", "Enter more than 0 mm"),
    ],
)
def test_mats_that_cannot_be_are_refused(
    chosen: list[Image], changes: dict[str, object], field: str, says: str
) -> None:
    wish = replace(WISH, **changes)  # type: ignore[arg-type]
    if wish.opening:
        chosen = [replace(image, opening=wish.opening) for image in chosen]
    with pytest.raises(FrameCalcError) as refusal:
        mat_around_images(chosen, wish)
    assert refusal.value.field == field and says in refusal.value.sentence


def test_an_outside_that_leaves_no_border_is_refused_with_its_number() -> None:
    with pytest.raises(FrameCalcError, match="No border left: enter a mat larger than 330 mm, around 340 mm"):
        mat_within([PHOTO] * 3, WISH, across_mm=330, up_mm=400)
