"""The six sizes of an artwork out of one photo, by a sheet of known size that lies in its plane, each with an interval.

Eight *marks* are put into the photo: four on the corners of the sheet, four on those of the artwork. The sheet's tell
where the plane is, the artwork's then lie on it in millimetres. Every size has four doubts, which add as independent
errors do; with each of them alone 95 of 100 truths would be within it:

- *marks*: how far from its corner a mark may be, by the slope of the size to each of the sixteen numbers;
- *sheet*: the play of the sheet's own size;
- *lens*: what a lens bends outward or inward;
- *plane*: the sheet in front of the artwork's corners, or behind them. That by itself makes sizes come out larger or
  smaller by `away / height`, whatever the slant, for all of the plane is seen from one point.
"""

from collections.abc import Iterator, Sequence
from math import dist, hypot, sqrt
from statistics import fmean

from framecalc.artwork.measuring import TAPE_MM
from framecalc.artwork.photo_sheet import KnownSheet
from framecalc.errors import ImpossibleArtwork
from framecalc.geometry.perspective import LEAST_AREA_RATIO, USUAL_FOCAL_RATIO, Corners, Pixel, implied_ratio
from framecalc.geometry.plane_seen import FILM_DIAGONAL_MM, PlaneSeen, bent, plane_seen, require_clockwise
from framecalc.limits import require_positive
from framecalc.records import Record, replace
from framecalc.units import TOLERANCE_MM

COVERAGE = 1.96
"""95 of 100 normal errors are within so many standard deviations."""

EVEN = 1 / sqrt(3)
"""The standard deviation of an even spread, to its half width. Source: JCGM 100:2008, 4.3.7, from memory, not
re-read."""

LENS_RATIO = 0.005
"""How far a phone's lens moves the corner of a photo, after the phone has set it straight, to half the diagonal. Common
practice, no source."""

PLANE_PLAY_MM = 1.0
"""A sheet laid beside an artwork is in its plane to so much. Common practice, no source."""

USUAL_FOCAL_DOUBT_RATIO, TOLD_FOCAL_DOUBT_RATIO = 1 / 3, 0.1
"""How far a usual focal length may be off, and one that the camera wrote down. Common practice, no source."""

MOST_SLANT_DEG = 70.0
"""From further aside nothing is measured: a pixel is then three times as deep as it is wide. Source: derived, 1/cos."""

NUDGE_PX = 0.5
"""A mark is moved so far either way to find a slope. Ours, no source."""

_SIDES = {
    "across_top": (0, 1),
    "across_bottom": (3, 2),
    "up_left": (0, 3),
    "up_right": (1, 2),
    "diagonal_rising": (3, 1),
    "diagonal_falling": (0, 2),
}
"""The corners that each size runs between."""

_DIFFERENCES = {"taper_across": (0, 1), "taper_up": (2, 3), "diagonals_apart": (4, 5)}
"""The sizes that each difference is between; both are wrong together, so it has less doubt than either."""

Lengths = tuple[float, ...]


class PhotoMarks(Record):
    """Eight marks in a photo [pixels], and how far off each may be as a standard deviation, across and down alike."""

    sheet: Corners
    artwork: Corners
    sheet_off_px: tuple[float, float, float, float]
    artwork_off_px: tuple[float, float, float, float]


class Camera(Record):
    """The size of the whole photo [pixels], and the focal length in 35 mm terms; 0 where the camera did not say."""

    photo_across_px: int
    photo_up_px: int
    film_focal_mm: float = 0.0

    @property
    def centre(self) -> Pixel:
        """The middle of the photo, where the lens looked."""
        return self.photo_across_px / 2, self.photo_up_px / 2

    @property
    def focal_px(self) -> float:
        """The focal length: as the camera wrote it down, else a usual one."""
        diagonal_px = hypot(self.photo_across_px, self.photo_up_px)
        return diagonal_px * (self.film_focal_mm / FILM_DIAGONAL_MM or USUAL_FOCAL_RATIO)

    @property
    def focal_doubt_ratio(self) -> float:
        """How far that may be off, as a share of it."""
        return TOLD_FOCAL_DOUBT_RATIO if self.film_focal_mm else USUAL_FOCAL_DOUBT_RATIO


class PhotoSize(Record):
    """One size out of the photo, and its doubts."""

    length_mm: float
    marks_mm: float
    sheet_mm: float
    lens_mm: float
    plane_mm: float

    @property
    def doubt_mm(self) -> float:
        """Give or take: 95 of 100 truths are within."""
        return hypot(self.marks_mm, self.sheet_mm, self.lens_mm, self.plane_mm)

    def is_apart(self, typed_mm: float) -> bool:
        """Whether a size that was typed is further away than this doubt and the tape's allow."""
        return abs(typed_mm - self.length_mm) > self.doubt_mm + TAPE_MM + TOLERANCE_MM


class PhotoSizes(Record):
    """The six sizes, three differences, and how the photo was taken.

    A taper is top less bottom, and left less right; `diagonals_apart` is rising less falling: the photo shows a piece
    out of square where one of them is larger than its doubt.
    `height_mm` is the camera's over the plane, about; `slant_deg` that in the middle of the artwork;
    `reach_ratio` the artwork's diagonal to the sheet's; `sheet_aspect_ratio` the proportion, long to short, that the
    sheet's perspective implies, and `aspect_doubt_pct` how far that can be trusted.
    """

    across_top: PhotoSize
    across_bottom: PhotoSize
    up_left: PhotoSize
    up_right: PhotoSize
    diagonal_rising: PhotoSize
    diagonal_falling: PhotoSize
    taper_across: PhotoSize
    taper_up: PhotoSize
    diagonals_apart: PhotoSize
    height_mm: float
    slant_deg: float
    reach_ratio: float
    sheet_on_its_side: bool
    sheet_aspect_ratio: float
    aspect_doubt_pct: float

    def named(self) -> Iterator[tuple[str, PhotoSize]]:
        """Each size under its name."""
        yield from ((name, getattr(self, name)) for name in _SIDES)

    def differences(self) -> Iterator[tuple[str, PhotoSize]]:
        """Each difference under its name."""
        yield from ((name, getattr(self, name)) for name in _DIFFERENCES)


def photo_sizes(marks: PhotoMarks, sheet: KnownSheet, camera: Camera, *, away_mm: float = 0.0) -> PhotoSizes:
    """Find the six sizes of an artwork in a photo.

    Args:
        marks: the eight marks, each four with the clock from the upper left.
        sheet: the sheet; whether it stands or lies on its side, its perspective tells.
        away_mm: how far the artwork's corners are in front of the sheet, toward the camera; below 0 behind it.
    Raises:
        ImpossibleArtwork: marks outside the photo, out of turn or too close together, or a view that tells nothing.
    Source: derived; the doubts by JCGM 100:2008, 5.1.2, from memory, not re-read.

    >>> four = (1.0, 1.0, 1.0, 1.0)
    >>> a4 = ((400, 600), (820, 600), (820, 1194), (400, 1194))
    >>> piece = ((900, 600), (1500, 600), (1500, 1400), (900, 1400))
    >>> marks = PhotoMarks(sheet=a4, artwork=piece, sheet_off_px=four, artwork_off_px=four)
    >>> sheet = KnownSheet(short_mm=210, long_mm=297, short_play_mm=0, long_play_mm=0)
    >>> sizes = photo_sizes(marks, sheet, Camera(photo_across_px=2000, photo_up_px=2000))
    >>> round(sizes.across_top.length_mm, 6), round(sizes.diagonal_rising.length_mm, 6)
    (300.0, 500.0)
    """
    _require_sound(marks, camera)
    implied = implied_ratio(marks.sheet, photo_across_px=camera.photo_across_px, photo_up_px=camera.photo_up_px)
    aside = implied.aspect_ratio > 1
    laid = _Laid.of(sheet, aside=aside)
    seen = laid.seen(marks.sheet)
    height_mm = seen.height_mm(centre=camera.centre, focal_px=camera.focal_px)
    if height_mm <= abs(away_mm):
        raise ImpossibleArtwork("Enter less: the camera was not even that far.", field="sheet_away_mm")
    doubts = _Doubts(marks=marks, laid=laid, camera=camera, height_mm=height_mm, away_mm=away_mm)
    sizes = dict(zip((*_SIDES, *_DIFFERENCES), doubts.sizes(), strict=True))
    slant_deg = _slant_deg(seen, marks, camera)
    return PhotoSizes(
        **sizes,
        height_mm=height_mm,
        slant_deg=slant_deg,
        reach_ratio=max(size.length_mm for size in sizes.values()) / hypot(laid.across_mm, laid.up_mm),
        sheet_on_its_side=aside,
        sheet_aspect_ratio=max(implied.aspect_ratio, 1 / implied.aspect_ratio),
        aspect_doubt_pct=implied.doubt_pct,
    )


class _Laid(Record):
    """A sheet as it lies in the photo: across and up, and the play of each."""

    across_mm: float
    up_mm: float
    across_play_mm: float
    up_play_mm: float

    @classmethod
    def of(cls, sheet: KnownSheet, *, aside: bool) -> "_Laid":
        if aside:
            return cls(
                across_mm=sheet.long_mm,
                up_mm=sheet.short_mm,
                across_play_mm=sheet.long_play_mm,
                up_play_mm=sheet.short_play_mm,
            )
        return cls(
            across_mm=sheet.short_mm,
            up_mm=sheet.long_mm,
            across_play_mm=sheet.short_play_mm,
            up_play_mm=sheet.long_play_mm,
        )

    def seen(self, corners: Corners) -> PlaneSeen:
        return plane_seen(corners, across_mm=self.across_mm, up_mm=self.up_mm)

    def lengths(self, sheet: Corners, artwork: Corners) -> Lengths:
        """The six sizes that two sets of marks give, and their three differences."""
        seen = self.seen(sheet)
        places = [seen.place(corner) for corner in artwork]
        sizes = [dist(places[start], places[end]) for start, end in _SIDES.values()]
        return (*sizes, *(sizes[one] - sizes[other] for one, other in _DIFFERENCES.values()))


class _Doubts(Record):
    """What the doubts of sizes and differences are worked out from."""

    marks: PhotoMarks
    laid: _Laid
    camera: Camera
    height_mm: float
    away_mm: float

    def sizes(self) -> Iterator[PhotoSize]:
        """The sizes and differences, brought back to the artwork's own plane."""
        back = 1 - self.away_mm / self.height_mm
        plane_ratio = self._plane_ratio()
        lengths = self.laid.lengths(self.marks.sheet, self.marks.artwork)
        found = zip(lengths, self._by_marks(), self._by_sheet(), self._by_lens(), strict=True)
        for length_mm, marks_mm, sheet_mm, lens_mm in found:
            yield PhotoSize(
                length_mm=length_mm * back,
                marks_mm=marks_mm * back * COVERAGE,
                sheet_mm=sheet_mm * back * COVERAGE * EVEN,
                lens_mm=lens_mm * back * COVERAGE * EVEN,
                plane_mm=abs(length_mm) * plane_ratio * COVERAGE * EVEN,
            )

    def _by_marks(self) -> Lengths:
        """The standard deviation that the marks leave: slopes to all sixteen numbers, each times its own."""
        eight = (*self.marks.sheet, *self.marks.artwork)
        off_px = (*self.marks.sheet_off_px, *self.marks.artwork_off_px)
        moves = [
            [spread_px / NUDGE_PX * half_mm for half_mm in self._half_change(eight, number, nudge)]
            for number, spread_px in enumerate(off_px)
            for nudge in ((NUDGE_PX, 0.0), (0.0, NUDGE_PX))
        ]
        return tuple(hypot(*of_size) for of_size in zip(*moves, strict=True))

    def _half_change(self, eight: Sequence[Pixel], number: int, nudge: Pixel) -> Lengths:
        """Half of what the sizes change by from a nudge one way to a nudge the other way."""
        (x, y), (across_px, down_px) = eight[number], nudge

        def with_mark(moved: Pixel) -> Lengths:
            return self._lengths_of([*eight[:number], moved, *eight[number + 1 :]])

        return _half(with_mark((x + across_px, y + down_px)), with_mark((x - across_px, y - down_px)))

    def _by_sheet(self) -> Lengths:
        """Half of what the sizes change by from the smallest sheet to the largest, in both directions of it."""
        across_mm, up_mm = self.laid.across_mm, self.laid.up_mm
        across_play_mm, up_play_mm = self.laid.across_play_mm, self.laid.up_play_mm

        def by_sheet_of(across_mm: float, up_mm: float) -> Lengths:
            laid = replace(self.laid, across_mm=across_mm, up_mm=up_mm)
            return laid.lengths(self.marks.sheet, self.marks.artwork)

        across = _half(by_sheet_of(across_mm + across_play_mm, up_mm), by_sheet_of(across_mm - across_play_mm, up_mm))
        up = _half(by_sheet_of(across_mm, up_mm + up_play_mm), by_sheet_of(across_mm, up_mm - up_play_mm))
        return tuple(map(hypot, across, up))

    def _by_lens(self) -> Lengths:
        eight, camera = (*self.marks.sheet, *self.marks.artwork), self.camera

        def through(by_ratio: float) -> Lengths:
            size = {"photo_across_px": camera.photo_across_px, "photo_up_px": camera.photo_up_px}
            return self._lengths_of([bent(pixel, by_ratio=by_ratio, **size) for pixel in eight])

        return tuple(map(abs, _half(through(LENS_RATIO), through(-LENS_RATIO))))

    def _plane_ratio(self) -> float:
        """The share of a size that the plane leaves open: its play, and where a correction was wanted its height's."""
        away = abs(self.away_mm) / self.height_mm
        return hypot(PLANE_PLAY_MM / self.height_mm, away * self.camera.focal_doubt_ratio)

    def _lengths_of(self, eight: Sequence[Pixel]) -> Lengths:
        a, b, c, d, e, f, g, h = eight
        return self.laid.lengths((a, b, c, d), (e, f, g, h))


def _half(one: Lengths, other: Lengths) -> Lengths:
    return tuple((a - b) / 2 for a, b in zip(one, other, strict=True))


def _slant_deg(seen: PlaneSeen, marks: PhotoMarks, camera: Camera) -> float:
    """The slant in the middle of the artwork's four marks.

    Raises:
        ImpossibleArtwork: it is too large to measure anything.
    """
    across, down = map(fmean, zip(*marks.artwork, strict=True))
    slant_deg = seen.slant_deg((across, down), centre=camera.centre, focal_px=camera.focal_px)
    if slant_deg > MOST_SLANT_DEG:
        raise ImpossibleArtwork("Seen too much from the side: take another photo.", field="sheet_corners")
    return slant_deg


def _require_sound(marks: PhotoMarks, camera: Camera) -> None:
    require_positive(photo_across_px=camera.photo_across_px, photo_up_px=camera.photo_up_px)
    for corners, of in ((marks.sheet, "sheet"), (marks.artwork, "artwork")):
        field = f"{of}_corners"
        if not all(0 <= x <= camera.photo_across_px and 0 <= y <= camera.photo_up_px for x, y in corners):
            raise ImpossibleArtwork(f"All four corners of the {of} must be in the photo.", field=field)
        require_clockwise(corners, field=field, of=of)
        if _area_px2(corners) < LEAST_AREA_RATIO * camera.photo_across_px * camera.photo_up_px:
            raise ImpossibleArtwork("Marks too close together: put them on the corners.", field=field)


def _area_px2(corners: Corners) -> float:
    (x1, y1), (x2, y2), (x3, y3), (x4, y4) = corners
    return ((x3 - x1) * (y4 - y2) - (x4 - x2) * (y3 - y1)) / 2
