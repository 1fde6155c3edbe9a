"""Corners found along their edges: a rendered photo by a lens that bends, a curved edge, no contrast."""

import numpy as np
import pytest
from camera import ACROSS_PX, CAMERA, UP_PX, marks_at, plain_scene
from PIL import Image, ImageDraw, ImageFilter

from framecalc.artwork.photo_edges import FOLLOWED, FOUND_PX, STATIONS, Greys, found_corners
from framecalc.artwork.photo_sheet import KnownSheet
from framecalc.artwork.photo_sizes import LENS_RATIO, photo_sizes

TRUE_A4 = KnownSheet(short_mm=210, long_mm=297, short_play_mm=0, long_play_mm=0)


def greys_of(image: Image.Image) -> Greys:
    return Greys(across_px=image.width, up_px=image.height, values=image.tobytes())


def test_in_a_rendered_photo_by_a_phones_lens_the_corners_and_sizes_are_found() -> None:
    """Marks up to 6 pixels off, grain of 15 greys, lines bent outward by as much as is allowed for."""
    scene, rng = plain_scene(bend=LENS_RATIO), np.random.default_rng(8)
    grain = np.asarray(scene.drawn()) + rng.integers(0, 15, (UP_PX, ACROSS_PX), dtype=np.uint8)
    greys = Greys(across_px=ACROSS_PX, up_px=UP_PX, values=grain.tobytes())
    by_hand = marks_at(scene.pixels + rng.uniform(-6, 6, (8, 2)), off_px=3)
    found = [*found_corners(greys, by_hand.sheet), *found_corners(greys, by_hand.artwork)]
    assert None not in found
    corners = np.array(found)
    assert np.hypot(*(corners - scene.pixels).T).max() <= 3 * FOUND_PX
    sizes = photo_sizes(marks_at(corners, off_px=FOUND_PX), TRUE_A4, CAMERA)
    for name, size in sizes.named():
        assert abs(size.length_mm - scene.truths[name]) <= size.doubt_mm
        assert size.length_mm == pytest.approx(scene.truths[name], rel=0.005)


def test_an_edge_without_contrast_or_that_is_torn_leaves_its_corners_as_they_are_put() -> None:
    image = Image.new("L", (600, 400), 90)
    pen = ImageDraw.Draw(image)
    pen.polygon([(100, 80), (500, 80), (500, 320), (100, 320)], fill=98)
    corners = ((101.0, 81.0), (499.0, 80.0), (500.0, 319.0), (100.0, 321.0))
    assert found_corners(greys_of(image), corners) == (None,) * 4
    torn = [(100 + 9 * (k % 2), 80 + 12 * k) for k in range(20)]
    pen.polygon([*torn, (100, 320), (500, 320), (500, 80)], fill=220)
    found = found_corners(greys_of(image), corners)
    assert [corner is not None for corner in found] == [False, True, True, False]


def test_of_a_thick_line_the_side_that_was_marked_is_followed() -> None:
    """The black frame of a printed sheet, small in the photo: both sides of its line are near to the mark."""
    image = Image.new("L", (600, 400), 120)
    pen = ImageDraw.Draw(image)
    pen.rectangle((80, 60, 519, 339), fill=250)
    pen.rectangle((100, 80, 499, 319), fill=20)
    pen.rectangle((104, 84, 495, 315), fill=250)
    corners = ((101.2, 80.9), (498.9, 81.0), (500.8, 319.0), (99.2, 321.0))
    found = found_corners(greys_of(image), corners)
    assert np.array(found) == pytest.approx(np.array([(100, 80), (500, 80), (500, 320), (100, 320)]), abs=0.3)


def filled(size: tuple[int, int], *, ground: int = 30) -> tuple[Image.Image, ImageDraw.ImageDraw]:
    image = Image.new("L", size, ground)
    return image, ImageDraw.Draw(image)


def test_a_grey_between_pixels_is_on_the_plane_of_the_four_around_it() -> None:
    """Source: bilinear interpolation gives a plane back; a pixel's own place is its middle."""
    greys = Greys(across_px=5, up_px=4, values=bytes(10 * x + 40 * y for y in range(4) for x in range(5)))
    for x in np.arange(0, 5.01, 0.25):
        for y in np.arange(0, 4.01, 0.25):
            within = 0.5 <= x < 4.5 and 0.5 <= y < 3.5
            assert greys.at((x, y)) == (10 * (x - 0.5) + 40 * (y - 0.5) if within else None)


def test_in_a_larger_photo_an_edge_is_looked_for_further_away() -> None:
    """Either way a photo is held; a mark 12 pixels aside is further than is looked in a small one."""
    for size, is_found in (((5000, 300), True), ((300, 5000), True), ((600, 300), False), ((300, 600), False)):
        image, pen = filled(size)
        pen.rectangle((50, 50, 249, 249), fill=230)
        first = found_corners(greys_of(image), ((62, 62), (250, 50), (250, 250), (50, 250)))[0]
        assert first == (pytest.approx((50, 50), abs=0.1) if is_found else None)


def test_a_short_side_is_looked_for_no_further_than_a_quarter_of_it_and_the_shortest_not_at_all() -> None:
    """In a photo of this size an edge is else looked for 20 pixels away, which is outside of it."""
    for side_px, is_found in ((30, True), (22, False)):
        image, pen = filled((5000, 200))
        pen.rectangle((12, 12, 11 + side_px, 11 + side_px), fill=230)
        far = 12 + side_px
        found = found_corners(greys_of(image), ((12, 12), (far, 12), (far, far), (12, far)))
        assert [corner is not None for corner in found] == [is_found] * 4


@pytest.mark.parametrize("turn_deg", [0, 20, 45, 70])
def test_the_corners_of_a_leaning_sheet_are_found_whichever_way_it_is_turned(turn_deg: float) -> None:
    """A parallelogram of 60°, its edges blurred as a lens does: the steepest place is the edge."""
    turn, leaning = np.radians(turn_deg), np.array([(-150, -60), (90, -60), (160, 60), (-80, 60)])
    corners = leaning @ np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]]) + 200
    image, pen = filled((1600, 1600))
    pen.polygon([(float(x), float(y)) for x, y in corners * 4 - 0.5], fill=230)
    soft = image.reduce(4).filter(ImageFilter.GaussianBlur(1.5))
    marks = corners + np.array([(2, -2), (1, 2), (-2, 1), (-1, -2)])
    a, b, c, d = ((float(x), float(y)) for x, y in marks)
    assert np.array(found_corners(greys_of(soft), (a, b, c, d))) == pytest.approx(corners, abs=FOUND_PX)


@pytest.mark.parametrize(("inward_px", "found_px"), [(1.7, 0), (2.3, 4)])
def test_of_the_two_sides_of_a_line_the_nearer_is_followed(inward_px: float, found_px: float) -> None:
    image, pen = filled((600, 400), ground=250)
    pen.rectangle((100, 80, 499, 319), fill=20)
    pen.rectangle((104, 84, 495, 315), fill=250)
    x, far_x, y, far_y = 100 + inward_px, 500 - inward_px, 80 + inward_px, 320 - inward_px
    found = found_corners(greys_of(image), ((x, y), (far_x, y), (far_x, far_y), (x, far_y)))
    assert found[0] == pytest.approx((100 + found_px, 80 + found_px), abs=0.1)
    assert found[2] == pytest.approx((500 - found_px, 320 - found_px), abs=0.1)


def test_a_faint_line_at_the_mark_is_passed_over_for_the_strong_edge_beside_it() -> None:
    image, pen = filled((600, 400), ground=60)
    pen.rectangle((100, 80, 499, 319), fill=230)
    pen.rectangle((103, 83, 496, 316), outline=200, width=2)
    found = found_corners(greys_of(image), ((103, 83), (497, 83), (497, 317), (103, 317)))
    assert np.array(found) == pytest.approx(np.array([(100, 80), (500, 80), (500, 320), (100, 320)]), abs=0.1)


def test_a_notch_in_an_edge_carries_no_corner_away() -> None:
    image, pen = filled((600, 400))
    pen.rectangle((100, 80, 499, 319), fill=230)
    pen.rectangle((130, 80, 170, 84), fill=30)
    found = found_corners(greys_of(image), ((101, 81), (499, 80), (500, 319), (100, 321)))
    assert found[0] == pytest.approx((100, 80), abs=0.1)


def test_where_the_greys_change_evenly_the_mark_stays() -> None:
    """No place on an even slope, nine pixels wide, is more the edge than another: it is the mark's."""
    across = np.clip((np.arange(600) + 0.5 - 96) / 9, 0, 1) - np.clip((np.arange(600) + 0.5 - 495) / 9, 0, 1)
    rows = np.clip((np.arange(400) + 0.5 - 76) / 9, 0, 1) - np.clip((np.arange(400) + 0.5 - 315) / 9, 0, 1)
    greys = Greys(across_px=600, up_px=400, values=(20 + 216 * np.outer(rows, across)).astype(np.uint8).tobytes())
    marks = ((100.5, 80.5), (499.5, 80.5), (499.5, 319.5), (100.5, 319.5))
    assert np.array(found_corners(greys, marks)) == pytest.approx(np.array(marks), abs=0.5)


@pytest.mark.parametrize(("seen", "is_found"), [(STATIONS * 0.6, True), (STATIONS * 0.6 - 1, False)])
def test_three_of_five_stations_must_show_an_edge(seen: float, is_found: bool) -> None:
    """The upper edge is hidden from past the last of so many stations."""
    length_px, between = 400, (FOLLOWED[1] - FOLLOWED[0]) / (STATIONS - 1)
    hidden = 100 + length_px * (FOLLOWED[0] + between * (seen - 0.5))
    image, pen = filled((600, 400))
    pen.rectangle((100, 80, 499, 319), fill=230)
    pen.rectangle((round(hidden), 60, 450, 100), fill=230)
    found = found_corners(greys_of(image), ((100, 80), (500, 80), (500, 320), (100, 320)))
    assert (found[0] is not None) is is_found


def test_a_mark_far_from_its_corner_is_not_carried_to_another_edge() -> None:
    image = Image.new("L", (600, 400), 30)
    ImageDraw.Draw(image).rectangle((100, 80, 499, 319), fill=230)
    corners = ((150.0, 130.0), (500.0, 80.0), (500.0, 320.0), (100.0, 320.0))
    assert found_corners(greys_of(image), corners)[0] is None
