"""Pictures that are sent: taken in with suspicion, set straight for the drawing.

What is sent is opened as one of three kinds of picture and decoded within a budget (`decoding.py`); it is turned as its
camera says, and written anew as a plain JPEG without a word about camera, place or owner.
"""

import base64
import io
from collections.abc import Iterator
from contextlib import contextmanager
from functools import lru_cache
from pathlib import Path

from PIL import Image, ImageOps, ImageStat, UnidentifiedImageError

from framecalc.geometry.perspective import Corners, straight_size_px, straightening
from framecalc.project import Photo
from webapp.data.decoding import ONE_AT_A_TIME, decode, lens_of, too_many_pixels
from webapp.data.errors import UnusablePhoto
from webapp.data.photos import CleanPhoto, NoSuchPhoto, Photos, corners_of
from webapp.data.picture_parts import PatientReader, require_few_scans

ENDINGS = {"JPEG": "jpg", "MPO": "jpg", "PNG": "png", "WEBP": "webp"}
"""The kinds of picture that are taken, each with the ending of its file; MPO is a JPEG with more behind it."""

FORMATS = ("JPEG", "PNG", "WEBP")
KEPT_QUALITY, SHOWN_QUALITY = 90, 85
STRAIGHT_PX = 1200
"""The longer side of a straight picture: more than a drawing on a telephone or on paper shows."""

LOGO_PX, LOGO_COLOURS = (360, 120), 64
"""The most that a mark of the shop is kept at: three times as large as it is shown, for paper."""

LOGO_BEGINS = "data:image/png;base64,"

MIDDLE_PX = 128
"""So many pixels across are enough to tell the colour of a wall."""


def clean_photo(sent: bytes) -> CleanPhoto:
    """Take a photo in: decode it within limits, turn it upright, write it anew as a plain JPEG.

    Raises:
        UnusablePhoto: it is no JPEG, PNG or WebP, or a damaged one, or has too many pixels.
    """
    if not sent:
        raise UnusablePhoto("Choose a photo: a JPEG, PNG or WebP file.")
    with ONE_AT_A_TIME, _in_words():
        plain, ending = _taken_in(sent)
        lens = lens_of(plain)
        ImageOps.exif_transpose(plain, in_place=True)
        content = as_jpeg(plain, KEPT_QUALITY)
    return CleanPhoto(content=content, across=plain.width, up=plain.height, original=sent, ending=ending, lens=lens)


def colour_of(sent: bytes) -> str:
    """The colour of the middle of a photo: half of its pixels are paler, half darker, red, green and blue each.

    Raises:
        UnusablePhoto: as for `clean_photo`.
    """
    if not sent:
        raise UnusablePhoto("Choose a photo: a JPEG, PNG or WebP file.")
    with ONE_AT_A_TIME, _in_words():
        plain, _ = _taken_in(sent)
        across, up = plain.size
        middle = plain.crop((across // 4, up // 4, max(1, across - across // 4), max(1, up - up // 4)))
        middle.thumbnail((MIDDLE_PX, MIDDLE_PX))
    return "#" + "".join(f"{round(part):02x}" for part in ImageStat.Stat(middle.convert("RGB")).median)


def straight_picture(content: bytes, *, corners: Corners, aspect_ratio: float, most_px: int = STRAIGHT_PX) -> bytes:
    """Set a kept photo straight between its four corners, as a JPEG of the given proportion.

    Args:
        content: the photo as it is kept.
        corners: the artwork's corners in the photo's pixels.
        aspect_ratio: across to up of the artwork as measured.
        most_px: the longer side of the picture.
    Raises:
        ImpossibleArtwork: the marks are no corners of a picture.
        NoSuchPhoto: the photo was damaged where it is kept.
    """
    size = straight_size_px(corners, aspect_ratio=aspect_ratio, most_px=most_px)
    numbers = straightening(corners, across_px=size[0], up_px=size[1])
    with ONE_AT_A_TIME, still_whole(), Image.open(io.BytesIO(content), formats=["JPEG"]) as image:
        straight = image.transform(size, Image.Transform.PERSPECTIVE, numbers, Image.Resampling.BICUBIC)
    return as_jpeg(straight, SHOWN_QUALITY)


def straight_photo(
    photos: Photos, project_id: str, photo: Photo, *, aspect_ratio: float, most_px: int = STRAIGHT_PX
) -> bytes:
    """The straight picture of a kept photo; the last few are kept at hand.

    Raises:
        NoSuchProject, NoSuchPhoto: it is not there.
        ImpossibleArtwork: its marks are no corners of a picture.
    """
    path = photos.path(project_id, photo.id)
    if not path.exists():
        raise NoSuchPhoto("the photo is not kept on this computer: take it again")
    return _straight(path, corners_of(photo), aspect_ratio, most_px)


def clean_logo(sent: bytes) -> str:
    """The mark of the shop as a `data:` address: a small picture on white, written anew.

    Raises:
        UnusablePhoto: as for `clean_photo`.
    """
    if not sent:
        raise UnusablePhoto("Choose a picture: a JPEG, PNG or WebP file.")
    with ONE_AT_A_TIME, _in_words():
        plain, _ = _taken_in(sent)
        ImageOps.exif_transpose(plain, in_place=True)
        plain.thumbnail(LOGO_PX)
        few, written = plain.convert("RGB").quantize(LOGO_COLOURS), io.BytesIO()
        few.save(written, "PNG", optimize=True)
    return f"{LOGO_BEGINS}{base64.b64encode(written.getvalue()).decode('ascii')}"


@contextmanager
def still_whole() -> Iterator[None]:
    """Say of a kept photo that it cannot be read.

    Raises:
        NoSuchPhoto: so it is.
    """
    try:
        yield
    except (OSError, SyntaxError, EOFError):
        raise NoSuchPhoto("the photo on this computer is damaged: take it again") from None


def as_jpeg(image: Image.Image, quality: int) -> bytes:
    """A plain JPEG: pixels and nothing else."""
    image.info = {}
    written = io.BytesIO()
    image.save(written, "JPEG", quality=quality)
    return written.getvalue()


@lru_cache(maxsize=32)
def _straight(path: Path, corners: Corners, aspect_ratio: float, most_px: int) -> bytes:
    return straight_picture(path.read_bytes(), corners=corners, aspect_ratio=aspect_ratio, most_px=most_px)


def _taken_in(sent: bytes) -> tuple[Image.Image, str]:
    """The picture that is kept, and the ending of the kind that was sent; what was decoded is let go."""
    require_few_scans(sent)
    with Image.open(PatientReader(sent), formats=FORMATS) as image:
        return decode(image, sent_bytes=len(sent)), ENDINGS[image.format or "JPEG"]


@contextmanager
def _in_words() -> Iterator[None]:
    try:
        yield
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise too_many_pixels() from None
    except UnidentifiedImageError:
        raise UnusablePhoto("Not a readable photo: choose a JPEG, PNG or WebP file.") from None
    except (OSError, SyntaxError, ValueError, EOFError, MemoryError):
        raise UnusablePhoto("The photo is damaged or was cut short: send it once more.") from None
