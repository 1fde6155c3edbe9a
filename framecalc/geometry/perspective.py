"""A photo of a rectangle taken at a slant: how to set it straight, and what proportion it has.

The *corners* are where the rectangle's four corners lie in the photo: upper left, upper right, lower right, lower left,
in pixels from the photo's upper left corner, y down. A *homography* carries the unit square onto them, s from 0 to 1
across and t from 0 to 1 down:

    x = (a·s + b·t + c) / (g·s + h·t + 1)        y = (d·s + e·t + f) / (g·s + h·t + 1)

Its columns are *across* (a, d, g), *down* (b, e, h) and *origin* (c, f, 1). Where opposite sides converge in the photo,
the two vanishing points give the *focal length* F of the camera, and with it the *implied ratio* of the rectangle,
across to up. A camera is taken to have square pixels, to look through the middle of the photo, and to bend no line: a
crop or a wide lens breaks that.
"""

from collections.abc import Iterable, Iterator, Sequence
from enum import StrEnum
from itertools import pairwise
from math import hypot, isfinite, sqrt

from framecalc.errors import ImpossibleArtwork
from framecalc.findings import Finding, Severity
from framecalc.limits import require_positive
from framecalc.records import Record

Pixel = tuple[float, float]
"""A place in a photo: across and down from its upper left corner [pixels]."""

Column = tuple[float, float, float]
"""A column of a homography: two pixels' worth and a weight."""

Corners = tuple[Pixel, Pixel, Pixel, Pixel]
"""Upper left, upper right, lower right, lower left."""

LEAST_AREA_RATIO = 1e-3
"""Corners around less than a thousandth of the photo are a slip, not a picture. Common practice, no source."""

USUAL_FOCAL_RATIO = 0.65
"""Focal length to the photo's diagonal where the photo itself does not tell: a telephone's main camera, about 28 mm on
the 43.3 mm diagonal of a 36 × 24 mm frame. Common practice, no source."""

PLAUSIBLE_FOCAL_RATIOS = (0.35, 5.0)
"""Focal lengths outside this come from corners that lie a pixel off, not from a lens. Common practice, no source."""

USUAL_FOCAL_PLAY = (2 / 3, 4 / 3)
"""Between which parts of a usual focal length the true one is. Common practice, no source."""

PLACED_RATIO = 0.0006
"""How far from its corner a careful hand puts a mark, to the photo's diagonal: 1.5 pixels in a photo of 2000 × 1500.
Common practice, no source."""

SAID_FROM_PCT = 1.0
"""A difference between the photo's and the tape's proportion that is worth a sentence. Common practice, no source."""


class FocalLength(StrEnum):
    """Where the focal length behind an implied ratio comes from."""

    FROM_CORNERS = "from the corners"
    USUAL = "taken as usual"


class Homography(Record):
    """What carries the unit square onto four corners, column by column."""

    across: Column
    down: Column
    origin: Column


class ImpliedProportion(Record):
    """The proportion that a photo implies: across to up, how far it can be trusted, where the focal length is from."""

    aspect_ratio: float
    doubt_pct: float
    focal_length: FocalLength


def square_onto(corners: Corners) -> Homography:
    """Carry the unit square onto four corners.

    With `Σ = p₀ − p₁ + p₂ − p₃` and `δ₁ = p₁ − p₂`, `δ₂ = p₃ − p₂`: `g = δ₂×Σ / δ₂×δ₁`, `h = Σ×δ₁ / δ₂×δ₁`, and the
    rest follows from the corners themselves.

    Args:
        corners: a convex quadrilateral, clockwise as seen in the photo, from the upper left.
    Raises:
        ImpossibleArtwork: they are no such quadrilateral.
    Source: P. S. Heckbert, Fundamentals of Texture Mapping and Image Warping, 1989, section 2.2.3; from memory, not
        re-read; checked in the tests against a linear solve.

    >>> square_onto(((1, 1), (3, 1), (4, 3), (0, 3)))
    Homography(across=(2.0, 0.0, 0.0), down=(-1.0, 0.5, -0.5), origin=(1, 1, 1.0))
    """
    _require_convex(corners)
    upper_left, upper_right, lower_right, lower_left = corners
    away = _plus(_minus(upper_left, upper_right), _minus(lower_right, lower_left))
    right, left = _minus(upper_right, lower_right), _minus(lower_left, lower_right)
    whole = _cross(left, right)
    g, h = _cross(left, away) / whole, _cross(away, right) / whole
    return Homography(
        across=(*_minus(_times(1 + g, upper_right), upper_left), g),
        down=(*_minus(_times(1 + h, lower_left), upper_left), h),
        origin=(*upper_left, 1.0),
    )


def through(homography: Homography, point: Pixel) -> Pixel:
    """Where a point of the unit square lies in the photo.

    Source: derived.

    >>> through(square_onto(((0, 0), (4, 0), (4, 3), (0, 3))), (0.5, 1))
    (2.0, 3.0)
    """
    s, t = point
    x, y, depth = (
        across * s + down * t + origin
        for across, down, origin in zip(homography.across, homography.down, homography.origin, strict=True)
    )
    return x / depth, y / depth


def straightening(corners: Corners, *, across_px: int, up_px: int) -> tuple[float, ...]:
    """The eight numbers with which a raster library sets the photo straight into `across_px` by `up_px` pixels.

    They carry a place in the straight picture to its place in the photo, `x = (k₀u + k₁v + k₂)/(k₆u + k₇v + 1)`.

    Args:
        across_px, up_px: size of the straight picture [pixels], > 0.
    Raises:
        ImpossibleArtwork: as `square_onto`.
        OutOfRange: a size is not above zero.
    Source: derived.

    >>> straightening(((1, 1), (3, 1), (4, 3), (0, 3)), across_px=8, up_px=4)
    (0.25, -0.25, 1, 0.0, 0.125, 1, 0.0, -0.125)
    """
    require_positive(across_px=across_px, up_px=up_px)
    onto = square_onto(corners)
    rows = zip(onto.across, onto.down, onto.origin, strict=True)
    return tuple(number for across, down, origin in rows for number in (across / across_px, down / up_px, origin))[:8]


def straight_size_px(corners: Corners, *, aspect_ratio: float, most_px: int) -> tuple[int, int]:
    """How many pixels a straight picture deserves: those of the longer of its opposite sides, in the given proportion.

    Args:
        aspect_ratio: across to up, > 0.
        most_px: the most along the longer side [pixels], > 0.
    Raises:
        ImpossibleArtwork: as `square_onto`.
        OutOfRange: the proportion or the most is not above zero.
    Source: derived.

    >>> straight_size_px(((0, 0), (400, 0), (400, 300), (0, 300)), aspect_ratio=4 / 3, most_px=200)
    (200, 150)
    """
    require_positive(aspect_ratio=aspect_ratio, most_px=most_px)
    _require_convex(corners)
    top, right, bottom, left = _sides_px(corners)
    across_px = max(top, bottom, max(left, right) * aspect_ratio)
    shrink = min(1.0, most_px / max(across_px, across_px / aspect_ratio))
    return max(1, round(across_px * shrink)), max(1, round(across_px * shrink / aspect_ratio))


def implied_ratio(corners: Corners, *, photo_across_px: int, photo_up_px: int) -> ImpliedProportion:
    """The proportion across to up that the perspective of four corners implies, and how far it can be trusted.

    With the origin in the middle of the photo, the homography's columns `(a, d, g)` and `(b, e, h)` are the images of
    two perpendicular directions, so `F² = −(ab + de)/(gh)`, and
    `ratio² = ((a² + d²)/F² + g²) / ((b² + e²)/F² + h²)`.

    Sides that hardly converge say little about F; a usual one then says more. Of the two the less doubtful is taken.
    The doubt is how far the ratio moves when each corner is put elsewhere by `PLACED_RATIO`, and a usual F is taken a
    third shorter or longer, added as independent errors are.

    Args:
        photo_across_px, photo_up_px: size of the whole photo, uncropped [pixels], > 0.
    Raises:
        ImpossibleArtwork: as `square_onto`, or the corners take up hardly any of the photo.
    Source: Z. Zhang, L.-W. He, Whiteboard scanning and image enhancement, 2007, section 3.3, from memory, not re-read;
        derived again from the two perpendicular directions.

    >>> implied = implied_ratio(((0, 0), (4, 0), (4, 3), (0, 3)), photo_across_px=4, photo_up_px=3)
    >>> round(implied.aspect_ratio, 6), implied.focal_length.value
    (1.333333, 'taken as usual')
    """
    require_positive(photo_across_px=photo_across_px, photo_up_px=photo_up_px)
    _require_large_enough(corners, photo_px2=photo_across_px * photo_up_px)
    diagonal_px = hypot(photo_across_px, photo_up_px)
    centred = _moved(corners, by=(-photo_across_px / 2, -photo_up_px / 2))
    views = [square_onto(moved) for moved in (centred, *_nudged(centred, by_px=PLACED_RATIO * diagonal_px))]
    usual = _from_usual_lens(views, usual_px=USUAL_FOCAL_RATIO * diagonal_px)
    told = _from_corners(views, diagonal_px=diagonal_px)
    return min((usual, told), key=lambda implied: implied.doubt_pct) if told else usual


def proportion_difference_pct(implied: ImpliedProportion, *, across_mm: float, up_mm: float) -> float:
    """By how much the photo is wider for its height than the tape found, in per cent; negative where it is narrower.

    Args:
        across_mm, up_mm: what the tape found [mm], > 0.
    Source: derived.

    >>> implied = ImpliedProportion(aspect_ratio=0.76, doubt_pct=0.2, focal_length=FocalLength.USUAL)
    >>> round(proportion_difference_pct(implied, across_mm=300, up_mm=400), 3)
    1.333
    """
    require_positive(across_mm=across_mm, up_mm=up_mm)
    return (implied.aspect_ratio * up_mm / across_mm - 1) * 100


def proportion_findings(implied: ImpliedProportion, *, across_mm: float, up_mm: float) -> Iterator[Finding]:
    """Report when the photo's proportion is not the tape's: a warning where that is certain, a note where it is not.

    Args:
        across_mm, up_mm: what the tape found [mm], > 0.
    Source: derived; the limit is common practice, no source.

    >>> implied = ImpliedProportion(aspect_ratio=0.8, doubt_pct=0.3, focal_length=FocalLength.FROM_CORNERS)
    >>> [finding.code for finding in proportion_findings(implied, across_mm=300, up_mm=400)]
    ['photo.proportion']
    """
    away_pct = proportion_difference_pct(implied, across_mm=across_mm, up_mm=up_mm)
    if abs(away_pct) <= SAID_FROM_PCT:
        return
    certain = abs(away_pct) - SAID_FROM_PCT > implied.doubt_pct
    word = "wider" if away_pct > 0 else "narrower"
    yield Finding(
        code="photo.proportion",
        severity=Severity.WARN if certain else Severity.NOTE,
        sentence=f"In the photo the picture is {abs(away_pct):.1f}% {word} for its height than the measured "
        f"{{across}} × {{up}}, give or take {max(implied.doubt_pct, 0.1):.1f}%.",
        why="A mark beside its corner, a cropped photo, or a slip with the tape: measure across and up once more.",
        source=f"perspective of the four corners; focal length {implied.focal_length}",
        argument="photo_corners",
        lengths={"across": across_mm, "up": up_mm},
    )


def _from_usual_lens(views: Sequence[Homography], *, usual_px: float) -> ImpliedProportion:
    ratio = _ratio_at(views[0], usual_px)
    others = [_ratio_at(view, usual_px) for view in views[1:]]
    others += [_ratio_at(views[0], usual_px * factor) for factor in USUAL_FOCAL_PLAY]
    return ImpliedProportion(aspect_ratio=ratio, doubt_pct=_doubt_pct(ratio, others), focal_length=FocalLength.USUAL)


def _from_corners(views: Sequence[Homography], *, diagonal_px: float) -> ImpliedProportion | None:
    """The proportion with the focal length that the corners tell; None where a nudge makes it one that no lens has."""
    least_px, most_px = (ratio * diagonal_px for ratio in PLAUSIBLE_FOCAL_RATIOS)
    focals_px = [_focal_px(view) for view in views]
    if not all(least_px <= focal_px <= most_px for focal_px in focals_px):
        return None
    ratio, *others = [_ratio_at(view, focal_px) for view, focal_px in zip(views, focals_px, strict=True)]
    return ImpliedProportion(
        aspect_ratio=ratio, doubt_pct=_doubt_pct(ratio, others), focal_length=FocalLength.FROM_CORNERS
    )


def _focal_px(onto: Homography) -> float:
    """The focal length that makes the two directions perpendicular, or 0 where none does."""
    (a, d, g), (b, e, h) = onto.across, onto.down
    square = -(a * b + d * e) / (g * h) if g * h else 0.0
    return sqrt(square) if square > 0 else 0.0


def _ratio_at(onto: Homography, focal_px: float) -> float:
    (a, d, g), (b, e, h) = onto.across, onto.down
    return hypot(a, d, g * focal_px) / hypot(b, e, h * focal_px)


def _doubt_pct(ratio: float, others: Iterable[float]) -> float:
    """Errors that are independent of each other, added; each was tried both ways, so a half of their squares counts."""
    return sqrt(sum((other / ratio - 1) ** 2 for other in others) / 2) * 100


def _nudged(corners: Corners, *, by_px: float) -> Iterator[Corners]:
    """The corners, with one of them moved left, right, up or down."""
    for place, (x, y) in enumerate(corners):
        for moved in ((x - by_px, y), (x + by_px, y), (x, y - by_px), (x, y + by_px)):
            four = [moved if at == place else corner for at, corner in enumerate(corners)]
            yield four[0], four[1], four[2], four[3]


def _moved(corners: Corners, *, by: Pixel) -> Corners:
    upper_left, upper_right, lower_right, lower_left = corners
    return _plus(upper_left, by), _plus(upper_right, by), _plus(lower_right, by), _plus(lower_left, by)


def _sides_px(corners: Corners) -> list[float]:
    return [hypot(*_minus(end, start)) for start, end in pairwise((*corners, corners[0]))]


def _require_convex(corners: Corners) -> None:
    """Refuse corners that a photo of a rectangle cannot have: out of turn, in one line, or not a number."""
    turns = [
        _cross(_minus(corner, before), _minus(after, corner))
        for before, corner, after in zip((corners[-1], *corners), corners, (*corners[1:], corners[0]), strict=False)
    ]
    if not all(isfinite(turn) and turn > 0 for turn in turns):
        raise ImpossibleArtwork(
            "Mark the corners clockwise, from the upper left.",
            field="photo_corners",
        )


def _require_large_enough(corners: Corners, *, photo_px2: float) -> None:
    _require_convex(corners)
    area_px2 = sum(_cross(start, end) for start, end in pairwise((*corners, corners[0]))) / 2
    if area_px2 < LEAST_AREA_RATIO * photo_px2:
        raise ImpossibleArtwork(
            "Marks too close together: put them on the picture's corners.",
            field="photo_corners",
        )


def _plus(one: Pixel, other: Pixel) -> Pixel:
    return one[0] + other[0], one[1] + other[1]


def _times(factor: float, pixel: Pixel) -> Pixel:
    return factor * pixel[0], factor * pixel[1]


def _minus(one: Pixel, other: Pixel) -> Pixel:
    return one[0] - other[0], one[1] - other[1]


def _cross(one: Pixel, other: Pixel) -> float:
    return one[0] * other[1] - one[1] * other[0]
