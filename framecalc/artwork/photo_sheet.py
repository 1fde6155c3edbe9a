"""The sheet that lies beside an artwork in a photo: what is known of its size, and how far.

A sheet is as long as it is short in the words of its standard, whichever way it lies. Its *play* is by how much a size
may be off, either way. The *printed sheet* has a thick black frame, whose outer corners are marked: it stands out on
every ground, and it is 180 × 250 mm so that A4 and Letter both take it.
"""

from enum import StrEnum

from framecalc.limits import require_positive
from framecalc.records import Record

TAPE_PLAY_MM = 0.5
"""A sheet that was measured is as long as a tape reads. Common practice, no source."""

FRAME_SHORT_MM, FRAME_LONG_MM, FRAME_LINE_MM = 180.0, 250.0, 12.0
"""The black frame of the printed sheet: its outer size, and how wide its line is. Ours, no source."""


class PhotoSheet(StrEnum):
    """The sheets whose size is known."""

    A4 = "A4"
    LETTER = "Letter"
    PRINTED = "printed"


class KnownSheet(Record):
    """A sheet: its shorter and its longer side, and the play of each."""

    short_mm: float
    long_mm: float
    short_play_mm: float
    long_play_mm: float


_SHEETS = {
    PhotoSheet.A4: KnownSheet(short_mm=210, long_mm=297, short_play_mm=2, long_play_mm=2),
    PhotoSheet.LETTER: KnownSheet(short_mm=215.9, long_mm=279.4, short_play_mm=1.6, long_play_mm=1.6),
    PhotoSheet.PRINTED: KnownSheet(
        short_mm=FRAME_SHORT_MM, long_mm=FRAME_LONG_MM, short_play_mm=TAPE_PLAY_MM, long_play_mm=TAPE_PLAY_MM
    ),
}
"""A4: ISO 216; ±1.5 mm up to 150 mm, ±2 mm up to 600 mm, ±3 mm above, from memory, not re-read. Letter: ANSI/ASME
Y14.1, 8 1/2 × 11 in; its ±1/16 in is common practice, no source. The printed sheet: once its ruler was checked."""


def known_sheet(kind: PhotoSheet, *, short_mm: float | None = None, long_mm: float | None = None) -> KnownSheet:
    """What is known of a sheet; a side that was measured counts as measured.

    Args:
        short_mm, long_mm: a side as measured [mm], > 0; None where it was not.
    Raises:
        OutOfRange: a side is not above zero.
    Source: each sheet names its own.

    >>> known_sheet(PhotoSheet.A4, long_mm=296.5)
    KnownSheet(short_mm=210, long_mm=296.5, short_play_mm=2, long_play_mm=0.5)
    """
    usual = _SHEETS[kind]
    short_mm, short_play_mm = _side(short_mm, usual.short_mm, usual.short_play_mm)
    long_mm, long_play_mm = _side(long_mm, usual.long_mm, usual.long_play_mm)
    require_positive(sheet_short_mm=short_mm, sheet_long_mm=long_mm)
    return KnownSheet(short_mm=short_mm, long_mm=long_mm, short_play_mm=short_play_mm, long_play_mm=long_play_mm)


def _side(measured_mm: float | None, usual_mm: float, play_mm: float) -> tuple[float, float]:
    return (usual_mm, play_mm) if measured_mm is None else (measured_mm, TAPE_PLAY_MM)
