"""What a sent picture is made of: one of countless tiny parts takes time and memory before its size is looked at."""

import io
import re
from collections.abc import Iterator

from webapp.data.errors import UnusablePhoto

MOST_SCANS = 100
"""As many times a JPEG may go over its picture: ten are usual, and each takes up to a tenth of a second."""

MOST_READS = 200_000
"""As often a file may be read from: 25 MB in the smallest parts that programs write, of 1 kB, take half of it."""

_MARKER = re.compile(rb"\xff([^\x00\xff\xd0-\xd7])")
_BARE, _END, _SCAN = (0x01, 0xD8, 0xD9), 0xD9, 0xDA
"""Markers of a JPEG: those without a length, its end, the start of a scan (ITU-T T.81, table B.1)."""


class PatientReader(io.BytesIO):
    """A file in memory that lets itself be read from only so often."""

    _reads = 0

    def read(self, size: int | None = -1, /) -> bytes:
        """Read on.

        Raises:
            UnusablePhoto: it has been read from too often.
        """
        self._reads += 1
        if self._reads > MOST_READS:
            raise _in_tiny_parts()
        return super().read(size)


def require_few_scans(sent: bytes) -> None:
    """Look at how often a JPEG goes over its picture; other kinds do so once.

    Raises:
        UnusablePhoto: more often than any program writes it.
    """
    if sent.startswith(b"\xff\xd8"):
        for count, _ in enumerate(_scans(sent), start=1):
            if count > MOST_SCANS:
                raise _in_tiny_parts()


def _scans(sent: bytes) -> Iterator[int]:
    """Where the scans of a JPEG begin; what hangs on behind its picture, such as a film, is not looked into."""
    at, has_begun = 0, False
    while found := _MARKER.search(sent, at):
        marker, at = found[1][0], found.end()
        if marker == _END and has_begun:
            return
        if marker == _SCAN:
            has_begun = True
            yield at
        if marker not in _BARE:
            at += int.from_bytes(sent[at : at + 2])


def _in_tiny_parts() -> UnusablePhoto:
    return UnusablePhoto("Unusual photo: save it anew with a picture program.")
