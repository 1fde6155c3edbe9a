"""A cleat: one strip ripped along its middle at 45°; one half on the frame, bevel down, one on the wall, bevel up.

Both halves lie in one plane, so that the frame stands off the wall by the thickness of the strip.
"""

from framecalc.limits import require_positive
from framecalc.records import Record

OUT_MM, HIGH_MM, IN_MM = 12.0, 38.0, 3.0
"""A half is so thick (1/2 in) and so high (1 1/2 in), and ends so far under the top edge. Source: common practice, no
source."""

OF_ACROSS_RATIO = 2 / 3
"""It is as long as this part of the side. Source: common practice, no source."""


class Cleat(Record):
    """A half of it; `drop_mm` is from the frame's top edge to the upper edge of the half on the wall, as it hangs."""

    long_mm: float
    high_mm: float
    out_mm: float
    drop_mm: float

    @property
    def strip_mm(self) -> float:
        """How high the strip is before it is ripped: both halves, which share the slope."""
        return 2 * self.high_mm - self.out_mm

    @property
    def lift_mm(self) -> float:
        """How far the frame is lifted to come off: as deep as the halves lap at 45°."""
        return self.out_mm


def cleat_for(*, side_mm: float, out_mm: float = OUT_MM, high_mm: float = HIGH_MM) -> Cleat:
    """Size a cleat for a side.

    ``drop = in + high − thickness``: at 45° the slope falls by the thickness.

    Args:
        side_mm: the outer edge of the side that it hangs by [mm], > 0.
        out_mm, high_mm: how thick a half is, and how high [mm], > 0.
    Raises:
        OutOfRange: a length is out of range.
    Source: plane geometry; the sizes are common practice, no source.

    >>> cleat = cleat_for(side_mm=600)
    >>> cleat.long_mm, cleat.drop_mm, cleat.strip_mm
    (400.0, 29.0, 64.0)
    """
    require_positive(side_mm=side_mm, out_mm=out_mm, high_mm=high_mm)
    return Cleat(long_mm=side_mm * OF_ACROSS_RATIO, high_mm=high_mm, out_mm=out_mm, drop_mm=IN_MM + high_mm - out_mm)
