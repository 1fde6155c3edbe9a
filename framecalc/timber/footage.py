"""Footage: how much stick a frame takes, before anything is laid out.

The *trade rule* takes the perimeter of the package and eight times the face width. That is longer than the long edges
of the four sides by what the rabbets cover less the clearance, which leaves a little for saw cuts.
"""

from framecalc.limits import require_not_negative, require_positive
from framecalc.sizes.members import slant_kerf_mm


def rule_footage_mm(*, package_across_mm: float, package_up_mm: float, face_width_mm: float) -> float:
    """Estimate by the trade rule.

    ``2 (package across + package up) + 8 · face width``

    Args:
        package_across_mm, package_up_mm, face_width_mm: > 0 [mm].
    Raises:
        OutOfRange: a length is not above zero.
    Source: common practice, no source.

    >>> rule_footage_mm(package_across_mm=297, package_up_mm=420, face_width_mm=30)
    1674
    """
    require_positive(package_across_mm=package_across_mm, package_up_mm=package_up_mm, face_width_mm=face_width_mm)
    return 2 * (package_across_mm + package_up_mm) + 8 * face_width_mm


def footage_with_cuts_mm(footage_mm: float, *, kerf_mm: float, cuts: int, sides: int = 4) -> float:
    """Add saw cuts to a footage.

    ``footage + cuts · k/cos(180°/n)``; 2n cuts when no two pieces share one, n − 1 between the pieces of one stick.

    Args:
        footage_mm: > 0 [mm]. kerf_mm: ≥ 0 [mm]. cuts: ≥ 0. sides: 3 to 24.
    Raises:
        OutOfRange: a number is out of its range.
    Source: derived.

    >>> round(footage_with_cuts_mm(1638, kerf_mm=3, cuts=8), 2)
    1671.94
    """
    require_positive(footage_mm=footage_mm)
    require_not_negative(cuts=cuts)
    return footage_mm + cuts * slant_kerf_mm(kerf_mm, sides=sides)
