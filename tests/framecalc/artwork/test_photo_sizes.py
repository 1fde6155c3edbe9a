"""Six sizes out of one photo: a synthetic camera, a linear solve and a Monte Carlo run as oracles, refusals."""

from statistics import NormalDist

import numpy as np
import pytest
from camera import ACROSS_PX, CAMERA, SPANS, UP_PX, Points, Scene, marks_at, plain_scene, random_scene

from framecalc.artwork.measuring import Measurements
from framecalc.artwork.photo_findings import photo_findings, tape_findings
from framecalc.artwork.photo_sheet import KnownSheet, PhotoSheet, known_sheet
from framecalc.artwork.photo_sizes import COVERAGE, EVEN, LENS_RATIO, Camera, PhotoSizes, photo_sizes
from framecalc.errors import ImpossibleArtwork, OutOfRange
from framecalc.records import replace

TRUE_A4 = KnownSheet(short_mm=210, long_mm=297, short_play_mm=0, long_play_mm=0)
A4 = known_sheet(PhotoSheet.A4)
BENDS = (LENS_RATIO, -LENS_RATIO)


def lengths(sizes: PhotoSizes) -> dict[str, float]:
    return {name: size.length_mm for name, size in sizes.named()}


def apart_of(scene: Scene) -> list[float]:
    """Top less bottom, left less right, rising less falling."""
    top, bottom, left, right, rising, falling = scene.truths.values()
    return [top - bottom, left - right, rising - falling]


def by_linear_solve(sheet_px: Points, artwork_px: Points, sheet_mm: Points) -> Points:
    """The six sizes of many draws at once: the eight unknowns of each homography from pixels to millimetres, solved."""
    draws = len(sheet_px)
    rows, right = np.zeros((draws, 8, 8)), np.zeros((draws, 8, 1))
    for corner, (x_mm, y_mm) in enumerate(sheet_mm):
        x, y = sheet_px[:, corner, 0] / 1000, sheet_px[:, corner, 1] / 1000
        rows[:, 2 * corner, :3] = np.c_[x, y, np.ones(draws)]
        rows[:, 2 * corner, 6:] = np.c_[-x * x_mm, -y * x_mm]
        rows[:, 2 * corner + 1, 3:6] = np.c_[x, y, np.ones(draws)]
        rows[:, 2 * corner + 1, 6:] = np.c_[-x * y_mm, -y * y_mm]
        right[:, 2 * corner, 0], right[:, 2 * corner + 1, 0] = x_mm, y_mm
    h = np.linalg.solve(rows, right)[:, :, 0]
    x, y = artwork_px[:, :, 0] / 1000, artwork_px[:, :, 1] / 1000
    depth = h[:, 6:7] * x + h[:, 7:8] * y + 1
    across = (h[:, 0:1] * x + h[:, 1:2] * y + h[:, 2:3]) / depth
    down = (h[:, 3:4] * x + h[:, 4:5] * y + h[:, 5:6]) / depth
    spans = [np.hypot(across[:, i] - across[:, j], down[:, i] - down[:, j]) for i, j in SPANS.values()]
    return np.stack(spans, axis=1)


@pytest.fixture(scope="module")
def scenes() -> list[Scene]:
    rng = np.random.default_rng(20)
    return [random_scene(rng) for _ in range(200)]


def test_marks_on_their_corners_give_the_true_sizes(scenes: list[Scene]) -> None:
    for scene in scenes[:40]:
        sizes = photo_sizes(marks_at(scene.pixels, off_px=1), TRUE_A4, CAMERA)
        assert lengths(sizes) == pytest.approx(scene.truths, abs=1e-6)


def test_the_sizes_are_those_of_a_linear_solve(scenes: list[Scene]) -> None:
    rng = np.random.default_rng(1)
    for scene in scenes[:20]:
        pixels = scene.pixels + rng.normal(0, 3, (8, 2))
        sizes = photo_sizes(marks_at(pixels, off_px=1), TRUE_A4, CAMERA)
        up = [297, 210][sizes.sheet_on_its_side]
        sheet_mm = np.array([[0, 0], [507 - up, 0], [507 - up, up], [0, up]], dtype=float)
        solved = by_linear_solve(pixels[None, :4], pixels[None, 4:], sheet_mm)[0]
        assert list(lengths(sizes).values()) == pytest.approx(solved.tolist(), rel=1e-8)


def test_of_two_hundred_poses_the_truth_is_in_the_interval_and_the_error_small(scenes: list[Scene]) -> None:
    """One pixel of noise in 12 megapixels, a true sheet and a true lens: the interval is that of the marks alone."""
    rng = np.random.default_rng(3)
    inside, inside_apart, errors = [], [], []
    for scene in scenes:
        sizes = photo_sizes(marks_at(scene.pixels + rng.normal(0, 1, (8, 2)), off_px=1), TRUE_A4, CAMERA)
        for name, size in sizes.named():
            off_mm = abs(size.length_mm - scene.truths[name])
            inside.append(off_mm <= size.marks_mm)
            errors.append(off_mm / scene.truths[name])
        for (_, apart), true_mm in zip(sizes.differences(), apart_of(scene), strict=True):
            inside_apart.append(abs(apart.length_mm - true_mm) <= apart.marks_mm)
    assert 0.93 <= np.mean(inside) <= 0.985
    assert 0.93 <= np.mean(inside_apart) <= 0.985
    assert np.median(errors) <= 0.003


def test_a_sheet_off_by_its_play_and_a_bending_lens_stay_within(scenes: list[Scene]) -> None:
    """All doubts at once, the sheet and the lens anywhere within what is allowed for them."""
    rng = np.random.default_rng(4)
    inside = []
    for scene in scenes:
        play = 1 + rng.uniform(-2, 2, 2) / (297 if np.hypot(*(scene.sheet[1] - scene.sheet[0])) > 250 else 210)
        middle = scene.sheet.mean(axis=0)
        stretched = replace(scene, sheet=(scene.sheet - middle) * play + middle, bend=rng.uniform(-1, 1) * LENS_RATIO)
        pixels = stretched.pixels + rng.normal(0, 1, (8, 2))
        sizes = photo_sizes(marks_at(pixels, off_px=1), A4, CAMERA)
        inside += [abs(size.length_mm - scene.truths[name]) <= size.doubt_mm for name, size in sizes.named()]
    assert np.mean(inside) >= 0.93


def test_the_spread_of_many_draws_is_the_spread_that_is_told(scenes: list[Scene]) -> None:
    """2000 draws a scene: the standard deviation found by the slopes is within a tenth of that of the draws."""
    rng = np.random.default_rng(5)
    for scene in scenes[:10]:
        sizes = photo_sizes(marks_at(scene.pixels, off_px=1), TRUE_A4, CAMERA)
        up = [297, 210][sizes.sheet_on_its_side]
        sheet_mm = np.array([[0, 0], [507 - up, 0], [507 - up, up], [0, up]], dtype=float)
        draws = scene.pixels + rng.normal(0, 1, (2000, 8, 2))
        spread = by_linear_solve(draws[:, :4], draws[:, 4:], sheet_mm).std(axis=0)
        told = [size.marks_mm / COVERAGE for _, size in sizes.named()]
        assert told == pytest.approx(spread.tolist(), rel=0.1)


def test_marks_that_are_twice_as_far_off_leave_twice_the_doubt() -> None:
    pixels = plain_scene().pixels
    one, two = (photo_sizes(marks_at(pixels, off_px=off), A4, CAMERA) for off in (1, 2))
    for (_, single), (_, double) in zip(one.named(), two.named(), strict=True):
        assert double.marks_mm == pytest.approx(2 * single.marks_mm)
        assert (double.sheet_mm, double.lens_mm, double.plane_mm) == (single.sheet_mm, single.lens_mm, single.plane_mm)


def test_turning_photo_and_marks_by_half_keeps_the_sizes() -> None:
    pixels = plain_scene().pixels
    half = np.roll((np.array([ACROSS_PX, UP_PX]) - pixels).reshape(2, 4, 2), 2, axis=1).reshape(8, 2)
    straight, turned = (lengths(photo_sizes(marks_at(one, off_px=1), A4, CAMERA)) for one in (pixels, half))
    assert turned == pytest.approx(straight, abs=1e-6)


@pytest.mark.parametrize("away_mm", [-15.0, 20.0, 40.0])
def test_a_canvas_before_the_sheet_comes_out_right_once_that_is_told(away_mm: float) -> None:
    """Untold it comes out larger by away / height; told, by a camera that wrote its lens down, as it is."""
    scene = plain_scene(away_mm=away_mm)
    marks = marks_at(scene.pixels, off_px=1)
    camera = replace(CAMERA, film_focal_mm=43.27 * scene.focal_px / float(np.hypot(ACROSS_PX, UP_PX)))
    untold, told = (photo_sizes(marks, TRUE_A4, camera, away_mm=away) for away in (0, away_mm))
    assert told.height_mm == pytest.approx(scene.height_mm, rel=1e-3)
    for name, true_mm in scene.truths.items():
        assert lengths(untold)[name] == pytest.approx(true_mm / (1 - away_mm / scene.height_mm), rel=1e-4)
        assert lengths(told)[name] == pytest.approx(true_mm, rel=1e-4)


def test_a_sheet_that_was_measured_leaves_less_doubt_than_the_standard_does() -> None:
    measured = known_sheet(PhotoSheet.A4, short_mm=210, long_mm=297)
    marks = marks_at(plain_scene().pixels, off_px=1)
    by_standard, by_tape = (photo_sizes(marks, sheet, CAMERA).across_top for sheet in (A4, measured))
    assert by_tape.sheet_mm == pytest.approx(by_standard.sheet_mm / 4)


# --- what cannot be measured, and what is doubtful


def refused(pixels: Points, *, camera: Camera = CAMERA, away_mm: float = 0) -> ImpossibleArtwork:
    with pytest.raises(ImpossibleArtwork) as refusal:
        photo_sizes(marks_at(pixels, off_px=1), A4, camera, away_mm=away_mm)
    return refusal.value


def test_marks_that_are_no_corners_are_refused_each_with_what_to_do() -> None:
    pixels = plain_scene().pixels
    crossed, mirrored, outside, heap, inside_out = (pixels.copy() for _ in range(5))
    crossed[[1, 2]] = crossed[[2, 1]]
    mirrored[4:] = mirrored[[5, 4, 7, 6]]
    outside[0] = (-3, 40)
    heap[:4] = pixels[0] + [[0, 0], [9, 0], [9, 9], [0, 9]]
    inside_out[6] = pixels[4] + (pixels[6] - pixels[4]) * 0.2
    assert (refused(crossed).field, refused(crossed).sentence.split()[0]) == ("sheet_corners", "Mark")
    assert (refused(mirrored).field, "clockwise" in refused(mirrored).sentence) == ("artwork_corners", True)
    assert "must be in the photo" in refused(outside).sentence
    assert "too close together" in refused(heap).sentence
    assert refused(inside_out).field == "artwork_corners"


@pytest.mark.parametrize(("larger", "is_heap"), [(0.95, True), (1.05, False)])
def test_marks_around_less_than_a_thousandth_of_the_photo_are_a_slip(larger: float, is_heap: bool) -> None:
    side_px = larger * (ACROSS_PX * UP_PX / 1000) ** 0.5
    pixels = plain_scene().pixels.copy()
    pixels[:4] = pixels[0] + np.array([[0, 0], [1, 0.2], [1.3, 1.2], [0.3, 1]]) * side_px / 0.94**0.5
    try:
        photo_sizes(marks_at(pixels, off_px=1), A4, CAMERA)
        refusal = ""
    except ImpossibleArtwork as refused_marks:
        refusal = refused_marks.sentence
    assert ("too close together" in refusal) is is_heap


def test_the_slant_is_the_angle_between_the_plane_and_the_ray_to_the_artworks_middle() -> None:
    scene = plain_scene(tilt_rad=0.4)
    to_middle = scene.turn @ np.array([*scene.artwork.mean(axis=0), 0]) + scene.at
    aside_rad = np.arccos(abs(to_middle @ scene.turn[:, 2]) / np.linalg.norm(to_middle))
    camera = replace(CAMERA, film_focal_mm=43.27 * scene.focal_px / float(np.hypot(ACROSS_PX, UP_PX)))
    sizes = photo_sizes(marks_at(scene.pixels, off_px=1), TRUE_A4, camera)
    assert sizes.slant_deg == pytest.approx(np.degrees(aside_rad), abs=1)


def test_a_view_along_the_plane_is_refused() -> None:
    scene = plain_scene(tilt_rad=0.0)
    flat = replace(scene, turn=np.array([[1, 0, 0], [0, np.cos(1.3), -np.sin(1.3)], [0, np.sin(1.3), np.cos(1.3)]]))
    assert "side" in refused(flat.pixels).sentence


def test_marks_beyond_the_horizon_of_the_sheet_are_refused() -> None:
    sheet = np.array([[1000, 2000], [2000, 1900], [2400, 2900], [600, 2900]], dtype=float)
    artwork = np.array([[900, 50], [2100, 50], [2100, 900], [900, 900]], dtype=float)
    assert refused(np.vstack([sheet, artwork])).field == "sheet_corners"


def test_an_artwork_further_before_its_sheet_than_the_camera_is_refused() -> None:
    refusal = refused(plain_scene().pixels, away_mm=2000)
    assert (refusal.field, refusal.sentence) == ("sheet_away_mm", "Enter less: the camera was not even that far.")
    with pytest.raises(OutOfRange):
        known_sheet(PhotoSheet.A4, short_mm=0)


def codes(scene: Scene, sheet: KnownSheet = A4) -> list[str]:
    marks = marks_at(scene.pixels, off_px=1)
    sizes = photo_sizes(marks, sheet, CAMERA)
    return [finding.code for finding in photo_findings(sizes, marks, sheet, CAMERA)]


def test_a_good_photo_has_no_finding_and_each_fault_has_its_own() -> None:
    scene = plain_scene()
    assert codes(scene) == []
    assert codes(scene, known_sheet(PhotoSheet.LETTER)) == ["photo.sheet-shape"]
    assert codes(plain_scene(tilt_rad=0.8)) == ["photo.oblique"]
    tiny = replace(scene, sheet=scene.sheet[0] + (scene.sheet - scene.sheet[0]) * 0.3)
    assert codes(tiny, KnownSheet(short_mm=63, long_mm=89.1, short_play_mm=1, long_play_mm=1)) == ["photo.sheet-small"]
    left = np.array([2 - scene.pixels[:, 0].min(), 0])
    moved = marks_at(scene.pixels + left, off_px=1)
    found = photo_findings(photo_sizes(moved, A4, CAMERA), moved, A4, CAMERA)
    assert "photo.cut-off" in [finding.code for finding in found]


def test_a_tape_is_apart_where_it_is_further_away_than_both_doubts() -> None:
    size = photo_sizes(marks_at(plain_scene().pixels, off_px=1), A4, CAMERA).across_top
    for away_mm, is_apart in ((size.doubt_mm + 0.49, False), (size.doubt_mm + 0.51, True)):
        assert size.is_apart(size.length_mm + away_mm) is size.is_apart(size.length_mm - away_mm) is is_apart


@pytest.mark.parametrize(("film_mm", "off_ratio"), [(0.0, 1 / 3), (28.0, 0.1)])
def test_a_sheet_out_of_the_plane_is_doubtful_by_its_share_of_the_height(film_mm: float, off_ratio: float) -> None:
    """A millimetre of play at the height of the camera; what was told is as doubtful as the focal length."""
    marks, camera = marks_at(plain_scene().pixels, off_px=1), replace(CAMERA, film_focal_mm=film_mm)
    in_plane, before = (photo_sizes(marks, TRUE_A4, camera, away_mm=away) for away in (0.0, 30.0))
    one_mm = COVERAGE * EVEN * in_plane.across_top.length_mm / in_plane.height_mm
    assert in_plane.across_top.plane_mm == pytest.approx(one_mm)
    assert before.across_top.plane_mm == pytest.approx(one_mm * np.hypot(1, 30 * off_ratio))


def test_a_sheet_in_doubt_one_way_leaves_sizes_that_way_in_doubt() -> None:
    """Marks of sheet and artwork in one row, seen straight: across grows as the sheet's width does, up not at all."""
    pixels = np.array(
        [[400, 600], [820, 600], [820, 1194], [400, 1194], [900, 600], [1500, 600], [1500, 1400], [900, 1400]]
    )
    for short_mm, long_mm in ((2.1, 0.0), (0.0, 2.97)):
        sheet = replace(TRUE_A4, short_play_mm=short_mm, long_play_mm=long_mm)
        sizes = photo_sizes(marks_at(pixels, off_px=1), sheet, CAMERA)
        across, up = COVERAGE * EVEN * short_mm / 210, COVERAGE * EVEN * long_mm / 297
        assert sizes.across_top.sheet_mm == pytest.approx(across * 300)
        assert sizes.up_left.sheet_mm == pytest.approx(up * 400)


def test_what_is_brought_back_to_its_plane_takes_its_doubts_along() -> None:
    marks = marks_at(plain_scene().pixels, off_px=1)
    untold, told = (photo_sizes(marks, A4, CAMERA, away_mm=away).up_left for away in (0.0, 60.0))
    shares = [(one.marks_mm, one.sheet_mm, one.lens_mm) for one in (untold, told)]
    back = told.length_mm / untold.length_mm
    assert back < 0.95 and shares[1] == pytest.approx([back * one for one in shares[0]])


def test_a_lens_leaves_as_much_in_doubt_as_it_may_bend() -> None:
    """The same scene by a lens that bends as much as is allowed for, out and in."""
    out, inward = (photo_sizes(marks_at(plain_scene(bend=by).pixels, off_px=1), A4, CAMERA) for by in BENDS)
    told = photo_sizes(marks_at(plain_scene().pixels, off_px=1), A4, CAMERA)
    for name in ("across_top", "up_right", "diagonal_falling"):
        change_mm = abs(getattr(out, name).length_mm - getattr(inward, name).length_mm) / 2
        assert getattr(told, name).lens_mm == pytest.approx(COVERAGE * EVEN * change_mm, rel=0.05)


def test_a_tape_within_the_interval_is_silent_and_one_beyond_is_found() -> None:
    sizes = photo_sizes(marks_at(plain_scene().pixels, off_px=1), A4, CAMERA)
    near_mm, far_mm = sizes.across_top.doubt_mm * 0.9, sizes.up_right.doubt_mm + 1
    tape = Measurements(
        across_top_mm=400 + near_mm, across_bottom_mm=400 + near_mm, up_left_mm=300, up_right_mm=300 - far_mm
    )
    found = list(tape_findings(sizes, tape, typed=("across_top", "up_left", "up_right")))
    assert [finding.code for finding in found] == ["photo.tape-differs-up-right"]
    assert found[0].lengths["photo"] == pytest.approx(300)
    assert list(tape_findings(sizes, tape, typed=("across_top", "up_left"))) == []


def test_the_doubt_is_said_to_half_a_millimetre_and_never_smaller_than_it_is() -> None:
    sizes = photo_sizes(marks_at(plain_scene().pixels, off_px=1), A4, CAMERA)
    for doubt_mm in (0.26, 1.0, 1.24, 1.26, 1.49, 2.7):
        certain = replace(sizes.up_left, marks_mm=doubt_mm, sheet_mm=0, lens_mm=0, plane_mm=0)
        tape = Measurements(across_top_mm=400, across_bottom_mm=400, up_left_mm=310, up_right_mm=300)
        (found,) = tape_findings(replace(sizes, up_left=certain), tape, typed=("up_left",))
        assert doubt_mm <= found.lengths["doubt"] <= doubt_mm + 0.5
        assert (found.lengths["doubt"] * 2).is_integer()


def test_a_sheet_is_another_one_where_its_proportion_is_off_by_four_per_cent_and_what_is_doubtful() -> None:
    """A4 and Letter are 9 % apart (√2 to 11 : 8 1/2)."""
    marks = marks_at(plain_scene().pixels, off_px=1)
    sizes = replace(photo_sizes(marks, A4, CAMERA), aspect_doubt_pct=1)
    for off_pct, is_found in ((4.97, False), (5.03, True), (-4.97, False), (-5.03, True)):
        seen = replace(sizes, sheet_aspect_ratio=297 / 210 * (1 + off_pct / 100))
        found = [finding.code for finding in photo_findings(seen, marks, A4, CAMERA)]
        assert found == ["photo.sheet-shape"] * is_found


def test_doubts_are_of_ninety_five_in_a_hundred_and_even_spreads_are_normal_ones() -> None:
    """Source: the normal distribution; the variance of an even spread from -1 to 1 is ∫ x²/2 dx = 1/3."""
    assert NormalDist().inv_cdf(0.975) == pytest.approx(COVERAGE, abs=0.001)
    assert pytest.approx(1 / 3) == EVEN**2


@pytest.mark.parametrize(("axis", "is_far"), [(0, False), (0, True), (1, False), (1, True)])
def test_a_corner_at_any_edge_of_the_photo_may_be_cut_off(axis: int, is_far: bool) -> None:
    scene = plain_scene()
    sizes = photo_sizes(marks_at(scene.pixels, off_px=1), A4, CAMERA)
    along = scene.pixels[:, axis]
    for off_px, found in ((15, True), (17, False)):  # 4 of 1000 of the longer side are 16
        moved = scene.pixels.copy()
        moved[:, axis] += ((ACROSS_PX, UP_PX)[axis] - off_px - along.max()) if is_far else (off_px - along.min())
        findings = photo_findings(sizes, marks_at(moved, off_px=1), A4, CAMERA)
        assert ("photo.cut-off" in [finding.code for finding in findings]) is found


def test_a_mark_on_the_very_edge_of_the_photo_is_still_in_it() -> None:
    pixels = plain_scene().pixels
    moved = pixels - pixels.min(axis=0)
    assert photo_sizes(marks_at(moved, off_px=1), A4, CAMERA).across_top.length_mm > 0


def test_the_sheets_have_their_standard_sizes_and_the_printed_one_fits_on_both() -> None:
    """Source: ISO 216, A4 is 210 × 297 mm; ANSI/ASME Y14.1, Letter is 8 1/2 × 11 in. Printers leave a quarter inch."""
    letter, printed = known_sheet(PhotoSheet.LETTER), known_sheet(PhotoSheet.PRINTED)
    assert (A4.short_mm, A4.long_mm) == (210, 297)
    assert (letter.short_mm, letter.long_mm) == pytest.approx((8.5 * 25.4, 11 * 25.4))
    assert printed.short_mm <= min(A4.short_mm, letter.short_mm) - 2 * 6.35
    assert printed.long_mm <= min(A4.long_mm, letter.long_mm) - 2 * 6.35


def test_the_proportions_that_a_wrong_sheet_is_told_are_those_of_the_sheets() -> None:
    marks = marks_at(plain_scene().pixels, off_px=1)
    wrong = known_sheet(PhotoSheet.LETTER)
    found = next(iter(photo_findings(photo_sizes(marks, wrong, CAMERA), marks, wrong, CAMERA)))
    for kind in PhotoSheet:
        sheet = known_sheet(kind)
        assert f"{sheet.long_mm / sheet.short_mm:.2f}" in found.why
