"""Small files that are, or say that they are, huge pictures; and what taking them in costs at its highest."""

import io
import re
import struct
import subprocess
import sys
import zlib
from collections.abc import Sequence
from functools import cache
from pathlib import Path

from PIL import Image

GREY, COLOUR, PALETTE, CLEAR_GREY, CLEAR = 0, 2, 3, 4, 6
"""What a PNG holds (W3C PNG, third edition, 11.2.1)."""

_SAMPLES = {GREY: 1, COLOUR: 3, PALETTE: 1, CLEAR_GREY: 2, CLEAR: 4}
_TAKE_IN = """
import sys
from functools import cache
from pathlib import Path
import webapp.app
from webapp.data.errors import StoreError
from webapp.data.pictures import clean_photo
for path in sys.argv[1:]:
    try:
        clean_photo(Path(path).read_bytes())
        print("taken:", path)
    except StoreError:
        pass
print(Path("/proc/self/status").read_text("utf-8"))
"""


@cache
def huge_png(across: int, up: int, *, depth: int, holds: int) -> bytes:
    """A valid PNG of any size that is hardly any bytes: what is called a bomb."""
    squeeze = zlib.compressobj(1)
    row = b"\0" * (1 + (across * depth * _SAMPLES[holds] + 7) // 8)
    at_once = max(1, 1_000_000 // len(row))
    rows = (row * min(at_once, up - first) for first in range(0, up, at_once))
    body = b"".join(map(squeeze.compress, rows)) + squeeze.flush()
    header = struct.pack(">IIBBBBB", across, up, depth, holds, 0, 0, 0)
    palette = _chunk(b"PLTE", b"\1\2\3" * 256) + _chunk(b"tRNS", b"\x10" * 256) if holds == PALETTE else b""
    return b"\x89PNG\r\n\x1a\n" + _chunk(b"IHDR", header) + palette + _chunk(b"IDAT", body) + _chunk(b"IEND", b"")


def huge_webp(across: int, up: int) -> bytes:
    """A lossless WebP of one colour in 34 bytes (RFC 9649, 3.4)."""
    written = io.BytesIO()
    Image.new("RGB", (8, 8)).save(written, "WEBP", lossless=True)
    small = bytearray(written.getvalue())
    at = small.index(b"VP8L") + 9
    flags = int.from_bytes(small[at : at + 4], "little") >> 28
    small[at : at + 4] = (across - 1 | up - 1 << 14 | flags << 28).to_bytes(4, "little")
    return bytes(small)


def in_several_scans(across: int, up: int) -> bytes:
    """The head of a JPEG that says it is huge, and that its first scan holds one layer of three."""
    written = io.BytesIO()
    Image.new("RGB", (16, 16)).save(written, "JPEG")
    sent = bytearray(written.getvalue())
    frame, scan = sent.index(b"\xff\xc0"), sent.index(b"\xff\xda")
    sent[frame + 5 : frame + 9] = struct.pack(">HH", up, across)
    sent[scan + 4] = 1
    return bytes(sent)


def peak_mb(folder: Path, pictures: Sequence[bytes]) -> tuple[float, int]:
    """What the program takes at its highest while it takes in pictures, one after another, in a process of its own;
    and how many it did not refuse.
    """
    paths = [folder / str(number) for number in range(len(pictures))]
    for path, picture in zip(paths, pictures, strict=True):
        path.write_bytes(picture)
    said = subprocess.run(
        [sys.executable, "-c", _TAKE_IN, *map(str, paths)], capture_output=True, text=True, check=True
    )
    found = re.search(r"VmHWM:\s+(\d+) kB", said.stdout)
    assert found
    return int(found[1]) / 1000, said.stdout.count("taken: ")


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
