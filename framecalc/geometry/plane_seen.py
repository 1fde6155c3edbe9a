"""A plane in a photo, by a rectangle of known size that lies in it: where pixels are on it, and from where it is seen.

The *plane* has millimetres from the upper left corner of the rectangle, across and down. The *foot* of the camera is
the point of the plane right under it, and its *height* the distance to that. The *slant* at a place is the angle
between the line of sight and the plane's normal. Corners go as in `perspective`: with the clock, from the upper left.
"""

from collections.abc import Iterator
from itertools import pairwise
from math import acos, degrees, hypot, isfinite, sqrt

from framecalc.errors import ImpossibleArtwork
from framecalc.geometry.perspective import Column, Corners, Pixel, square_onto
from framecalc.limits import require_positive
from framecalc.records import Record

FILM_DIAGONAL_MM = 43.27
"""The diagonal of 36 × 24 mm, which a *35 mm equivalent* focal length belongs to. Source: CIPA DCG-001, from memory,
not re-read."""

Place = tuple[float, float]
"""A place on the plane, across and down [mm]."""


class PlaneSeen(Record):
    """A plane as a photo shows it: the rows that carry a pixel to the plane, and the columns that carry it back."""

    rows: tuple[Column, Column, Column]
    columns: tuple[Column, Column, Column]

    def place(self, pixel: Pixel) -> Place:
        """Where on the plane a pixel is.

        Raises:
            ImpossibleArtwork: it lies at the horizon of the plane, or beyond.
        """
        x, y, depth = (row[0] * pixel[0] + row[1] * pixel[1] + row[2] for row in self.rows)
        if not depth > 0:
            raise ImpossibleArtwork("These marks fit no flat sheet: check its four corners.", field="sheet_corners")
        return x / depth, y / depth

    def slant_deg(self, pixel: Pixel, *, centre: Pixel, focal_px: float) -> float:
        """The slant at a pixel: 0 for a look straight at the plane."""
        normal = self._normal(centre=centre, focal_px=focal_px)
        sight = (pixel[0] - centre[0], pixel[1] - centre[1], focal_px)
        along = abs(sum(one * other for one, other in zip(normal, sight, strict=True)))
        return degrees(acos(min(1.0, along / hypot(*sight) / hypot(*normal))))

    def height_mm(self, *, centre: Pixel, focal_px: float) -> float:
        """How far the camera is from the plane, measured square to it: `|det K⁻¹H| / s³` with the scale `s`."""
        across, down, origin = self._columns_in_space(centre=centre, focal_px=focal_px)
        scale = sqrt(hypot(*across) * hypot(*down))
        normal = _cross(across, down)
        return abs(sum(one * other for one, other in zip(normal, origin, strict=True))) / scale**3

    def _normal(self, *, centre: Pixel, focal_px: float) -> Column:
        across, down, _ = self._columns_in_space(centre=centre, focal_px=focal_px)
        return _cross(across, down)

    def _columns_in_space(self, *, centre: Pixel, focal_px: float) -> tuple[Column, Column, Column]:
        """The directions of the plane and its origin before the camera, all to one unknown scale."""
        one, two, three = (
            ((x - centre[0] * depth) / focal_px, (y - centre[1] * depth) / focal_px, depth)
            for x, y, depth in self.columns
        )
        return one, two, three


def plane_seen(corners: Corners, *, across_mm: float, up_mm: float) -> PlaneSeen:
    """Find the plane of a rectangle of known size by its four corners in the photo.

    The homography from the unit square, each direction divided by its size, and its inverse by cofactors.

    Args:
        corners: the rectangle's corners [pixels].
        across_mm, up_mm: its true size [mm], > 0.
    Raises:
        ImpossibleArtwork: they are no corners of a rectangle seen from its front; the `field` is `sheet_corners`.
        OutOfRange: a size is not above zero.
    Source: derived; R. Hartley, A. Zisserman, Multiple View Geometry in Computer Vision, 2nd edition, section 2.3, from
        memory, not re-read.

    >>> seen = plane_seen(((100, 100), (700, 100), (700, 500), (100, 500)), across_mm=300, up_mm=200)
    >>> seen.place((400, 300))
    (150.0, 100.0)
    """
    require_positive(sheet_across_mm=across_mm, sheet_up_mm=up_mm)
    require_clockwise(corners, field="sheet_corners", of="sheet")
    onto = square_onto(corners)
    columns = (_divided(onto.across, across_mm), _divided(onto.down, up_mm), onto.origin)
    one, two, three = columns
    rows = (_cross(two, three), _cross(three, one), _cross(one, two))
    sign = 1.0 if sum(a * b for a, b in zip(rows[2], (*corners[0], 1.0), strict=True)) > 0 else -1.0
    first, second, third = ((sign * a, sign * b, sign * c) for a, b, c in rows)
    return PlaneSeen(rows=(first, second, third), columns=columns)


def bent(pixel: Pixel, *, by_ratio: float, photo_across_px: float, photo_up_px: float) -> Pixel:
    """Where a lens that bends lines puts a pixel: outward from the middle by `ratio · r³`, with r = 1 in the corners.

    Args:
        by_ratio: how far the corner of the photo is moved, to half the diagonal; below 0 inward.
    Source: the first term of D. C. Brown, Decentering Distortion of Lenses, 1966, from memory, not re-read.

    >>> bent((4000, 3000), by_ratio=0.01, photo_across_px=4000, photo_up_px=3000)
    (4020.0, 3015.0)
    """
    x, y = pixel[0] - photo_across_px / 2, pixel[1] - photo_up_px / 2
    square = (x * x + y * y) / (photo_across_px**2 + photo_up_px**2) * 4
    return pixel[0] + by_ratio * square * x, pixel[1] + by_ratio * square * y


def require_clockwise(corners: Corners, *, field: str, of: str) -> None:
    """Refuse corners that are out of turn, in one line, or not a number.

    Raises:
        ImpossibleArtwork: so they are, and the sentence says of what.
    Source: plane geometry.

    >>> require_clockwise(((0, 0), (3, 0), (3, 4), (0, 4)), field="sheet_corners", of="sheet")
    """
    if not all(isfinite(turn) and turn > 0 for turn in _turns(corners)):
        raise ImpossibleArtwork(f"Mark the {of}'s corners clockwise, from its upper left.", field=field)


def _turns(corners: Corners) -> Iterator[float]:
    sides = [(end[0] - start[0], end[1] - start[1]) for start, end in pairwise((*corners, corners[0]))]
    for one, other in pairwise((*sides, sides[0])):
        yield one[0] * other[1] - one[1] * other[0]


def _divided(column: Column, by: float) -> Column:
    return column[0] / by, column[1] / by, column[2] / by


def _cross(one: Column, other: Column) -> Column:
    return (
        one[1] * other[2] - one[2] * other[1],
        one[2] * other[0] - one[0] * other[2],
        one[0] * other[1] - one[1] * other[0],
    )
