"""Findings on sizes out of a photo: when they cannot be trusted, and when the tape says otherwise.

The limits are common practice, no source; the effect of each is in the interval already, as far as it can be told.
"""

from collections.abc import Iterable, Iterator

from framecalc.artwork.measuring import Measurements
from framecalc.artwork.photo_sheet import KnownSheet
from framecalc.artwork.photo_sizes import Camera, PhotoMarks, PhotoSizes
from framecalc.findings import Finding, Severity

MOST_REACH_RATIO = 4.0
"""An artwork so much longer than its sheet: every millimetre on the sheet counts four times. Common practice,
no source."""

LARGE_SLANT_DEG = 40.0
"""Aside by so much, a mark off by a pixel counts for a third more in one direction. Common practice, no source."""

EDGE_RATIO = 0.004
"""A mark so near to the edge of the photo, to its longer side, is likely a corner that was cut off.
Ours, no source."""

SHAPE_PCT = 4.0
"""A sheet is the wrong one where its proportion is off by more: A4 and Letter are 9 % apart. Ours, no source."""

ASIDE_MM, ASIDE_INCH_MM = 10.0, 12.7
"""A sheet so far out of the artwork's plane is told as an example, in a metric job and in an inch job.
Ours, no source."""

SAID_TO_MM = 0.5
"""Sizes out of a photo are said to so much. Ours, no source."""

_FIELDS = {
    "across_top": ("artwork_across_mm", "Across"),
    "across_bottom": ("across_bottom_mm", "Across at the bottom"),
    "up_left": ("artwork_up_mm", "Up"),
    "up_right": ("up_right_mm", "Up at the right"),
    "diagonal_rising": ("diagonal_rising_mm", "The rising diagonal"),
    "diagonal_falling": ("diagonal_falling_mm", "The falling diagonal"),
}


def photo_findings(sizes: PhotoSizes, marks: PhotoMarks, sheet: KnownSheet, camera: Camera) -> Iterator[Finding]:
    """Report what makes the sizes out of a photo doubtful.

    Args:
        sizes: what was found, by `marks`, `sheet` and `camera`.
    Source: derived; the limits are common practice, no source.

    >>> four, a4 = (1.0, 1.0, 1.0, 1.0), ((400, 600), (820, 600), (820, 1194), (400, 1194))
    >>> marks = PhotoMarks(sheet=a4, artwork=((0, 0), (1500, 0), (1500, 1400), (0, 1400)), sheet_off_px=four,
    ...                    artwork_off_px=four)
    >>> sheet = KnownSheet(short_mm=210, long_mm=297, short_play_mm=0, long_play_mm=0)
    >>> camera = Camera(photo_across_px=2000, photo_up_px=2000)
    >>> from framecalc.artwork.photo_sizes import photo_sizes
    >>> [found.code for found in photo_findings(photo_sizes(marks, sheet, camera), marks, sheet, camera)]
    ['photo.cut-off']
    """
    yield from _shape(sizes, sheet)
    yield from _cut_off(marks, camera)
    yield from _slant(sizes)
    yield from _small_sheet(sizes)


def tape_findings(sizes: PhotoSizes, tape: Measurements, *, typed: Iterable[str]) -> Iterator[Finding]:
    """Report each size that was typed and is further from the photo's than its interval and the tape allow.

    Args:
        sizes: out of the photo.
        tape: what was typed.
        typed: the names of the sizes that were typed; others only follow from those.
    Source: derived.
    """
    by_tape = {
        "across_top": tape.across_top_mm,
        "across_bottom": tape.across_bottom_mm,
        "up_left": tape.up_left_mm,
        "up_right": tape.up_right_mm,
        "diagonal_rising": tape.diagonal_rising_mm,
        "diagonal_falling": tape.diagonal_falling_mm,
    }
    names, photo = set(typed), dict(sizes.named())
    for name, typed_mm in by_tape.items():
        size = photo[name]
        if name not in names or typed_mm is None:
            continue
        if size.is_apart(typed_mm):
            yield _apart(name, typed_mm, photo_mm=size.length_mm, doubt_mm=size.doubt_mm)


def _apart(name: str, typed_mm: float, *, photo_mm: float, doubt_mm: float) -> Finding:
    argument, says = _FIELDS[name]
    return Finding(
        code=f"photo.tape-differs-{name.replace('_', '-')}",
        severity=Severity.WARN,
        sentence=f"{says}: {{typed}} typed, {{photo}} ± {{doubt}} by the photo. Measure again.",
        why="If the tape is right, look at the marks in the photo and at the size of its sheet.",
        source="homography of the sheet, 95% interval",
        argument=argument,
        lengths={"typed": typed_mm, "photo": _round(photo_mm), "doubt": _round(doubt_mm + SAID_TO_MM / 2)},
    )


def _round(length_mm: float) -> float:
    """What a sentence says of a size out of a photo: hundredths would be a promise."""
    return round(length_mm / SAID_TO_MM) * SAID_TO_MM


def _shape(sizes: PhotoSizes, sheet: KnownSheet) -> Iterator[Finding]:
    off_pct = abs(sizes.sheet_aspect_ratio / (sheet.long_mm / sheet.short_mm) - 1) * 100
    if off_pct > SHAPE_PCT + sizes.aspect_doubt_pct:
        yield Finding(
            code="photo.sheet-shape",
            severity=Severity.WARN,
            sentence=f"The sheet in the photo is {sizes.sheet_aspect_ratio:.2f} times as long as wide, not "
            f"{sheet.long_mm / sheet.short_mm:.2f}: choose another sheet, or move its marks.",
            why="A4 is 1.41 times as long as wide, Letter 1.29, the black frame 1.39. A cropped photo misleads too.",
            source="perspective of the four corners",
            argument="sheet_kind",
        )


def _cut_off(marks: PhotoMarks, camera: Camera) -> Iterator[Finding]:
    across_px, up_px = camera.photo_across_px, camera.photo_up_px
    near_px = EDGE_RATIO * max(across_px, up_px)
    for corners, of in ((marks.sheet, "sheet"), (marks.artwork, "artwork")):
        if any(min(x, across_px - x, y, up_px - y) < near_px for x, y in corners):
            yield Finding(
                code="photo.cut-off",
                severity=Severity.WARN,
                sentence=f"A corner of the {of} is at the edge of the photo, cut off perhaps: step back, take another.",
                why="A size ends where the photo ends, not where the piece does.",
                source="usual practice",
                argument=f"{of}_corners",
            )


def _slant(sizes: PhotoSizes) -> Iterator[Finding]:
    if sizes.slant_deg > LARGE_SLANT_DEG:
        yield Finding(
            code="photo.oblique",
            severity=Severity.WARN,
            sentence=f"Taken {sizes.slant_deg:.0f}° from the side: stand in front of the artwork, and take another.",
            why="From the side a pixel covers more of the piece, and a sheet that is not flat counts for more.",
            source="usual practice",
            argument="sheet_corners",
        )


def _small_sheet(sizes: PhotoSizes) -> Iterator[Finding]:
    if sizes.reach_ratio > MOST_REACH_RATIO:
        yield Finding(
            code="photo.sheet-small",
            severity=Severity.WARN,
            sentence=f"The artwork is {sizes.reach_ratio:.0f} times as long as the sheet: measure it with a tape.",
            why="What is off on the sheet is off as many times on the artwork.",
            source="usual practice",
            argument="sheet_kind",
        )
