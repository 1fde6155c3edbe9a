"""Suggestions for a group: over a piece of furniture, and a gap in proportion. Each is a rule that is said."""

from collections.abc import Sequence

from framecalc.hanging.groups import OnWall
from framecalc.hanging.things import ThingKind
from framecalc.limits import require_positive
from framecalc.records import Record

OVER_MM = 200.0
"""Lower edges stand so far over furniture (8 in). Source: common practice, no source."""

GAP_RATIO = 1 / 6
"""A gap to the mean width of the frames. Source: common practice, no source."""

FURNITURE = frozenset({ThingKind.SEAT, ThingKind.SIDEBOARD, ThingKind.BED})
"""What a group is hung over."""


class OverFurniture(Record):
    """Where a group hangs over furniture: its middle across, its lower edges over the floor."""

    middle_mm: float
    low_mm: float


def over_furniture(place: OnWall) -> OverFurniture:
    """Put a group over furniture: in its middle, the lower edges `OVER_MM` above it.

    Source: common practice, no source.

    >>> sofa = OnWall(key="sofa", across_mm=2000, up_mm=850, x_mm=1600, y_mm=425)
    >>> found = over_furniture(sofa)
    >>> found.middle_mm, found.low_mm
    (1600, 1050.0)
    """
    return OverFurniture(middle_mm=place.x_mm, low_mm=place.high_mm + OVER_MM)


def gap_in_proportion_mm(across_mm: Sequence[float]) -> float:
    """A gap of a sixth of the mean width of the frames.

    Args:
        across_mm: how wide each frame is [mm], > 0; one at least.
    Raises:
        OutOfRange: a width is out of range, or there is none.
    Source: common practice, no source.

    >>> gap_in_proportion_mm([400, 500, 600])
    83.33333333333333
    """
    require_positive(frames=len(across_mm), **{f"across_{number}_mm": one for number, one in enumerate(across_mm)})
    return sum(across_mm) / len(across_mm) * GAP_RATIO
