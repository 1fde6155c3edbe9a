"""Which of two fences is off: test joints, each with the fences on which its two ends were cut.

A joint with an end from each fence gives the mean error of the two. A joint with *both* ends from one fence, one piece
turned over, gives the error of that fence alone. Two kinds of joint are needed for the error of each fence; one kind
gives only their mean, which is enough for the corners of a frame.
"""

from collections.abc import Sequence
from enum import StrEnum

from framecalc.corners.saw import MOST_ERROR_DEG
from framecalc.errors import OutOfRange
from framecalc.limits import require_between
from framecalc.records import Record


class Ends(StrEnum):
    """Which fence the two ends of a test joint were cut on."""

    EACH = "one end from each fence"
    LEFT = "both ends from the left fence"
    RIGHT = "both ends from the right fence"


class FenceErrors(Record):
    """How far each fence is off, the error of an end that it cuts."""

    left_deg: float
    right_deg: float

    @property
    def further_off(self) -> str:
        """The fence that is further off."""
        return "left" if abs(self.left_deg) >= abs(self.right_deg) else "right"


def find_fences(
    *, each_deg: Sequence[float], left_only_deg: Sequence[float], right_only_deg: Sequence[float]
) -> FenceErrors:
    """Find the error of each fence from test joints, by least squares.

    Minimise ``Σ((l + r)/2 − each)² + Σ(l − left)² + Σ(r − right)²``.

    Args:
        each_deg: errors read on joints with an end from each fence [°], −5 to 5.
        left_only_deg, right_only_deg: errors read on joints from one fence alone [°], −5 to 5.
    Raises:
        OutOfRange: an error is none, or there are joints of one kind only.
    Source: derived (normal equations; compared with a library's least squares in the tests).

    >>> errors = find_fences(each_deg=[0.1], left_only_deg=[0.05], right_only_deg=[])
    >>> round(errors.left_deg, 6), round(errors.right_deg, 6), errors.further_off
    (0.05, 0.15, 'right')
    """
    for error_deg in (*each_deg, *left_only_deg, *right_only_deg):
        require_between(-MOST_ERROR_DEG, MOST_ERROR_DEG, error_deg=error_deg)
    quarter = len(each_deg) / 4
    left, right = quarter + len(left_only_deg), quarter + len(right_only_deg)
    determinant = left * right - quarter**2
    if not determinant:
        raise OutOfRange("Add a joint of another kind, to tell the fences apart.", field="ends")
    of_left, of_right = sum(each_deg) / 2 + sum(left_only_deg), sum(each_deg) / 2 + sum(right_only_deg)
    return FenceErrors(
        left_deg=(right * of_left - quarter * of_right) / determinant,
        right_deg=(left * of_right - quarter * of_left) / determinant,
    )
