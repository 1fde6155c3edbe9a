"""Sizes out of a photo: a frame's marks handed to the topic, and which sizes of the artwork are held against it."""

from collections.abc import Collection
from functools import lru_cache

from framecalc.artwork.photo_edges import FOUND_PX, placed_off_px
from framecalc.artwork.photo_sheet import KnownSheet, known_sheet
from framecalc.artwork.photo_sizes import Camera, PhotoMarks, PhotoSize, PhotoSizes, photo_sizes
from framecalc.findings import Rounding
from framecalc.geometry.perspective import Corners
from framecalc.plan.inputs import shape_of
from framecalc.project import Frame
from framecalc.project.sizing import Sizing, SizingMarks
from framecalc.units import TOLERANCE_MM, Step, format_length

FIELDS = {
    "across_top": "across",
    "across_bottom": "across_bottom",
    "up_left": "up",
    "up_right": "up_right",
    "diagonal_rising": "diagonal_rising",
    "diagonal_falling": "diagonal_falling",
}
"""The sizes out of a photo, each with the field of the artwork that it goes into."""

Four = tuple[float, float, float, float]


def sizes_by_photo(frame: Frame) -> PhotoSizes | None:
    """The sizes that the photo of a frame's artwork tells; none without one, or before all eight marks are put.

    Raises:
        ImpossibleArtwork: its marks tell nothing.
    """
    return _sized(frame.sizing) if frame.sizing and shape_of(frame).is_rectangle else None


@lru_cache(maxsize=256)
def _sized(sizing: Sizing) -> PhotoSizes | None:
    """The sizes that a photo tells; ways out of a finding are tried on many plans of one frame."""
    marks = marks_of(sizing)
    return photo_sizes(marks, sheet_of(sizing), camera_of(sizing), away_mm=sizing.away.mm) if marks else None


def marks_of(sizing: Sizing) -> PhotoMarks | None:
    """The marks in a photo; none before all eight are put."""
    sheet, artwork = corners_of(sizing.sheet), corners_of(sizing.artwork)
    if sheet is None or artwork is None:
        return None
    return PhotoMarks(
        sheet=sheet,
        artwork=artwork,
        sheet_off_px=_off_px(sizing, sizing.sheet),
        artwork_off_px=_off_px(sizing, sizing.artwork),
    )


def corners_of(marks: SizingMarks) -> Corners | None:
    """Four marks as corners; none before all are put."""
    one, two, three, four = (mark.place for mark in marks.four)
    return (one, two, three, four) if one and two and three and four else None


def sheet_of(sizing: Sizing) -> KnownSheet:
    """The sheet in a photo, as measured or by its standard."""
    short, long = sizing.short, sizing.long
    return known_sheet(sizing.kind, short_mm=short.mm if short else None, long_mm=long.mm if long else None)


def camera_of(sizing: Sizing) -> Camera:
    """The camera behind a photo."""
    return Camera(photo_across_px=sizing.across, photo_up_px=sizing.up, film_focal_mm=sizing.lens)


def typed_sizes(frame: Frame) -> tuple[str, ...]:
    """The sizes of the artwork that are typed, by their names out of a photo."""
    return tuple(name for name, field in FIELDS.items() if getattr(frame.artwork, field) is not None)


def paths_of_sizes(frame: Frame) -> tuple[str, ...]:
    """Where the sizes of the artwork stand in a project."""
    return tuple(f"frames.{frame.id}.artwork.{field}" for field in FIELDS.values())


def taped_sizes(frame: Frame, sizes: PhotoSizes, *, assumed: Collection[str], step: Step) -> tuple[str, ...]:
    """The sizes for which a tape says otherwise: typed, no longer assumed, and not the photo's at this step.

    Args:
        assumed: the paths of the project that hold assumed values.
        step: the step that the photo's sizes are written to.
    """
    return tuple(
        name
        for name, _ in sizes.named()
        if getattr(frame.artwork, FIELDS[name]) is not None
        and (path := f"frames.{frame.id}.artwork.{FIELDS[name]}") not in assumed
        and not origin_by_photo(frame, sizes, path, step=step)
    )


def origin_by_photo(frame: Frame, sizes: PhotoSizes, path: str, *, step: Step) -> str:
    """How a size that is typed at a path was found, if it is still the one out of the photo.

    Args:
        path: a path of the project.
        step: the step that the size was written to.
    """
    for name, size in sizes.named():
        typed = getattr(frame.artwork, FIELDS[name]) if path == f"frames.{frame.id}.artwork.{FIELDS[name]}" else None
        if typed is not None and abs(typed.mm - size.length_mm) <= float(step.size_mm) / 2 + TOLERANCE_MM:
            return f"By photo ± {doubt_text(size, step=step)}"
    return ""


def doubt_text(size: PhotoSize, *, step: Step) -> str:
    """Give or take of a size out of a photo, up to the next step, with its unit."""
    return format_length(size.doubt_mm, step=step, rounding=Rounding.UP).full


def _off_px(sizing: Sizing, marks: SizingMarks) -> Four:
    by_hand_px = placed_off_px(photo_across_px=sizing.across, photo_up_px=sizing.up)
    one, two, three, four = (FOUND_PX if mark.is_found else by_hand_px for mark in marks.four)
    return one, two, three, four
