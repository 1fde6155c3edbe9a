"""How a sent picture is decoded without taking the memory of the shop's computer.

A picture of a few kilobytes can say that it holds any number of pixels. What decoding it would take at its highest,
the *peak*, is worked out from its head before anything is decoded: the pixels in memory, what the decoder of its kind
needs beside them, and the picture that is kept. A JPEG is decoded at a half, a quarter or an eighth where that is
needed or enough; other kinds cannot be, and are refused above the budget. Only one picture is decoded at a time.
"""

import io
import math
from threading import Lock

from PIL import ExifTags, Image, JpegImagePlugin, PngImagePlugin

from framecalc.project.look import LARGEST_PX
from webapp.data.errors import UnusablePhoto

PIXEL_LIMIT = 50_000_000
"""More than any telephone takes in one picture that is worth having."""

PEAK_LIMIT_BYTES = 145_000_000
"""What a picture may take, its file with it: with the program itself (100 MB) less than 250 MB."""

MOST_KEPT_PX = 12_000_000
"""The area that a photo is kept at: what most telephones take, and ten times what a drawing shows."""

_PIXEL_BYTES = {"1": 1, "L": 1, "P": 1, "I;16": 2}
"""What a pixel takes in memory, by the mode of the picture; every other mode takes four."""

_ROW_BYTES, _ROW_STEP_BYTES = 8, 4
"""What a row takes beside its pixels, and what they are filled up to."""

_RESIZED_BYTES = 32
"""What each pixel along a picture takes while it is made smaller: four bicubic coefficients of eight bytes."""

_WEBP_BYTES = 20
"""What a pixel of a WebP takes while it is decoded: two canvases, the bare pixels, their copy, the picture."""

_REDUCTIONS = (1, 2, 4, 8)
_START_OF_SCAN = 0xDA
_STRIP_PX, _MARGIN_PX = 256, 4
"""A picture is made smaller in strips of so many rows at most, each with a margin wider than the filter reaches."""

_MOST_IN_STRIP_PX, _STRIP_BYTES = 500_000, 16
"""So many pixels of the decoded picture are aimed at in a strip; what each takes on its way to white paper."""

_SAYS_HOW_IT_STANDS = ("exif", "Raw profile type exif", "xmp", "XML:com.adobe.xmp")
"""Where a picture may say how the camera was held."""

LENSES = (8, 1200)
"""Focal lengths in 35 mm terms that there are."""

PngImagePlugin.MAX_TEXT_MEMORY = 4_000_000  # texts hidden in a PNG are unpacked before its size is known

ONE_AT_A_TIME = Lock()
"""Held by whoever decodes a picture."""


def decode(image: Image.Image, *, sent_bytes: int) -> Image.Image:
    """Decode a picture that has only been opened: on white, no larger than it is kept, still as its camera held it.

    Args:
        image: as it was opened.
        sent_bytes: the size of its file, which stays in memory meanwhile.
    Raises:
        UnusablePhoto: it has too many pixels.
    """
    _require_few_pixels(image)
    beside_bytes, budget_bytes = 0, PEAK_LIMIT_BYTES - sent_bytes
    if isinstance(image, JpegImagePlugin.JpegImageFile):
        beside_bytes = _coefficient_bytes(image)
        _reduce(image, beside_bytes, budget_bytes)
    if _peak_bytes(image, beside_bytes) > budget_bytes:
        raise UnusablePhoto(f"Photo too large: save it as a JPEG under {PIXEL_LIMIT // 1_000_000} million pixels.")
    image.load()
    kept = _kept(image)
    kept.info = {name: image.info[name] for name in _SAYS_HOW_IT_STANDS if name in image.info}
    return kept


def lens_of(kept: Image.Image) -> int:
    """The focal length in 35 mm terms, as the camera wrote it down beside a decoded picture; 0 where it did not."""
    try:
        focal = kept.getexif().get_ifd(ExifTags.IFD.Exif).get(ExifTags.Base.FocalLengthIn35mmFilm, 0)
    except Exception:  # whatever is damaged there is no reason to refuse the picture
        return 0
    return focal if isinstance(focal, int) and LENSES[0] <= focal <= LENSES[1] else 0


def too_many_pixels() -> UnusablePhoto:
    """Why a picture is refused by its number of pixels alone."""
    return UnusablePhoto(f"Too many pixels: choose a photo of up to {PIXEL_LIMIT // 1_000_000} million.")


def _require_few_pixels(image: Image.Image) -> None:
    if image.width * image.height > PIXEL_LIMIT:
        raise too_many_pixels()


def _reduce(image: JpegImagePlugin.JpegImageFile, beside_bytes: int, budget_bytes: int) -> None:
    """Have a JPEG decoded at the largest size that is within the budget, or that is still enough."""
    across, up = image.size
    enough = max(one for one in _REDUCTIONS if one == 1 or across // one >= _kept_size(across, up)[0])
    sizes = {by: (max(across // by, 1), max(up // by, 1)) for by in _REDUCTIONS}
    within = [by for by in _REDUCTIONS if max(_smaller_bytes(*sizes[by], 4), beside_bytes) <= budget_bytes]
    image.draft(None, sizes[max(enough, min(within, default=1))])


def _coefficient_bytes(image: JpegImagePlugin.JpegImageFile) -> int:
    """What a JPEG in several scans takes beside its pixels, however small it is decoded: two bytes a coefficient."""
    if not image.info.get("progressive") and _scan_layers(image) == image.layers:
        return 0
    return 2 * image.layers * image.width * image.height


def _scan_layers(image: JpegImagePlugin.JpegImageFile) -> int:
    """How many layers the first scan of a JPEG holds (ITU-T T.81, B.2.3); 0 where the file is not as it should be."""
    assert image.fp is not None
    image.fp.seek(2)
    while len(head := image.fp.read(4)) == 4 and head[0] == 0xFF:
        if head[1] == _START_OF_SCAN:
            return image.fp.read(1)[0]
        image.fp.seek(int.from_bytes(head[2:]) - 2, io.SEEK_CUR)
    return 0


def _peak_bytes(image: Image.Image, beside_bytes: int) -> int:
    across, up = image.size
    pixel_bytes = _PIXEL_BYTES.get(image.mode, 4)
    webp_bytes = across * up * _WEBP_BYTES if image.format == "WEBP" else 0
    decoded_bytes = _in_memory_bytes(across, up, pixel_bytes)
    return max(_smaller_bytes(across, up, pixel_bytes), decoded_bytes + beside_bytes, webp_bytes)


def _smaller_bytes(across: int, up: int, pixel_bytes: int) -> int:
    """What a picture takes while it is made smaller: itself, what is kept, one strip, how pixels weigh in others."""
    kept = _kept_size(across, up)
    rows = min(_strip_rows(across * up, kept[1]) + 2 * _MARGIN_PX, kept[1])
    strip_bytes = _STRIP_BYTES * math.ceil(across * up * rows / kept[1])
    decoded_bytes = _in_memory_bytes(across, up, pixel_bytes)
    return decoded_bytes + _in_memory_bytes(*kept, 4) + strip_bytes + _RESIZED_BYTES * max(across, up)


def _in_memory_bytes(across: int, up: int, pixel_bytes: int) -> int:
    return up * (_ROW_BYTES + math.ceil(across * pixel_bytes / _ROW_STEP_BYTES) * _ROW_STEP_BYTES)


def _kept_size(across: int, up: int) -> tuple[int, int]:
    """The size that a picture is kept at, in its proportion."""
    ratio = min(1.0, LARGEST_PX / max(across, up), math.sqrt(MOST_KEPT_PX / (across * up)))
    return max(round(across * ratio), 1), max(round(up * ratio), 1)


def _kept(image: Image.Image) -> Image.Image:
    """A picture on white at the size it is kept at; made strip by strip, so that there is never a second large one."""
    across, up = _kept_size(*image.size)
    if (across, up) == image.size and image.mode == "RGB" and "transparency" not in image.info:
        return image.copy()
    kept, rows = Image.new("RGB", (across, up)), _strip_rows(image.width * image.height, up)
    for top in range(0, up, rows):
        first, last = max(top - _MARGIN_PX, 0), min(top + rows + _MARGIN_PX, up)
        strip = _strip(image, first / up, last / up, (across, last - first))
        kept.paste(strip.crop((0, top - first, across, min(top + rows, up) - first)), (0, top))
    return kept


def _strip_rows(pixels: int, kept_up: int) -> int:
    """How many rows of the kept picture are made at once: fewer where each is made of more pixels."""
    return max(1, min(_STRIP_PX, _MOST_IN_STRIP_PX * kept_up // pixels))


def _strip(image: Image.Image, first: float, last: float, size: tuple[int, int]) -> Image.Image:
    """What lies between two heights of a picture, each a share of its whole height, on white and at a size."""
    upper, lower = math.floor(first * image.height), min(math.ceil(last * image.height), image.height)
    rows = _on_white(image.crop((0, upper, image.width, lower)))
    box = (0, first * image.height - upper, rows.width, min(last * image.height - upper, rows.height))
    return rows.resize(size, Image.Resampling.BICUBIC, box=box)


def _on_white(image: Image.Image) -> Image.Image:
    """The picture as it looks on paper: what is transparent is white; sixteen bits of grey are brought to eight."""
    if image.mode.startswith("I"):
        image = image.convert("I").point(lambda grey: grey / 256).convert("L")
    if "A" not in image.getbands() and "transparency" not in image.info:
        return image.convert("RGB")
    shown = image.convert("RGBA")
    white = Image.new("RGB", shown.size, "white")
    white.paste(shown, mask=shown.getchannel("A"))
    return white
