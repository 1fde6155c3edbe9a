"""The weight of a whole frame and its centre of gravity, in three directions.

A mitred side is longer at its outer edge than at the sight edge. Its wood is taken *fibre by fibre*: each is as long as
the side is at its place. So a heavy outer edge counts more, in the weight and in how far the weight stands out.
"""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import radians, tan

from framecalc.errors import ImpossibleSize
from framecalc.geometry.outline import Outline, flatten
from framecalc.limits import require_between, require_not_negative, require_positive
from framecalc.records import Record

ROUND_MM = 0.002
"""A curve of the section is taken as chords that stray so little from it."""


class WeighedPart(Record):
    """One part of a frame: what it weighs and where its own centre of gravity is."""

    name: str
    mass_kg: float
    across_mm: float = 0.0
    up_mm: float = 0.0
    out_mm: float = 0.0


class Balance(Record):
    """What a frame weighs, and its centre of gravity."""

    mass_kg: float
    across_mm: float
    up_mm: float
    out_mm: float


def balance_of(parts: Iterable[WeighedPart]) -> Balance:
    """Balance the parts of a frame: ``centre = Σ mass · place / Σ mass``.

    Raises:
        ImpossibleSize: nothing of it weighs anything.
    Source: statics.

    >>> both = (WeighedPart(name="wood", mass_kg=1, out_mm=10), WeighedPart(name="pane", mass_kg=3, out_mm=6, up_mm=4))
    >>> balance_of(both)
    Balance(mass_kg=4, across_mm=0.0, up_mm=3.0, out_mm=7.0)
    """
    listed = tuple(parts)
    mass_kg = sum(part.mass_kg for part in listed)
    if mass_kg <= 0:
        raise ImpossibleSize("Nothing of this frame has a weight yet: weigh it.", field="weighed")
    across_mm, up_mm, out_mm = (
        sum(part.mass_kg * place for part, place in zip(listed, places, strict=True)) / mass_kg
        for places in zip(*((part.across_mm, part.up_mm, part.out_mm) for part in listed), strict=True)
    )
    return Balance(mass_kg=mass_kg, across_mm=across_mm, up_mm=up_mm, out_mm=out_mm)


def mitred_out_mm(outline: Outline, *, long_edges_mm: Sequence[float], mitre_deg: float) -> float:
    """How far the centre of gravity of mitred sides lies from their back.

    ``∫ y · length(x) dA / ∫ length(x) dA`` with ``length(x) = Σ long edges − 2 · n · x · tan M``, where x runs from the
    outer edge and y from the back of the section.

    Args:
        outline: the section of a side.
        long_edges_mm: of each of the n sides [mm].
        mitre_deg: M, the slant of an end from a square cut [degrees], 0 to 80.
    Raises:
        OutOfRange: a mitre that is none.
    Source: derived (integrals over a polygon).

    >>> from framecalc.geometry.outline import join
    >>> box = Outline(segments=join([(0, 0), (20, 0), (20, 30), (0, 30), (0, 0)]))
    >>> round(mitred_out_mm(box, long_edges_mm=(400,) * 4, mitre_deg=45), 6)
    15.0
    """
    require_between(0, 80, mitre_deg=mitre_deg)
    area, first_x, first_y, product = _moments(outline)
    slant = 2 * len(long_edges_mm) * tan(radians(mitre_deg))
    length = sum(long_edges_mm)
    return (length * first_y - slant * product) / (length * area - slant * first_x)


def plate_centre(*, area_mm2: float, openings: Iterable[tuple[float, float, float]]) -> tuple[float, float]:
    """The centre of a plate with openings, from its own middle.

    Args:
        area_mm2: of the plate with nothing cut out [mm²], > 0.
        openings: of each its area [mm²], and its middle across and up [mm].
    Raises:
        OutOfRange: a plate without area, or openings as large as it.
    Source: statics.

    >>> plate_centre(area_mm2=100, openings=[(50, 0.0, 2.0)])
    (0.0, -2.0)
    """
    cut = tuple(openings)
    require_positive(area_mm2=area_mm2)
    left_mm2 = area_mm2 - sum(area for area, _, _ in cut)
    require_positive(left_mm2=left_mm2)
    return (
        0 - sum(area * across for area, across, _ in cut) / left_mm2,
        0 - sum(area * up for area, _, up in cut) / left_mm2,
    )


def shares_ratio(*, left_mm: float, right_mm: float) -> tuple[float, float]:
    """How a weight falls on two hangers: each takes what the other is far from it, over the way between them.

    Args:
        left_mm, right_mm: from the centre of gravity to the left and to the right hanger [mm], ≥ 0.
    Raises:
        OutOfRange: the weight is not between them, or they are in one place.
    Source: levers.

    >>> shares_ratio(left_mm=250, right_mm=150)
    (0.375, 0.625)
    """
    require_not_negative(left_mm=left_mm, right_mm=right_mm)
    require_positive(apart_mm=left_mm + right_mm)
    return right_mm / (left_mm + right_mm), left_mm / (left_mm + right_mm)


def _moments(outline: Outline) -> tuple[float, float, float, float]:
    """``∫dA, ∫x dA, ∫y dA, ∫xy dA`` of a section, its curves as fine chords."""
    points = flatten(outline, tolerance_mm=ROUND_MM)
    area = first_x = first_y = product = 0.0
    for (x, y), (u, v) in pairwise((*points, points[0])):
        cross = x * v - u * y
        area += cross / 2
        first_x += (x + u) * cross / 6
        first_y += (y + v) * cross / 6
        product += (x * v + 2 * x * y + 2 * u * v + u * y) * cross / 24
    return area, first_x, first_y, product
