"""Corners found along their edges: a rendered photo by a lens that bends, a curved edge, no contrast."""

import numpy as np
import pytest
from camera import ACROSS_PX, CAMERA, UP_PX, marks_at, plain_scene
from PIL import Image, ImageDraw

from framecalc.artwork.photo_edges import FOUND_PX, Greys, found_corners
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


def test_a_mark_far_from_its_corner_is_not_carried_to_another_edge() -> None:
    image = Image.new("L", (600, 400), 30)
    ImageDraw.Draw(image).rectangle((100, 80, 499, 319), fill=230)
    corners = ((150.0, 130.0), (500.0, 80.0), (500.0, 320.0), (100.0, 320.0))
    assert found_corners(greys_of(image), corners)[0] is None
