"""Pictures: what is taken in, what is refused and in which words, and that a straight picture is straight."""

import io
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Semaphore
from time import sleep

import numpy as np
import pytest
from huge_pictures import (
    CLEAR,
    CLEAR_GREY,
    COLOUR,
    GREY,
    PALETTE,
    huge_png,
    huge_webp,
    in_several_scans,
    peak_mb,
)
from PIL import Image, ImageDraw
from small_pictures import encoded, noise

from framecalc.errors import ImpossibleArtwork
from framecalc.geometry.perspective import Corners, square_onto, through
from webapp.data import pictures
from webapp.data.decoding import decode
from webapp.data.errors import UnusablePhoto
from webapp.data.photos import CleanPhoto
from webapp.data.pictures import clean_photo, straight_picture


def decoded(photo: CleanPhoto) -> Image.Image:
    return Image.open(io.BytesIO(photo.content))


# --- what is taken


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_the_three_kinds_are_taken_and_become_a_jpeg(kind: str) -> None:
    photo = clean_photo(encoded(noise(), kind))
    assert decoded(photo).format == "JPEG"
    assert (photo.across, photo.up) == decoded(photo).size == (400, 300)


def test_a_photo_is_turned_as_its_camera_says_and_then_says_nothing_of_it() -> None:
    told = Image.Exif()
    told[0x0112] = 6
    told[0x010F] = "maker"
    told.get_ifd(0x8825)[1] = "N"
    sent = encoded(noise(400, 300), exif=told, comment=b"private")
    photo = clean_photo(sent)
    assert (photo.across, photo.up) == (300, 400)
    kept = decoded(photo)
    assert not kept.getexif() and "comment" not in kept.info and "exif" not in kept.info
    assert b"maker" not in photo.content and b"private" not in photo.content


def test_a_colour_profile_is_dropped_with_the_rest() -> None:
    photo = clean_photo(encoded(noise(), icc_profile=b"profile of a person" * 10))
    assert b"profile of a person" not in photo.content


def test_a_large_photo_is_made_smaller_in_its_proportion() -> None:
    photo = clean_photo(encoded(noise(6000, 3000)))
    assert (photo.across, photo.up) == (4000, 2000)


def test_what_is_transparent_is_white() -> None:
    clear = Image.new("RGBA", (20, 20), (255, 0, 0, 0))
    assert decoded(clean_photo(encoded(clear, "PNG"))).getpixel((10, 10)) == (255, 255, 255)


def test_a_scan_of_sixteen_bits_of_grey_keeps_its_greys() -> None:
    grey = decoded(clean_photo(encoded(Image.new("I;16", (40, 40), 0x8000), "PNG"))).getpixel((20, 20))
    assert grey == pytest.approx((128, 128, 128), abs=2)


def test_what_hangs_on_behind_a_picture_is_gone() -> None:
    photo = clean_photo(encoded(noise()) + b"<script>alert(1)</script>PK\x03\x04")
    assert b"script" not in photo.content and b"PK" not in photo.content[-40:]


def test_the_same_photo_has_the_same_id_and_another_one_another() -> None:
    sent = encoded(noise())
    assert clean_photo(sent).photo_id == clean_photo(sent).photo_id != clean_photo(encoded(noise())).photo_id


# --- what is refused


@pytest.mark.parametrize(("across", "up"), [(20000, 20000), (12000, 8000), (7100, 7100)])
def test_a_picture_of_too_many_pixels_is_refused_undecoded(across: int, up: int) -> None:
    with pytest.raises(UnusablePhoto, match="50 million"):
        clean_photo(huge_png(across, up, depth=1, holds=GREY))


HUGE = {
    "colours": lambda: huge_png(5000, 5000, depth=8, holds=COLOUR),
    "clear colours": lambda: huge_png(5000, 5000, depth=8, holds=CLEAR),
    "greys of sixteen bits": lambda: huge_png(7071, 7071, depth=16, holds=GREY),
    "clear greys": lambda: huge_png(5000, 5000, depth=16, holds=CLEAR_GREY),
    "one long row": lambda: huge_png(36_000, 1000, depth=8, holds=COLOUR),
    "one row": lambda: huge_png(50_000_000, 1, depth=8, holds=GREY),
    "one column": lambda: huge_png(1, 12_000_000, depth=8, holds=GREY),
    "a few rows of colours": lambda: huge_png(400_000, 60, depth=8, holds=COLOUR),
    "webp": lambda: huge_webp(7071, 7071),
    "jpeg in several scans": lambda: in_several_scans(7071, 7071),
}
"""Pictures that say they hold 12 million or more pixels, and take many times that in memory."""


@pytest.mark.parametrize("kind", HUGE)
def test_a_picture_that_would_take_too_much_memory_is_refused_undecoded(kind: str) -> None:
    with pytest.raises(UnusablePhoto, match="Photo too large: save it as a JPEG under 50 million pixels"):
        clean_photo(HUGE[kind]())


def in_many_scans(count: int) -> bytes:
    """A JPEG that goes over its picture so much more often than usual."""
    once = encoded(Image.new("RGB", (64, 64), "navy"), progressive=True)
    last = once[once.rindex(b"\xff\xda") : -2]
    return once[:-2] + last * count + once[-2:]


@pytest.mark.parametrize(
    "sent",
    [
        in_many_scans(100),
        b"\xff\xd8" + b"\xff\xe2\0\4ab" * 70_000,
        b"\xff\xd8\xff\xd9" + b"\xff\xd0" * 300_000,
        encoded(noise(), "PNG")[:33] + b"\0\0\0\0prIv\x85\xd3\xe3\xfb" * 120_000,
    ],
    ids=["scans", "segments", "bare markers", "chunks"],
)
def test_a_picture_of_countless_tiny_parts_is_refused(sent: bytes) -> None:
    """Fault: 25 MB of them took 900 MB and 8 s; half a million scans would have held all photos up for an hour."""
    with pytest.raises(UnusablePhoto, match="save it anew"):
        clean_photo(sent)


def test_what_hangs_on_behind_a_picture_is_not_counted() -> None:
    clean_photo(in_many_scans(20) + b"\xff\xda\0\2" * 500)


@pytest.mark.skipif(sys.platform != "linux", reason="memory is measured as Linux counts it")
def test_no_picture_takes_more_than_250_mb(tmp_path: Path) -> None:
    taken = (
        huge_png(7071, 7071, depth=8, holds=PALETTE),
        huge_png(4200, 4200, depth=8, holds=CLEAR),
        huge_webp(2400, 2400),
        encoded(Image.new("RGB", (4000, 3000)), progressive=True, subsampling=0),
        encoded(Image.new("RGB", (5100, 3900))),
        encoded(Image.new("CMYK", (4200, 4200))),
        huge_png(50_000, 1000, depth=8, holds=GREY),
    )
    most_mb, count = peak_mb(tmp_path, [*taken, *(make() for make in HUGE.values())])
    assert most_mb < 250 and count == len(taken)


def test_only_one_picture_is_decoded_at_a_time(monkeypatch: pytest.MonkeyPatch) -> None:
    at_once: list[int] = []
    inside = Semaphore(100)

    def watched(image: Image.Image, **more: int) -> Image.Image:
        with inside:
            at_once.append(100 - inside._value)
            sleep(0.01)
            return decode(image, **more)

    monkeypatch.setattr(pictures, "decode", watched)
    with ThreadPoolExecutor() as threads:
        list(threads.map(clean_photo, [encoded(noise())] * 6))
    assert at_once == [1] * 6


def test_a_large_photo_has_the_same_picture_as_a_small_one() -> None:
    """It is made smaller in strips: their seams are not to be seen."""
    across, up = 1000, 5000
    slope = np.add.outer(np.linspace(0, 200, up), np.linspace(0, 50, across))
    picture = Image.fromarray(slope.astype(np.uint8)).convert("RGB")
    small = decoded(clean_photo(encoded(picture, "PNG"))).convert("L")
    expected = np.add.outer(np.linspace(0, 200, small.height), np.linspace(0, 50, small.width))
    assert np.abs(np.asarray(small, dtype=float) - expected).max() < 3


@pytest.mark.parametrize(
    "sent",
    [
        b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>",
        b"<!doctype html><script>alert(1)</script>",
        b"GIF89a" + b"\0" * 40,
        encoded(Image.new("P", (10, 10)), "GIF"),
        encoded(Image.new("RGB", (10, 10)), "BMP"),
        encoded(Image.new("RGB", (10, 10)), "TIFF"),
        b"%PDF-1.4",
        b"\x89PNG\r\n\x1a\n",
        b"\xff\xd8\xff",
        b"RIFF\0\0\0\0WEBP",
        b"\0" * 100,
    ],
    ids=["svg", "html", "gif head", "gif", "bmp", "tiff", "pdf", "png head", "jpeg head", "webp head", "zeros"],
)
def test_what_is_no_photo_is_refused_in_words(sent: bytes) -> None:
    with pytest.raises(UnusablePhoto, match=r"Not a readable photo|once more"):
        clean_photo(sent)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_photo_cut_short_is_refused(kind: str) -> None:
    sent = encoded(noise(), kind)
    with pytest.raises(UnusablePhoto, match=r"once more|hoose a|save it"):
        clean_photo(sent[: len(sent) // 2])


def test_nothing_sent_is_said() -> None:
    with pytest.raises(UnusablePhoto, match="Choose a photo: a JPEG, PNG or WebP file"):
        clean_photo(b"")


# --- set straight


def slanted(corners: Corners) -> bytes:
    """A photo of a picture of four coloured quarters with a black cross, drawn at a slant by mapping its parts."""
    image = Image.new("RGB", (800, 600), "grey")
    draw, onto = ImageDraw.Draw(image), square_onto(corners)
    for colour, (left, top) in {"red": (0, 0), "lime": (0.5, 0), "blue": (0.5, 0.5), "yellow": (0, 0.5)}.items():
        quarter = ((left, top), (left + 0.5, top), (left + 0.5, top + 0.5), (left, top + 0.5))
        draw.polygon([through(onto, corner) for corner in quarter], fill=colour)
    return encoded(image, quality=95)


CORNERS: Corners = ((120, 80), (700, 150), (650, 520), (90, 560))


def test_a_slanted_picture_becomes_an_upright_one_of_its_proportion() -> None:
    straight = Image.open(io.BytesIO(straight_picture(slanted(CORNERS), corners=CORNERS, aspect_ratio=4 / 3)))
    assert straight.width / straight.height == pytest.approx(4 / 3, rel=0.005)
    pixels = np.asarray(straight.convert("RGB"), dtype=int)
    quarters = {
        (0.25, 0.25): (255, 0, 0),
        (0.75, 0.25): (0, 255, 0),
        (0.75, 0.75): (0, 0, 255),
        (0.25, 0.75): (255, 255, 0),
    }
    for (s, t), colour in quarters.items():
        found = pixels[int(t * straight.height), int(s * straight.width)]
        assert np.abs(found - colour).max() < 40


def test_the_quarters_meet_in_the_middle_to_two_pixels() -> None:
    straight = Image.open(io.BytesIO(straight_picture(slanted(CORNERS), corners=CORNERS, aspect_ratio=1)))
    red = np.asarray(straight.convert("RGB"), dtype=int)
    row, column = red[straight.height // 4], red[:, straight.width // 4]
    edge_across = int(np.argmax(row[:, 0] < 128))
    edge_down = int(np.argmax(column[:, 1] > 128))
    assert abs(edge_across - straight.width / 2) <= 2
    assert abs(edge_down - straight.height / 2) <= 2


def test_marks_that_are_no_corners_are_refused() -> None:
    with pytest.raises(ImpossibleArtwork):
        straight_picture(encoded(noise()), corners=(CORNERS[0], CORNERS[2], CORNERS[1], CORNERS[3]), aspect_ratio=1)
