"""A zip that is handed on while it is made: nothing waits for the last of its files."""

from collections.abc import Iterable, Iterator
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

EARLIEST = (1980, 1, 1, 0, 0, 0)
"""The time of everything in a zip, so that equal files make equal zips."""


class _Handed:
    """What a zip is written into: it keeps only what was not handed on yet."""

    def __init__(self) -> None:
        self._parts: list[bytes] = []

    def write(self, part: bytes, /) -> int:
        """Take a part."""
        self._parts.append(bytes(part))
        return len(part)

    def flush(self) -> None:
        """Nothing is held back."""

    def close(self) -> None:
        """Nothing is open."""

    def hand_on(self) -> bytes:
        """All that was written since the last time."""
        parts, self._parts = self._parts, []
        return b"".join(parts)


def zipped(files: Iterable[tuple[str, str | bytes]]) -> Iterator[bytes]:
    """A zip, file by file as each is made."""
    written = _Handed()
    with ZipFile(written, "w") as archive:
        for name, content in files:
            archive.writestr(ZipInfo(name, EARLIEST), content, compress_type=ZIP_DEFLATED)
            yield written.hand_on()
    yield written.hand_on()
