"""Parts of a kept photo: its greys, along whose edges corners are found, and a piece of it, large enough to tap."""

import io

from PIL import Image

from framecalc.artwork.photo_edges import Greys
from webapp.data.decoding import ONE_AT_A_TIME
from webapp.data.pictures import SHOWN_QUALITY, as_jpeg, still_whole

PART_PX, PART_SHOWN_PX = 160, 320
"""How much of a photo is shown to put a mark, and how large."""


def greys_of(content: bytes) -> Greys:
    """The greys of a kept photo.

    Raises:
        NoSuchPhoto: the photo was damaged where it is kept.
    """
    with ONE_AT_A_TIME, still_whole(), Image.open(io.BytesIO(content), formats=["JPEG"]) as image:
        image.draft("L", image.size)
        grey = image.convert("L")
        return Greys(across_px=grey.width, up_px=grey.height, values=grey.tobytes())


def part_of_photo(content: bytes, *, across: int, down: int) -> bytes:
    """A square piece of a kept photo, enlarged, as a JPEG; what is beyond the photo is black.

    Args:
        across, down: the middle of the piece, in the photo's pixels.
    Raises:
        NoSuchPhoto: the photo was damaged where it is kept.
    """
    half = PART_PX // 2
    box = (across - half, down - half, across + half, down + half)
    with ONE_AT_A_TIME, still_whole(), Image.open(io.BytesIO(content), formats=["JPEG"]) as image:
        piece = image.crop(box).resize((PART_SHOWN_PX, PART_SHOWN_PX), Image.Resampling.BICUBIC)
    return as_jpeg(piece, SHOWN_QUALITY)
